"""Belts of accessory drives as a family of standards: texts in, a state and a proof out."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.belt.match import pieces
from fitlore.trade.belt.reading import Belt, read
from fitlore.trade.family import About
from fitlore.trade.pieces import together, verdict
from fitlore.trade.readings import each_reading
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards

_RIBS: Final = range(3, 9)
"""Ribs of belts in cars: 3PK to 8PK (common practice)."""
_PLAY: Final = Decimal("0.6")
"""How far a section measured with a calliper may lie off its nominal width and height, in mm (common practice)."""


class BeltFamily:
    """The family of kind `belt`."""

    about = About(
        title="belts of accessory drives",
        standards=("ISO 2790", "ISO 4183", "ISO 4184", "DIN 2215", "DIN 7753", "ISO 9981", "ISO 9982"),
        spellings=(
            "6PK1045", "6 PK 1045", "6DPK1195", "6PK1019 elastic", "4PK", "AVX10x1000 La", "AV 10 x 1000", "AVX13-990",
            "10x950 Li", "13 x 1000 mm La", "9.5 x 925", "12,5 x 1000", "SPZ 925", "XPA1250 Lw", "V-belt A36", "belt AX 42",
            "A 1250 Ld", "section A",
        ),
        not_said=(
            "how far the adjuster moves",
            "which way the belt runs and whether its back drives something",
            "how deep the grooves are worn: the belt must not touch the bottom",
            "how old it is",
        ),
        gaps=(
            "tolerances of length of V belts of ISO 2790",
            "American numbers in tenths of an inch",
            "joined and double-sided V belts",
        ),
    )  # fmt: skip

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `AVX10x1000 La` or `6PK1045`, with its length in mm under the name of that length."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        keys = {} if found.length is None else {found.kind: found.length}
        return Reading(str(found), keys=keys | ({"ribs": Decimal(found.ribs)} if found.ribs else {}))

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each section by its top width and height, each ribbed belt by its ribs and width. Flanks wear down."""
        for row in standards.table("belt-section").rows:
            bands = {
                "width": Band.around(row.number("top"), _PLAY, "down"),
                "height": Band.around(row.number("height"), _PLAY, "down"),
            }
            yield _sized(Belt(row, kind=row.word("said")), bands)
        for row in standards.table("rib-profile").rows:
            for ribs in _RIBS:
                width = row.number("pitch") * ribs
                bands = {
                    "ribs": Band(Decimal(ribs), Decimal(ribs)),
                    "width": Band(width - row.number("pitch") / 2, width, "down"),
                }
                yield _sized(Belt(row, ribs=ribs), bands)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Section or profile, ribs, length. A width with an unnamed length is compared by each reading."""
        wanted, had = read(needed, standards), read(offered, standards)
        return each_reading(
            "belt-no-reading-goes",
            wanted,
            had,
            lambda text: read(text, standards),
            lambda want, have: _one(want, have, standards),
        )


def _one(wanted: Belt, had: Belt, standards: Standards) -> FamilyResult:
    if str(wanted) == str(had) and wanted.length is not None:
        return verdict(FamilyState.OK, "belt-same", {"needed": str(wanted), "offered": str(had)})
    return together("belt", str(wanted), str(had), pieces(wanted, had, standards))


def _sized(belt: Belt, bands: dict[str, Band]) -> Sized:
    row = belt.row
    values = {"belt": str(belt), "certainty": row.certainty.value}
    return Sized("belt", str(belt), bands, Because("belt-size", values, (row.origin,), (row.source,)))


FAMILIES: Final = {"belt": BeltFamily()}
