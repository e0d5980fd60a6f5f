"""What a second reader of the electrical and the body books found that is no single difference between two parts."""

from __future__ import annotations

import pytest

from fitlore.fitting import Word
from fitlore.model.choices import SafetyClass, Sides, UsedOnes
from tests.kb.knowledge import known
from tests.kb.test_second_eyes import verdict


def test_a_radio_may_drive_fewer_ohms_than_it_must() -> None:
    """One made for speakers of 2 ohm drives those of 4 ohm: the rule points from the set to the speakers."""
    assert verdict("car-radio", {"speaker-ohms": "4 ohm"}, {"speaker-ohms": "2 ohm"}).word is Word.BY_MEASURE


def test_a_seat_with_an_airbag_is_bought_as_an_airbag() -> None:
    """A seat may be used; one with an airbag in it is another kind, never used, and counts as a restraint."""
    with_airbag = known().interface("airbag-seat")
    assert known().interface("seat").used is UsedOnes.SENSIBLE
    assert with_airbag.used is UsedOnes.NEVER
    assert with_airbag.safety is SafetyClass.RESTRAINT
    assert "seat" not in with_airbag.names


@pytest.mark.parametrize(
    "kind",
    [
        "headlamp-adjuster",
        "windscreen",
        "sill",
        "floor-section",
        "arch-section",
        "door-skin",
        "rectifier-pack",
        "seat-foam",
        "wiper-spindle",
    ],
)
def test_a_used_one_is_looked_at_first(kind: str) -> None:
    """Neither forbidden nor taken as it comes: a screw or a sill of an old car may be had from another one only."""
    assert known().interface(kind).used is UsedOnes.IF_SOUND
    assert known().categories[kind].inspect


def test_a_driving_lamp_brings_no_relay() -> None:
    """The relay in the car goes on working when a lamp is changed."""
    assert not known().interface("driving-lamp").renew_with


@pytest.mark.parametrize(
    ("kind", "feature"),
    [
        ("discharge-bulb", "wear"),
        ("rear-fog-lamp", "switch-lamp"),
        ("front-fog-lamp", "relay"),
        ("front-fog-lamp", "adjusts"),
        ("headlamp-bowl", "material"),
        ("lamp-lens", "material"),
        ("hazard-switch", "shows"),
        ("cigar-lighter", "lamp"),
        ("speedometer", "trip"),
        ("fuel-sender", "float"),
        ("clock", "works-by"),
        ("soft-top", "material"),
        ("wiper-blade", "spoiler"),
    ],
)
def test_what_decides_nothing_says_no_to_nobody(kind: str, feature: str) -> None:
    """Two that differ in this alone stand in for one another, so it is no feature of the kind."""
    assert feature not in known().interface(kind).features


def test_the_lever_tells_a_lock_barrel_and_not_its_side() -> None:
    """A boot has no side, and the lever can be moved across: nobody is asked which door it came from."""
    assert known().interface("lock-barrel").sides is Sides.SAME_BOTH_SIDES
    assert not known().interface("lock-barrel").features["tail"].optional
