"""Oils: two scales of viscosity, classes of service, and the step up that is none."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

import pytest

from tests.trade.families import STANDARDS, ask, codes, normal, refused


@pytest.mark.parametrize(
    ("kind", "text", "read"),
    [
        ("engine-oil", "20W-50", "SAE 20W-50"),
        ("engine-oil", "20w50", "SAE 20W-50"),
        ("engine-oil", "SAE 20 W / 50", "SAE 20W-50"),
        ("engine-oil", "10W40 engine oil", "SAE 10W-40"),
        ("engine-oil", "0W-16", "SAE 0W-16"),
        ("engine-oil", "SAE 30", "SAE 30"),
        ("engine-oil", "SAE30", "SAE 30"),
        ("engine-oil", "HD 30", "SAE 30"),
        ("engine-oil", "SAE 10W", "SAE 10W"),
        ("engine-oil", "20W-50 API SF/CC", "SAE 20W-50 API SF/CC"),
        ("engine-oil", "API CC/SF 20W-50", "SAE 20W-50 API SF/CC"),
        ("engine-oil", "15W-40 SG, CD", "SAE 15W-40 API SG/CD"),
        ("engine-oil", "API service SE", "API SE"),
        ("engine-oil", "API CF4", "API CF-4"),
        ("engine-oil", "SAE 10W-40 API SL/CF", "SAE 10W-40 API SL/CF"),
        ("gear-oil", "80W-90 GL-4", "SAE 80W-90 GL-4"),
        ("gear-oil", "75w90 api gl5", "SAE 75W-90 GL-5"),
        ("gear-oil", "EP90", "SAE 90 EP"),
        ("gear-oil", "EP 80W-90 GL 4", "SAE 80W-90 GL-4"),
        ("gear-oil", "hypoid oil SAE 90", "SAE 90 EP"),
        ("gear-oil", "SAE 80W gearbox oil", "SAE 80W"),
        ("gear-oil", "GL-4/5", "GL-4/GL-5"),
        ("gear-oil", "20W-50", "SAE 20W-50"),
    ],
)
def test_oils_are_read_in_the_spellings_people_write(kind: str, text: str, read: str) -> None:
    """Dashes, slashes, none at all, one grade, classes before and behind."""
    assert normal(kind, text) == read


@pytest.mark.parametrize(
    ("kind", "text", "reason"),
    [
        ("engine-oil", "80W-90", "engine-oil-of-gears"),
        ("engine-oil", "SAE 90", "engine-oil-of-gears"),
        ("engine-oil", "EP 30", "engine-oil-of-gears"),
        ("engine-oil", "10W", "engine-oil-unknown"),
        ("engine-oil", "30", "engine-oil-unknown"),
        ("engine-oil", "12 V 21 W", "engine-oil-unknown"),
        ("engine-oil", "H4 60/55W", "engine-oil-unknown"),
        ("engine-oil", "20W-45", "oil-grade"),
        ("engine-oil", "80W-50", "oil-grade"),
        ("engine-oil", "API CF-2", "oil-class"),
        ("gear-oil", "SAE 75W-50", "oil-grade"),
        ("gear-oil", "GL-6", "oil-class"),
        ("gear-oil", "90", "gear-oil-unknown"),
        ("gear-oil", "80W-90 GL-4+", "gear-oil-unknown"),
        ("gear-oil", "ATF", "gear-oil-unknown"),
    ],
)
def test_what_is_no_oil_of_the_kind_is_not_read(kind: str, text: str, reason: str) -> None:
    """A lamp's watts, a number alone, the other scale, a grade that no table has."""
    assert refused(kind, text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("20W-50", "20W-50 API SF", "ok", "oil-hot-ok"),
        ("20W-50", "15W-50", "ok", "oil-cold-ok"),
        ("15W-50", "20W-50", "off", "oil-cold-stiff"),
        ("20W-50", "20W-40", "off", "oil-hot-thin"),
        ("10W-40", "10W-50", "off", "oil-hot-thick"),
        ("SAE 30", "10W-30", "ok", "oil-hot-ok"),
        ("10W-30", "SAE 30", "off", "oil-cold-none"),
        ("20W-50", "API SF", "unreadable", "oil-unsaid"),
        ("20W-50 API SF", "20W-50", "unreadable", "oil-class-unsaid"),
        ("20W-50 API SF", "20W-50 API SG", "ok", "oil-class-ok"),
        ("20W-50 API SF", "20W-50 API SE", "off", "oil-class-low"),
        ("20W-50 API SF", "20W-50 API SN", "ok", "oil-class-ok"),
        ("10W-30 API SF", "10W-30 API SN", "unreadable", "oil-class-lean"),
        ("10W-30 API SM", "10W-30 API SN", "ok", "oil-class-ok"),
        ("API SF", "API SN", "unreadable", "oil-class-lean"),
        ("20W-50 API SF/CD", "20W-50 API SG/CC", "off", "oil-class-low"),
        ("20W-50 API CC", "20W-50 API SF", "unreadable", "oil-class-unsaid"),
        ("15W-40 API CD", "15W-40 API SL/CF", "ok", "oil-class-ok"),
        ("15W-40 API CF", "15W-40 API CH-4", "unreadable", "oil-class-alone"),
        ("15W-40 API CF", "15W-40 API CF/CH-4", "ok", "oil-class-ok"),
        ("20W-50", "80W-90", "unreadable", "engine-oil-of-gears"),
    ],
)
def test_an_engine_oil_serves_where_all_that_is_asked_for_is_promised(
    needed: str, offered: str, state: str, code: str
) -> None:
    """Grades after SAE J300, classes after the API chart; lean phosphorus is common practice."""
    result = ask("engine-oil", needed, offered)
    assert result.state == state
    assert code in codes(result)


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("80W-90 GL-4", "75W-90 GL-4", "ok", "oil-cold-ok"),
        ("75W-90 GL-4", "80W-90 GL-4", "off", "oil-cold-stiff"),
        ("80W-90 GL-4", "80W-90 GL-5", "trap", "oil-class-trap-yellow"),
        ("80W-90 GL-5", "80W-90 GL-4", "off", "oil-class-weak"),
        ("80W-90 GL-4", "80W-90 GL-4/GL-5", "unreadable", "oil-class-both"),
        ("80W-90 GL-5", "80W-90 GL-4/GL-5", "ok", "oil-class-ok"),
        ("80W-90 GL-4", "80W-90", "unreadable", "oil-class-unsaid"),
        ("80W-90 GL-4", "EP 80W-90", "unreadable", "oil-class-unsaid"),
        ("EP 90", "SAE 90 GL-4", "ok", "oil-ep-ok"),
        ("EP 90", "SAE 90 GL-5", "unreadable", "oil-ep-strong"),
        ("EP 90", "SAE 90 GL-1", "off", "oil-ep-none"),
        ("SAE 90 GL-1", "SAE 90 GL-4", "unreadable", "oil-class-plain"),
        ("SAE 90 GL-1", "SAE 90 GL-5", "trap", "oil-class-trap-yellow"),
        ("SAE 90", "85W-140", "off", "oil-hot-thick"),
        ("SAE 90", "SAE 80", "off", "oil-hot-thin"),
        ("SAE 90", "SAE 110", "ok", "oil-hot-old"),
        ("SAE 110", "SAE 90", "off", "oil-hot-thin"),
        ("20W-50", "SAE 80", "off", "oil-scales-apart"),
        ("20W-50", "SAE 90", "unreadable", "oil-scales-near"),
        ("80W-90 GL-4", "20W-20", "off", "oil-scales-apart"),
    ],
)
def test_a_gear_oil_serves_by_place_and_not_by_the_higher_number(
    needed: str, offered: str, state: str, code: str
) -> None:
    """Grades after SAE J306, classes after API 1560; yellow metal is common practice, and disputed."""
    result = ask("gear-oil", needed, offered)
    assert result.state == state
    assert code in codes(result)


def test_only_gl_five_on_the_shelf_that_also_meets_gl_four_is_a_question() -> None:
    """The shelf of a shop: a box with synchro rings takes GL-4, an axle GL-5; what claims both is asked (common practice)."""
    both = "80W-90 GL-4/GL-5"
    assert ask("gear-oil", "80W-90 GL-4", both).state == "unreadable"
    assert ask("gear-oil", "80W-90 GL-5", both).state == "ok"


def test_an_old_ninety_is_recalled_and_marked_so() -> None:
    """The bands before 2005 are from memory; the present ones are published."""
    assert ask("gear-oil", "SAE 90", "SAE 110").certainty.value == "memory"
    assert ask("gear-oil", "SAE 90", "80W-90").certainty.value == "published"


@pytest.mark.parametrize(
    ("grade", "least", "most"),
    [
        ("65", "3.8", "5.0"), ("70", "5.0", "6.5"), ("75", "6.5", "8.5"), ("80", "8.5", "11.0"), ("85", "11.0", "13.5"),
        ("90", "13.5", "18.5"), ("110", "18.5", "24.0"), ("140", "24.0", "32.5"), ("190", "32.5", "41.0"),
    ],
)  # fmt: skip
def test_gear_grades_agree_with_a_lubricant_handbook(grade: str, least: str, most: str) -> None:
    """SAE J306 as a lubricant maker's handbook prints it: 18 viscosities at 100 degrees."""
    (row,) = STANDARDS.table("gear-oil-hot").find(grade=grade)
    assert (row.number("least"), row.number("most")) == (Decimal(least), Decimal(most))


@pytest.mark.parametrize(
    ("grade", "flows", "least"),
    [("70W", -55, "3.8"), ("75W", -40, "3.8"), ("80W", -26, "8.5"), ("85W", -12, "11.0")],
)
def test_gear_winter_grades_agree_with_a_lubricant_handbook(grade: str, flows: int, least: str) -> None:
    """SAE J306 as a lubricant maker's handbook prints it: 4 temperatures at 150 000 cP, 4 viscosities."""
    (row,) = STANDARDS.table("gear-oil-winter").find(grade=grade)
    assert (row.number("flows-at"), row.number("least")) == (flows, Decimal(least))


@pytest.mark.parametrize(
    ("name", "year"),
    [("SB", 1963), ("SC", 1967), ("SD", 1971), ("SE", 1979), ("SF", 1988), ("SG", 1993), ("SH", 1996), ("SJ", 2001),
     ("SL", 2004)],
)  # fmt: skip
def test_classes_of_service_agree_with_the_printed_chart(name: str, year: int) -> None:
    """The API chart as two public pages print it: 9 years of cars, each class later than the one before."""
    (row,) = STANDARDS.table("engine-oil-service").find(**{"class": name})
    assert row.number("until") == year
    later = [
        r
        for r in STANDARDS.table("engine-oil-service").find(series="S")
        if r.number("rank") > row.number("rank")
    ]
    assert all(other.number("until") > year for other in later if "until" in other.numbers)


def test_bands_of_hot_grades_have_no_gap_where_the_standard_has_none() -> None:
    """SAE J300 from 20 to 60 and SAE J306 throughout: the most of a grade is the least of the next (13 seams)."""
    seams = 0
    for name, first in (("engine-oil-hot", Decimal("6.9")), ("gear-oil-hot", Decimal(0))):
        rows = [row for row in STANDARDS.table(name).rows if row.number("least") >= first]
        for low, high in pairwise(rows):
            assert low.number("most") == high.number("least"), low.word("grade")
            seams += 1
    assert seams == 13
