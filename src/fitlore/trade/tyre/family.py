"""Tyres as a family of standards."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import shown
from fitlore.trade.readings import each_reading
from fitlore.trade.result import FamilyResult, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, weakest
from fitlore.trade.tyre.changes import span
from fitlore.trade.tyre.date import TyreDateFamily
from fitlore.trade.tyre.dimensions import FORMULA, dimensions, measuring_rim, nominal, turns_per_km
from fitlore.trade.tyre.match import compare
from fitlore.trade.tyre.reading import EXAMPLES, read
from fitlore.trade.tyre.value import Build, Tyre

_LOW: Final = Decimal("0.97")
_HIGH: Final = {
    Build.RADIAL: Decimal("1.04"),
    Build.BIAS_BELTED: Decimal("1.08"),
    Build.CROSS_PLY: Decimal("1.08"),
}
_WIDER: Final = {
    Build.RADIAL: Decimal("1.04"),
    Build.BIAS_BELTED: Decimal("1.06"),
    Build.CROSS_PLY: Decimal("1.06"),
}
"""Shares of the section height, and of the width, that a new tyre may have (UN R30 6.1.4; memory)."""
_MM_MORE: Final = Decimal(11)
"""How much more in diameter printed tables give for sizes with a rim in mm than the formula does, in mm."""
_BEAD: Final = Decimal(2)
_LISTED: Final = ("metric-tyre", "no-profile-tyre", "cross-ply-tyre", "millimetre-tyre")


class TyreFamily:
    """The family of kind `tyre`."""

    about = About(
        title="tyres",
        standards=("ISO 4000-1", "UN R30", "UN R54", "UN R39"),
        spellings=(
            *EXAMPLES,
            "195/65R15",
            "195/65VR15",
            "185/70 HR 13",
            "195/65/15",
            "155SR13",
            "5.60x15",
            "560-15",
            "7.50-16 8PR",
            "31x10.50R15LT",
            "P215/75R15",
            "LT235/85R16",
            "220/55 VR 390",
            "205/55 ZR16 91W XL",
            "T125/70D15",
            "FR70-14",
        ),
        not_said=(
            "its age",
            "tread and cracks",
            "the width of rim it suits",
            "the pressure it needs",
            "room in the arch",
        ),
        gaps=(
            "tyres of motorcycles and heavy lorries",
            "dimensions of letter sizes",
            "sizes without a profile and cross-ply sizes rest on recalled tables",
            "for rims in mm the formula gives less than printed tables do",
        ),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form, with `outside`, `width` and the rim's nominal diameter in mm where the dimensions are known."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        sizes = dimensions(found, standards)
        keys = (
            {}
            if sizes is None
            else {"outside": sizes.outside, "width": sizes.section, "rim": nominal(found.rim)}
        )
        return Reading(str(found), found.implied, {name: round(value, 2) for name, value in keys.items()})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed size new on its measuring rim: outside, width, and inside (at the beads)."""
        for section in _LISTED:
            for row in standards.table(section).rows:
                tyre = read(row.word("size"), standards)
                if isinstance(tyre, Tyre):
                    yield from _sized(tyre, row, standards)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Rim, build, size, service, load and speed, each by itself; `end` is of no matter."""
        return each_reading(
            "tyre-no-reading-goes",
            read(needed, standards),
            read(offered, standards),
            lambda text: read(text, standards),
            lambda want, have: compare(want, have, standards),
        )


def _sized(tyre: Tyre, row: TableRow, standards: Standards) -> Iterable[Sized]:
    sizes = dimensions(tyre, standards)
    if sizes is None:
        return
    height = (sizes.outside - sizes.rim) / 2
    more = _MM_MORE if tyre.millimetre_rim else Decimal(0)
    low = min(sizes.least, sizes.rim + 2 * height * _LOW)
    high = max(sizes.most, sizes.rim + 2 * height * _HIGH[tyre.build] + more)
    bands = {
        "outside": Band(low, high, "down"),
        "width": Band(sizes.section * (2 - _WIDER[tyre.build]), sizes.section * _WIDER[tyre.build]),
        "inside": Band.around(sizes.rim, _BEAD),
    }
    rim = row.cell("measuring") or row.cell("rim")
    computed = measuring_rim(tyre)
    values = {
        "tyre": str(tyre),
        "outside": span(sizes),
        "section": f"{shown(sizes.section)} mm",
        "rim": f"{rim or (shown(computed) if computed else '')} in".removeprefix(" in"),
        "rims": f"{row.cell('least')} to {row.cell('widest')} in" if row.cell("least") else "",
        "turns": f"{turns_per_km(tyre, sizes.outside):.0f}",
        "certainty": weakest((row, *sizes.rows)).value,
    }
    origins = tuple(dict.fromkeys(one.origin for one in (row, *sizes.rows)))
    sources = tuple(dict.fromkeys([*(one.source for one in (row, *sizes.rows)), FORMULA]))
    yield Sized("tyre", str(tyre), bands, Because("tyre-size", values, origins=origins, sources=sources))


FAMILIES: Final = {"tyre": TyreFamily(), "tyre-date": TyreDateFamily()}
