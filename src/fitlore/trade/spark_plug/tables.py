"""What the tables of spark plugs look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

SEATS: Final = ("flat seat", "conical seat")


def _long_enough(row: TableRow) -> str:
    """No plug hangs by less than four turns, and none is longer than a head is thick."""
    return "" if 7 <= row.number("reach") <= 30 else "no reach of a plug"


def _named_by_its_size(row: TableRow) -> str:
    """`14 mm` is said for M14."""
    return "" if row.word("thread").startswith(f"M{row.cell('diameter')}x") else "no thread of this diameter"


SECTIONS: Final[Mapping[str, Section]] = {
    "plug-thread": Section(
        family="spark-plug",
        key=("diameter",),
        numbers={"diameter": "mm"},
        words={"thread": ()},
        implausible=_named_by_its_size,
    ),
    "plug-seat": Section(family="spark-plug", key=("seat",), words={"seat": SEATS, "seals": (), "tell": ()}),
    "plug-reach": Section(
        family="spark-plug",
        key=("thread", "seat", "reach"),
        numbers={"reach": "mm"},
        words={"thread": (), "seat": SEATS},
        implausible=_long_enough,
    ),
    "plug-hexagon": Section(
        family="spark-plug",
        key=("thread", "seat", "hexagon", "standard"),
        numbers={"hexagon": "mm"},
        words={"thread": (), "seat": SEATS, "standard": ()},
    ),
}
"""Section name to its shape. `reach` is from the seat to the end of the thread, without the gasket."""
