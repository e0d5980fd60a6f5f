"""Dates and periods as ISO 8601-2 (EDTF, level 0 and the parts of level 1 that people need), and three-valued questions.

A car's building date is one unknown day in a set of days; a condition is a set of days, an end given as a month includes
the whole month. True means that every possible day lies in the condition, false that none does.
"""

from __future__ import annotations

import calendar
import re
from datetime import date
from typing import Final

import msgspec

from fitlore.model.kleene import Tri

_POINT: Final = re.compile(r"([0-9]{4}|[0-9]{3}X|[0-9]{2}XX)(?:-([0-9]{2}|XX)(?:-([0-9]{2}|XX))?)?([?~%]?)")
FIRST, LAST = date.min.toordinal(), date.max.toordinal()


class Period(msgspec.Struct, frozen=True, array_like=True):
    """A date or interval as written, and its bounds as day ordinals (`datetime.date.toordinal`).

    `start`/`end` bound the days that are possible; `surely_from`/`surely_till` those that certainly belong to an interval
    (an unknown end makes that part empty). `qualified`: written with ?, ~ or %, so it proves nothing by itself.
    """

    text: str
    start: int
    end: int
    surely_from: int
    surely_till: int
    qualified: bool = False

    def __str__(self) -> str:
        return self.text


def read_period(text: str) -> Period | None:
    """`1986`, `1986-08`, `1986-08-03`, `198X`, `1983-03/1991-10`, `../1986-07`, `1986-08/..`; None for anything else."""
    if "/" not in text:
        one = _point(text)
        return Period(text, one[0], one[1], one[0], one[1], one[2]) if one else None
    left, _, right = text.partition("/")
    if left in ("..", "") and right in ("..", ""):
        return None
    first = _end(left, opening=True)
    last = _end(right, opening=False)
    if first is None or last is None or first[0] > last[1]:
        return None
    return Period(text, first[0], last[1], first[1], last[0], first[2] or last[2])


def read_day(text: str) -> date | None:
    """`2026-12-03` as a day; None for anything else."""
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def within(one_day: Period, condition: Period) -> Tri:
    """Does the one unknown day that `one_day` bounds lie in the set of days that `condition` describes?"""
    if one_day.qualified or condition.qualified:
        return Tri.ASK
    if one_day.end < condition.start or one_day.start > condition.end:
        return Tri.FALSE
    if condition.surely_from <= one_day.start and one_day.end <= condition.surely_till:
        return Tri.TRUE
    return Tri.ASK


def _end(text: str, *, opening: bool) -> tuple[int, int, bool] | None:
    """The possible end, the sure end and the qualifier of one side of an interval."""
    if text == "..":
        return (FIRST, FIRST, False) if opening else (LAST, LAST, False)
    if text == "":
        return FIRST, LAST, False
    one = _point(text)
    if one is None:
        return None
    if any(mark in text for mark in "X"):
        return one
    return (one[0], one[0], one[2]) if opening else (one[1], one[1], one[2])


def _point(text: str) -> tuple[int, int, bool] | None:
    match = _POINT.fullmatch(text)
    if not match:
        return None
    year, month, day, qualifier = match.groups()
    low_year, high_year = int(year.replace("X", "0")), int(year.replace("X", "9"))
    if low_year == 0 or ("X" in year and month):
        return None
    months = (1, 12) if month in (None, "XX") else (int(month), int(month))
    if not 1 <= months[0] <= 12 or (month == "XX" and day not in (None, "XX")):
        return None
    last_day = calendar.monthrange(high_year, months[1])[1]
    days = (1, last_day) if day in (None, "XX") else (int(day), int(day))
    if not 1 <= days[0] <= days[1] <= last_day:
        return None
    return (
        date(low_year, months[0], days[0]).toordinal(),
        date(high_year, months[1], days[1]).toordinal(),
        bool(qualifier),
    )
