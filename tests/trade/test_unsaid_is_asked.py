"""What the needed designation leaves unsaid and somebody may come to harm by is asked, never passed over.

All of these are common practice of the trade, but for the fuse (IEC 60127-2) and the relay's base (ISO 7588-1 and -3).
"""

from __future__ import annotations

import pytest

from fitlore.model.choices import End
from fitlore.trade.family import FAMILIES, FamilyState, Reading
from tests.trade.loading import load_every

STANDARDS, _ = load_every()
YES = (FamilyState.OK, FamilyState.OK_WITH_WORK)
ASKED = [
    ("gear-oil", "80W-90", "80W-90 GL-5"),
    ("gear-oil", "SAE 90", "SAE 90 EP"),
    ("gear-oil", "SAE 90", "SAE 90 GL-4"),
    ("coolant", "coolant 33 %", "OAT coolant, 50 %"),
    ("battery", "BCI 24", "80D26L"),
    ("battery", "BCI 24", "80D26R"),
    ("battery", "L2", "L2 positive left"),
    ("battery", "BCI 24", "46B24L"),
    ("battery", "ETN 544 059 036", "ETN 595 901 085"),
    ("flasher", "flasher 49 49a 31 12 V 4x21 W", "flasher 49 49a 31 12 V 2x21 W"),
    ("fuse", "mini blade 2 A", "glass 5x20 carries 2 A slow"),
    ("relay", "make relay layout A 12 V", "micro make relay layout A 12 V"),
    ("lamp", "P21W LED", "P21W"),
    ("wheel", "6Jx15 ET35", "6Jx15 ET35 5x112"),
    ("wheel", "6Jx15 ET35", "6Jx15 ET35 5x112 57.1"),
    ("sender", "sender 240-33 ohm", "oil pressure sender 240-33 ohm"),
    ("ignition-coil", "coil 1.5 ohm ballast", "coil 1.5 ohm plain"),
    ("toothed-belt", "104 teeth", "104ZA19"),
    ("toothed-belt", "104ZA", "104ZA19"),
    ("wheel-fixing", "wheel bolt M12x1.5 cone 60", "wheel bolt M12x1.5 cone 60 length 60 mm"),
    ("ignition-coil", "coil 1.5 ohm with ballast of 1.5 ohm", "coil 1.5 ohm ballast"),
]


@pytest.mark.parametrize(("kind", "needed", "offered"), ASKED)
def test_what_is_left_unsaid_is_no_yes(kind: str, needed: str, offered: str) -> None:
    """And the texts are readable, so that it is not refused for another reason."""
    read = [FAMILIES[kind].read(text, STANDARDS) for text in (needed, offered)]
    assert all(isinstance(one, Reading) for one in read), read
    assert FAMILIES[kind].compare(needed, offered, End.MALE, STANDARDS).state not in YES


def test_a_cable_many_times_as_thick_needs_work_at_least() -> None:
    """It does not go into the terminal or the grommet."""
    result = FAMILIES["cable"].compare("1.5 mm2", "AWG 4/0", End.MALE, STANDARDS)
    assert result.state is FamilyState.OK_WITH_WORK


def test_a_circlip_is_no_battery() -> None:
    """Battery numbers of five figures start with the volts: 0 to 2 for 6 V, 5 to 7 for 12 V."""
    assert not isinstance(FAMILIES["battery"].read("DIN471-20", STANDARDS), Reading)
    assert isinstance(FAMILIES["battery"].read("DIN 560 49", STANDARDS), Reading)
