"""Belts of accessory drives: three kinds of length, sections that are as wide but deeper, ribs."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.choices import End
from fitlore.trade.belt.tables import round_height
from fitlore.trade.family import FAMILIES
from fitlore.trade.result import FamilyState, Reading
from fitlore.trade.rows import Certainty
from tests.trade.families import PROBLEMS, STANDARDS, YES, ask, codes, normal, refused

SECTIONS = STANDARDS.table("belt-section")
PROFILES = STANDARDS.table("rib-profile")


@st.composite
def belts(draw: st.DrawFn) -> str:
    """Any listed section or profile with and without a length."""
    length = draw(st.integers(400, 2500))
    if draw(st.booleans()):
        profile = draw(st.sampled_from([row.word("profile") for row in PROFILES.rows]))
        text = f"{draw(st.integers(1, 12))}{draw(st.sampled_from(['', 'D']))}{profile}"
        return draw(st.sampled_from([text, f"{text}{length}", f"{text} {length} elastic"]))
    row = draw(st.sampled_from(SECTIONS.rows))
    name = row.word(draw(st.sampled_from(["section", "notched"])))
    joint = "x" if row.word("system") == "automotive" else " "
    kind = draw(st.sampled_from(["La", "Ld", "Li"]))
    return draw(st.sampled_from([f"section {name}", f"{name}{joint}{length} {kind}"]))


def test_every_row_is_usable_and_every_section_reads_as_itself() -> None:
    """Each section, plain and notched, and each profile; no two share a name."""
    assert PROBLEMS == []
    for row in SECTIONS.rows:
        lead = "section " if row.word("system") == "classical" else ""
        for name in (row.word("section"), row.word("notched")):
            assert normal("belt", f"{lead}{name}") == f"{lead}{name}"
    for row in PROFILES.rows:
        assert normal("belt", f"6{row.word('profile')}") == f"6{row.word('profile')}"


@pytest.mark.parametrize(
    ("section", "outside_over_inside"),
    [("Z", 38), ("A", 50), ("B", 69), ("SPZ", 50), ("SPA", 63)],
)
def test_outside_and_inside_length_are_two_circles_apart(section: str, outside_over_inside: int) -> None:
    """La less Li as printed in two open tables (DIN 2215, DIN 7753-1), and two pi times the height (geometry): 10 values."""
    row = SECTIONS.find(section=section)[0]
    assert row.number("inside-under") + row.number("outside-over") == outside_over_inside
    assert abs(round_height(row.number("height")) - outside_over_inside) < Decimal("0.6")


@pytest.mark.parametrize(
    ("section", "top", "height"),
    [("Z", "10", "6"), ("A", "13", "8"), ("B", "17", "11"), ("SPZ", "9.7", "8"), ("SPA", "12.7", "10"), ("SPB", "16.3", "13")],
)  # fmt: skip
def test_sections_are_as_printed(section: str, top: str, height: str) -> None:
    """ISO 4184 and DIN 7753-1, widths and heights as printed in open tables read in November 2026: 12 values."""
    row = SECTIONS.find(section=section)[0]
    assert (row.cell("top"), row.cell("height")) == (top, height)


@pytest.mark.parametrize(
    ("profile", "pitch"), [("PH", "1.6"), ("PJ", "2.34"), ("PK", "3.56"), ("PL", "4.7"), ("PM", "9.4")]
)
def test_ribs_are_as_far_apart_as_printed(profile: str, pitch: str) -> None:
    """ISO 9982, as quoted in an open glossary: 5 values."""
    assert PROFILES.find(profile=profile)[0].cell("pitch") == pitch


@pytest.mark.parametrize(
    ("datum", "outside", "inside"), [("SPZ 1700", "1713", None), ("SPZ 630", "643", None), ("SPA 1400", "1418", "1355"),
    ("Z 610", "625", "587"), ("A 1000", "1020", "970")],
)  # fmt: skip
def test_lengths_turn_into_each_other(datum: str, outside: str, inside: str | None) -> None:
    """Datum and outside lengths of belts in open lists; inside by ISO 4184's conversions: 8 values."""
    name = datum.split()[0]
    for other, kind in ((outside, "La"), (inside, "Li")):
        if other:
            result = ask("belt", f"{datum} Ld", f"{name} {other} {kind}")
            assert result.state is FamilyState.OK
            assert "belt-length-same" in codes(result)


@pytest.mark.parametrize(
    ("system", "length", "shorter"),
    [("classical", 600, "6"), ("classical", 700, "7"), ("classical", 850, "8"), ("classical", 1000, "10"),
     ("classical", 1400, "11"), ("narrow", 800, "6"), ("narrow", 1000, "9"), ("narrow", 1600, "12")],
)  # fmt: skip
def test_tolerances_of_length_are_as_printed(system: str, length: int, shorter: str) -> None:
    """DIN 2215 and DIN 7753-1 as printed in a public manual: 8 values."""
    rows = [
        row
        for row in STANDARDS.table("belt-length-tolerance").find(system=system)
        if row.number("over") < length <= row.number("up-to")
    ]
    assert [row.cell("shorter") for row in rows] == [shorter]


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("6PK1045", "6PK1045"), ("6 PK 1045", "6PK1045"), ("6pk-1045", "6PK1045"), ("6PK 1045 mm Le", "6PK1045"),
        ("ribbed belt 6PK1045", "6PK1045"), ("6DPK1195", "6DPK1195"), ("6PK1019 stretch", "6PK1019 elastic"), ("4PK", "4PK"),
        ("AVX10x1000 La", "AVX10x1000 La"), ("AVX 10 x 1000", "AVX10x1000 La"), ("AVX10-1000", "AVX10x1000 La"),
        ("avx10×1000la", "AVX10x1000 La"), ("AVX10x1000 Le", "AVX10x1000 La"),
        ("AV10x1000 notched", "AVX10x1000 La"), ("10x1000 La", "AV10x1000 La"),
        ("9.5x925", "AV10x925 La"), ("12,5 x 1000", "AV13x1000 La"), ("13x1000 La cogged", "AVX13x1000 La"),
        ("10x950 Li", "Z 950 Li"), ("13 x 1000 mm Li", "A 1000 Li"), ("17x1200 Ld", "B 1200 Ld"),
        ("V belt 17x1200 La", "B 1200 La"),
        ("SPZ 925", "SPZ 925 Ld"), ("SPZ925 Lw", "SPZ 925 Ld"), ("XPZ 925 Lp", "XPZ 925 Ld"), ("V-belt A36", "A 914.4 Li"),
        ("belt AX 42", "AX 1066.8 Li"), ("A 1250 Ld", "A 1250 Ld"), ("section A", "section A"), ("AVX10", "AVX10"),
    ],
)  # fmt: skip
def test_usual_spellings_are_understood(written: str, meant: str) -> None:
    """Spellings on belts and in adverts (common practice; A36 is inches inside)."""
    assert normal("belt", written) == meant


@pytest.mark.parametrize(
    ("written", "reason"),
    [("", "belt-unknown"), ("10", "belt-unknown"), ("M10x100", "belt-unknown"), ("belt", "belt-unknown"), ("A36", "belt-unknown"),
     ("38x52x7", "belt-unknown"), ("165/70R13", "belt-unknown"), ("BR 10 950", "belt-unknown"), ("6PK1045 red", "belt-unknown"),
     ("AVX10x1000 elastic", "belt-unknown"), ("6PK1045 La", "belt-unknown"), ("AVX10x1000 La Li", "belt-unknown"),
     ("SPZ 925 Le", "belt-unknown"),
     ("AV17x1000", "belt-unlisted"), ("10x950", "belt-which-length"), ("V belt 13 x 1000", "belt-which-length")],
)  # fmt: skip
def test_what_is_no_belt_is_refused(written: str, reason: str) -> None:
    """A width and a length alone do not say round the inside or round the outside."""
    assert refused("belt", written).reason == reason


def test_the_readings_of_an_unnamed_length_are_told() -> None:
    """Each can be read by itself."""
    found = refused("belt", "10x950")
    assert found.readings == ("AV10x950 La", "Z 950 Li")
    assert [normal("belt", text) for text in found.readings] == list(found.readings)


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("6PK1045", "6 PK 1045", "ok", "belt-same"),
        ("6PK1045", "6PK1048", "ok", "belt-length-within"),
        ("6PK1045", "6PK1060", "unreadable", "belt-longer"),
        ("6PK1045", "6PK1030", "unreadable", "belt-shorter"),
        ("6PK1045", "6PK1200", "off", "belt-long"),
        ("6PK1045", "6PK900", "off", "belt-short"),
        ("6PK1045", "7PK1045", "off", "belt-ribs-over"),
        ("6PK1045", "5PK1045", "trap", "belt-ribs-fewer"),
        ("6PK1045", "6PJ1045", "off", "belt-profile-off"),
        ("6PK1045", "6DPK1045", "unreadable", "belt-two-sided"),
        ("6DPK1045", "6PK1045", "off", "belt-one-sided"),
        ("6PK1019 elastic", "6PK1019", "trap", "belt-not-elastic"),
        ("6PK1019", "6PK1019 elastic", "off", "belt-elastic"),
        ("6PK1019 elastic", "6PK1015 elastic", "unreadable", "belt-elastic-length"),
        ("6PK1019 elastic", "6PK1023 elastic", "unreadable", "belt-elastic-length"),
        ("6PK1019 elastic", "6PK1035 elastic", "off", "belt-elastic-length"),
        ("6PK1045", "6PK", "unreadable", "belt-length-unsaid"),
        ("6PK", "6PK1045", "unreadable", "belt-length-unasked"),
        ("6PK", "6PK", "unreadable", "belt-length-unasked"),
        ("6PK", "5PK1045", "trap", "belt-ribs-fewer"),
        ("6PK1045", "AVX10x1045", "off", "belt-form-off"),
        ("AV10x950 La", "AVX10x950 La", "ok", "belt-notched-too"),
        ("AVX10x950 La", "AV10x950 La", "unreadable", "belt-not-notched"),
        ("AV10x950 La", "AV10x955 La", "unreadable", "belt-longer"),
        ("AV10x950 La", "AV10x1000 La", "off", "belt-long"),
        ("AV10x950 La", "AV13x950 La", "off", "belt-wide"),
        ("AV13x950 La", "AV10x950 La", "off", "belt-slim"),
        ("AV10x950 La", "Z 912 Li", "unreadable", "belt-shallow"),
        ("Z 912 Li", "AV10x950 La", "trap", "belt-deep"),
        ("Z 935 Ld", "SPZ 937 Ld", "trap", "belt-deep"),
        ("A 1000 Ld", "SPA 1000 Ld", "trap", "belt-deep"),
        ("SPA 1000 Ld", "A 1000 Ld", "unreadable", "belt-shallow"),
        ("AV10x950 La", "SPZ 937 Ld", "unreadable", "belt-alike"),
        ("AV10x950 La", "AV10x950 Li", "unreadable", "belt-length-other-kind"),
        ("AV10x950 La", "10x950", "unreadable", "belt-which-length"),
        ("AV10x700 La", "10x950", "off", "belt-no-reading-goes"),
        ("10x950", "10x950", "unreadable", "belt-which-length"),
        ("A 1000 Li", "A 1000 La", "off", "belt-short"),
        ("A 1000 Li", "A 1030 Ld", "ok", "belt-length-same"),
    ],
)
def test_one_belt_for_another(needed: str, offered: str, state: str, code: str) -> None:
    """ISO 4183 keeps narrow belts out of grooves made for classical ones; the other directions are common practice."""
    result = ask("belt", needed, offered)
    assert result.state == state
    assert code in codes(result)
    if state == "trap":
        assert any(one.startswith("belt-tell-") for one in codes(result))


def test_an_adjuster_moves_by_half_of_what_is_missing() -> None:
    """Length round two pulleys, 2C + pi/2 (D + d) + (D - d)^2 / 4C (geometry): 936.62 for C 300, D 150, d 60, as worked out
    apart from the program; 5 mm more between the shafts take up 10 mm of belt.
    """
    near, far = (_open_length(Decimal(centres), Decimal(150), Decimal(60)) for centres in (300, 305))
    assert round(near, 2) == Decimal("936.62")
    assert abs(far - near - 10) < Decimal("0.2")
    because = ask("belt", "AV10x950 La", "AV10x960 La").because
    step = next(step for _, step in because.walk() if step.code == "belt-longer")
    assert (step.values["gap"], step.values["move"]) == ("10 mm", "5 mm")


def _open_length(centres: Decimal, large: Decimal, small: Decimal) -> Decimal:
    return 2 * centres + Decimal(math.pi) / 2 * (large + small) + (large - small) ** 2 / (4 * centres)


def test_a_trap_is_told_by_the_height() -> None:
    """What one measures on the bench is in the proof."""
    because = ask("belt", "Z 935 Ld", "SPZ 937 Ld").because
    tell = next(step for _, step in because.walk() if step.code == "belt-tell-deep")
    assert (tell.values["high"], tell.values["right"]) == ("8 mm", "6 mm")


def test_a_figure_recalled_makes_the_answer_recalled() -> None:
    """Tolerances of ribbed belts are recalled, those of classical V belts published."""
    assert ask("belt", "6PK1045", "6PK1048").certainty is Certainty.MEMORY
    assert ask("belt", "A 1000 Ld", "A 1005 Ld").certainty is Certainty.PUBLISHED
    assert ask("belt", "6PK1045", "6PK1045").certainty is Certainty.PUBLISHED


@given(belts())
def test_reading_the_normal_form_gives_it_back(text: str) -> None:
    """A normal form stands for its belt in a store, and every belt serves for itself once its length is said."""
    once = normal("belt", text)
    found = FAMILIES["belt"].read(text, STANDARDS)
    assert isinstance(found, Reading)
    said = bool({"La", "Ld", "Li", "Le"} & found.keys.keys())
    assert normal("belt", once) == once
    assert ask("belt", text, text).state is (FamilyState.OK if said else FamilyState.UNREADABLE)


@given(belts(), belts())
def test_a_yes_needs_one_section_and_nearly_one_length(needed: str, offered: str) -> None:
    """Never a yes over another section, other ribs, or lengths of one kind that are apart by more than the tolerances."""
    result = ask("belt", needed, offered)
    one, other = (FAMILIES["belt"].read(text, STANDARDS) for text in (needed, offered))
    assert isinstance(one, Reading)
    assert isinstance(other, Reading)
    if result.state in YES:
        assert one.keys.get("ribs") == other.keys.get("ribs")
        assert not codes(result) & {"belt-deep", "belt-shallow", "belt-alike", "belt-not-elastic"}
        for kind in {"La", "Ld", "Li", "Le"} & one.keys.keys() & other.keys.keys():
            assert abs(one.keys[kind] - other.keys[kind]) <= 13


@given(st.text(max_size=60) | st.from_regex(r"[0-9xPKAVSZLi. ]{0,16}", fullmatch=True))
def test_no_text_raises(text: str) -> None:
    """Any text is read or refused with a reason."""
    found = FAMILIES["belt"].read(text, STANDARDS)
    assert isinstance(found, Reading) or found.reason.startswith("belt-")
    FAMILIES["belt"].compare("6PK1045", text, End.MALE, STANDARDS)


def test_the_sizes_to_measure_by_are_readable() -> None:
    """Sections by width and height, ribbed belts by ribs and width: 6PK is 21.36 mm wide."""
    sizes = {size.designation: size for size in FAMILIES["belt"].sizes(STANDARDS)}
    assert len(sizes) == len(SECTIONS.rows) + 6 * len(PROFILES.rows)
    assert all(normal("belt", name) == name for name in sizes)
    assert sizes["6PK"].bands["width"].high == Decimal("21.36")
    assert sizes["AV10"].bands["height"].wears == "down"
