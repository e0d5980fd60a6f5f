"""What the tables of accessory belts look like."""

from __future__ import annotations

import math
from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

LENGTHS: Final = ("La", "Ld", "Li")
"""Round the outside, at the datum line, round the inside."""
_ROUND: Final = Decimal("2.5")
"""How far printed conversions are rounded, in mm."""


def round_height(height: Decimal) -> Decimal:
    """How much longer a belt of this height is outside than inside, in mm: a ring of it has two circles (geometry)."""
    return height * 2 * Decimal(math.pi)


def _section(row: TableRow) -> str:
    if row.number("height") >= row.number("top"):
        return "a V belt is wider than high"
    if "inside-under" not in row.numbers:
        return ""
    both = row.number("inside-under") + row.number("outside-over")
    off = abs(both - round_height(row.number("height")))
    return "" if off <= _ROUND else "inside and outside length are not a height apart"


def _tolerance(row: TableRow) -> str:
    small = row.number("shorter") < row.number("up-to") * Decimal("0.02")
    return "" if row.number("over") < row.number("up-to") and small else "no belt is made as badly as that"


SECTIONS: Final[Mapping[str, Section]] = {
    "belt-section": Section(
        family="belt",
        key=("section",),
        numbers=dict.fromkeys(("top", "height", "inside-under", "outside-over"), "mm"),
        words={
            "section": (),
            "notched": (),
            "system": ("automotive", "classical", "narrow"),
            "said": LENGTHS,
        },
        optional=frozenset({"inside-under"}),
        implausible=_section,
    ),
    "rib-profile": Section(family="belt", key=("profile",), numbers={"pitch": "mm"}, words={"profile": ()}),
    "belt-length-tolerance": Section(
        family="belt",
        key=("system", "over"),
        numbers=dict.fromkeys(("over", "up-to", "shorter"), "mm"),
        words={"system": ("classical", "narrow", "ribbed")},
        implausible=_tolerance,
    ),
}
"""Section name to its shape."""
