"""The price at which a plan changes, both ways: another offer gets cheaper, or one in the plan gets dearer."""

from __future__ import annotations

import msgspec
import pytest

from fitlore.sourcing.prices import Cut, Rise, price_cut, price_rise
from fitlore.sourcing.problem import (
    Bring,
    Limits,
    Mode,
    Need,
    Offer,
    Option,
    Problem,
    ProblemError,
    Solution,
    Supplier,
    Want,
)
from fitlore.sourcing.solve import solve
from tests.sourcing.core.by_hand import cheapest
from tests.sourcing.core.by_lines import cheapest as by_lines
from tests.sourcing.core.green_estate import GREEN_ESTATE
from tests.sourcing.core.small_jobs import job

replace = msgspec.structs.replace


@pytest.fixture(scope="module")
def plan() -> Solution:
    """The right plan."""
    return solve(GREEN_ESTATE)


def _dearer(problem: Problem, offer: str, more: int) -> Problem:
    offers = tuple(replace(o, price=o.price + more) if o.id == offer else o for o in problem.offers)
    return replace(problem, offers=offers)


def test_the_offer_in_the_plan_needs_no_cut(plan: Solution) -> None:
    """It is in already."""
    assert price_cut(GREEN_ESTATE, plan, "rear-lamp-right", "Y-lamp") == Cut(
        "rear-lamp-right", "Y-lamp", 0, True
    )


@pytest.mark.parametrize(
    ("need", "offer"),
    [("radiator", "F-rad"), ("tailgate-struts", "F-struts")],
)
def test_a_cut_is_exact_to_the_penny(plan: Solution, need: str, offer: str) -> None:
    """So much cheaper leaves the plan the cheapest, a penny more makes a cheaper one; found without a solver."""
    cut = price_cut(GREEN_ESTATE, plan, need, offer)
    assert cut.steady
    assert cut.coins is not None

    def at(less: int) -> int | None:
        offers = tuple(replace(o, price=o.price - less) if o.id == offer else o for o in GREEN_ESTATE.offers)
        return by_lines(replace(GREEN_ESTATE, offers=offers))

    assert at(cut.coins) == 53830
    assert (at(cut.coins + 1) or 0) < 53830


def test_no_price_brings_in_what_breaks_the_minimum_order() -> None:
    """Only the dear one reaches the minimum: cheaper, it would fall below it, so no cut helps."""
    problem = Problem(
        (Need("n"),),
        (Option("n/o", "n", wants=(Want(("a",)),)),),
        (
            Offer("a@s1", "s1", 1000, (Bring("a"),)),
            Offer("a@s2", "s2", 1500, (Bring("a"),), most=1),
        ),
        (Supplier("s1"), Supplier("s2", (Mode("post", 0, minimum=1200),))),
    )
    assert price_cut(problem, solve(problem), "n", "a@s2") == Cut("n", "a@s2", None, False)


def test_an_offer_that_brings_nothing_wanted_is_refused(plan: Solution) -> None:
    """It can never enter for this need."""
    with pytest.raises(ProblemError, match="P-lamp brings nothing that need radiator wants"):
        price_cut(GREEN_ESTATE, plan, "radiator", "P-lamp")


@pytest.mark.parametrize("offer", ["R-rad-xch", "Y-lamp", "P-strut", "F-axle-set"])
def test_a_rise_is_exact_to_the_penny(plan: Solution, offer: str) -> None:
    """So much dearer the plan is still a cheapest one, a penny more and another is cheaper; found without a solver."""
    rise = price_rise(GREEN_ESTATE, plan, offer)
    packs = next(row.packs for row in plan.bought if row.offer == offer)
    assert rise.steady
    assert rise.coins is not None
    assert by_lines(_dearer(GREEN_ESTATE, offer, rise.coins)) == 53830 + packs * rise.coins
    assert (by_lines(_dearer(GREEN_ESTATE, offer, rise.coins + 1)) or 0) < 53830 + packs * (rise.coins + 1)


def test_the_struts_may_rise_by_what_their_offers_are_worth() -> None:
    """Two struts at 14.50 stay up to 15.80 each: 2.60 in all is what other offers of theirs would cost more."""
    found = price_rise(GREEN_ESTATE, solve(GREEN_ESTATE), "P-strut")
    assert found == Rise("P-strut", 130, True)


def test_what_alone_would_do_stays_whatever_it_costs() -> None:
    """One offer for a must, no purse: no price changes the plan. With a purse it is the purse that ends it."""
    problem = Problem(
        (Need("n"),),
        (Option("n/o", "n", wants=(Want(("a",), 2),)),),
        (Offer("a@s", "s", 1000, (Bring("a"),)),),
        (Supplier("s"),),
    )
    assert price_rise(problem, solve(problem), "a@s") == Rise("a@s", None, True)
    poor = replace(problem, limits=Limits(cash=2501))
    assert price_rise(poor, solve(poor), "a@s") == Rise("a@s", 250, True)


def test_a_dearer_piece_that_lifts_the_basket_to_free_carriage_is_told_as_unsteady() -> None:
    """At 40.00 the basket is carried for 5.00, from 42.00 free: dearer by 2.00 the whole plan gets cheaper, so it changes."""
    problem = Problem(
        (Need("n"),),
        (Option("n/o", "n", wants=(Want(("a",)),)),),
        (Offer("a@s", "s", 4000, (Bring("a"),)), Offer("a@t", "t", 9000, (Bring("a"),))),
        (Supplier("s", (Mode("post", 500), Mode("free", 0, least_spend=4200))), Supplier("t")),
    )
    found = price_rise(problem, solve(problem), "a@s")
    assert found == Rise("a@s", 199, False)


def test_only_what_is_bought_can_rise(plan: Solution) -> None:
    """An offer the plan does not buy has no such price."""
    with pytest.raises(ProblemError, match="the plan does not buy offer P-lamp"):
        price_rise(GREEN_ESTATE, plan, "P-lamp")


@pytest.mark.parametrize("seed", range(40))
def test_rises_of_random_jobs(seed: int) -> None:
    """At the price found the plan is still a cheapest one; a coin more and trying everything finds another, or none."""
    problem = job(seed)
    found = solve(problem)
    for row in found.bought:
        rise = price_rise(problem, found, row.offer)
        if rise.coins is None:
            assert cheapest(_without(problem, row.offer, row.packs)) is None
            continue
        for more, stays in ((rise.coins, True), (rise.coins + 1, False)):
            best = cheapest(_dearer(problem, row.offer, more))
            kept = best is not None and best.cost == (found.cost or 0) + row.packs * more
            assert kept == stays, (row.offer, more)


def _without(problem: Problem, offer: str, packs: int) -> Problem:
    offers = tuple(replace(o, most=packs - 1) if o.id == offer else o for o in problem.offers)
    return replace(problem, offers=offers)
