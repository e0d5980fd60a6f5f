"""Days as people say them: `friday`, `tomorrow`, `2026-12-09`, `9 dec`."""

from __future__ import annotations

import os
import re
from datetime import date, datetime, time, timedelta
from typing import Final

from fitlore.cli.failure import CouldNot

_DAYS: Final = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS: Final = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
    "december",
)  # fmt: skip
_FAR: Final = 183
"""A day without a year that is past is next year's only where that is nearer than half a year."""


def this_day() -> date:
    """Today; or the day that FITLORE_TODAY names, to look at a shop as of another day."""
    text = os.environ.get("FITLORE_TODAY", "")
    if not text:
        return date.today()
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise CouldNot(f"FITLORE_TODAY is {text!r}; write it like 2026-12-09, or leave it away") from None


def this_hour(day: date) -> time | None:
    """The local time if the day is today by the clock; None for any other day, which counts from its morning.

    A day that FITLORE_TODAY names has no hour.
    """
    now = datetime.now().astimezone()
    return (
        None
        if os.environ.get("FITLORE_TODAY") or day != now.date()
        else now.time().replace(second=0, microsecond=0)
    )


def read_day(text: str, today: date) -> date:
    """As `read_when`; raises CouldNot where it cannot be read."""
    day = read_when(text, today)
    if day is None:
        raise CouldNot(f"{text!r} is no day; write `friday`, `9 dec` or `2026-12-09`")
    return day


def read_when(text: str, today: date) -> date | None:
    """A day on or after today; a weekday is the next one (today itself does not count). None where it cannot be read."""
    word = " ".join(text.casefold().split())
    if word in ("today", "tomorrow"):
        return today + timedelta(days=int(word == "tomorrow"))
    for number, name in enumerate(_DAYS):
        if len(word) >= 3 and name.startswith(word):
            return today + timedelta(days=(number - today.weekday() - 1) % 7 + 1)
    try:
        return date.fromisoformat(word)
    except ValueError:
        return _day_and_month(word, today)


def _day_and_month(word: str, today: date) -> date | None:
    bits = word.replace(".", " ").split()
    year = today.year
    if len(bits) == 3 and re.fullmatch(r"[12]\d{3}", bits[2], re.ASCII):
        year = int(bits.pop())
    if len(bits) != 2:
        return None
    number = next((bit for bit in bits if re.fullmatch(r"\d{1,2}", bit, re.ASCII)), "")
    name = next((bit for bit in bits if bit != number), "")
    month = next((n for n, full in enumerate(_MONTHS, 1) if len(name) >= 3 and full.startswith(name)), 0)
    if not number or not month:
        return None
    try:
        day = date(year, month, int(number))
        if day >= today or str(year) in word:
            return day
        later = day.replace(year=year + 1)
        if (later - today).days > _FAR:
            raise CouldNot(f"{word} is past; write {later.isoformat()} if next year's is meant")
        return later
    except ValueError:
        return None
