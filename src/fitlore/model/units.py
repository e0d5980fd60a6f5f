"""Units as workshops and UCUM write them, with exact factors to one base unit per dimension.

The table is made by a units library at development time (`unit_table`), so that nothing but whole numbers is needed here.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from fitlore.model.unit_table import COUNTED, ROWS


class Unit(NamedTuple):
    """Value in the base unit = written value * up / down + more / less; all four are whole numbers."""

    base: str
    up: int = 1
    down: int = 1
    more: int = 0
    less: int = 1


UNITS: Final[dict[str, Unit]] = {word: Unit("1") for word in COUNTED} | {
    row[0]: Unit(*row[1:]) for row in ROWS
}
"""Every spelling that is known, and what it means."""
