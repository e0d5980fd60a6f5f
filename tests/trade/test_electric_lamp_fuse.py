"""Lamps and fuses: as people write them, and what goes for what."""

from __future__ import annotations

import pytest

from fitlore.report.sentences import say
from tests.trade.families import ask, normal, refused


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("p21w", "P21W"), ("P 21 W", "P21W"), ("12 V P21/5W", "P21/5W 12 V"), ("p 21/4 w", "P21/4W"), ("H4 60/55 W", "H4"),
        ("H4 100/90 W", "H4 100/90 W"), ("H7 24V", "H7 24 V"), ("w2,1 × 9,5d 5W", "W2.1x9.5d 5 W"), ("LED P21W", "P21W LED"),
        ("BA15s, 12V 21W amber", "BA15s 12 V 21 W amber"), ("SV8.5-8 36 mm 5 W", "SV8.5 36 mm 5 W"), ("C5W 36 mm", "C5W 36 mm"),
        ("P45t-41 45/40 W", "P45t 45/40 W"), ("bulb 382", "P21W"), ("380 bulb", "P21/5W"), ("capless bulb W5W", "W5W"),
        ("WY 5 W", "WY5W"), ("hb 3", "HB3"), ("P21W clear", "P21W"), ("bulb BAY15D 21/5W", "BAY15d 21/5 W"),
    ],
)  # fmt: skip
def test_a_lamp_is_read_in_many_spellings(text: str, read: str) -> None:
    """Case, spaces, decimal commas, crosses and the length of a skirt mean nothing."""
    assert normal("lamp", text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [("P21W BAY15d", "lamp-clash"), ("P99W", "lamp-unlisted"), ("bulb 999", "lamp-unlisted"), ("21 W", "lamp-unknown"),
     ("P21W 36 mm", "lamp-unknown"), ("382", "lamp-unknown"), ("W5W and a note", "lamp-unknown")],
)  # fmt: skip
def test_what_is_no_lamp_or_two_is_refused(text: str, reason: str) -> None:
    """A category with another's cap, an unlisted one, watts alone."""
    assert refused("lamp", text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        # F4 of the cases: lamps that go in and are wrong. Caps after IEC 60061-1, categories after UN R37.
        ("P21W", "R10W", "trap", "lamp-power-under"),
        ("R10W", "P21W", "trap", "lamp-power-over"),
        ("P21/5W", "P21/4W", "trap", "lamp-cap-trap"),
        ("P21/4W", "P21/5W", "trap", "lamp-cap-trap"),
        ("P21W", "PY21W", "trap", "lamp-cap-trap"),
        ("PY21W", "P21W", "trap", "lamp-colour"),
        ("P21/5W", "BA15d 21/5 W", "trap", "lamp-cap-trap"),
        ("PY21/5W", "P21/5W", "trap", "lamp-cap-trap"),
        ("W5W", "WY5W", "trap", "lamp-colour"),
        ("WY5W", "W5W", "trap", "lamp-colour"),
        ("WY5W", "W5W amber", "ok", "electric-agrees"),
        ("H4", "R2", "trap", "lamp-cap-trap"),
        ("R2", "H4", "trap", "lamp-cap-trap"),
        ("H4", "HS1", "trap", "lamp-cap-trap"),
        ("H4", "H4 100/90 W", "trap", "lamp-power-over"),
        ("H4", "HB4", "off", "lamp-cap-off"),
        ("H8", "H11", "trap", "lamp-power-over"),
        ("H11", "H9", "trap", "lamp-cap-trap"),
        ("H1", "H3", "off", "lamp-cap-off"),
        ("P21W 12 V", "P21W 24 V", "trap", "lamp-volts-high"),
        ("P21W 12 V", "P21W 6 V", "trap", "lamp-volts-low"),
        ("P21W 12 V", "P21W", "unreadable", "electric-not-said"),
        ("P21W", "P21W 24 V", "unreadable", "electric-not-said"),
        ("P21W", "P21W 12 V", "unreadable", "electric-not-said"),  # of which car, 6, 12 or 24 V?
        ("P21W", "P21W 6 V", "unreadable", "electric-not-said"),
        ("P21W 24 V", "12 V P21W", "trap", "lamp-volts-low"),
        ("P21W", "BA15s", "unreadable", "electric-not-said"),
        ("BA15s", "P21W", "unreadable", "electric-not-said"),
        ("BA15s 21 W", "P21W", "ok", "electric-agrees"),
        ("BA15s", "BAU15s", "trap", "lamp-cap-trap"),
        ("P43t", "P45t", "trap", "lamp-cap-trap"),
        ("SV8.5 36 mm 5 W", "SV8.5 41 mm 5 W", "off", "lamp-length-off"),
        ("SV8.5 36 mm 5 W", "SV8.5 38 mm 5 W", "ok-with-work", "lamp-length-bend"),
        ("SV8.5 36 mm 5 W", "C5W", "ok", "electric-agrees"),
        ("SV8.5 36 mm 5 W", "SV8.5 5 W", "unreadable", "electric-not-said"),
        ("P21W", "LED P21W", "trap", "lamp-led"),
        ("LED P21W", "P21W", "unreadable", "electric-not-said"),
    ],
)
def test_a_lamp_for_a_lamp(needed: str, offered: str, state: str, code: str) -> None:
    """The cap lets it in; watts, volts, colour and length say whether it may stay (common practice where unnamed)."""
    result = ask("lamp", needed, offered)
    assert (result.state.value, code in {step.code for step in result.because.under}) == (state, True)


def test_a_trap_of_lamps_tells_how_they_are_told_apart() -> None:
    """Both caps are described: where the pins stand, how many contacts."""
    steps = [step for _, step in ask("lamp", "P21W", "PY21W").because.walk() if step.code == "lamp-tell-cap"]
    told = "; ".join(say(step) for step in steps)
    assert "150 degrees" in told
    assert "180 degrees" in told


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("blade 10 A", "blade 10 A"), ("10 amp blade fuse", "blade 10 A"), ("7,5 A mini blade fuse", "mini blade 7.5 A"),
        ("red blade fuse", "blade 10 A"), ("red maxi blade", "maxi blade 50 A"), ("white 8A ceramic", "torpedo 8 A"),
        ("torpedo 8 A", "torpedo 8 A"), ("glass 35 A blows", "glass 35 A blows"), ("strip 50 A", "strip 50 A"),
        ("glass fuse 35 amp blow 30 mm", "glass 6.3x29.4 35 A blows"), ("glass white", "glass 35 A blows"),
        ("glass 1/4 x 1 1/4 in carries 15 A", "glass 6.3x32 carries 15 A"),
        ("glass 5x20 carries 2 A slow", "glass 5x20 carries 2 A slow"), ("low-profile mini 15A", "low mini blade 15 A"),
    ],
)  # fmt: skip
def test_a_fuse_is_read_in_many_spellings(text: str, read: str) -> None:
    """Form, figure, colour and what the figure means."""
    assert normal("fuse", text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [("35A glass", "fuse-basis"), ("ceramic red 8 A", "fuse-colour"), ("blade 12 A", "fuse-unlisted"),
     ("blade 10 A blows", "fuse-blows"), ("fuse 10 A", "fuse-unknown"), ("10 A", "fuse-unknown"),
     ("glass 35 A blows carries 30 A", "fuse-clash")],
)  # fmt: skip
def test_a_fuse_that_says_too_little_or_two_things_is_refused(text: str, reason: str) -> None:
    """A glass one without its basis has two readings, each of which can be read."""
    assert refused("fuse", text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("glass 35 A blows", "glass carries 35 A", "trap", "fuse-basis-over"),  # 17.5 A against 35 A
        ("glass 35 A blows", "blade 35 A", "trap", "fuse-basis-over"),
        ("glass carries 15 A", "glass 15 A blows", "trap", "fuse-basis-under"),
        ("glass 35 A blows", "blade 15 A", "off", "fuse-holder"),
        ("glass 35 A blows", "blade 20 A", "off", "fuse-next-step"),
        ("glass 35 A", "blade 15 A", "unreadable", ""),
        ("torpedo 8 A", "blade 7.5 A", "off", "fuse-holder"),
        ("blade 7.5 A", "torpedo 8 A", "off", "fuse-holder"),
        ("blade 10 A", "glass carries 10 A", "off", "fuse-holder"),
        ("torpedo 8 A", "blade 10 A", "off", "fuse-next-step"),
        ("torpedo 8 A", "blade 15 A", "trap", "fuse-over"),
        ("torpedo 8 A", "torpedo 16 A", "trap", "fuse-over"),
        ("torpedo 16 A", "torpedo 8 A", "off", "fuse-under"),
        ("blade 10 A", "blade 15 A", "trap", "fuse-over"),
        ("blade 10 A", "blade 7.5 A", "off", "fuse-under"),
        ("blade 10 A", "blade red", "ok", ""),
        ("blade 10 A", "mini blade 10 A", "off", "fuse-form-off"),
        ("glass 6.3x29.4 carries 15 A", "glass 6.3x32 carries 15 A", "ok-with-work", "fuse-clips"),
        ("glass 6.3x32 carries 15 A", "glass carries 15 A", "unreadable", "electric-not-said"),
        ("glass 5x20 carries 2 A quick", "glass 5x20 carries 2 A slow", "trap", "fuse-too-slow"),
        ("glass 5x20 carries 2 A slow", "glass 5x20 carries 2 A quick", "off", "fuse-too-quick"),
        ("glass 5x20 carries 2 A", "glass 6.3x32 carries 2 A", "off", "fuse-form-off"),
    ],
)
def test_a_fuse_for_a_fuse(needed: str, offered: str, state: str, code: str) -> None:
    """Never above what the circuit was given; the basis of the figure is the trap (common practice)."""
    result = ask("fuse", needed, offered)
    assert result.state.value == state
    assert not code or code in {step.code for step in result.because.under}
