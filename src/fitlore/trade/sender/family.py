"""Senders and switches as families: the same ohms at the same end, the same contact at the same moment."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.held import Held
from fitlore.trade.pieces import PRACTICE, question
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sender.reading import Contact, Sender, read_contact, read_sender
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import plain

PLAY: Final = Decimal("0.08")
"""By which share of the gauge's span an end may be off; a needle's width and the sender's own spread. Common practice."""
WARM: Final = Decimal("0.12")
"""By which share of the ohms a temperature sender may be off; about 3 degrees. Common practice."""


class SenderFamily:
    """The family of kind `sender`. Needed: what the gauge or the control unit was made for. Offered: the sender."""

    about = About(
        title="senders",
        standards=("DIN 72552", "IEC 60539-1"),
        spellings=(
            "fuel sender 240-33 ohm",
            "tank sender 10 - 180 Ω",
            "73 to 10 ohms",
            "fuel 240 ohm empty, 33 ohm full",
            "oil pressure sender 10-180 ohm",
            "temperature sender 20 C 2500 ohm 80 C 300 ohm",
            "NTC 2,5 kohm at 20 C, 0.3 kohm at 80 C",
            "oil pressure switch",
            "fuel sender 240-33 ohm 12 V",
        ),
        not_said=("the thread and how it seals", "the length of the arm", "whether the thread is its earth"),
        gaps=("senders with two outlets", "capacitive and pulse senders", "the ranges of most gauges"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The sender in one spelling, its low end first."""
        found = read_sender(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found.name)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: a meter tells it, not a caliper."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """A contact in a sender's place, another direction, another range: all of them screw in and tell lies."""
        wanted, had = read_sender(needed, standards), read_sender(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("sender", wanted.name, had.name)
        if wanted.subject and had.subject and wanted.subject != had.subject:
            held.add("what it tells", FamilyState.OFF, "sender-subject", {"subject": had.subject})
        elif wanted.switch != had.switch:
            code = "sender-is-switch" if had.switch else "sender-no-switch"
            tells = (Because("sender-tell-switch", {}, sources=(PRACTICE,)),)
            held.add("kind", FamilyState.TRAP, code, under=tells)
        else:
            _subject(held, wanted, had)
            _ends(held, wanted, had)
            _points(held, wanted, had)
            if wanted.volts and had.volts and wanted.volts != had.volts:
                values = {"needed-volts": wanted.volts, "offered-volts": had.volts}
                held.add("supply", FamilyState.TRAP, "sender-volts", values)
        return held.result()


def _subject(held: Held, wanted: Sender, had: Sender) -> None:
    if held.asks("what it tells", wanted.subject, had.subject, "where it came out of"):
        held.agrees("what it tells", had.subject)
    elif not wanted.subject and had.subject:
        held.unsaid("what it tells", "where the old one came out of: a tank, an oil gallery, a water jacket")


def _ends(held: Held, wanted: Sender, had: Sender) -> None:
    if not held.asks("ohms at both ends", wanted.ends, had.ends, "a meter on it, float down and float up"):
        return
    if wanted.ends is None or had.ends is None:
        return
    low, high = wanted.ends
    span = high - low
    off = max(abs(had.ends[0] - low), abs(had.ends[1] - high)) / abs(span)
    rows = (*wanted.rows, *had.rows)
    values = {
        "needed-range": f"{plain(low)} to {plain(high)} ohm",
        "offered-range": f"{plain(had.ends[0])} to {plain(had.ends[1])} ohm",
        "at-low": _shows(had.ends[0], low, span),
        "at-high": _shows(had.ends[1], low, span),
    }
    if off <= PLAY:
        held.agrees("ohms", values["offered-range"], rows)
        return
    tells = (Because("sender-tell-ohms", values, sources=(PRACTICE,)),)
    backwards = (had.ends[1] - had.ends[0]) * span < 0
    held.add(
        "ohms",
        FamilyState.TRAP,
        "sender-backwards" if backwards else "sender-range",
        values,
        rows,
        under=tells,
    )


def _shows(ohms: Decimal, low: Decimal, span: Decimal) -> str:
    """Where an even gauge's needle stands, in per cent of its scale, kept on the scale."""
    share = (ohms - low) / span
    return f"{max(Decimal(0), min(Decimal(1), share)) * 100:.0f} %"


def _points(held: Held, wanted: Sender, had: Sender) -> None:
    if not held.asks(
        "ohms at two temperatures", wanted.points, had.points, "a meter on it, cold and in hot water"
    ):
        return
    falls, own = (sender.points[0][1] > sender.points[-1][1] for sender in (wanted, had))
    values = {"needed-points": _told(wanted), "offered-points": _told(had)}
    if falls != own:
        values["way"] = "falls" if falls else "rises"
        tells = (Because("sender-tell-warm", values, sources=(PRACTICE,)),)
        held.add("direction", FamilyState.TRAP, "sender-warm-backwards", values, under=tells)
        return
    shares = [abs(wanted.ohms_at(degrees) / ohms - 1) for degrees, ohms in had.points]
    if max(shares) <= WARM:
        held.agrees("ohms", values["offered-points"])
    else:
        values["off"] = f"{max(shares) * 100:.0f} %"
        tells = (Because("sender-tell-warm", values, sources=(PRACTICE,)),)
        held.add("ohms", FamilyState.TRAP, "sender-warm-range", values, sources=("IEC 60539-1",), under=tells)


def _told(sender: Sender) -> str:
    return ", ".join(f"{plain(ohms)} ohm at {degrees} C" for degrees, ohms in sender.points)


class ContactFamily:
    """The family of kind `switch-contact`. Needed: what the circuit is wired for. Offered: the switch."""

    about = About(
        title="contacts of switches",
        standards=("common practice",),
        spellings=(
            "free open",
            "free: closed",
            "normally open",
            "N/C switch",
            "closed when pressed",
            "brake pedal switch, open at rest",
            "door switch closed when free",
            "oil pressure switch, closed with engine stopped",
            "oil pressure switch opens under pressure",
            "reversing light switch normally open",
            "changeover switch",
        ),
        not_said=(
            "at which travel or pressure it switches",
            "the current it bears",
            "thread, reach and plug",
        ),
        gaps=("switches of several positions",),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The contact with nothing pressing on it, whatever the text calls rest; the job before it where it is said."""
        found = read_contact(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found.name)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: a meter tells it, not a caliper."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """The same, the opposite (which fits and works backwards), or both."""
        wanted, had = read_contact(needed, standards), read_contact(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("switch-contact", wanted.name, had.name)
        _job(held, wanted, had)
        values = {"needed-free": wanted.free, "offered-free": had.free}
        if wanted.free == had.free:
            held.agrees("contact", f"free {had.free}")
        elif had.free == "changeover":
            held.add("contact", FamilyState.OK_WITH_WORK, "switch-contact-both", values)
        elif wanted.free == "changeover":
            held.add("contact", FamilyState.OFF, "switch-contact-half", values)
        else:
            tells = (Because("switch-contact-tell", values, sources=(PRACTICE,)),)
            held.add("contact", FamilyState.TRAP, "switch-contact-backwards", values, under=tells)
        return held.result()


def _job(held: Held, wanted: Contact, had: Contact) -> None:
    """A switch for another job has another travel or pressure; where one side leaves its job unsaid, it is a question."""
    if not wanted.job and not had.job:
        return
    if not wanted.job or not had.job:
        whose = "the old one" if had.job else "that one"
        held.unsaid("job", f"what {whose} is for: pedal, handbrake, gearbox, door, oil pressure")
    elif wanted.job != had.job:
        rows = (*wanted.rows, *had.rows)
        held.add("job", FamilyState.OFF, "switch-contact-job-off", {"job": had.job}, rows)
    else:
        held.agrees("job", had.job, (*wanted.rows, *had.rows))


FAMILIES: Final = {"sender": SenderFamily(), "switch-contact": ContactFamily()}
