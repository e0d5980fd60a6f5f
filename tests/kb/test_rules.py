"""What the interfaces say of values: every feature can say yes and no, and cases of practice come out right."""

from __future__ import annotations

import pytest

from fitlore.fitting.interface import compare, wear_allows
from fitlore.fitting.shape import State
from fitlore.model.category import Feature
from fitlore.model.choices import Role, Rule
from tests.kb.knowledge import known
from tests.trade.loading import STANDARDS

UNIT = {
    "length": "mm", "angle": "deg", "current": "A", "voltage": "V", "power": "W", "resistance": "ohm",
    "pressure": "bar", "temperature": "degC", "force": "N", "mass": "g", "count": "",
}  # fmt: skip


def of(category: str, feature: str) -> Feature:
    """A feature of a category, inherited ones included."""
    return known().interface(category).features[feature]


def state(category: str, feature: str, needed: str, offered: str) -> State:
    """How an offered value stands against a needed one in this category."""
    return compare(of(category, feature), needed, offered, STANDARDS).state


def every() -> list[tuple[str, str]]:
    """Category and feature, for all features that leaves have."""
    return [(leaf, name) for leaf in known().leaves for name in known().interface(leaf).features]


def samples(feature: Feature) -> tuple[str, str, str]:
    """A needed value, and two offered ones on either side of it, far beyond any tolerance."""
    if feature.kind == "thread":
        return "M12x1.5", "M8x1.25", "M22x1.5"
    if feature.kind == "choice":
        return feature.choices[0], feature.choices[1], feature.choices[-1]
    if feature.kind == "text":
        return "this", "that", "another"
    unit = UNIT[feature.kind]
    return f"500 {unit}".strip(), f"5 {unit}".strip(), f"50000 {unit}".strip()


@pytest.mark.parametrize(("category", "name"), every())
def test_every_feature_can_say_yes_and_no(category: str, name: str) -> None:
    """An equal value satisfies the feature and at least one far one does not: no feature is an ornament."""
    feature = of(category, name)
    needed, low, high = samples(feature)
    assert compare(feature, needed, needed, STANDARDS).state is State.OK
    far = {compare(feature, needed, value, STANDARDS).state for value in (low, high)}
    assert far & {State.OFF, State.TRAP}
    assert State.UNKNOWN not in far
    if feature.rule in (Rule.AT_LEAST, Rule.AT_MOST, Rule.RANGE_HOLDS):
        assert State.OK in far or feature.rule is Rule.RANGE_HOLDS


def test_only_trim_has_features_for_the_eye() -> None:
    """Features that only matter to the eye stand on few categories, and never where a safety class asks for more."""
    seen = [leaf for leaf, name in every() if of(leaf, name).role is Role.LOOKS]
    assert len(seen) <= 8
    assert all(known().interface(leaf).safety.value in ("none", "wheels") for leaf in seen)


TRAPS = [
    # Near misses that go in by hand; thread dimensions after ISO 724 and ASME B1.1, the stories are common practice.
    ("hydraulic-stop-lamp-switch", "thread", "M10x1", "3/8-24 UNF"),
    ("brake-union", "thread", "M10x1", "3/8-24 UNF"),
    ("wheel-cylinder", "pipe-thread", "3/8-24 UNF", "M10x1"),
    ("wheel-nut", "thread", "7/16-20 UNF", "M12x1.25"),
    ("oil-filter", "thread", "3/4-16 UNF", "M20x1.5"),
]


@pytest.mark.parametrize(("category", "feature", "needed", "offered"), TRAPS)
def test_thread_near_misses_are_traps(category: str, feature: str, needed: str, offered: str) -> None:
    """In the halves that the categories give, the loose way is a trap."""
    assert state(category, feature, needed, offered) is State.TRAP


CASES = [
    # category, feature, needed, offered, goes
    ("wheel-cylinder", "bore", "22.22 mm", "7/8 in", True),  # 7/8 in = 22.225 mm, definition of the inch
    ("wheel-cylinder", "bore", "22.22 mm", "19.05 mm", False),
    ("wheel-cylinder", "bore", "19.05 mm", "3/4 in", True),
    ("brake-pipe", "tube", "4.75 mm", "3/16 in", True),  # 3/16 in = 4.7625 mm; common practice: one and the same tube
    ("brake-pipe", "tube", "4.75 mm", "6 mm", False),
    ("brake-pipe", "flare", "bubble", "double", False),  # SAE J533 against ISO 4038
    ("road-wheel", "pcd", "108 mm", "107.95 mm", True),  # 4 1/4 in, printed both ways (common practice)
    ("road-wheel", "pcd", "108 mm", "4 1/4 in", True),
    ("road-wheel", "pcd", "100 mm", "98 mm", False),
    ("road-wheel", "pcd", "101.6 mm", "100 mm", False),
    ("road-wheel", "centre-bore", "57.1 mm", "56.1 mm", False),
    ("road-wheel", "rim-diameter", "15 in", "390 mm", False),  # metric rims never take inch tyres
    ("tyre", "rim-diameter", "13 in", "330.2 mm", True),
    ("tyre", "rim-diameter", "15 in", "390 mm", False),
    ("tyre", "load-index", "82", "84", True),
    ("tyre", "load-index", "82", "81", False),
    ("thermostat", "opens-at", "82 degC", "88 degC", False),
    ("thermostat", "opens-at", "82 degC", "180 degF", True),  # 180 F = 82.2 C
    ("radiator-cap", "pressure", "0.9 bar", "1.1 bar", False),
    ("radiator-cap", "pressure", "0.9 bar", "13 psi", True),  # 13 psi = 0.896 bar
    ("gas-strut", "closed-length", "305 mm", "318 mm", False),
    ("gas-strut", "closed-length", "305 mm", "298 mm", True),
    ("gas-strut", "open-length", "505 mm", "505 mm", True),
    ("damper", "closed-length", "240 mm", "252 mm", False),
    ("blower-resistor", "resistance", "2.2 ohm", "1.1 ohm", False),
    ("track-rod-end", "length", "70 mm", "90 mm", False),
    ("track-rod", "length", "340 mm", "316 mm", False),
    ("plain-bush", "outside-diameter", "34 mm", "34 mm", True),
    ("plain-bush", "outside-diameter", "34 mm", "33.5 mm", False),
    ("spark-plug", "reach", "19 mm", "3/4 in", True),  # 19.05 and 19.0 mm are the same reach, after ISO 28741
    ("spark-plug", "reach", "19 mm", "12.7 mm", False),
    ("o-ring", "section", "2.62 mm", "2.65 mm", False),  # AS568 against the metric series of ISO 3601-1
    ("deep-groove-bearing", "width", "12 mm", "8 mm", False),  # 6004 and 16004 share bore and outside, ISO 15
    ("deep-groove-bearing", "sealing", "two seals", "two shields", False),
    ("fuse", "current", "17.5 A", "35 A", False),
    ("alternator", "current", "45 A", "55 A", True),
    ("alternator", "current", "45 A", "34 A", False),
    ("battery", "length", "242 mm", "207 mm", True),  # L1 in a tray for L2, EN 50342-2
    ("festoon-bulb", "length", "36 mm", "42 mm", False),  # same cap, other length, IEC 60061
    ("battery", "posts-layout", "positive right", "positive left", False),
    ("hose-clip", "diameter", "40 mm", "32..50 mm", True),
    ("hose-clip", "diameter", "52 mm", "32..50 mm", False),
    ("fuel-hose", "pressure", "3 bar", "0.7 bar", False),
    ("cam-belt", "pitch", "9.525 mm", "3/8 in", True),
    ("cam-belt", "pitch", "9.525 mm", "9.5 mm", False),
    ("brake-fluid", "base", "glycol", "silicone", False),
    ("driveshaft-gaiter", "large-end", "78 mm", "80 mm", False),
]  # fmt: skip


@pytest.mark.parametrize(("category", "feature", "needed", "offered", "goes"), CASES)
def test_case_of_practice(category: str, feature: str, needed: str, offered: str, goes: bool) -> None:
    """Values that people meet: what goes and what does not. Without a named source: common practice."""
    expected = State.OK if goes else State.OFF
    assert state(category, feature, needed, offered) is expected


SENDERS = ["1/8-27 NPT", "G1/8", "M10x1"]


@pytest.mark.parametrize("needed", SENDERS)
@pytest.mark.parametrize("offered", SENDERS)
def test_eighth_inch_pipe_threads_and_m10_do_not_replace_each_other(needed: str, offered: str) -> None:
    """ASME B1.20.1, ISO 228-1 and ISO 261: three threads near 10 mm, none of which goes for another."""
    found = state("temperature-sender", "thread", needed, offered)
    assert (found is State.OK) == (needed == offered)
    assert found is not State.WORK


def test_left_hand_threads_are_told_apart_even_if_the_designation_is_silent() -> None:
    """Wheel fasteners, hub nuts, rods and joints say their hand as a feature of its own."""
    for name in ("wheel-nut", "wheel-bolt", "wheel-stud", "hub-nut", "track-rod", "track-rod-end", "nut"):
        assert state(name, "hand", "right", "left") is State.OFF
        assert not of(name, "hand").optional


def test_wear_has_a_direction() -> None:
    """A drum measures over its size and never under, a disc under and never over (common practice)."""
    drum, disc = of("brake-drum", "diameter"), of("brake-disc", "thickness")
    assert wear_allows(drum, "228.6 mm", "229.2 mm", "")
    assert not wear_allows(drum, "228.6 mm", "228.0 mm", "")
    assert wear_allows(disc, "12.7 mm", "11.4 mm", "")
    assert not wear_allows(disc, "12.7 mm", "13.2 mm", "")


def test_what_must_agree_across_the_car() -> None:
    """Cylinder and piston bores, tyre size and construction are held against the other side."""
    found = {(leaf, name) for leaf, name in every() if of(leaf, name).with_ == "other-side"}
    assert found == {
        ("wheel-cylinder", "bore"), ("brake-caliper", "piston-bore"), ("tyre", "size"), ("tyre", "construction"),
    }  # fmt: skip
