"""One shaft seal in the place of another: shaft, housing, width, lip, rubber, case and the way it turns.

The lip has to press on the shaft and the case in the hole; half a millimetre more or less passes in the hand and weeps. The
width may be less; more needs a deeper hole. A helix under the lip pumps one way only and cannot be seen at a glance.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.o_ring.rubber import compare_rubber
from fitlore.trade.pieces import PRACTICE, Piece, shown, verdict
from fitlore.trade.result import FamilyResult, FamilyState
from fitlore.trade.shaft_seal.reading import Seal
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

OK, WORK, ASK = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.UNREADABLE
OFF, TRAP = FamilyState.OFF, FamilyState.TRAP
NEAR: Final = Decimal("0.6")
"""Difference in mm up to which a wrong seal goes on or in by hand (a spring lip evens out half a mm; common practice)."""
SNUG: Final = Decimal("0.15")
"""How much smaller than the shaft a seal may be called, in mm, and still often do: 38 on 38.1 (common practice)."""
_SLIPPERY: Final = "PTFE"
"""No rubber: its lip lies wide on the shaft and goes on dry."""
ALIKE: Final = Decimal("0.005")
"""Below this two sizes are one: inches written in mm."""


def pieces(wanted: Seal, had: Seal, standards: Standards) -> Iterator[Piece]:
    """The three figures always, the rest where something is asked or brought."""
    yield Piece("shaft", _shaft(wanted, had))
    yield Piece("housing", _housing(wanted, had, standards))
    yield Piece("width", _width(wanted, had))
    if wanted.dust or had.dust:
        yield Piece("dust lip", _dust(wanted, had))
    if wanted.rubber and wanted.rubber != had.rubber:
        yield Piece("rubber", compare_rubber(wanted.rubber, "oil", had.rubber, standards))
        if (wanted.rubber, had.rubber) != ("", "") and had.rubber:
            yield Piece("heat", _heat(wanted.rubber, had.rubber, standards))
    elif had.rubber and not wanted.rubber:
        yield Piece("rubber", compare_rubber("", "oil", had.rubber, standards))
    if had.rubber and (wanted.rubber == _SLIPPERY) != (had.rubber == _SLIPPERY):
        yield Piece("lip", verdict(ASK, "shaft-seal-lip-ptfe", {"offered": had.rubber}, (), (PRACTICE,)))
    if wanted.case and wanted.case != had.case:
        yield Piece("case", _case(wanted, had))
    if wanted.turns or had.turns:
        yield Piece("turning", _turning(wanted, had))


def allowance(housing: Decimal, standards: Standards) -> tuple[TableRow, ...]:
    """The row that says how much bigger than its hole a seal for this housing is made."""
    rows = standards.table("seal-allowance").rows
    return tuple(row for row in rows if row.number("over") < housing <= row.number("up-to"))


def _figures(need: Decimal, have: Decimal) -> dict[str, str]:
    return {
        "needed": f"{shown(need)} mm",
        "offered": f"{shown(have)} mm",
        "gap": f"{shown(abs(have - need))} mm",
    }


def _shaft(wanted: Seal, had: Seal) -> FamilyResult:
    gap, values = had.shaft - wanted.shaft, _figures(wanted.shaft, had.shaft)
    if abs(gap) < ALIKE:
        return verdict(OK, "shaft-seal-shaft-same", values)
    if abs(gap) > NEAR:
        return verdict(OFF, "shaft-seal-shaft-off", values)
    tell = Because("shaft-seal-tell-shaft", {})
    if gap > 0:
        return verdict(TRAP, "shaft-seal-lip-loose", values, (), (PRACTICE,), (tell,))
    snug = -gap <= SNUG
    state = ASK if snug else TRAP
    return verdict(
        state,
        f"shaft-seal-lip-{'snug' if snug else 'tight'}",
        values,
        (),
        (PRACTICE,),
        () if snug else (tell,),
    )


def _housing(wanted: Seal, had: Seal, standards: Standards) -> FamilyResult:
    gap, values = had.housing - wanted.housing, _figures(wanted.housing, had.housing)
    if abs(gap) < ALIKE:
        return verdict(OK, "shaft-seal-housing-same", values)
    rows = allowance(wanted.housing, standards)
    for row in rows:
        values |= {"over": f"{row.cell('rubber-low')} to {row.cell('rubber-high')} mm"}
    if abs(gap) > NEAR:
        return verdict(OFF, "shaft-seal-housing-off", values, rows)
    code = "shaft-seal-case-loose" if gap < 0 else "shaft-seal-case-tight"
    tell = Because("shaft-seal-tell-housing", {})
    return verdict(TRAP, code, values, rows, (PRACTICE,), (tell,))


def _width(wanted: Seal, had: Seal) -> FamilyResult:
    """Over all, and the case by itself: a case of 9 is no case of 7 whose lip stands out to 9."""
    if had.width - wanted.width >= ALIKE:
        return verdict(ASK, "shaft-seal-wider", _figures(wanted.width, had.width), (), (PRACTICE,))
    values = _figures(wanted.overall, had.overall)
    gap = had.overall - wanted.overall
    if abs(gap) < ALIKE:
        return verdict(OK, "shaft-seal-width-same", values)
    if gap > 0:
        return verdict(ASK, "shaft-seal-wider", values, (), (PRACTICE,))
    thin = had.overall < wanted.overall * Decimal("0.6")
    return verdict(
        ASK if thin else OK, f"shaft-seal-{'thin' if thin else 'narrower'}", values, (), (PRACTICE,)
    )


def _dust(wanted: Seal, had: Seal) -> FamilyResult:
    values = {"needed": _lip(wanted), "offered": _lip(had)}
    rows = (*wanted.letters, *had.letters)
    if wanted.dust == "yes" and had.dust != "yes":
        known = had.dust == "no"
        return verdict(
            OFF if known else ASK, f"shaft-seal-dust-{'missing' if known else 'unsaid'}", values, rows
        )
    spare = had.dust == "yes" and wanted.dust == "no"
    return verdict(OK, "shaft-seal-dust-spare" if spare else "shaft-seal-dust-same", values, rows)


def _lip(seal: Seal) -> str:
    return {"yes": "a dust lip", "no": "one lip"}.get(seal.dust, "")


def _heat(need: str, have: str, standards: Standards) -> FamilyResult:
    rows = [*standards.table("rubber").find(rubber=need), *standards.table("rubber").find(rubber=have)]
    cooler = len(rows) == 2 and rows[1].number("heat") < rows[0].number("heat")
    values = {
        "needed": need,
        "offered": have,
        "needed-heat": f"{rows[0].cell('heat')} C",
        "offered-heat": f"{rows[-1].cell('heat')} C",
    }
    return verdict(
        OFF if cooler else OK, "shaft-seal-cooler" if cooler else "shaft-seal-bears-heat", values, rows
    )


def _case(wanted: Seal, had: Seal) -> FamilyResult:
    values = {"needed": wanted.case, "offered": had.case}
    rows = (*wanted.letters, *had.letters)
    if not had.case:
        return verdict(ASK, "shaft-seal-case-unsaid", values, rows)
    metal = had.case == "metal"
    return verdict(WORK if metal else OK, f"shaft-seal-case-{had.case}", values, rows, (PRACTICE,))


def _turning(wanted: Seal, had: Seal) -> FamilyResult:
    """Both ways serves for either; one way serves for itself; the wrong way pumps the oil out; a plain lip only holds."""
    values = {"needed": wanted.turns, "offered": had.turns}
    if wanted.turns and had.turns in (wanted.turns, "both"):
        return verdict(OK, "shaft-seal-turns-same", values)
    if wanted.turns in ("left", "right") and had.turns:
        tell = Because("shaft-seal-tell-turning", {})
        return verdict(TRAP, "shaft-seal-turns-wrong", values, (), (PRACTICE,), (tell,))
    if not wanted.turns and had.turns == "both":
        return verdict(OK, "shaft-seal-turns-spare", values)
    if had.turns:
        return verdict(ASK, "shaft-seal-turns-ask", values, (), (PRACTICE,))
    return verdict(ASK, "shaft-seal-turns-unsaid", values, (), (PRACTICE,))
