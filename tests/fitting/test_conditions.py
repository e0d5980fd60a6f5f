"""Conditions in three values against plain enumeration: of days, of serial numbers, of words.

The strong three-valued logic is Kleene's (S. C. Kleene, Introduction to Metamathematics, 1952, section 64): a value is
known exactly where every way of filling in what is unknown gives the same.
"""

from __future__ import annotations

import calendar
from collections.abc import Iterable
from datetime import date, timedelta
from functools import cache
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlore.fitting.cells import covered, possible
from fitlore.fitting.conditions import holds
from fitlore.model.dates import Period, read_period, within
from fitlore.model.kleene import Tri, all_of, any_of
from fitlore.model.platform import Cond, Condition, Established, FactRange, Platform
from fitlore.model.record import Name

QUICK = settings(max_examples=100, deadline=None)
CLASSIC = {Tri.TRUE: {True}, Tri.FALSE: {False}, Tri.ASK: {True, False}}
OPEN, UNKNOWN = "..", ""


def tri(answers: Iterable[bool]) -> Tri:
    """What is known when these are the possible answers."""
    found = set(answers)
    assert found
    return Tri.ASK if len(found) == 2 else Tri.TRUE if found == {True} else Tri.FALSE


def fact(*values: str) -> Established:
    """A fact of a car: one value, or one of several."""
    return Established(value=values)


# -- Kleene's tables


@pytest.mark.parametrize(("one", "other"), list(product(Tri, repeat=2)))
def test_and_or_are_kleenes_tables(one: Tri, other: Tri) -> None:
    """And, or: what every way of deciding the unknown ones agrees on; in either order, by operator or by function."""
    pairs = [(a, b) for a in CLASSIC[one] for b in CLASSIC[other]]
    assert (one & other) is (other & one) is all_of((one, other)) is tri(a and b for a, b in pairs)
    assert (one | other) is (other | one) is any_of((one, other)) is tri(a or b for a, b in pairs)


@pytest.mark.parametrize("value", list(Tri))
def test_not_is_kleenes_table(value: Tri) -> None:
    """Not: unknown stays unknown."""
    assert ~value is tri(not a for a in CLASSIC[value])


def test_nothing_asked_for_holds_and_no_choice_does_not() -> None:
    """The empty conjunction is true, the empty disjunction false."""
    assert all_of(()) is Tri.TRUE
    assert any_of(()) is Tri.FALSE
    assert holds({}, {}).value is Tri.TRUE


@given(st.lists(st.sampled_from(Tri), min_size=1, max_size=5))
@QUICK
def test_and_or_of_many(values: list[Tri]) -> None:
    """Of any number of values, as of two."""
    cases = list(product(*(CLASSIC[value] for value in values)))
    assert all_of(values) is tri(map(all, cases))
    assert any_of(values) is tri(map(any, cases))


# -- dates: a simple reference by enumeration

DAYS = [date(1980, 1, 1) + timedelta(days=n) for n in range(3653)]
"""The decade of which all dates here are, day by day."""
SHAPES = ["%Y", "%Y-%m", "%Y-%m-%d"]
WRITTEN = {day: [day.strftime(shape) for shape in SHAPES] for day in DAYS}


@cache
def days_of(text: str) -> frozenset[date]:
    """The days a point in time may be, by plain comparison of its pieces (`X` stands for any digit)."""
    shape = text.count("-")
    return frozenset(
        day
        for day, written in WRITTEN.items()
        if all(mark in ("X", digit) for mark, digit in zip(text, written[shape], strict=True))
    )


@cache
def days_in(text: str) -> frozenset[date]:
    """The days of a period without unknown ends: from the first day of one end to the last of the other."""
    if "/" not in text:
        return days_of(text)
    low, high = text.split("/")
    first = DAYS[0] if low == OPEN else min(days_of(low))
    last = DAYS[-1] if high == OPEN else max(days_of(high))
    return frozenset(day for day in DAYS if first <= day <= last)


@st.composite
def points(draw: st.DrawFn, *, masked: bool = True) -> str:
    """A year, a month or a day of the decade; sometimes with an unknown digit."""
    day = draw(st.sampled_from(DAYS))
    text = draw(st.sampled_from(WRITTEN[day]))
    if masked and draw(st.booleans()):
        return draw(st.sampled_from(["198X", f"{day.year}-XX", f"{day.year}-{day.month:02}-XX"]))
    return text


@st.composite
def periods(draw: st.DrawFn) -> str:
    """A point, or an interval with open ends or none, the earlier end first."""
    if draw(st.booleans()):
        return draw(points())
    low = draw(st.one_of(st.just(OPEN), points(masked=False)))
    high = draw(points(masked=False) if low == OPEN else st.one_of(st.just(OPEN), points(masked=False)))
    if OPEN not in (low, high) and min(days_of(low)) > max(days_of(high)):
        low, high = high, low
    return f"{low}/{high}"


def period(text: str) -> Period:
    """A period that can be read."""
    found = read_period(text)
    assert found is not None, text
    return found


@given(points(), periods())
@QUICK
def test_a_day_in_a_period_is_as_enumerated(one: str, text: str) -> None:
    """True where every possible day lies in it, false where none does, else a question."""
    inside = days_in(text)
    assert within(period(one), period(text)) is tri(day in inside for day in days_of(one))


@given(points(), st.lists(periods(), min_size=1, max_size=2, unique=True), st.booleans())
@QUICK
def test_a_building_date_in_lists_and_negations(one: str, listed: list[str], negated: bool) -> None:
    """A list of periods is or, `not` is not; unknown only where enumeration by day leaves both (lists may ask more)."""
    cond = Cond(not_=tuple(listed)) if negated else Cond(any_=tuple(listed))
    found = holds({"built": cond}, {"built": fact(one)}).value
    union = frozenset().union(*map(days_in, listed))
    exact = tri((day in union) != negated for day in days_of(one))
    assert found in (exact, Tri.ASK)
    if len(listed) == 1:
        assert found is exact


@given(points(), points(masked=False), st.booleans())
@QUICK
def test_an_end_nobody_knows_proves_no_yes(one: str, end: str, opening: bool) -> None:
    """`1986/` and `/1986` (EDTF: unknown end) can prove that a day is outside, never that it is inside."""
    text = f"{UNKNOWN}/{end}" if opening else f"{end}/{UNKNOWN}"
    found = within(period(one), period(text))
    edge = days_of(end)
    outside = all(day > max(edge) if opening else day < min(edge) for day in days_of(one))
    assert found is (Tri.FALSE if outside else Tri.ASK)


@pytest.mark.parametrize("mark", ["?", "~", "%"])
def test_a_qualified_date_proves_nothing(mark: str) -> None:
    """ISO 8601-2: uncertain, approximate, both."""
    assert within(period(f"1985{mark}"), period("1980/1990")) is Tri.ASK
    assert within(period("1985"), period(f"1980{mark}/1990")) is Tri.ASK
    assert within(period(f"1975{mark}"), period("1980/1990")) is Tri.ASK


@pytest.mark.parametrize(
    "text",
    [
        "1986-13",
        "1986-00",
        "1986-02-30",
        "1985-02-29",
        "0000",
        "86",
        "1986-8",
        "../..",
        "/",
        "1990/1985",
        "1986-XX-03",
        "198X-05",
        "soon",
    ],
)
def test_what_is_no_date_is_not_read(text: str) -> None:
    """No guess at days that do not exist or at orders that cannot be."""
    assert read_period(text) is None


@pytest.mark.parametrize("year", [1984, 1985, 1986, 1900, 2000])
def test_a_month_ends_with_its_last_day(year: int) -> None:
    """Leap years as the Gregorian calendar has them (ISO 8601-1)."""
    last = calendar.monthrange(year, 2)[1]
    inside = date(year, 2, last).isoformat()
    assert within(period(inside), period(f"../{year}-02")) is Tri.TRUE
    assert within(period(date(year, 3, 1).isoformat()), period(f"../{year}-02")) is Tri.FALSE


@given(points(masked=False), periods())
@QUICK
def test_a_registration_bounds_the_building_date_from_above(one: str, text: str) -> None:
    """A car is not registered before it is built: all days up to the last of the registration are possible."""
    found = holds({"built": Cond(any_=(text,))}, {"registered": fact(one)}).value
    inside = [day in days_in(text) for day in days_in(f"../{one}")]
    before_the_decade = text.startswith(OPEN)
    assert found is tri([*inside, before_the_decade])


@given(points(), points(masked=False), periods())
@QUICK
def test_built_and_registered_together(built: str, registered: str, text: str) -> None:
    """Two bounds of one day never say more than both together allow; where they contradict each other, ask."""
    facts = {"built": fact(built), "registered": fact(registered)}
    found = holds({"built": Cond(any_=(text,))}, facts).value
    days = days_of(built) & days_in(f"../{registered}")
    if found is not Tri.ASK and days:
        assert found is tri(day in days_in(text) for day in days)


def test_registered_before_it_was_built_is_a_question() -> None:
    """Papers that contradict each other decide nothing."""
    facts = {"built": fact("1987"), "registered": fact("1983")}
    assert holds({"built": Cond(any_=("../1985",))}, facts).value is Tri.ASK
    assert holds({"built": Cond(any_=("1986/..",))}, facts).value is Tri.ASK


# -- serial numbers and words

SERIES = ("KT", "C4")


@st.composite
def ranges(draw: st.DrawFn) -> tuple[str, set[int]]:
    """A range of serial numbers from 1 to 12 as books write it, and what lies in it."""
    low, high = sorted(draw(st.tuples(st.integers(1, 12), st.integers(1, 12))))
    forms = {
        f"{low}/{high}": range(low, high + 1),
        f"../{high}": range(1, high + 1),
        f"{low}/..": range(low, 13),
        f"{low}": range(low, low + 1),
    }
    text = draw(st.sampled_from(sorted(forms)))
    return text, set(forms[text])


@given(
    st.dictionaries(st.sampled_from(SERIES), ranges(), min_size=1),
    st.sampled_from(SERIES),
    st.integers(1, 12),
    st.booleans(),
)
@QUICK
def test_a_serial_number_lies_in_its_own_series(
    written: dict[str, tuple[str, set[int]]], series: str, number: int, zeros: bool
) -> None:
    """Each series has its own range; digits are compared as whole numbers; a series nobody listed is a question."""
    cond = Cond(series={name: text for name, (text, _) in written.items()})
    value = f"{series.lower()} {number:06}" if zeros else f"{series} {number}"
    expected = tri([number in written[series][1]]) if series in written else Tri.ASK
    assert holds({"chassis": cond}, {"chassis": fact(value)}).value is expected


@given(ranges(), st.integers(1, 12), st.integers(1, 12))
@QUICK
def test_a_serial_number_out_of_a_range_less_one(
    written: tuple[str, set[int]], banned: int, number: int
) -> None:
    """A range and a `not` both hold."""
    cond = Cond(series={"KT": written[0]}, not_=(f"KT {banned}",))
    expected = tri([number in written[1] and number != banned])
    assert holds({"chassis": cond}, {"chassis": fact(f"KT {number}")}).value is expected


@pytest.mark.parametrize("text", ["", "12/3", "early", "1-5", "1/2/3"])
def test_a_range_that_cannot_be_read_is_a_question(text: str) -> None:
    """Neither yes nor no."""
    assert holds({"chassis": Cond(series={"KT": text})}, {"chassis": fact("KT 5")}).value is Tri.ASK


@pytest.mark.parametrize("value", ["118430", "KT", "", "KT118430", "about KT 5"])
def test_a_serial_number_that_cannot_be_read_is_a_question(value: str) -> None:
    """A number without its series, a series without a number, both run together."""
    assert holds({"chassis": Cond(series={"KT": "../118000"})}, {"chassis": fact(value)}).value is Tri.ASK


WORDS = st.lists(st.sampled_from(["left", "right", "centre"]), min_size=1, max_size=3, unique=True)


@given(WORDS, WORDS, st.booleans())
@QUICK
def test_words_in_lists_and_negations(known: list[str], listed: list[str], negated: bool) -> None:
    """A list in a condition is or; a list as a fact is one of these, not known which."""
    cond = Cond(not_=tuple(listed)) if negated else Cond(any_=tuple(word.upper() for word in listed))
    found = holds({"steering": cond}, {"steering": fact(*known)}).value
    assert found is tri((word in listed) != negated for word in known)


@given(
    st.lists(st.tuples(st.sampled_from(["a", "b", "c"]), WORDS), min_size=1, max_size=3),
    st.dictionaries(st.sampled_from(["a", "b", "c"]), WORDS),
)
@QUICK
def test_several_facts_must_all_hold(
    written: list[tuple[str, list[str]]], known: dict[str, list[str]]
) -> None:
    """The conjunction over independent facts; and whatever is unknown is asked for, each fact once."""
    condition: Condition = {name: Cond(any_=tuple(words)) for name, words in written}
    facts = {name: fact(*words) for name, words in known.items()}
    held = holds(condition, facts)
    single = [holds({name: cond}, facts).value for name, cond in condition.items()]
    assert held.value is all_of(single)
    asked = {name for name, value in zip(condition, single, strict=True) if value is Tri.ASK}
    assert {ask.name for ask in held.asks} == (asked if held.value is Tri.ASK else set())
    assert len(held.steps) == len(condition)


# -- which facts are possible

PLATFORM = Platform(
    platform=Name("kestin-tolland"),
    built=read_period("1980/1989"),
    facts={"chassis": FactRange(series=SERIES), "steering": FactRange(any_=("left", "right"))},
)


@given(st.lists(st.dictionaries(st.sampled_from(SERIES), ranges(), min_size=1), min_size=1, max_size=3))
@QUICK
def test_ranges_that_leave_no_gap(written: list[dict[str, tuple[str, set[int]]]]) -> None:
    """Conditions cover all cars exactly where each serial number of each of the platform's series meets one of them."""
    conditions: list[Condition] = [
        {"chassis": Cond(series={name: text for name, (text, _) in row.items()})} for row in written
    ]
    numbers = range(1, 15)
    exact = all(
        any(holds(c, {"chassis": fact(f"{series} {n}")}).value is Tri.TRUE for c in conditions)
        for series in SERIES
        for n in numbers
    )
    assert covered(conditions, {}, PLATFORM) is exact
    assert not covered(conditions, {}, None)


@given(st.lists(periods(), min_size=1, max_size=3), st.one_of(st.none(), points()))
@QUICK
def test_periods_that_leave_no_gap(listed: list[str], built: str | None) -> None:
    """Conditions cover all cars exactly where each day that is possible lies in one of them."""
    conditions: list[Condition] = [{"built": Cond(any_=(text,))} for text in listed]
    facts = {"built": fact(built)} if built else {}
    days = days_of(built) if built else days_of("198X")
    assert covered(conditions, facts, PLATFORM) is (days <= frozenset().union(*map(days_in, listed)))


def test_two_facts_at_once() -> None:
    """Every combination of what is possible has to be met."""
    left, right = Cond(any_=("left",)), Cond(any_=("right",))
    low, high = Cond(series={"KT": "../5", "C4": "../9"}), Cond(series={"KT": "6/..", "C4": "10/.."})
    four: list[Condition] = [{"steering": s, "chassis": c} for s, c in product((left, right), (low, high))]
    assert covered(four, {}, PLATFORM)
    assert not covered(four[:3], {}, PLATFORM)
    assert covered(four[:2], {"steering": fact("left")}, PLATFORM)
    assert not covered(four[:2], {"steering": fact("left", "right")}, PLATFORM)


def test_too_many_kinds_of_cars_are_not_counted() -> None:
    """Beyond 64 cells nothing is claimed to be covered."""
    many = tuple(f"w{n}" for n in range(65))
    platform = Platform(platform=Name("p"), facts={"trim": FactRange(any_=many)})
    conditions: list[Condition] = [{"trim": Cond(any_=many)}]
    assert possible(conditions, {}, platform) == []
    assert not covered(conditions, {}, platform)


def test_a_fact_without_a_list_of_what_it_can_be_is_not_counted() -> None:
    """What can be anything is covered by no list of words."""
    conditions: list[Condition] = [{"trim": Cond(any_=("red",))}, {"trim": Cond(not_=("red",))}]
    assert not covered(conditions, {}, PLATFORM)
