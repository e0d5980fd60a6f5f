"""Days and times that lie behind: `yesterday`, `3 dec`, `in May 2024`, `two years`."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Final, NamedTuple

from fitlore.model.dates import read_period

_FIGURES: Final = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip
COUNT: Final = rf"\d{{1,5}}|an?|{'|'.join(_FIGURES[1:])}"
"""A count in figures or in words, as a pattern."""
_MONTHS: Final = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
    "december",
)  # fmt: skip
_DAYS: Final = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTH: Final = "|".join(f"{name[:3]}(?:{name[3:]})?" for name in _MONTHS)
_DAY: Final = "|".join(_DAYS)
_SAID: Final = re.compile(
    rf"(?:(?:on|in|since|last)\s+)*(?:(?P<iso>\d{{4}}(?:-\d\d(?:-\d\d)?)?)|(?P<near>today|yesterday|{_DAY})"
    rf"|(?:(?P<day>\d{{1,2}})\.?\s+)?(?P<month>{_MONTH})\.?(?:\s+(?P<year>\d{{4}}))?)(?![\w-])\s*",
    re.IGNORECASE,
)


class SaidDay(NamedTuple):
    """A day, month or year as ISO 8601-2, and the words after it."""

    text: str
    rest: str


class Lasted(NamedTuple):
    """How long: `2 years`."""

    number: int
    unit: str

    def __str__(self) -> str:
        return f"{self.number} {self.unit}{'' if self.number == 1 else 's'}"


def counted(text: str) -> int:
    """The figure of a COUNT."""
    low = text.casefold()
    return 1 if low in ("a", "an") else _FIGURES.index(low) if low in _FIGURES else int(low)


def said_day(text: str, today: date) -> SaidDay | None:
    """The day that a text begins with; one without its year is the last such day, today counts. None: it begins with none."""
    match = _SAID.match(text)
    if match is None:
        return None
    found = match["iso"] or (_near(match["near"], today) if match["near"] else _of_month(match, today))
    return SaidDay(found, text[match.end() :]) if found and read_period(found) is not None else None


def _near(word: str, today: date) -> str:
    low = word.casefold()
    if low in ("today", "yesterday"):
        return (today - timedelta(days=int(low == "yesterday"))).isoformat()
    return (today - timedelta(days=(today.weekday() - _DAYS.index(low) - 1) % 7 + 1)).isoformat()


def _of_month(match: re.Match[str], today: date) -> str:
    month = next(n for n, name in enumerate(_MONTHS, 1) if name.startswith(match["month"][:3].casefold()))
    day = int(match["day"]) if match["day"] else None
    year = int(match["year"]) if match["year"] else today.year
    if not match["year"] and (month, day or 0) > (today.month, today.day if day else 0):
        year -= 1
    return f"{year:04}-{month:02}" + (f"-{day:02}" if day else "")


def day_ago(lasted: Lasted, today: date) -> str:
    """About when something was fitted that has lasted so long: as exact as the unit it was said in."""
    if lasted.unit == "year":
        return f"{today.year - lasted.number:04}"
    if lasted.unit == "month":
        months = today.year * 12 + today.month - 1 - lasted.number
        return f"{months // 12:04}-{months % 12 + 1:02}"
    days = lasted.number * (7 if lasted.unit == "week" else 1)
    return (today - timedelta(days=days)).isoformat()
