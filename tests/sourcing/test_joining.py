"""What is paid once to join a supplier, a club say, before the first order. All sums by hand, in pence."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from fitlore.fitting import Question, answer
from fitlore.model.amounts import Money
from fitlore.report.machine_plans import plan_json
from fitlore.report.plans import plan_lines
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.paths import sources_for
from tests.sourcing.tiny import bought, found, planned, shop_of

SELLERS = """
- supplier: club
  trade: club
  joining-fee: 12.00 GBP
  carriage: {fixed: 1.00 GBP}
  offers:
    - {number: P, price: 10.00 GBP}
    - {number: Q, price: 10.00 GBP}
- supplier: post
  trade: factor
  carriage: {fixed: 3.00 GBP}
  offers:
    - {number: P, price: 19.50 GBP}
    - {number: Q, price: 15.00 GBP}
"""


@pytest.mark.parametrize(
    ("places", "pence", "parts"),
    [
        (("front/p",), 2250, {"post P new": 1}),
        (("front/p", "front/q"), 3300, {"club P new": 1, "club Q new": 1}),
    ],
)
def test_joining_pays_or_not(places: tuple[str, ...], pence: int, parts: dict[str, int]) -> None:
    """P alone: 10 + 1 + 12 = 23.00 against 19.50 + 3 = 22.50. P and Q: 20 + 1 + 12 = 33.00 against 37.50 (mixed 41.00)."""
    made = planned(shop_of(found(*places) + SELLERS))
    assert (made.solution.cost, bought(made)) == (pence, parts)
    assert made.solution.totals.cash_now == pence


def test_the_fee_is_said_and_is_cash() -> None:
    """33.00 with the club; whoever has 32.99 cannot, and nothing else is cheaper."""
    graph = shop_of(found("front/p", "front/q") + SELLERS)
    made = planned(graph)
    assert [(order.goods, order.joining, order.fee) for order in made.orders] == [(2000, 1200, 100)]
    assert "club: 20.00, joining 12.00, carriage 1.00" in "\n".join(line.text for line in plan_lines(made))
    assert [str(row["joining"]) for row in plan_json(made)["orders"]] == ["12.00 GBP"]
    cash = Wishes(today=date(2026, 12, 3), cash=Money(Decimal("32.99"), "GBP"))
    assert planned(graph, cash).solution.status == "infeasible"


@pytest.mark.parametrize("now", ["fitted", "went-back"])
def test_whoever_bought_there_has_joined(now: str) -> None:
    """Another job had its R from the club: P alone is now 11.00 there."""
    other = f"""
- job: other
  for: green
  purchases:
    - {{number: R, from: club, at: front/r, now: {now}}}
"""
    made = planned(shop_of(found("front/p") + SELLERS + other))
    assert (made.solution.cost, bought(made)) == (1100, {"club P new": 1})


def test_where_counts_it_too() -> None:
    """Each source by itself: 22.50 from the post, 23.00 from the club."""
    graph = shop_of(found("front/p") + SELLERS)
    car, place = graph.car("green"), graph.place("kestin-tolland", "front/p")
    assert car is not None
    assert place is not None
    sources = sources_for(graph, answer(graph, Question(place, car)), 1, date(2026, 12, 3)).sources
    assert [(row.landed, row.joining) for row in sources] == [(2250, 0), (2300, 1200)]
