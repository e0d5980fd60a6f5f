"""What the table of thermostats looks like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow


def _mark(row: TableRow) -> str:
    """Both figures are one temperature, to the rounding of a stamp."""
    exact = (row.number("fahrenheit") - 32) * 5 / 9
    return "" if abs(exact - row.number("celsius")) <= Decimal("0.6") else "the two are not one temperature"


SECTIONS: Final[Mapping[str, Section]] = {
    "thermostat-mark": Section(
        family="thermostat",
        key=("celsius",),
        numbers={"celsius": "degC", "fahrenheit": "degF"},
        implausible=_mark,
    ),
}
"""Section name to its shape."""
