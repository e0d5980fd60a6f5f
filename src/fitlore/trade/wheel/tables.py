"""What the tables of wheels look like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

_INCH: Final = Decimal("25.4")


def _circle(row: TableRow) -> str:
    """An inch name has to be the diameter, to a tenth of a mm (4.25 in is sold as 108)."""
    named = row.word("named").removesuffix(" in")
    if not named:
        return ""
    return (
        ""
        if abs(Decimal(named) * _INCH - row.number("diameter")) <= Decimal("0.1")
        else "the name is not the diameter"
    )


SECTIONS: Final[Mapping[str, Section]] = {
    "bolt-circle": Section(
        family="wheel",
        key=("holes", "diameter"),
        numbers={"holes": "1", "diameter": "mm"},
        words={"named": ()},
        optional=frozenset({"named"}),
        implausible=_circle,
    ),
    "rim-flange": Section("wheel", ("flange",), {"height": "mm"}, {"flange": ()}),
    "rim-hump": Section("wheel", ("hump",), words={"hump": (), "meaning": ()}),
}
"""Section name to its shape."""
