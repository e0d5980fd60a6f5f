"""What the table of bolt lengths looks like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow


def _length(row: TableRow) -> str:
    """Half of IT15 lies between 0.3 and 6 per cent of the length it belongs to."""
    share = row.number("play") / row.number("up-to")
    return "" if Decimal("0.003") < share < Decimal("0.06") else "the play does not belong to the length"


SECTIONS: Final[Mapping[str, Section]] = {
    "bolt-length": Section(
        "bolt", ("over",), {"over": "mm", "up-to": "mm", "play": "mm"}, implausible=_length
    ),
}
"""Section name to its shape."""
