"""What a class means in a thread: stress area and proof load by the standards' formulas."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.rows import UNIFIED
from fitlore.trade.thread.value import Thread

_QUARTER_PI: Final = Decimal("0.785398163397")
_UNIFIED_DEPTH: Final = Decimal("0.974278579")
"""9 sqrt(3) / 16, in pitches."""


def stress_area(thread: Thread) -> Decimal:
    """Nominal stress area in mm2: pi/4 ((d2 + d3)/2)^2 (ISO 898-1); of Unified pi/4 (D - 0.9743/n)^2 (ASME B1.1)."""
    sizes = dimensions(thread)
    if thread.row.family in UNIFIED:
        return _QUARTER_PI * (sizes.major - _UNIFIED_DEPTH * sizes.pitch) ** 2
    mean = (sizes.pitch_diameter + sizes.male_root) / 2
    return _QUARTER_PI * mean * mean


def bolt_row(name: str, diameter: Decimal, standards: Standards) -> TableRow | None:
    """The row of a bolt's class for a nominal diameter in mm; None where the class or the size is not listed."""
    rows = standards.table("bolt-class").find(**{"class": name})
    return next((row for row in rows if row.number("over") < diameter <= row.number("up-to")), None)


def proof_load(thread: Thread, name: str, standards: Standards) -> Decimal | None:
    """The load in N that a bolt bears without lasting stretch: stress area by stress under proof load (ISO 898-1).

    None where no proof stress is listed for the class at that size.
    """
    row = bolt_row(name, dimensions(thread).major, standards)
    return stress_area(thread) * row.number("proof") if row and "proof" in row.numbers else None
