"""Strength of bolts and nuts: readings, comparisons in their direction, and loads against printed tables."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitlore.trade.property_class.strength import bolt_row, proof_load, stress_area
from tests.trade.families import STANDARDS, ask, codes, normal, refused
from tests.trade.loading import table, thread

KIND = "property-class"
CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("8.8", "8.8"), ("8,8", "8.8"), ("class 10.9", "10.9"), ("property class 12.9", "12.9"), ("ISO class 5.6", "5.6"),
        ("nut class 8", "nut 8"), ("class 8", "nut 8"), ("nut 10", "nut 10"), ("|8|", "nut 8"), ("8.8 nut", "nut 8"),
        ("nut for 10.9", "nut 10"), ("nut 05", "nut 05"), ("SAE grade 5", "SAE grade 5"), ("grade 8", "SAE grade 8"),
        ("Gr 5", "SAE grade 5"), ("SAE J429 grade 8.2", "SAE grade 8.2"), ("three radial lines", "SAE grade 5"),
        ("6 lines on the head", "SAE grade 8"), ("five lines", "SAE grade 7"), ("BS S", "BS S"), ("grade T", "BS T"),
        ("BS 1768 grade V", "BS V"), ("7T", "JIS 7T"), ("JIS 10T", "JIS 10T"), ("A2-70", "A2-70"), ("a4 80", "A4-80"),
    ],
)  # fmt: skip
def test_classes_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """ISO 898-1 and -2, SAE J429 with its lines on the head, British letters, old Japanese numbers, stainless."""
    assert normal(KIND, text) == read


def test_a_bare_figure_may_be_three_things() -> None:
    """An 8 on a head may be a nut's class, an SAE grade or an old Japanese number; on a nut it is the nut's class."""
    assert refused(KIND, "8").readings == ("nut 8", "SAE grade 8", "JIS 8T")
    assert refused(KIND, "no mark").reason == "property-class-unmarked"
    assert refused(KIND, "grade 3").reason == "property-class-unlisted"
    assert ask(KIND, "8", "10", "female").state == "ok"
    assert ask(KIND, "8", "10", "male").state == "unreadable"


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("8.8", "10.9", "ok-with-work", "property-class-stronger"),
        ("10.9", "8.8", "off", "property-class-weaker"),
        ("8.8", "12.9", "unreadable", "property-class-brittle"),
        ("10.9", "12.9", "unreadable", "property-class-brittle"),
        ("12.9", "10.9", "off", "property-class-weaker"),
        ("4.6", "8.8", "ok-with-work", "property-class-stronger"),
        ("4.6", "4.8", "ok-with-work", "property-class-stronger"),
        ("SAE grade 8", "8.8", "trap", "property-class-same-figure"),
        ("8.8", "SAE grade 8", "ok-with-work", "property-class-stronger"),
        ("SAE grade 5", "5.8", "trap", "property-class-same-figure"),
        ("SAE grade 8", "10.9", "ok", "property-class-not-weaker"),
        ("10.9", "SAE grade 8", "off", "property-class-weaker"),
        ("8.8", "SAE grade 5", "unreadable", "property-class-by-size"),
        ("SAE grade 5", "8.8", "unreadable", "property-class-by-size"),
        ("8.8", "JIS 8T", "trap", "property-class-same-figure"),
        ("8.8", "JIS 7T", "off", "property-class-weaker"),
        ("8.8", "JIS 9T", "unreadable", "property-class-unknown-yield"),
        ("8.8", "A2-70", "trap", "property-class-stainless-weak"),
        ("8.8", "A4-80", "trap", "property-class-stainless-weak"),
        ("5.6", "A2-70", "ok-with-work", "property-class-stainless"),
        ("8.8", "BS R", "off", "property-class-weaker"),
        ("8.8", "BS T", "unreadable", "property-class-unknown-yield"),
        ("BS S", "8.8", "unreadable", "property-class-unknown-yield"),
        ("nut 8", "nut 10", "ok", "property-class-nut-stronger"),
        ("nut 10", "nut 8", "off", "property-class-nut-weaker"),
        ("nut 8", "nut 05", "trap", "property-class-thin-nut"),
        ("nut 5", "nut 05", "trap", "property-class-thin-nut"),
        ("8.8", "nut 8", "off", "property-class-nut-and-bolt"),
        ("A4-80", "8.8", "unreadable", "property-class-rusts"),
        ("A2-70", "10.9", "unreadable", "property-class-rusts"),
        ("A4-70", "A2-70", "unreadable", "property-class-rusts"),
        ("A2-70", "A4-70", "ok-with-work", "property-class-stainless"),
        ("nut 05", "nut 8", "unreadable", "property-class-full-nut"),
        ("nut 04", "nut 05", "ok", "property-class-nut-stronger"),
    ],
)
def test_never_a_weaker_one_and_a_much_stronger_one_not_without_a_word(
    needed: str, offered: str, state: str, code: str
) -> None:
    """Figures of ISO 898-1, -2, ISO 3506-1 and SAE J429; what a stronger bolt asks for is common practice."""
    result = ask(KIND, needed, offered)
    assert result.state == state
    assert code in codes(result)


def test_a_recalled_row_is_told_as_recalled_and_carries_no_yes() -> None:
    """British letters and Japanese numbers are recalled: they never end in a plain ok for another class."""
    for name in ("BS S", "BS T", "BS V", "JIS 9T", "JIS 11T"):
        result = ask(KIND, "8.8", name)
        assert result.state not in ("ok", "ok-with-work")
        assert result.certainty.value == "memory"


@pytest.mark.parametrize("row", table("proof_loads.csv"), ids=lambda row: row["thread"])
def test_proof_loads_are_those_printed(row: dict[str, str]) -> None:
    """ISO 898-1 proof loads by way of a printed table (14 sizes, 122 loads): area by stress, printed to three figures."""
    size = thread(row["thread"])
    for name in CLASSES:
        load = proof_load(size, name, STANDARDS)
        if not row[name]:
            assert load is None
            continue
        assert load is not None
        assert abs(load / Decimal(row[name]) - 1) <= Decimal("0.007"), name


@pytest.mark.parametrize("row", table("proof_loads.csv"), ids=lambda row: row["thread"])
def test_stress_areas_are_those_printed(row: dict[str, str]) -> None:
    """ISO 898-1 nominal stress areas by way of the same printed table (14 values), to three figures."""
    area = stress_area(thread(row["thread"]))
    assert abs(area / Decimal(row["area"]) - 1) <= Decimal("0.005")


@pytest.mark.parametrize("row", table("stress_areas.csv"), ids=lambda row: row["thread"])
def test_stress_areas_agree_with_a_reference_library(row: dict[str, str]) -> None:
    """screw-thread-lib 0.0.6 (30 values): FED-STD-H28/2B for Unified, ISO/TR 16224 for metric."""
    assert abs(stress_area(thread(row["thread"])) - Decimal(row["area"])) <= Decimal("0.002")


TENSILE = {
    "M5": "5680 5960 7100 7380 8520 11350 12800 14800 17300", "M6": "8040 8440 10000 10400 12100 16100 18100 20900 24500",
    "M8": "14600 15400 18300 19000 22000 29200 32900 38100 44600", "M10": "23200 24400 29000 30200 34800 46400 52200 60300 70800",
    "M12": "33700 35400 42200 43800 50600 67400 75900 87700 103000",
}  # fmt: skip


@pytest.mark.parametrize("size", TENSILE)
def test_breaking_loads_are_those_printed(size: str) -> None:
    """ISO 898-1 minimum tensile loads in N by way of another printed table (5 sizes, 45 loads)."""
    for name, printed in zip(CLASSES, TENSILE[size].split(), strict=True):
        row = bolt_row(name, Decimal(size[1:]), STANDARDS)
        assert row is not None
        assert abs(stress_area(thread(size)) * row.number("tensile") / Decimal(printed) - 1) <= Decimal(
            "0.008"
        ), name


@pytest.mark.parametrize(
    ("size", "area", "two", "five", "eight"),
    [
        ("1/4-20 UNC", "0.0318", 1750, 2700, 3800), ("5/16-18 UNC", "0.0524", 2900, 4450, 6300),
        ("3/8-16 UNC", "0.0775", 4250, 6600, 9300), ("5/8-11 UNC", "0.226", 12400, 19200, 27100),
        ("3/4-10 UNC", "0.334", 18400, 28400, 40100), ("1/4-28 UNF", "0.0364", 2000, 3100, 4350),
    ],
)  # fmt: skip
def test_inch_proof_loads_are_those_printed(size: str, area: str, two: int, five: int, eight: int) -> None:
    """SAE J429 by way of a scanned table of hex cap screws: areas in in2 and proof loads in lbf (24 values)."""
    pound = Decimal("4.4482216")
    assert abs(stress_area(thread(size)) / Decimal("645.16") / Decimal(area) - 1) <= Decimal("0.005")
    for grade, printed in (("2", two), ("5", five), ("8", eight)):
        load = proof_load(thread(size), f"SAE grade {grade}", STANDARDS)
        assert load is not None
        assert abs(load / pound / printed - 1) <= Decimal("0.015")


@pytest.mark.parametrize(
    ("size", "eight", "ten", "twelve"), [("M8", 31800, 38100, 42500), ("M10", 50500, 60300, 67300)]
)
def test_nut_loads_are_those_printed(size: str, eight: int, ten: int, twelve: int) -> None:
    """ISO 898-2 proof loads of nuts in N by way of two printed tables (6 values): stress area by stress."""
    for name, printed in (("nut 8", eight), ("nut 10", ten), ("nut 12", twelve)):
        row = STANDARDS.table("nut-class").find(**{"class": name})[0]
        assert abs(stress_area(thread(size)) * row.number("strips-at") / printed - 1) <= Decimal("0.005")


def test_a_nut_strips_later_than_its_bolt_stretches() -> None:
    """ISO 898-2: bolt and nut paired by the first figure; the nut bears more than the bolt's proof stress (6 pairs)."""
    for row in STANDARDS.table("nut-class").rows:
        if row.word("bolt") != "none":
            bolt = bolt_row(row.word("bolt"), Decimal(10), STANDARDS)
            assert bolt is not None
            assert row.number("strips-at") > bolt.number("proof")


@pytest.mark.parametrize(
    ("grade", "ksi"),
    [("2", (74, 57, 55)), ("5", (120, 92, 85)), ("8", (150, 130, 120))],
)
def test_inch_grades_are_the_printed_ksi(grade: str, ksi: tuple[int, int, int]) -> None:
    """SAE J429 by way of a parts warehouse's printed chart (9 values): tensile, yield and proof in ksi, 6.894757 MPa each."""
    row = bolt_row(f"SAE grade {grade}", Decimal(10), STANDARDS)
    assert row is not None
    for name, printed in zip(("tensile", "yield", "proof"), ksi, strict=True):
        assert abs(row.number(name) - printed * Decimal("6.894757")) <= Decimal("0.6")


@pytest.mark.parametrize(
    ("letter", "tons"), [("P", 35), ("R", 45), ("S", 50), ("T", 55), ("V", 65), ("X", 75)]
)
def test_british_letters_are_tons_per_square_inch(letter: str, tons: int) -> None:
    """BS 970 letters in tonf/in2 (memory; X printed as 75 to 85): 15.4443 MPa each."""
    row = bolt_row(f"BS {letter}", Decimal(10), STANDARDS)
    assert row is not None
    assert abs(row.number("tensile") - tons * Decimal("15.4443")) <= Decimal("0.8")
