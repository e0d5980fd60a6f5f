"""What a plan need not buy: the shop's stores, what was bought for the job already; and what is renewed with a part."""

from __future__ import annotations

from datetime import date

import pytest

from fitlore.report.plans import plan_lines
from fitlore.report.plans_besides import besides_json
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.plan import Plan
from tests.sourcing.tiny import bought, found, planned, shop_of

SELLER = """
- supplier: factor
  trade: factor
  carriage: {fixed: 5.00 GBP}
  offers:
    - {number: P, price: 20.00 GBP, days: 1}
    - {number: Q, price: 7.00 GBP, days: 1}
    - {number: PUMP, price: 30.00 GBP, days: 1}
"""


def text(made: Plan) -> str:
    """What `plan` prints, as one text."""
    return "\n".join(line.text for line in plan_lines(made))


def with_purchases(*rows: str, places: tuple[str, ...] = ("front/p", "front/q")) -> Plan:
    """The plan of a job with two findings after these purchases."""
    lines = "".join(f"    - {row}\n" for row in rows)
    return planned(shop_of(found(*places, more=f"  in-hand-by: 2026-12-09\n  purchases:\n{lines}") + SELLER))


def test_what_is_bought_already_costs_nothing_more() -> None:
    """20.00 were paid for P: the rest is Q and its carriage, 12.00, and 12.00 of cash."""
    made = with_purchases("{number: P, now: here, price: 20.00 GBP}")
    assert (made.solution.cost, made.solution.totals.cash_now) == (1200, 1200)
    assert bought(made) == {"factor Q new": 1, "own purchases P new": 1}
    assert made.solution.totals.suppliers == 1
    assert "own purchases: nothing to pay any more" in text(made)


def test_what_is_in_hand_is_no_supplier() -> None:
    """One supplier at most still allows what is in hand beside him."""
    graph = shop_of(found("front/p", "front/q", more="  purchases:\n    - {number: P, now: here}\n") + SELLER)
    made = planned(graph, Wishes(today=date(2026, 12, 3), suppliers=1))
    assert (made.solution.status, made.solution.cost) == ("proven", 1200)


@pytest.mark.parametrize(
    ("state", "pence"),
    [
        ("now: on-order, due: 2026-12-09", 1200),
        ("now: on-order, due: 2026-12-10", 3200),
        ("now: on-order", 3200),
        ("now: went-back", 3200),
        ("now: here, quantity: 3", 1200),
    ],
)
def test_how_far_a_bought_thing_has_come(state: str, pence: int) -> None:
    """It counts where it is here in time; a day later, without a day, or gone back it does not (all by hand)."""
    assert with_purchases(f"{{number: P, {state}}}").solution.cost == pence


def test_on_order_without_a_day_is_said() -> None:
    """Nobody knows when it comes: the plan buys another one and says so."""
    made = with_purchases("{number: P, now: on-order}")
    assert "on order with no day said, so not counted on: 1 x P" in text(made).replace(
        "\N{NO-BREAK SPACE}", " "
    )
    assert besides_json(made)["on-order-without-a-day"] == [
        {"what": "P", "quantity": 1, "now": "on-order", "line": "shop/more.yaml:7:7"}
    ]


def test_what_is_fitted_has_met_its_finding() -> None:
    """P is in the car: Q is all that is left, and P's need is said to be done."""
    made = with_purchases("{number: P, at: front/p, now: fitted, price: 20.00 GBP}")
    assert [line.need.id for line in made.lines] == ["front/q"]
    assert (made.solution.cost, besides_json(made)["done"]) == (1200, ["front/p"])
    assert "done already: front/p (broken)" in text(made)


def test_a_fitted_thing_meets_one_finding_only() -> None:
    """One P fitted and two findings of it: one is done, the other still open."""
    made = with_purchases("{number: P, at: front/p, now: fitted}", places=("front/p", "front/p"))
    assert ([need.id for need in made.assembled.done], made.solution.cost) == (["front/p"], 2500)


def test_what_was_bought_and_is_no_use_is_said() -> None:
    """R is here and nothing needs it: an open question, not an error."""
    made = with_purchases("{number: R, now: here}")
    assert made.solution.cost == 3200
    assert [row["what"] for row in besides_json(made)["bought-and-idle"]] == ["R"]
    assert "bought, and no use in this plan: 1 x R (here)" in text(made).replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize(
    ("worth", "pence", "from_stores"),
    [("", 0, True), (", worth: 24.99 GBP", 2499, True), (", worth: 25.01 GBP", 2500, False)],
)
def test_stores_cost_what_they_would_bring_elsewhere(worth: str, pence: int, from_stores: bool) -> None:
    """P from the stores against 20.00 + 5.00 from the factor; its worth is money at the end, never cash now."""
    books = f"\n- stores: bench\n  has:\n    - {{number: P{worth}}}\n"
    made = planned(shop_of(found("front/p") + SELLER + books))
    assert (made.solution.cost, "own stores P new" in bought(made)) == (pence, from_stores)
    assert made.solution.totals.cash_now == (0 if from_stores else 2500)


def test_a_piece_renewed_with_the_part_is_bought_where_it_is_known_which() -> None:
    """The pump's category wants two washers; the assembly has one place for one, whose part is RING: 2 x 1.50 more."""
    ring = "\n- supplier: post\n  trade: factor\n  offers:\n    - {number: RING, price: 1.50 GBP, days: 2}\n"
    made = planned(shop_of(found("back/pump") + SELLER + ring))
    assert made.solution.cost == 3000 + 500 + 300
    assert bought(made) == {"factor PUMP new": 1, "post RING new": 2}
    assert besides_json(made)["needed-too"] == []


def test_a_piece_that_nobody_sells_stops_nothing_and_is_said() -> None:
    """The sum is that of the pump alone, and the plan says what is needed too at a price nobody has said."""
    made = planned(shop_of(found("back/pump") + SELLER))
    assert (made.solution.status, made.solution.cost) == ("proven", 3500)
    (row,) = besides_json(made)["needed-too"]
    assert (row["what"], row["quantity"], row["one-use"]) == ("washer", 2, True)
    assert "needed too, at a price nobody has said (not in the sum): 2 x washer (back/pump)" in text(
        made
    ).replace("\N{NO-BREAK SPACE}", " ")


def test_a_piece_that_comes_too_late_is_said_and_stops_nothing() -> None:
    """RING would come after everything has to be in hand."""
    ring = "\n- supplier: post\n  trade: factor\n  offers:\n    - {number: RING, price: 1.50 GBP, days: 9}\n"
    made = planned(shop_of(found("back/pump", more="  in-hand-by: 2026-12-09\n") + SELLER + ring))
    assert (made.solution.cost, len(besides_json(made)["needed-too"])) == (3500, 1)


def test_no_washer_of_another_place_is_bought() -> None:
    """Where the assembly has no place for one, nobody knows which washer it is: RING is not bought for it."""
    ring = "\n- supplier: post\n  trade: factor\n  offers:\n    - {number: RING, price: 1.50 GBP}\n"
    made = planned(shop_of(found("side/pump") + SELLER + ring))
    assert (made.solution.cost, len(besides_json(made)["needed-too"])) == (3500, 1)


def test_a_kind_sold_or_held_by_kind_serves_it() -> None:
    """`any: washer` at 0.40: two of them; three in the stores: none is bought; a used one-use piece is never taken."""
    seller = "\n- supplier: post\n  trade: factor\n  offers:\n    - {any: washer, price: 0.40 GBP}\n"
    made = planned(shop_of(found("side/pump") + SELLER + seller))
    assert (made.solution.cost, bought(made)["post washer new"]) == (3580, 2)
    stores = "\n- stores: bench\n  has:\n    - {is: washer, quantity: 3}\n"
    made = planned(shop_of(found("side/pump") + SELLER + seller + stores))
    assert (made.solution.cost, bought(made)["own stores washer new"]) == (3500, 2)
    made = planned(shop_of(found("side/pump") + SELLER + seller.replace("GBP}", "GBP, state: used}")))
    assert (made.solution.cost, len(besides_json(made)["needed-too"])) == (3500, 1)


def test_what_another_must_renews_is_not_wanted_twice() -> None:
    """The ring's own finding brings it: one, not three."""
    ring = "\n- supplier: post\n  trade: factor\n  offers:\n    - {number: RING, price: 1.50 GBP}\n"
    made = planned(shop_of(found("back/pump", "back/pump-ring") + SELLER + ring))
    assert bought(made) == {"factor PUMP new": 1, "post RING new": 1}


def test_what_a_kit_brings_is_not_said_to_be_missing() -> None:
    """A set with the pump and two rings: nothing more is needed."""
    kit = """
- supplier: post
  trade: factor
  offers:
    - {number: SET, price: 31.00 GBP, stock: 1, brings: [{number: PUMP}, {number: RING, quantity: 2}]}
"""
    made = planned(shop_of(found("side/pump") + SELLER + kit))
    assert (made.solution.cost, besides_json(made)["needed-too"]) == (3100, [])


@pytest.mark.parametrize(
    ("terms", "today", "days"),
    [
        ("open: {monday-friday: 08:00/17:00}", date(2026, 12, 3), 1),
        ("open: {monday-friday: 08:00/17:00}", date(2026, 12, 5), 3),
        ("open: {monday-friday: 08:00/17:00, saturday: 08:00/12:00}", date(2026, 12, 5), 1),
        ("closed: 2026-12-24/2027-01-03", date(2026, 12, 24), 12),
        ("closed: 2026-12-24/2027-01-03", date(2026, 12, 23), 1),
        ("open: {by-appointment: 08:00/17:00}", date(2026, 12, 5), 1),
    ],
)
def test_days_count_from_the_day_an_order_is_taken(terms: str, today: date, days: int) -> None:
    """5 December 2026 is a Saturday, 4 January 2027 a Monday (calendar)."""
    graph = shop_of(found("front/p") + SELLER.replace("  trade: factor", f"  trade: factor\n  {terms}"))
    assert planned(graph, Wishes(today=today)).solution.totals.last_day == days


def test_the_free_test_comes_first() -> None:
    """A symptom is no finding yet: the plan says what to look at, the shortest test first, then the likelier cause."""
    symptom = """  symptoms:
    - symptom: cranks slowly
      could-be:
        - {at: front/q, test: amps, minutes: 15, odds: 40 %}
        - {at: front/r, test: volts, minutes: 5, odds: 20 %}
        - {at: front/p, test: a look, odds: 10 %}
        - {at: back/pump, test: a shake, minutes: 5, odds: 30 %}
"""
    words = text(planned(shop_of(found("front/p", more=symptom) + SELLER))).replace("\N{NO-BREAK SPACE}", " ")
    assert (
        "look first, cranks slowly: a look (at once; front/p), then a shake (5 min; back/pump), "
        "then volts (5 min; front/r), then amps (15 min; front/q)"
    ) in words


def test_a_used_piece_is_not_renewed() -> None:
    """RING new at 1.50 and used at 0.10: what is renewed with the pump is new, 30.00 + 5.00 + 2 x 1.50."""
    ring = """
- supplier: post
  trade: factor
  offers:
    - {number: RING, price: 1.50 GBP}
    - {number: RING, price: 0.10 GBP, state: used}
"""
    made = planned(shop_of(found("back/pump") + SELLER + ring))
    assert (made.solution.cost, bought(made)["post RING new"]) == (3800, 2)
