"""Dates and periods, held against the `edtf` library (ISO 8601-2, levels 0 and 1)."""

from __future__ import annotations

import warnings
from datetime import date
from time import struct_time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.dates import FIRST, LAST, read_day, read_period

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # its grammar warns of itself under a newer pyparsing
    from edtf import EDTFParseException, parse_edtf

ACCEPTED = [
    "1986", "1986-08", "1986-08-03", "1984-02-29", "198X", "19XX", "1986-XX", "1986-02-XX", "1984-02-XX", "1986-XX-XX",
    "1986?", "1986~", "1986%", "1986-08?", "1986-08-03~", "1983-03/1991-10", "1983/1991-10-07", "1984~/1986", "1984?/1986-02%",
    "../1986-07", "1983/..", "1986-08/1986-08", "198X/1991",
]  # fmt: skip
"""What is accepted at both ends, or open at one."""

REFUSED = {
    "1986-21": "level 1: a season is a matter of the hemisphere",
    "Y12345": "level 1: no car is built in such years",
    "-1986": "level 1: nor before year 1",
    "0000": "level 0: nor in year 0",
    "1986-08-03T12:00:00": "level 0: nothing here hangs on a time of day",
    "1X86": "level 2: other unknown figures than the last",
    "XXXX": "level 2: no figure known",
    "{1986,1987}": "level 2: sets; several values are a list in a book",
    "2004-06-~01": "level 2: a part qualified by itself",
}
"""What the library takes and we refuse, and why."""

NOT_EDTF = [
    "1986-13", "1986-02-30", "198u", "1986-3", "1986-W05", "86", "1986/1983/1991", "08/1986", "3.8.1986", "1986-08-03 ",
    "１９８６", "١٩٨٦", "1986-0８", "",
]  # fmt: skip


def theirs(text: str) -> tuple[int, int]:
    """The library's bounds as day ordinals; an open end is the first or last day there is."""
    parsed = parse_edtf(text)
    low, high = parsed.lower_strict(), parsed.upper_strict()
    return (
        date(*low[:3]).toordinal() if isinstance(low, struct_time) else FIRST,
        date(*high[:3]).toordinal() if isinstance(high, struct_time) else LAST,
    )


@pytest.mark.parametrize("text", ACCEPTED)
def test_the_bounds_are_those_of_the_library(text: str) -> None:
    """The first and the last day that are possible, in a leap year's February too."""
    ours = read_period(text)
    assert ours is not None
    low, high = theirs(text)
    assert (ours.start, ours.end) == (low, high)
    assert ours.qualified == any(mark in text for mark in "?~%")


@pytest.mark.parametrize(("text", "known"), [("/1986-07", "end"), ("1986-07/", "start")])
def test_an_unknown_end_may_be_any_day(text: str, known: str) -> None:
    """The library allows ten years for an end that is not known (a setting of its own); we allow any day."""
    ours = read_period(text)
    assert ours is not None
    low, high = theirs(text)
    assert (ours.start, ours.end) == ((FIRST, high) if known == "end" else (low, LAST))


@pytest.mark.parametrize("text", sorted(REFUSED))
def test_what_is_refused_is_written_in_edtf_all_the_same(text: str) -> None:
    """The table above says why each is refused; it would be no question if it were no EDTF."""
    assert parse_edtf(text) is not None
    assert read_period(text) is None


@pytest.mark.parametrize("text", NOT_EDTF)
def test_what_is_no_edtf_is_no_date(text: str) -> None:
    """Nor for the library (which is let off the digits of other scripts)."""
    assert read_period(text) is None
    assert read_day(text) is None
    if text.isascii() and text and text.strip() == text:
        with pytest.raises(EDTFParseException):
            parse_edtf(text)


POINTS = st.builds(
    lambda day, cut, mark: day.isoformat()[:cut] + mark,
    st.dates(min_value=date(1000, 1, 1)),
    st.sampled_from([4, 7, 10]),
    st.sampled_from(["", "", "?", "~", "%"]),
)


@given(POINTS)
def test_any_date_has_the_bounds_of_the_library(text: str) -> None:
    """Days, months and years of every century from 1000 on, qualified or not."""
    ours = read_period(text)
    assert ours is not None
    assert (ours.start, ours.end) == theirs(text)


@given(
    st.dates(min_value=date(1000, 1, 1)), st.dates(min_value=date(1000, 1, 1)), st.sampled_from([4, 7, 10])
)
def test_any_interval_has_the_bounds_of_the_library(one: date, other: date, cut: int) -> None:
    """The earlier end first; the other way round it is none."""
    first, last = sorted((one.isoformat()[:cut], other.isoformat()[:cut]))
    ours = read_period(f"{first}/{last}")
    assert ours is not None
    assert (ours.start, ours.end) == theirs(f"{first}/{last}")
    assert (ours.surely_from, ours.surely_till) == (ours.start, ours.end)
    if first != last:
        assert read_period(f"{last}/{first}") is None


@given(st.text(alphabet="0189-/.X?~% T", max_size=12))
def test_whatever_is_accepted_is_edtf(text: str) -> None:
    """A date that we read, the library reads."""
    if read_period(text) is not None:
        assert parse_edtf(text) is not None
