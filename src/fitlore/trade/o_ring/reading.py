"""From the text to a ring: inside and section in mm, the rubber, and what runs against it."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from typing import Final, NamedTuple

from fitlore.trade.o_ring.rubber import take_medium, take_rubber
from fitlore.trade.o_ring.tables import SECTIONS_BY_LEAD
from fitlore.trade.pieces import FIGURE, INCH, Words, in_mm, shown, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

EXAMPLES: Final = ("20x2.5", "-112", "P20", "3/4 x 1/8")
THICKEST: Final = Decimal(9)
"""Section in mm at most (ISO 3601-1: 8.4, rounded up): a second figure above it is an outside, not a section."""
SEAL_WIDTH: Final = Decimal(5)
"""Width in mm from which a third figure may be a shaft seal's (common practice)."""
PLUMPEST: Final = Decimal("2.2")
"""Section over inside at most: the plumpest listed ring is AS568-102, 1.24x2.62."""
_U: Final = r"(?:\s?(mm|\"|in(?:ch)?))?"
_PAIR: Final = words(rf"(?<![\w/.,-])({FIGURE}){_U} ?x ?({FIGURE}){_U}(?![\w/.,-])")
_TRIPLE: Final = words(rf"(?<![\w/.,-])({FIGURE}) ?x ?({FIGURE}) ?x ?({FIGURE}) ?(?:mm)?(?![\w/.,-])")
_DASH: Final = words(r"(?:(?:\bAS ?568[AB]?|\bBS ?(?:1806)?|\bdash|\bno\.?) ?-? ?|^-)(\d{3})(?![\d.,/x])")
_JIS: Final = words(r"(?<![\w-])(?:JIS ?)?([PG] ?\d{1,3}(?:\.\d)?A?)(?![\w.])")
_SHORE: Final = words(r"(?<!\d)([4-9]\d) ?(?:deg )?(?:sh(?:ore)? ?a?|irhd)?(?!\S)")
_NAME: Final = words(r"\b(?:o[- ]?ring|ring|seal|size|hardness|rubber)\b")


class Ring(NamedTuple):
    """A ring. Inside and section in mm; rubber, medium and hardness (Shore A) empty where the text says none."""

    inside: Decimal
    section: Decimal
    rubber: str = ""
    medium: str = ""
    shore: str = ""

    def __str__(self) -> str:
        parts = [
            f"{shown(self.inside)}x{shown(self.section)}",
            self.rubber,
            self.shore and f"{self.shore} Shore",
        ]
        parts += [f"for {self.medium.replace('-', ' ')}"] if self.medium else []
        return " ".join(part for part in parts if part)


def read(text: str, standards: Standards) -> Ring | Unreadable:
    """The ring a text names, by size or by number. Inch fractions are nominal (AS568): 3/4 x 1/8 is 18.64x3.53."""
    found = Words(text)
    if found.too_long:
        return Unreadable(text, "o-ring-unknown", expected=EXAMPLES)
    medium, rubber = take_medium(found), take_rubber(found, standards)
    while found.take(_NAME):
        pass
    if triple := found.take(_TRIPLE):
        size = _triple(text, *(in_mm(figure, "mm") for figure in triple.groups()))
    elif pair := found.take(_PAIR):
        size = _pair(text, (pair[1], pair[3]), (pair[2] or pair[4] or "").casefold() or None, standards)
    else:
        size = _number(text, found, standards)
    if isinstance(size, Unreadable):
        return size
    shore = found.take(_SHORE)
    if found.bare():
        return Unreadable(text, "o-ring-unknown", expected=EXAMPLES)
    return Ring(*size, rubber, medium, shore[1] if shore else "")


def _triple(
    text: str, inside: Decimal, outside: Decimal, section: Decimal
) -> tuple[Decimal, Decimal] | Unreadable:
    """Inside, outside and section, where the three agree. Those of a shaft seal may by chance (38x52x7): then a question."""
    if inside + 2 * section != outside:
        return Unreadable(text, "o-ring-unknown", expected=EXAMPLES)
    if section >= SEAL_WIDTH:
        return Unreadable(text, "o-ring-outside", (str(Ring(inside, section)),))
    return inside, section


def _pair(
    text: str, figures: tuple[str, str], unit: str | None, standards: Standards
) -> tuple[Decimal, Decimal] | Unreadable:
    first, second = figures
    if "/" in second and "/" + second.split("/")[1] in ("/16", "/32", "/8", "/4") and unit != "mm":
        return _nominal(text, first, second, standards)
    if "/" in first + second and unit in (None, "mm"):
        return Unreadable(text, "o-ring-unknown", expected=EXAMPLES)  # a wheel (7 1/2 x 3), or half in inches
    inside, section = in_mm(first, unit or "mm"), in_mm(second, unit or "mm")
    if unit not in (None, "mm") or first[0] in ".," or second[0] in ".,":
        inside, section = (round(in_mm(figure, "in"), 2) for figure in (first, second))
    if not section or not inside:
        return Unreadable(text, "o-ring-unknown", expected=EXAMPLES)
    if section <= THICKEST and section <= inside * PLUMPEST:
        return inside, section
    swapped = Ring(section, inside)
    if inside <= THICKEST < section:
        return Unreadable(text, "o-ring-order", (str(swapped),))
    if inside < section < inside + 2 * THICKEST:
        return Unreadable(text, "o-ring-outside", (str(Ring(inside, (section - inside) / 2)),))
    return Unreadable(text, "o-ring-unknown", expected=EXAMPLES)


def _nominal(
    text: str, first: str, second: str, standards: Standards
) -> tuple[Decimal, Decimal] | Unreadable:
    """The listed ring whose inside rounds to the nominal fraction, in the series of the nominal section."""
    lead = next((lead for lead, named in SECTIONS_BY_LEAD.items() if named == second.strip()), "")
    wanted = in_mm(first, "in") / INCH
    near = [row for row in standards.table("as568-ring").rows if lead and row.word("dash")[0] == lead]
    rows = [row for row in near if nominal(row) == Fraction(wanted)]
    if rows:
        return rows[-1].number("inside"), rows[-1].number("section")
    by_inside = sorted(near, key=lambda row: abs(row.number("inside") - wanted * INCH))
    return Unreadable(
        text, "o-ring-unlisted", expected=tuple(f"-{row.word('dash')}" for row in by_inside[:3]) or EXAMPLES
    )


def nominal(row: TableRow) -> Fraction:
    """The nominal inside of an AS568 ring in inches: the next 32nd above its inside, which is made a little under it."""
    return Fraction(math.ceil(row.number("inside") / INCH * 32 - Decimal("0.02")), 32)


def _number(text: str, found: Words, standards: Standards) -> tuple[Decimal, Decimal] | Unreadable:
    if dash := found.take(_DASH):
        rows = standards.table("as568-ring").find(dash=dash[1])
        if not rows:
            near = [
                row.word("dash")
                for row in standards.table("as568-ring").rows
                if row.word("dash")[0] == dash[1][0]
            ]
            expected = tuple(
                f"-{one}" for one in sorted(near, key=lambda one: abs(int(one) - int(dash[1])))[:3]
            )
            return Unreadable(text, "o-ring-unlisted", expected=expected or EXAMPLES)
        return rows[0].number("inside"), rows[0].number("section")
    if jis := found.take(_JIS):
        rows = standards.table("jis-ring").find(code=jis[1].replace(" ", "").upper())
        if rows:
            return rows[0].number("inside"), rows[0].number("section")
        return Unreadable(text, "o-ring-unlisted", expected=EXAMPLES)
    return Unreadable(text, "o-ring-unknown", expected=EXAMPLES)
