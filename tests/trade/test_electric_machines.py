"""Senders, switches, ignition coils and batteries: as people write them, and what goes for what."""

from __future__ import annotations

import pytest

from tests.trade.families import ask, normal, refused

_WARM = "temperature sender 20 C 2500 ohm 80 C 300 ohm"


@pytest.mark.parametrize(
    ("kind", "text", "read"),
    [
        ("sender", "fuel 240 ohm empty, 33 ohm full", "fuel sender 240-33 ohm"), ("sender", "73 to 10 ohms", "sender 73-10 ohm"),
        ("sender", "tank sender 10 - 180 Ω", "fuel sender 10-180 ohm"),
        ("sender", "NTC 2,5 kohm at 20 C, 0.3 kohm at 80 C", _WARM),
        ("switch-contact", "normally open", "free open"), ("switch-contact", "N/C switch", "free closed"),
        ("switch-contact", "brake pedal switch, open at rest", "brake pedal, free closed"),
        ("switch-contact", "oil pressure switch opens under pressure", "oil pressure, free closed"),
        ("switch-contact", "oil pressure switch, closed with engine stopped", "oil pressure, free closed"),
        ("switch-contact", "handbrake switch open at rest", "handbrake, free closed"),
        ("switch-contact", "reversing light switch normally open", "reversing, free open"),
        ("ignition-coil", "3,0 ohm coil without ballast", "coil 3 ohm plain"),
        ("ignition-coil", "9 V ballasted coil 1.6 ohm", "coil 1.6 ohm ballast"),
        ("ignition-coil", "ignition coil 3.2 ohm", "coil 3.2 ohm plain"),
        ("battery", "LN2 layout 0 B13", "L2 positive right B13"), ("battery", "battery H5 60Ah", "L2 60 Ah"),
        ("battery", "80d26l", "80D26L"), ("battery", "55B24R(S)", "55B24RS"), ("battery", "ETN 595901085", "ETN 595 901 085"),
        ("battery", "group 24", "BCI 24"), ("battery", "BCI 94R 800 CCA", "BCI 94R 800 A CCA"),
    ],
)  # fmt: skip
def test_it_is_read_in_many_spellings(kind: str, text: str, read: str) -> None:
    """The state of a switch is that with nothing pressing on it, whatever the text calls rest."""
    assert normal(kind, text) == read


@pytest.mark.parametrize(
    ("kind", "text", "reason"),
    [
        ("sender", "fuel sender 240 ohm empty", "sender-one-end"), ("sender", "0-90", "sender-unknown"),
        ("switch-contact", "brake pedal switch normally open", "switch-contact-normally"),
        ("switch-contact", "open at rest", "switch-contact-job"), ("switch-contact", "switch", "switch-contact-unknown"),
        ("ignition-coil", "coil 2.4 ohm", "ignition-coil-kind"), ("ignition-coil", "3 ohm", "ignition-coil-unknown"),
        ("ignition-coil", "coil 1.5 ohm ballast electronic", "ignition-coil-clash"),
        ("battery", "544 059 036", "battery-unknown"), ("battery", "46B99L", "battery-unlisted"),
        ("battery", "60 Ah", "battery-unknown"),
    ],
)  # fmt: skip
def test_what_says_too_little_is_refused(kind: str, text: str, reason: str) -> None:
    """`Normally open` of a switch that is pressed at rest may mean either; ohms between two kinds of coil as well."""
    assert refused(kind, text).reason == reason


@pytest.mark.parametrize(
    ("kind", "needed", "offered", "state", "code"),
    [
        # F6 of the cases: gauge and sender share range and direction.
        ("sender", "fuel sender 240-33 ohm", "fuel sender 33-240 ohm", "trap", "sender-backwards"),
        ("sender", "fuel sender 240-33 ohm", "fuel sender 0-90 ohm", "trap", "sender-backwards"),
        ("sender", "fuel sender 0-190 ohm", "fuel sender 0-90 ohm", "trap", "sender-range"),
        ("sender", "oil pressure sender 240-33 ohm", "oil pressure sender 120-16 ohm", "trap", "sender-range"),  # two stations
        ("sender", "fuel sender 73-10 ohm", "fuel sender 70-10 ohm", "ok", "electric-agrees"),
        ("sender", "oil pressure sender 10-180 ohm", "oil pressure switch", "trap", "sender-is-switch"),
        ("sender", "oil pressure switch", "oil pressure sender 10-180 ohm", "trap", "sender-no-switch"),
        ("sender", "fuel sender 240-33 ohm", "oil pressure sender 240-33 ohm", "off", "sender-subject"),
        ("sender", "fuel sender 240-33 ohm 10 V", "fuel sender 240-33 ohm 12 V", "trap", "sender-volts"),
        ("sender", _WARM, "temperature sender 20 C 300 ohm 80 C 2500 ohm", "trap", "sender-warm-backwards"),
        ("sender", _WARM, "temperature sender 20 C 700 ohm 80 C 90 ohm", "trap", "sender-warm-range"),
        ("sender", _WARM, "temperature sender 25 C 2057 ohm 80 C 300 ohm", "ok", "electric-agrees"),
        ("sender", _WARM, "fuel sender 240-33 ohm", "off", "sender-subject"),
        ("switch-contact", "free open", "free closed", "trap", "switch-contact-backwards"),
        ("switch-contact", "brake pedal, open at rest", "brake pedal, free open", "trap", "switch-contact-backwards"),
        ("switch-contact", "brake pedal, open at rest", "free closed", "unreadable", "electric-not-said"),
        ("switch-contact", "free closed", "door switch free closed", "unreadable", "electric-not-said"),
        ("switch-contact", "free open", "handbrake switch free closed", "trap", "switch-contact-backwards"),
        ("switch-contact", "free open", "changeover", "ok-with-work", "switch-contact-both"),
        ("switch-contact", "changeover", "free open", "off", "switch-contact-half"),
        ("switch-contact", "door switch free closed", "reversing switch free closed", "off", "switch-contact-job-off"),
        ("ignition-coil", "coil 3 ohm plain", "coil 1.5 ohm ballast", "trap", "ignition-coil-burns"),
        ("ignition-coil", "coil 1.5 ohm ballast", "coil 0.6 ohm electronic", "trap", "ignition-coil-burns"),
        ("ignition-coil", "coil 1.5 ohm ballast", "coil 3 ohm plain", "ok-with-work", "ignition-coil-bypass"),
        ("ignition-coil", "coil 0.6 ohm electronic", "coil 3 ohm plain", "off", "ignition-coil-weak"),
        ("ignition-coil", "coil 3.2 ohm plain", "coil 2.6 ohm plain", "trap", "ignition-coil-low"),
        ("ignition-coil", "coil 3 ohm plain", "coil 3.2 ohm plain", "ok", "electric-agrees"),
        ("battery", "L2 layout 0", "L2 layout 1", "trap", "battery-layout"),
        ("battery", "L2 positive right", "L2", "unreadable", "electric-not-said"),
        ("battery", "46B24L", "46B24R", "trap", "battery-layout"),
        ("battery", "46B24LS", "46B24L", "trap", "battery-posts-thin"),
        ("battery", "46B24L", "46B24LS", "off", "battery-posts-thick"),
        ("battery", "46B24L", "42B24L", "off", "battery-weak"),
        ("battery", "L1", "L2", "off", "battery-too-big"),
        ("battery", "L2 positive right", "L1 positive right", "ok-with-work", "battery-small"),
        ("battery", "L2 positive right", "LB2 positive right", "ok-with-work", "battery-low"),
        ("battery", "LB2", "L2", "off", "battery-too-big"),
        ("battery", "L2 60 Ah", "L2 54 Ah", "off", "battery-weak"),
        ("battery", "L2 540 A EN positive right", "L2 600 A SAE positive right", "ok", "battery-norms-enough"),
        ("battery", "L2 540 A EN", "L2 540 A SAE", "unreadable", "battery-norms-near"),
        ("battery", "L2 540 A EN", "L2 540 A", "unreadable", "electric-not-said"),
        ("battery", "L2 B13", "L2 B03", "off", "battery-notches"),
        ("battery", "L2 B03 positive right", "L2 B13 positive right", "ok", "electric-agrees"),
        ("battery", "L2 B01", "L2 B00", "off", "battery-ledge-off"),
        ("battery", "L2", "L2 6 V", "off", "battery-volts"),
        ("battery", "ETN 560 408 054", "L2 60 Ah 540 A EN positive right", "unreadable", "electric-not-said"),
    ],
)  # fmt: skip
def test_one_for_another(kind: str, needed: str, offered: str, state: str, code: str) -> None:
    """Direction matters, and what goes in and works wrongly is a trap (common practice where no standard is named)."""
    result = ask(kind, needed, offered)
    assert (result.state.value, code in {step.code for step in result.because.under}) == (state, True)


def test_cold_start_of_two_norms_is_never_more_certain_than_memory() -> None:
    """The ways between norms are rough: such a yes is told as resting on memory."""
    assert (
        ask("battery", "L2 540 A EN positive right", "L2 600 A SAE positive right").certainty.value
        == "memory"
    )
