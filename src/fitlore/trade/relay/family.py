"""Relays and flashers as families: the shell proves nothing, the drawing on it does."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.held import Held
from fitlore.trade.pieces import PRACTICE, question
from fitlore.trade.relay.reading import Flasher, Relay, read_flasher, read_relay
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import plain

_DRAWING: Final = "the drawing on its lid"
_WITH_WORK: Final = {
    ("make", "changeover"): "relay-middle-rest",
    ("make", "double make"): "relay-middle-live",
}
"""Needed and offered contact that go where the middle place of the socket is empty."""
_TRAPS: Final = frozenset(
    {
        ("changeover", "double make"),
        ("double make", "changeover"),
        ("make", "break"),
        ("break", "make"),
        ("break", "double make"),
    }
)
"""Needed and offered contact that plug in alike and do the opposite."""


class RelayFamily:
    """The family of kind `relay`. Needed: what the socket is wired for. Offered: the relay."""

    about = About(
        title="relays",
        standards=("ISO 7588-1", "ISO 7588-3", "DIN 72552"),
        spellings=(
            "make relay 12 V 30 A layout A plain",
            "changeover relay, 12V, 30/40 A, layout B, with diode",
            "relay 30 85 86 87 87a 12 V layout A",
            "relay 30/85/86/87/87 12V layout B",
            "mini relay make contact 12 V resistor layout A",
            "SPDT relay 12 V type A",
            "relay W1 W2 C1 C2 12 V layout A",
        ),
        not_said=(
            "what is wired to the middle place of the socket",
            "what drives the coil",
            "how often it switches",
        ),
        gaps=("timers and relays for one job (rear window, glow plugs)", "latching relays"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The relay in one spelling: size, contact, layout, volts, amps, what lies across the coil."""
        found = read_relay(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found.name)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: nothing of it can be told by a caliper."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Contact, layout, volts, coil, load."""
        wanted, had = read_relay(needed, standards), read_relay(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("relay", wanted.name, had.name)
        if wanted.size and had.size and wanted.size != had.size:
            held.add("size", FamilyState.OFF, "relay-size", {"size": had.size})
        elif wanted.size != had.size and "micro" in (wanted.size, had.size):
            held.unsaid("size", "whether its base is the small one: the tabs are narrower and closer")
        _contact(held, wanted, had)
        _layout(held, wanted, had, standards)
        _volts(held, wanted.volts, had.volts)
        _coil(held, wanted, had)
        if held.asks("amps", wanted.amps, had.amps, "figure on its lid") and wanted.amps and had.amps:
            if had.amps >= wanted.amps:
                held.agrees("amps", f"{plain(had.amps)} A")
            else:
                values = {"needed-amps": f"{plain(wanted.amps)} A", "offered-amps": f"{plain(had.amps)} A"}
                held.add("amps", FamilyState.OFF, "relay-amps", values)
        return held.result()


def _contact(held: Held, wanted: Relay, had: Relay) -> None:
    rows = (*wanted.rows, *had.rows)
    pair = (wanted.contact, had.contact)
    values = {"needed-contact": wanted.contact, "offered-contact": had.contact}
    values["middle"] = had.rows[0].word("middle") if had.rows else ""
    if wanted.contact == had.contact:
        held.agrees("contact", had.contact)
    elif pair in _WITH_WORK:
        held.add("contact", FamilyState.OK_WITH_WORK, _WITH_WORK[pair], values, rows)
    elif pair in _TRAPS:
        tells = (Because("relay-tell-contact", values, sources=(PRACTICE,)),)
        held.add("contact", FamilyState.TRAP, "relay-contact-trap", values, rows, under=tells)
    else:
        held.add("contact", FamilyState.OFF, "relay-contact-off", values, rows)


def _layout(held: Held, wanted: Relay, had: Relay, standards: Standards) -> None:
    if wanted.layout == had.layout:
        held.agrees("layout", had.layout)
        return
    table = standards.table("relay-layouts")
    rows = (*table.find(layout=wanted.layout), *table.find(layout=had.layout))
    values = {"needed-layout": wanted.layout, "offered-layout": had.layout}
    tells = tuple(
        Because(
            "relay-tell-layout",
            {"layout": row.word("layout"), "tells": row.word("tells")},
            (row.origin,),
            (row.source,),
        )
        for row in rows
    )
    held.add("layout", FamilyState.TRAP, "relay-layout-trap", values, rows, under=tells)


def _volts(held: Held, wanted: int | None, had: int | None) -> None:
    if held.asks("volts", wanted, had, "figure on its lid"):
        if wanted == had:
            held.agrees("volts", f"{had} V")
            return
        high = (had or 0) > (wanted or 0)
        values = {"needed-volts": f"{wanted} V", "offered-volts": f"{had} V"}
        held.add("volts", FamilyState.TRAP, "coil-volts-high" if high else "coil-volts-low", values)


def _coil(held: Held, wanted: Relay, had: Relay) -> None:
    """A diode minds which end of the coil is plus; a plain coil kicks back at what drives it."""
    if had.coil == "diode" and wanted.coil != "diode":
        held.unsaid(
            "which of 85 and 86 is plus", "volts at the socket; with a diode in the relay 86 has to be plus"
        )
    elif held.asks("coil", wanted.coil, had.coil, _DRAWING):
        if had.coil == "plain" and wanted.coil != "plain":
            values = {"needed-coil": wanted.coil}
            tells = (Because("relay-tell-coil", values, sources=(PRACTICE,)),)
            held.add("coil", FamilyState.TRAP, "relay-coil-plain", values, under=tells)
        else:
            held.agrees("coil", had.coil)


class FlasherFamily:
    """The family of kind `flasher`. Needed: what the car has. Offered: the flasher."""

    about = About(
        title="flashers",
        standards=("DIN 72552", "ISO 7588-1"),
        spellings=(
            "flasher 49 49a 31 12 V 2x21+5 W electronic",
            "flasher unit 12V 4 x 21 W 49a 49 31 C",
            "flasher B L 12 V 2x21 W hot wire",
            "flasher unit X L P thermal 12 V 2x21 W",
        ),
        not_said=("where each terminal stands", "how it is fixed"),
        gaps=("flashers built into a hazard switch", "French letters of terminals"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The flasher in one spelling; old letters become numbers."""
        found = read_flasher(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found.name)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: nothing of it can be told by a caliper."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Terminals, volts, and the lamps that hang on it."""
        wanted, had = read_flasher(needed, standards), read_flasher(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("flasher", wanted.name, had.name)
        _terminals(held, wanted, had)
        _volts(held, wanted.volts, had.volts)
        _load(held, wanted, had)
        return held.result()


def _terminals(held: Held, wanted: Flasher, had: Flasher) -> None:
    missing = [one for one in wanted.terminals if one not in had.terminals and one != "31"]
    if missing:
        held.add("terminals", FamilyState.OFF, "flasher-terminal-missing", {"terminals": ", ".join(missing)})
    elif "31" in had.terminals and "31" not in wanted.terminals:
        held.add("earth", FamilyState.OK_WITH_WORK, "flasher-needs-earth", sources=("DIN 72552", PRACTICE))
    else:
        held.agrees("terminals", " ".join(had.terminals))


def _load(held: Held, wanted: Flasher, had: Flasher) -> None:
    """A hot wire counts the watts: other lamps, another rate. An electronic one has a most."""
    rows = (*wanted.rows, *had.rows)
    if not wanted.works and wanted.watts != had.watts:
        held.unsaid("how the old one works", "shake it; and count the lamps it serves")
    if not held.asks(
        "works by", wanted.works, had.works, "shake it: a hot wire is light and rattles; the lid says more"
    ):
        return
    if had.works == "hot wire" and wanted.works == "electronic":
        held.add("works by", FamilyState.TRAP, "flasher-hot-for-electronic", rows=rows, sources=(PRACTICE,))
        return
    values = {"needed-watts": f"{plain(wanted.watts)} W", "offered-watts": f"{plain(had.watts)} W"}
    if wanted.watts == had.watts or (had.works == "electronic" and had.watts >= wanted.watts):
        held.agrees("load", values["offered-watts"], rows)
    elif had.works == "hot wire":
        held.add("load", FamilyState.TRAP, "flasher-load-trap", values, rows, (PRACTICE,))
    else:
        held.add("load", FamilyState.OFF, "flasher-load-off", values, rows, (PRACTICE,))


FAMILIES: Final = {"relay": RelayFamily(), "flasher": FlasherFamily()}
