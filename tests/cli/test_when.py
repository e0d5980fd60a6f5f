"""Days as people say them; what day of the week a date is comes from the standard library's calendar."""

from __future__ import annotations

import calendar
from datetime import date, timedelta

import pytest

from fitlore.cli.failure import CouldNot
from fitlore.cli.when import read_day, read_when

THURSDAY = date(2026, 12, 3)


@pytest.mark.parametrize("today", [THURSDAY + timedelta(days=n) for n in range(7)])
@pytest.mark.parametrize("number", range(7))
def test_a_weekday_is_the_next_one(today: date, number: int) -> None:
    """Within a week, never today, in any case and cut to three letters or more."""
    name = calendar.day_name[number]
    for text in (name, name.upper(), name[:3], name[:4]):
        day = read_when(text, today)
        assert day is not None
        assert day.weekday() == number
        assert 1 <= (day - today).days <= 7


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("today", THURSDAY),
        (" Tomorrow ", date(2026, 12, 4)),
        ("2026-12-09", date(2026, 12, 9)),
        ("9 dec", date(2026, 12, 9)),
        ("dec 9", date(2026, 12, 9)),
        ("9. Dec.", date(2026, 12, 9)),
        ("9 december 2027", date(2027, 12, 9)),
        ("2 feb", date(2027, 2, 2)),
        ("29 feb 2028", date(2028, 2, 29)),
    ],
)
def test_days_as_they_are_said(text: str, day: date) -> None:
    """A day and month without a year is the next such day."""
    assert read_when(text, THURSDAY) == day


def test_a_day_just_past_is_not_taken_for_next_years() -> None:
    """Who says `by 2 dec` on the third has slipped; next year's is said with its year."""
    with pytest.raises(CouldNot, match="2027-12-02"):
        read_when("2 dec", THURSDAY)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "fr",
        "someday",
        "30 feb",
        "29 feb 2027",
        "2026-13-01",
        "9",
        "9 9",
        "0 dec",
        "9 dec x",
        "9 dec 12",
        "9 decade",
        "\u00b2 dec",
    ],
)
def test_what_is_no_day_is_none(text: str) -> None:
    """Nothing is guessed; `read_day` says so."""
    assert read_when(text, THURSDAY) is None
    with pytest.raises(CouldNot, match="is no day"):
        read_day(text, THURSDAY)
