"""What the policy has nobody buy: states, and tyres past their age by the figures of their DOT number (49 CFR 574.5)."""

from __future__ import annotations

from datetime import date

import pytest

from fitlore.graph.open import Graph
from fitlore.sourcing.offers import market_for
from tests.upkeep.smallest import graph_of

BOOK = """- policy: tiny
  tyre-age-years: 10
  forbidden-states: {states}
- category: tyre
  safety: wheels
  features:
    made: {{kind: tyre-date, role: works, optional: yes}}
- category: hose
  safety: none
- part: TY 1
  is: tyre
- part: HO 1
  is: hose
- supplier: yard
  trade: breaker
  offers:
    - {{number: {number}, price: 9.00 GBP, {said}}}
"""
DAY = date(2026, 12, 3)


def left_out(said: str, number: str = "TY 1", states: str = "none", day: date = DAY) -> list[str]:
    """The codes for which the one offer is left out; none where it may be bought."""
    graph: Graph = graph_of(BOOK.format(states=states, number=number, said=said))
    market = market_for(graph, [number.replace(" ", "")], day, "GBP")
    codes = [row.code for row in market.left_out]
    assert len(market.offers) + len(codes) == 1
    return codes


@pytest.mark.parametrize(
    ("said", "codes"),
    [
        ('state: used, made: "DOT 4916"', []),  # the week from Monday 5 December 2016
        ('state: used, made: "DOT 4816"', ["tyre-too-old"]),  # the one before: 28 November 2016
        ('state: used, made: "DOT 0126"', []),
        ('state: new, made: "DOT 0110"', ["tyre-too-old"]),
        (
            'state: old-stock, made: "DOT 238"',
            ["tyre-date-not-known"],
        ),  # three figures: of one of three decades
        ("state: used, made: last winter", ["tyre-date-not-known"]),
        ("state: used", ["tyre-date-not-known"]),
        ("state: old-stock", ["tyre-date-not-known"]),
        ("state: new", []),
        ("state: new, made: last winter", []),
    ],
)
def test_a_tyre_is_not_older_than_the_policy_says(said: str, codes: list[str]) -> None:
    """Ten years to the day; of one that is not new the date must be known."""
    assert left_out(said) == codes


def test_a_tyre_may_be_as_old_as_the_policy_says_to_the_day() -> None:
    """Week 49 of 2016 began on Monday 5 December 2016 (ISO 8601)."""
    assert date(2016, 12, 5).isocalendar()[:2] == (2016, 49)
    said = 'state: used, made: "DOT 4916"'
    assert left_out(said, day=date(2026, 12, 5)) == []
    assert left_out(said, day=date(2026, 12, 6)) == ["tyre-too-old"]


def test_other_parts_have_no_such_date() -> None:
    """A used hose is nobody's tyre."""
    assert left_out("state: used", "HO 1") == []


@pytest.mark.parametrize(
    ("states", "said", "codes"),
    [
        ("used", "state: used", ["state-not-taken"]),
        ("[used, old-stock]", "state: old-stock", ["state-not-taken"]),
        ("used", "state: new", []),
        ("none", "state: used", []),
    ],
)
def test_a_state_that_the_policy_forbids_is_not_bought(states: str, said: str, codes: list[str]) -> None:
    """Whatever it is for."""
    assert left_out(said, "HO 1", states) == codes
