"""Brake fluids: three bases that never meet, and grades of one base in the right direction."""

from __future__ import annotations

import pytest

from fitlore.trade.table import plain
from tests.trade.families import STANDARDS, ask, codes, normal, refused

KIND = "brake-fluid"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("DOT 4", "DOT 4"),
        ("dot3", "DOT 3"),
        ("DOT-4", "DOT 4"),
        ("D.O.T. 4", "DOT 4"),
        ("DOT 5.0", "DOT 5"),
        ("DOT 5,1", "DOT 5.1"),
        ("DOT 5.1 NSBBF", "DOT 5.1"),
        ("DOT 5.1 (non-silicone)", "DOT 5.1"),
        ("DOT 5 SBBF", "DOT 5"),
        ("silicone brake fluid", "DOT 5"),
        ("FMVSS 116 DOT 4", "DOT 4"),
        ("brake and clutch fluid DOT 4", "DOT 4"),
        ("DOT 4 / DOT 3", "DOT 3 / DOT 4"),
        ("DOT3/4", "DOT 3 / DOT 4"),
        ("ISO 4925 class 5.1", "ISO 4925 class 5-1"),
        ("ISO 4925:2005 class 6", "ISO 4925 class 6"),
        ("DOT 4 class 6", "DOT 4 / ISO 4925 class 6"),
        ("SAE J1703, DOT 3", "DOT 3 / SAE J1703"),
        ("mineral hydraulic fluid", "ISO 7308"),
        ("LHM", "ISO 7308"),
        ("hydraulic system mineral oil", "ISO 7308"),
    ],
)
def test_fluids_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Dots, commas, dashes, several grades on one bottle, old and new papers."""
    assert normal(KIND, text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("DOT 5.1 silicone", "brake-fluid-two-bases"),
        ("DOT 5 glycol", "brake-fluid-two-bases"),
        ("DOT 5/5.1", "brake-fluid-two-bases"),
        ("DOT 4 mineral", "brake-fluid-two-bases"),
        ("glycol brake fluid", "brake-fluid-no-grade"),
        ("brake fluid", "brake-fluid-unknown"),
        ("DOT 3 or DOT 4", "brake-fluid-either"),
        ("DOT 6", "brake-fluid-grade"),
        ("DOT 4 racing", "brake-fluid-unknown"),
        ("DOT 4+", "brake-fluid-unknown"),
        ("DOT 3/4+", "brake-fluid-unknown"),
    ],
)
def test_what_leaves_the_base_or_the_grade_open_is_a_question(text: str, reason: str) -> None:
    """A bottle that says both 5 and 5.1 says two things that never meet."""
    assert refused(KIND, text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state"),
    [
        ("DOT 3", "DOT 4", "ok"),
        ("DOT 3", "DOT 5.1", "ok"),
        ("DOT 4", "DOT 5.1", "ok"),
        ("DOT 4", "DOT 3", "off"),
        ("DOT 5.1", "DOT 4", "off"),
        ("DOT 4", "DOT 3/4", "ok"),
        ("DOT 3/4", "DOT 3", "off"),
        ("DOT 4", "ISO 4925 class 6", "ok"),
        ("DOT 4", "ISO 4925 class 4", "ok"),
        ("DOT 4", "DOT 4 class 6", "ok"),
        ("DOT 5.1", "ISO 4925 class 6", "off"),
        ("DOT 5.1", "ISO 4925 class 7", "ok"),
        ("ISO 4925 class 6", "ISO 4925 class 7", "ok"),
        ("ISO 4925 class 7", "ISO 4925 class 6", "off"),
        ("ISO 4925 class 6", "ISO 4925 class 4", "off"),
        ("ISO 4925 class 6", "ISO 4925 class 5-1", "off"),
        ("ISO 4925 class 6", "DOT 4", "unreadable"),
        ("ISO 4925 class 6", "DOT 5.1", "unreadable"),
        ("ISO 4925 class 6", "DOT 3", "off"),
        ("DOT 4 class 6", "DOT 4", "unreadable"),
        ("SAE J1703", "DOT 3", "ok"),
        ("DOT 5", "DOT 5.1", "trap"),
        ("DOT 5.1", "DOT 5", "trap"),
        ("DOT 4", "DOT 5", "trap"),
        ("DOT 4", "mineral hydraulic fluid", "trap"),
        ("mineral hydraulic fluid", "DOT 4", "trap"),
        ("DOT 5", "LHM", "trap"),
        ("DOT 4", "brake fluid", "unreadable"),
    ],
)
def test_a_grade_serves_where_every_limit_is_promised(needed: str, offered: str, state: str) -> None:
    """Limits after 49 CFR 571.116 and ISO 4925; what mixes is common practice."""
    assert ask(KIND, needed, offered).state == state


def test_five_point_one_is_not_the_newer_five() -> None:
    """A bottle of 5.1 for a car with 5, and the other way: the number is higher, the base another (common practice)."""
    for needed, offered in (("DOT 5", "DOT 5.1"), ("DOT 5.1", "DOT 5")):
        result = ask(KIND, needed, offered)
        assert (result.state, result.because.code) == ("trap", "brake-fluid-trap-parts")
        tells = [step.values["base"] for _, step in result.because.walk() if step.code == "brake-fluid-tell"]
        assert sorted(tells) == ["glycol", "silicone"]


def test_mineral_fluid_spoils_the_rubber_of_brakes_and_the_reverse() -> None:
    """49 CFR 571.116 S4: mineral oil is for systems without SBR, EPR or natural rubber; ISO 7308 is for NBR."""
    there, back = ask(KIND, "DOT 4", "ISO 7308"), ask(KIND, "ISO 7308", "DOT 4")
    assert there.because.code == back.because.code == "brake-fluid-trap-seals"
    assert (there.because.values["rubber"], back.because.values["rubber"]) == (
        "SBR, EPDM and natural rubber",
        "NBR",
    )


def test_dot_four_for_dot_three_says_that_it_is_thicker_in_frost() -> None:
    """The limit at -40 degrees is 1800 for the one and 1500 for the other: told, and no hindrance."""
    assert "brake-fluid-cold-little" in codes(ask(KIND, "DOT 3", "DOT 4"))


def test_classes_recalled_are_marked_in_the_outcome() -> None:
    """The limits of ISO 4925 are recalled, those of FMVSS 116 published."""
    assert ask(KIND, "DOT 4", "ISO 4925 class 6").certainty.value == "memory"
    assert ask(KIND, "DOT 3", "DOT 4").certainty.value == "published"


@pytest.mark.parametrize(
    ("grade", "dry", "wet", "cold"),
    [("DOT 3", 401, 284, "1500"), ("DOT 4", 446, 311, "1800"), ("DOT 5", 500, 356, "900"), ("DOT 5.1", 500, 356, "900")],
)  # fmt: skip
def test_limits_agree_with_the_federal_standard(grade: str, dry: int, wet: int, cold: str) -> None:
    """49 CFR 571.116 S5.1 by an encyclopaedia's table: 8 boiling points in Fahrenheit, 4 viscosities in centistokes."""
    (row,) = STANDARDS.table("brake-fluid-grade").find(grade=grade)
    assert [round(row.number(column) * 9 / 5 + 32) for column in ("dry", "wet")] == [dry, wet]
    assert plain(row.number("cold")) == cold


def test_the_thin_class_of_iso_agrees_with_a_second_source() -> None:
    """ISO 4925 class 6: at most 750 mm2/s at -40 degrees (an encyclopaedia; 1 value)."""
    (row,) = STANDARDS.table("brake-fluid-grade").find(grade="ISO 4925 class 6")
    assert row.number("cold") == 750
