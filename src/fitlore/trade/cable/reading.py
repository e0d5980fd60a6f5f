"""Texts into cable: a cross-section, a gauge, strands, or the outside diameter some countries sell it by."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.cable.copper import awg_area, strand_area
from fitlore.trade.pieces import INCH, size, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain
from fitlore.trade.thread.spelling import fold

EXAMPLES: Final = ("1.5 mm2", "AWG 14", "14/0.30", "28/.012 in", "auto cable 4 mm")
_NUM: Final = r"\d{1,3}(?:[.,]\d{1,3})?"
_WORD: Final = r"(?:\s?(?:cable|wire))?"
_AREA: Final = words(rf"(?:cable |wire )?(?P<n>{_NUM})\s?(?:mm2|mm²|sq\.? ?mm|mm sq|qmm|mm\^2){_WORD}")
_AWG: Final = words(
    rf"(?:AWG\s?|B&S\s?)(?P<n>\d{{1,2}}(?:/0)?|0{{2,4}}){_WORD}|(?P<after>\d{{1,2}}(?:/0)?|0{{2,4}})\s?(?:AWG"
    rf"|B&S){_WORD}"
)
_STRANDS: Final = words(
    rf"(?P<n>\d{{1,3}})\s?(?:/|x| strands? (?:of )?)\s?(?P<d>0?[.,]\d{{1,3}})\s?(?P<unit>mm|in|\")?{_WORD}"
)
_OUTSIDE: Final = words(
    rf"auto(?:motive)? cable (?P<n>{_NUM})\s?mm|(?P<after>{_NUM})\s?mm auto(?:motive)? cable"
)
_BARE: Final = words(rf"(?P<n>{_NUM})\s?mm (?:cable|wire)|(?:cable|wire) (?P<after>{_NUM})\s?mm")
_THOU: Final = Decimal("0.03")
"""A strand written as less than this is in inches (.012 in is 0.30 mm); none so thin in mm is used in cars."""
_LARGEST: Final = 30


class Cable(NamedTuple):
    """A cable by the copper in it, in mm2; `figure` is the number it is called by."""

    name: str
    area: Decimal
    figure: Decimal
    unit: str
    rows: tuple[TableRow, ...] = ()


def read(text: str, standards: Standards) -> Cable | Unreadable:
    """The cable a text names. `4 mm cable` may be 4 mm2 or 4 mm across its insulation, and is refused with both."""
    folded = fold(text) if len(text) <= 50 else ""
    if match := _AREA.fullmatch(folded):
        return _area(text, size(match["n"]), standards)
    if match := _AWG.fullmatch(folded):
        return _gauge(text, match["n"] or match["after"])
    if match := _STRANDS.fullmatch(folded):
        return _stranded(match, standards)
    if match := _OUTSIDE.fullmatch(folded):
        across = size(match["n"] or match["after"])
        rows = standards.table("cable-outside").find(across=plain(across))
        if rows:
            name = f"auto cable {plain(across)} mm"
            return Cable(name, rows[0].number("area"), across, "outside", rows)
        return Unreadable(text, "cable-unlisted", expected=EXAMPLES)
    if match := _BARE.fullmatch(folded):
        figure = plain(size(match["n"] or match["after"]))
        readings = (f"{figure} mm2", f"auto cable {figure} mm")
        return Unreadable(text, "cable-mm", readings, readings)
    return Unreadable(text, "cable-unknown", expected=EXAMPLES)


def _area(text: str, area: Decimal, standards: Standards) -> Cable | Unreadable:
    rows = standards.table("cable-areas").find(area=plain(area))
    rows = rows or standards.table("cable-strands").find(area=plain(area))
    if not rows:
        near = sorted(standards.table("cable-areas").rows, key=lambda row: abs(row.number("area") - area))
        return Unreadable(
            text, "cable-unlisted", expected=tuple(f"{row.cell('area')} mm2" for row in near[:3])
        )
    return Cable(f"{plain(area)} mm2", area, area, "mm2", rows[:1])


def _gauge(text: str, written: str) -> Cable | Unreadable:
    noughts = int(written[:-2]) if written.endswith("/0") else len(written) if not written.strip("0") else 0
    gauge = 1 - noughts if noughts else int(written)
    if not -3 <= gauge <= _LARGEST:
        return Unreadable(text, "cable-unlisted", expected=("AWG 4/0", "AWG 30"))
    name = f"AWG {gauge}" if gauge > -1 else f"AWG {1 - gauge}/0"
    return Cable(name, awg_area(gauge), Decimal(gauge), "AWG")


def _stranded(match: re.Match[str], standards: Standards) -> Cable:
    strands, written = int(match["n"]), size(match["d"])
    inches = match["unit"] in ("in", '"') or (match["unit"] is None and written < _THOU)
    strand = round(written * INCH, 3) if inches else written
    rows = standards.table("cable-strands").find(strands=str(strands), strand=plain(round(strand, 2)))
    if rows:
        return Cable(
            f"{strands}/{round(strand, 2):.2f}",
            rows[0].number("area"),
            rows[0].number("area"),
            "strands",
            rows,
        )
    name = f"{strands}/{plain(written)} in" if inches else f"{strands}/{strand:.2f}"
    return Cable(name, strand_area(strands, strand), Decimal(strands), "strands")
