"""Two wheels compared: rim, bolt circle, place of the rim, centre bore, seat and load, each by itself."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from fitlore.trade.pieces import PRACTICE, Piece, shown, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState
from fitlore.trade.standards import Standards
from fitlore.trade.wheel.reading import SAME_CIRCLE
from fitlore.trade.wheel.value import Circle, Rim, Wheel, moved

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
GEOMETRY: Final = "geometry (half the width to each side, the offset inwards)"
_NEAR_CIRCLE: Final = Decimal(3)
"""Bolt circles this near let the nuts start, and bend the studs. Common practice."""
_NEAR_RIM: Final = Decimal(13)
"""Rims nearer than this let a wrong tyre seem to mount, as with tyres. Common practice."""
_SAME_BORE: Final = Decimal("0.1")
_THINNEST_RING: Final = Decimal(1)
"""The thinnest wall that a spigot ring is made with, in mm. Common practice."""
_EDGE: Final = Decimal(5)
"""How far an edge of the rim may move and still be a matter of looking, in mm. Common practice."""
_MORE_HUMP: Final = {"": 0, "H": 1, "H2": 2}


def compare(needed: Wheel, offered: Wheel, standards: Standards) -> FamilyResult:
    """The offered wheel in place of the needed one; of what the needed one leaves unsaid only the hub is asked."""
    values = {"needed": str(needed), "offered": str(offered)}
    if values["needed"] == values["offered"]:
        return verdict(_OK, "wheel-same", values)
    return together("wheel", values["needed"], values["offered"], _pieces(needed, offered, standards))


def _pieces(needed: Wheel, offered: Wheel, standards: Standards) -> Iterator[Piece]:
    if needed.circle is not None:
        yield Piece("bolt circle", _circle(needed.circle, offered.circle))
    elif offered.circle is not None:
        yield Piece("bolt circle", verdict(_ASK, "wheel-circle-open", {"offered": str(offered.circle)}))
    if needed.bore is not None:
        yield Piece("centre bore", _bore(needed.bore, offered.bore))
    elif needed.circle is None and offered.bore is not None:
        yield Piece("centre bore", verdict(_ASK, "wheel-bore-open", {"offered": f"{shown(offered.bore)} mm"}))
    if needed.rim is not None:
        yield Piece("rim", _rim(needed.rim, offered.rim))
        if needed.rim.hump and offered.rim is not None:
            yield Piece("hump", _hump(needed.rim.hump, offered.rim.hump, standards))
        if needed.rim.flange and offered.rim is not None and needed.rim.flange != offered.rim.flange:
            yield Piece("flange", _flange(needed.rim.flange, offered.rim.flange, standards))
    if needed.offset is not None or (needed.rim is not None and offered.rim is not None):
        yield Piece("offset", _place(needed, offered))
    if needed.seat:
        yield Piece("seat", _seat(needed.seat, offered.seat, standards))
    if needed.load is not None:
        yield Piece("load", _load(needed.load, offered.load))


def _unsaid(code: str, needed: str) -> FamilyResult:
    return verdict(_ASK, code, {"needed": needed})


def _circle(need: Circle, have: Circle | None) -> FamilyResult:
    if have is None:
        return _unsaid("wheel-circle-unsaid", str(need))
    apart = abs(need.diameter - have.diameter)
    values = {
        "needed": str(need),
        "offered": str(have),
        "apart": f"{shown(apart)} mm",
        "needed-spacing": f"{need.spacing:.1f} mm",
        "offered-spacing": f"{have.spacing:.1f} mm",
    }
    if need.holes != have.holes:
        return verdict(_OFF, "wheel-holes-off", values)
    if apart <= SAME_CIRCLE:
        return verdict(_OK, "wheel-circle-same", values)
    near = apart <= _NEAR_CIRCLE
    return verdict(
        _TRAP if near else _OFF,
        "wheel-circle-trap" if near else "wheel-circle-off",
        values,
        sources=(PRACTICE,),
    )


def _bore(need: Decimal, have: Decimal | None) -> FamilyResult:
    if have is None:
        return _unsaid("wheel-bore-unsaid", f"{shown(need)} mm")
    wall = (have - need) / 2
    values = {"needed": f"{shown(need)} mm", "offered": f"{shown(have)} mm", "wall": f"{shown(wall)} mm"}
    if abs(have - need) <= _SAME_BORE:
        return verdict(_OK, "wheel-bore-same", values)
    if have < need:
        return verdict(_OFF, "wheel-bore-small", values, sources=(PRACTICE,))
    if wall < _THINNEST_RING:
        return verdict(_TRAP, "wheel-bore-trap", values, sources=(PRACTICE,))
    return verdict(_WORK, "wheel-bore-ring", values, sources=(PRACTICE,))


def _rim(need: Rim, have: Rim | None) -> FamilyResult:
    if have is None:
        return _unsaid("wheel-rim-unsaid", str(need))
    apart = abs(need.across - have.across)
    values = {"needed": str(need), "offered": str(have), "apart": f"{shown(apart)} mm"}
    if need.diameter != have.diameter:
        near = apart < _NEAR_RIM
        return verdict(
            _TRAP if near else _OFF,
            "wheel-rim-trap" if near else "wheel-rim-off",
            values,
            sources=(PRACTICE,),
        )
    if need.width != have.width:
        return verdict(_OFF, "wheel-width-off", values)
    return verdict(_OK, "wheel-rim-same", values)


def _hump(need: str, have: str, standards: Standards) -> FamilyResult:
    table = standards.table("rim-hump")
    values = {"needed": need, "offered": have}
    if need == have or (need in _MORE_HUMP and have in _MORE_HUMP and _MORE_HUMP[have] > _MORE_HUMP[need]):
        return verdict(_OK, "wheel-hump-same", values)
    rows = (*table.find(hump=need), *table.find(hump=have))
    return verdict(_ASK, "wheel-hump-unsaid", values, rows, (PRACTICE,))


def _flange(need: str, have: str, standards: Standards) -> FamilyResult:
    values = {"needed": need, "offered": have}
    if not have:
        return verdict(_ASK, "wheel-flange-unsaid", values)
    table = standards.table("rim-flange")
    rows = (*table.find(flange=need), *table.find(flange=have))
    return verdict(_WORK, "wheel-flange-other", values, rows, (PRACTICE,))


def _place(needed: Wheel, offered: Wheel) -> FamilyResult:
    """Where the edges of the rim come to lie: with both widths and both offsets it is geometry, else a question."""
    if needed.offset is None or offered.offset is None:
        return _unsaid("wheel-offset-unsaid", "" if needed.offset is None else f"ET{shown(needed.offset)}")
    plain = Rim(Decimal(6), "", Decimal(15))
    before, now = needed.rim or offered.rim or plain, offered.rim or needed.rim or plain
    values = {"needed": f"ET{shown(needed.offset)}", "offered": f"ET{shown(offered.offset)}"}
    edges = moved(before, needed.offset, now, offered.offset)
    values |= {"inwards": f"{edges.inwards:+.1f} mm", "outwards": f"{edges.outwards:+.1f} mm"}
    if edges.inwards == 0 and edges.outwards == 0:
        return verdict(_OK, "wheel-offset-same", values)
    if max(abs(edges.inwards), abs(edges.outwards)) <= _EDGE:
        return verdict(_WORK, "wheel-offset-near", values, sources=(GEOMETRY, PRACTICE))
    return verdict(_OFF, "wheel-offset-off", values, sources=(GEOMETRY, PRACTICE))


def _seat(need: str, have: str, standards: Standards) -> FamilyResult:
    values = {"needed": need, "offered": have}
    if not have:
        return _unsaid("wheel-seat-unsaid", need)
    if need == have:
        return verdict(_OK, "wheel-seat-same", values)
    table = standards.table("wheel-seat")
    rows = (*table.find(seat=need), *table.find(seat=have))
    return verdict(_TRAP, "wheel-seat-trap", values, rows, (PRACTICE,))


def _load(need: Decimal, have: Decimal | None) -> FamilyResult:
    if have is None:
        return _unsaid("wheel-load-unsaid", f"{shown(need)} kg")
    values = {"needed": f"{shown(need)} kg", "offered": f"{shown(have)} kg"}
    low = have < need
    return verdict(
        _OFF if low else _OK, "wheel-load-low" if low else "wheel-load-ok", values, sources=(PRACTICE,)
    )
