"""Relays, flashers, terminals and cable: as people write them, and what goes for what."""

from __future__ import annotations

import pytest

from tests.trade.families import ask, normal, refused


@pytest.mark.parametrize(
    ("kind", "text", "read"),
    [
        ("relay", "relay 30 85 86 87 87a 12 V layout A", "changeover relay layout A 12 V"),
        ("relay", "relay 30/85/86/87/87 12V layout B", "double make relay layout B 12 V"),
        ("relay", "SPDT relay 12 V type A", "changeover relay layout A 12 V"),
        ("relay", "changeover relay, 12V, 30/40 A, layout B, with diode", "changeover relay layout B 12 V 40 A diode"),
        ("relay", "relay W1 W2 C1 C2 layout A", "make relay layout A"),
        ("flasher", "flasher B L 12 V 2x21 W hot wire", "flasher 49 49a 12 V 2x21 W hot wire"),
        ("flasher", "flasher unit 12V 4 x 21 W 49a 49 31 C", "flasher 49 49a 31 C 12 V 4x21 W"),
        ("terminal", "6,3 mm blade", "tab 6.3x0.8"), ("terminal", "1/4 in blade terminal", "tab 6.3x0.8"),
        ("terminal", ".250 female", "sleeve 6.3x0.8"), ("terminal", "6.4 mm ring terminal", "ring M6"),
        ("terminal", "3/16 bullet", "bullet 4.7"), ("terminal", "sleeve 4.8 × 0.5", "sleeve 4.8x0.5"),
        ("terminal-number", "Kl. 87a", "terminal 87a"), ("terminal-number", "d+", "terminal D+"),
        ("terminal-number", "old 54L", "terminal 49a"), ("terminal-number", "D+/61", "terminal D+"),
        ("terminal-number", "british C1", "terminal 87"), ("terminal-number", "British C2", "terminal 30"),
        ("cable", "2,5 mm²", "2.5 mm2"), ("cable", "AWG 00", "AWG 2/0"), ("cable", "12 AWG", "AWG 12"),
        ("cable", "14/.012 in", "14/0.30"), ("cable", "28 strands of 0.30 mm", "28/0.30"), ("cable", "0.75 sq mm", "0.75 mm2"),
    ],
)  # fmt: skip
def test_it_is_read_in_many_spellings(kind: str, text: str, read: str) -> None:
    """Numbers, old letters, inches and commas come to one normal form."""
    assert normal(kind, text) == read


@pytest.mark.parametrize(
    ("kind", "text", "reason"),
    [
        ("relay", "4-pin relay 12 V 40 A", "relay-unknown"), ("relay", "relay 30 85 86 87 12 V", "relay-no-layout"),
        ("relay", "make relay 30 85 86 87a layout A", "relay-clash"), ("flasher", "flasher 49 49a 12 V", "flasher-no-load"),
        ("flasher", "flasher 12 V", "flasher-unknown"), ("terminal", "4.8 mm tab", "terminal-thickness"),
        ("terminal", "6.3 mm spade", "terminal-spade"), ("terminal", "tab 5 mm", "terminal-unlisted"),
        ("terminal", "M6", "terminal-unknown"), ("terminal-number", "old 15/54", "terminal-number-several"),
        ("terminal-number", "british W1", "terminal-number-several"), ("terminal-number", "4", "terminal-number-unknown"),
        ("cable", "4 mm cable", "cable-mm"), ("cable", "1.6 mm2", "cable-unlisted"), ("cable", "14", "cable-unknown"),
    ],
)  # fmt: skip
def test_what_says_too_little_is_refused_with_what_it_could_be(kind: str, text: str, reason: str) -> None:
    """Every reading that is named can be read by itself."""
    assert refused(kind, text).reason == reason


_A = "relay 12 V layout A"
_HOT = "flasher 49 49a 2x21 W hot wire"


@pytest.mark.parametrize(
    ("kind", "needed", "offered", "state", "code"),
    [
        # F2 of the cases: cubes that plug in and smoke. Terminals after DIN 72552, shells after ISO 7588-1.
        ("relay", "make relay layout A", "make relay layout B", "trap", "relay-layout-trap"),
        ("relay", "make relay layout B", "make relay layout A", "trap", "relay-layout-trap"),
        ("relay", f"changeover {_A}", f"double make {_A}", "trap", "relay-contact-trap"),
        ("relay", f"double make {_A}", f"changeover {_A}", "trap", "relay-contact-trap"),
        ("relay", f"make {_A}", f"break {_A}", "trap", "relay-contact-trap"),
        ("relay", f"make {_A}", f"changeover {_A}", "ok-with-work", "relay-middle-rest"),
        ("relay", f"make {_A}", f"double make {_A}", "ok-with-work", "relay-middle-live"),
        ("relay", f"changeover {_A}", f"make {_A}", "off", "relay-contact-off"),
        ("relay", "make relay layout A diode", "make relay layout A plain", "trap", "relay-coil-plain"),
        ("relay", "make relay layout A plain", "make relay layout A diode", "unreadable", "electric-not-said"),
        ("relay", "make relay layout A diode", "make relay layout A resistor", "ok", "electric-agrees"),
        ("relay", f"make {_A}", "make relay 24 V layout A", "trap", "coil-volts-high"),
        ("relay", "make relay 24 V layout A", f"make {_A}", "trap", "coil-volts-low"),
        ("relay", f"make {_A} 20 A", f"make {_A} 40 A", "ok", "electric-agrees"),
        ("relay", f"make {_A} 40 A", f"make {_A} 20 A", "off", "relay-amps"),
        ("relay", "mini make relay layout A", "micro make relay layout A", "off", "relay-size"),
        ("flasher", "flasher 49 49a C 2x21 W electronic", "flasher 49 49a 2x21 W electronic", "off", "flasher-terminal-missing"),
        ("flasher", _HOT, "flasher 49 49a 31 2x21+5 W electronic", "ok-with-work", "flasher-needs-earth"),
        ("flasher", "flasher 49 49a 31 2x21 W electronic", _HOT, "trap", "flasher-hot-for-electronic"),
        ("flasher", "flasher 49 49a 2x21 W hot wire", "flasher 49 49a 2x18 W hot wire", "trap", "flasher-load-trap"),
        ("flasher", "flasher 49 49a 31 4x21 W electronic", "flasher 49 49a 31 2x21 W electronic", "off", "flasher-load-off"),
        ("terminal", "tab 4.8x0.8", "tab 4.8x0.5", "trap", "terminal-loose"),
        ("terminal", "tab 4.8x0.5", "tab 4.8x0.8", "off", "terminal-tight"),
        ("terminal", "sleeve 4.8x0.5", "sleeve 4.8x0.8", "trap", "terminal-loose"),
        ("terminal", "tab 6.3x0.8", "tab 4.8x0.8", "off", "terminal-size-off"),
        ("terminal", "ring M6", "ring M8", "trap", "terminal-ring-wide"),
        ("terminal", "ring M8", "ring M6", "off", "terminal-size-off"),
        ("terminal", "bullet 5", "bullet 4.7", "trap", "terminal-loose"),
        ("terminal", "tab 6.3x0.8", "sleeve 6.3x0.8", "off", "terminal-form-off"),
        ("cable", "2.5 mm2", "AWG 14", "off", "cable-thin"),  # ASTM B258: 2.08 mm2
        ("cable", "2 mm2", "AWG 14", "ok", "cable-enough"),
        ("cable", "1 mm2", "14/0.30", "ok", "cable-enough"),
        ("cable", "4 mm2", "auto cable 4 mm", "trap", "cable-figure"),
        ("cable", "auto cable 4 mm", "4 mm2", "ok", "cable-enough"),
        ("cable", "16 mm2", "AWG 16", "trap", "cable-figure"),
        ("cable", "1.5 mm2", "1 mm2", "off", "cable-thin"),
        ("cable", "1 mm2", "4 mm2", "ok-with-work", "cable-thick"),
    ],
)  # fmt: skip
def test_one_for_another(kind: str, needed: str, offered: str, state: str, code: str) -> None:
    """Direction matters, and what plugs in alike is a trap (common practice where no standard is named)."""
    result = ask(kind, needed, offered)
    assert (result.state.value, code in {step.code for step in result.because.under}) == (state, True)


@pytest.mark.parametrize(
    ("needed", "offered", "code"),
    [
        ("15", "30", "trap"), ("30", "15", "trap"), ("87", "87a", "trap"), ("49", "49a", "trap"), ("31", "31b", "trap"),
        ("56a", "56b", "trap"), ("D+", "DF", "trap"), ("W", "D+", "trap"), ("50", "50a", "trap"), ("58", "15", "off"),
        ("D+", "D+/61", "same"), ("61", "D+", "equal"), ("B+", "51", "equal"), ("49a", "old 54L", "same"),
        ("30", "british C2", "same"), ("15", "old 54/15", "same"), ("85", "british W1", "several"),
    ],
)  # fmt: skip
def test_a_mark_for_a_mark(needed: str, offered: str, code: str) -> None:
    """DIN 72552 and a public German list of old and new marks; near ones are traps in both directions."""
    assert ask("terminal-number", needed, offered).because.code == f"terminal-number-{code}"
