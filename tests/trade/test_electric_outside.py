"""Electrics against what others printed: wire tables, lists of lamps, fuses and batteries; each set names its source."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitlore.trade.battery.family import as_sae, jis_rank
from fitlore.trade.battery.reading import Battery
from fitlore.trade.battery.reading import read as read_battery
from fitlore.trade.cable.copper import (
    area_for,
    awg_area,
    awg_diameter,
    awg_gauge,
    resistance,
    strand_area,
    volts_lost,
)
from fitlore.trade.fuse.reading import Fuse
from fitlore.trade.fuse.reading import read as read_fuse
from fitlore.trade.ignition_coil.family import amps, ballast_for, volts_at_coil
from fitlore.trade.lamp.reading import Lamp
from fitlore.trade.lamp.reading import read as read_lamp
from tests.trade.families import STANDARDS
from tests.trade.loading import table

GAUGES = table("awg.csv")


@pytest.mark.parametrize("row", GAUGES, ids=lambda row: f"AWG {row['gauge']}")
def test_a_gauge_has_the_diameter_of_a_reference_library_both_ways(row: dict[str, str]) -> None:
    """34 diameters in inches of `fluids` 1.3.1 (ASTM B258, rounded to four figures there), and the gauge from each."""
    mm = Decimal(row["inch"]) * Decimal("25.4")
    assert awg_diameter(int(row["gauge"])) == pytest.approx(mm, rel=Decimal("0.005"))
    assert awg_gauge(mm) == pytest.approx(int(row["gauge"]), abs=0.05)


@pytest.mark.parametrize("row", GAUGES, ids=lambda row: f"AWG {row['gauge']}")
def test_a_gauge_has_the_area_and_resistance_of_a_printed_wire_table(row: dict[str, str]) -> None:
    """34 areas and 34 resistances at 20 degrees C of a public wire table, to its three figures."""
    area = awg_area(int(row["gauge"]))
    assert area == pytest.approx(Decimal(row["mm2"]), rel=Decimal("0.01"))
    assert resistance(area) == pytest.approx(Decimal(row["ohm-km"]), rel=Decimal("0.01"))


IEC_60228 = [
    ("0.5", "39.0"), ("0.75", "26.0"), ("1", "19.5"), ("1.5", "13.3"), ("2.5", "7.98"), ("4", "4.95"), ("6", "3.30"),
    ("10", "1.91"), ("16", "1.21"), ("25", "0.780"), ("35", "0.554"), ("50", "0.386"), ("70", "0.272"), ("95", "0.206"),
]  # fmt: skip


@pytest.mark.parametrize(("area", "most"), IEC_60228)
def test_flexible_copper_resists_no_more_than_the_standard_allows(area: str, most: str) -> None:
    """IEC 60228, class 5, plain copper: 14 greatest resistances in mohm/m; the formula lies a little below each."""
    (row,) = STANDARDS.table("cable-areas").find(area=area)
    assert row.number("resistance") == Decimal(most)
    assert Decimal("0.84") < resistance(Decimal(area)) / Decimal(most) < Decimal("0.96")


BRITISH = [(9, "0.65"), (14, "1.0"), (21, "1.5"), (28, "2.0"), (35, "2.5"), (44, "3.0"), (65, "4.5"), (84, "6.0"),
           (97, "7.0"), (120, "8.5")]  # fmt: skip


@pytest.mark.parametrize(("strands", "area"), BRITISH)
def test_strands_make_the_nominal_area(strands: int, area: str) -> None:
    """A public table of British road vehicle cable (0.30 mm strands): 10 areas, by the formula of the circle."""
    assert strand_area(strands, Decimal("0.30")) == pytest.approx(Decimal(area), rel=Decimal("0.04"))


DROPS = [
    ("10", "5", "1.5", "0.575"), ("20", "3", "2.5", "0.414"), ("5", "10", "1", "0.862"), ("40", "2", "6", "0.230"),
]  # fmt: skip


@pytest.mark.parametrize(("current", "metres", "area", "volts"), DROPS)
def test_volts_lost_and_the_area_for_them_are_one_rule(
    current: str, metres: str, area: str, volts: str
) -> None:
    """IEC 60028, 1/58 ohm mm2/m at 20 degrees C: 4 examples worked by hand, A x m / 58 / mm2, in both directions."""
    lost = volts_lost(Decimal(current), Decimal(metres), Decimal(area))
    assert lost == pytest.approx(Decimal(volts), abs=Decimal("0.001"))
    assert area_for(Decimal(current), Decimal(metres), lost) == pytest.approx(
        Decimal(area), rel=Decimal("0.0001")
    )


LAMPS = table("lamps.csv")


@pytest.mark.parametrize("row", LAMPS, ids=lambda row: row["category"])
def test_a_category_of_lamp_has_its_cap_watts_and_colour(row: dict[str, str]) -> None:
    """UN R37 in public lists: 30 categories with cap, watts and colour of the light."""
    found = read_lamp(row["category"], STANDARDS)
    assert isinstance(found, Lamp)
    assert (found.cap.word("cap"), found.power, found.colour) == (row["cap"], row["watts"], row["colour"])


SHELLS = [("BA9s", 9), ("BA15s", 15), ("BAY15d", 15), ("BAU15s", 15), ("P43t", 43), ("P45t", 45), ("PX26d", 26),
          ("PK22s", 22), ("P20d", 20), ("P22d", 22), ("E10", 10), ("BA7s", 7)]  # fmt: skip


@pytest.mark.parametrize(("cap", "shell"), SHELLS)
def test_the_figure_in_a_cap_is_its_shell(cap: str, shell: int) -> None:
    """IEC 60061-1, rule of names: 12 caps; s, d, t and q at the end count the contacts."""
    (row,) = STANDARDS.table("lamp-caps").find(cap=cap)
    assert row.number("shell") == shell
    assert row.word("contacts") == {"s": "one", "d": "two", "t": "three"}.get(
        cap.rstrip("0123456789")[-1], "one"
    )


COLOURS = [
    ("blade black", 1), ("blade grey", 2), ("blade violet", 3), ("blade pink", 4), ("blade tan", 5), ("blade brown", "7.5"),
    ("blade red", 10), ("blade blue", 15), ("blade yellow", 20), ("blade clear", 25), ("blade green", 30),
    ("mini blade red", 10), ("maxi blade red", 50), ("maxi blade blue", 60), ("maxi blade tan", 70),
    ("maxi blade clear", 80), ("maxi blade violet", 100), ("torpedo yellow", 5), ("torpedo white", 8), ("torpedo red", 16),
    ("torpedo blue", 25), ("torpedo grey", 40),
]  # fmt: skip


@pytest.mark.parametrize(("text", "carries"), COLOURS)
def test_the_colour_says_the_rating_and_red_is_not_always_ten(text: str, carries: int | str) -> None:
    """ISO 8820-3 and DIN 72581-1 in public lists: 22 colours (the grey ceramic one from memory)."""
    found = read_fuse(text, STANDARDS)
    assert isinstance(found, Fuse)
    assert found.carries == Decimal(carries)


GLASS = [
    ("blue", "1.5", 3), ("yellow", "2.25", "4.5"), ("red on yellow", "2.5", 5), ("green", 3, 6), ("nut brown", 4, 8),
    ("red on green", 5, 10), ("green on black", 5, 10), ("red on brown", 6, 12), ("light brown", "7.5", 15),
    ("pink", "12.5", 25), ("white", "17.5", 35), ("purple on yellow", 25, 50), ("yellow on red", 30, 60),
]  # fmt: skip


@pytest.mark.parametrize(("colour", "carries", "blows"), GLASS)
def test_an_old_british_glass_fuse_carries_half_of_what_is_printed(
    colour: str, carries: str | int, blows: str | int
) -> None:
    """A public encyclopaedia's table of old British fuses: 13 papers, 26 figures."""
    by_colour, by_figure = (
        read_fuse(text, STANDARDS) for text in (f"glass {colour}", f"glass {blows} A blows")
    )
    assert isinstance(by_colour, Fuse)
    assert isinstance(by_figure, Fuse)
    assert by_colour.carries == by_figure.carries == Decimal(carries)
    assert by_colour.amps == Decimal(blows)


CASES = [("L0", 175), ("L1", 207), ("L2", 242), ("L3", 278), ("L4", 315), ("L5", 353), ("L6", 394)]


@pytest.mark.parametrize(("case", "length"), CASES)
def test_european_cases_have_the_lengths_of_the_standard(case: str, length: int) -> None:
    """EN 50342-2, series LN, in a public glossary: 7 lengths; 175 wide, 190 high."""
    found = read_battery(case, STANDARDS)
    assert isinstance(found, Battery)
    assert (found.length, found.width, found.height) == (length, 175, 190)


LETTERS = [("A", 127), ("B", 129), ("C", 135), ("D", 173), ("E", 176), ("F", 182), ("G", 222), ("H", 278)]


@pytest.mark.parametrize(("letter", "width"), LETTERS)
def test_the_letter_of_a_japanese_battery_is_its_width(letter: str, width: int) -> None:
    """JIS D 5301 as told on a public page: 8 widths; each listed case has that of its letter."""
    (row,) = STANDARDS.table("battery-jis-letters").find(letter=letter)
    assert row.number("width") == width
    cases = [case for case in STANDARDS.table("battery-cases").rows if case.word("case")[0] == letter]
    japanese = [case for case in cases if case.word("system") == "JIS"]
    assert all(width - 2 <= case.number("width") <= width for case in japanese)


def test_the_rank_of_a_japanese_battery_follows_its_formula() -> None:
    """JIS D 5301:2006, worked example of a public page: 370 A and 64 minutes give 55.0."""
    assert jis_rank(Decimal(370), Decimal(64)) == pytest.approx(Decimal("55.0"), abs=Decimal("0.05"))


NUMBERS = [("ETN 544 059 036", 12, 44, 360), ("ETN 560 408 054", 12, 60, 540), ("ETN 595 901 085", 12, 95, 850),
           ("ETN 077 015 036", 6, 77, 360), ("ETN 610 047 068", 12, 110, 680)]  # fmt: skip


@pytest.mark.parametrize(("text", "volts", "capacity", "cold"), NUMBERS)
def test_a_type_number_says_volts_capacity_and_cold_start(
    text: str, volts: int, capacity: int, cold: int
) -> None:
    """EN 60095-1 as told on a public page: 0 to 4 is 6 V, 5 to 7 is 12 V, then Ah; the last three times ten are A."""
    found = read_battery(text, STANDARDS)
    assert isinstance(found, Battery)
    assert (found.volts, found.capacity, found.cold, found.norm) == (volts, capacity, cold, "EN")


def test_cold_start_of_another_norm_is_a_range_of_opinions() -> None:
    """A handbook page (SAE = 1.5 DIN + 40) and a public calculator (SAE = 1.7 DIN): 255 A DIN is 422.5 to 433.5."""
    found = as_sae(255, "DIN", STANDARDS)
    assert found is not None
    assert (found[0], found[1]) == (Decimal("422.5"), Decimal("433.5"))
    assert as_sae(255, "", STANDARDS) is None


def test_a_ballast_and_its_coil_share_the_volts_by_their_ohms() -> None:
    """Ohm's law worked by hand: 1.5 and 1.5 ohm share 12 V; 9 V of 13.5 are left behind 0.8 ohm for 1.6; 4.5 A through 3."""
    assert volts_at_coil(Decimal("1.5"), Decimal("1.5"), Decimal(12)) == 6
    assert ballast_for(Decimal("1.6"), Decimal(9), Decimal("13.5")) == Decimal("0.8")
    assert volts_at_coil(Decimal("1.6"), Decimal("0.8"), Decimal("13.5")) == 9
    assert amps(Decimal(3)) == Decimal("4.5")
