"""Radiator caps as a family: pressure, reach into the neck, neck, fixing and the valve that draws back."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.family import About
from fitlore.trade.measured import Bound, Figure, Made, Shape, Trait, differing, read_made
from fitlore.trade.measured_family import MeasuredFamily
from fitlore.trade.pieces import PRACTICE, Piece, shown, verdict, words
from fitlore.trade.radiator_cap.boiling import under_cap
from fitlore.trade.result import FamilyResult, FamilyState, Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_OK, _OFF, _TRAP = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP
EXAMPLES: Final = (
    "radiator cap, bayonet, return valve, pressure 0.9 bar, neck 52 mm, reach 18 mm",
    "radiator cap, pressure 13 psi",
)
PLAY: Final = Decimal("0.05")
"""How far two pressures may be apart and be one figure, in bar: 13 psi is 0.896 (common practice)."""
_MOST: Final = Decimal(3)
_PSI: Final = Decimal("0.0689476")
_LOOK: Final = "the figure on the lid, with its unit"
_NO_RETURN: Final = words(
    r"\b(?:no|without(?: a)?) (?:(?:return|vacuum|recovery)(?: valve)?)\b|\bnon[- ]recovery\b"
)


class RadiatorCapFamily(MeasuredFamily):
    """The family of kind `radiator-cap`."""

    about = About(
        title="radiator caps",
        standards=("SAE J164", "IAPWS-IF97"),
        spellings=(
            *EXAMPLES,
            "13 psi radiator cap",
            "7 lb radiator cap, reach 1 in",
            "radiator cap 90 kPa 18 mm deep",
            "pressure cap 1,1 bar, bayonet, with return valve",
            "expansion tank cap 1.0 bar screw",
        ),
        not_said=(
            "whether its spring still has its force",
            "what the weakest part of the system bears",
            "its rubber",
        ),
        gaps=("the medium and large sizes of SAE J164", "necks of European caps", "threads of screwed caps"),
    )
    shape = Shape(
        "radiator-cap",
        "radiator cap",
        words(r"\b(?:(?:radiator|expansion tank|header tank|pressure|coolant|filler) )+cap\b"),
        (
            Figure(
                "pressure", "bar", r"pressure", PLAY, PLAY, Bound(_OFF, "weak"), Bound(_TRAP, "strong"), _LOOK,
                by_unit=True,
            ),
            Figure(
                "neck", "mm", r"neck(?: diameter)?", Decimal("0.5"), Decimal("0.5"), Bound(_OFF, "neck"), Bound(_OFF, "neck"),
                "inside the filler neck",
            ),
            Figure(
                "reach", "mm", r"(?:reach|depth)", Decimal("0.7"), Decimal("0.7"),
                Bound(_TRAP, "short", "tell-short"), Bound(_TRAP, "long", "tell-long"),
                "from the neck's rim to the seat of the seal", "deep",
            ),
        ),
        (
            Trait(
                "fixing",
                (("bayonet", words(r"\bbayonet\b")), ("screw", words(r"\bscrew(?:ed|[- ]on)?\b"))),
                differing(("bayonet", "screw"), lambda need, have: Bound(_OFF, "fixing")),
                "lugs or a thread",
            ),
            Trait(
                "return valve",
                (
                    ("no return valve", _NO_RETURN),
                    ("return valve", words(r"\b(?:return|vacuum|recovery)(?: valve)?\b")),
                ),
                {("return valve", "no return valve"): Bound(_TRAP, "no-return", "tell-return")},
                "a small plate in the middle of the seal that lifts with a fingernail",
            ),
        ),
        ("pressure",),
        EXAMPLES,
    )  # fmt: skip
    apart = ("pressure",)

    def made(self, text: str, standards: Standards) -> Made | Unreadable:
        """What a text says; a pressure that no cooling system bears is none."""
        found = read_made(text, self.shape, standards)
        if isinstance(found, Unreadable) or Decimal("0.1") <= found.figures["pressure"] <= _MOST:
            return found
        return Unreadable(text, "radiator-cap-no-pressure", expected=EXAMPLES)

    def more(self, wanted: Made, had: Made, standards: Standards) -> list[Piece]:
        """The pressure, with what it means for the water."""
        return [Piece("pressure", _pressure(wanted, had, standards))]


def _pressure(wanted: Made, had: Made, standards: Standards) -> FamilyResult:
    need, have = wanted.figures["pressure"], had.figures["pressure"]
    values = {
        "what": "pressure",
        "needed": f"{shown(need)} bar",
        "offered": f"{shown(have)} bar",
        "needed-boils": f"{under_cap(need):.0f}",
        "offered-boils": f"{under_cap(have):.0f}",
    }
    if abs(have - need) <= PLAY:
        return verdict(_OK, "service-agrees", values)
    if have < need:
        return verdict(_OFF, "radiator-cap-weak", values, sources=("IAPWS-IF97", PRACTICE))
    rows = (*_of(need, standards), *_of(have, standards))
    longer = rows if len(rows) == 2 and rows[0] != rows[1] else ()
    reaches = [row.cell("reach") for row in longer]
    values |= dict(zip(("needed-reach", "offered-reach"), reaches, strict=False)) if longer else {}
    code = "radiator-cap-trap-longer" if longer else "radiator-cap-trap-strong"
    tells = (Because("radiator-cap-tell-strong", values),)
    return verdict(_TRAP, code, values, longer, ("IAPWS-IF97", PRACTICE), tells)


def _of(pressure: Decimal, standards: Standards) -> tuple[TableRow, ...]:
    psi = pressure / _PSI
    half = Decimal("0.5")
    return tuple(
        row
        for row in standards.table("cap-reach").rows
        if row.number("from") - half <= psi <= row.number("to") + half
    )


FAMILIES: Final = {"radiator-cap": RadiatorCapFamily()}
