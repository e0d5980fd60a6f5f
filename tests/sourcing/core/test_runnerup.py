"""The second best: what each line's choice is worth, and the price at which the plan changes."""

from __future__ import annotations

import msgspec
import pytest

from fitlore.sourcing.audit import audit
from fitlore.sourcing.problem import (
    Banned,
    Limits,
    Solution,
)
from fitlore.sourcing.runnerup import RunnerUp, rivals, runner_up, runner_ups
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


def test_one_runner_up_at_a_time(plan: Solution, seconds: dict[tuple[str, str], RunnerUp]) -> None:
    """Asked singly it is the same."""
    assert runner_up(GREEN_ESTATE, plan, "radiator", "option") == seconds["radiator", "option"]


def test_a_near_runner_up_is_a_plan_that_stands(plan: Solution) -> None:
    """Each near plan adds up, keeps to the limits, does without the choice, and costs what it says."""
    for row in runner_ups(GREEN_ESTATE, plan, near=True):
        if row.difference is None:
            assert row.plan == Solution("stopped")
            continue
        assert row.plan.cost == 53830 + row.difference
        limits = (
            Limits(without_options=(row.option,))
            if row.without == "option"
            else Limits(banned=tuple(Banned(row.need, offer) for offer in row.offers))
        )
        bans = {name: getattr(limits, name) for name in ("without_options", "banned")}
        assert audit(with_limits(**bans), row.plan) == ()


@pytest.mark.parametrize("seed", range(60))
def test_near_runner_ups_of_random_jobs_are_never_too_cheap(seed: int) -> None:
    """At least the exact difference, whatever the job; where the exact search finds nothing, neither does the near one."""
    problem = job(seed)
    found = solve(problem)
    near = runner_ups(problem, found, near=True)
    for row, sure in zip(near, runner_ups(problem, found), strict=True):
        assert (row.need, row.without) == (sure.need, sure.without)
        if row.difference is not None:
            assert sure.difference is not None
            assert row.difference >= sure.difference


def test_every_option_not_chosen_has_its_difference(
    plan: Solution, seconds: dict[tuple[str, str], RunnerUp]
) -> None:
    """The nearest is the runner-up; the seat may be left or get a cover for 14.00 more; each found without a solver."""
    for chosen in plan.chosen:
        others = rivals(GREEN_ESTATE, plan, chosen.need)
        first = others[0].dearer if others else None
        assert first == seconds[chosen.need, "option"].difference
    assert [(row.option, row.dearer) for row in rivals(GREEN_ESTATE, plan, "drivers-seat")] == [
        ("drivers-seat/cover", 1400),
        ("", 1400),
    ]
    agent = next(r for r in rivals(GREEN_ESTATE, plan, "arm-bush") if r.option == "arm-bush/agent-arms")
    only = with_limits(without_options=("arm-bush/press-two-bushes", "arm-bush/arm-pair"))
    assert by_lines(only) == 53830 + (agent.dearer or 0)


@pytest.mark.parametrize("seed", range(30))
def test_rivals_of_random_jobs(seed: int) -> None:
    """Equal to trying everything with the option asked for, or with none of the need's taken."""
    problem = job(seed)
    found = solve(problem)
    for need in problem.needs if found.cost is not None else ():
        mine = tuple(row.id for row in problem.options if row.need == need.id)
        for row in rivals(problem, found, need.id):
            limits = problem.limits
            if row.option:
                limits = replace(limits, with_options=(*limits.with_options, row.option))
            else:
                limits = replace(limits, without_options=(*limits.without_options, *mine))
            best = cheapest(replace(problem, limits=limits))
            assert row.dearer == (None if best is None else best.cost - (found.cost or 0))
