"""What the tables of brake fluids look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

BASES: Final = ("glycol", "silicone", "mineral")


def _grade(row: TableRow) -> str:
    """Water lowers the boiling point, and a fluid is thicker in the cold than hot; a mineral one has no such limits."""
    if row.word("base") == "mineral":
        return "a mineral fluid with limits of another standard" if row.numbers else ""
    if not row.numbers.keys() >= {"dry", "wet", "cold", "hot"}:
        return "a limit is missing"
    if row.number("wet") >= row.number("dry"):
        return "it boils later with water in it than without"
    return "" if row.number("cold") > row.number("hot") else "thinner in the cold than hot"


SECTIONS: Final[Mapping[str, Section]] = {
    "brake-fluid-grade": Section(
        family="brake-fluid",
        key=("grade",),
        numbers={"dry": "degC", "wet": "degC", "cold": "mm2/s", "hot": "mm2/s"},
        words={"grade": (), "system": ("DOT", "ISO", "SAE"), "base": BASES},
        optional=frozenset({"dry", "wet", "cold", "hot"}),
        implausible=_grade,
    ),
    "brake-fluid-base": Section(
        family="brake-fluid",
        key=("base",),
        words={"base": BASES, "colour": (), "water": (), "rubber": ()},
    ),
}
"""Section name to its shape. `dry` and `wet` are least boiling points, `cold` the most viscosity at -40 degrees."""
