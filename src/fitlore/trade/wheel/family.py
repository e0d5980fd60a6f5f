"""Road wheels as a family of standards."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import question, shown
from fitlore.trade.result import FamilyResult, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow
from fitlore.trade.wheel.match import compare
from fitlore.trade.wheel.reading import EXAMPLES, read
from fitlore.trade.wheel.value import Circle

_PLAY: Final = Decimal("0.5")
"""How well a bolt circle is measured with a ruler, in mm."""
_HOLES: Final = (Decimal(12), Decimal(16))
"""Diameters that bolt holes have, in mm: what the near edges lie closer together than the centres. Common practice."""
_CHORD: Final = (
    "geometry: the chord is the diameter times the sine of 180 degrees through the number of holes"
)


class WheelFamily:
    """The family of kind `wheel`."""

    about = About(
        title="road wheels",
        standards=("ISO 3911", "ISO 4000-2", "DIN 74361"),
        spellings=(
            *EXAMPLES,
            "5 1/2 J x 14 H2",
            "5\u00bdJx14 H2 ET 35",
            '4x4.25"',
            "5 x 4 1/2",
            "15x6 5x114.3",
            "PCD 5x108",
            "6 J x 15 H2 ET-5 5/112 CB 57,1 cone 60 load 525 kg",
            "150x390 4x108",
            "6Jx15 4x100 60.1",
        ),
        not_said=(
            "room for caliper and strut",
            "the depth of the mounting face",
            "whether it runs true",
            "the length of bolt it needs",
        ),
        gaps=(
            "centre-lock hubs",
            "wheels whose rim is bolted on",
            "bolt circles and flange heights are recalled",
        ),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `6Jx15 H2 ET35 5x112 bore 57.1 cone 60 load 525 kg`, with its lengths in mm."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        keys = {
            "pcd": found.circle.diameter if found.circle else None,
            "rim": round(found.rim.across, 2) if found.rim else None,
            "width": round(found.rim.broad, 2) if found.rim else None,
            "bore": found.bore,
            "offset": found.offset,
        }
        return Reading(str(found), keys={name: value for name, value in keys.items() if value is not None})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed bolt circle by its diameter, and by the way from one hole to the next."""
        return (_sized(row) for row in standards.table("bolt-circle").rows)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Bolt circle, centre bore, rim, place of the rim, seat and load, each by itself; `end` is of no matter."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        return compare(wanted, had, standards)


def _sized(row: TableRow) -> Sized:
    circle = Circle(int(row.number("holes")), row.number("diameter"))
    spacing = circle.spacing
    bands = {
        "holes": Band.around(Decimal(circle.holes)),
        "hole-centres": Band.around(spacing, _PLAY),
        "hole-gap": Band(spacing - _HOLES[1], spacing - _HOLES[0]),
        "diameter": Band.around(circle.diameter, _PLAY),
    }
    values = {
        "circle": str(circle),
        "named": row.word("named"),
        "spacing": f"{shown(spacing)} mm",
        "certainty": row.certainty.value,
    }
    because = Because("wheel-circle", values, origins=(row.origin,), sources=(row.source, _CHORD))
    return Sized("wheel", str(circle), bands, because)


FAMILIES: Final = {"wheel": WheelFamily()}
