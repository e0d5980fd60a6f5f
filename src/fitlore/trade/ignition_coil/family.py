"""Ignition coils as a family: the current that flows where this coil comes instead of that one."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.held import Held
from fitlore.trade.ignition_coil.reading import Coil, read
from fitlore.trade.pieces import PRACTICE, question
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import plain

RUNNING: Final = Decimal("13.5")
"""Volts of the car while the engine runs."""
SPREAD: Final = Decimal("0.15")
"""By which share of the ohms two coils of one kind may differ. Common practice."""
_PLAIN: Final = Decimal("2.5")
"""Ohms under which a coil without ballast draws more than contact points bear. Common practice."""
_SHORT: Final = {("plain", "ballast"), ("plain", "electronic"), ("ballast", "electronic")}
"""Needed and offered kind where too much current flows: coil, points or module burn."""


class IgnitionCoilFamily:
    """The family of kind `ignition-coil`. Needed: what the car is wired for. Offered: the coil."""

    about = About(
        title="ignition coils",
        standards=("DIN 72552",),
        spellings=(
            "coil 3 ohm plain",
            "3,0 ohm coil without ballast",
            "ballast coil 1.5 ohm",
            "1.5 Ω coil for ballast",
            "9 V ballasted coil 1.6 ohm",
            "coil 1.5 ohm with ballast of 1.5 ohm",
            "coil 0.6 ohm electronic",
            "ignition coil 3.2 ohm",
        ),
        not_said=(
            "whether a wire from the starter feeds it past the ballast",
            "which end is plus (1 and 15 change with the earth of the car)",
            "tower and clamp",
        ),
        gaps=("coils of several outlets", "coils with the module built in", "energy and rise time"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The coil in one spelling: ohms and kind; `kind` is implied where only the ohms are said."""
        found = read(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found.name, "kind" if found.row else "")

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: a meter tells it, not a caliper."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Kind against kind, then ohms; the figures are amps while the contact is closed."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("ignition-coil", wanted.name, had.name)
        rows = [coil.row for coil in (wanted, had) if coil.row is not None]
        values = {
            "needed-kind": wanted.kind,
            "offered-kind": had.kind,
            "needed-amps": f"{amps(wanted.ohms, wanted.ballast):.1f} A",
            "offered-amps": f"{amps(had.ohms, wanted.ballast):.1f} A",
            "needed-ohms": f"{plain(wanted.ohms)} ohm",
            "offered-ohms": f"{plain(had.ohms)} ohm",
        }
        pair = (wanted.kind, had.kind)
        if pair in _SHORT:
            held.add(
                "kind", FamilyState.TRAP, "ignition-coil-burns", values, rows, (PRACTICE,), _tells(values)
            )
        elif pair == ("ballast", "plain") and had.ohms < _PLAIN:
            held.unsaid("ballast", "a coil of so few ohms wants one in line; without it the points burn")
        elif pair == ("ballast", "plain"):
            held.add("kind", FamilyState.OK_WITH_WORK, "ignition-coil-bypass", values, rows, (PRACTICE,))
        elif wanted.kind != had.kind:
            held.add("kind", FamilyState.OFF, "ignition-coil-weak", values, rows, (PRACTICE,))
        else:
            held.agrees("kind", had.kind, rows)
            if wanted.ballast is not None and had.ballast is None:
                held.unsaid("ballast", "whether the old ballast stays on the car and is sound")
            _ohms(held, wanted, had, values)
        return held.result()


def amps(ohms: Decimal, ballast: Decimal | None = None) -> Decimal:
    """Amps through a primary, and its ballast in line, at the running volts: Ohm's law."""
    return RUNNING / (ohms + (ballast or 0))


def volts_at_coil(ohms: Decimal, ballast: Decimal, supply: Decimal) -> Decimal:
    """Volts that are left for a coil behind its ballast while the contact is closed: they share by their ohms."""
    return supply * ohms / (ohms + ballast)


def ballast_for(ohms: Decimal, volts: Decimal, supply: Decimal) -> Decimal:
    """Ohms of the ballast that leaves a coil these volts: `volts_at_coil` the other way round."""
    return ohms * (supply - volts) / volts


def _ohms(held: Held, wanted: Coil, had: Coil, values: dict[str, str]) -> None:
    share = had.ohms / wanted.ohms - 1
    if abs(share) <= SPREAD:
        held.agrees("ohms", values["offered-ohms"])
    elif share < 0:
        held.add("ohms", FamilyState.TRAP, "ignition-coil-low", values, under=_tells(values))
    else:
        held.add("ohms", FamilyState.OFF, "ignition-coil-weak", values)
    if wanted.ballast is not None and had.ballast is not None and wanted.ballast != had.ballast:
        told = values | {"ballast": f"{plain(had.ballast)} ohm"}
        held.add("ballast", FamilyState.OK_WITH_WORK, "ignition-coil-own-ballast", told)


def _tells(values: dict[str, str]) -> tuple[Because, ...]:
    return (Because("ignition-coil-tell", values, sources=(PRACTICE,)),)


FAMILIES: Final = {"ignition-coil": IgnitionCoilFamily()}
