"""From the text on a belt to its section, its length and which length that is."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import INCH, Words, shown, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

EXAMPLES: Final = ("6PK1045", "AVX10x1000 La", "10x950 Li", "SPZ 925")
_LEN: Final = r"(\d{3,4}(?:[.,]\d{1,2})?)"
_END: Final = r"(?: ?mm)?(?![\w.,/])"
_HEAD: Final = r"(?<![\w.,/])"
_RIBBED: Final = words(rf"{_HEAD}(\d{{1,2}}) ?(D)?(P[HJKLM])(?: ?[x-]? ?{_LEN})?{_END}")
_AUTO: Final = words(rf"{_HEAD}AV(X)? ?(\d\d)(?:(?: ?[x/-] ?| ){_LEN})?{_END}")
_NARROW: Final = words(rf"{_HEAD}([SX]P[ZAB])(?: ?[x-]? ?{_LEN})?{_END}")
_WIDE: Final = words(rf"{_HEAD}(9[.,]5|10|12[.,]5|13|17) ?(?:mm ?)?x ?{_LEN}{_END}")
_LETTER: Final = words(rf"{_HEAD}([ZAB]X?)[ -]?(\d{{2,4}}(?:[.,]\d{{1,2}})?){_END}")
_BARE: Final = words(r"\bsection ([ZAB]X?)(?![\w.,/])")
_BELT: Final = words(r"\b(?:V[- ]?belt|vee[- ]?belt|belt|section)\b")
_KIND: Final = (
    ("La", words(r"(?<![A-Z])(?:La|outside(?: length)?)(?![A-Z])")),
    ("Ld", words(r"(?<![A-Z])(?:Ld|Lp|Lw|(?:datum|pitch)(?: length)?)(?![A-Z])")),
    ("Li", words(r"(?<![A-Z])(?:Li|inside(?: length)?)(?![A-Z])")),
    ("Le", words(r"(?<![A-Z])(?:Le|effective(?: length)?)(?![A-Z])")),
)
_NOTCHED: Final = words(r"\b(?:notched|cogged|moulded notch)\b")
_ELASTIC: Final = words(r"\b(?:elastic|stretch(?:[- ]?fit)?)\b")
_NAME: Final = words(
    r"\b(?:(?:V|vee|multi|poly|fan|drive|alternator|ribbed|rib|serpentine)[- ]?belt|belt|multi[- ]?rib(?:bed)?|ribbed|section"
    r"|V|DIN ?(?:2215|7753(?:-[13])?)|ISO ?(?:2790|4184|998[12]))\b"
)
_DASH: Final = words(r"(?:(?<=\s)|^)-(?:(?=\s|\w)|$)")
_OLD: Final = {"9.5": "AV10", "12.5": "AV13"}
"""Widths of DIN 7753-3 that became those of ISO 2790 (recalled)."""
_CLASSICAL: Final = {"10": "Z", "13": "A", "17": "B"}
INCHES: Final = 200
"""A letter and a figure below this is the inside length in inches (A36), above it the datum length in mm (ISO 4184)."""


class Belt(NamedTuple):
    """A belt: a V section with its row, or a ribbed one with its profile's row and a number of ribs. Lengths in mm."""

    row: TableRow
    length: Decimal | None = None
    kind: str = "Le"
    """Which length it is: La, Ld, Li, or Le (ribbed)."""
    notched: bool = False
    ribs: int = 0
    double: bool = False
    elastic: bool = False

    @property
    def system(self) -> str:
        """How its length is toleranced."""
        return "ribbed" if self.ribs else self.row.word("system")

    def __str__(self) -> str:
        length = "" if self.length is None else shown(self.length)
        if self.ribs:
            double, elastic = "D" if self.double else "", " elastic" if self.elastic else ""
            return f"{self.ribs}{double}{self.row.word('profile')}{length}{elastic}"
        name = self.row.word("notched" if self.notched else "section")
        if not length:
            return f"section {name}" if self.system == "classical" else name
        joint = "x" if self.system == "automotive" else " "
        return f"{name}{joint}{length} {self.kind}"


def read(text: str, standards: Standards) -> Belt | Unreadable:
    """The belt a text names. A width and a length without a word for which length are a question.

    The effective length is the one that ISO 2790 and ISO 9981 mean; the trade calls it La on a V belt (common practice).
    """
    found = Words(text)
    if found.too_long:
        return _unknown(text)
    called = _BELT.search(found.rest) is not None
    kinds = [name for name, pattern in _KIND if found.take(pattern)]
    notched, elastic = bool(found.take(_NOTCHED)), bool(found.take(_ELASTIC))
    bare = found.take(_BARE)
    if len(kinds) > 1:
        return _unknown(text)
    kind = kinds[0] if kinds else ""
    while found.take(_NAME) or found.take(_DASH):
        pass
    for pattern, make in ((_RIBBED, _ribbed), (_AUTO, _auto), (_NARROW, _narrow), (_WIDE, _wide)):
        if match := found.take(pattern):
            made = make(text, match, kind, standards)
            break
    else:
        letter = bare or (found.take(_LETTER) if called or kind else None)
        made = _letter(text, letter, kind, standards) if letter else _unknown(text)
    if isinstance(made, Unreadable):
        return made
    if found.bare() or (elastic and not made.ribs) or (notched and made.ribs):
        return _unknown(text)
    return made._replace(notched=made.notched or notched, elastic=elastic)


def _unknown(text: str) -> Unreadable:
    return Unreadable(text, "belt-unknown", expected=EXAMPLES)


def _number(text: str | None) -> Decimal | None:
    return Decimal(text.replace(",", ".")) if text else None


def _ribbed(text: str, match: re.Match[str], kind: str, standards: Standards) -> Belt | Unreadable:
    rows = standards.table("rib-profile").find(profile=match[3].upper())
    if not rows or kind not in ("", "Le") or not int(match[1]):
        return _unknown(text)
    return Belt(rows[0], _number(match[4]), ribs=int(match[1]), double=bool(match[2]))


def _v(
    text: str, name: str, length: Decimal | None, kind: str, notched: bool, standards: Standards
) -> Belt | Unreadable:
    rows = standards.table("belt-section").find(section=name)
    if not rows:
        near = tuple(row.word("section") for row in standards.table("belt-section").rows)
        return Unreadable(text, "belt-unlisted", expected=near)
    if kind == "Le" and rows[0].word("system") != "automotive":
        return _unknown(text)
    said = rows[0].word("said")
    return Belt(rows[0], length, said if kind in ("", "Le") or length is None else kind, notched)


def _auto(text: str, match: re.Match[str], kind: str, standards: Standards) -> Belt | Unreadable:
    return _v(text, f"AV{match[2]}", _number(match[3]), kind, bool(match[1]), standards)


def _narrow(text: str, match: re.Match[str], kind: str, standards: Standards) -> Belt | Unreadable:
    name = match[1].upper()
    return _v(text, f"S{name[1:]}", _number(match[2]), kind, name[0] == "X", standards)


def _wide(text: str, match: re.Match[str], kind: str, standards: Standards) -> Belt | Unreadable:
    width, length = match[1].replace(",", "."), _number(match[2])
    if width in _OLD:
        return _v(text, _OLD[width], length, kind, False, standards)
    if kind in ("Li", "Ld"):
        return _v(text, _CLASSICAL[width], length, kind, False, standards)
    outside = _v(text, f"AV{width}", length, "La", False, standards)
    if kind and isinstance(outside, Belt):
        return outside
    inside = _v(text, _CLASSICAL[width], length, kind or "Li", False, standards)
    if kind:
        return inside
    readings = tuple(str(one) for one in (outside, inside) if isinstance(one, Belt))
    return Unreadable(text, "belt-which-length", readings)


def _letter(text: str, match: re.Match[str], kind: str, standards: Standards) -> Belt | Unreadable:
    name = match[1].upper()
    length = _number(match[2]) if match.re is _LETTER else None
    if length is not None and length < INCHES:
        if kind:
            return _unknown(text)
        length, kind = length * INCH, "Li"
    return _v(text, name[0], length, kind, name.endswith("X"), standards)
