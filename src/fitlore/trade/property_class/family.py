"""Property classes as a family of standards: never a weaker one, and a stronger one not without a word."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import PRACTICE, question, verdict
from fitlore.trade.property_class.reading import read, read_for
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain, weakest

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
MUCH: Final = Decimal("1.1")
"""How many times as strong a bolt is much stronger: then its own torque is too much for the joint. Common practice."""
BRITTLE: Final = 390
"""Hardness in HV above which plated or wet bolts may break without warning (ISO 898-1 warns of 12.9; ISO 4042)."""
_STRESSES: Final = ("tensile", "yield", "proof")


class PropertyClassFamily:
    """The family of kind `property-class`."""

    about = About(
        title="strength of bolts and nuts",
        standards=("ISO 898-1", "ISO 898-2", "ISO 3506-1", "SAE J429", "BS 1083", "BS 1768", "JIS B 1051"),
        spellings=(
            "8.8", "class 10.9", "8,8", "nut class 8", "class 10", "nut for 8.8", "SAE grade 5", "grade 8",
            "three radial lines", "6 lines", "BS S", "grade T", "7T", "JIS 8T", "A2-70", "stainless A4-80",
        ),
        not_said=(
            "the size it belongs to",
            "whether it has been stretched",
            "its coating",
            "the torque",
        ),
        gaps=(
            "yield and proof stress of the British letters and of the old Japanese numbers",
            "sizes over one inch",
            "grades of inch nuts",
        ),
        ended=True,
    )  # fmt: skip

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The class in its one spelling: `8.8`, `nut 8`, `SAE grade 5`, `BS S`, `JIS 7T`, `A2-70`."""
        found = read(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: strength cannot be told with a caliper."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Tensile and proof stress (yield where no proof stress is listed), for every diameter up to one inch.

        Where the answer turns with the diameter it is a question.
        """
        wanted, had = read_for(needed, end, standards), read_for(offered, end, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        values = {"needed": wanted, "offered": had}
        if wanted == had:
            return verdict(_OK, "property-class-same", values)
        nuts = wanted.startswith("nut "), had.startswith("nut ")
        if all(nuts):
            return _nuts(wanted, had, standards)
        if any(nuts):
            return verdict(_OFF, "property-class-nut-and-bolt", values)
        return _bolts(wanted, had, standards)


def _nuts(wanted: str, had: str, standards: Standards) -> FamilyResult:
    table = standards.table("nut-class")
    need, have = table.find(**{"class": wanted})[0], table.find(**{"class": had})[0]
    values = {
        "needed": wanted,
        "offered": had,
        "needed-strips": f"{need.cell('strips-at')} MPa",
        "offered-strips": f"{have.cell('strips-at')} MPa",
        "bolt": have.word("bolt"),
    }
    thin = have.word("bolt") == "none"
    if thin and need.word("bolt") != "none":
        tells = (Because("property-class-tell-thin", {}),)
        return verdict(_TRAP, "property-class-thin-nut", values, (need, have), under=tells)
    if need.word("bolt") == "none" and not thin:
        return verdict(_ASK, "property-class-full-nut", values, (need, have), ("ISO 898-2", PRACTICE))
    if have.number("strips-at") >= need.number("strips-at"):
        return verdict(_OK, "property-class-nut-stronger", values, (need, have))
    return verdict(_OFF, "property-class-nut-weaker", values, (need, have))


def _bolts(wanted: str, had: str, standards: Standards) -> FamilyResult:
    table = standards.table("bolt-class")
    pairs = [
        (need, have)
        for need in table.find(**{"class": wanted})
        for have in table.find(**{"class": had})
        if max(need.number("over"), have.number("over")) < min(need.number("up-to"), have.number("up-to"))
    ]
    outcomes = [_pair(need, have) for need, have in pairs]
    states = {outcome.state for outcome in outcomes}
    if len(states) == 1:
        return min(outcomes, key=lambda outcome: len(outcome.because.under))
    no = states <= {_OFF, _TRAP}
    values = {"needed": wanted, "offered": had}
    under = tuple(
        Because(
            "property-class-for-size",
            {name: outcome.because.values[name] for name in ("from", "to")},
            under=(outcome.because,),
        )
        for outcome in outcomes
    )
    rows = tuple(row for pair in pairs for row in pair)
    state = _TRAP if no and _TRAP in states else _OFF if no or not outcomes else _ASK
    because = Because("property-class-by-size", values, under=under)
    return FamilyResult(state, because, weakest(rows))


def _pair(need: TableRow, have: TableRow) -> FamilyResult:
    rows = (need, have)
    values = {
        "needed": need.word("class"),
        "offered": have.word("class"),
        "needed-stress": _stresses(need),
        "offered-stress": _stresses(have),
        "from": need.cell("over") if need.number("over") > have.number("over") else have.cell("over"),
        "to": plain(min(need.number("up-to"), have.number("up-to"))),
    }
    counted = ("tensile", "proof" if "proof" in need.numbers and "proof" in have.numbers else "yield")
    lower = [name for name in counted if _below(name, need, have)]
    if lower:
        values["lower"] = ", ".join(lower)
        return _weaker(need, have, values)
    if _rusts(need, have):
        return verdict(_ASK, "property-class-rusts", values, rows, ("ISO 3506-1", PRACTICE))
    if any(counted[1] not in row.numbers for row in rows):
        return verdict(_ASK, "property-class-unknown-yield", values, rows)
    if have.numbers.get("hardness-most", Decimal(0)) > BRITTLE:
        return verdict(_ASK, "property-class-brittle", values, rows, ("ISO 898-1", "ISO 4042"))
    if have.word("system") == "stainless":
        return verdict(_WORK, "property-class-stainless", values, rows, (PRACTICE,))
    if any(_much(name, need, have) for name in counted):
        return verdict(_WORK, "property-class-stronger", values, rows, (PRACTICE,))
    return verdict(_OK, "property-class-not-weaker", values, rows)


def _weaker(need: TableRow, have: TableRow, values: dict[str, str]) -> FamilyResult:
    rows = (need, have)
    if have.word("system") == "stainless":
        return verdict(_TRAP, "property-class-stainless-weak", values, rows, under=(_tell(have), _tell(need)))
    if have.word("system") != need.word("system") and _figure(have) == _figure(need):
        return verdict(_TRAP, "property-class-same-figure", values, rows, under=(_tell(have), _tell(need)))
    return verdict(_OFF, "property-class-weaker", values, rows)


def _below(name: str, need: TableRow, have: TableRow) -> bool:
    return name in need.numbers and name in have.numbers and have.number(name) < need.number(name)


def _rusts(need: TableRow, have: TableRow) -> bool:
    """Whether a steel that does not rust is asked for, and another or a lesser one is there: A4 bears what A2 does not."""
    if need.word("system") != "stainless":
        return False
    return have.word("system") != "stainless" or have.word("class")[:2] < need.word("class")[:2]


def _much(name: str, need: TableRow, have: TableRow) -> bool:
    both = name in need.numbers and name in have.numbers
    return both and have.number(name) > need.number(name) * MUCH


def _figure(row: TableRow) -> str:
    """The figure that people remember: 8 of 8.8, of SAE grade 8, of JIS 8T."""
    digits = "".join(sign if sign.isdigit() else " " for sign in row.word("class")).split()
    return digits[0] if digits else ""


def _stresses(row: TableRow) -> str:
    return ", ".join(f"{name} {row.cell(name)} MPa" for name in _STRESSES if name in row.numbers)


def _tell(row: TableRow) -> Because:
    return Because(
        "property-class-tell", {"class": row.word("class"), "mark": row.word("mark")}, (row.origin,)
    )


FAMILIES: Final = {"property-class": PropertyClassFamily()}
