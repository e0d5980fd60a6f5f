"""Texts into lamps: a category, or a cap with its watts, and what stands beside it."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import Words, size, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

EXAMPLES: Final = ("12 V P21/5W", "H4 60/55 W", "BA15s 21 W", "SV8.5 36 mm 5 W", "bulb 382")
_CAP: Final = words(
    r"(?<![\w.])(?:BA[UWXYZ]?\s?(?:7|9|15)\s?[sd](?:-3)?|SV\s?(?:7|8[.,]5)(?:-8)?"
    r"|W[XY]?\s?\d(?:[.,]\d)?\s?x\s?\d{1,2}(?:[.,]\d)?\s?[dq]|PGJ?\s?(?:13|19|23t?)(?:\s?-\s?\d)?"
    r"|P[XYZK]?\s?\d{2}(?:[.,]5)?[sdt](?:-\d{1,2})?|X511|E\s?10|B8[.,]5d|BX8[.,]4d)(?!\w)"
)
_CATEGORY: Final = words(
    r"(?<![\w.])(?P<letters>HB|HS|HY|PY|PR|RY|WR|WY|H|P|R|T|W|C)\s?"
    r"(?P<figures>\d{1,2}(?:[.,]\d)?(?:\s?/\s?\d{1,2})?)\s?(?P<watts>W(?:/\d)?)(?![\w.,/-])"
)
_HEADLAMP: Final = words(r"(?<![\w.])(?P<letters>HB|HS|H|R)\s?(?P<figures>\d{1,2})(?P<watts>)(?![\w.,/-])")
_NUMBER: Final = words(
    r"(?:bulb|lamp)(?: no| number| type)? (?P<n>\d{3,4})(?!\w)|(?<!\w)(?P<after>\d{3,4}) (?:bulb|lamp)"
)
_VOLTS: Final = words(r"(?<![\w.])(?P<v>6|12|24)\s?V(?:olts?)?(?!\w)")
_POWER: Final = words(r"(?<![\w.])(?P<p>\d{1,3}(?:[.,]\d)?(?:\s?/\s?\d{1,3})?)\s?W(?:atts?)?(?!\w)")
_COLOUR: Final = words(
    r"\b(?:(?P<white>white|clear)|(?P<amber>amber|orange)|(?P<red>red)|(?P<yellow>yellow))\b"
)
_LENGTH: Final = words(r"(?<![\w.])(?P<l>\d{2}(?:[.,]\d)?)\s?mm\b")
_LED: Final = words(r"\bLEDs?\b(?: retrofit)?")
_FILLING: Final = words(r"\b(?:bulbs?|lamps?|festoon|halogen|headlamp|capless|wedge|cap|bayonet)\b")


class Lamp(NamedTuple):
    """A lamp as a text says it. `category` is its row where it names one; `cap` is always known.

    `power` is in watts as marked (`21`, `21/5`), empty where not said; `length` is that of a festoon in mm.
    """

    name: str
    cap: TableRow
    category: TableRow | None = None
    power: str = ""
    volts: int | None = None
    colour: str = ""
    length: Decimal | None = None
    led: bool = False

    @property
    def rows(self) -> tuple[TableRow, ...]:
        """The rows it rests on."""
        return (self.cap,) if self.category is None else (self.category, self.cap)


def read(text: str, standards: Standards) -> Lamp | Unreadable:
    """The lamp a text names. A cap by itself is a lamp of unsaid watts; a cap that is not the category's is refused."""
    said = Words(text)
    if said.too_long:
        return _unknown(text)
    number = said.take(_NUMBER)
    cap = said.take(_CAP)
    named = None if number else said.take(_CATEGORY) or said.take(_HEADLAMP)
    if not (number or cap or named):
        return _unknown(text)
    category = _category(number, named, standards)
    shown = _cap(cap[0], standards) if cap else None
    if (cap and not shown) or ((number or named) and not category):
        return _unlisted(text, standards)
    if category and shown and shown.word("cap") != category.word("cap"):
        return Unreadable(text, "lamp-clash", expected=(category.word("category"), shown.word("cap")))
    own = shown or next(
        iter(standards.table("lamp-caps").find(cap=category.word("cap") if category else "")), None
    )
    return _beside(text, said, category, own, standards) if own else _unknown(text)


def _beside(
    text: str, said: Words, category: TableRow | None, cap: TableRow, standards: Standards
) -> Lamp | Unreadable:
    led, volts, power = said.take(_LED), said.take(_VOLTS), said.take(_POWER)
    length, colour = said.take(_LENGTH), said.take(_COLOUR)
    while said.take(_FILLING):
        pass
    if said.bare() or (length and not cap.word("group").startswith("festoon")):
        return _unknown(text)
    lamp = Lamp(
        "",
        cap,
        category,
        _watts(power["p"]) if power else "",
        int(volts["v"]) if volts else None,
        (colour.lastgroup or "") if colour else "",
        size(length["l"]) if length else None,
        bool(led),
    )
    full = _filled(lamp) if category else lamp
    return full._replace(name=_name(full))


def _filled(lamp: Lamp) -> Lamp:
    """What the category says goes without saying, unless the text says otherwise."""
    row = lamp.category
    assert row is not None
    own = row.word(f"power-{lamp.volts}") if lamp.volts in (6, 24) else ""
    length = lamp.length if lamp.length is not None else row.numbers.get("length")
    return lamp._replace(
        power=lamp.power or own or row.word("power"), colour=lamp.colour or row.word("colour"), length=length
    )


def _name(lamp: Lamp) -> str:
    row = lamp.category
    parts = [row.word("category") if row else lamp.cap.word("cap")]
    if lamp.volts:
        parts.append(f"{lamp.volts} V")
    usual = _filled(lamp._replace(power="", colour="", length=None)) if row else None
    if lamp.length is not None and (usual is None or lamp.length != usual.length):
        parts.append(f"{plain(lamp.length)} mm")
    if lamp.power and (usual is None or lamp.power != usual.power):
        parts.append(f"{lamp.power} W")
    if lamp.colour and (usual is None or lamp.colour != usual.colour):
        parts.append(lamp.colour)
    return " ".join([*parts, "LED"] if lamp.led else parts)


def _category(
    number: re.Match[str] | None, named: re.Match[str] | None, standards: Standards
) -> TableRow | None:
    if number:
        rows = standards.table("lamp-numbers").find(number=number["n"] or number["after"])
        wanted = rows[0].word("category") if rows else ""
    elif named:
        figures = re.sub(r"\s", "", named["figures"]).replace(",", ".")
        wanted = named["letters"].upper() + figures + (named["watts"] or "").upper()
    else:
        return None
    return next(iter(standards.table("lamp-categories").find(category=wanted)), None)


def _cap(text: str, standards: Standards) -> TableRow | None:
    """The cap a text names: spaces, commas, case and the length of its skirt (SV8.5-8, P45t-41) mean nothing."""
    wanted = re.sub(r"\s", "", text).replace(",", ".").casefold()
    names = {row.word("cap").casefold(): row for row in standards.table("lamp-caps").rows}
    return names.get(wanted) or names.get(wanted.rpartition("-")[0])


def _watts(text: str) -> str:
    return re.sub(r"\s", "", text).replace(",", ".")


def _unknown(text: str) -> Unreadable:
    return Unreadable(text, "lamp-unknown", expected=EXAMPLES)


def _unlisted(text: str, standards: Standards) -> Unreadable:
    letters = re.sub(r"[^A-Za-z]", "", text)[:2].casefold()
    listed = [row.word("category") for row in standards.table("lamp-categories").rows]
    near = [name for name in listed if letters and name.casefold().startswith(letters[0])]
    return Unreadable(text, "lamp-unlisted", expected=tuple(near[:4]) or EXAMPLES)
