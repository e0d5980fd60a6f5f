"""Days in words. The number of a day stands without a nought; not every system's own forms of dates can say so."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import date


def long_day(day: date) -> str:
    """`Thursday 3 December 2026`."""
    return f"{day:%A} {plain_day(day)}"


def plain_day(day: date) -> str:
    """`3 December 2026`."""
    return f"{day.day} {day:%B %Y}"


def short_day(day: date) -> str:
    """`Thu 3 Dec`."""
    return f"{day:%a} {day.day} {day:%b}"
