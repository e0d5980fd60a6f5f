"""What the interfaces say of values: every feature can say yes and no, and cases of practice come out right."""

from __future__ import annotations

import pytest

from fitlore.fitting.interface import compare, wear_allows
from fitlore.fitting.shape import State
from fitlore.model.category import Feature
from fitlore.model.choices import Role, Rule
from tests.kb.knowledge import known
from tests.trade.loading import load_every

STANDARDS, _ = load_every()

UNIT = {
    "length": "mm", "angle": "deg", "current": "A", "voltage": "V", "power": "W", "resistance": "ohm",
    "pressure": "bar", "temperature": "degC", "force": "N", "mass": "g", "count": "",
}  # fmt: skip


SAMPLES = {
    "thread": ("M12x1.5", "M8x1.25", "M22x1.5"),
    "property-class": ("8.8", "5.8", "4.6"),
    "spanner": ("13 mm AF", "10 mm AF", "22 mm AF"),
    "bearing": ("6203-2RS", "6202-2RS", "6303-2RS"),
    "shaft-seal": ("38x52x7", "25x40x7", "60x80x10"),
    "o-ring": ("20x2.5", "5x1", "80x5"),
    "circlip": ("DIN 471 20x1.2", "DIN 471 10x1", "DIN 472 52x2"),
    "belt": ("6PK1045", "4PK600", "7PK1600"),
    "toothed-belt": ("104ZA19", "90ZA19", "129YU25.4"),
    "pipe-union": (
        "M10x1 bubble, 4.75 mm pipe",
        "3/8-24 UNF double, 4.75 mm pipe",
        "M12x1 bubble, 6 mm pipe",
    ),
    "wheel-fixing": (
        "wheel nut M12x1.5, cone 60",
        "wheel nut M12x1.25, cone 60",
        "wheel nut M14x1.5, ball R13",
    ),
    "bolt": ("M8x25-8.8", "M8x1x25-8.8", "M10x60-8.8"),
    "relay": (
        "make relay 12 V 30 A layout A plain",
        "make relay 12 V 30 A layout B plain",
        "changeover relay 24 V 30 A layout A plain",
    ),
    "flasher": (
        "flasher 49 49a 31 12 V 2x21+5 W electronic",
        "flasher 49 49a 31 24 V 2x21+5 W electronic",
        "flasher B L 12 V 2x21 W hot wire",
    ),
    "terminal": ("tab 6.3x0.8", "tab 4.8x0.8", "ring M6"),
    "cable": ("25 mm2", "16 mm2", "1 mm2"),
    "sender": ("sender 240-33 ohm", "sender 33-240 ohm", "sender 10-180 ohm"),
    "battery": (
        "L2 60 Ah 540 A EN positive right",
        "L1 60 Ah 540 A EN positive left",
        "L5 60 Ah 540 A EN positive left",
    ),
    "fuse": ("blade 10 A", "blade 15 A", "blade 5 A"),
    "ignition-coil": ("coil 3 ohm plain", "coil 1.5 ohm ballast", "coil 0.5 ohm electronic"),
    "key": ("Woodruff 203", "Woodruff 303", "Woodruff 403"),
    "coolant": ("OAT coolant, 50 %", "IAT coolant, 50 %", "OAT coolant, 20 %"),
    "brake-fluid": ("DOT 4", "DOT 3", "DOT 5"),
    "tyre": ("165/70 R 13", "165/70 R 14", "195/60 R 13"),
    "tyre-date": ("DOT 0115", "DOT 0105", "DOT 0101"),
    "wheel": ("6Jx15 ET35 4x100", "6Jx15 ET35 4x98", "6Jx15 ET10 5x112"),
    "engine-oil": ("20W-50 API SF", "20W-40 API SE", "10W-30 API SA"),
    "lamp": ("SV8.5 36 mm 5 W", "W2.1x9.5d 5 W", "BA15s 21 W"),
    "switch-contact": ("free open", "free closed", "changeover"),
    "gear-oil": ("80W-90 GL-4", "75W-80 GL-4", "85W-140 GL-5"),
    "spin-on-filter": (
        "oil filter 3/4-16 UNF, gasket 72 mm",
        "oil filter M20x1.5, gasket 72 mm",
        "oil filter 3/4-16 UNF, gasket 95 mm",
    ),
    "hose": ("hose, bore 19 mm", "hose, bore 12.5 mm", "hose, bore 25 mm"),
    "hose-clip": ("hose clip for 40 mm", "hose clip 25-38 mm", "hose clip 50-70 mm"),
    "thermostat": ("thermostat 82", "thermostat 71", "thermostat 91"),
    "radiator-cap": ("13 psi radiator cap", "7 psi radiator cap", "20 psi radiator cap"),
    "lambda-probe": (
        "lambda probe zirconia 3 wires",
        "lambda probe zirconia 1 wire",
        "lambda probe titania 3 wires",
    ),
    "damper": (
        "damper 520/330 mm, top stud, bottom eye",
        "damper 400/330 mm, top stud, bottom eye",
        "damper 520/400 mm, top stud, bottom eye",
    ),
    "spark-plug": (
        "spark plug M14x1.25, flat seat, reach 19 mm",
        "spark plug M14x1.25, flat seat, reach 12.7 mm",
        "spark plug M14x1.25, flat seat, reach 26.5 mm",
    ),
    "gas-strut": (
        "gas strut 505/305 mm, 380 N, both ends ball 10 mm",
        "gas strut 505/318 mm, 380 N, both ends ball 10 mm",
        "gas strut 505/305 mm, 250 N, both ends ball 10 mm",
    ),
    "fuel-hose": (
        "fuel hose for injection, 3 bar, bore 8 mm",
        "fuel hose SAE J30R7, bore 8 mm",
        "fuel hose SAE J30R9, bore 12 mm",
    ),
}
"""Designations by kind of standard, as `samples` wants them."""


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
    if feature.kind in SAMPLES:
        return SAMPLES[feature.kind]
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
NEAR = [
    # Near misses of what turns and what seals it; sizes after ISO 15, ISO 3601-1 and ISO 4184, the stories are common practice.
    ("deep-groove-bearing", "number", "6004", "16004"),
    ("deep-groove-bearing", "number", "6205 NR", "6205"),
    ("o-ring", "size", "20x2.62", "20x2.5"),
    ("o-ring", "size", "20x2.5 for brake fluid", "20x2.5 NBR"),
    ("shaft-seal", "size", "38x52x7 right", "38x52x7 left"),
    ("shaft-seal", "size", "38x52x7", "38.1x52x7"),
    ("drive-belt", "size", "A 1000 Ld", "SPA 1000 Ld"),
    ("circlip", "ring", "DIN 471 20x1.2", "DIN 472 20x1"),
    ("cam-belt", "size", "104ZA19", "104ZH19"),
    ("tyre", "size", "195/75 R 15", "195/75-15"),  # the same figures, cross-ply
    ("road-wheel", "stamp", "4x100", "4x98"),  # the nuts start
    # The number is higher and the base another, after 49 CFR 571.116; the story is common practice.
    ("brake-fluid", "grade", "DOT 5", "DOT 5.1"),
    ("brake-fluid", "grade", "DOT 4", "DOT 5"),
    # Service parts that go on or in by hand: common practice, bores after ISO 1307.
    ("oil-filter", "filter", "oil filter 3/4-16 UNF, gasket 72 mm", "oil filter M20x1.5, gasket 72 mm"),
    (
        "oil-filter",
        "filter",
        "oil filter M20x1.5, gasket 72 mm, anti-drain",
        "oil filter M20x1.5, gasket 72 mm, no anti-drain",
    ),
    ("heater-hose", "hose", "hose, bore 19 mm", "hose, bore 20 mm"),
    ("hose-clip", "size", "hose clip for 23 mm", "hose clip for 25 mm, spring"),
    ("thermostat", "size", "thermostat 82 C, foot plate", "thermostat 82 C, no bypass"),
    ("radiator-cap", "cap", "7 psi radiator cap", "13 psi radiator cap"),
    ("lambda-probe", "probe", "lambda probe zirconia 4 wires", "lambda probe titania 4 wires"),
    (
        "damper",
        "mountings",
        "damper 520/330 mm, top stud, bottom eye",
        "damper 520/342 mm, top stud, bottom eye",
    ),
    ("gear-oil", "oil", "80W-90 GL-4", "80W-90 GL-5"),  # common practice, disputed
    (
        "spark-plug",
        "designation",
        "plug M14x1.25, flat seat, reach 12.7 mm",
        "plug M14x1.25, flat seat, reach 19 mm",
    ),
    (
        "spark-plug",
        "designation",
        "plug M14x1.25, flat seat, reach 19 mm",
        "plug M14x1.25, conical seat, reach 17.5 mm",
    ),
    (
        "gas-strut",
        "designation",
        "gas strut 505/305 mm, 380 N, 10 mm ball ends",
        "gas strut 505/318 mm, 380 N, 10 mm ball ends",
    ),
    ("fuel-hose", "designation", "fuel hose SAE J30R9, bore 8 mm", "fuel hose SAE J30R7, bore 8 mm"),
]


@pytest.mark.parametrize(("category", "feature", "needed", "offered"), NEAR)
def test_near_misses_of_what_turns_are_traps(category: str, feature: str, needed: str, offered: str) -> None:
    """What goes on or in by hand and does not last is said loudly."""
    assert state(category, feature, needed, offered) is State.TRAP


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
    ("tyre", "size", "165 R 13", "175/70 R 13", False),
    ("tyre", "size", "195/65 R 15", "195/65R15", True),
    ("tyre", "made", "DOT 0115", "DOT 2316", True),
    ("road-wheel", "stamp", "5.5Jx14 ET38 4x100 bore 57.1", "5.5Jx14 ET38 4x100 bore 56.1", False),
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
    ("o-ring", "size", "20x2.62", "20x2.65", True),  # AS568 against the metric series, within the tolerance of ISO 3601-1
    ("deep-groove-bearing", "number", "6203-2RS", "6203", False),
    ("deep-groove-bearing", "number", "6203-2RS C3", "6203-2RS", False),
    ("shaft-seal", "size", "AS 35x52x8", "AS 35x52x7", True),  # a narrower one goes in as deep as it likes
    ("drive-belt", "size", "6PK1045", "6PK1200", False),
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
    ("brake-fluid", "grade", "DOT 3", "DOT 4", True),  # limits of 49 CFR 571.116
    ("brake-fluid", "grade", "DOT 4", "DOT 3", False),
    ("engine-oil", "oil", "20W-50 API SE", "15W-50 API SG", True),  # SAE J300; API: a later class includes the earlier
    ("engine-oil", "oil", "20W-50", "10W-30", False),
    ("gear-oil", "oil", "SAE 90 GL-5", "80W-90 GL-5", True),  # a multigrade is each of its grades, after SAE J306
    ("gear-oil", "oil", "80W-90 GL-5", "80W-90 GL-4", False),
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
    """Bores, drums, discs and shoes, rings of the speed sensors and tyres are held against the other side."""
    found = {(leaf, name) for leaf, name in every() if of(leaf, name).with_ == "other-side"}
    assert found == {
        ("wheel-cylinder", "bore"), ("brake-caliper", "piston-bore"), ("tyre", "size"), ("tyre", "construction"),
        ("brake-drum", "diameter"), ("brake-disc", "diameter"), ("brake-disc", "vented"), ("abs-ring", "teeth"),
        ("brake-shoes", "drum-diameter"), ("brake-shoes", "width"), ("wheel-spacer", "thickness"),
    }  # fmt: skip
