"""What the tables of pipe unions look like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

FLARES: Final = ("double", "single", "bubble", "37 deg", "24 deg cone", "60 deg cone", "banjo")
"""Forms of pipe end, as they are written in the normal form."""


def _pipe(row: TableRow) -> str:
    """An inch name has to be the outside diameter, to a fiftieth of a mm (3/16 in is sold as 4.75)."""
    named = row.word("named")
    if not named:
        return ""
    top, bottom = named.removesuffix(" in").split("/")
    inches = Decimal(top) / Decimal(bottom) * Decimal("25.4")
    return "" if abs(inches - row.number("outside")) <= Decimal("0.02") else "the name is not the diameter"


SECTIONS: Final[Mapping[str, Section]] = {
    "flare-form": Section(
        family="pipe-union",
        key=("flare",),
        numbers={"angle": "deg"},
        words={"flare": FLARES, "pipe-end": (), "seat": (), "in-brakes": ("yes", "no")},
        optional=frozenset({"angle"}),
    ),
    "pipe": Section(
        family="pipe-union",
        key=("outside",),
        numbers={"outside": "mm"},
        words={"named": ()},
        optional=frozenset({"named"}),
        implausible=_pipe,
    ),
    "union-size": Section(
        family="pipe-union",
        key=("flare", "pipe", "thread"),
        numbers={"pipe": "mm"},
        words={"flare": FLARES, "thread": ()},
    ),
}
"""Section name to its shape."""
