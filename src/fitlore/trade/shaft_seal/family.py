"""Shaft seals as a family of standards: texts in, a state and a proof out."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import question, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.shaft_seal.match import allowance, pieces
from fitlore.trade.shaft_seal.reading import Seal, read
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_LIP: Final = Decimal("0.2")
"""How far under the shaft's size the free lip may measure and still be named by it, in mm; an old one measures more."""
_WIDTH: Final = (Decimal("0.2"), Decimal("0.3"))
"""Tolerance of the width in mm each way, up to 10 mm and above (ISO 6194-1, recalled)."""


class ShaftSealFamily:
    """The family of kind `shaft-seal`."""

    about = About(
        title="shaft seals",
        standards=("ISO 6194-1", "DIN 3760", "DIN 3761", "ISO 286-1", "ISO 1629"),
        spellings=(
            "38x52x7", "38 x 52 x 7 mm", "38×52×7", "38-52-7", "38,1 x 52 x 7", "AS 38x52x7", "DIN 3760 - AS38x52x7 - NBR",
            "oil seal 38x52x7 dust lip FKM", "38x52x7/9", "35x50x8 FKM right", "35x50x8 clockwise", "1 1/2 x 2 x 3/8",
            "TC 38x52x7", "38x52x7 metal case",
        ),
        not_said=(
            "whether the shaft has a groove where the old lip ran: then a narrower seal, another depth or a sleeve",
            "how deep the hole is",
            "what pressure and speed it bears",
            "which way the shaft turns",
        ),
        gaps=(
            "the list of sizes: far more are sold than any standard lists",
            "cassette seals and seals with a flange",
            "lips of PTFE, which go on dry",
        ),
    )  # fmt: skip

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `38x52x7 rubber case dust lip NBR`, with shaft, housing and width in mm."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        keys = {"shaft": found.shaft, "housing": found.housing, "width": found.width}
        return Reading(str(found), keys={name: round(value, 3) for name, value in keys.items()})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed seal: shaft, outside (made bigger than its hole) and width. The lip wears open."""
        for row in standards.table("seal-size").rows:
            yield _sized(row, standards)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Each of the three figures and each thing said, by itself."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        if str(wanted) == str(had):
            alike = {row.word("type") for row in wanted.letters} == {row.word("type") for row in had.letters}
            rows = () if alike else (*wanted.letters, *had.letters)
            return verdict(
                FamilyState.OK, "shaft-seal-same", {"needed": str(wanted), "offered": str(had)}, rows
            )
        return together("shaft-seal", str(wanted), str(had), pieces(wanted, had, standards))


def _sized(row: TableRow, standards: Standards) -> Sized:
    shaft, housing, width = (row.number(name) for name in ("shaft", "housing", "width"))
    over = next((found.number("rubber-high") for found in allowance(housing, standards)), Decimal(0))
    play = _WIDTH[width > 10]
    bands = {
        "inside": Band(shaft - _LIP, shaft, "up"),
        "outside": Band(housing, housing + over),
        "width": Band.around(width, play),
    }
    seal = Seal(shaft, housing, width, width)
    because = Because(
        "shaft-seal-size", {"seal": str(seal), "certainty": row.certainty.value}, (row.origin,), (row.source,)
    )
    return Sized("shaft-seal", str(seal), bands, because)


FAMILIES: Final = {"shaft-seal": ShaftSealFamily()}
