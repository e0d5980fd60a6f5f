"""What the table of ignition coils looks like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

KINDS: Final = ("plain", "ballast", "electronic")


def _range(row: TableRow) -> str:
    return "" if row.number("low") < row.number("high") else "low and high are the wrong way round"


SECTIONS: Final[Mapping[str, Section]] = {
    "coil-kinds": Section(
        "ignition-coil",
        ("kind",),
        {"low": "ohm", "high": "ohm", "volts": "V"},
        {"kind": KINDS},
        implausible=_range,
    ),
}
"""Section name to its shape."""
