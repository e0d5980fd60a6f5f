"""What the tables of batteries look like."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

NORMS: Final = ("EN", "SAE", "DIN", "IEC", "JIS")


def _case(row: TableRow) -> str:
    """JIS D 5301: the figure in the name is the length in cm, to one either way."""
    figure = re.search(r"\d+", row.word("case"))
    if row.word("system") != "JIS" or figure is None:
        return ""
    return "" if abs(row.number("length") / 10 - int(figure[0])) <= 1 else "the name is not the length"


SECTIONS: Final[Mapping[str, Section]] = {
    "battery-cases": Section(
        family="battery",
        key=("system", "case"),
        numbers={"length": "mm", "width": "mm", "height": "mm"},
        words={
            "system": ("EN", "JIS", "group"),
            "case": (),
            "posts": ("thick", "thin"),
            "layout": ("right", "left"),
        },
        optional=frozenset({"posts", "layout"}),
        implausible=_case,
    ),
    "battery-aliases": Section("battery", ("alias",), words={"alias": (), "case": ()}),
    "battery-jis-letters": Section("battery", ("letter",), {"width": "mm", "box": "mm"}, {"letter": ()}),
    "battery-ledges": Section(
        "battery",
        ("ledge",),
        {"long": "mm", "short": "mm"},
        {"ledge": (), "notches": ("none", "long", "five")},
    ),
    "battery-posts": Section(
        "battery", ("posts",), {"plus": "mm", "minus": "mm"}, {"posts": ("thick", "thin")}
    ),
    "battery-norms": Section(
        "battery",
        ("norm", "way"),
        {"factor": "1", "add": "A"},
        {"norm": NORMS, "way": ("low", "high", "own")},
    ),
}
"""Section name to its shape."""
