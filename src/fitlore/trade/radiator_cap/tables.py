"""What the table of radiator caps looks like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section

SECTIONS: Final[Mapping[str, Section]] = {
    "cap-reach": Section(
        family="radiator-cap",
        key=("from",),
        numbers={"from": "psi", "to": "psi", "reach": "mm"},
        implausible=lambda row: "" if row.number("from") < row.number("to") else "the band is upside down",
    ),
}
"""Section name to its shape. The reach grows with the pressure, so that a stronger cap should not lock on a weaker neck."""
