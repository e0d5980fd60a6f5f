"""Share of glycol to frost limit and back, by the table, straight lines between its rows."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow


def freezes(share: Decimal, standards: Standards) -> tuple[Decimal, tuple[TableRow, ...]] | None:
    """First ice in degrees Celsius of a share of glycol in per cent of volume, and the rows; None outside of the table."""
    return _between(share, "glycol", "freezes", standards)


def share_for(frost: Decimal, standards: Standards) -> tuple[Decimal, tuple[TableRow, ...]] | None:
    """The share in per cent of volume whose first ice is at `frost` degrees, and the rows; None outside of the table."""
    return _between(frost, "freezes", "glycol", standards)


def _between(
    at: Decimal, given: str, wanted: str, standards: Standards
) -> tuple[Decimal, tuple[TableRow, ...]] | None:
    rows = sorted(standards.table("coolant-frost").rows, key=lambda row: row.number(given))
    for low, high in pairwise(rows):
        start, end = low.number(given), high.number(given)
        if start <= at <= end:
            part = (at - start) / (end - start)
            return low.number(wanted) + part * (high.number(wanted) - low.number(wanted)), (low, high)
    return None
