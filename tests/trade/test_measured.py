"""Designations of named figures and words: whatever is written is read back, and each side of a bound is its own."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.trade.damper.family import DamperFamily
from fitlore.trade.family import FAMILIES, FamilyState
from fitlore.trade.measured import Made, Shape, read_made
from fitlore.trade.radiator_cap.family import RadiatorCapFamily
from fitlore.trade.spin_on_filter.family import SHAPE as FILTER
from fitlore.trade.thermostat.family import ThermostatFamily
from tests.trade.families import STANDARDS, ask

SHAPES = (DamperFamily.shape, ThermostatFamily.shape, RadiatorCapFamily.shape)
FIGURE = st.integers(100, 99900).map(lambda hundredths: Decimal(hundredths) / 100)


@st.composite
def _made(draw: st.DrawFn) -> tuple[Shape, Made]:
    shape = draw(st.sampled_from(SHAPES))
    needs = set(shape.needs)
    figures = {one.name: draw(FIGURE) for one in shape.figures if one.name in needs or draw(st.booleans())}
    traits = {
        one.name: draw(st.sampled_from([name for name, _ in one.options]))
        for one in shape.traits
        if one.name in needs or draw(st.booleans())
    }
    return shape, Made(shape, figures, traits)


@given(_made())
def test_what_is_written_is_read_back(drawn: tuple[Shape, Made]) -> None:
    """The normal form says each figure and each word, and reading it gives the same again."""
    shape, made = drawn
    found = read_made(str(made), shape, STANDARDS)
    assert isinstance(found, Made), (str(made), found)
    assert found.traits == made.traits
    assert found.figures == made.figures


@given(_made(), st.randoms(use_true_random=False))
def test_the_order_of_the_pieces_says_nothing(drawn: tuple[Shape, Made], random: object) -> None:
    """Between commas the pieces may come in any order."""
    shape, made = drawn
    first, *rest = str(made).split(", ")
    assert hasattr(random, "shuffle")
    random.shuffle(rest)
    found = read_made(", ".join([*rest, first]), shape, STANDARDS)
    assert isinstance(found, Made)
    assert str(found) == str(made)


def test_figures_may_stand_before_or_behind_their_words() -> None:
    """Nouns before, adjectives behind, nouns behind where commas fence them off: one designation."""
    spelt = (
        "oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm",
        "oil filter 3/4-16 UNF gasket 72 98 mm high",
        "oil filter 3/4-16 UNF, 72 mm gasket, 98 mm height",
        "98 mm tall oil filter 3/4-16 UNF, gasket: 72 mm",
    )
    found = {str(read_made(text, FILTER, STANDARDS)) for text in spelt}
    assert found == {"oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm"}


@pytest.mark.parametrize(
    "text",
    [
        "oil filter 3/4-16 UNF 71 mm gasket 98 mm height",
        "oil filter 3/4-16 UNF, gasket 72 mm, gasket 70 mm",
        "oil filter 3/4-16 UNF, gasket 72 mm, bypass 1",
        "oil filter 3/4-16 UNF, gasket 72 mm, anti-drain, no anti-drain",
        "oil filter 3/4-16 UNF, gasket 72 mm, of a sort",
        f"oil filter 3/4-16 UNF, gasket 72 mm{', with' * 40}",
    ],
)
def test_what_can_be_read_two_ways_or_is_left_over_is_refused(text: str) -> None:
    """A figure between two nouns, one said twice, a unit left out, two words of one trait, a rest, a letter."""
    assert not isinstance(read_made(text, FILTER, STANDARDS), Made)


@given(st.integers(200, 600), st.integers(-40, 40))
def test_a_damper_that_is_longer_closed_is_never_a_yes(closed: int, more: int) -> None:
    """Closed length has one direction (common practice): longer bottoms, shorter goes."""
    needed = f"damper {closed + 180}/{closed} mm, top stud, bottom eye"
    offered = f"damper {closed + 180}/{closed + more} mm, top stud, bottom eye"
    state = ask("damper", needed, offered).state
    assert (state is FamilyState.TRAP) == (more > 1)
    assert (state is FamilyState.OK) == (more <= 1)


@given(st.integers(3, 25), st.integers(3, 25))
def test_a_stronger_cap_is_always_a_trap_and_a_weaker_one_never_a_yes(needed: int, offered: int) -> None:
    """Whole pounds to the square inch are further apart than two names of one figure."""
    state = ask("radiator-cap", f"{needed} psi radiator cap", f"{offered} psi radiator cap").state
    wanted = (
        FamilyState.OK if needed == offered else FamilyState.TRAP if offered > needed else FamilyState.OFF
    )
    assert state is wanted


@given(st.decimals(3, 80, places=1), st.decimals(3, 80, places=1))
def test_a_hose_that_goes_is_no_more_than_a_name_bigger(needed: Decimal, offered: Decimal) -> None:
    """A yes without work is within 6 per cent; one that is bigger by more is a trap or does not go."""
    state = ask("hose", f"hose, bore {needed} mm", f"hose, bore {offered} mm").state
    if state is FamilyState.OK:
        assert abs(offered - needed) <= needed * Decimal("0.06")
    if state is FamilyState.OK_WITH_WORK:
        assert offered < needed


@given(st.integers(10, 120), st.integers(8, 100), st.integers(1, 40))
def test_a_clip_that_is_a_yes_holds_the_hose(hose: int, low: int, span: int) -> None:
    """The range of the clip includes the hose, both ends too."""
    state = ask("hose-clip", f"hose clip for {hose} mm", f"hose clip {low}-{low + span} mm").state
    assert state is (FamilyState.OK if low <= hose <= low + span else FamilyState.OFF)


def test_all_families_of_service_parts_are_told_apart() -> None:
    """A spelling of one is read by no other of them."""
    kinds = ("spin-on-filter", "hose", "hose-clip", "thermostat", "radiator-cap", "lambda-probe", "damper")
    for kind in kinds:
        for text in FAMILIES[kind].about.spellings:
            others = [k for k in kinds if k != kind and hasattr(FAMILIES[k].read(text, STANDARDS), "normal")]
            assert not others, (text, others)
