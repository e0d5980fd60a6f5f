"""Spanners as a family of standards: does the spanner that is there hold the hexagon that is offered?"""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import PRACTICE, question, shown, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.spanner.reading import flats_of, name_of, read
from fitlore.trade.standards import Standards

TIGHT: Final = Decimal("0.003")
"""Share by which a jaw may be nominally smaller and still go on: its own play (19 mm on 3/4 in). Common practice."""
HOLDS: Final = Decimal("0.011")
"""Share by which a jaw may be bigger and still hold (5/8 in on 15.875 by 16 mm, 11 mm by 7/16 in). Common practice."""
ROUNDS: Final = Decimal("0.07")
"""Share up to which a bigger jaw seems to hold and rounds the corners (17 on 16 mm); beyond it the play is plain."""
_SECTIONS: Final = ("spanner-metric", "spanner-inch", "spanner-whitworth", "spanner-ba")
_IT13: Final = ((3, 140), (6, 180), (10, 220), (18, 270), (30, 330))
_IT14: Final = ((50, 620), (80, 740))


class SpannerFamily:
    """The family of kind `spanner`. Needed: the spanner that is there. Offered: the hexagon of the part."""

    about = About(
        title="spanners and hexagons",
        standards=(
            "ISO 272",
            "ISO 4014",
            "ISO 4032",
            "ISO 4759-1",
            "DIN 931",
            "DIN 934",
            "ASME B18.2.1",
            "ASME B18.2.2",
            "BS 190",
            "BS 1083",
            "BS 93",
        ),
        spellings=(
            "13 mm AF",
            "19 a/f",
            "17 mm spanner",
            "hexagon 22 mm",
            "1/2 AF",
            "9/16 in A/F",
            "1 1/8 AF",
            "5/16 W",
            "1/4 Whit spanner",
            "3/8 BSF spanner",
            "2 BA spanner",
            "M10 DIN hexagon",
            "M12 ISO hexagon",
            "hexagon of M8 JIS",
            "7/16 UNF nut hexagon",
        ),
        not_said=("how worn the corners are", "how deep the head is", "whether a socket has room"),
        gaps=(
            "bi-hexagon and splined heads",
            "square heads",
            "wartime small Whitworth heads are one step down",
        ),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The spanner's one name, and the size across flats in mm to look by."""
        found = read(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found.name, keys={"flats": found.flats})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each spanner's hexagon, from its least new size (ISO 4759-1) to its nominal; corners and flats wear down."""
        for section in _SECTIONS:
            for row in standards.table(section).rows:
                flats = flats_of(row)
                bands = {"across-flats": Band(flats - less_at_most(flats), flats, "down")}
                values = {
                    "spanner": name_of(row),
                    "flats": f"{shown(flats)} mm",
                    "certainty": row.certainty.value,
                }
                yield Sized(
                    "spanner",
                    name_of(row),
                    bands,
                    Because("spanner-size", values, (row.origin,), (row.source,)),
                )

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """The needed spanner on the offered hexagon: it holds, does not go on, or goes on and rounds the corners."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        values = {"needed": wanted.name, "offered": had.name}
        if wanted.name == had.name or wanted.flats == had.flats:
            return verdict(FamilyState.OK, "spanner-same", values)
        share = (wanted.flats - had.flats) / had.flats
        values |= {
            "needed-flats": f"{shown(wanted.flats)} mm",
            "offered-flats": f"{shown(had.flats)} mm",
            "play": f"{abs(wanted.flats - had.flats):.2f} mm",
            "turn": f"{free_turn(wanted.flats, had.flats):.1f} degrees",
        }
        if share < -TIGHT:
            state, code = FamilyState.OFF, "spanner-too-small"
        elif share <= HOLDS:
            state, code = FamilyState.OK, "spanner-holds"
        elif share <= ROUNDS:
            state, code = FamilyState.TRAP, "spanner-rounds"
        else:
            state, code = FamilyState.OFF, "spanner-too-big"
        tells = (Because("spanner-tell", values),) if state is FamilyState.TRAP else ()
        return verdict(state, code, values, (*wanted.rows, *had.rows), (PRACTICE,), tells)


def less_at_most(flats: Decimal) -> Decimal:
    """How far a new hexagon may be under its nominal size, in mm: ISO 4759-1, grade A, h13 up to 30 mm, h14 above."""
    steps = _IT13 if flats <= 30 else _IT14
    microns = next((step for most, step in steps if flats <= most), steps[-1][1])
    return Decimal(microns) / 1000


def free_turn(jaw: Decimal, hexagon: Decimal) -> float:
    """Degrees that a hexagon turns in a parallel jaw before two corners touch; 30 where it turns right through.

    Geometry: the hexagon's width at angle t is s cos(30 - t) / cos(30), which has to grow to the jaw.
    """
    cosine = float(jaw / hexagon) * math.cos(math.radians(30))
    if cosine >= 1:
        return 30.0
    return max(0.0, 30 - math.degrees(math.acos(cosine)))


FAMILIES: Final = {"spanner": SpannerFamily()}
