"""O-rings as a family of standards: section and inside decide whether it squeezes, the rubber whether it lasts.

Tolerances are those of ISO 3601-1 for the listed ring nearest in size. A section within it is the same ring to the groove; a
section a little off lies in the groove and is squeezed too little or fills it: a trap. A ring a little small inside can be
stretched where it sits on a shaft, not where it sits in a bore: that is for the place to say (ISO 3601-2: up to 5 %).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.o_ring.reading import Ring, read
from fitlore.trade.o_ring.rubber import compare_rubber
from fitlore.trade.pieces import PRACTICE, Piece, question, shown, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_OK, _OFF, _TRAP, _ASK = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP, FamilyState.UNREADABLE
NEAR: Final = Decimal("0.15")
"""Share of the section within which a wrong ring still lies in the groove and looks right. Common practice."""
STRETCH: Final = Decimal("0.05")
"""How far a ring may be stretched on a shaft or pressed together in a bore, as a share of its inside (ISO 3601-2)."""


class ORingFamily:
    """The family of kind `o-ring`."""

    about = About(
        title="O-rings",
        standards=("ISO 3601-1", "ISO 3601-2", "AS568", "BS 1806", "JIS B 2401", "ISO 1629"),
        spellings=(
            "20x2.5", "20 x 2,5 NBR", "O-ring 12.42 x 1.78", "-112", "AS568-112", "BS1806-210 FKM", "dash 014", "P20", "G25",
            "3/4 x 1/8", "3/4 x 1/8 in EPDM", "0.734 x 0.139 in", "20x25x2.5", "20x2.5 for brake fluid", "20x2.5 NBR 70 Shore",
        ),
        not_said=(
            "what runs against it, unless a rubber or a fluid is written",
            "how deep and wide the groove is",
            "whether it moves",
            "how old it is",
        ),
        gaps=(
            "metric sizes are not listed: any pair of figures is read",
            "depths of grooves",
            "square and quad rings",
        ),
    )  # fmt: skip

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `18.64x3.53 NBR`, with inside and section in mm. A dash number becomes its size."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        return Reading(str(found), keys={"inside": found.inside, "section": found.section})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed ring by its inside and its section, with the tolerances of ISO 3601-1. Sections set and wear down."""
        for row in (*standards.table("as568-ring").rows, *standards.table("jis-ring").rows):
            ring = Ring(row.number("inside"), row.number("section"))
            name = f"-{row.word('dash')}" if row.word("dash") else row.word("code")
            near = _tolerances(ring, standards)
            bands = {
                "inside": Band.around(ring.inside, near[0], "up"),
                "thickness": Band.around(ring.section, near[1], "down"),
            }
            values = {"ring": str(ring), "number": name, "certainty": row.certainty.value}
            yield Sized("o-ring", name, bands, Because("o-ring-size", values, (row.origin,), (row.source,)))

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Section, inside, rubber, hardness: each by itself."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        if wanted == had:
            return verdict(_OK, "o-ring-same", {"needed": str(wanted), "offered": str(had)})
        return together("o-ring", str(wanted), str(had), _pieces(wanted, had, standards))


def _pieces(wanted: Ring, had: Ring, standards: Standards) -> Iterator[Piece]:
    room = _tolerances(wanted, standards)
    yield Piece("section", _section(wanted.section, had.section, room[1], room[2]))
    yield Piece("inside", _inside(wanted.inside, had.inside, room[0], room[2]))
    if (wanted.rubber, wanted.medium) != (had.rubber, had.medium):
        yield Piece("rubber", _rubber(wanted, had, standards))
    need, have = wanted.shore or "70", had.shore or "70"
    if need != have:
        softer = int(have) < int(need)
        values = {"needed": need, "offered": have}
        yield Piece(
            "hardness",
            verdict(
                _OFF if softer else _ASK,
                f"o-ring-{'softer' if softer else 'harder'}",
                values,
                (),
                (PRACTICE,),
            ),
        )


def _rubber(wanted: Ring, had: Ring, standards: Standards) -> FamilyResult:
    """A medium written on the offered one only tells what it is sold for; it has to be the one needed, if one is."""
    if wanted.medium and not had.rubber and had.medium:
        if wanted.rubber and wanted.medium == had.medium:
            return compare_rubber(wanted.rubber, wanted.medium, "", standards)
        state = _OK if wanted.medium == had.medium else _TRAP
        code = "rubber-same-medium" if state is _OK else "rubber-other-medium"
        values = {"needed": wanted.medium, "offered": had.medium}
        tells = () if state is _OK else (Because("rubber-tell", {}),)
        return verdict(state, code, values, (), (PRACTICE,), tells)
    if had.medium and not (had.rubber or wanted.rubber or wanted.medium):
        values = {"offered": f"one for {had.medium.replace('-', ' ')}"}
        return verdict(_ASK, "rubber-special", values, (), (PRACTICE,))
    return compare_rubber(wanted.rubber, wanted.medium, had.rubber, standards)


def _section(need: Decimal, have: Decimal, play: Decimal, rows: tuple[TableRow, ...]) -> FamilyResult:
    gap = abs(have - need)
    values = {"needed": f"{shown(need)} mm", "offered": f"{shown(have)} mm", "tolerance": f"{play:f} mm"}
    if not gap:
        return verdict(_OK, "o-ring-section-same", values)
    if gap <= play:
        return verdict(_OK, "o-ring-section-within", values, rows, ("ISO 3601-1",))
    if gap > need * NEAR:
        return verdict(_OFF, "o-ring-section-off", values, rows)
    code = "o-ring-section-thin" if have < need else "o-ring-section-thick"
    tell = Because("o-ring-tell-section", {"this": values["offered"], "right": values["needed"]})
    return verdict(_TRAP, code, values, rows, (PRACTICE,), (tell,))


def _inside(need: Decimal, have: Decimal, play: Decimal, rows: tuple[TableRow, ...]) -> FamilyResult:
    gap = have - need
    values = {"needed": f"{shown(need)} mm", "offered": f"{shown(have)} mm", "tolerance": f"{play:f} mm"}
    values["share"] = f"{round(abs(gap) / need * 100, 1)} %"
    if not gap:
        return verdict(_OK, "o-ring-inside-same", values)
    if abs(gap) <= play:
        return verdict(_OK, "o-ring-inside-within", values, rows, ("ISO 3601-1",))
    if abs(gap) > need * STRETCH:
        return verdict(_OFF, "o-ring-inside-off", values, (), ("ISO 3601-2",))
    code = "o-ring-inside-small" if gap < 0 else "o-ring-inside-large"
    return verdict(_ASK, code, values, (), ("ISO 3601-2",))


def _tolerances(ring: Ring, standards: Standards) -> tuple[Decimal, Decimal, tuple[TableRow, ...]]:
    """Inside and section, each way in mm, of the listed ring nearest in inside and of that nearest in section."""
    rows = standards.table("as568-ring").rows
    by_inside = min(rows, key=lambda row: abs(row.number("inside") - ring.inside))
    by_section = min(rows, key=lambda row: (abs(row.number("section") - ring.section), row.word("dash")))
    return (
        by_inside.number("inside-tolerance"),
        by_section.number("section-tolerance"),
        (by_inside, by_section),
    )


FAMILIES: Final = {"o-ring": ORingFamily()}
