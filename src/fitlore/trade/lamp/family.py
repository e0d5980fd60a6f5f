"""Lamps as a family of standards: the cap lets a lamp in, the watts, volts and colour say whether it may stay."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.held import Held
from fitlore.trade.lamp.reading import Lamp, read
from fitlore.trade.pieces import PRACTICE, question
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

USUAL_VOLTS: Final = 12
SPRING: Final = Decimal("1")
"""By how many mm a festoon may differ without anybody noticing; the holder's tongues spring. Common practice."""
BENT: Final = Decimal("3")
"""By how many mm the tongues can be bent for it. Common practice."""
_PLAY: Final = Decimal("0.3")


class LampFamily:
    """The family of kind `lamp`. Needed: what the holder and the law ask for. Offered: the lamp."""

    about = About(
        title="lamps",
        standards=("UN R37", "IEC 60061-1", "IEC 60983"),
        spellings=(
            "P21W",
            "12 V P21/5W",
            "p 21/4 w",
            "H4 60/55 W",
            "H7 24V",
            "BAY15d 21/5 W",
            "ba15s, 12V 21W amber",
            "W2,1x9,5d 5W",
            "W2.1 × 9.5d 12 V 5 W",
            "SV8.5-8 36 mm 5 W",
            "P45t-41 45/40 W",
            "bulb 382",
            "LED P21W",
        ),
        not_said=(
            "which holder the lamp unit has, until it is looked at",
            "what the wiring and the lens bear",
            "whether a monitor or a flasher counts the watts",
            "the length of the glass (a long one touches the lens)",
        ),
        gaps=(
            "discharge lamps (UN R99) and LED light sources (UN R128)",
            "lamps of North America by number, but for a few",
            "luminous flux",
        ),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The lamp in one spelling: its category or its cap, then volts, length, watts, colour where they are said."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        keys = {"shell": found.cap.numbers["shell"]} if "shell" in found.cap.numbers else {}
        return Reading(found.name, keys=keys)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each category, by the shell of its cap, or the width and thickness of its wedge; a festoon by its length."""
        caps = {row.word("cap"): row for row in standards.table("lamp-caps").rows}
        for row in standards.table("lamp-categories").rows:
            sized = _sized(row, caps[row.word("cap")])
            if sized.bands:
                yield sized

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Cap first; a lamp that goes in is then held against watts, volts, colour, length."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("lamp", wanted.name, had.name)
        if _cap(held, wanted, had):
            _power(held, wanted, had)
            _volts(held, wanted, had)
            _colour(held, wanted, had)
            _length(held, wanted, had)
            if had.led and not wanted.led:
                held.add("LED", FamilyState.TRAP, "lamp-led", sources=("UN R37", PRACTICE))
            elif wanted.led and not had.led:
                held.unsaid("heat", "whether holder and lens bear a wire lamp's heat")
        return held.result()


def _cap(held: Held, wanted: Lamp, had: Lamp) -> bool:
    """Whether it can go in at all: the same cap, or one of its group."""
    rows = (*wanted.rows, *had.rows)
    if wanted.cap.word("cap") == had.cap.word("cap"):
        held.agrees("cap", had.cap.word("cap"), rows)
        return True
    values = {"needed-cap": wanted.cap.word("cap"), "offered-cap": had.cap.word("cap")}
    if wanted.cap.word("group") != had.cap.word("group"):
        held.add("cap", FamilyState.OFF, "lamp-cap-off", values, rows)
        return False
    tells = [
        Because(
            "lamp-tell-cap",
            {"cap": cap.word("cap"), "pins": cap.word("pins"), "contacts": cap.word("contacts")},
            (cap.origin,),
            (cap.source,),
        )
        for cap in (had.cap, wanted.cap)
    ]
    held.add("cap", FamilyState.TRAP, "lamp-cap-trap", values, rows, under=tells)
    return True


def _power(held: Held, wanted: Lamp, had: Lamp) -> None:
    if not wanted.power:
        held.unsaid("watts of the place", "the old lamp, the lens or the handbook")
    elif held.asks("watts", wanted.power, had.power, "figure on the metal of the lamp"):
        values = {"needed-watts": f"{wanted.power} W", "offered-watts": f"{had.power} W"}
        if wanted.power == had.power:
            held.agrees("watts", f"{had.power} W")
            return
        tells = (Because("lamp-tell-watts", values | {"amps": _amps(had)}),)
        more = _figures(had.power) > _figures(wanted.power)
        code = "lamp-power-over" if more else "lamp-power-under"
        held.add("watts", FamilyState.TRAP, code, values, under=tells)


def _volts(held: Held, wanted: Lamp, had: Lamp) -> None:
    """Volts that only the lamp says are a question: one for 12 V glows red on 6 V and bursts on 24 V (common practice)."""
    if wanted.volts is None:
        if had.volts is not None:
            held.unsaid("volts of the car", f"whether it has {had.volts} V; most have {USUAL_VOLTS} V")
    elif held.asks("volts", wanted.volts, had.volts, "figure on the metal of the lamp"):
        if wanted.volts == had.volts:
            held.agrees("volts", f"{had.volts} V")
            return
        values = {"needed-volts": f"{wanted.volts} V", "offered-volts": f"{had.volts} V"}
        high = (had.volts or 0) > wanted.volts
        held.add("volts", FamilyState.TRAP, "lamp-volts-high" if high else "lamp-volts-low", values)


def _colour(held: Held, wanted: Lamp, had: Lamp) -> None:
    """A glass of which nothing is said is clear (common practice); a coloured one has to be asked for."""
    need, have = wanted.colour or ("white" if had.colour == "white" else ""), had.colour
    if need == have or (need == "white" and not have):
        return
    if not need:
        held.unsaid("colour that is asked for", "whether the lens is clear or coloured")
    elif held.asks("colour", need, have, "the glass against the light"):
        values = {"needed-colour": need, "offered-colour": have}
        held.add("colour", FamilyState.TRAP, "lamp-colour", values, sources=("UN R37", "UN R48"))


def _length(held: Held, wanted: Lamp, had: Lamp) -> None:
    if not wanted.cap.word("group").startswith("festoon"):
        return
    if wanted.length is None and wanted.name != had.name:
        held.unsaid("length of the place", "tongue to tongue; the cap does not say it")
    if wanted.length is None or had.length is None:
        held.asks("length", wanted.length, had.length, "tip to tip; the cap does not say it")
        return
    apart = abs(wanted.length - had.length)
    values = {"needed-length": f"{plain(wanted.length)} mm", "offered-length": f"{plain(had.length)} mm"}
    if apart <= SPRING:
        held.agrees("length", f"{plain(had.length)} mm")
    elif apart <= BENT:
        held.add("length", FamilyState.OK_WITH_WORK, "lamp-length-bend", values)
    else:
        held.add("length", FamilyState.OFF, "lamp-length-off", values)


def _figures(power: str) -> Decimal:
    return sum((Decimal(figure) for figure in power.split("/")), Decimal(0))


def _amps(lamp: Lamp) -> str:
    """What it draws at its volts, the filaments together: watts through volts."""
    return f"{_figures(lamp.power) / (lamp.volts or USUAL_VOLTS):.2f} A"


def _sized(row: TableRow, cap: TableRow) -> Sized:
    bands: dict[str, Band] = {}
    if "shell" in cap.numbers:
        bands["diameter"] = Band.around(cap.number("shell"), _PLAY)
    if "width" in cap.numbers:
        bands["width"] = Band.around(cap.number("width"), _PLAY)
        bands["thickness"] = Band.around(cap.number("thickness"), _PLAY)
    if "length" in row.numbers:
        bands["length"] = Band.around(row.number("length"), SPRING)
    values = {
        "lamp": row.word("category"),
        "cap": cap.word("cap"),
        "power": f"{row.word('power')} W",
        "colour": row.word("colour"),
        "certainty": row.certainty.value,
    }
    because = Because("lamp-size", values, (row.origin, cap.origin), (row.source,))
    return Sized("lamp", row.word("category"), bands, because)


FAMILIES: Final = {"lamp": LampFamily()}
