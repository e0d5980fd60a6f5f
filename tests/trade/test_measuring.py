"""What people say of measurements is understood, or refused with a reason; nothing is guessed."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.trade.measuring import Measured, NotMeasured, read_measured

D = Decimal

SAYINGS = {
    "9.5 outside, 24 to the inch, 60 degrees": [
        ("outside", D("9.5")),
        ("threads-per-inch", D(24)),
        ("", D(60)),
    ],
    "9,5 outside; 24 tpi": [("outside", D("9.5")), ("threads-per-inch", D(24))],
    "17 x 40 x 12": [("", D(17)), ("", D(40)), ("", D(12))],
    "17×40×12 mm": [("", D(17)), ("", D(40)), ("", D(12))],
    "52 mm across two holes of five": [("holes", D(5)), ("hole-gap", D(52))],
    "five holes, 52 hole to hole": [("holes", D(5)), ("hole-gap", D(52))],
    '3/8" outside': [("outside", D("9.525"))],
    "1 1/2 in bore and 0.020 in thick": [("inside", D("38.1")), ("thickness", D("0.508"))],
    ".375 outside": [("outside", D("9.525"))],
    "3/8 outside": [("outside", D("9.525"))],
    "pitch 1.25": [("pitch", D("1.25"))],
    "13 across flats": [("across-flats", D(13))],
    "5 ribs 1200 long": [("ribs", D(5)), ("length", D(1200))],
    "outside 10 inside 8": [("outside", D(10)), ("inside", D(8))],
    "5 ribs, 1200 long": [("ribs", D(5)), ("length", D(1200))],
    "4 holes 100 apart": [("holes", D(4)), ("hole-centres", D(100))],
    "four bolts 98 apart": [("holes", D(4)), ("hole-centres", D(98))],
    "holes 4 apart 100": [("holes", D(4)), ("hole-centres", D(100))],
    "12mm 1.25 pitch": [("", D(12)), ("pitch", D("1.25"))],
    "1/2 inch 13 tpi": [("", D("12.7")), ("threads-per-inch", D(13))],
    "17 x 40 x 12 wide": [("", D(17)), ("", D(40)), ("width", D(12))],
}


@pytest.mark.parametrize("text", SAYINGS)
def test_a_measurement_is_understood_as_people_say_it(text: str) -> None:
    """Names, fractions, decimal commas, inches, crosses."""
    found = read_measured(text)
    assert isinstance(found, Measured), found
    assert [(one.measure, one.value) for one in found.said] == SAYINGS[text]
    assert found.thing == ""


def test_words_that_name_no_measure_say_what_the_thing_is() -> None:
    """They narrow the search."""
    found = read_measured("a worn brake disc at 252")
    assert isinstance(found, Measured)
    assert found.thing == "brake disc"
    named = read_measured("12mm thread 1.25 pitch")
    assert isinstance(named, Measured)
    assert [(one.measure, one.value) for one in named.said] == [("", D(12)), ("pitch", D("1.25"))]
    assert named.thing == "thread"


@pytest.mark.parametrize(
    "text", ["10 outside 8", "thread 12 mm pitch 1.25", "8 inside 10 outside 12 pitch 1"]
)
def test_a_word_between_two_numbers_is_asked_back(text: str) -> None:
    """Which of the two it is said of nobody can tell."""
    assert isinstance(read_measured(text), NotMeasured)


@pytest.mark.parametrize(
    ("text", "error"),
    [("9.5 outside", "0.05"), ("9 outside", "0.5"), ("9.525 outside", "0.05"), ("24 tpi", "0.3"), ("5 holes", "0"),
     ("3/8 in outside", "0.1984375"), ("60 degrees", "2"), ("10 outside ±0.02", "0.02"),
     ("10 outside give or take 0.001 in", "0.0254")],
)  # fmt: skip
def test_the_error_is_what_was_said_or_half_the_last_digit_and_no_less_than_the_instrument(
    text: str, error: str
) -> None:
    """What the instruments allow is common practice."""
    found = read_measured(text)
    assert isinstance(found, Measured)
    assert found.said[0].error == D(error)


@pytest.mark.parametrize(
    "text",
    ["", "M10", "foo", "outside 10 8", "10 outside, 11 outside", "17,40,12", "10 V outside", "x" * 400,
     "10 outside ±1 V", "52 across two holes of many", "1/0 outside"],
)  # fmt: skip
def test_what_cannot_be_understood_is_refused_with_a_reason(text: str) -> None:
    """Nothing is guessed."""
    found = read_measured(text)
    assert isinstance(found, NotMeasured)
    assert found.reason


@given(st.text(max_size=80))
def test_any_text_gives_measurements_or_a_reason(text: str) -> None:
    """No text breaks the reader."""
    found = read_measured(text)
    if isinstance(found, NotMeasured):
        assert found.reason
    else:
        assert all(one.value.is_finite() and one.error >= 0 for one in found.said)


@given(st.decimals(min_value="0.1", max_value="9999", places=2))
def test_a_decimal_comma_is_a_decimal_point(value: Decimal) -> None:
    """Between two digits, without a space."""
    point, comma = read_measured(f"{value:f} wide"), read_measured(f"{value:f} wide".replace(".", ","))
    assert isinstance(point, Measured)
    assert isinstance(comma, Measured)
    assert comma.said[0][:4] == point.said[0][:4]
