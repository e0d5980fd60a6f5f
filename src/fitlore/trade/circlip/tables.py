"""What the tables of circlips look like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

_ROOM: Final = (Decimal("0.04"), Decimal("0.16"))
"""How much wider than the ring a groove is, in mm (0.1 for circlips, 0.15 from 2 mm on; 0.04 and 0.05 for E-clips)."""


def _ring(row: TableRow) -> str:
    """A ring springs into its groove: on a shaft it is the smallest, in a bore the biggest of the three diameters."""
    size, groove, free = row.number("size"), row.number("groove"), row.number("free")
    order = (free, groove, size) if row.word("sits") == "shaft" else (size, groove, free)
    if not order[0] < order[1] < order[2]:
        return "ring, groove and size are not in order"
    return _room(row)


def _clip(row: TableRow) -> str:
    order = [row.number(name) for name in ("groove", "shaft-from", "shaft-to", "outside")]
    return _room(row) if order == sorted(order) else "groove, shafts and outside are not in order"


def _room(row: TableRow) -> str:
    room = row.number("groove-width") - row.number("thickness")
    return "" if _ROOM[0] <= room <= _ROOM[1] else "the groove is not made for that thickness"


SECTIONS: Final[Mapping[str, Section]] = {
    "circlip-size": Section(
        family="circlip",
        key=("sits", "size"),
        numbers={"size": "mm", "thickness": "mm", "free": "mm", "groove": "mm", "groove-width": "mm"},
        words={"sits": ("shaft", "bore")},
        implausible=_ring,
    ),
    "circlip-heavy": Section(
        family="circlip",
        key=("sits", "size"),
        numbers={"size": "mm", "thickness": "mm"},
        words={"sits": ("shaft",)},
    ),
    "e-clip-size": Section(
        family="circlip",
        key=("groove",),
        numbers=dict.fromkeys(
            ("groove", "thickness", "shaft-from", "shaft-to", "groove-width", "outside"), "mm"
        ),
        implausible=_clip,
    ),
}
"""Section name to its shape."""
