"""One accessory belt in the place of another: section or profile, ribs, length.

A V belt drives by its flanks: one that is too deep for the groove runs on its bottom and slips, and that is not seen with the
belt on. A length that differs is a question, for the adjuster takes some of it up, and how much only the car says.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.belt.reading import Belt
from fitlore.trade.pieces import PRACTICE, Piece, shown, verdict
from fitlore.trade.result import FamilyResult, FamilyState
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

OK, ASK, OFF, TRAP = FamilyState.OK, FamilyState.UNREADABLE, FamilyState.OFF, FamilyState.TRAP
ALIKE: Final = Decimal("0.7")
"""Difference of top widths in mm up to which a belt sits in the same groove (9.7 and 10, 12.7 and 13; common practice)."""
DEEP: Final = Decimal(1)
"""Difference of heights in mm from which one belt is the deeper one (common practice)."""
TRAVEL: Final = Decimal("0.025")
"""Share of the length that an adjuster may just take up; beyond it the answer is no (common practice)."""


def pieces(wanted: Belt, had: Belt, standards: Standards) -> Iterator[Piece]:
    """Every piece of the two, each by itself."""
    if bool(wanted.ribs) != bool(had.ribs):
        yield Piece("form", verdict(OFF, "belt-form-off", _both(str(wanted), str(had)), (), (PRACTICE,)))
        return
    if wanted.ribs:
        yield from _ribbed(wanted, had)
    else:
        yield Piece("section", _section(wanted, had))
        if wanted.notched and not had.notched:
            yield Piece("notches", verdict(ASK, "belt-not-notched", {}, (), (PRACTICE,)))
        elif had.notched and not wanted.notched:
            yield Piece("notches", verdict(OK, "belt-notched-too", {}, (), (PRACTICE,)))
    yield Piece("length", _length(wanted, had, standards))


def outside_length(belt: Belt) -> Decimal | None:
    """The length round the outside in mm, by the section's own conversion; None where no conversion is known."""
    over, under = belt.row.numbers.get("outside-over"), belt.row.numbers.get("inside-under")
    if belt.length is None or belt.kind in ("La", "Le"):
        return belt.length
    if over is None or (belt.kind == "Li" and under is None):
        return None
    return belt.length + over + (under if belt.kind == "Li" and under is not None else 0)


def _both(needed: str, offered: str) -> dict[str, str]:
    return {"needed": needed, "offered": offered}


def _rows(wanted: Belt, had: Belt) -> tuple[TableRow, ...]:
    return (wanted.row,) if wanted.row == had.row else (wanted.row, had.row)


def _ribbed(wanted: Belt, had: Belt) -> Iterator[Piece]:
    if wanted.row != had.row:
        values = _both(*(f"{one.row.cell('pitch')} mm" for one in (wanted, had)))
        yield Piece("profile", verdict(OFF, "belt-profile-off", values, _rows(wanted, had)))
    counts = _both(str(wanted.ribs), str(had.ribs))
    if had.ribs > wanted.ribs:
        yield Piece("ribs", verdict(OFF, "belt-ribs-over", counts, (), (PRACTICE,)))
    elif had.ribs < wanted.ribs:
        tell = Because("belt-tell-ribs", {})
        yield Piece("ribs", verdict(TRAP, "belt-ribs-fewer", counts, (), (PRACTICE,), (tell,)))
    else:
        yield Piece("ribs", verdict(OK, "belt-ribs-same", counts))
    if wanted.double != had.double:
        code, state = ("belt-one-sided", OFF) if wanted.double else ("belt-two-sided", ASK)
        yield Piece("sides", verdict(state, code, {}, (), (PRACTICE,)))
    if wanted.elastic and not had.elastic:
        tell = Because("belt-tell-elastic", {})
        yield Piece("elastic", verdict(TRAP, "belt-not-elastic", {}, (), ("ISO 9981", PRACTICE), (tell,)))
    elif had.elastic and not wanted.elastic:
        yield Piece("elastic", verdict(OFF, "belt-elastic", {}, (), ("ISO 9981", PRACTICE)))


def _section(wanted: Belt, had: Belt) -> FamilyResult:
    names = _both(wanted.row.word("section"), had.row.word("section"))
    if wanted.row == had.row:
        return verdict(OK, "belt-section-same", names)
    rows = _rows(wanted, had)
    wide = had.row.number("top") - wanted.row.number("top")
    deep = had.row.number("height") - wanted.row.number("height")
    names |= {"top": f"{had.row.cell('top')} mm", "right": f"{wanted.row.cell('top')} mm"}
    if abs(wide) > ALIKE:
        return verdict(OFF, f"belt-{'wide' if wide > 0 else 'slim'}", names, rows)
    names |= {"high": f"{had.row.cell('height')} mm", "right": f"{wanted.row.cell('height')} mm"}
    if deep >= DEEP:
        tell = Because("belt-tell-deep", {"high": names["high"], "right": names["right"]})
        return verdict(TRAP, "belt-deep", names, rows, ("ISO 4183", PRACTICE), (tell,))
    code = "belt-shallow" if deep <= -DEEP else "belt-alike"
    return verdict(ASK, code, names, rows, (PRACTICE,))


def _length(wanted: Belt, had: Belt, standards: Standards) -> FamilyResult:
    if wanted.length is None:
        return verdict(ASK, "belt-length-unasked", {}, (), (PRACTICE,))
    asked = f"{shown(wanted.length)} mm {wanted.kind}"
    if had.length is None:
        return verdict(ASK, "belt-length-unsaid", {"needed": asked}, (), (PRACTICE,))
    values = _both(asked, f"{shown(had.length)} mm {had.kind}")
    turned = wanted.kind != had.kind or wanted.row != had.row
    need, have = outside_length(wanted), outside_length(had)
    if need is None or have is None:
        return verdict(ASK, "belt-length-other-kind", values, (), (PRACTICE,))
    gap = have - need
    rows = (*(_rows(wanted, had) if turned else ()),)
    values |= {"gap": f"{shown(abs(gap))} mm", "move": f"{shown(abs(gap) / 2)} mm"}
    if turned:
        values |= {"outside": f"{shown(have)} mm for {shown(need)} mm"}
    if not gap:
        return verdict(OK, "belt-length-same", values, rows)
    made = _tolerance(wanted, standards)
    if wanted.elastic and had.elastic:
        far = not made or abs(gap) > made[0].number("shorter")
        return verdict(OFF if far else ASK, "belt-elastic-length", values, made, (PRACTICE,))
    if made and abs(gap) <= made[0].number("shorter"):
        values |= {"tolerance": f"{made[0].cell('shorter')} mm"}
        return verdict(OK, "belt-length-within", values, (*rows, *made))
    if abs(gap) > need * TRAVEL:
        return verdict(OFF, f"belt-{'long' if gap > 0 else 'short'}", values, rows, (PRACTICE,))
    return verdict(ASK, f"belt-{'longer' if gap > 0 else 'shorter'}", values, rows, (PRACTICE,))


def _tolerance(wanted: Belt, standards: Standards) -> tuple[TableRow, ...]:
    """The row that says how exactly the needed belt is made to length; none for ISO 2790, whose figures are not known."""
    length = wanted.length or Decimal(0)
    rows = standards.table("belt-length-tolerance").find(system=wanted.system)
    return tuple(row for row in rows if row.number("over") < length <= row.number("up-to"))
