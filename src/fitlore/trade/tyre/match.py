"""Two tyres compared: rim, build, size, service, load and speed, each by itself; load and speed may be more, never less."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.pieces import PRACTICE, Piece, shown, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState
from fitlore.trade.standards import Standards
from fitlore.trade.tyre.changes import changes
from fitlore.trade.tyre.dimensions import nominal
from fitlore.trade.tyre.value import Build, Tyre

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
MIXING: Final = (
    "Motor Vehicles (Approval) Regulations 2001, schedule 3 (one size and build on an axle; radials in front only with "
    "radials behind)"
)
_CODES: Final = "UN R30 (load index and speed symbol at least those needed)"
_NEAR_RIM: Final = Decimal(13)
"""Rims nearer than this in mm let a wrong tyre seem to mount: half an inch (16 and 16.5), 390 mm and 15 inches."""
_SUITED: Final = {"": 0, "P": 0, "LT": 1, "C": 1, "T": -1}
"""Which service carries the load of which: commercial ones that of cars, a temporary spare nothing but itself."""
_STEPS: Final = tuple("QRSTUHVWY")


def compare(needed: Tyre, offered: Tyre, standards: Standards) -> FamilyResult:
    """The offered tyre in place of the needed one."""
    values = {"needed": str(needed), "offered": str(offered)}
    if values["needed"] == values["offered"]:
        return verdict(_OK, "tyre-same", values)
    pieces = [Piece("rim", _rim(needed, offered))]
    if pieces[0].result.state is _OK:
        pieces.append(Piece("size", _size(needed, offered, standards)))
    pieces += _demands(needed, offered, standards)
    return together("tyre", values["needed"], values["offered"], pieces)


def _demands(needed: Tyre, offered: Tyre, standards: Standards) -> Iterator[Piece]:
    """What the needed tyre asks for beyond its size; what only the offered one says is a question.

    Two bare sizes are compared as sizes. One without a profile in place of its 80 series carries less, so that is asked.
    """
    if needed.service != offered.service:
        yield Piece("service", _service(needed, offered))
    if needed.load is not None:
        yield Piece("load", _load("load", needed.load, offered.load, standards))
    elif not needed.plies and (offered.load or offered.plies or _lighter(needed, offered)):
        values = {"what": "load", "offered": str(offered)}
        yield Piece("load", verdict(_ASK, "tyre-load-not-known", values, sources=(_CODES,)))
    if needed.dual is not None and offered.load is not None:
        yield Piece("load in pairs", _load("load in pairs", needed.dual, offered.dual, standards))
    if needed.speed or needed.old_speed:
        yield Piece("speed", _speed(needed, offered, standards))
    elif offered.speed or offered.old_speed:
        values = {"what": "speed", "offered": str(offered)}
        yield Piece("speed", verdict(_ASK, "tyre-load-not-known", values, sources=(_CODES,)))
    if needed.plies:
        yield Piece("ply rating", _plies(needed.plies, offered))
    if needed.reinforced and needed.load is None and not offered.reinforced:
        yield Piece(
            "reinforced",
            verdict(_ASK, "tyre-reinforced-unsaid", {"offered": str(offered)}, sources=(_CODES,)),
        )


def _lighter(needed: Tyre, offered: Tyre) -> bool:
    """Whether a size without a profile is offered where its 80 series is needed (ETRTO: its load index is lower; memory)."""
    return needed.profile == 80 and offered.profile is None and not needed.inches and not offered.letter


def _rim(needed: Tyre, offered: Tyre) -> FamilyResult:
    want, have = (nominal(tyre.rim) for tyre in (needed, offered))
    values = {
        "needed": _rim_word(needed),
        "offered": _rim_word(offered),
        "apart": f"{shown(abs(want - have))} mm",
    }
    if want == have:
        return verdict(_OK, "tyre-rim-same", values)
    if abs(want - have) < _NEAR_RIM:
        return verdict(_TRAP, "tyre-rim-trap", values, sources=(PRACTICE,))
    return verdict(_OFF, "tyre-rim-off", values)


def _rim_word(tyre: Tyre) -> str:
    return f"{shown(tyre.rim)} mm" if tyre.millimetre_rim else f"{shown(tyre.rim)} inch"


def _size(needed: Tyre, offered: Tyre, standards: Standards) -> FamilyResult:
    """The same size, the size that took its place, one that is put in its place all round, or another."""
    values = {"needed": needed.bare.size, "offered": offered.bare.size}
    same = _measures(needed) == _measures(offered)
    if needed.build is not offered.build:
        return _other_build(needed, offered, same, standards)
    if same:
        return verdict(_OK, "tyre-size-same", values)
    if (
        needed.width == offered.width
        and {needed.profile, offered.profile} == {None, Decimal(80)}
        and not needed.inches
    ):
        return verdict(
            _WORK, "tyre-size-series", values, (), (PRACTICE, MIXING), changes(needed, offered, standards)
        )
    if needed.letter or offered.letter:
        return verdict(_OFF, "tyre-size-letter", values)
    return verdict(_OFF, "tyre-size-off", values, (), (), changes(needed, offered, standards))


def _measures(tyre: Tyre) -> tuple[object, ...]:
    return tyre.width, tyre.profile, tyre.inches, tyre.outside, tyre.letter


def _other_build(needed: Tyre, offered: Tyre, same: bool, standards: Standards) -> FamilyResult:
    builds = {"needed": needed.build.word, "offered": offered.build.word}
    sizes = {"needed-size": needed.bare.size, "offered-size": offered.bare.size}
    if same:
        return verdict(_TRAP, "tyre-build-trap", builds | sizes, sources=(MIXING,))
    cross, radial = (needed, offered) if needed.build is Build.CROSS_PLY else (offered, needed)
    plain = (one.bare._replace(service="", old_speed="") for one in (cross, radial))
    keys = [one._replace(profile=None).size if one.profile == 80 else one.size for one in plain]
    rows = standards.table("cross-ply-swap").find(cross_ply=keys[0], radial=keys[1])
    if not rows:
        under = changes(needed, offered, standards)
        return verdict(_OFF, "tyre-build-off", builds | sizes, (), (MIXING,), under)
    under = (*_rims_for(radial, standards), *changes(needed, offered, standards))
    return verdict(_ASK, "tyre-swap", builds | sizes, rows, (MIXING,), under)


def _rims_for(radial: Tyre, standards: Standards) -> tuple[Because, ...]:
    """Widths of rim that take a radial of this width: it is the rim that decides a swap, not the figures of the size."""
    suited = [
        row
        for row in standards.table("rim-for-section").rows
        if row.number("least") <= radial.width <= row.number("most")
    ]
    if not suited:
        return ()
    values = {"tyre": radial.bare.size, "rims": " and ".join(f"{row.cell('rim')} in" for row in suited)}
    sources = tuple(dict.fromkeys(row.source for row in suited))
    return (Because("tyre-swap-rim", values, origins=tuple(row.origin for row in suited), sources=sources),)


def _service(needed: Tyre, offered: Tyre) -> FamilyResult:
    values = {"needed": needed.service or "car", "offered": offered.service or "car"}
    want, have = _SUITED[needed.service], _SUITED[offered.service]
    if have == want:
        return verdict(_OK, "tyre-service-ok", values)
    if have < 0 or want > have:
        code = "tyre-service-spare" if have < 0 else "tyre-service-trap"
        return verdict(_TRAP, code, values, sources=("UN R54", PRACTICE))
    if want < 0:
        return verdict(_OFF, "tyre-service-full", values)
    return verdict(_WORK, "tyre-service-hard", values, sources=("UN R54", PRACTICE))


def _load(what: str, need: int, have: int | None, standards: Standards) -> FamilyResult:
    table = standards.table("load-index")
    wanted = table.find(index=str(need))[0]
    values = {"what": what, "needed": f"{need} ({shown(wanted.number('kg'))} kg)", "offered": ""}
    if have is None:
        return verdict(_ASK, "tyre-load-unsaid", values)
    row = table.find(index=str(have))[0]
    values["offered"] = f"{have} ({shown(row.number('kg'))} kg)"
    if have < need:
        return verdict(_OFF, "tyre-load-low", values, (wanted, row), (_CODES,))
    return verdict(_OK, "tyre-load-ok", values, (wanted, row), (_CODES,))


def _speed(needed: Tyre, offered: Tyre, standards: Standards) -> FamilyResult:
    """A letter is a greatest speed; V and Z in the size only say that it is more than so much."""
    values = {"needed": needed.speed or f"{needed.old_speed}R", "offered": ""}
    if not offered.speed and not offered.old_speed:
        return verdict(_ASK, "tyre-speed-unsaid", values)
    values["offered"] = offered.speed or f"{offered.old_speed}R"
    table = standards.table("speed-symbol")
    want, have = (
        table.find(symbol=one.speed, **{"in": "service"})[0]
        if one.speed
        else table.find(symbol=one.old_speed, **{"in": "size"})[0]
        for one in (needed, offered)
    )
    least, most = want.number("kmh"), have.number("kmh")
    values |= {"needed-kmh": f"{shown(least)} km/h", "offered-kmh": f"{shown(most)} km/h"}
    rows, sources = (want, have), (_CODES,)
    open_need, open_offer = want.word("means") == "above", have.word("means") == "above"
    if open_need and open_offer:
        state = _OK if most >= least else _ASK
        return verdict(state, "tyre-speed-ok" if state is _OK else "tyre-speed-open", values, rows, sources)
    if open_need:
        code = "tyre-speed-low" if most <= least else "tyre-speed-open"
        return verdict(_OFF if most <= least else _ASK, code, values, rows, sources)
    if most >= least:
        return verdict(_OK, "tyre-speed-ok", values, rows, sources)
    if open_offer:
        return verdict(_ASK, "tyre-speed-open", values, rows, sources)
    if offered.snow and offered.speed in _STEPS:
        return verdict(_ASK, "tyre-speed-snow", values, rows, (PRACTICE,))
    return verdict(_OFF, "tyre-speed-low", values, rows, sources)


def _plies(need: int, offered: Tyre) -> FamilyResult:
    values = {"needed": f"{need} PR", "offered": f"{offered.plies} PR" if offered.plies else ""}
    if not offered.plies:
        return verdict(_ASK, "tyre-plies-unsaid", values)
    low = offered.plies < need
    return verdict(
        _OFF if low else _OK, "tyre-plies-low" if low else "tyre-plies-ok", values, sources=(PRACTICE,)
    )
