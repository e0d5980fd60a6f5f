"""What the tables of fuses look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

FORMS: Final = (
    "mini blade",
    "low mini blade",
    "blade",
    "maxi blade",
    "torpedo",
    "glass 5x20",
    "glass 6.3x29.4",
    "glass 6.3x32",
)


def _british(row: TableRow) -> str:
    """What blows an old British fuse is twice what it carries, and more at once."""
    carries, blows = row.number("carries"), row.number("blows")
    return "" if blows == 2 * carries < row.number("at-once") else "what blows it is twice what it carries"


def _times(row: TableRow) -> str:
    """A greatest time is longer than the least."""
    most = row.numbers.get("most")
    return "" if most is None or most > row.number("least") else "least and most are the wrong way round"


_COLOURED: Final = Section("fuse", ("amps",), {"amps": "A"}, {"colour": ()})
SECTIONS: Final[Mapping[str, Section]] = {
    "fuse-blade": _COLOURED,
    "fuse-maxi": _COLOURED,
    "fuse-torpedo": _COLOURED,
    "fuse-british": Section(
        "fuse",
        ("colour",),
        {"carries": "A", "at-once": "A", "blows": "A"},
        {"colour": ()},
        implausible=_british,
    ),
    "fuse-forms": Section(
        family="fuse",
        key=("form",),
        numbers={"length": "mm", "diameter": "mm", "thickness": "mm", "height": "mm"},
        words={"form": FORMS},
        optional=frozenset({"diameter", "thickness", "height"}),
    ),
    "fuse-blow-times": Section(
        "fuse",
        ("share",),
        {"share": "%", "least": "s", "most": "s"},
        optional=frozenset({"most"}),
        implausible=_times,
    ),
}
"""Section name to its shape."""
