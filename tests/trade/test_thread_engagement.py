"""Clearance, overlap and turns against pairs worked out elsewhere, printed limits and the textbook rule."""

from __future__ import annotations

from decimal import Decimal
from itertools import product

import msgspec
import pytest

from fitlore.trade.thread.tolerance import allowance, largest_female, smallest_male
from fitlore.trade.threads import ThreadDimensions, axial_clearance, dimensions, engage, pitches_engaged
from tests.trade.loading import STANDARDS, table, thread

MICRON = Decimal("0.001")


@pytest.mark.parametrize("row", table("near_misses.csv"), ids=lambda row: f"{row['male']} in {row['female']}")
def test_pairs_confused_in_practice_have_the_figures_worked_out_elsewhere(row: dict[str, str]) -> None:
    """Clearance, turns from the lead error alone, overlap: a separate calculation from the same published sizes.

    It rounded its diameters to a micrometre or two, hence the play; of tapers it takes the gauge plane.
    """
    male, female = dimensions(thread(row["male"])), dimensions(thread(row["female"]))
    clearance = axial_clearance(male, female)
    assert abs(clearance - Decimal(row["clearance"])) <= Decimal("0.0003")
    error = abs(male.pitch - female.pitch)
    assert bool(error) is bool(row["turns"])
    if error:
        assert clearance / error == pytest.approx(Decimal(row["turns"]), abs=Decimal("0.02"))
    overlap = engage(male, female).overlap * 100
    assert abs(overlap - Decimal(row["overlap"])) <= Decimal("0.6")


def at_limits(name: str, female: bool, loosest: bool) -> ThreadDimensions:
    """A thread at the limits that ISO 965-2 prints for 6g and 6H."""
    row = next(row for row in table("iso_965_limits.csv") if row["thread"] == name)
    sizes = dimensions(thread(name))
    if female:
        ends = (
            ("female_minor_max", "female_pitch_max") if loosest else ("female_minor_min", "female_pitch_min")
        )
        return msgspec.structs.replace(
            sizes, minor=Decimal(row[ends[0]]), pitch_diameter=Decimal(row[ends[1]])
        )
    ends = ("male_major_min", "male_pitch_min") if loosest else ("male_major_max", "male_pitch_max")
    return msgspec.structs.replace(sizes, major=Decimal(row[ends[0]]), pitch_diameter=Decimal(row[ends[1]]))


@pytest.mark.parametrize(
    ("male", "female", "least", "most"),
    [("M10x1.25", "M10x1.5", ("0.0476", "0.19"), ("0.2197", "0.88")),
    ("M10x1.5", "M10x1.25", ("-0.013", "-0.05"), ("0.1556", "0.62"))],
)  # fmt: skip
def test_a_bolt_of_the_neighbouring_pitch_jams_within_its_first_turn_at_every_limit(
    male: str, female: str, least: tuple[str, str], most: tuple[str, str]
) -> None:
    """6g bolt, 6H nut, ISO 965-2 limits: clearance and turns worked out apart from the program."""
    for loosest, (clearance, turns) in ((False, least), (True, most)):
        pair = at_limits(male, female=False, loosest=loosest), at_limits(female, female=True, loosest=loosest)
        assert abs(axial_clearance(*pair) - Decimal(clearance)) <= Decimal("0.0001")
        found = pitches_engaged(*pair)
        assert found is not None
        assert abs(found - Decimal(turns)) <= Decimal("0.006")


@pytest.mark.parametrize(
    ("name", "cotangent"), [("M10x1", "1.7321"), ("3/8 BSW", "1.9210"), ("2 BA", "2.2727")]
)
def test_a_pitch_error_acts_as_the_textbook_says(name: str, cotangent: str) -> None:
    """Screw-thread metrology: an accumulated pitch error dP needs dP cot(a) more effective diameter to pass.

    1.732 for 60 degrees and 1.921 for 55 are printed in metrology course notes; 47.5 follows from the angle.
    """
    male = dimensions(thread(name))
    error = Decimal("0.05")
    opened = male.pitch_diameter + error * Decimal(cotangent)
    female = msgspec.structs.replace(male, pitch_diameter=opened)
    assert abs(axial_clearance(male, female) - error) <= Decimal("0.00001")


@pytest.mark.parametrize("row", table("iso_965_limits.csv"), ids=lambda row: row["thread"])
def test_the_loosest_metric_pair_is_met_within_a_fifteenth(row: dict[str, str]) -> None:
    """ISO 965-1 formulas against the printed limits of ISO 965-2, which are rounded after their own rules."""
    sizes = dimensions(thread(row["thread"]))
    thin, wide = smallest_male(sizes), largest_female(sizes)
    printed = Decimal(row["female_pitch_max"]) - Decimal(row["male_pitch_min"])
    assert wide.pitch_diameter - thin.pitch_diameter == pytest.approx(printed, rel=Decimal(1) / 15)
    assert abs(thin.major - Decimal(row["male_major_min"])) <= 9 * MICRON


@pytest.mark.parametrize("row", table("asme_b1_1_limits.csv"), ids=lambda row: row["thread"])
def test_the_loosest_unified_pair_is_covered(row: dict[str, str]) -> None:
    """ASME B1.1-2019, 2A against 2B: the estimate lets at least as much through, and the crests agree."""
    sizes = dimensions(thread(row["thread"]))
    thin, wide = smallest_male(sizes), largest_female(sizes)
    printed = (Decimal(row["female_pitch_max"]) - Decimal(row["male_pitch_min"])) * Decimal("25.4")
    assert printed <= wide.pitch_diameter - thin.pitch_diameter <= printed * Decimal("1.3")
    assert abs(thin.major - Decimal(row["male_major_min"]) * Decimal("25.4")) <= 6 * MICRON


@pytest.mark.parametrize("row", table("iso_228_1.csv"), ids=lambda row: row["size"])
def test_the_loosest_parallel_pipe_pair_is_covered(row: dict[str, str]) -> None:
    """ISO 228-1: the pitch diameters of male (class A) and female may lie one tolerance apart each."""
    sizes = dimensions(thread(f"G{row['size']}"))
    play = largest_female(sizes).pitch_diameter - smallest_male(sizes).pitch_diameter
    assert play >= 2 * Decimal(row["pitch_tolerance"])


def test_allowances_are_those_of_iso_965() -> None:
    """ISO 965-1 for M10x1 as printed: g lies 26 um under, Td 180, Td2 112, TD2 150, TD1 236 (formula within 6 um)."""
    printed = (26, 180, 112, 150, 236)
    for value, microns in zip(allowance(Decimal(10), Decimal(1)), printed, strict=True):
        assert abs(value * 1000 - microns) <= 6


def test_one_diameter_with_two_listed_metric_pitches_takes_no_whole_turn() -> None:
    """What parts the trap from the jam: in every listed pair of equal diameter, M3 and up, the loosest stay under a turn."""
    metric = [row for row in STANDARDS.threads if row.family.value.startswith("metric") and row.major >= 3]
    pairs = [(a, b) for a, b in product(metric, metric) if a.major == b.major and a.pitch != b.pitch]
    assert len(pairs) > 100
    for a, b in pairs:
        male, female = (dimensions(thread(f"M{row.size}x{row.pitch}")) for row in (a, b))
        most = engage(male, female).turns_loosest
        assert most is not None
        assert most < 1


def test_a_taper_uses_up_its_own_growth() -> None:
    """1/2 pipe: equal threads per inch, so a parallel pair would never bind, but the taper wedges after a few turns."""
    taper, parallel = dimensions(thread("1/2 NPT")), dimensions(thread("G1/2"))
    found = engage(taper, parallel)
    assert found.pitch_error == 0
    assert found.turns == pytest.approx(Decimal("3.66"), abs=Decimal("0.01"))
    without = msgspec.structs.replace(
        taper, taper=Decimal(0), pitch_diameter=taper.pitch_diameter - taper.taper * taper.to_plane
    )
    assert pitches_engaged(without, parallel) is None


def test_a_taper_male_of_the_right_thread_goes_in_about_to_its_gauge_plane() -> None:
    """ASME B1.20.1: hand-tight at L1, which for 1/8 NPT is 4.36 turns (printed); the same falls out of the geometry."""
    sizes = dimensions(thread("1/8 NPT"))
    found = engage(sizes, sizes)
    assert found.turns == pytest.approx(Decimal("4.36"), abs=Decimal("0.01"))
