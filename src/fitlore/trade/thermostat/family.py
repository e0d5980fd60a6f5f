"""Thermostats as a family: where it opens, the flange that is clamped, the height, and what closes the bypass."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from fitlore.trade.family import About
from fitlore.trade.measured import Bound, Figure, LongWords, Made, Shape, Trait, figure_piece, read_made
from fitlore.trade.measured_family import MeasuredFamily
from fitlore.trade.pieces import Piece, shown, words
from fitlore.trade.result import FamilyState, Unreadable
from fitlore.trade.standards import Standards

_OK, _WORK, _OFF, _TRAP = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF, FamilyState.TRAP
EXAMPLES: Final = (
    "thermostat, foot plate, opens 82 C, flange 54 mm, thickness 2 mm, height 30 mm",
    "thermostat, opens 180 F",
)
_TIGHT: Final = Decimal("0.3")
_CALLED: Final = words(r"\b(?:cooling |coolant )?thermostat\b")
_STAMP: Final = words(r"(?:(?<=,)|^) ?(?P<figure>\d{2,3}) ?(?=,|$)")
_HEIGHT: Final = Figure(
    "height", "mm", "height", Decimal(2), Decimal(2), Bound(_OK, "low"), Bound(_OFF, "tall"),
    "below the flange", "high|tall",
)  # fmt: skip
_PLATE_LOW: Final = Bound(_TRAP, "plate-low", "tell-plate")
_BYPASS: Final = (
    ("no bypass", words(r"\b(?:no|without(?: an?)?) (?:bypass|foot)(?: (?:plate|disc|valve))?\b")),
    ("foot plate", words(r"\b(?:bypass|foot)[- ]?(?:plate|disc|valve)\b")),
    ("sleeve", words(r"\bsleeve(?:d)?\b")),
)


def _differs() -> dict[tuple[str, str], Bound]:
    open_by = Bound(_TRAP, "bypass-open", "tell-bypass")
    return {
        ("foot plate", "no bypass"): open_by,
        ("sleeve", "no bypass"): open_by,
        ("foot plate", "sleeve"): Bound(_OFF, "other-bypass"),
        ("sleeve", "foot plate"): Bound(_OFF, "other-bypass"),
        ("no bypass", "foot plate"): Bound(_OFF, "plate-meets"),
        ("no bypass", "sleeve"): Bound(_OFF, "plate-meets"),
    }


class ThermostatFamily(MeasuredFamily):
    """The family of kind `thermostat`."""

    about = About(
        title="thermostats of cooling systems",
        standards=("ISO 80000-5",),
        spellings=(
            *EXAMPLES,
            "82 °C thermostat",
            "thermostat 88 C flange 54 mm foot plate",
            "thermostat opens at 190 deg F, 54 mm flange, without bypass plate, with jiggle pin",
            "thermostat 82",
            "thermostat 180",
        ),
        not_said=(
            "where it is fully open: about 12 to 15 degrees later (common practice)",
            "how far it opens",
            "which way up it goes",
        ),
        gaps=(
            "flanges and heights: the engine's own",
            "thermostats with a heater or in a housing of their own",
        ),
    )
    shape = Shape(
        "thermostat",
        "thermostat",
        _CALLED,
        (
            Figure(
                "opens", "C", r"(?:opens|opening|opening temperature)", Decimal(2), Decimal(2),
                Bound(_OFF, "cold"), Bound(_OFF, "hot"), "the figure on the frame", by_unit=True,
            ),
            Figure(
                "flange", "mm", r"flange(?: diameter)?", _TIGHT, _TIGHT,
                Bound(_TRAP, "flange-small", "tell-flange", Decimal(3)), Bound(_OFF, "flange-big"),
                "across the flange and the recess",
            ),
            Figure(
                "thickness", "mm", r"(?:flange )?thickness", _TIGHT, _TIGHT,
                Bound(_TRAP, "flange-thin", "tell-thin", Decimal(2)), Bound(_TRAP, "flange-thick", "tell-thick", Decimal(2)),
                "the flange, and how deep its recess is", "thick",
            ),
            _HEIGHT,
        ),
        (
            Trait("bypass", _BYPASS, _differs(), "the end away from the spring's frame: a second plate or none"),
            Trait(
                "jiggle pin",
                (
                    ("no jiggle pin", words(r"\b(?:no|without(?: a)?) (?:jiggle|bleed)(?: (?:pin|valve|hole))?\b")),
                    ("jiggle pin", words(r"\b(?:jiggle|bleed)(?: (?:pin|valve|hole))?\b")),
                ),
                {("jiggle pin", "no jiggle pin"): Bound(_WORK, "drill")},
                "a small loose pin in the flange",
            ),
        ),
        ("opens",),
        EXAMPLES,
    )  # fmt: skip
    apart = ("height",)

    def made(self, text: str, standards: Standards) -> Made | Unreadable:
        """What a text says; a bare stamp is taken for the scale in which it can be an opening temperature."""
        found = LongWords(text)
        stamp = _STAMP.search(" ".join(_CALLED.sub(" ", found.rest).split())) if not found.too_long else None
        if stamp and (mark := _stamped(stamp["figure"], standards)):
            text = text.replace(stamp["figure"], mark, 1)
        return read_made(text, self.shape, standards)

    def more(self, wanted: Made, had: Made, standards: Standards) -> list[Piece]:
        """The height: with a foot plate a lower one leaves the bypass open, without one it only stands free."""
        if "height" not in wanted.figures:
            return []
        plated = wanted.traits.get("bypass") in ("foot plate", "sleeve")
        figure = _HEIGHT._replace(small=_PLATE_LOW) if plated else _HEIGHT
        return [figure_piece("thermostat", figure, wanted.figures["height"], had.figures.get("height"))]


def _stamped(figure: str, standards: Standards) -> str:
    """A bare figure with its scale; empty where it is a listed stamp in neither."""
    for row in standards.table("thermostat-mark").rows:
        for column, unit in (("celsius", "C"), ("fahrenheit", "F")):
            if figure == shown(row.number(column)) or figure == row.cell(column):
                return f"{figure} {unit}"
    return ""


FAMILIES: Final = {"thermostat": ThermostatFamily()}
