"""What the tables of spanners and hexagons look like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.pieces import size
from fitlore.trade.table import Section, TableRow


def _inch(row: TableRow) -> str:
    """An AF name is the size itself."""
    return (
        ""
        if abs(size(row.word("size")) - row.number("flats")) < Decimal("0.00001")
        else "the name is not the size"
    )


def _whitworth(row: TableRow) -> str:
    """The hexagon is one and a half to nearly three times the bolt's diameter."""
    ratio = row.number("flats") / size(row.word("size"))
    return "" if Decimal("1.6") < ratio < Decimal("2.8") else "hexagon and bolt do not belong together"


def _metric(row: TableRow) -> str:
    """The hexagon is about one and a half times the bolt's diameter."""
    ratio = row.number("flats") / row.number("bolt")
    return "" if Decimal("1.35") < ratio < Decimal("1.85") else "hexagon and bolt do not belong together"


SECTIONS: Final[Mapping[str, Section]] = {
    "spanner-metric": Section("spanner", ("flats",), {"flats": "mm"}),
    "spanner-inch": Section("spanner", ("size",), {"flats": "in"}, {"size": ()}, implausible=_inch),
    "spanner-whitworth": Section(
        "spanner", ("size",), {"flats": "in"}, {"size": (), "bsf": ()}, frozenset({"bsf"}), _whitworth
    ),
    "spanner-ba": Section("spanner", ("size",), {"flats": "in"}, {"size": ()}),
    "hexagon-metric": Section(
        "spanner",
        ("bolt", "rule"),
        {"bolt": "mm", "flats": "mm"},
        {"rule": ("ISO", "DIN", "JIS")},
        implausible=_metric,
    ),
    "hexagon-inch": Section(
        "spanner", ("bolt", "rule"), {"flats": "in"}, {"bolt": (), "rule": ("bolt", "nut")}
    ),
}
"""Section name to its shape."""
