"""The tables of rolling bearings: sound, readable, and alike with figures published elsewhere."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

import pytest

from fitlore.trade.bearing.tables import GROUPS, bore_by_code
from fitlore.trade.family import FAMILIES
from fitlore.trade.result import Reading
from tests.trade.families import PROBLEMS, STANDARDS, normal
from tests.trade.loading import table

SIZES = STANDARDS.table("bearing-size")
SETS = STANDARDS.table("inch-taper-set")
LIBRARY = [row for row in table("bearings.csv") if SIZES.find(designation=row["designation"])]
SERIES = table("iso_15_series.csv")
OPEN_SMALL = [
    ("608", 8, 22, 7), ("629", 9, 26, 8), ("635", 5, 19, 6), ("6403", 17, 62, 17), ("61800", 10, 19, 5),
    ("61802", 15, 24, 5), ("61804", 20, 32, 7), ("61806", 30, 42, 7), ("61900", 10, 22, 6), ("61902", 15, 28, 7),
    ("61904", 20, 37, 9), ("61905", 25, 42, 9), ("61908", 40, 62, 12), ("16004", 20, 42, 8), ("16005", 25, 47, 8),
    ("16100", 10, 28, 8), ("16101", 12, 30, 8),
]  # fmt: skip
OPEN_OTHER = [
    ("30207", 35, 72, "18.25"), ("30208", 40, 80, "19.75"), ("30209", 45, 85, "20.75"), ("30210", 50, 90, "21.75"),
    ("32208", 40, 80, "24.75"), ("32008X", 40, 68, "19"), ("51105", 25, 42, "11"), ("51100", 10, 24, "9"), ("51101", 12, 26, "9"),
    ("51104", 20, 35, "10"), ("51106", 30, 47, "11"), ("51205", 25, 47, "15"), ("51208", 40, 68, "19"),
    ("HK1210", 12, 16, "10"), ("HK2520", 25, 32, "20"), ("NA4905", 25, 42, "17"), ("NU210", 50, 90, "20"),
    ("NJ308", 40, 90, "23"), ("1205", 25, 52, "15"), ("2206", 30, 62, "20"),
]  # fmt: skip


def test_every_row_is_usable() -> None:
    """No row of this room's tables is left out for a fault."""
    assert PROBLEMS == []


def test_every_listed_bearing_can_be_written_and_read() -> None:
    """Each designation of each table is its own normal form; no two rows share one."""
    names = [row.word("designation") for row in SIZES.rows]
    names += [f"{row.word('cone')}/{row.word('cup')}" for row in SETS.rows]
    assert [normal("bearing", name) for name in names] == names
    assert len(set(names)) == len(names) > 500


def test_every_ring_of_an_inch_set_can_be_read_by_itself() -> None:
    """Cones and cups are sold singly."""
    for row in SETS.rows:
        assert normal("bearing", row.word("cone")) == row.word("cone")
        assert normal("bearing", row.word("cup")) == row.word("cup")


def test_every_suffix_is_read_behind_a_number() -> None:
    """Angle letters go behind angular-contact numbers, the others behind any."""
    for row in STANDARDS.table("bearing-suffix").rows:
        base = "7205" if row.word("says") == "angle" else "6205"
        assert isinstance(FAMILIES["bearing"].read(f"{base} {row.word('suffix')}", STANDARDS), Reading)


@pytest.mark.parametrize("row", LIBRARY, ids=lambda row: row["designation"])
def test_sizes_agree_with_a_reference_library(row: dict[str, str]) -> None:
    """bd-warehouse 0.4.0, its bearing tables: bore, outside and width of each bearing listed there and here."""
    ours = SIZES.find(designation=row["designation"])[0]
    assert [ours.number(name) for name in ("bore", "outside", "width")] == [
        Decimal(row[name]) for name in ("bore", "outside", "width")
    ]


def test_the_library_covers_enough_to_be_a_check() -> None:
    """Three values each; the taper rows were taken from there, the ball and roller rows were not."""
    assert len(LIBRARY) >= 35
    assert sum(not row["designation"].startswith("3") for row in LIBRARY) >= 9


@pytest.mark.parametrize("row", SERIES, ids=lambda row: row["designation"])
def test_three_series_agree_with_a_published_table(row: dict[str, str]) -> None:
    """An open table after ISO 15:2017 and GB/T 276-2013, series 60, 62 and 63 up to bore 60: 117 values."""
    ours = SIZES.find(designation=row["designation"])[0]
    assert {name: ours.cell(name) for name in ("bore", "outside", "width")} == {
        name: row[name] for name in ("bore", "outside", "width")
    }


@pytest.mark.parametrize(("name", "bore", "outside", "width"), [*OPEN_SMALL, *OPEN_OTHER])
def test_other_forms_agree_with_open_tables(name: str, bore: int, outside: int, width: object) -> None:
    """Open CAD data (BOSL2 ball_bearings) and an open dimension table, read in November 2026: 96 values."""
    ours = SIZES.find(designation=name)[0]
    assert [ours.number("bore"), ours.number("outside")] == [bore, outside]
    assert ours.number("width") == Decimal(str(width))


def test_a_known_misprint_of_open_data_is_not_copied() -> None:
    """16002 has outside 32 (ISO 15 diameter series 0, as 6002); one open table prints 22."""
    assert SIZES.find(designation="16002")[0].cell("outside") == SIZES.find(designation="6002")[0].cell(
        "outside"
    )


@pytest.mark.parametrize(
    ("name", "bore"),
    [("6200", 10), ("6201", 12), ("6202", 15), ("6203", 17), ("6204", 20), ("6212", 60), ("62/22", 22), ("320/28", 28),
     ("608", 8), ("635", 5), ("HK1612", 16), ("NU205", 25), ("32008X", 40), ("51106", 30), ("NA4904", 20), ("6020", 100)],
)  # fmt: skip
def test_the_number_says_the_bore(name: str, bore: int) -> None:
    """Bore codes of ISO 15 numbers, as printed in makers' and teaching texts alike (common practice): 16 values."""
    assert bore_by_code(name) == bore


def test_one_dimension_series_serves_several_forms() -> None:
    """ISO 15: 62, 72, NU 2 and 12 of one bore code share bore, outside and width; so do 63, 73, NU 3 and 13."""
    for code in range(2, 11):
        for lead, series in (("62", ("72", "NU2", "12")), ("63", ("73", "NU3", "13"))):
            sizes = {
                tuple(
                    SIZES.find(designation=f"{name}{code:02d}")[0].cell(part)
                    for part in ("bore", "outside", "width")
                )
                for name in (lead, *series)
            }
            assert len(sizes) == 1


def test_groups_of_clearance_follow_each_other() -> None:
    """ISO 5753-1: each group starts above the one before and below its end, for every bore."""
    rows = STANDARDS.table("bearing-clearance").rows
    for over in {row.cell("over") for row in rows}:
        steps = [STANDARDS.table("bearing-clearance").find(group=group, over=over)[0] for group in GROUPS]
        for less, more in pairwise(steps):
            assert less.number("low") < more.number("low") < less.number("high") < more.number("high")


@pytest.mark.parametrize(
    ("bore", "group", "low", "high"),
    [(17, "C2", 0, 9), (17, "CN", 3, 18), (17, "C3", 11, 25), (25, "CN", 5, 20), (25, "C3", 13, 28), (25, "C4", 23, 41),
     (35, "C3", 15, 33), (45, "CN", 6, 23), (60, "C3", 23, 43), (70, "C4", 46, 71), (90, "C5", 75, 120)],
)  # fmt: skip
def test_clearance_is_as_printed(bore: int, group: str, low: int, high: int) -> None:
    """ISO 5753-1 as printed in a public table of radial clearance, in micrometres: 22 values."""
    found = [
        row
        for row in STANDARDS.table("bearing-clearance").find(group=group)
        if row.number("over") < bore <= row.number("up-to")
    ]
    assert [(row.number("low"), row.number("high")) for row in found] == [(low, high)]


@pytest.mark.parametrize(("bore", "tolerance"), [(10, 8), (17, 8), (25, 10), (40, 12), (60, 15), (90, 20)])
def test_bore_tolerance_is_as_printed(bore: int, tolerance: int) -> None:
    """ISO 492 class Normal, mean bore deviation in micrometres, as printed in a public handbook table: 6 values."""
    found = [
        row.number("tolerance")
        for row in STANDARDS.table("bearing-tolerance").find(of="bore")
        if row.number("over") < bore <= row.number("up-to")
    ]
    assert found == [tolerance]


def test_inch_sets_are_inches() -> None:
    """ABMA 19.2 bores that are round fractions: 3/4, 1, 1 1/4, 1 3/8, 1 1/2 and 1 5/8 inch, to a thousandth of a mm."""
    for cone, inches in (("LM11949", "0.75"), ("L44643", "1"), ("LM67048", "1.25"), ("LM48548", "1.375"),
                         ("LM29749", "1.5"), ("LM501349", "1.625")):  # fmt: skip
        assert abs(SETS.find(cone=cone)[0].number("bore") - Decimal(inches) * Decimal("25.4")) < Decimal(
            "0.001"
        )
