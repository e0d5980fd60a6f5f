"""What the tables of keys look like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

_INCH: Final = Decimal("25.4")


def woodruff_inches(number: str) -> tuple[Decimal, Decimal]:
    """Width and disc of a Woodruff key in mm, from its number (ANSI B17.2).

    The last two figures are the disc in eighths of an inch, those before them the width in 32nds.
    """
    return Decimal(number[:-2]) * _INCH / 32, Decimal(number[-2:]) * _INCH / 8


def _parallel(row: TableRow) -> str:
    """The ways together are a little deeper than the key is high."""
    room = row.number("in-shaft") + row.number("in-hub") - row.number("height")
    return "" if Decimal(0) < room < Decimal("0.6") else "the ways are not made for that height"


def _number(row: TableRow) -> str:
    width, disc = woodruff_inches(row.word("number"))
    near = abs(width - row.number("width")) < Decimal("0.001") and abs(disc - row.number("disc")) < Decimal(
        "0.001"
    )
    return "" if near else "the number says another size"


def _disc(row: TableRow) -> str:
    return "" if row.number("height") < row.number("disc") / 2 else "a Woodruff key is less than half a disc"


SECTIONS: Final[Mapping[str, Section]] = {
    "parallel-key": Section(
        family="key",
        key=("width", "height"),
        numbers=dict.fromkeys(("over", "up-to", "width", "height", "in-shaft", "in-hub"), "mm"),
        implausible=_parallel,
    ),
    "woodruff-key": Section(
        family="key",
        key=("width", "height"),
        numbers={"width": "mm", "height": "mm", "disc": "mm"},
        implausible=_disc,
    ),
    "woodruff-number": Section(
        family="key",
        key=("number",),
        numbers={"width": "mm", "disc": "mm"},
        words={"number": ()},
        implausible=_number,
    ),
}
"""Section name to its shape."""
