"""Gas struts as a family: both lengths, the force, and what each end hangs on. A lid that falls hurts."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.family import About
from fitlore.trade.gas_strut.gas import SOURCE, force_at
from fitlore.trade.gas_strut.reading import EXAMPLES, FORCE, SHAPE, read_strut
from fitlore.trade.measured import Made
from fitlore.trade.measured_family import MeasuredFamily
from fitlore.trade.pieces import PRACTICE, Piece, shown, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Unreadable
from fitlore.trade.standards import Standards

_OK, _OFF, _TRAP, _ASK = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP, FamilyState.UNREADABLE
_SHARE: Final = Decimal("0.1")
"""The share of the force by which it may be off (common practice)."""
_COLD: Final = Decimal(-10)
_GRAVITY: Final = Decimal("9.80665")
_PLAY: Final = Decimal("0.2")


class GasStrutFamily(MeasuredFamily):
    """The family of kind `gas-strut`."""

    about = About(
        title="gas struts",
        standards=("DIN 71803", "DIN 71805", "ISO 80000-4"),
        spellings=(
            *EXAMPLES,
            "gas spring extended 21.92 in, compressed 13.92 in, 90 lbf, both ends ball 10 mm",
            "tailgate strut, open 505 mm, stroke 200 mm, 39 kgf, rod ball socket 10 mm, tube eye 8 mm",
            "lift support 505/200 mm, F1 = 380 N at 20 °C, 10 mm balls both ends",
            "bonnet strut, open length 420,5 mm, closed length 250 mm, 22 daN, rod fork 8 mm, tube thread M8",
        ),
        not_said=(
            "which way up: the rod hangs downwards when the lid is shut",
            "how fast it moves and how it is damped",
            "how much stronger it gets on the way in",
            "whether its gas is still in it",
        ),
        gaps=("struts with a lock or a motor", "angled sockets and their offset", "dampers without force"),
    )
    shape = SHAPE
    apart = ("rod end", "tube end", "rod size", "tube size", "force")

    def made(self, text: str, standards: Standards) -> Made | Unreadable:
        """What a text says."""
        return read_strut(text, standards)

    def more(self, wanted: Made, had: Made, standards: Standards) -> list[Piece]:
        """The force, and each end by its form, then by its size."""
        found = [Piece("force", _force(wanted.figures["force"], had.figures["force"]))]
        for side in ("rod", "tube"):
            need, have = (made.traits[f"{side} end"].partition(" ")[2] for made in (wanted, had))
            if need != have:
                found.append(Piece(f"{side} end", _other(side, need, have, standards)))
                continue
            wants, has = (made.figures[f"{side} size"] for made in (wanted, had))
            found.append(Piece(f"{side} end", _size(f"{side} {need}", wants, has, standards)))
        return found


def _force(need: Decimal, have: Decimal) -> FamilyResult:
    """A weaker one holds the lid in the warm shop and lets it fall in the cold; a stronger one does not let it shut."""
    values = {
        "what": "force",
        "needed": f"{need:.0f} N",
        "offered": f"{have:.0f} N",
        "cold": f"{force_at(have, _COLD):.0f} N at {_COLD} \N{DEGREE SIGN}C",
        "kg": f"{have / _GRAVITY:.0f} kg",
        "needed-kg": f"{need / _GRAVITY:.0f} kg",
    }
    if abs(have - need) <= need * _SHARE:
        return verdict(_OK, "service-agrees", values)
    if have > need:
        return verdict(FORCE.big.state, "gas-strut-strong", values, sources=(PRACTICE,))
    tell = Because("gas-strut-tell-force", values)
    return verdict(FORCE.small.state, "gas-strut-trap-weak", values, (), (PRACTICE, SOURCE), (tell,))


def _other(side: str, need: str, have: str, standards: Standards) -> FamilyResult:
    """Another form; where the offered one is a bare thread, ends can be screwed on, and both lengths change."""
    values = {"what": f"{side} end", "needed": need, "offered": have}
    table = standards.table("strut-end")
    rows = (*table.find(form=need), *table.find(form=have))
    if have == "stud":
        return verdict(_ASK, "gas-strut-screw-on", values, rows, (PRACTICE,))
    tells = [
        Because("gas-strut-tell-end", {"form": row.word("form"), "tell": row.word("tell")}) for row in rows
    ]
    return verdict(_OFF, "gas-strut-other-end", values, rows, (PRACTICE,), tells)


def _size(what: str, need: Decimal, have: Decimal, standards: Standards) -> FamilyResult:
    """A cup or a hole that is too big goes on and comes off; one that is too small does not go on."""
    form = what.partition(" ")[2]
    values = {
        "what": what,
        "needed": f"{shown(need)} mm",
        "offered": f"{shown(have)} mm",
        "form": form,
    }
    if abs(have - need) <= _PLAY:
        return verdict(_OK, "service-agrees", values)
    table = standards.table("strut-ball")
    rows = (*table.find(ball=shown(need))[:1], *table.find(ball=shown(have))[:1]) if form == "ball" else ()
    if form == "stud" or have < need:
        return verdict(_OFF, "gas-strut-end-size", values, rows, (PRACTICE,))
    tell = Because("gas-strut-tell-loose", values)
    return verdict(_TRAP, "gas-strut-trap-loose", values, rows, (PRACTICE,), (tell,))


FAMILIES: Final = {"gas-strut": GasStrutFamily()}
