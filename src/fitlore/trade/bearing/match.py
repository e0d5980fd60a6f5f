"""One bearing in the place of another: size, form and each kind of letters by itself.

Size is held to the figure: rings are pressed on or slide by hundredths of a millimetre (ISO 492), so that a bore that is
near is no fit. Form decides what it carries: two bearings of one size that look alike from outside may carry no thrust, or
let the shaft tip. Letters have a direction: a sealed one serves for an open one with work, an open one never for a sealed.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.bearing.reading import Bearing
from fitlore.trade.bearing.tables import GROUPS, series
from fitlore.trade.pieces import PRACTICE, Piece, shown, verdict
from fitlore.trade.result import FamilyResult, FamilyState
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

OK, WORK, ASK = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.UNREADABLE
OFF, TRAP = FamilyState.OFF, FamilyState.TRAP
NEAR: Final = Decimal("0.02")
"""Share of a diameter within which a loose ring passes for a fit in the hand. Common practice."""
LOOKS: Final = {
    "deep-groove": "a deep track on both sides of the balls",
    "deep-groove-double": "two rows of balls in deep tracks",
    "angular-contact": "one shoulder of the outer ring is ground away",
    "angular-contact-double": "two rows of balls that lean against each other",
    "self-aligning": "two rows of balls, and the inner ring can be tipped by hand",
    "cylindrical-n": "rollers; the outer ring pulls off to both sides",
    "cylindrical-nu": "rollers; the inner ring pulls out to both sides",
    "cylindrical-nj": "rollers; the inner ring pulls out to one side only",
    "cylindrical-nup": "rollers; a loose collar holds the inner ring",
    "taper": "slanted rollers; the outer ring lifts off",
    "thrust": "two washers with balls between them",
    "needle": "thin rollers in a pressed shell, open at both ends",
    "needle-closed": "thin rollers in a pressed shell, one end closed",
    "needle-ringed": "thin rollers between two solid rings",
}
"""What the eye sees of each form."""
_COVER: Final = {
    "": 0,
    "one-shield": 1,
    "two-shields": 2,
    "two-light-seals": 2,
    "one-seal": 1,
    "two-seals": 2,
}
_RUBS: Final = ("one-seal", "two-seals")
_CLASSES: Final = ("P0", "P6", "P5", "P4")


def pieces(wanted: Bearing, had: Bearing, standards: Standards) -> Iterator[Piece]:
    """Every piece in which they differ, and the size in any case."""
    yield Piece("size", _size(wanted, had))
    if wanted.form != had.form:
        yield Piece("form", _form(wanted, had))
    for name, compare in (("groove", _groove), ("sealing", _sealing), ("precision", _precision)):
        if wanted.marks.get(name, "") != had.marks.get(name, ""):
            yield Piece(name, compare(wanted, had))
    if wanted.ring_kind == had.ring_kind != "" and series(wanted.ring) != series(had.ring):
        yield Piece("series", _said("bearing-other-series", OFF, wanted, had, "series"))
    if _steep(wanted) != _steep(had):
        yield Piece("angle", _steeper(wanted, had))
    if wanted.marks.get("inside") != had.marks.get("inside"):
        more = "inside" in had.marks
        code = f"bearing-{'more' if more else 'fewer'}-rollers"
        yield Piece("inside", _said(code, OK if more else ASK, wanted, had, "inside"))
    if wanted.marks.get("bore") != had.marks.get("bore"):
        yield Piece("bore", _said("bearing-bore-taper", OFF, wanted, had, "bore"))
    if wanted.form == had.form and wanted.marks.get("angle") != had.marks.get("angle"):
        yield Piece("angle", _angle(wanted, had))
    if wanted.marks.get("clearance", "CN") != had.marks.get("clearance", "CN"):
        yield Piece("clearance", _clearance(wanted, had, standards))


def size_words(row: TableRow) -> str:
    """Bore, outside and width as they are said: `17 x 40 x 12 mm`."""
    return " x ".join(row.cell(name) for name in ("bore", "outside", "width")) + " mm"


def _rows(wanted: Bearing, had: Bearing) -> tuple[TableRow, ...]:
    return (wanted.row,) if wanted.row == had.row else (wanted.row, had.row)


def _letters(bearing: Bearing, says: str) -> tuple[TableRow, ...]:
    return tuple(row for row in bearing.letters if row.word("says") == says)


def _size(wanted: Bearing, had: Bearing) -> FamilyResult:
    values = {"needed": size_words(wanted.row), "offered": size_words(had.row)}
    counted = {"cone": ("bore", "width"), "cup": ("outside", "width")}.get(
        wanted.ring_kind, ("bore", "outside", "width")
    )
    gaps = {name: had.row.number(name) - wanted.row.number(name) for name in counted}
    rows = _rows(wanted, had)
    if not any(gaps.values()):
        return verdict(OK, "bearing-size-same", values, rows if len(rows) > 1 else ())
    code, state = _gap(wanted.row, gaps)
    values |= {f"{name}-gap": f"{shown(abs(gap))} mm" for name, gap in gaps.items() if gap}
    tells = [
        Because(
            "bearing-tell-measure", {"what": name, "this": had.row.cell(name), "right": wanted.row.cell(name)}
        )
        for name, gap in gaps.items()
        if gap
    ]
    return verdict(
        state, code, values, rows, (PRACTICE,) if state is TRAP else (), tells if state is TRAP else ()
    )


def _gap(row: TableRow, gaps: dict[str, Decimal]) -> tuple[str, FamilyState]:
    """What the nearest miss does: loose rings pass in the hand, tight ones do not go, wrong widths are found last."""
    bore, outside = gaps.get("bore", Decimal(0)), gaps.get("outside", Decimal(0))
    if bore < 0:
        return "bearing-bore-small", OFF
    if outside > 0:
        return "bearing-outside-large", OFF
    if bore > row.number("bore") * NEAR or -outside > row.number("outside") * NEAR:
        return "bearing-size-off", OFF
    if bore:
        return "bearing-bore-loose", TRAP
    if outside:
        return "bearing-outside-loose", TRAP
    return ("bearing-narrow" if gaps["width"] < 0 else "bearing-wide"), TRAP


def _form(wanted: Bearing, had: Bearing) -> FamilyResult:
    values = {"needed": wanted.form, "offered": had.form, "set": had.base}
    rows = _rows(wanted, had)
    if wanted.ring_kind:
        whole = not had.ring_kind and wanted.ring in (had.row.word("cone"), had.row.word("cup"))
        return (
            verdict(OK, "bearing-set-has-ring", values, ())
            if whole
            else verdict(OFF, "bearing-other-ring", values, rows)
        )
    if had.ring_kind:
        return verdict(OFF, "bearing-ring-only", values, rows)
    if _boundary(wanted) != _boundary(had):
        return verdict(OFF, "bearing-form-off", values, rows)
    tells = [
        Because("bearing-tell-form", {"form": form, "look": LOOKS[form]}) for form in (had.form, wanted.form)
    ]
    return verdict(TRAP, "bearing-form-trap", values, rows, (PRACTICE,), tells)


def _boundary(bearing: Bearing) -> tuple[Decimal, Decimal]:
    return bearing.row.number("bore"), bearing.row.number("outside")


def _steep(bearing: Bearing) -> bool:
    """Whether it is of the steep series of taper bearings (ISO 355: 313 has the outside of 303 and another cone)."""
    return bearing.form == "taper" and bearing.base.startswith("313")


def _steeper(wanted: Bearing, had: Bearing) -> FamilyResult:
    values = {"needed": wanted.base, "offered": had.base}
    same = _boundary(wanted) == _boundary(had)
    tell = Because("bearing-tell-steep", {"steep": (wanted if _steep(wanted) else had).base})
    rows = _rows(wanted, had)
    return verdict(TRAP if same else OFF, "bearing-steep", values, rows, (PRACTICE,), (tell,) if same else ())


def _groove(wanted: Bearing, had: Bearing) -> FamilyResult:
    need, have = wanted.marks.get("groove", ""), had.marks.get("groove", "")
    if need and not have:
        tell = Because("bearing-tell-groove", {})
        return _said("bearing-groove-missing", TRAP, wanted, had, "groove", (tell,))
    if not need:
        ring = have == "groove-and-ring"
        return _said(
            "bearing-ring-off" if ring else "bearing-groove-spare",
            WORK if ring else OK,
            wanted,
            had,
            "groove",
        )
    return _said(
        "bearing-ring-over" if have == "groove" else "bearing-ring-spare",
        WORK if have == "groove" else OK,
        wanted,
        had,
        "groove",
    )


def _sealing(wanted: Bearing, had: Bearing) -> FamilyResult:
    """Open for covered never; covered for open where oil has to come through needs its covers out; a shield for a seal
    depends on the dirt; a seal for a shield rubs but keeps more out."""
    need, have = wanted.marks.get("sealing", ""), had.marks.get("sealing", "")
    code, state = "bearing-cover-same", OK
    if not have or _COVER[have] < _COVER[need]:
        code, state = "bearing-cover-missing", OFF
    elif not need:
        code, state = "bearing-cover-spare", WORK
    elif (need in _RUBS and have not in _RUBS) or (need == "two-light-seals" and have == "two-shields"):
        code, state = "bearing-shield-for-seal", ASK
    elif _COVER[have] > _COVER[need]:
        code, state = "bearing-cover-one-too-many", WORK
    elif have in _RUBS and need not in _RUBS:
        code = "bearing-seal-for-shield"
    return _said(code, state, wanted, had, "sealing")


def _precision(wanted: Bearing, had: Bearing) -> FamilyResult:
    need, have = (_CLASSES.index(one.marks.get("precision", "P0")) for one in (wanted, had))
    finer = have >= need
    return _said(
        "bearing-finer" if finer else "bearing-coarser", OK if finer else OFF, wanted, had, "precision"
    )


def _angle(wanted: Bearing, had: Bearing) -> FamilyResult:
    need, have = wanted.marks.get("angle"), had.marks.get("angle")
    if need and have:
        return _said("bearing-angle-off", OFF, wanted, had, "angle")
    return _said("bearing-angle-unsaid", ASK, wanted, had, "angle")


def _clearance(wanted: Bearing, had: Bearing, standards: Standards) -> FamilyResult:
    """Less room than was chosen binds when warm: no. One group more is for the place to say; two are too loose."""
    if wanted.form in ("taper", "cone", "cup", "thrust"):
        return _said("bearing-clearance-set", OK, wanted, had, "clearance")
    need, have = (one.marks.get("clearance", "CN") for one in (wanted, had))
    step = GROUPS.index(have) - GROUPS.index(need)
    code = (
        "bearing-clearance-less"
        if step < 0
        else "bearing-clearance-more"
        if step == 1
        else "bearing-clearance-far"
    )
    values = {"needed": need, "offered": have}
    rows = []
    if wanted.form == "deep-groove":
        rows = [row for name in (need, have) for row in _limits(name, wanted.row.number("bore"), standards)]
    if len(rows) == 2:
        spans = [f"{row.cell('low')} to {row.cell('high')} um" for row in rows]
        values |= {"needed-room": spans[0], "offered-room": spans[1]}
    return verdict(ASK if step == 1 else OFF, code, values, rows, (PRACTICE,))


def _limits(group: str, bore: Decimal, standards: Standards) -> tuple[TableRow, ...]:
    rows = standards.table("bearing-clearance").find(group=group)
    return tuple(row for row in rows if row.number("over") < bore <= row.number("up-to"))


def _said(
    code: str, state: FamilyState, wanted: Bearing, had: Bearing, says: str, under: tuple[Because, ...] = ()
) -> FamilyResult:
    """A step about one kind of letters, resting on the rows that read them."""
    plain = {
        "sealing": "open",
        "groove": "no groove",
        "clearance": "CN",
        "precision": "P0",
        "bore": "cylindrical",
        "inside": "no letter",
    }
    values = {
        "needed": wanted.marks.get(says, plain.get(says, "")),
        "offered": had.marks.get(says, plain.get(says, "")),
    }
    return verdict(state, code, values, (*_letters(wanted, says), *_letters(had, says)), (PRACTICE,), under)
