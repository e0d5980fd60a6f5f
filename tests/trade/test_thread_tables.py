"""The built-in thread tables against formulas, reference packages and printed values."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from fitlore.trade.standards import Certainty, Family
from fitlore.trade.thread.rows import size_value
from fitlore.trade.threads import Thread, dimensions, normal, read
from tests.trade.loading import PROBLEMS, STANDARDS, TABLE, table, thread

INCH = Decimal("25.4")
ROWS = {normal(Thread(row, row.family)): row for row in STANDARDS.threads}


def of(*families: Family) -> list[Thread]:
    """All threads of some series, in the table's order."""
    return [Thread(row, row.family) for row in STANDARDS.threads if row.family in families]


def test_every_row_of_the_table_file_is_taken_and_none_is_faulty() -> None:
    """No problem is reported, and as many rows arrive as the file has lines that hold one."""
    written = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if line.startswith("  - ")]
    assert PROBLEMS == []
    assert len(STANDARDS.threads) == len(written) > 250


def test_every_row_tells_its_line_source_and_certainty() -> None:
    """The proof of a figure is the line it stands on: the row read from there has these very figures."""
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    for row in STANDARDS.threads:
        line = lines[row.origin.line - 1]
        assert str(row.major) in line
        assert row.source in line
        assert row.certainty.value in line


def test_only_the_sealing_pipe_thread_rests_on_memory() -> None:
    """Rows that nobody looked up again are few and known: ISO 7-1, whose gauge lengths are recalled."""
    recalled = {row.family for row in STANDARDS.threads if row.certainty is Certainty.MEMORY}
    assert recalled == {Family.R}


def test_no_designation_stands_for_two_rows() -> None:
    """Normal forms are one to one with rows."""
    assert len(ROWS) == len(STANDARDS.threads)


def test_every_diameter_of_iso_262_has_its_coarse_pitch() -> None:
    """ISO 262:1998, selected sizes for bolts, screws and nuts: diameters from 1.6 to 39 mm with the coarse pitch."""
    printed = (
        "1.6x0.35 2x0.4 2.5x0.45 3x0.5 3.5x0.6 4x0.7 5x0.8 6x1 7x1 8x1.25 10x1.5 12x1.75 14x2 16x2 18x2.5 20x2.5 "
        "22x2.5 24x3 27x3 30x3.5 33x3.5 36x4 39x4"
    )
    for size in printed.split():
        assert ROWS[f"M{size}"].family is Family.METRIC_COARSE


def test_every_fine_pitch_of_iso_262_is_there() -> None:
    """ISO 262:1998, fine pitches from 8 to 39 mm."""
    printed = "8x1 10x1.25 10x1 12x1.5 12x1.25 14x1.5 16x1.5 18x2 18x1.5 20x2 20x1.5 22x2 22x1.5 24x2 27x2 30x2 33x2 36x3 39x3"
    for size in printed.split():
        assert ROWS[f"M{size}"].family is Family.METRIC_FINE


@pytest.mark.parametrize("row", table("listed_sizes.csv"), ids=lambda row: row["size"])
def test_a_size_with_a_listed_tapping_drill_is_in_the_tables_unless_its_reason_is_known(
    row: dict[str, str],
) -> None:
    """Reference package bd-warehouse 0.4.0, tapping drills; sizes not carried are listed with the reason."""
    size = row["size"]
    found = read(size, STANDARDS)
    known = isinstance(found, Thread) or bool(found.readings)
    assert known is not bool(row["why-not"]), found


def test_number_sizes_are_sixty_thou_and_thirteen_for_each_number() -> None:
    """ASME B1.1: basic major diameter of number size N is 0.060 + 0.013 N inches."""
    numbered = [row for row in STANDARDS.threads if row.size.startswith("#")]
    assert len(numbered) == 20
    for row in numbered:
        assert row.major == Decimal("0.060") + Decimal("0.013") * int(row.size[1:])


def test_fraction_sizes_are_their_major_diameter() -> None:
    """Unified and Whitworth inch sizes name the basic major diameter itself."""
    for row in STANDARDS.threads:
        if row.family.value in {"UNC", "UNF", "UNEF", "UN", "UNS", "BSW", "BSF"} and not row.size.startswith(
            "#"
        ):
            assert size_value(row.size) == Fraction(row.major)


@pytest.mark.parametrize("row", table("asme_b1_1_limits.csv"), ids=lambda row: row["thread"])
def test_unified_sizes_agree_with_the_limits_asme_prints(row: dict[str, str]) -> None:
    """ASME B1.1-2019 by way of screw-thread-lib 0.0.6: the least female pitch diameter is the basic one."""
    sizes = dimensions(thread(row["thread"]))
    assert sizes.major == Decimal(row["major"]) * INCH
    assert abs(sizes.pitch_diameter / INCH - Decimal(row["female_pitch_min"])) <= Decimal("0.00006")
    assert abs(sizes.minor / INCH - Decimal(row["female_minor_min"])) <= Decimal("0.0005")  # printed to 0.001


def test_british_sizes_have_the_threads_per_inch_of_bs_84() -> None:
    """BS 84 by way of a gauge maker's printed list of sizes, which has BSW and BSF side by side."""
    printed = {
        "1/8": (40, None), "3/16": (24, 32), "7/32": (None, 28), "1/4": (20, 26), "5/16": (18, 22), "3/8": (16, 20),
        "7/16": (14, 18), "1/2": (12, 16), "9/16": (12, 16), "5/8": (11, 14), "11/16": (11, 14), "3/4": (10, 12),
        "7/8": (9, 11), "1": (8, 10),
    }  # fmt: skip
    for size, (coarse, fine) in printed.items():
        for series, tpi in (("BSW", coarse), ("BSF", fine)):
            if tpi is not None:
                assert thread(f"{size} {series}").row.tpi == tpi


def test_ba_sizes_follow_the_rule_of_bs_93() -> None:
    """BS 93: pitch 0.9^k mm to two figures, diameter 6 p^1.2 mm to two figures."""
    sizes = of(Family.BA)
    assert [one.row.size for one in sizes] == [str(k) for k in range(13)]
    for k, one in enumerate(sizes):
        pitch = 0.9**k
        assert float(one.row.pitch or 0) == float(f"{pitch:.2g}")
        assert float(one.row.major) == pytest.approx(6 * float(one.row.pitch or 0) ** 1.2, abs=0.051)


def test_ba_diameters_are_the_printed_inches() -> None:
    """A printed table of BA outside diameters in inches, 0 BA to 12 BA (third decimal cut, not rounded, at 12)."""
    printed = "0.2362 0.2087 0.1850 0.1614 0.1417 0.1260 0.1102 0.0984 0.0866 0.0748 0.0669 0.0591 0.0511"
    for one, inches in zip(of(Family.BA), printed.split(), strict=True):
        assert abs(one.row.major / INCH - Decimal(inches)) <= Decimal("0.0001")


@pytest.mark.parametrize("row", table("iso_228_1.csv"), ids=lambda row: row["size"])
def test_parallel_pipe_sizes_agree_with_the_reference_package(row: dict[str, str]) -> None:
    """ISO 228-1 by way of bd-warehouse 0.4.0: all three diameters and the threads per inch."""
    found = thread(f"G{row['size']}").row
    written = (found.tpi, found.major, found.pitch_diameter, found.minor)
    assert written == tuple(
        Decimal(row[k]) for k in ("tpi", "major_diameter", "pitch_diameter", "minor_diameter")
    )


def test_pipe_diameters_have_the_whitworth_depth() -> None:
    """ISO 228-1 and ISO 7-1: depth 0.640327 P, printed to a thousandth."""
    for one in of(Family.G, Family.R):
        sizes = dimensions(one)
        depth = Decimal("0.640327") * sizes.pitch
        assert abs(sizes.major - sizes.pitch_diameter - depth) <= Decimal("0.001")
        assert abs(sizes.pitch_diameter - sizes.minor - depth) <= Decimal("0.001")


def test_sealing_and_parallel_pipe_threads_share_their_diameters() -> None:
    """ISO 7-1 at the gauge plane equals ISO 228-1; its sizes leave out 5/8 and 7/8."""
    parallel = {one.row.size: one for one in of(Family.G)}
    taper = {one.row.size: one for one in of(Family.R)}
    assert parallel.keys() - taper.keys() == {"5/8", "7/8"}
    for size, one in taper.items():
        assert (one.row.major, one.row.tpi) == (parallel[size].row.major, parallel[size].row.tpi)


def test_national_pipe_diameters_follow_the_formula_of_asme_b1_20_1() -> None:
    """ASME B1.20.1: E0 = D - (0.05 D + 1.1)/n and E1 = E0 + L1/16, all in inches; E1 is printed to 0.00001."""
    assert len(of(Family.NPT)) == 7
    for one in of(Family.NPT):
        row = one.row
        assert row.tpi is not None
        assert row.length is not None
        assert row.pitch_diameter is not None
        small_end = row.major - (Decimal("0.05") * row.major + Decimal("1.1")) / row.tpi
        assert abs(small_end + row.length / 16 - row.pitch_diameter) <= Decimal("0.00007")
