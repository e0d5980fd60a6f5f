"""What the tables of shaft seals look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow


def _size(row: TableRow) -> str:
    room = (row.number("housing") - row.number("shaft")) / 2
    return (
        "" if room >= 4 and row.number("width") <= 2 * room else "no seal has room between shaft and housing"
    )


def _allowance(row: TableRow) -> str:
    rising = all(row.number(f"{case}-low") < row.number(f"{case}-high") for case in ("metal", "rubber"))
    return "" if rising else "a low limit is not below its high one"


_RANGE: Final = {"over": "mm", "up-to": "mm"}
SECTIONS: Final[Mapping[str, Section]] = {
    "seal-size": Section(
        family="shaft-seal",
        key=("shaft", "housing", "width"),
        numbers={"shaft": "mm", "housing": "mm", "width": "mm"},
        implausible=_size,
    ),
    "seal-allowance": Section(
        family="shaft-seal",
        key=("over",),
        numbers=_RANGE | {"metal-low": "mm", "metal-high": "mm", "rubber-low": "mm", "rubber-high": "mm"},
        implausible=_allowance,
    ),
    "seal-hole": Section(family="shaft-seal", key=("over",), numbers=_RANGE | {"h8": "um"}),
    "seal-type": Section(
        family="shaft-seal",
        key=("type",),
        words={"type": (), "case": ("rubber", "metal"), "dust-lip": ("yes", "no")},
    ),
}
"""Section name to its shape."""
