"""One oil held against another: thickness hot, flow in the cold, classes of service."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from fitlore.model.because import Because
from fitlore.trade.oil.reading import Oil
from fitlore.trade.pieces import PRACTICE, Piece, verdict
from fitlore.trade.result import FamilyResult, FamilyState
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

_OK, _OFF, _TRAP, _ASK = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP, FamilyState.UNREADABLE
LEAN = Decimal("0.08")
"""Phosphorus, per cent of mass, up to which sliding followers of old engines are said to be short of it: common practice."""


def pieces(wanted: Oil, had: Oil, standards: Standards) -> Iterator[Piece]:
    """Each thing that the needed oil says, and how the offered one stands to it."""
    if wanted.scale and had.scale and wanted.scale != had.scale:
        yield Piece("grade", _two_scales(wanted, had))
    elif wanted.scale and not had.scale:
        yield Piece("grade", _unsaid("grade", wanted, had))
    else:
        if wanted.hot:
            yield Piece("thickness when hot", _hot(wanted, had, wanted.hot, standards))
        if wanted.winter:
            yield Piece("flow in the cold", _cold(wanted, had, wanted.winter))
    for need in wanted.classes:
        if need.section == "engine-oil-service":
            yield Piece("class of service", _engine_class(need, had, standards))
        else:
            yield Piece("class of service", _gear_class(need, had))
    if wanted.ep and not any(row.section == "gear-oil-service" for row in wanted.classes):
        yield Piece("extreme pressure", _pressure(had))
    elif wanted.scale == "gear" and not wanted.classes and (had.ep or had.classes):
        values = {"needed": str(wanted), "offered": str(had)}
        yield Piece("class of service", verdict(_ASK, "oil-class-open", values, (), (PRACTICE,)))


def _unsaid(what: str, wanted: Oil, had: Oil) -> FamilyResult:
    return verdict(_ASK, "oil-unsaid", {"what": what, "needed": str(wanted), "offered": str(had)})


def _band(row: TableRow) -> str:
    most = row.numbers.get("most")
    return (
        f"{plain(row.number('least'))} to {plain(most)}" if most else f"{plain(row.number('least'))} and more"
    )


def _hot(wanted: Oil, had: Oil, need: TableRow, standards: Standards) -> FamilyResult:
    have = had.hot
    if have is None:
        return _unsaid("thickness when hot", wanted, had)
    values = {
        "needed": need.word("grade"),
        "offered": have.word("grade"),
        "needed-band": _band(need),
        "offered-band": _band(have),
    }
    if need == have:
        return verdict(_OK, "oil-hot-ok", values, (need,))
    for old in standards.table("gear-oil-old-hot").find(grade=need.word("grade")):
        inside = have.number("least") >= old.number("least") and (
            have.numbers.get("most", old.number("most") + 1) <= old.number("most")
        )
        if wanted.scale == "gear" and inside:
            return verdict(_OK, "oil-hot-old", values | {"old-band": _band(old)}, (have, old))
    thin = have.number("least") < need.number("least")
    return verdict(_OFF, "oil-hot-thin" if thin else "oil-hot-thick", values, (need, have))


def _cold(wanted: Oil, had: Oil, need: TableRow) -> FamilyResult:
    have, column = had.winter, "pump-at" if wanted.scale == "engine" else "flows-at"
    values = {"needed": need.word("grade"), "offered": str(had), "needed-at": plain(need.number(column))}
    if have is None:
        return verdict(_OFF, "oil-cold-none", values, (need,))
    values |= {"offered": have.word("grade"), "offered-at": plain(have.number(column))}
    if have.number(column) <= need.number(column):
        return verdict(_OK, "oil-cold-ok", values, (need, have))
    return verdict(_OFF, "oil-cold-stiff", values, (need, have))


def _two_scales(wanted: Oil, had: Oil) -> FamilyResult:
    """The numbers of the two scales are apart: 80 for gears is about 30 for engines."""
    need, have = wanted.hot, had.hot
    if need is None or have is None:
        return _unsaid("thickness when hot", wanted, had)
    values = {
        "needed": str(wanted),
        "offered": str(had),
        "needed-band": _band(need),
        "offered-band": _band(have),
        "needed-scale": wanted.scale,
        "offered-scale": had.scale,
    }
    apart = any(
        "most" in low.numbers and low.number("most") <= high.number("least")
        for low, high in ((need, have), (have, need))
    )
    return verdict(
        _OFF if apart else _ASK, "oil-scales-apart" if apart else "oil-scales-near", values, (need, have)
    )


def _engine_class(need: TableRow, had: Oil, standards: Standards) -> FamilyResult:
    series = need.word("series")
    same = [row for row in had.classes if row.section == need.section and row.word("series") == series]
    values = {"needed": need.word("class"), "offered": str(had)}
    if not same:
        return verdict(_ASK, "oil-class-unsaid", values)
    have = need if need in same else max(same, key=lambda row: row.number("rank"))
    values["offered"] = have.word("class")
    if need == have:
        return verdict(_OK, "oil-class-ok", values, (need,))
    if need.word("alone") and have.number("rank") > need.number("rank"):
        return verdict(_ASK, "oil-class-alone", values, (need, have))
    if have.number("rank") < need.number("rank"):
        until = have.cell("until")
        return verdict(_OFF, "oil-class-low", values | {"until": until}, (need, have))
    lean = _lean(need, have, had, standards)
    if lean is not None:
        told = values | {"phosphorus": plain(lean.number("most")), "grade": lean.cell("up-to")}
        return verdict(_ASK, "oil-class-lean", told, (need, have, lean), (PRACTICE,))
    return verdict(_OK, "oil-class-ok", values, (need, have))


def _lean(need: TableRow, have: TableRow, had: Oil, standards: Standards) -> TableRow | None:
    """The row that keeps phosphorus low in the offered class, where the needed class is older than any such limit."""
    limits = standards.table("engine-oil-phosphorus")
    before = not limits.find(**{"class": need.word("class")})
    for row in limits.find(**{"class": have.word("class")}):
        thin = had.hot is None or Decimal(had.hot.word("grade")) <= row.number("up-to")
        if before and thin and row.number("most") <= LEAN:
            return row
    return None


def _gear_class(need: TableRow, had: Oil) -> FamilyResult:
    have = {row.word("class"): row for row in had.classes if row.section == need.section}
    values = {"needed": need.word("class"), "offered": "/".join(have) or str(had), "for": need.word("for")}
    if not have:
        return verdict(_ASK, "oil-class-unsaid", values)
    most = max(have.values(), key=lambda row: row.number("rank"))
    if most.number("rank") < need.number("rank"):
        return verdict(_OFF, "oil-class-weak", values, (need, most))
    if need.word("yellow-metal") == "safe" and most.word("yellow-metal") == "doubted":
        if need.word("class") in have:
            return verdict(_ASK, "oil-class-both", values, (need, most), (PRACTICE,))
        tells = (Because("oil-tell-yellow", {}, sources=(PRACTICE,)),)
        return verdict(_TRAP, "oil-class-trap-yellow", values, (need, most), (PRACTICE,), tells)
    if need.word("class") == "GL-1" and most != need:
        return verdict(_ASK, "oil-class-plain", values, (need, most), (PRACTICE,))
    return verdict(_OK, "oil-class-ok", values, (need, most))


def _pressure(had: Oil) -> FamilyResult:
    """What a text that says EP alone asks for: any oil for gears under pressure, but not one that may eat brass unsaid."""
    gears = [row for row in had.classes if row.section == "gear-oil-service"]
    values = {"needed": "EP", "offered": str(had)}
    if not gears:
        return verdict(_OK if had.ep else _ASK, "oil-ep-ok" if had.ep else "oil-class-unsaid", values)
    most = max(gears, key=lambda row: row.number("rank"))
    if most.number("rank") < 3:
        return verdict(_OFF, "oil-ep-none", values, (most,))
    if most.word("yellow-metal") == "doubted":
        return verdict(_ASK, "oil-ep-strong", values, (most,), (PRACTICE,))
    return verdict(_OK, "oil-ep-ok", values, (most,))
