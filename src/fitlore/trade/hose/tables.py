"""What the tables of hoses and hose clips look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

USES: Final = ("coolant", "heater", "vacuum", "vent", "washer")
FORMS: Final = ("worm drive", "spring", "one ear", "two ear", "rolled edge", "wire", "T-bolt")
_YES_NO: Final = ("yes", "no")


def _bore(row: TableRow) -> str:
    """A hose measures about what it is called; it may be made a little bigger more than smaller."""
    low, high, bore = row.number("least"), row.number("most"), row.number("bore")
    sound = low < high and low - bore / 10 < bore <= high and bore - low <= high - low
    return "" if sound else "the limits do not hold the bore"


def _range(row: TableRow) -> str:
    return "" if row.number("low") < row.number("high") else "the range is upside down"


def _spring(row: TableRow) -> str:
    """A spring clip is smaller than its hose when it comes, and goes over it when squeezed open."""
    order = row.number("free") < row.number("hose") < row.number("open")
    return "" if order else "free, hose and open are not in order"


SECTIONS: Final[Mapping[str, Section]] = {
    "hose-bore": Section(
        family="hose", key=("bore",), numbers={"bore": "mm", "least": "mm", "most": "mm"}, implausible=_bore
    ),
    "hose-use": Section(
        family="hose",
        key=("use",),
        words={"use": USES, "hot-water": _YES_NO, "vapour": _YES_NO, "suction": _YES_NO},
    ),
    "clip-range": Section(
        family="hose-clip",
        key=("standard", "low", "high"),
        numbers={"low": "mm", "high": "mm"},
        words={"standard": ("SAE J1508", "DIN 3017-1"), "number": ()},
        optional=frozenset({"number"}),
        implausible=_range,
    ),
    "clip-spring": Section(
        family="hose-clip",
        key=("hose",),
        numbers={"hose": "mm", "free": "mm", "open": "mm"},
        implausible=_spring,
    ),
    "clip-form": Section(
        family="hose-clip",
        key=("form",),
        words={"form": FORMS, "follows": _YES_NO, "smooth": _YES_NO, "tell": ()},
    ),
}
"""Section name to its shape. `follows`: it draws after a hose that shrinks; `smooth`: it has no slots or wires that cut."""
