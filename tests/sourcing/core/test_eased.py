"""What a limit costs: an hour, a day, ten in the purse, a supplier more, against plans found without a solver."""

from __future__ import annotations

import msgspec
import pytest

from fitlore.sourcing.eased import Eased, Steps, eased
from fitlore.sourcing.solve import solve
from tests.sourcing.core.by_hand import cheapest
from tests.sourcing.core.by_lines import cheapest as by_lines
from tests.sourcing.core.green_estate import GREEN_ESTATE, with_limits
from tests.sourcing.core.small_jobs import job

replace = msgspec.structs.replace


def _by_bound(rows: tuple[Eased, ...]) -> dict[str, Eased]:
    return {row.bound: row for row in rows}


def test_an_hour_more_on_17_hours_brings_the_winder_back() -> None:
    """The story's figures: 542.30 with 17 hours, 538.30 with 18."""
    tight = with_limits(minutes=17 * 60)
    found = _by_bound(eased(tight, solve(tight)))
    assert found["minutes"].value == 18 * 60
    assert found["minutes"].saves == 54230 - 53830


def test_twenty_more_than_480_in_the_purse_brings_the_struts_back() -> None:
    """The story's figures: 542.90 with 520 in the tin (40 of it reserve), 493.00 is needed; ten more by branching."""
    tight = with_limits(cash=48000)
    plan = solve(tight)
    ten = _by_bound(eased(tight, plan))["cash"]
    assert ten.cost == by_lines(with_limits(cash=49000)) == 54290 - (ten.saves or 0)
    assert _by_bound(eased(tight, plan, Steps(cash=2000)))["cash"].saves == 54290 - 53830


def test_a_day_more_is_confirmed_without_a_solver() -> None:
    """By branching over the lines with the day one later."""
    found = _by_bound(eased(GREEN_ESTATE, solve(GREEN_ESTATE)))
    days = GREEN_ESTATE.limits.days
    assert days is not None
    later = replace(GREEN_ESTATE, limits=replace(GREEN_ESTATE.limits, days=days + 1))
    assert found["days"].cost == by_lines(later)
    assert found["days"].saves == 53830 - (by_lines(later) or 0) > 0


def test_limits_that_do_not_bind_cost_nothing() -> None:
    """With plenty of everything, every limit is named and saves nothing."""
    wide = with_limits(minutes=10_000, cash=1_000_000, days=60, suppliers=20)
    rows = eased(wide, solve(wide))
    assert [row.bound for row in rows] == ["minutes", "cash", "days", "suppliers"]
    assert {row.saves for row in rows} == {0}


def test_a_job_without_limits_has_none_to_let_out() -> None:
    """Nothing to say."""
    free = with_limits(minutes=None, cash=None, days=None, suppliers=None)
    assert eased(free, solve(free)) == ()


@pytest.mark.parametrize("seed", [seed for seed in range(400) if job(seed).limits.suppliers is not None][:24])
def test_every_step_of_a_random_job_is_right(seed: int) -> None:
    """Equal to trying everything with the limit let out by the step; nothing gets dearer by more room."""
    problem = job(seed)
    plan = solve(problem)
    steps = Steps(minutes=15, cash=20, days=1, suppliers=1)
    for row in eased(problem, plan, steps):
        wider = replace(problem, limits=replace(problem.limits, **{row.bound: row.value}))
        best = cheapest(wider)
        assert row.cost == (None if best is None else best.cost)
        assert row.value == getattr(problem.limits, row.bound) + getattr(steps, row.bound)
        assert row.saves is None or row.saves >= 0
