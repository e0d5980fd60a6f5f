"""Texts into brake fluids."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from fitlore.trade.pieces import Words, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

EXAMPLES: Final = ("DOT 4", "DOT 5.1", "DOT 5", "ISO 4925 class 6", "ISO 7308")
_HINT: Final = words(
    r"\bD\.?O\.?T|\bISO\b|\bJ ?170[345]\b|\bfluid\b|\bhydraulic\b|\bHSMO\b|\bLHM\b|\bNSBBF\b|\bSBBF\b"
)
_OR: Final = words(r"\bor\b")
_DOT: Final = words(
    r"\bDOT\s*-?\s*(?P<first>[2-9](?:[.,-]\s?[0-9])?)(?![\w.])(?P<more>(?:\s*(?:/|&|\+)\s*(?:DOT\s*-?\s*)?[2-9](?:[.,-][0-9])?(?![\w.]))*)"
    r"(?!\+)"
)
_ISO: Final = words(
    r"\bISO\s*(?:4925(?:[:-](?:1978|2005|2020))?[ -]*(?:class\s*)?|class\s*)(?P<class>[3-7](?:[-.]1)?)(?![\w.])"
)
_CLASS: Final = words(r"\bclass\s*(?P<class>[3-7](?:[-.]1)?)(?![\w.])")
_SAE: Final = words(r"\b(?:SAE\s*)?J ?(?P<paper>170[345])\b")
_MINERAL: Final = words(
    r"\b(?:ISO\s*730[89]|HSMO|LHM|(?:hydraulic system )?mineral(?: oil)?(?:[ -]based?)?)(?:[ -]type)?\b"
)
_NO_SILICONE: Final = words(r"\b(?:non|not|no)[ -]?silicone?(?:[ -]based?)?\b|\bNSBBF\b")
_SILICONE: Final = words(r"\bsilicone?(?:[ -]based?)?\b|\bSBBF\b")
_GLYCOL: Final = words(r"\b(?:poly)?glycol(?:[ -](?:ether|based?))*\b")
_FILLER: Final = words(
    r"\bFMVSS(?: No)?[. ]*116\b|\b(?:hydraulic|brake|clutch|synthetic)\b|\bfluid\b|\band\b|(?<!\S)[/&+,;()](?!\S)|[()]"
)


class Fluid(NamedTuple):
    """A brake fluid: its base, and the grades it is said to meet, all of them."""

    base: str
    rows: tuple[TableRow, ...]

    def __str__(self) -> str:
        return " / ".join(row.word("grade") for row in self.rows)


def read(text: str, standards: Standards) -> Fluid | Unreadable:
    """The fluid a text names. A base without a grade, and grades of two bases in one text, are questions."""
    unknown = Unreadable(text, "brake-fluid-unknown", expected=EXAMPLES)
    if not _HINT.search(text):
        return unknown
    found = Words(text)
    if found.too_long:
        return unknown
    grades = _grades(found)
    bases = _bases(found)
    choice = found.take(_OR)
    while found.take(_FILLER):
        pass
    if found.bare() or not (grades or bases):
        return unknown
    table = standards.table("brake-fluid-grade")
    rows = tuple(row for row in table.rows if row.word("grade") in grades)
    if len(rows) != len(grades):
        return Unreadable(text, "brake-fluid-grade", expected=EXAMPLES)
    bases |= {row.word("base") for row in rows}
    if choice and len(rows) > 1:
        each = tuple(row.word("grade") for row in rows)
        return Unreadable(text, "brake-fluid-either", each, each)
    if len(bases) > 1:
        return Unreadable(text, "brake-fluid-two-bases", expected=_readings(grades, bases))
    if not rows and bases == {"glycol"}:
        return Unreadable(text, "brake-fluid-no-grade", expected=("DOT 3", "DOT 4", "DOT 5.1"))
    base = bases.pop()
    implied = {"silicone": "DOT 5", "mineral": "ISO 7308"}.get(base, "")
    return Fluid(base, rows or table.find(grade=implied))


def _grades(found: Words) -> set[str]:
    grades: set[str] = set()
    while match := found.take(_DOT):
        for figure in re.findall(r"[2-9](?:[.,-]\s?[0-9])?", f"{match['first']} {match['more']}"):
            number = re.sub(r"[,-]\s?", ".", figure.replace(" ", "")).removesuffix(".0")
            grades.add(f"DOT {number}")
    while match := found.take(_ISO) or (found.take(_CLASS) if grades else None):
        grades.add(f"ISO 4925 class {match['class'].replace('.', '-')}")
    while match := found.take(_SAE):
        grades.add(f"SAE J{match['paper']}")
    return grades


def _bases(found: Words) -> set[str]:
    """The bases a text names by a word. `non-silicone` is glycol: FMVSS 116 knows no third one of these grades."""
    named = {"mineral": _MINERAL, "glycol": _NO_SILICONE, "silicone": _SILICONE}
    bases = {base for base, pattern in named.items() if found.take(pattern)}
    return bases | {"glycol"} if found.take(_GLYCOL) else bases


def _readings(grades: set[str], bases: set[str]) -> tuple[str, ...]:
    """What a text of two bases may have meant: each of its grades, and the usual grade of each base."""
    usual = {
        "silicone": "DOT 5",
        "mineral": "ISO 7308",
        "glycol": "DOT 5.1" if "DOT 5" in grades else "DOT 4",
    }
    return tuple(sorted(grades | {usual[base] for base in bases}))
