"""Units: the committed table is what Pint makes of it, another library has the same sizes, and QUDT the same UCUM codes."""

from __future__ import annotations

import csv
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
import unyt
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.amounts import read_quantity, read_span
from fitlore.model.unit_table import COUNTED, ROWS, UCUM
from fitlore.model.units import UNITS
from tests.model.unit_rows import DIMENSIONS, LEFT_OUT, TABLE, table_text

G = "9.80665*m/s**2"
"""Standard gravity: 3rd CGPM, 1901."""
IN_UNYT = {
    "1/inch": "1/inch",
    "1/min": "1/minute",
    "1/s": "1/s",
    "A*h": "A*hr",
    "N*cm": "N*cm",
    "arcminute": "arcmin",
    "day": "day",
    "fluid_ounce": "gal_US/128",
    "foot": "ft",
    "force_kilogram": f"kg*{G}",
    "force_kilogram*cm": f"kg*{G}*cm",
    "force_kilogram*m": f"kg*{G}*m",
    "force_kilogram/cm": f"kg*{G}/cm",
    "force_kilogram/cm^2": f"kg*{G}/cm**2",
    "force_kilogram/mm": f"kg*{G}/mm",
    "force_pound": "lbf",
    "force_pound*foot": "lbf*ft",
    "force_pound*inch": "lbf*inch",
    "force_pound/inch": "lbf/inch",
    "gallon": "gal_US",
    "h": "hr",
    "horsepower": "hp",
    "imperial_fluid_ounce": "gal_UK/160",
    "imperial_gallon": "gal_UK",
    "imperial_pint": "gal_UK/8",
    "imperial_quart": "gal_UK/4",
    "inHg": f"13.5951*g/cm**3*{G}*inch",
    "inch": "inch",
    "kiloohm": "1000*ohm",
    "mA*h": "mA*hr",
    "megaohm": "1000000*ohm",
    "metric_horsepower": f"75*kg*{G}*m/s",
    "milliohm": "ohm/1000",
    "min": "minute",
    "mmHg": f"13.5951*g/cm**3*{G}*mm",
    "ounce": "oz",
    "pint": "gal_US/8",
    "pound": "lb",
    "pound_force_per_square_inch": "psi",
    "quart": "gal_US/4",
    "tonne": "tonne",
    "yard": "yd",
    "ohm": "ohm",
    "l": "L",
    "dl": "L/10",
    "cl": "L/100",
    "ml": "L/1000",
    "percent": "percent",
    "degree": "degree",
}
"""What unyt calls a unit where it is not the name in Pint. Mercury of 13.5951 g/cm3 makes the conventional columns (ISO 80000-4,
annex); a metric horsepower is 75 kgf.m/s (DIN 66036); gallons in quarts, pints and fluid ounces: Weights and Measures Act 1985,
schedule 1, and NIST Handbook 44, appendix C."""
BASES = {"degC": "degC", "deg": "degree", "%": "percent", "ohm": "ohm", "N.m": "N*m", "Ah": "A*hr", "mm2": "mm**2",
         "1/min": "1/minute", "tpi": "1/inch", "min": "minute", "l": "L"}  # fmt: skip
"""What unyt calls our base units where it has another word."""
NAMES = {(row, dimension.base) for dimension in DIMENSIONS for row in dimension.spellings}


def in_unyt(name: str) -> str:
    """A unit's name in unyt."""
    return IN_UNYT.get(name, name.replace("^", "**"))


def test_the_committed_table_is_current() -> None:
    """`model/unit_table.py` is generated: after a change of the spellings run `python -m tests.model.unit_rows`."""
    assert TABLE.read_text("utf-8") == table_text()


@pytest.mark.parametrize(
    ("name", "base"), sorted(NAMES - {("degF", "degC"), ("degC", "degC"), ("kelvin", "degC")})
)
def test_another_library_has_the_same_size(name: str, base: str) -> None:
    """Every factor that Pint worked out is the one of unyt, to thirteen figures."""
    codes, others = next(
        one.spellings[name] for one in DIMENSIONS if one.base == base and name in one.spellings
    )
    size = unyt.unyt_quantity(1.0, in_unyt(name)).to(BASES.get(base, base.replace("^", "**")))
    for spelling in (*codes, *others):
        unit = UNITS[spelling]
        assert unit.base == base
        assert float(Fraction(unit.up, unit.down)) == pytest.approx(float(size.value), rel=1e-13), spelling
        assert not unit.more


@pytest.mark.parametrize(
    ("degrees", "spelling"),
    [(degrees, s) for degrees in ("-40", "32", "88", "212") for s in ("degF", "°F", "[degF]")],
)
def test_another_library_has_the_same_temperatures(degrees: str, spelling: str) -> None:
    """Degrees Fahrenheit, offset and all, to twelve figures."""
    ours = read_quantity(f"{degrees} {spelling}")
    theirs = unyt.unyt_quantity(float(degrees), "degF").to("degC")
    assert ours is not None
    assert float(ours.value) == pytest.approx(float(theirs.value), rel=1e-12, abs=1e-10)


def test_kelvin_stand_off_by_the_ice_point() -> None:
    """273.15 K is 0 degC, exactly (ITS-90)."""
    assert [str(q.value) for text in ("273.15 K", "300 K") if (q := read_quantity(text))] == ["0", "26.85"]


@pytest.mark.parametrize(
    ("spelling", "exact"),
    [
        ("in", Fraction(254, 10)),
        ('"', Fraction(254, 10)),
        ("[in_i]", Fraction(254, 10)),
        ("lb", Fraction(45359237, 100000)),
        ("lbf", Fraction(45359237, 10**8) * Fraction(980665, 10**5)),
        ("imp gal", Fraction(454609, 10**5)),
        ("US gal", 231 * Fraction(254, 100) ** 3 / 1000),
        ("PS", 75 * Fraction(980665, 10**5)),
    ],
)
def test_definitions_are_exact(spelling: str, exact: Fraction) -> None:
    """No rounding at all: the international yard and pound (1959), 3rd CGPM (1901), the gallons' definitions, DIN 66036."""
    unit = UNITS[spelling]
    assert Fraction(unit.up, unit.down) == exact


def test_ucum_codes_of_base_units_are_those_qudt_publishes() -> None:
    """Name by name as QUDT 3.3 has them; UCUM 2.1 has two codes for the litre and two ways to write a reciprocal."""
    path = Path(__file__).parents[1] / "rdf" / "data" / "qudt_units.csv"
    published = {row["ours"]: row["ucum"] for row in csv.DictReader(path.read_text("utf-8").splitlines())}
    two_ways = {"l": "L", "/min": "min-1", "/[in_i]": "[in_i]-1", "N/mm": "N.mm-1"}
    assert {base: two_ways.get(code, code) for base, code in UCUM.items() if base != "1"} == {
        base: code for base, code in published.items() if base != "1"
    }
    assert set(UCUM) == {unit.base for unit in UNITS.values()}


def test_every_ucum_code_of_a_base_is_read_as_that_base() -> None:
    """What is handed out is taken back: a UCUM code of a base unit has the factor 1."""
    for base, code in UCUM.items():
        if base != "1":
            assert UNITS[code] == (base, 1, 1, 0, 1), code


def test_spellings_have_one_meaning_each() -> None:
    """No spelling twice, none among what is counted, and those left out are really refused."""
    spellings = [row[0] for row in ROWS]
    assert len(set(spellings)) == len(spellings) > 150
    assert not set(spellings) & set(COUNTED)
    assert not set(spellings) & set(LEFT_OUT)
    for code in LEFT_OUT:
        assert read_quantity(f"1 {code}") is None, code


@pytest.mark.parametrize(
    ("written", "value", "unit"),
    [
        ("0.030 in", "0.762", "mm"),
        ('1/2"', "12.7", "mm"),
        ('1 1/2"', "38.1", "mm"),
        ("6 mm", "6", "mm"),
        ("6,5 mm", "6.5", "mm"),
        ("25 lbf.ft", "33.89544870828501", "N.m"),
        ("25 [ft_i].[lbf_av]", "33.89544870828501", "N.m"),
        ("55 W", "55", "W"),
        ("12 thou", "0.3048", "mm"),
        ("1.1 kW", "1100", "W"),
        ("36 teeth", "36", "1"),
        ("1/3 mm", "0.3333333333333333333333333333", "mm"),
        ("-40 °F", "-40", "degC"),
    ],
)
def test_workshop_spellings_are_read(written: str, value: str, unit: str) -> None:
    """As the trade writes them (common practice), to the base unit without a float in between."""
    found = read_quantity(written)
    assert found is not None
    assert (found.text, found.unit) == (written, unit)
    assert found.value == Decimal(value) or abs(found.value - Decimal(value)) < Decimal("1e-13")


@pytest.mark.parametrize(
    "text",
    ["1e3 mm", "0x10 mm", "1_000 mm", "1,000.5 mm", "６ mm", "٦ mm", "6 furlongs", "6 MM", "mm", "", "1/0 mm", "6 mm 7", "12:30",
     "--6 mm", "6 '", "inf mm", "nan mm", "9" * 60 + " mm"],
)  # fmt: skip
def test_nothing_else_is_a_quantity(text: str) -> None:
    """Digits are 0 to 9; no exponents, no other bases, no thousands; a unit that is not in the table is no unit."""
    assert read_quantity(text) is None
    assert read_span(text) is None


@given(st.text(max_size=12))
def test_whatever_is_read_has_ascii_digits_and_a_known_unit(text: str) -> None:
    """No text raises, and a number of other digits is never taken for one."""
    found = read_quantity(text)
    if found is not None:
        assert found.unit in UCUM
        assert any(sign in "0123456789" for sign in text)
        assert all(sign in "0123456789" for sign in text if sign.isdecimal())


@given(
    st.fractions(min_value=0, max_value=10**6, max_denominator=10**4),
    st.sampled_from(sorted(row[0] for row in ROWS)),
)
def test_a_value_is_rounded_once(number: Fraction, spelling: str) -> None:
    """The value in the base unit is the exact one, to 28 figures, whatever number and unit."""
    unit = UNITS[spelling]
    found = read_quantity(f"{number.numerator}/{number.denominator} {spelling}")
    assert found is not None
    exact = number * Fraction(unit.up, unit.down) + Fraction(unit.more, unit.less)
    assert abs(Fraction(found.value) - exact) <= abs(exact) / 10**27
