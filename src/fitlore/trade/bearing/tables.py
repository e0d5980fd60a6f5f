"""What the tables of rolling bearings look like."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

FORMS: Final = (
    "deep-groove", "deep-groove-double", "angular-contact", "angular-contact-double", "self-aligning", "cylindrical-n",
    "cylindrical-nu", "cylindrical-nj", "cylindrical-nup", "taper", "thrust", "needle", "needle-closed", "needle-ringed",
)  # fmt: skip
"""How a bearing is made inside: what its designation says besides the size."""
GROUPS: Final = ("C2", "CN", "C3", "C4", "C5")
"""Groups of clearance, the tightest first (ISO 5753-1)."""
_SMALL: Final = ("10", "12", "15", "17")
_DRAWN: Final = re.compile(r"[HB]K(\d\d)(\d\d)")


def bore_by_code(designation: str) -> Decimal | None:
    """The bore in mm that the last figures say; None where they say none.

    ISO 15 numbers: 00 to 03 are 10, 12, 15 and 17 mm, from 04 on five times the code, behind a stroke the bore itself;
    three-figure numbers end in the bore. DIN 618 (HK, BK): the first two figures. (Common practice of all makers.)
    """
    if drawn := _DRAWN.fullmatch(designation):
        return Decimal(drawn[1])
    if "/" in designation:
        last = designation.rpartition("/")[2]
        return Decimal(last) if last.isdigit() else None
    figures = "".join(re.findall(r"\d+", designation.removesuffix("X")))
    if len(figures) == 3 and designation == figures:
        return Decimal(figures[-1])
    code = figures[-2:]
    return Decimal(_SMALL[int(code)]) if int(code) < len(_SMALL) else Decimal(code) * 5


def _size(row: TableRow) -> str:
    bore, outside, width = row.number("bore"), row.number("outside"), row.number("width")
    if bore >= outside:
        return "the bore is not smaller than the outside"
    if bore_by_code(row.word("designation")) != bore:
        return "the bore is not what the number says"
    rings = [row.numbers.get(name, width) for name in ("inner-width", "outer-width")]
    return "a ring is wider than the bearing" if max(rings) > width else ""


def _set(row: TableRow) -> str:
    if row.number("bore") >= row.number("outside"):
        return "the bore is not smaller than the outside"
    return "" if series(row.word("cone")) == series(row.word("cup")) else "cone and cup are of two series"


def series(ring: str) -> str:
    """The series of a ring of an inch taper bearing: its number without the two figures that tell rings apart."""
    return ring[:-2]


def _limits(row: TableRow) -> str:
    return "" if row.number("low") < row.number("high") else "the low limit is not below the high one"


_DIMENSIONS: Final = {"bore": "mm", "outside": "mm", "width": "mm"}
_RANGE: Final = {"over": "mm", "up-to": "mm"}
SECTIONS: Final[Mapping[str, Section]] = {
    "bearing-size": Section(
        family="bearing",
        key=("designation",),
        numbers=_DIMENSIONS | {"inner-width": "mm", "outer-width": "mm", "radius": "mm"},
        words={"designation": (), "form": FORMS},
        optional=frozenset({"inner-width", "outer-width", "radius"}),
        implausible=_size,
    ),
    "inch-taper-set": Section(
        family="bearing",
        key=("cone", "cup"),
        numbers=_DIMENSIONS,
        words={"cone": (), "cup": ()},
        implausible=_set,
    ),
    "bearing-suffix": Section(
        family="bearing",
        key=("suffix",),
        words={
            "suffix": (),
            "says": ("sealing", "groove", "bore", "clearance", "precision", "cage", "inside", "angle"),
            "value": (),
        },
    ),
    "bearing-clearance": Section(
        family="bearing",
        key=("group", "over"),
        numbers=_RANGE | {"low": "um", "high": "um"},
        words={"group": GROUPS},
        implausible=_limits,
    ),
    "bearing-tolerance": Section(
        family="bearing",
        key=("of", "over"),
        numbers=_RANGE | {"tolerance": "um"},
        words={"of": ("bore", "outside", "width")},
    ),
}
"""Section name to its shape."""
