"""Texts into senders: two ends of a scale in ohms, or two temperatures; and into contacts."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import Words, size, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

EXAMPLES: Final = (
    "fuel sender 240-33 ohm",
    "sender 10-180 ohm",
    "temperature sender 20 C 2500 ohm 80 C 300 ohm",
)
CONTACTS: Final = (
    "free open",
    "free closed",
    "brake pedal, open at rest",
    "oil pressure switch, closed at rest",
)
_NUM: Final = r"\d{1,5}(?:[.,]\d{1,2})?"
_OHM: Final = r"\s?(?P<{k}k>k)?\s?(?:ohms?|Ω)"
_SUBJECT: Final = words(
    r"\b(?:(?P<fuel>fuel|tank)|(?P<temperature>(?:coolant |water |oil )?temp(?:erature)?|NTC"
    r"|PTC)|(?P<pressure>oil(?: pressure)?))\b"
)
_WORD: Final = words(r"\b(?:sender|sensor|sending unit|gauge unit)\b")
_SWITCH: Final = words(r"\bswitch\b")
_ENDS: Final = words(
    rf"(?<![\w.,/-])(?P<a>{_NUM})(?:\s?(?:ohms?|Ω))?\s?(?:-|to)\s?(?P<b>{_NUM})" + _OHM.format(k="x")
)
_LOW: Final = words(
    rf"(?:(?:empty|no pressure)\s?(?P<n>{_NUM}){_OHM.format(k='x')}|(?P<after>{_NUM}){_OHM.format(k='y')}\s?(?:at "
    rf")?(?:empty|no pressure)\b)"
)
_HIGH: Final = words(
    rf"(?:full(?: pressure)?\s?(?P<n>{_NUM}){_OHM.format(k='x')}|(?P<after>{_NUM}){_OHM.format(k='y')}\s?(?:at "
    rf")?full(?: pressure)?\b)"
)
_POINT: Final = words(
    rf"(?<![\w.,])(?P<t>-?\d{{1,3}})\s?(?:degrees? )?(?:deg )?C(?:elsius)?\s?[:=,]?\s?(?P<n>{_NUM}){_OHM.format(k='x')}"
    rf"|(?<![\w.,])(?P<m>{_NUM}){_OHM.format(k='y')}\s?(?:at )?(?P<u>-?\d{{1,3}})\s?(?:degrees? )?(?:deg )?C(?:elsius)?\b"
)
_STABLE: Final = words(
    r"\b(?:for )?(?:a )?(?P<v>10|12)\s?V(?:olts?)?(?: (?:stabilised|stabilized|gauge|supply))?"
)
_FILLING: Final = words(r"\b(?:at|for|and|ohms?)\b|[,;]")
_FREE: Final = words(
    r"\b(?:(?:free|unpressed|on the bench)[ :]*(?P<state>open|closed|changeover)|(?P<after>open"
    r"|closed|changeover) (?:when |while )?(?:free|unpressed|not pressed|on the bench))\b"
)
_REST: Final = words(
    r"\b(?P<state>open|closed) (?:at rest|in the car at rest|with (?:the )?(?:engine|ignition) "
    r"(?:stopped|off)|with the pedal up|without pressure)\b"
)
_PRESSED: Final = words(
    r"\b(?P<state>open|closed|opens|closes|makes|breaks) (?:when |while |under )?(?:pressed|pressure)\b"
)
_NORMALLY: Final = words(r"\b(?:normally (?P<state>open|closed)|(?P<short>N/?O|N/?C))\b")
_CHANGEOVER: Final = words(r"\bchange-?over\b")
_ALONE: Final = words(r"^(?P<state>open|closed)$")
_JOB: Final = words(
    r"\b(?:(?P<pedal>(?:brake|stop)(?: pedal| light| lamp)+|pedal stop lamp)|(?P<hydraulic>(?:brake "
    r")?hydraulic(?: (?:stop|brake) (?:lamp|light))?)"
    r"|(?P<clutch>clutch(?: pedal)?)|(?P<reversing>revers(?:e|ing)(?: (?:lamp|light))?)|(?P<door>door|courtesy(?: light)?)"
    r"|(?P<handbrake>hand-?brake|parking brake)|(?P<oil>oil(?: pressure)?))\b"
)
_JOBS: Final = {
    "pedal": "brake pedal",
    "hydraulic": "brake hydraulic",
    "clutch": "clutch pedal",
    "oil": "oil pressure",
}
_OTHER: Final = {"open": "closed", "closed": "open"}
_STATES: Final = {"opens": "open", "breaks": "open", "closes": "closed", "makes": "closed"}
_KELVIN: Final = 273.15


class Sender(NamedTuple):
    """A sender. `ends` are ohms at the low and the high end of the scale; `points` are degrees C and ohms, the cold one first.

    `switch` is set where it is a contact and no sender at all.
    """

    name: str
    subject: str = ""
    ends: tuple[Decimal, Decimal] | None = None
    points: tuple[tuple[int, Decimal], ...] = ()
    volts: str = ""
    switch: bool = False
    rows: tuple[TableRow, ...] = ()

    def ohms_at(self, degrees: int) -> Decimal:
        """Ohms at a temperature, from the two points: R = R1 exp(B (1/T - 1/T1)), the rule of one constant B."""
        (cold, one), (hot, two) = self.points[0], self.points[-1]
        first, second, wanted = cold + _KELVIN, hot + _KELVIN, degrees + _KELVIN
        constant = math.log(float(one / two)) / (1 / first - 1 / second)
        return Decimal(str(float(one) * math.exp(constant * (1 / wanted - 1 / first))))


class Contact(NamedTuple):
    """A contact by its state with nothing pressing on it, and its job where that is said."""

    name: str
    free: str
    job: str = ""
    rows: tuple[TableRow, ...] = ()


def read_sender(text: str, standards: Standards) -> Sender | Unreadable:
    """The sender a text names: ohms at both ends, or at two temperatures."""
    said = Words(text)
    if said.too_long:
        return _unknown(text)
    points = []
    while match := said.take(_POINT):
        points.append(
            (int(match["t"] or match["u"]), _ohms(match["n"] or match["m"], match["xk"] or match["yk"]))
        )
    ends, low, high = said.take(_ENDS), said.take(_LOW), said.take(_HIGH)
    word, switch, subject, volts = (
        said.take(_WORD),
        said.take(_SWITCH),
        said.take(_SUBJECT),
        said.take(_STABLE),
    )
    while said.take(_SUBJECT) or said.take(_FILLING):
        pass
    given = bool(points or ends or low or high)
    if said.bare() or not (given or (switch and subject)) or (switch and (given or word)):
        return _unknown(text)
    if (low is None) != (high is None) or (len(points) == 1 and not ends):
        return Unreadable(text, "sender-one-end", expected=EXAMPLES)
    pair = (_ohms(ends["a"], ends["xk"]), _ohms(ends["b"], ends["xk"])) if ends else None
    if low and high:
        ends_of = [_ohms(end["n"] or end["after"], end["xk"] or end["yk"]) for end in (low, high)]
        pair = (ends_of[0], ends_of[1])
    if (pair and pair[0] == pair[1]) or (
        points and len({ohms for _, ohms in points} - {Decimal(0)}) != len(points)
    ):
        return Unreadable(text, "sender-one-end", expected=EXAMPLES)
    rows = standards.table("sender-ranges").find(low=plain(pair[0]), high=plain(pair[1])) if pair else ()
    sender = Sender(
        "",
        (subject.lastgroup or "").replace("pressure", "oil pressure") if subject else "",
        pair,
        tuple(sorted(points)),
        f"{volts['v']} V" if volts else "",
        bool(switch),
        rows,
    )
    return sender._replace(name=_sender_name(sender))


def read_contact(text: str, standards: Standards) -> Contact | Unreadable:
    """The contact a text names. `Normally open` of a switch that is pressed at rest may mean either, and is refused."""
    said = Words(text)
    job, free, rest = said.take(_JOB), said.take(_FREE), said.take(_REST)
    pressed, normally = said.take(_PRESSED), said.take(_NORMALLY)
    double = said.take(_CHANGEOVER) if not free else None
    alone = None if job or free or rest or pressed or normally or double else said.take(_ALONE)
    while said.take(_SWITCH) or said.take(words(r"\b(?:contact|contacts|normally)\b|[,;:]")):
        pass
    found = [one for one in (free, rest, pressed, normally, double, alone) if one]
    if said.too_long or said.bare() or len(found) != 1:
        return Unreadable(text, "switch-contact-unknown", expected=CONTACTS)
    named = _JOBS.get(job.lastgroup or "", job.lastgroup or "") if job else ""
    rows = standards.table("switch-jobs").find(job=named) if named else ()
    held = bool(rows) and rows[0].word("pressed") == "yes"
    if double or (free and "changeover" in (free["state"], free["after"])):
        state = "changeover"
    elif normally:
        state = (normally["state"] or {"O": "open", "C": "closed"}[normally["short"][-1].upper()]).lower()
        if held:
            readings = tuple(_contact_name(named, one) for one in (state, _OTHER[state]))
            return Unreadable(text, "switch-contact-normally", readings, readings)
    elif rest:
        if not rows:
            return Unreadable(text, "switch-contact-job", expected=CONTACTS)
        state = _OTHER[rest["state"].lower()] if held else rest["state"].lower()
    elif pressed:
        word = pressed["state"].lower()
        state = _OTHER[_STATES.get(word, word)]
    else:
        state = next(
            part for part in (found[0].groupdict().get("state"), found[0].groupdict().get("after")) if part
        )
    return Contact(_contact_name(named, state.lower()), state.lower(), named, rows)


def _ohms(text: str, kilo: str | None) -> Decimal:
    return size(text) * (1000 if kilo else 1)


def _sender_name(sender: Sender) -> str:
    parts = [sender.subject, "switch" if sender.switch else "sender"]
    if sender.ends:
        parts.append(f"{plain(sender.ends[0])}-{plain(sender.ends[1])} ohm")
    parts += [f"{degrees} C {plain(ohms)} ohm" for degrees, ohms in sender.points]
    return " ".join(part for part in [*parts, sender.volts] if part)


def _contact_name(job: str, free: str) -> str:
    return f"{job}, free {free}" if job else f"free {free}"


def _unknown(text: str) -> Unreadable:
    return Unreadable(text, "sender-unknown", expected=EXAMPLES)
