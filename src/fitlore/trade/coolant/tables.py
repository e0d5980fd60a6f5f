"""What the tables of coolants look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow


def _frost(row: TableRow) -> str:
    """Water freezes at nought; with glycol in it later, up to the share of 60 per cent where the table ends."""
    return (
        "" if row.number("freezes") <= 0 and 0 <= row.number("glycol") <= 60 else "no mixture of this table"
    )


SECTIONS: Final[Mapping[str, Section]] = {
    "coolant-additive": Section(
        family="coolant",
        key=("additive",),
        numbers={"years": "a"},
        words={"additive": (), "holds": (), "systems": ("any", "sealed")},
    ),
    "coolant-frost": Section(
        family="coolant",
        key=("glycol",),
        numbers={"glycol": "%", "freezes": "degC"},
        implausible=_frost,
    ),
}
"""Section name to its shape. `glycol` is ethylene glycol, per cent of volume; `years` the usual life of a filling."""
