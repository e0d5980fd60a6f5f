"""Brake fluids as a family of standards: the base first, then boiling points, then thickness in the cold."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.brake_fluid.reading import Fluid, read
from fitlore.trade.family import About
from fitlore.trade.pieces import PRACTICE, Piece, question, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

_OK, _OFF, _TRAP, _ASK = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP, FamilyState.UNREADABLE
THIN: Final = Decimal(900)
"""Where a grade asks for less viscosity than this at -40 degrees, valves were made for it; above, practice lets it pass."""
DOUBLE: Final = Decimal(155)
"""From this wet boiling point on a bottle marked by DOT may meet a thin ISO class too, unsaid: the limit of DOT 4."""


class BrakeFluidFamily:
    """The family of kind `brake-fluid`. Needed: what the reservoir asks for. Offered: what is on the bottle."""

    about = About(
        title="brake fluids",
        standards=("49 CFR 571.116", "ISO 4925", "SAE J1703", "ISO 7308"),
        spellings=(
            "DOT 4",
            "dot3",
            "DOT-5.1",
            "DOT 5,1 non-silicone",
            "FMVSS 116 DOT 4",
            "DOT 3/4",
            "silicone brake fluid",
            "DOT 5 silicone",
            "ISO 4925 class 6",
            "DOT 4 class 6",
            "SAE J1703",
            "mineral hydraulic fluid",
        ),
        not_said=("how much water is in it by now", "what is in the car", "which rubber the seals are of"),
        gaps=(
            "fluids before DOT (SAE 70R1, 70R3)",
            "thin kinds of SAE J1704",
            "racing fluids without a grade",
        ),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The grades in one spelling, `DOT 4 / ISO 4925 class 6`; a mineral fluid is `ISO 7308`."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        return Reading(str(found), implied="" if any(sign.isdigit() for sign in text) else "grade")

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: no fluid is told by measuring its size."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Another base is a trap. Of one base every limit that is needed has to be promised by what is offered."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        values = {"needed": str(wanted), "offered": str(had)}
        if str(wanted) == str(had):
            return verdict(_OK, "brake-fluid-same", values)
        if wanted.base != had.base:
            return _other_base(wanted, had, standards, values)
        pieces = [Piece("base", verdict(_OK, "brake-fluid-base-same", values | {"base": had.base}))]
        pieces += [_boiling(wanted, had, column) for column in ("dry", "wet")]
        pieces.append(_cold(wanted, had))
        return together("brake-fluid", str(wanted), str(had), pieces)


def _other_base(wanted: Fluid, had: Fluid, standards: Standards, values: dict[str, str]) -> FamilyResult:
    table = standards.table("brake-fluid-base")
    need, have = table.find(base=wanted.base)[0], table.find(base=had.base)[0]
    same_rubber = need.word("rubber") == have.word("rubber")
    code = "brake-fluid-trap-parts" if same_rubber else "brake-fluid-trap-seals"
    told = values | {"needed-base": wanted.base, "offered-base": had.base, "rubber": need.word("rubber")}
    tells = [
        Because(
            "brake-fluid-tell",
            {key: row.word(key) for key in ("base", "colour", "water")},
            (row.origin,),
            (row.source,),
        )
        for row in (need, have)
    ]
    return verdict(_TRAP, code, told, (need, have, *wanted.rows, *had.rows), (PRACTICE,), tells)


def _best(fluid: Fluid, column: str) -> TableRow:
    """The row that promises most, of all grades a fluid meets: the lowest viscosity, the highest boiling point."""
    sign = -1 if column == "cold" else 1
    return max(fluid.rows, key=lambda row: sign * row.number(column))


def _boiling(wanted: Fluid, had: Fluid, column: str) -> Piece:
    need, have = _best(wanted, column), _best(had, column)
    what = f"{column} boiling point"
    values = {
        "what": what,
        "needed": f"{plain(need.number(column))} °C",
        "offered": f"{plain(have.number(column))} °C",
    }
    if have.number(column) >= need.number(column):
        return Piece(what, verdict(_OK, "brake-fluid-boils-ok", values, (need, have)))
    if _unsaid(need, wanted, had):
        return Piece(what, _look(wanted, need, have))
    return Piece(what, verdict(_OFF, "brake-fluid-boils-low", values, (need, have)))


def _cold(wanted: Fluid, had: Fluid) -> Piece:
    need, have = _best(wanted, "cold"), _best(had, "cold")
    what = "thickness in the cold"
    values = {"needed": plain(need.number("cold")), "offered": plain(have.number("cold"))}
    if have.number("cold") <= need.number("cold"):
        return Piece(what, verdict(_OK, "brake-fluid-cold-ok", values, (need, have)))
    if need.number("cold") > THIN:
        return Piece(what, verdict(_OK, "brake-fluid-cold-little", values, (need, have), (PRACTICE,)))
    if _unsaid(need, wanted, had):
        return Piece(what, _look(wanted, need, have))
    return Piece(what, verdict(_OFF, "brake-fluid-cold-thick", values, (need, have)))


def _unsaid(need: TableRow, wanted: Fluid, had: Fluid) -> bool:
    """Whether the offered one is marked by DOT alone, and may meet the thin class that is needed without saying so."""
    thin = _best(wanted, "cold").number("cold") < THIN
    by_dot = all(row.word("system") == "DOT" for row in had.rows)
    return thin and by_dot and need.word("system") == "ISO" and _best(had, "wet").number("wet") >= DOUBLE


def _look(wanted: Fluid, need: TableRow, have: TableRow) -> FamilyResult:
    values = {"needed": str(wanted), "offered": have.word("grade")}
    return verdict(_ASK, "brake-fluid-class-unsaid", values, (need, have))


FAMILIES: Final = {"brake-fluid": BrakeFluidFamily()}
