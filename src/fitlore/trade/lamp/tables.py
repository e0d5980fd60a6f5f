"""What the tables of lamps look like."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

COLOURS: Final = ("white", "amber", "red", "yellow")
_FIGURE: Final = re.compile(r"\d+(?:\.\d+)?")


def _category(row: TableRow) -> str:
    """A lamp has as many figures of power as filaments."""
    powers = [row.word(column) for column in ("power", "power-6", "power-24") if row.word(column)]
    figures = {len(power.split("/")) for power in powers}
    return "" if figures == {int(row.number("filaments"))} else "as many figures of power as filaments"


def _cap(row: TableRow) -> str:
    """IEC 60061: the figure in a cap's name is its shell in mm; of a wedge, its thickness and width."""
    figures = [Decimal(figure) for figure in _FIGURE.findall(row.word("cap"))]
    own = [row.numbers[column] for column in ("thickness", "width", "shell") if column in row.numbers]
    return "" if row.word("cap") == "X511" or own == figures[: len(own)] else "the name is not the size"


SECTIONS: Final[Mapping[str, Section]] = {
    "lamp-categories": Section(
        family="lamp",
        key=("category",),
        numbers={"filaments": "1", "length": "mm"},
        words={
            "category": (),
            "cap": (),
            "power": (),
            "power-6": (),
            "power-24": (),
            "colour": COLOURS,
        },
        optional=frozenset({"length", "power-6", "power-24"}),
        implausible=_category,
    ),
    "lamp-caps": Section(
        family="lamp",
        key=("cap",),
        numbers={"shell": "mm", "width": "mm", "thickness": "mm"},
        words={"cap": (), "group": (), "pins": (), "contacts": ()},
        optional=frozenset({"shell", "width", "thickness", "contacts"}),
        implausible=_cap,
    ),
    "lamp-numbers": Section(family="lamp", key=("number",), words={"number": (), "category": ()}),
}
"""Section name to its shape. Power is in watts as marked, both filaments with `/`; `power` alone is that at 12 V."""
