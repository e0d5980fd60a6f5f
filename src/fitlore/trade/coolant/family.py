"""Engine coolants as a family of standards: the kind of additive, then the frost they stand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from typing import Final

from fitlore.model.choices import End
from fitlore.trade.coolant.frost import freezes, share_for
from fitlore.trade.coolant.reading import Coolant, read
from fitlore.trade.family import About
from fitlore.trade.pieces import PRACTICE, Piece, question, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_OK, _WORK, _OFF, _ASK = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF, FamilyState.UNREADABLE
_PLAY: Final = Decimal(1)
"""Degrees by which a frost limit may be missed: what a tester of coolant shows. Common practice."""


class CoolantFamily:
    """The family of kind `coolant`. Needed: what the car asks for. Offered: what is in the can."""

    about = About(
        title="engine coolants",
        standards=("BS 6580", "ASTM D3306", "SAE J1034"),
        spellings=(
            "IAT",
            "silicate coolant",
            "OAT 50 %",
            "organic acid antifreeze, ready mixed, -37 °C",
            "HOAT concentrate",
            "Si-OAT coolant",
            "antifreeze BS 6580:1992 50/50",
            "ASTM D3306 antifreeze IAT",
            "coolant 33,3 % glycol",
        ),
        not_said=("what is in the car", "whether the system is open or sealed", "the colour proves nothing"),
        gaps=("makers' own classes", "propylene glycol, and coolants without water", "mixtures above 60 %"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """Additive, papers and strength in one spelling: `IAT coolant, BS 6580:1992, 50 %`."""
        found = read(text, standards)
        return found if isinstance(found, Unreadable) else Reading(str(found))

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: no coolant is told by measuring its size."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """What the needed text leaves unsaid is not asked for."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        if str(wanted) == str(had):
            return verdict(_OK, "coolant-same", {"needed": str(wanted), "offered": str(had)})
        return together("coolant", str(wanted), str(had), _pieces(wanted, had, standards))


def _pieces(wanted: Coolant, had: Coolant, standards: Standards) -> Iterator[Piece]:
    if wanted.additive:
        yield Piece("additive", _additive(wanted.additive, had.additive, standards))
    elif had.additive:
        yield Piece(
            "additive", verdict(_ASK, "coolant-additive-open", {"offered": had.additive}, (), (PRACTICE,))
        )
    for paper in wanted.papers:
        met = any(own == paper or own.partition(":")[0] == paper for own in had.papers)
        values = {"needed": paper, "offered": str(had)}
        yield Piece(
            "standard", verdict(_OK if met else _ASK, "coolant-paper" if met else "coolant-no-paper", values)
        )
    if wanted.share is not None or wanted.frost is not None:
        yield Piece("frost", _frost(wanted, had, standards))
    elif wanted.state == "concentrate" and had.state != "concentrate":
        said = had.state or had.share is not None or had.frost is not None
        code = "coolant-watered" if said else "coolant-strength-unsaid"
        yield Piece("strength", verdict(_OFF if said else _ASK, code, {"offered": str(had)}))
    elif wanted.state == "ready mixed" and not had.state:
        mixed = had.share is not None or had.frost is not None
        code = "coolant-mixed" if mixed else "coolant-strength-unsaid"
        yield Piece("strength", verdict(_OK if mixed else _ASK, code, {"offered": str(had)}))
    elif wanted.state == "ready mixed" and had.state == "concentrate":
        yield Piece(
            "strength", verdict(_WORK, "coolant-mix-first", {"offered": str(had)}, sources=(PRACTICE,))
        )


def _additive(need: str, have: str, standards: Standards) -> FamilyResult:
    table = standards.table("coolant-additive")
    rows = (*table.find(additive=need), *table.find(additive=have))
    values = {"needed": need, "offered": have}
    if not have:
        return verdict(_ASK, "coolant-additive-unsaid", values)
    if need == have:
        return verdict(_OK, "coolant-additive-same", values)
    values |= {"needed-holds": rows[0].word("holds"), "offered-holds": rows[1].word("holds")}
    if need == "IAT":
        return verdict(_ASK, "coolant-old-system", values, rows, (PRACTICE,))
    if have == "IAT":
        return verdict(_OFF, "coolant-short-life", values, rows, (PRACTICE,))
    return verdict(_ASK, "coolant-additive-other", values, rows, (PRACTICE,))


def _frost(wanted: Coolant, had: Coolant, standards: Standards) -> FamilyResult:
    """Both as frost limits; a concentrate is mixed until it stands what is needed."""
    need, need_rows = _limit(wanted, standards)
    values = {"needed": f"{need:.0f} °C", "offered": str(had)}
    if had.state == "concentrate":
        share = share_for(need, standards)
        if share is None:
            return verdict(_ASK, "coolant-strength-unsaid", values)
        told = values | {"share": f"{share[0]:.0f} %"}
        return verdict(_WORK, "coolant-mix", told, (*need_rows, *share[1]), (PRACTICE,))
    if had.share is None and had.frost is None:
        return verdict(_ASK, "coolant-strength-unsaid", values)
    have, have_rows = _limit(had, standards)
    rows, values = (*need_rows, *have_rows), values | {"offered": f"{have:.0f} °C"}
    if have <= need + _PLAY:
        return verdict(_OK, "coolant-frost-ok", values, rows)
    return verdict(_OFF, "coolant-frost-weak", values, rows)


def _limit(coolant: Coolant, standards: Standards) -> tuple[Decimal, tuple[TableRow, ...]]:
    """The frost limit said, or the one of the share said; `reading` keeps shares inside of the table."""
    if coolant.frost is not None:
        return coolant.frost, ()
    found = freezes(coolant.share or Decimal(0), standards)
    assert found is not None
    return found


FAMILIES: Final = {"coolant": CoolantFamily()}
