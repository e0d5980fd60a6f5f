"""From measurements to the listed size: against published sizes, with error and wear, and what to measure next."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlore.model.because import Because
from fitlore.trade.family import FAMILIES
from fitlore.trade.identify import Candidate, held_against, identify, next_measure
from fitlore.trade.measuring import Measured, read_measured
from fitlore.trade.sizes import MEASURES, Band, Sized
from tests.trade.loading import load_every

EVERY, _ = load_every()
D = Decimal


@cache
def listed(kind: str = "") -> tuple[Sized, ...]:
    """Every listed size, or those of one family."""
    kinds = (kind,) if kind else tuple(FAMILIES)
    return tuple(size for one in kinds for size in FAMILIES[one].sizes(EVERY))


def found(text: str, kind: str = "") -> tuple[Candidate, ...]:
    """The candidates for what somebody says."""
    measured = read_measured(text)
    assert isinstance(measured, Measured), measured
    return identify(measured.said, listed(kind))


def names(rows: tuple[Candidate, ...], how: str = "agrees") -> list[str]:
    """Their designations, of those that agree so."""
    return [row.sized.designation for row in rows if row.how == how]


THREADS = [
    ("9.5 outside, 24 to the inch, 60 degrees", "3/8-24 UNF", "ASME B1.1"),
    ("9.9 outside, pitch 1, 60 degrees", "M10x1", "ISO 261"),
    ("11.9 outside, pitch 1.25", "M12x1.25", "ISO 261"),
    ("11.9 outside, pitch 1.5", "M12x1.5", "ISO 261"),
    ("11.05 outside, 20 tpi, 60 degrees", "7/16-20 UNF", "ASME B1.1"),
    ("6.3 outside, 26 to the inch, 55 degrees", "1/4-26 BSF", "BS 84"),
    ("6.3 outside, 28 to the inch, 60 degrees", "1/4-28 UNF", "ASME B1.1"),
    ("9.7 outside, 28 to the inch, 55 degrees", "G1/8", "ISO 228-1"),
    ("7.9 outside, 18 to the inch, 60 degrees", "5/16-18 UNC", "ASME B1.1"),
    ("7.9 outside, 18 to the inch, 55 degrees", "5/16-18 BSW", "BS 84"),
]


@pytest.mark.parametrize(("text", "thread", "source"), THREADS)
def test_a_measured_thread_is_named_first(text: str, thread: str, source: str) -> None:
    """Crest diameters and pitches as the standard named beside each lists them."""
    rows = found(text, "thread")
    assert names(rows)[0] == thread, source
    assert source.split()[0] in " ".join(rows[0].sized.because.sources)


BEARINGS = [
    ("10 x 26 x 8", "6000"), ("12 x 32 x 10", "6201"), ("15 x 35 x 11", "6202"), ("17 x 40 x 12", "6203"),
    ("20 x 47 x 14", "6204"), ("25 x 52 x 15", "6205"), ("25 x 62 x 17", "6305"), ("40 x 17 x 12", "6203"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "bearing"), BEARINGS)
def test_three_unlabelled_numbers_find_the_bearing_in_whatever_order(text: str, bearing: str) -> None:
    """Boundary dimensions of ISO 15, dimension series 10, 02 and 03."""
    assert bearing in names(found(text, "bearing"))


def test_a_worn_thing_is_found_on_the_side_to_which_it_wears_and_on_no_other() -> None:
    """Up to what it may be worn by, and no further."""
    size = Sized("disc", "disc 10", {"thickness": Band(D("9.9"), D("10.1"), "down", D(2))}, Because("x"))

    def how(text: str) -> str:
        measured = read_measured(text)
        assert isinstance(measured, Measured)
        held = held_against(measured.said, size)
        assert held is not None
        return held.how

    assert [how(f"{t} thick") for t in ("10.0", "8.2", "7.9", "7.80", "10.3")] == [
        "agrees",
        "worn",
        "worn",
        "off",
        "off",
    ]


def test_a_hexagon_with_worn_corners_is_still_found_but_after_the_one_that_agrees() -> None:
    """A spanner is chosen by what the flats measure now."""
    rows = found("12.7 across flats", "spanner")
    assert names(rows)[0] == "1/2 AF"
    assert all(row.sized.bands["across-flats"].low > D("12.7") for row in rows if row.how == "worn")


def test_nothing_that_agrees_gives_the_nearest_as_no() -> None:
    """They are told apart from a candidate; what is not even near is left out."""
    rows = found("10.2 outside, pitch 1", "thread")
    assert {row.how for row in rows} == {"off"}
    assert rows[0].sized.designation == "M10x1"
    assert found("17 x 90 x 3", "bearing") == ()


def test_the_pitch_tells_two_threads_of_one_diameter_apart() -> None:
    """It is what to measure next, and each value names its thread."""
    tells = next_measure([row for row in found("9.9 outside, 60 degrees", "thread") if row.how == "agrees"])
    assert tells is not None
    assert tells.measure in ("pitch", "threads-per-inch")
    said = {name: band for band, names in tells.groups for name in names}
    assert said["M10x1"].low == said["M10x1"].high
    assert said["M10x1"] != said["M10x1.25"]


def test_no_measure_is_named_where_none_tells_them_apart() -> None:
    """Bearings of one size differ in what no calliper shows."""
    rows = [row for row in found("17 x 40 x 12", "bearing") if row.how == "agrees"]
    assert len(rows) > 1
    assert next_measure(rows) is None


def test_every_measure_of_every_size_has_a_name_people_use() -> None:
    """A family that measures something new has to name it."""
    assert {name for size in listed() for name in size.bands} <= MEASURES.keys()
    assert all(measure.said for measure in MEASURES.values())


@given(st.sampled_from(sorted(FAMILIES)), st.data())
@settings(deadline=None)
def test_a_new_specimen_is_found_by_its_own_measures(kind: str, data: st.DataObject) -> None:
    """What is measured inside all of a size's bands, and said by name, brings up that size as one that agrees."""
    sizes = listed(kind)
    if not sizes:
        return
    size = data.draw(st.sampled_from(sizes))
    said = []
    for name, band in size.bands.items():
        measured = read_measured(f"1 {MEASURES[name].said[0]}")
        assert isinstance(measured, Measured)
        part = data.draw(st.integers(0, 4))
        said.append(
            measured.said[0]._replace(value=band.low + (band.high - band.low) * part / 4, error=D("0.001"))
        )
    rows = identify(said, sizes)
    assert size.designation in [row.sized.designation for row in rows if row.how == "agrees"]
