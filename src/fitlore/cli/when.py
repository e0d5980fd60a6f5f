"""Days as people say them: `friday`, `tomorrow`, `2026-12-09`, `9 dec`."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

_DAYS: Final = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS: Final = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


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
    if len(bits) not in (2, 3):
        return None
    number = next((bit for bit in bits[:2] if bit.isdigit()), "")
    month = next((n for n, name in enumerate(_MONTHS, 1) for bit in bits[:2] if bit.startswith(name)), 0)
    if not number or not month:
        return None
    year = int(bits[2]) if len(bits) == 3 and bits[2].isdigit() else today.year
    try:
        day = date(year, month, int(number))
        return day if day >= today or len(bits) == 3 else day.replace(year=year + 1)
    except ValueError:
        return None
