"""What the tables of terminals look like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.pieces import INCH
from fitlore.trade.table import Section, TableRow


def _inch(row: TableRow) -> str:
    """The inch size is the metric one within a tenth."""
    inch = row.numbers.get("inch")
    own = row.numbers.get("width", row.numbers.get("diameter", Decimal(0)))
    return "" if inch is None or abs(inch * INCH - own) < Decimal("0.1") else "the inch size is another"


def _ring(row: TableRow) -> str:
    """A hole lets its stud through with little room."""
    room = row.number("hole") - Decimal(row.word("stud").lstrip("M"))
    return "" if 0 < room <= 1 else "hole and stud do not belong together"


_PAIR: Final = {"one": (), "other": ()}
SECTIONS: Final[Mapping[str, Section]] = {
    "terminal-tabs": Section(
        "terminal",
        ("width", "thickness"),
        {"width": "mm", "thickness": "mm", "inch": "in"},
        implausible=_inch,
    ),
    "terminal-rings": Section("terminal", ("stud",), {"hole": "mm"}, {"stud": ()}, implausible=_ring),
    "terminal-bullets": Section(
        "terminal",
        ("diameter",),
        {"diameter": "mm", "inch": "in"},
        optional=frozenset({"inch"}),
        implausible=_inch,
    ),
    "terminal-numbers": Section(
        "terminal-number", ("number",), words={"number": (), "meaning": (), "circuit": ()}
    ),
    "terminal-old": Section("terminal-number", ("old",), words={"old": (), "new": ()}),
    "terminal-british": Section("terminal-number", ("letter",), words={"letter": (), "number": ()}),
    "terminal-near": Section("terminal-number", ("one", "other"), words=_PAIR | {"why": ()}),
    "terminal-equal": Section("terminal-number", ("one", "other"), words=_PAIR),
}
"""Section name to its shape."""
