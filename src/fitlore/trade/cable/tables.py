"""What the tables of cable look like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.cable.copper import strand_area
from fitlore.trade.table import Section, TableRow

NEAR: Final = Decimal("0.05")
"""By which share the copper of a stranded cable may differ from its nominal area (0.99 and 1.0 mm2)."""


def _strands(row: TableRow) -> str:
    """The strands make up the nominal area."""
    own = strand_area(int(row.number("strands")), row.number("strand"))
    return "" if abs(own / row.number("area") - 1) <= NEAR else "strands and area do not belong together"


def _outside(row: TableRow) -> str:
    """The copper is less than a third of the circle over the insulation."""
    circle = Decimal("0.7854") * row.number("across") ** 2
    return "" if row.number("area") < circle / 3 * 2 else "more copper than there is room for"


_OPTIONAL: Final = frozenset({"resistance", "carries"})
SECTIONS: Final[Mapping[str, Section]] = {
    "cable-areas": Section(
        "cable", ("area",), {"area": "mm2", "resistance": "mohm/m"}, optional=frozenset({"resistance"})
    ),
    "cable-carries": Section("cable", ("area",), {"area": "mm2", "carries": "A"}),
    "cable-strands": Section(
        "cable",
        ("strands", "strand"),
        {"strands": "1", "strand": "mm", "area": "mm2", "resistance": "mohm/m", "carries": "A"},
        optional=_OPTIONAL,
        implausible=_strands,
    ),
    "cable-outside": Section("cable", ("across",), {"across": "mm", "area": "mm2"}, implausible=_outside),
}
"""Section name to its shape."""
