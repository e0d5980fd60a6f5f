"""Bearings read from the spellings people use, and one held against another: directions, traps and questions."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.choices import End
from fitlore.trade.family import FAMILIES
from fitlore.trade.result import FamilyState, Reading
from fitlore.trade.rows import Certainty
from tests.trade.families import STANDARDS, YES, ask, codes, normal, refused

BASES = [row.word("designation") for row in STANDARDS.table("bearing-size").rows]
SETS = [f"{row.word('cone')}/{row.word('cup')}" for row in STANDARDS.table("inch-taper-set").rows]
BALLS = [name for name in BASES if name.startswith(("60", "62", "63", "618", "619")) and "/" not in name]


@st.composite
def bearings(draw: st.DrawFn) -> str:
    """Any listed bearing, ball bearings with any letters, in the order people write them."""
    base = draw(st.sampled_from([*BASES, *SETS]))
    if base not in BALLS:
        return base
    cover = draw(st.sampled_from(["", "-2RS", " 2RS", "ZZ", "-2Z", "-Z", "DDU", "-RS"]))
    rest = draw(st.sampled_from(["", " C3", "/C3", " NR", " N C4", " P6", " C2 P5", " TN9 C3"]))
    return f"{base}{cover}{rest}"


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("6203-2RS", "6203-2RS"), ("6203 2RS", "6203-2RS"), ("6203 2rs c3", "6203-2RS C3"), ("6203-2RSR/C3", "6203-2RS C3"),
        ("6203DDU C3", "6203-2RS C3"), ("6203LLUC3", "6203-2RS C3"), ("6203ZZ", "6203-2Z"), ("6203-2Z", "6203-2Z"),
        ("6203 VV", "6203-2RZ"), ("6203-LLB", "6203-2RZ"), ("6203Z", "6203-Z"), ("6203 RS", "6203-RS"), ("6203 CN", "6203"),
        ("6203 C0", "6203"), ("6203 P0", "6203"), ("6203 TN9", "6203"), ("6203 J C3", "6203 C3"), ("6205NR", "6205 NR"),
        ("6205-N", "6205 N"), ("6205ZZNR", "6205-2Z NR"), ("1205K", "1205K"), ("6804", "61804"), ("6904-2RS", "61904-2RS"),
        ("32008", "32008X"), ("32008X", "32008X"), ("30205 J2", "30205"), ("NU 205", "NU205"), ("nu205ecp", "NU205E"),
        ("HK 1612", "HK1612"), ("NA 4905", "NA4905"), ("7205B", "7205B"), ("7205-AC", "7205AC"), ("62/22", "62/22"),
        ("320/28", "320/28"), ("608", "608"), ("608ZZ", "608-2Z"), ("LM11949/LM11910", "LM11949/LM11910"),
        ("LM11949/10", "LM11949/LM11910"), ("LM11949-LM11910", "LM11949/LM11910"), ("LM11910/LM11949", "LM11949/LM11910"),
        ("lm11949 / lm11910", "LM11949/LM11910"), ("L68149/11", "L68149/L68111"), ("LM11949", "LM11949"),
        ("wheel bearing 6206-2RS", "6206-2RS"), ("６２０３", "6203"),
    ],
)  # fmt: skip
def test_usual_spellings_are_understood(written: str, meant: str) -> None:
    """Spellings on rings, boxes and adverts (common practice)."""
    assert normal("bearing", written) == meant


@pytest.mark.parametrize(
    ("written", "reason"),
    [
        ("", "bearing-unknown"), ("10", "bearing-unknown"), ("M10x1", "bearing-unknown"), ("bearing", "bearing-unknown"),
        ("17x40x7", "bearing-unknown"), ("165/70R13", "bearing-unknown"), ("6PK1200", "bearing-unknown"),
        ("1234567", "bearing-unknown"), ("12V 45Ah", "bearing-unknown"), ("KT 42 0410", "bearing-unknown"),
        ("6203 2RS C3 left of the shop on the shelf by the door", "bearing-unknown"), ("6203 XY", "bearing-letters"),
        ("6203-10", "bearing-letters"), ("6203 C3 C4", "bearing-letters"), ("6203B", "bearing-letters"),
        ("6299", "bearing-unlisted"), ("30299", "bearing-unlisted"), ("LM99949/LM99910", "bearing-unlisted"),
        ("17x40x12", "bearing-only-size"), ("LM11949/LM67010", "bearing-rings-differ"),
    ],
)  # fmt: skip
def test_what_is_no_listed_bearing_is_refused(written: str, reason: str) -> None:
    """Never guessed: unknown letters could be another bore, and a cone does not run in a strange cup."""
    assert refused("bearing", written).reason == reason


def test_a_size_names_the_bearings_that_have_it() -> None:
    """17 x 40 x 12 is a 6203 first, but six others too."""
    found = refused("bearing", "17 x 40 x 12 mm")
    assert found.readings[0] == "6203"
    assert {"7203", "NU203", "1203"} < set(found.readings)


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("6203-2RS", "6203 DDU", "ok", "bearing-same"),
        ("6203", "6203 P6", "ok", "bearing-finer"),
        ("6203 P6", "6203", "off", "bearing-coarser"),
        ("6203", "6203-2RS", "ok-with-work", "bearing-cover-spare"),
        ("6203-2RS", "6203", "off", "bearing-cover-missing"),
        ("6203-2RS", "6203-RS", "off", "bearing-cover-missing"),
        ("6203-RS", "6203-2RS", "ok-with-work", "bearing-cover-one-too-many"),
        ("6203-2RS", "6203ZZ", "unreadable", "bearing-shield-for-seal"),
        ("6203ZZ", "6203-2RS", "ok", "bearing-seal-for-shield"),
        ("6203ZZ", "6203VV", "ok", "bearing-cover-same"),
        ("6203VV", "6203ZZ", "unreadable", "bearing-shield-for-seal"),
        ("NU205E", "NU205", "unreadable", "bearing-fewer-rollers"),
        ("NU205", "NU205 ECP", "ok", "bearing-more-rollers"),
        ("NU205 ECP", "NU205E", "ok", "bearing-same"),
        ("6203", "6203 C3", "unreadable", "bearing-clearance-more"),
        ("6203 C3", "6203", "off", "bearing-clearance-less"),
        ("6203", "6203 C4", "off", "bearing-clearance-far"),
        ("6203 NR", "6203", "trap", "bearing-groove-missing"),
        ("6203 NR", "6203 N", "ok-with-work", "bearing-ring-over"),
        ("6203 N", "6203 NR", "ok", "bearing-ring-spare"),
        ("6203", "6203 N", "ok", "bearing-groove-spare"),
        ("6203", "6203 NR", "ok-with-work", "bearing-ring-off"),
        ("1205K", "1205", "off", "bearing-bore-taper"),
        ("1205", "1205K", "off", "bearing-bore-taper"),
        ("7205B", "7205C", "off", "bearing-angle-off"),
        ("7205B", "7205", "unreadable", "bearing-angle-unsaid"),
        ("6004", "16004", "trap", "bearing-narrow"),
        ("16004", "6004", "trap", "bearing-wide"),
        ("6205", "30205", "trap", "bearing-form-trap"),
        ("6205", "NU205", "trap", "bearing-form-trap"),
        ("6205", "1205", "trap", "bearing-form-trap"),
        ("HK1612", "BK1612", "trap", "bearing-form-trap"),
        ("30305", "31305", "trap", "bearing-steep"),
        ("6202", "6003", "off", "bearing-size-off"),
        ("6203", "6202", "off", "bearing-bore-small"),
        ("6203", "6303", "off", "bearing-outside-large"),
        ("320/28", "30205", "off", "bearing-bore-small"),
        ("L68149/L68111", "L68149/L68110", "trap", "bearing-outside-loose"),
        ("L68149/L68110", "L68149/L68111", "off", "bearing-outside-large"),
        ("L44643/L44610", "L44649/L44610", "off", "bearing-size-off"),
        ("L44643/L44610", "L45449/L45410", "off", "bearing-size-off"),
        ("LM12748/LM12710", "LM12749/LM12710", "off", "bearing-size-off"),
        ("L44643", "L44643/L44610", "ok", "bearing-set-has-ring"),
        ("L44643/L44610", "L44643", "off", "bearing-ring-only"),
        ("L44643", "L44610", "off", "bearing-other-ring"),
        ("LM11949", "LM12749", "off", "bearing-other-series"),
        ("6203", "17x40x12", "unreadable", "bearing-only-size"),
        ("6204", "17x40x12", "off", "bearing-no-reading-goes"),
        ("6203", "6203 XY", "unreadable", "bearing-letters"),
    ],
)
def test_one_bearing_for_another(needed: str, offered: str, state: str, code: str) -> None:
    """Directions of the trade (common practice; sizes ISO 15 and ISO 355)."""
    result = ask("bearing", needed, offered)
    assert result.state == state
    assert code in codes(result)


def test_a_worn_out_sealed_one_with_more_room_is_not_answered_by_a_shielded_plain_one() -> None:
    """A kind of practice case: base number alike, seal and clearance dropped. Common practice: the clearance says no."""
    result = ask("bearing", "6203-2RS C3", "6203ZZ")
    assert result.state is FamilyState.OFF
    assert {"bearing-clearance-less", "bearing-shield-for-seal", "bearing-size-same"} <= codes(result)


def test_a_trap_says_how_it_is_told_on_the_bench() -> None:
    """Width, groove, form, ring: each trap carries a look or a measure."""
    for needed, offered in (("6203 NR", "6203"), ("6004", "16004"), ("6205", "7205B"), ("30305", "31305"),
                            ("L68149/L68111", "L68149/L68110")):  # fmt: skip
        result = ask("bearing", needed, offered)
        assert result.state is FamilyState.TRAP
        assert any(code.startswith("bearing-tell-") for code in codes(result))


def test_a_spelling_recalled_makes_the_answer_recalled() -> None:
    """Two spellings of one meaning rest on the row that says so; two like spellings rest on none."""
    assert ask("bearing", "6203-2RS", "6203-2RS1").certainty is Certainty.MEMORY
    assert ask("bearing", "6203-2RS1", "6203-2RS1").certainty is Certainty.PUBLISHED
    assert ask("bearing", "6203-2RS", "6203DDU").certainty is Certainty.PUBLISHED


def test_clearance_is_told_in_micrometres() -> None:
    """ISO 5753-1, bore over 10 to 18: CN 3 to 18, C3 11 to 25."""
    because = ask("bearing", "6203 C3", "6203").because
    step = next(step for _, step in because.walk() if step.code == "bearing-clearance-less")
    assert (step.values["needed-room"], step.values["offered-room"]) == ("11 to 25 um", "3 to 18 um")
    assert any("5753" in source for source in step.sources)


@given(bearings())
def test_reading_the_normal_form_gives_it_back(text: str) -> None:
    """A normal form stands for its bearing in a store."""
    once = normal("bearing", text)
    assert normal("bearing", once) == once


@given(bearings())
def test_every_bearing_serves_for_itself(text: str) -> None:
    """Comparison is reflexive, and rests on no row."""
    result = ask("bearing", text, text)
    assert (result.state, result.certainty) == (FamilyState.OK, Certainty.PUBLISHED)


@given(bearings(), bearings())
def test_a_yes_needs_equal_sizes(needed: str, offered: str) -> None:
    """A trap is never a fit, and no pair of unequal sizes is a yes in either direction."""
    result = ask("bearing", needed, offered)
    one, other = (FAMILIES["bearing"].read(text, STANDARDS) for text in (needed, offered))
    assert isinstance(one, Reading)
    assert isinstance(other, Reading)
    if result.state in YES:
        assert one.keys == other.keys
        assert not any("trap" in code for code in codes(result))


@given(st.text(max_size=60) | st.from_regex(r"[0-9A-Zx/\- .]{0,24}", fullmatch=True))
def test_no_text_raises(text: str) -> None:
    """Any text is read or refused with a reason, and compared with another without failing."""
    found = FAMILIES["bearing"].read(text, STANDARDS)
    assert isinstance(found, Reading) or found.reason.startswith("bearing-")
    FAMILIES["bearing"].compare(text, "6203", End.MALE, STANDARDS)


def test_the_sizes_to_measure_by_hold_the_nominal_ones() -> None:
    """Each listed bearing is offered once, its bore wears up and its outside down."""
    sizes = list(FAMILIES["bearing"].sizes(STANDARDS))
    assert len({size.designation for size in sizes}) == len(sizes) == len(BASES) + len(SETS)
    shown = next(size for size in sizes if size.designation == "6203")
    assert [(shown.bands[name].high, shown.bands[name].wears) for name in ("inside", "outside", "width")] == [
        (17, "up"),
        (40, "down"),
        (12, "down"),
    ]
