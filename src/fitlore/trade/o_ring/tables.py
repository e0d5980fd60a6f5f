"""What the tables of O-rings and of rubbers look like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

SECTIONS_BY_LEAD: Final = {"0": "1/16", "1": "3/32", "2": "1/8", "3": "3/16", "4": "1/4"}
"""Nominal section in inches by the first figure of a dash number (AS568); -001 to -003 are thinner."""
MEDIA: Final = ("oil", "petrol", "brake-fluid", "coolant", "r134a")
"""What runs against a ring in a car, as the columns of the rubbers are called."""
_ACTUAL: Final = {
    "0": Decimal("1.78"),
    "1": Decimal("2.62"),
    "2": Decimal("3.53"),
    "3": Decimal("5.33"),
    "4": Decimal("6.99"),
}


def _ring(row: TableRow) -> str:
    dash = row.word("dash")
    thin = dash in ("001", "002", "003")
    return "" if thin or row.number("section") == _ACTUAL[dash[0]] else "the number has another section"


def _jis(row: TableRow) -> str:
    """The figure is the shaft or hole it is made for: the ring is a little smaller inside."""
    figure = Decimal(row.word("code")[1:].rstrip("A"))
    return "" if Decimal(0) < figure - row.number("inside") < 1 else "the inside is not what the figure says"


def _rubber(row: TableRow) -> str:
    return "" if row.number("cold") < 0 < row.number("heat") else "heat and cold are mixed up"


SECTIONS: Final[Mapping[str, Section]] = {
    "as568-ring": Section(
        family="o-ring",
        key=("dash",),
        numbers={"inside": "mm", "section": "mm", "inside-tolerance": "mm", "section-tolerance": "mm"},
        words={"dash": ()},
        implausible=_ring,
    ),
    "jis-ring": Section(
        family="o-ring",
        key=("code",),
        numbers={"inside": "mm", "section": "mm"},
        words={"code": ()},
        implausible=_jis,
    ),
    "rubber": Section(
        family="o-ring",
        key=("rubber",),
        numbers={"heat": "degC", "cold": "degC"},
        words={"rubber": ()} | dict.fromkeys(MEDIA, ("yes", "some", "no")),
        implausible=_rubber,
    ),
    "rubber-name": Section(family="o-ring", key=("name",), words={"name": (), "rubber": ()}),
}
"""Section name to its shape."""
