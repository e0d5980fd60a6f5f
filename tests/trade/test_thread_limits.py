"""Limits of size and lengths of engagement by the standards' formulas, against printed tables."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitlore.trade.family import FAMILIES, Reading, compare_texts
from fitlore.trade.threads import engagement, least_turns, limits
from tests.trade.loading import STANDARDS, table, thread

INCH = Decimal("25.4")


@pytest.mark.parametrize("row", table("iso_965_limits.csv"), ids=lambda row: row["thread"])
def test_metric_limits_are_those_printed(row: dict[str, str]) -> None:
    """ISO 965-2, 6g and 6H (8 values a size): within 9 um, since the printed tables round by their own rules."""
    male, female = limits(thread(row["thread"]), "6g"), limits(thread(row["thread"]), "6H")
    assert male is not None
    assert female is not None
    pairs = (
        (male.crest, "male_major"), (male.pitch_diameter, "male_pitch"),
        (female.crest, "female_minor"), (female.pitch_diameter, "female_pitch"),
    )  # fmt: skip
    for (low, high), column in pairs:
        assert abs(low - Decimal(row[f"{column}_min"])) <= Decimal("0.009"), column
        assert abs(high - Decimal(row[f"{column}_max"])) <= Decimal("0.009"), column


@pytest.mark.parametrize(
    ("name", "tolerance", "major", "pitch"),
    [
        ("M2x0.4", "6g", ("1.886", "1.981"), ("1.654", "1.721")), ("M2.5x0.45", "6g", ("2.380", "2.480"), ("2.117", "2.188")),
        ("M3x0.5", "6g", ("2.874", "2.980"), ("2.580", "2.655")), ("M3x0.5", "6h", ("2.894", "3.000"), ("2.600", "2.675")),
        ("M3x0.5", "4g6g", ("2.874", "2.980"), ("2.607", "2.655")), ("M4x0.7", "6g", ("3.838", "3.978"), ("3.433", "3.523")),
        ("M4x0.7", "6h", ("3.860", "4.000"), ("3.455", "3.545")), ("M4x0.7", "4g6g", ("3.838", "3.978"), ("3.467", "3.523")),
        ("M5x0.8", "6g", ("4.826", "4.976"), ("4.361", "4.456")), ("M5x0.8", "4g6g", ("4.826", "4.976"), ("4.396", "4.456")),
    ],
)  # fmt: skip
def test_small_metric_limits_are_those_printed(
    name: str, tolerance: str, major: tuple[str, str], pitch: tuple[str, str]
) -> None:
    """ASME B1.13M (the limits of ISO 965) by way of a printed thread chart: 6g, 6h and 4g6g, 40 values, within 6 um."""
    found = limits(thread(name), tolerance)
    assert found is not None
    for ours, printed in zip((*found.crest, *found.pitch_diameter), (*major, *pitch), strict=True):
        assert abs(ours - Decimal(printed)) <= Decimal("0.006")


@pytest.mark.parametrize("row", table("asme_b1_1_limits.csv"), ids=lambda row: row["thread"])
def test_unified_limits_are_those_printed(row: dict[str, str]) -> None:
    """ASME B1.1-2019 by way of screw-thread-lib 0.0.6: 2A major, 2A and 2B pitch diameter; within 0.0001 in, minor 0.001."""
    male, female = limits(thread(row["thread"]), "2A"), limits(thread(row["thread"]), "2B")
    assert male is not None
    assert female is not None
    for (low, high), column in (
        (male.crest, "male_major"), (male.pitch_diameter, "male_pitch"), (female.pitch_diameter, "female_pitch"),
    ):  # fmt: skip
        for ours, end in ((low, "min"), (high, "max")):
            if printed := row.get(f"{column}_{end}"):
                assert abs(ours / INCH - Decimal(printed)) <= Decimal("0.00011"), (column, end)
    for ours, end in zip(female.crest, ("min", "max"), strict=True):
        assert abs(ours / INCH - Decimal(row[f"female_minor_{end}"])) <= Decimal("0.001"), end


@pytest.mark.parametrize(
    ("name", "shortest", "longest"),
    [("M2x0.4", "1", "3"), ("M2.5x0.45", "1.3", "3.8"), ("M3x0.5", "1.5", "4.5"), ("M3.5x0.6", "1.7", "5"), ("M4x0.7", "2", "6"),
     ("M5x0.8", "2.5", "7.5"), ("M6x1", "3", "9")],
)  # fmt: skip
def test_normal_lengths_of_engagement_are_those_printed(name: str, shortest: str, longest: str) -> None:
    """ISO 965-1 by way of a tool maker's printed table (14 values), which rounds by up to a sixth."""
    found = engagement(thread(name))
    assert found is not None
    for ours, printed in zip(found, (shortest, longest), strict=True):
        assert abs(ours / Decimal(printed) - 1) <= Decimal("0.17")


def test_the_turns_that_have_to_hold() -> None:
    """Eight tenths of a diameter in steel, one and a half in aluminium (common practice)."""
    assert least_turns(thread("M8x1.25"), "steel") == Decimal("5.1")
    assert least_turns(thread("M8x1.25"), "aluminium") == Decimal("9.6")


def test_a_class_that_no_formula_covers_has_no_limits() -> None:
    """Whitworth, no class, or a class of the other system."""
    assert limits(thread("M10x1")) is None
    assert limits(thread("1/4 BSW"), "6g") is None
    assert limits(thread("M10x1"), "2A") is None
    assert limits(thread("M10x1-6g")) == limits(thread("M10x1"), "6g")


@pytest.mark.parametrize(
    "text", ["M14x1.5 LH", "M14x1.5-LH", "M14x1.5 left", "M14x1.5 left hand", "M14x1.5 left-handed thread", "M14x1.5 (LH)",
             "M14x1.5 L/H", "M14x1.5 LHT", "LH M14x1.5", "left hand M14x1.5"],
)  # fmt: skip
def test_left_hand_is_read_in_all_its_spellings(text: str) -> None:
    """Behind or in front, with or without brackets, hand or thread."""
    found = FAMILIES["thread"].read(text, STANDARDS)
    assert isinstance(found, Reading)
    assert found.normal == "M14x1.5 LH"


def test_an_outcome_that_rests_on_recalled_rows_says_so() -> None:
    """ISO 7-1 rows are recalled: R in Rc is certain by memory only; the same designation rests on no row."""
    assert compare_texts("thread", "Rp1/8", "R1/8", "male", STANDARDS).certainty.value == "memory"
    assert compare_texts("thread", "R1/8", "R1/8", "male", STANDARDS).certainty.value == "published"
    assert compare_texts("thread", "M10x1", "3/8-24 UNF", "male", STANDARDS).certainty.value == "published"
