"""Basic dimensions against values printed in standards."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitlore.trade.threads import dimensions
from tests.trade.loading import table, thread

MM = Decimal("0.001")


@pytest.mark.parametrize(
    ("name", "pitch_diameter", "minor", "root"),
    [
        ("M4", "3.545", "3.242", "3.141"), ("M5", "4.480", "4.134", "4.019"), ("M6", "5.350", "4.917", "4.773"),
        ("M8", "7.188", "6.647", "6.466"), ("M8x1", "7.350", "6.917", "6.773"), ("M10", "9.026", "8.376", "8.160"),
        ("M10x1.25", "9.188", "8.647", "8.466"), ("M10x1", "9.350", "8.917", "8.773"),
        ("M12", "10.863", "10.106", "9.853"),
        ("M12x1.5", "11.026", "10.376", "10.160"), ("M12x1.25", "11.188", "10.647", "10.466"),
        ("M14x1.5", "13.026", "12.376", "12.160"),
        ("M16x1.5", "15.026", "14.376", "14.160"), ("M18x1.5", "17.026", "16.376", "16.160"),
        ("M20x1.5", "19.026", "18.376", "18.160"),
        ("M22x1.5", "21.026", "20.376", "20.160"), ("M24", "22.051", "20.752", "20.319"),
        ("M36", "33.402", "31.670", "31.093"),
    ],
)  # fmt: skip
def test_metric_diameters_are_those_printed(name: str, pitch_diameter: str, minor: str, root: str) -> None:
    """ISO 724:1993, pitch diameter D2 and minor diameter D1; root d3 as ISO 898-1 uses it, d - 1.22687 P."""
    sizes = dimensions(thread(name))
    printed = (Decimal(pitch_diameter), Decimal(minor), Decimal(root))
    assert (round(sizes.pitch_diameter, 3), round(sizes.minor, 3), round(sizes.male_root, 3)) == printed


@pytest.mark.parametrize(
    ("name", "area"),
    [("M6", "20.1"), ("M8", "36.6"), ("M8x1", "39.2"), ("M10", "58.0"), ("M10x1.25", "61.2"), ("M12", "84.3"),
    ("M12x1.25", "92.1")],
)  # fmt: skip
def test_the_root_gives_the_stress_area_of_iso_898(name: str, area: str) -> None:
    """ISO 898-1: nominal stress area pi/4 ((d2 + d3)/2)^2 in mm2, printed to three figures."""
    sizes = dimensions(thread(name))
    mean = (sizes.pitch_diameter + sizes.male_root) / 2
    assert abs(Decimal("0.785398163") * mean * mean - Decimal(area)) <= Decimal("0.05")


@pytest.mark.parametrize("row", table("iso_965_limits.csv"), ids=lambda row: row["thread"])
def test_metric_basic_sizes_are_the_least_female_ones(row: dict[str, str]) -> None:
    """ISO 965-2: with H on the female thread, its least diameters are the basic ones of ISO 724."""
    sizes = dimensions(thread(row["thread"]))
    assert round(sizes.pitch_diameter, 3) == Decimal(row["female_pitch_min"])
    assert round(sizes.minor, 3) == Decimal(row["female_minor_min"])


@pytest.mark.parametrize(
    ("name", "pitch_diameter", "minor"),
    [("1/4 BSW", "0.2180", "0.1860"), ("3/8 BSW", "0.3350", "0.2950"), ("1/2 BSW", "0.4466", "0.3933"),
    ("1/4 BSF", "0.2254", "0.2007"),
     ("3/8 BSF", "0.3430", "0.3110"), ("1/2 BSF", "0.4600", "0.4200")],
)  # fmt: skip
def test_whitworth_diameters_are_those_printed(name: str, pitch_diameter: str, minor: str) -> None:
    """BS 84: effective and minor diameters in inches, printed to four places (recalled: memory)."""
    sizes = dimensions(thread(name))
    assert abs(sizes.pitch_diameter / Decimal("25.4") - Decimal(pitch_diameter)) <= Decimal("0.0001")
    assert abs(sizes.minor / Decimal("25.4") - Decimal(minor)) <= Decimal("0.0001")
    assert sizes.angle == 55


@pytest.mark.parametrize(
    ("name", "pitch_diameter", "minor"),
    [("0 BA", "5.4", "4.8"), ("2 BA", "4.215", "3.73"), ("4 BA", "3.205", "2.81"), ("6 BA", "2.48", "2.16")]
)  # fmt: skip
def test_ba_diameters_are_those_printed(name: str, pitch_diameter: str, minor: str) -> None:
    """BS 93: effective and minor diameters, mm, printed to 5 hundredths of a mm (recalled: memory)."""
    sizes = dimensions(thread(name))
    assert abs(sizes.pitch_diameter - Decimal(pitch_diameter)) <= Decimal("0.0025")
    assert abs(sizes.minor - Decimal(minor)) <= Decimal("0.005")
    assert sizes.angle == Decimal("47.5")


@pytest.mark.parametrize(
    ("size", "plane_mm", "height_mm", "small_end_in"),
    [("1/8", "9.489", "0.753", "0.36351"), ("1/4", "12.487", "1.129", "0.47739"),
    ("3/8", "15.926", "1.129", "0.61201"),
     ("1/2", "19.772", "1.451", "0.75843"), ("3/4", "25.117", "1.451", "0.96768"),
     ("1", "31.461", "1.767", "1.21363")],
)  # fmt: skip
def test_national_pipe_sizes_are_those_printed(
    size: str, plane_mm: str, height_mm: str, small_end_in: str
) -> None:
    """ASME B1.20.1 by way of a pipe stockholder's printed table: E1 in mm, height of thread, E0 in inches."""
    sizes = dimensions(thread(f"{size} NPT"))
    height = Decimal(height_mm)
    assert abs(sizes.pitch_diameter - Decimal(plane_mm)) <= MM
    assert abs(sizes.major - sizes.pitch_diameter - height) <= MM
    assert abs(sizes.pitch_diameter - sizes.minor - height) <= MM
    small_end = (sizes.pitch_diameter - sizes.taper * sizes.to_plane) / Decimal("25.4")
    assert abs(small_end - Decimal(small_end_in)) <= Decimal("0.00002")


def test_only_the_letters_that_say_taper_have_a_taper() -> None:
    """ISO 7-1: R and Rc taper 1 in 16 on the diameter, Rp is parallel; ASME B1.20.1: NPT tapers 1 in 16."""
    taper = {
        name: dimensions(thread(name)).taper
        for name in ("R1/8", "Rc1/8", "Rp1/8", "G1/8", "1/8 NPT", "1/8 NPTF", "M10x1")
    }
    sixteenth = Decimal(1) / 16
    assert taper == {
        "R1/8": sixteenth,
        "Rc1/8": sixteenth,
        "Rp1/8": 0,
        "G1/8": 0,
        "1/8 NPT": sixteenth,
        "1/8 NPTF": sixteenth,
        "M10x1": 0,
    }


def test_the_hand_and_the_tolerance_class_change_no_dimension() -> None:
    """Basic sizes belong to the row alone."""
    assert dimensions(thread("M14x1.5-6g LH")) == dimensions(thread("M14x1.5"))
