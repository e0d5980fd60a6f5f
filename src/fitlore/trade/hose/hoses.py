"""Hoses: the bore on its stub and what runs through it."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.hose.tables import USES
from fitlore.trade.measured import Bound, Figure, Made, Shape, Trait, pieces, read_made
from fitlore.trade.pieces import FIGURE, PRACTICE, Piece, shown, together, verdict, words
from fitlore.trade.result import FamilyResult, FamilyState, Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
EXAMPLES: Final = (
    "hose, coolant, bore 32 mm",
    "hose, heater, bore 15.88 mm, outside 23 mm",
    "hose, bore 8 mm",
)
_ALIKE, _STRETCH, _LOOSE = Decimal("0.02"), Decimal("0.08"), Decimal("0.1")
"""Shares of the bore: alike; a smaller one that can be pushed on warm; a bigger one that seems to go (common practice)."""
_NAMES: Final = Decimal("0.06")
"""How far two names of one listed bore are apart, as a share: 3/8 in is sold for 10 mm."""
_FUEL: Final = words(
    r"\b(?:fuel|petrol|gas(?:oline)?|diesel|injection|brake|oil|SAE ?J ?30|R ?[679]|R ?14)\b"
)
_UNNAMED: Final = words(rf"(?:(?<=,)|^) ?(?P<size>{FIGURE}) ?(?P<unit>mm|\"|in(?:ch)?)? ?(?=,|$)")
_SPELT: Final = {
    "coolant": r"\b(?:coolant|radiator|water|(?:top|bottom))\b",
    "heater": r"\bheat(?:er|ing)\b",
    "vacuum": r"\b(?:vacuum|servo)\b",
    "vent": r"\b(?:crankcase )?(?:vent(?:ilation)?|breather)\b",
    "washer": r"\bwasher\b",
}
SHAPE: Final = Shape(
    "hose",
    "hose",
    words(r"\bhoses?\b"),
    (
        Figure(
            "bore", "mm", r"(?:bore|inside(?: diameter)?|i/?d)", Decimal(0), Decimal(0), Bound(_OFF, "bore"),
            Bound(_OFF, "bore"), "the bore, or the stub",
        ),
        Figure(
            "outside", "mm", r"(?:outside(?: diameter)?|o/?d)", Decimal(2), Decimal(2),
            Bound(_WORK, "other-clips"), Bound(_WORK, "other-clips"), "across the hose",
        ),
        Figure(
            "length", "mm", "length", Decimal(10), Decimal(10), Bound(_OFF, "short"), Bound(_OK, "long"),
            "along the middle", "long",
        ),
    ),
    (Trait("use", tuple((use, words(_SPELT[use])) for use in USES), {}, "what is printed on it, and its wall"),),
    ("bore",),
    EXAMPLES,
)  # fmt: skip


def read_hose(text: str, standards: Standards) -> Made | Unreadable:
    """The hose a text names; a figure without a word is its bore. A fuel hose is refused: its type decides."""
    if _FUEL.search(text) and SHAPE.called.search(text):
        return Unreadable(text, "hose-of-fuel", expected=EXAMPLES)
    return read_made(_with_bore(text), SHAPE, standards)


def _with_bore(text: str) -> str:
    """The text with its bare figure named: hoses are sold by their bore."""
    bare = SHAPE.called.sub(" ", text[:200])
    for pattern in _SPELT.values():
        bare = words(pattern).sub(" ", bare)
    bare = " ".join(bare.split())
    match = _UNNAMED.search(bare)
    if not match or words(r"\b(?:bore|inside|i/?d)\b").search(text):
        return text
    figure = match[0].strip(" ,")
    return text.replace(figure, f" bore {figure},", 1) if figure in text else text


def compare_hoses(wanted: Made, had: Made, standards: Standards) -> FamilyResult:
    """Bore, use, outside and length, each by itself."""
    if str(wanted) == str(had):
        return verdict(_OK, "hose-same", {"needed": str(wanted), "offered": str(had)})
    found = [Piece("bore", _bore(wanted.figures["bore"], had.figures["bore"], standards))]
    if need := wanted.traits.get("use"):
        found.append(Piece("use", _use(need, had.traits.get("use", ""), standards)))
    return together("hose", str(wanted), str(had), [*found, *pieces(wanted, had, ("bore", "use"))])


def _listed(bore: Decimal, standards: Standards) -> TableRow | None:
    table = standards.table("hose-bore").rows
    rows = [
        row
        for row in table
        if bore == row.number("bore") or row.number("least") <= bore <= row.number("most")
    ]
    return min(rows, key=lambda row: abs(row.number("bore") - bore), default=None)


def _bore(need: Decimal, have: Decimal, standards: Standards) -> FamilyResult:
    gap = have - need
    values = {"needed": f"{shown(need)} mm", "offered": f"{shown(have)} mm"}
    one, other = _listed(need, standards), _listed(have, standards)
    if one is not None and one == other and abs(gap) <= need * _NAMES:
        return verdict(_OK, "hose-bore-listed", values | {"bore": f"{one.cell('bore')} mm"}, (one,))
    if abs(gap) <= need * _ALIKE:
        return verdict(_OK, "hose-bore-alike", values, sources=(PRACTICE,))
    if gap < 0:
        tight = -gap <= need * _STRETCH
        return verdict(
            _WORK if tight else _OFF,
            "hose-bore-tight" if tight else "hose-bore-small",
            values,
            sources=(PRACTICE,),
        )
    if gap > need * _LOOSE:
        return verdict(_OFF, "hose-bore-big", values, sources=(PRACTICE,))
    return verdict(_TRAP, "hose-trap-loose", values, (), (PRACTICE,), (Because("hose-tell-loose", values),))


def _use(need: str, have: str, standards: Standards) -> FamilyResult:
    """What runs through the needed one has to be what the offered one stands: hot water, vapour, suction."""
    values = {"what": "use", "needed": need, "offered": have, "look": "what is printed on it, and its wall"}
    if not have:
        return verdict(_ASK, "service-not-said", values)
    if need == have:
        return verdict(_OK, "service-agrees", values)
    table = standards.table("hose-use")
    rows = (*table.find(use=need), *table.find(use=have))
    for column, state in (("vapour", _TRAP), ("suction", _TRAP), ("hot-water", _OFF)):
        if [row.word(column) for row in rows] == ["yes", "no"]:
            trap = state is _TRAP
            tells = (Because(f"hose-tell-{column}", values),) if trap else ()
            code = f"hose-trap-{column}" if trap else f"hose-not-for-{column}"
            return verdict(state, code, values, rows, (PRACTICE,), tells)
    return verdict(_OK, "service-agrees", values, rows)
