"""Texts into vehicle identification numbers, and the check digit."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards

EXAMPLES: Final = ("1TB4V52R8XA000417",)
LENGTH: Final = 17
CHECK: Final = 8
"""Where the check digit stands, counted from nought."""
_TEXT: Final = re.compile(
    r"\*?\s*(?:(?:VIN|chassis(?: number| no\.?)?)\s*:?\s*)?(?P<number>[A-Z0-9][A-Z0-9 -]{3,30}[A-Z0-9])\s*\*?",
    re.I,
)
_WHOLE: Final = re.compile(r"[A-HJ-NPR-Z0-9]{13}[0-9]{4}")
_ALIKE: Final = (
    "5S",
    "8B",
    "2Z",
    "6G",
    "0D",
    "1L",
    "UV",
    "7T",
    "4A",
    "MN",
    "PR",
    "EF",
    "CG",
    "VY",
    "KX",
    "38",
    "17",
)
"""Characters that are taken for one another in stamps and photographs. Common practice."""


def read(text: str, standards: Standards) -> str | Unreadable:
    """The number in capitals without spaces.

    ISO 3779: 17 characters, no I, O, Q, the last four figures. Where the law asks for a check digit (49 CFR 565.15) it has
    to be right; elsewhere a failing one proves nothing and is not looked at.
    """
    match = _TEXT.fullmatch(text.strip())
    number = re.sub(r"[ -]", "", match["number"]).upper() if match else ""
    if not any(sign.isdigit() for sign in number):
        return Unreadable(text, "vin-unknown", expected=EXAMPLES)
    if len(number) != LENGTH:
        return Unreadable(text, "vin-length" if 6 <= len(number) <= 20 else "vin-unknown", expected=EXAMPLES)
    if set(number) & set("IOQ"):
        return Unreadable(text, "vin-letter", tuple(_without_letters(number, standards)))
    if not _WHOLE.fullmatch(number):
        return Unreadable(text, "vin-serial", expected=EXAMPLES)
    if checked(number, standards) and check_digit(number, standards) != number[CHECK]:
        return Unreadable(text, "vin-check", tuple(repairs(number, standards))[:6])
    return number


def checked(number: str, standards: Standards) -> bool:
    """Whether numbers that begin like this have to carry a check digit."""
    rows = standards.table("vin-region").find(first=number[0])
    return any(row.word("checked") == "yes" for row in rows)


def check_digit(number: str, standards: Standards) -> str:
    """What stands at the ninth place of a number with a check digit: weighted sum modulo 11, ten written X."""
    values = {
        row.word("character"): int(row.number("value")) for row in standards.table("vin-character").rows
    }
    weights = {
        int(row.number("position")): int(row.number("weight")) for row in standards.table("vin-weight").rows
    }
    rest = sum(values[sign] * weights[at] for at, sign in enumerate(number, 1)) % 11
    return "X" if rest == 10 else str(rest)


def alike(one: str, other: str) -> bool:
    """Whether two characters are taken for one another."""
    return one == other or any({one, other} == set(pair) for pair in _ALIKE)


def repairs(number: str, standards: Standards) -> Iterator[str]:
    """Numbers with one character read for one that looks alike, whose check digit is right."""
    for at, sign in enumerate(number):
        for pair in _ALIKE:
            if sign in pair:
                other = number[:at] + pair.replace(sign, "") + number[at + 1 :]
                if _WHOLE.fullmatch(other) and check_digit(other, standards) == other[CHECK]:
                    yield other


def years(number: str, standards: Standards) -> tuple[int, ...]:
    """Model years the tenth place may stand for: two, thirty years apart, or one.

    Only where a check digit is asked for does the tenth place mean the year. A letter at the seventh place says the later
    one, a figure the earlier one (49 CFR 565.15, for cars and light vans).
    """
    rows = standards.table("vin-year").find(code=number[9])
    if not rows or not checked(number, standards):
        return ()
    first = int(rows[0].number("first"))
    return (first,) if number[6].isdigit() else (first + 30,)


def _without_letters(number: str, standards: Standards) -> Iterator[str]:
    """The number with 1 for I and 0 for O and Q, where that is one."""
    other = number.translate(str.maketrans("IOQ", "100"))
    if not isinstance(read(other, standards), Unreadable):
        yield other
