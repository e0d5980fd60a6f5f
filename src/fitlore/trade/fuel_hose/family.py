"""Fuel hoses as a family: what they are made for decides first, then pressure, fuel and bore. What is wrong here burns."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.family import About
from fitlore.trade.fuel_hose.reading import EXAMPLES, SHAPE, read_fuel_hose, type_row
from fitlore.trade.measured import Made
from fitlore.trade.measured_family import MeasuredFamily
from fitlore.trade.pieces import PRACTICE, Piece, shown, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
_ALIKE: Final = Decimal("0.3")
_STRETCH, _LOOSE = Decimal("0.08"), Decimal("0.1")
"""Shares of the bore: a smaller one that can be pushed on, a bigger one that seems to go (common practice)."""
_SERVES: Final = {
    ("carburettor", "injection"): (_OK, "fuel-hose-serves"),
    ("carburettor", "vent"): (_TRAP, "fuel-hose-trap-vent"),
    ("injection", "carburettor"): (_TRAP, "fuel-hose-trap-injection"),
    ("injection", "vent"): (_TRAP, "fuel-hose-trap-injection"),
    ("injection", "in the tank"): (_TRAP, "fuel-hose-trap-injection"),
    ("in the tank", "carburettor"): (_TRAP, "fuel-hose-trap-tank"),
    ("in the tank", "injection"): (_TRAP, "fuel-hose-trap-tank"),
    ("in the tank", "vent"): (_TRAP, "fuel-hose-trap-tank"),
}
"""By (needed, offered) duty; what is not here is asked."""
_ASKS, _SHOWS = Decimal(1), Decimal("6.8")
"""Bar: a carburettor has less than the one, so that who asks for more has injection; what is printed with the other or more
is made for injection (common practice: 100 lbf/sq in)."""


class FuelHoseFamily(MeasuredFamily):
    """The family of kind `fuel-hose`."""

    about = About(
        title="fuel hoses",
        standards=("SAE J30", "DIN 73379", "ISO 80000-4"),
        spellings=(
            *EXAMPLES,
            "8 mm fuel hose 30R9",
            "SAE J30 R7 fuel line 5/16 in",
            "fuel injection hose 7,5 mm bore, 5 bar",
            "carburettor hose 6 mm, for E10",
            "DIN 73379-2E fuel hose 7.3x12.5 mm, 3 bar",
            "petrol hose R6, 1/4 in, length 600 mm",
            "fuel hose R14T1, bore 8 mm, ethanol resistant, 50 psi",
        ),
        not_said=(
            "how old it is: the year is printed, and rubber of ten years is old",
            "whether the print is true",
            "the clips it needs: smooth bands with rolled edges on injection",
            "whether it stands ethanol, where that is not said: its type does not say so",
        ),
        gaps=(
            "working pressures of types without a row",
            "forms and materials of DIN 73379",
            "ISO 19013",
            "hoses with ends pressed on",
        ),
    )
    shape = SHAPE
    apart = ("type", "duty", "bore", "pressure")

    def made(self, text: str, standards: Standards) -> Made | Unreadable:
        """What a text says."""
        return read_fuel_hose(text, standards)

    def more(self, wanted: Made, had: Made, standards: Standards) -> list[Piece]:
        """What it is for, what it stands, how much it lets through, and whether it holds on its stub."""
        need, have = type_row(wanted, standards), type_row(had, standards)
        found = [Piece("bore", _bore(wanted.figures["bore"], had.figures["bore"]))]
        if duty := _duty(wanted, need, _ASKS):
            found.append(Piece("duty", _serves(duty, _duty(had, have, _SHOWS), need, have)))
        if need and need != have and need.word("tight") == "yes":
            found.append(Piece("vapour", _tight(need, have)))
        found += _sub_type(wanted.traits.get("type", ""), had.traits.get("type", ""))
        wants, rows = _pressure(wanted, standards)
        if wants is not None:
            has, others = _pressure(had, standards)
            found.append(Piece("pressure", _stands(wants, has, (*rows, *others))))
        if need is not None and wanted.traits["type"] != had.traits.get("type"):
            found += _other_type(wanted.traits["type"], str(had), need, standards)
        return found


def _duty(made: Made, row: TableRow | None, injection: Decimal) -> str:
    """What a hose is for: its type says so more surely than a word, a word than its pressure in bar; empty where none does."""
    listed = row.word("duty") if row else "unsaid"
    if listed != "unsaid":
        return listed
    pressure = made.figures.get("pressure", Decimal(0))
    return made.traits.get("duty", "injection" if pressure >= injection else "")


def _other_type(need: str, have: str, row: TableRow, standards: Standards) -> list[Piece]:
    """Of a type whose pressure is not listed nothing is known that another type could be held against."""
    if standards.table("fuel-hose-pressure").find(type=row.word("type")):
        return []
    values = {"needed": need, "offered": have}
    return [Piece("type", verdict(_ASK, "fuel-hose-other-type", values, (row,)))]


def _sub_type(need: str, have: str) -> list[Piece]:
    """`T1` and the like behind a type: what they mean is the standard's own, so that another one is a question."""
    (base, _, asked), (other, _, given) = need.partition(" T"), have.partition(" T")
    if not asked or base != other:
        return []
    values = {"what": "sub-type", "needed": need, "offered": have}
    code = "service-agrees" if asked == given else "fuel-hose-sub-type"
    return [Piece("sub-type", verdict(_OK if asked == given else _ASK, code, values))]


def _serves(need: str, have: str, wanted: TableRow | None, had: TableRow | None) -> FamilyResult:
    rows = tuple(row for row in (wanted, had) if row)
    values = {
        "what": "duty",
        "needed": need,
        "offered": have,
        "print": had.word("type") if had else "no type",
        "look": "what is printed along it",
    }
    if not have:
        return verdict(_ASK, "service-not-said", values)
    if need == have:
        return verdict(_OK, "service-agrees", values, rows)
    state, code = _SERVES.get((need, have), (_ASK, "fuel-hose-duty"))
    tell = (Because("fuel-hose-tell-print", values),) if state is _TRAP else ()
    return verdict(state, code, values, rows, (PRACTICE,), tell)


def _tight(need: TableRow, have: TableRow | None) -> FamilyResult:
    """A type of low permeation is asked for."""
    values = {
        "what": "vapour",
        "needed": need.word("type"),
        "offered": have.word("type") if have else "no type",
    }
    rows = (need, have) if have else (need,)
    same = have is not None and have.word("tight") == "yes"
    return verdict(
        _OK if same else _ASK, "fuel-hose-tight" if same else "fuel-hose-lets-through", values, rows
    )


def _pressure(made: Made, standards: Standards) -> tuple[Decimal | None, tuple[TableRow, ...]]:
    """The pressure said in bar, or that of the type by its bore, with the row."""
    if "pressure" in made.figures:
        return made.figures["pressure"], ()
    rows = standards.table("fuel-hose-pressure").find(type=made.traits.get("type", "").partition(" T")[0])
    if not rows:
        return None, ()
    return rows[0].number("narrow" if made.figures["bore"] <= rows[0].number("to") else "wide"), rows


def _stands(need: Decimal, have: Decimal | None, rows: tuple[TableRow, ...]) -> FamilyResult:
    values = {
        "what": "pressure",
        "needed": f"{shown(need)} bar",
        "offered": "" if have is None else f"{shown(have)} bar",
        "look": "what is printed along it",
        "print": "" if have is None else f"{shown(have)} bar",
    }
    if have is None:
        return verdict(_ASK, "service-not-said", values)
    if have >= need:
        return verdict(_OK, "service-agrees", values, rows)
    tell = (Because("fuel-hose-tell-print", values),)
    return verdict(_TRAP, "fuel-hose-trap-bursts", values, rows, (PRACTICE,), tell)


def _bore(need: Decimal, have: Decimal) -> FamilyResult:
    values = {"what": "bore", "needed": f"{shown(need)} mm", "offered": f"{shown(have)} mm"}
    gap = have - need
    if abs(gap) <= _ALIKE:
        return verdict(_OK, "service-agrees", values)
    if gap < 0:
        tight = -gap <= need * _STRETCH
        code = "fuel-hose-bore-tight" if tight else "fuel-hose-bore-small"
        return verdict(_WORK if tight else _OFF, code, values, sources=(PRACTICE,))
    if gap > need * _LOOSE:
        return verdict(_OFF, "fuel-hose-bore-big", values, sources=(PRACTICE,))
    tell = (Because("fuel-hose-tell-loose", values),)
    return verdict(_TRAP, "fuel-hose-trap-loose", values, (), (PRACTICE,), tell)


FAMILIES: Final = {"fuel-hose": FuelHoseFamily()}
