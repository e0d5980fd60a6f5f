"""Vehicle identification numbers: structure, check digit, years, and two of them compared."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.trade.result import Reading
from fitlore.trade.vin.family import VinFamily
from fitlore.trade.vin.reading import CHECK, check_digit, repairs, years
from tests.trade.families import STANDARDS, ask, codes, read, refused

KIND = "vin"
DATA = Path(__file__).parent / "data/vins.csv"
LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789"
NUMBERS = st.tuples(
    st.sampled_from("12345"), st.text(LETTERS, min_size=12, max_size=12), st.integers(0, 9999)
).map(lambda drawn: f"{drawn[0]}{drawn[1]}{drawn[2]:04d}")


def sound(number: str) -> str:
    """The number with the right check digit."""
    return number[:CHECK] + check_digit(number, STANDARDS) + number[CHECK + 1 :]


def _listed() -> list[dict[str, str]]:
    with DATA.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


@pytest.mark.parametrize("row", _listed(), ids=lambda row: row["number"])
def test_check_digits_are_those_another_reader_wants(row: dict[str, str]) -> None:
    """Eighty drawn numbers and the one ninth character that `vininfo` 1.11.0 passes."""
    assert check_digit(row["number"], STANDARDS) == row["check"]
    assert read(KIND, row["number"]).normal == row["number"]


@pytest.mark.parametrize(
    ("number", "digit"),
    [("1M8GDM9AXKP042788", "X"), ("1" * 17, "1"), ("1G4AH59H45G118341", "4"), ("1J9RP1A36A1644345", "6")],
)
def test_check_digits_are_those_of_worked_examples(number: str, digit: str) -> None:
    """49 CFR 565.15 (its sample, sum 411), the outline for new makers (sum 314), and the two that handbooks use."""
    assert check_digit(number, STANDARDS) == digit


YEARS = dict(zip("ABCDEFGHJKLMNPRSTVWXY123456789", range(1980, 2010), strict=True))


@pytest.mark.parametrize(("code", "year"), YEARS.items())
def test_the_tenth_place_names_two_years_and_the_seventh_which(code: str, year: int) -> None:
    """Thirty codes as `vininfo` 1.11.0 has them; a letter at the seventh place is thirty years later (49 CFR 565.15)."""
    early, late = (sound(f"1TB4V5{seventh}R0{code}A000417") for seventh in "2B")
    assert years(early, STANDARDS) == (year,)
    assert years(late, STANDARDS) == (year + 30,)


def test_the_year_is_not_told_outside_north_america() -> None:
    """Elsewhere the tenth place is the maker's own (common practice); U, Z and 0 are no year anywhere."""
    assert years("SZB4V52R0XA000417", STANDARDS) == ()
    assert years(sound("1TB4V52R0ZA000417"), STANDARDS) == ()


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("AB1234567", "vin-length"),
        ("HT 12345", "vin-length"),
        ("1TB4V52R9XA000417", "vin-check"),
        ("1TB4V52R8XAO00417", "vin-letter"),
        ("1TB4V52R8XA00041B", "vin-serial"),
        ("chassis", "vin-unknown"),
        ("17 x 40 x 12 mm, both sides", "vin-unknown"),
    ],
)
def test_what_is_no_number_is_refused_with_its_reason(text: str, reason: str) -> None:
    """ISO 3779: 17 characters, no I, O, Q, four figures at the end; older chassis numbers are told in plain words."""
    assert refused(KIND, text).reason == reason


def test_letters_that_are_never_used_are_read_for_figures() -> None:
    """O for 0 and I for 1; the number that comes out has the right check digit."""
    assert refused(KIND, "ITB4V52R8XAO00417").readings == ("1TB4V52R8XA000417",)


def test_a_failing_check_digit_proves_nothing_elsewhere() -> None:
    """Z as a filler at the ninth place is common in Europe, where no law asks for a check digit."""
    assert read(KIND, "SZB4V52RZXA000417").normal == "SZB4V52RZXA000417"


@given(NUMBERS, st.integers(0, 16), st.sampled_from(LETTERS))
def test_a_misread_character_of_another_value_is_caught(number: str, at: int, sign: str) -> None:
    """Every weight but the ninth is prime to 11: one character of another value always changes the remainder."""
    right = sound(number)
    wrong = right[:at] + sign + right[at + 1 :]
    values = {row.word("character"): row.number("value") for row in STANDARDS.table("vin-character").rows}
    if at != CHECK and (at < 13 or sign.isdigit()) and values[sign] != values[right[at]]:
        assert check_digit(wrong, STANDARDS) != wrong[CHECK]


@given(NUMBERS)
def test_repairs_are_sound_and_one_character_away(number: str) -> None:
    """What is suggested has a right check digit, and can be read."""
    for other in repairs(number, STANDARDS):
        assert check_digit(other, STANDARDS) == other[CHECK]
        assert sum(one != two for one, two in zip(number, other, strict=True)) == 1


def test_a_look_alike_is_among_the_repairs() -> None:
    """S for 5 in a photograph."""
    assert "1TB4V52R8XA000417" in refused(KIND, "1TB4VS2R8XA000417").readings


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("1TB4V52R8XA000417", "1tb4v52r8xa000417", "ok", "vin-same"),
        ("SZB4V52R0XA000417", "SZB4VS2R0XA000417", "unreadable", "vin-alike"),
        ("SZB4V52R0XA000417", "SZB4V52R0XA000999", "off", "vin-sister"),
        ("SZB4V52R0XA000417", "SZC4V52R0XA000417", "off", "vin-other"),
        ("SZB4V52R0XA000417", "AB1234567", "unreadable", "vin-length"),
    ],
)
def test_two_numbers_are_one_car_only_where_they_are_equal(
    needed: str, offered: str, state: str, code: str
) -> None:
    """What differs only where characters look alike is a question."""
    result = ask(KIND, needed, offered)
    assert result.state == state
    assert code in codes(result)


def test_spaces_and_stars_are_no_part_of_it() -> None:
    """Plates print stars at both ends, papers print groups."""
    for text in VinFamily.about.spellings:
        found = VinFamily().read(text, STANDARDS)
        assert isinstance(found, Reading)
        assert found.normal == "1TB4V52R8XA000417"
