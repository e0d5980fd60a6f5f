"""The second best: what each line's choice is worth, and the price at which the plan changes."""

from __future__ import annotations

import msgspec
import pytest

from fitlore.sourcing.audit import audit
from fitlore.sourcing.problem import (
    Banned,
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
from fitlore.sourcing.runnerup import Cut, RunnerUp, price_cut, runner_up, runner_ups
from fitlore.sourcing.solve import solve
from tests.sourcing.core.by_hand import cheapest
from tests.sourcing.core.by_lines import cheapest as by_lines
from tests.sourcing.core.green_estate import GREEN_ESTATE, with_limits
from tests.sourcing.core.small_jobs import job

replace = msgspec.structs.replace


@pytest.fixture(scope="module")
def plan() -> Solution:
    """The right plan."""
    return solve(GREEN_ESTATE)


@pytest.fixture(scope="module")
def seconds(plan: Solution) -> dict[tuple[str, str], RunnerUp]:
    """Every runner-up of the green estate by need and kind."""
    return {(row.need, row.without): row for row in runner_ups(GREEN_ESTATE, plan)}


def test_every_line_has_its_runner_up(plan: Solution, seconds: dict[tuple[str, str], RunnerUp]) -> None:
    """Fifteen needs; all but the cleaned earth buy something; each plan stands and is dearer by the difference."""
    assert len(seconds) == 2 * 15 - 1
    for (need, kind), row in seconds.items():
        if row.difference is None:
            assert row.plan.status == "infeasible"
            continue
        assert row.plan.cost == 53830 + row.difference
        assert row.difference >= 0
        limits = (
            Limits(without_options=(row.option,))
            if kind == "option"
            else Limits(banned=tuple(Banned(need, offer) for offer in row.offers))
        )
        bans = {name: getattr(limits, name) for name in ("without_options", "banned")}
        assert audit(with_limits(**bans), row.plan) == ()


def test_the_known_differences(seconds: dict[tuple[str, str], RunnerUp]) -> None:
    """No winder costs 4.00 more, no breaker's seat 14.00, as the other plans of the story say; dampers have one way."""
    assert seconds["window-winder-right", "option"].difference == 400
    assert seconds["tailgate-struts", "option"].difference == 54290 - 53830
    assert seconds["drivers-seat", "option"].difference == 1400
    assert seconds["rear-dampers", "option"].difference is None


@pytest.mark.parametrize("need", ["radiator", "front-tyres"])
def test_the_runner_up_is_confirmed_without_a_solver(
    need: str, seconds: dict[tuple[str, str], RunnerUp]
) -> None:
    """By branching over the lines with the option forbidden."""
    row = seconds[need, "option"]
    assert by_lines(with_limits(without_options=(row.option,))) == row.plan.cost


def test_near_differences_are_never_too_small(
    plan: Solution, seconds: dict[tuple[str, str], RunnerUp]
) -> None:
    """Holding the needs that share no supplier gives at least the exact difference, and is marked as not exact."""
    near = runner_ups(GREEN_ESTATE, plan, near=True)
    assert len(near) == len(seconds)
    exact_too = 0
    for row in near:
        sure = seconds[row.need, row.without].difference
        assert not row.exact
        assert row.difference is None or (sure is not None and row.difference >= sure)
        exact_too += row.difference == sure
    assert exact_too > len(near) // 2


@pytest.mark.parametrize("seed", range(30))
def test_runner_ups_of_random_jobs(seed: int) -> None:
    """Equal to trying everything with the option forbidden, or with its offers banned for the need."""
    problem = job(seed)
    found = solve(problem)
    for row in runner_ups(problem, found):
        limits = problem.limits
        if row.without == "option":
            limits = replace(limits, without_options=(*limits.without_options, row.option))
        else:
            more = tuple(Banned(row.need, offer) for offer in row.offers)
            limits = replace(limits, banned=(*limits.banned, *more))
        best = cheapest(replace(problem, limits=limits))
        assert row.plan.cost == (None if best is None else best.cost)
        assert row.difference == (None if best is None else best.cost - (found.cost or 0))


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


def test_one_runner_up_at_a_time(plan: Solution, seconds: dict[tuple[str, str], RunnerUp]) -> None:
    """Asked singly it is the same."""
    assert runner_up(GREEN_ESTATE, plan, "radiator", "option") == seconds["radiator", "option"]
