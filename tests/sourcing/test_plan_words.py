"""What a plan says beside its sums: what fills up, what comes back, what is left over, whose part of an order it is.

Every figure is worked by hand in the test that holds it; 3 December 2026 is a Thursday (calendar).
"""

from __future__ import annotations

from datetime import date

import pytest

from fitlore.report.machine_plans import plan_json
from fitlore.report.plans_besides import besides_json
from fitlore.report.sentences import say
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.plan import plan
from fitlore.sourcing.proof import clash_proofs, line_proof
from tests.sourcing.test_corners import FACTOR, text
from tests.sourcing.tiny import JOB, found, planned, shop_of


def test_a_second_one_to_reach_the_minimum_is_marked() -> None:
    """One Q is wanted, two reach the minimum: the second is said to fill up."""
    seller = """
- supplier: post
  trade: factor
  carriage: {fixed: 4.00 GBP, minimum-order: 15.00 GBP}
  offers:
    - {number: Q, price: 9.00 GBP}
"""
    made = planned(shop_of(found("front/q") + seller))
    assert made.solution.cost == 2200
    assert "2 x  Q, 1 of them to fill up  18.00" in text(made)
    assert besides_json(made)["fillers"] == ["post Q new"]


def test_what_stores_would_bring_is_said_where_it_is_counted() -> None:
    """No sentence says `nothing` of the 10.00 that are in the sum."""
    made = planned(
        shop_of(
            found("front/p") + FACTOR + "\n- stores: bench\n  has:\n    - {number: P, worth: 10.00 GBP}\n"
        )
    )
    assert made.solution.cost == 1000
    assert "own stores: nothing to pay any more; 10.00 counted, which it would bring elsewhere" in text(made)
    assert "to pay later" not in text(made)


def test_what_comes_back_and_what_is_paid_later_is_said_beside_the_cash() -> None:
    """60.00 now and 30.00 of scrap back, 20.00 lent of which 16.00 expected back, 6.00 to send the old one: 40.00 in the end."""
    books = """
- supplier: farm
  trade: private
  offers:
    - {whole-car: Tolland, price: 60.00 GBP, stock: 1, scrap-back: 30.00 GBP, brings: [{number: P}, {number: R}]}
    - {number: Q, price: 0.00 GBP, state: exchange, surcharge: 20.00 GBP, old-unit: {accepted: 80 %, return: 6.00 GBP}}
"""
    made = planned(shop_of(found("front/p", "front/q") + books))
    assert (made.solution.totals.money_end, made.solution.totals.cash_now) == (4000, 8000)
    assert (
        "cash needed now; 20.00 of it lent as surcharges, 16.00 expected back; 6.00 to pay later; 30.00 comes back"
        in " ".join(text(made).split())
    )


def test_a_job_without_findings_says_so() -> None:
    """Nothing to do is an answer, with no heading over nothing."""
    words = text(planned(shop_of(JOB + FACTOR)))
    assert "nothing was found that needs doing" in words
    assert "findings" not in words.splitlines()


def test_a_job_with_everything_fitted_says_so() -> None:
    """What is done is named, and nothing is left."""
    more = "  purchases:\n    - {number: P, at: front/p, now: fitted}\n"
    words = text(planned(shop_of(found("front/p", more=more) + FACTOR)))
    assert "done already: front/p (broken)" in words
    assert "nothing is left to do" in words


def test_one_supplier_is_one_in_every_sentence() -> None:
    """The limit is said so that it reads right of one and of several."""
    sellers = "".join(
        f"\n- supplier: {name}\n  trade: factor\n  offers:\n    - {{number: {number}, price: 20.00 GBP}}\n"
        for name, number in (("a", "P"), ("b", "Q"))
    )
    graph = shop_of(found("front/p", "front/q") + sellers)
    job = graph.job("small")
    assert job is not None
    made = plan(graph, job, Wishes(today=date(2026, 12, 3), suppliers=1))
    assert "no more suppliers than 1, as asked" in [say(row) for row in clash_proofs(made)]


def test_a_price_there_is_told_from_what_is_paid_here() -> None:
    """20 % on top of 20.00 is 24.00: both figures are on the line."""
    seller = """
- supplier: counter
  trade: factor
  tax: on-top
  country: GB
  offers:
    - {number: P, price: 20.00 GBP}
"""
    assert "1 x  P (20.00 GBP there)  24.00  now" in text(planned(shop_of(found("front/p") + seller)))


def test_what_was_bought_and_is_left_over_is_counted() -> None:
    """Of three one is used; what comes too late is said with its day."""
    more = (
        "  in-hand-by: 2026-12-09\n  purchases:\n    - {number: P, now: here, quantity: 3}\n"
        "    - {number: Q, now: on-order, due: 2026-12-10}\n"
    )
    words = text(planned(shop_of(found("front/p", "front/q", more=more) + FACTOR)))
    assert "bought, and no use in this plan: 2 x P (here) and 1 x Q (on-order, due Thu 10 Dec)" in words


def test_a_line_says_how_much_of_a_shared_order_is_its_own() -> None:
    """Two findings take one P each of the two that are ordered; a set that serves two lines names the other."""
    made = planned(shop_of(found("front/p", "front/p") + FACTOR))
    says = [say(line_proof(made, line).under[0]) for line in made.lines]
    assert says == ["2 x factor P new at 20.00 GBP, 1 of them for this"] * 2
    kit = """
- supplier: post
  trade: factor
  offers:
    - {number: SET, price: 21.00 GBP, brings: [{number: P}, {number: Q}]}
"""
    made = planned(shop_of(found("front/p", "front/q") + kit))
    assert (
        say(line_proof(made, made.lines[0]).under[0]) == "1 x post SET new at 21.00 GBP, shared with front/q"
    )


def test_what_could_not_be_counted_on_is_said_where_nothing_is_possible_too() -> None:
    """The one P there is was due yesterday: that is why nothing is possible; sums of no plan are not nought but unknown."""
    more = "  purchases:\n    - {number: P, now: on-order, due: 2026-12-02}\n    - {number: R, now: here}\n"
    made = planned(shop_of(found("front/p", more=more)))
    assert made.solution.status == "infeasible"
    words = text(made)
    assert "on order and not here though due, so not counted on: 1 x P (due Wed 2 Dec)" in words
    assert "no use in this plan" not in words
    data = plan_json(made)
    assert {data[key] for key in ("cost", "cash-now", "money-at-the-end", "minutes", "adds")} == {None}


@pytest.mark.parametrize(
    ("minutes", "words"), [(0, "0 min of hands"), (45, "45 min of hands"), (150, "2 h 30 min of hands")]
)
def test_hands_are_said_in_hours(minutes: int, words: str) -> None:
    """The place takes three hours: no limit under that holds, and it is said as one says it."""
    car = "\n- platform: kestin-merrow\n  name: Kestin Merrow\n  maker: Kestin\n  assemblies:\n    front:\n      places:\n"
    car += "        p: {is: piece, original: P, minutes: 180}\n- car: slow\n  is: kestin-merrow\n"
    books = found("front/p", more=f"  hands: {{minutes: {minutes}}}\n").replace("for: green", "for: slow")
    graph = shop_of(car + books + FACTOR)
    job = graph.job("small")
    assert job is not None
    made = plan(graph, job, Wishes(today=date(2026, 12, 3)))
    assert words in [say(row) for row in clash_proofs(made)]
