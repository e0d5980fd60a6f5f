"""Spanners and hexagons: names, near misses in their direction, sizes against tables."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitlore.trade.spanner.family import free_turn, less_at_most
from tests.trade.families import STANDARDS, ask, normal, refused
from tests.trade.loading import table

KIND = "spanner"
INCH = Decimal("25.4")


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("13 mm AF", "13 mm AF"), ("19 a/f", "19 mm AF"), ("17mm spanner", "17 mm AF"), ("hexagon 22", "22 mm AF"),
        ("SW 13", "13 mm AF"), ("5,5 mm AF", "5.5 mm AF"), ("1/2 AF", "1/2 AF"), ('9/16" A/F', "9/16 AF"),
        ("1-1/8 AF", "1 1/8 AF"), ("5/16 W", "5/16 W"), ("5/16 Whit spanner", "5/16 W"), ("3/8 BSF spanner", "5/16 W"),
        ("3/8 BS", "5/16 W"), ("2 BA spanner", "2 BA spanner"), ("M10 DIN hexagon", "17 mm AF"),
        ("M10 ISO hexagon", "16 mm AF"), ("hexagon of M12 JIS", "17 mm AF"), ("1/2 UNF hexagon", "3/4 AF"),
        ("7/16 UNF nut hexagon", "11/16 AF"), ("7/16 UNF bolt hexagon", "5/8 AF"),
    ],
)  # fmt: skip
def test_spanners_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Across flats in mm and inches; Whitworth, BSF and BA names mean the bolt, and BSF is one size up (BS 190)."""
    assert normal(KIND, text) == read


def test_a_bolt_whose_head_was_made_in_several_sizes_is_a_question() -> None:
    """ISO 272, DIN 931 and the Japanese small series differ at M10, M12, M14 and M22."""
    assert refused(KIND, "M10 hexagon").readings == ("16 mm AF", "17 mm AF", "14 mm AF")
    assert refused(KIND, "M14 hexagon").readings == ("21 mm AF", "22 mm AF", "19 mm AF")
    assert refused(KIND, "7/16 UNF hexagon").readings == ("5/8 AF", "11/16 AF")
    assert normal(KIND, "M6 hexagon") == "10 mm AF"
    assert refused(KIND, "13.5 mm AF").expected[0] == "13 mm AF"


@pytest.mark.parametrize(
    ("needed", "offered", "state"),
    [
        ("13 mm AF", "1/2 AF", "trap"), ("1/2 AF", "13 mm AF", "off"), ("19 mm AF", "3/4 AF", "ok"), ("3/4 AF", "19 mm AF", "ok"),
        ("18 mm AF", "3/8 W", "ok"), ("3/8 W", "18 mm AF", "ok"), ("16 mm AF", "5/8 AF", "ok"), ("5/8 AF", "16 mm AF", "off"),
        ("9/16 AF", "14 mm AF", "trap"), ("14 mm AF", "9/16 AF", "off"), ("8 mm AF", "5/16 AF", "ok"),
        ("7/16 AF", "11 mm AF", "ok"), ("11 mm AF", "7/16 AF", "off"), ("21 mm AF", "7/16 W", "ok"),
        ("5/8 AF", "5/16 W", "trap"), ("5/16 W", "5/8 AF", "off"), ("17 mm AF", "16 mm AF", "trap"),
        ("16 mm AF", "17 mm AF", "off"), ("19 mm AF", "17 mm AF", "off"), ("1/4 W", "13 mm AF", "trap"),
        ("5/16 W", "3/8 BSF spanner", "ok"), ("M10 DIN hexagon", "M10 ISO hexagon", "trap"), ("13 mm AF", "13", "unreadable"),
    ],
)  # fmt: skip
def test_a_spanner_holds_or_rounds_or_does_not_go_on(needed: str, offered: str, state: str) -> None:
    """Which pairs serve is common practice; direction matters, for the bigger jaw goes on and the smaller does not."""
    assert ask(KIND, needed, offered).state == state


def test_a_half_inch_head_in_a_thirteen_millimetre_spanner_is_told_apart() -> None:
    """0.30 mm of play lets it turn 2.4 degrees before it bites (geometry of a hexagon in a parallel jaw)."""
    because = ask(KIND, "13 mm AF", "1/2 AF").because
    assert (because.code, because.values["play"], because.under[0].values["turn"]) == (
        "spanner-rounds",
        "0.30 mm",
        "2.4 degrees",
    )


@pytest.mark.parametrize("share", ["1.0001", "1.02", "1.05", "1.1", "1.154"])
def test_the_free_turn_is_that_of_a_hexagon_in_a_jaw(share: str) -> None:
    """The hexagon's width across, turned by that angle, is the jaw: worked out again from its six corners."""
    import math

    angle = math.radians(free_turn(Decimal(share), Decimal(1)))
    corners = [(math.cos(angle + math.pi / 3 * k), math.sin(angle + math.pi / 3 * k)) for k in range(6)]
    width = (max(y for _, y in corners) - min(y for _, y in corners)) / 2 / math.cos(math.pi / 6)
    assert width == pytest.approx(float(share), abs=1e-9)
    assert free_turn(Decimal("1.2"), Decimal(1)) == 30


@pytest.mark.parametrize("row", table("hexagons_metric.csv"), ids=lambda row: f"M{row['bolt']}")
def test_metric_hexagons_agree_with_the_reference_package(row: dict[str, str]) -> None:
    """bd-warehouse 0.4.0 (52 values): DIN 931 against our DIN rows; ISO 4014, 4017 and 4032 against our ISO rows."""
    ours = {
        one.word("rule"): one.number("flats")
        for one in STANDARDS.table("hexagon-metric").find(bolt=row["bolt"])
    }
    assert ours["DIN"] == Decimal(row["din931"])
    assert {ours["ISO"]} == {Decimal(row[name]) for name in ("iso4014", "iso4017", "iso4032")}


@pytest.mark.parametrize("row", table("hexagons_inch.csv"), ids=lambda row: row["bolt"])
def test_inch_hexagons_agree_with_an_open_fastener_table(row: dict[str, str]) -> None:
    """ASME B18.2.1 by its greatest size (9 values), B18.2.2 by its least (10 values): at most 2.2 per cent under ours."""
    ours = {
        one.word("rule"): one.number("flats") * INCH
        for one in STANDARDS.table("hexagon-inch").find(bolt=row["bolt"])
    }
    if row["b18.2.1"]:
        assert abs(ours["bolt"] - Decimal(row["b18.2.1"])) <= Decimal("0.001")
    assert Decimal("0.978") <= Decimal(row["b18.2.2-least"]) / ours["nut"] < 1


@pytest.mark.parametrize(
    ("flats", "least"),
    [("5.5", "5.32"), ("7", "6.78"), ("8", "7.78"), ("10", "9.78"), ("13", "12.73"), ("16", "15.73"), ("18", "17.73"),
     ("21", "20.67"), ("24", "23.67"), ("30", "29.67"), ("34", "33.38"), ("36", "35.38")],
)  # fmt: skip
def test_the_least_new_hexagon_is_that_printed(flats: str, least: str) -> None:
    """ISO 4014, product grade A, least width across flats (12 values; 9.78, 12.73 and 15.73 seen printed, others memory)."""
    assert Decimal(flats) - less_at_most(Decimal(flats)) == Decimal(least)


PRINTED = {
    "3/16 W": 11.30, "1/4 W": 13.335, "5/16 W": 15.24, "3/8 W": 18.034, "7/16 W": 20.828, "1/2 W": 23.368, "9/16 W": 25.654,
    "5/8 W": 27.94, "11/16 W": 30.48, "3/4 W": 33.02, "5/16 AF": 7.94, "11/32 AF": 8.74, "3/8 AF": 9.52, "7/16 AF": 11.11,
    "1/2 AF": 12.70, "9/16 AF": 14.288, "5/8 AF": 15.875, "11/16 AF": 17.463, "3/4 AF": 19.05, "13/16 AF": 20.637,
}  # fmt: skip


@pytest.mark.parametrize(("name", "flats"), PRINTED.items())
def test_spanner_names_have_the_printed_sizes(name: str, flats: float) -> None:
    """A printed table of equivalent sockets and spanners (20 values in mm, BS 190 and AF)."""
    sized = next(one for one in _sizes() if one[0] == name)
    assert abs(float(sized[1]) - flats) <= 0.011


def test_bsf_is_one_size_up_on_one_hexagon() -> None:
    """BS 190 by way of the same printed table (10 pairs): 3/16 W is 1/4 BSF and so on to 3/4 W and 7/8 BSF."""
    pairs = {
        row.word("size"): row.word("bsf")
        for row in STANDARDS.table("spanner-whitworth").rows
        if row.word("bsf")
    }
    assert pairs == {
        "3/16": "1/4", "1/4": "5/16", "5/16": "3/8", "3/8": "7/16", "7/16": "1/2", "1/2": "9/16", "9/16": "5/8",
        "5/8": "11/16", "11/16": "3/4", "3/4": "7/8",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("size", "inches"),
    [("0", ".413"), ("2", ".324"), ("4", ".248"), ("6", ".193"), ("8", ".152"), ("10", ".117")],
)
def test_ba_hexagons_are_the_printed_inches(size: str, inches: str) -> None:
    """BS 57 hexagons in inches (memory, 6 values) against BS 93's 1.75 times the diameter."""
    row = STANDARDS.table("spanner-ba").find(size=size)[0]
    assert abs(row.number("flats") - Decimal(inches)) <= Decimal("0.001")


def _sizes() -> list[tuple[str, Decimal]]:
    from fitlore.trade.family import FAMILIES

    return [(one.designation, one.bands["across-flats"].high) for one in FAMILIES[KIND].sizes(STANDARDS)]
