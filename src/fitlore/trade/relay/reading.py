"""Texts into relays and flashers: terminals by number or old letter, contact, layout, coil, load."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import Words, size, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

RELAYS: Final = (
    "make relay 12 V 30 A layout A plain",
    "changeover relay 12 V layout B diode",
    "relay 30 85 86 87 87a 12 V layout A",
)
FLASHERS: Final = ("flasher 49 49a 31 12 V 2x21+5 W electronic", "flasher B L 12 V 2x21 W hot wire")
_RELAY: Final = words(r"\brelays?\b")
_FLASHER: Final = words(r"\bflasher(?: (?:unit|relay|can))?\b")
_VOLTS: Final = words(r"(?<![\w.])(?P<v>6|12|24)\s?V(?:olts?)?(?!\w)")
_AMPS: Final = words(
    r"(?<![\w.])(?P<n>\d{1,3}(?:[.,]\d)?)(?:\s?/\s?(?P<rest>\d{1,3}(?:[.,]\d)?))?\s?(?:(?-i:A)|amps?)(?!\w)"
)
_LOAD: Final = words(
    r"(?<![\w.])(?P<n>\d)\s?x\s?(?P<w>\d{1,2})\s?W?(?:\s?\+\s?(?:(?P<m>\d)\s?x\s?)?(?P<x>\d{1,2}))?\s?W(?!\w)"
)
_LAYOUT: Final = words(r"\b(?:layout|type|pattern) (?P<l>[AB])\b|\b(?P<after>[AB]) (?:layout|pattern)\b")
_CONTACT: Final = words(
    r"\b(?:(?P<double>double[- ]make|twin[- ]output|dual[- ]output)|(?P<changeover>change-?over|SPDT)"
    r"|(?P<break>break|normally closed|NC)|(?P<make>make|normally open|NO|SPST))(?: contact)?\b"
)
_COIL: Final = words(
    r"\b(?:with (?:a )?)?(?:(?P<diode>diode)|(?P<resistor>resistor)|(?P<plain>plain|unsuppressed|no (?:diode|suppression)))\b"
)
_SIZE: Final = words(r"\b(?:ISO )?(?P<s>mini|micro)\b")
_PINS: Final = words(r"\b[2-6][- ](?:pin|way)s?\b")
_TERMINAL: Final = words(
    r"(?<![\w.,+])(?P<t>30|85|86|87[ab]?|88|W[12]|C[123])(?![\w.,])(?!(?:/\d+)?\s?(?:(?-i:A)|amps?)(?!\w))"
)
_FLASHER_TERMINAL: Final = words(r"(?<![\w.,])(?P<t>49a?|31|C[23]?|[BLPXE])(?![\w.,])")
_WORKS: Final = words(r"\b(?:(?P<hot>hot[- ]wire|thermal|bimetal)|(?P<electronic>electronic))\b")
_FILLING: Final = words(r"\b(?:and|with|pins?|terminals?|blades?|ISO|old|british)\b|[,;/&]")
_ORDER: Final = ("49", "49a", "31", "C", "C2", "C3")


class Relay(NamedTuple):
    """A relay as a text says it; what is not said is empty. `amps` are those of the make contact."""

    name: str
    contact: str
    size: str
    layout: str
    volts: int | None = None
    amps: Decimal | None = None
    coil: str = ""
    rows: tuple[TableRow, ...] = ()


class Flasher(NamedTuple):
    """A flasher: its terminals by their numbers, volts, watts of lamps it is made for, how it works."""

    name: str
    terminals: tuple[str, ...]
    volts: int | None = None
    watts: Decimal = Decimal(0)
    works: str = ""
    rows: tuple[TableRow, ...] = ()


def read_relay(text: str, standards: Standards) -> Relay | Unreadable:
    """The relay a text names; five pins by themselves say nothing of the middle one.

    Where the layout is not said it is refused with both: a wrong one smokes.
    """
    said = Words(text)
    if said.too_long or said.take(_FLASHER) or not said.take(_RELAY):
        return Unreadable(text, "relay-unknown", expected=RELAYS)
    volts, amps, layout = said.take(_VOLTS), said.take(_AMPS), said.take(_LAYOUT)
    coil, contact, shell = said.take(_COIL), said.take(_CONTACT), said.take(_SIZE)
    said.take(_PINS)
    terminals = _all(said, _TERMINAL)
    while said.take(_FILLING):
        pass
    if said.bare() or not (contact or terminals or layout or coil):
        return Unreadable(text, "relay-unknown", expected=RELAYS)
    named = (contact.lastgroup or "").replace("double", "double make") if contact else ""
    shown = _contact([_number(one, standards) for one in terminals]) if terminals else named
    if (terminals and not shown) or (named and named != shown):
        return Unreadable(text, "relay-clash", expected=RELAYS)
    relay = Relay(
        "",
        shown,
        shell["s"].lower() if shell else "",
        (layout["l"] or layout["after"]).upper() if layout else "",
        int(volts["v"]) if volts else None,
        size(amps["rest"] or amps["n"]) if amps else None,
        (coil.lastgroup or "") if coil else "",
        standards.table("relay-contacts").find(contact=shown),
    )
    if not relay.contact:
        return Unreadable(text, "relay-unknown", expected=RELAYS)
    if not relay.layout:
        readings = tuple(_relay_name(relay._replace(layout=layout)) for layout in ("A", "B"))
        return Unreadable(text, "relay-no-layout", readings, readings)
    return relay._replace(name=_relay_name(relay))


def read_flasher(text: str, standards: Standards) -> Flasher | Unreadable:
    """The flasher a text names, its terminals by number or old letter."""
    said = Words(text)
    if said.too_long or not said.take(_FLASHER):
        return Unreadable(text, "flasher-unknown", expected=FLASHERS)
    volts, load, works = said.take(_VOLTS), said.take(_LOAD), said.take(_WORKS)
    said.take(_PINS)
    terminals = [_number(one, standards) for one in _all(said, _FLASHER_TERMINAL)]
    while said.take(_FILLING):
        pass
    if said.bare() or len(set(terminals)) < 2:
        return Unreadable(text, "flasher-unknown", expected=FLASHERS)
    if not load:
        return Unreadable(text, "flasher-no-load", expected=FLASHERS)
    how = {"hot": "hot wire", "electronic": "electronic"}.get(works.lastgroup or "", "") if works else ""
    flasher = Flasher(
        "",
        tuple(one for one in _ORDER if one in terminals),
        int(volts["v"]) if volts else None,
        _watts(load),
        how,
        standards.table("flasher-works").find(works=how),
    )
    return flasher._replace(name=_flasher_name(flasher))


def _all(said: Words, pattern: re.Pattern[str]) -> list[str]:
    found = []
    while match := said.take(pattern):
        found.append(match["t"])
    return found


def _number(text: str, standards: Standards) -> str:
    """The number of a terminal by itself or by its old letter."""
    letter = text.upper() if text[0].isalpha() else text.lower()
    rows = standards.table("terminal-british").find(letter=letter)
    return rows[0].word("number").split(",")[0] if rows else letter


def _contact(numbers: list[str]) -> str:
    """What the contacts do, by which terminals there are; nothing where that says nothing."""
    if "87a" in numbers:
        return "changeover" if "87" in numbers else "break"
    if "87b" in numbers or numbers.count("87") > 1:
        return "double make"
    return "make" if "87" in numbers else ""


def _watts(load: re.Match[str]) -> Decimal:
    """The watts that flash: the big lamps and the repeater."""
    return Decimal(load["n"]) * Decimal(load["w"]) + Decimal(load["m"] or 1) * Decimal(load["x"] or 0)


def _relay_name(relay: Relay) -> str:
    parts = [
        relay.size,
        relay.contact,
        "relay",
        f"layout {relay.layout}" if relay.layout else "",
        f"{relay.volts} V" if relay.volts else "",
        f"{plain(relay.amps)} A" if relay.amps else "",
        relay.coil,
    ]
    return " ".join(part for part in parts if part)


def _flasher_name(flasher: Flasher) -> str:
    parts = [
        "flasher",
        *flasher.terminals,
        f"{flasher.volts} V" if flasher.volts else "",
        f"{_lamps(flasher.watts)} W" if flasher.watts else "",
        flasher.works,
    ]
    return " ".join(part for part in parts if part)


def _lamps(watts: Decimal) -> str:
    """Watts as lamps of 21 W and what is left for a repeater, as they are marked."""
    big, rest = divmod(watts, 21)
    if not 1 <= big <= 9 or rest > 20:
        return f"1x{plain(watts)}"
    return f"{plain(big)}x21" + (f"+{plain(rest)}" if rest else "")
