"""What the tables of wheel nuts and wheel bolts look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

SEATS: Final = ("cone 60", "cone 90", "ball R12", "ball R13", "ball R14", "flat", "sleeve")
"""Forms of seat as they are written in the normal form; a sleeve with its diameter behind it."""


def _seat(row: TableRow) -> str:
    """The figure in the name is the angle or the radius."""
    figure = row.word("seat").rpartition(" ")[2].lstrip("R")
    own = row.cell("angle") or row.cell("radius")
    return "" if not own or figure == own else "the name is not the angle or the radius"


SECTIONS: Final[Mapping[str, Section]] = {
    "wheel-seat": Section(
        family="wheel-fixing",
        key=("seat",),
        numbers={"angle": "deg", "radius": "mm"},
        words={"seat": SEATS, "tell": ()},
        optional=frozenset({"angle", "radius"}),
        implausible=_seat,
    ),
    "wheel-thread": Section(family="wheel-fixing", key=("thread",), words={"thread": ()}),
}
"""Section name to its shape."""
