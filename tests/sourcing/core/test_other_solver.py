"""Plans against OR-tools' CP-SAT, a solver of another kind with a model of its own (`by_cp_sat`)."""

from __future__ import annotations

import msgspec
import pytest

from fitlore.sourcing.audit import audit
from fitlore.sourcing.problem import Limits, Problem, Solution
from fitlore.sourcing.solve import solve
from tests.sourcing.core.by_cp_sat import cp_sat
from tests.sourcing.core.small_jobs import job
from tests.speed.jobs import FAMILIES, whole_job


def _agree(problem: Problem) -> Solution:
    found, other = solve(problem, settle=False), cp_sat(problem)
    assert other.status in ("OPTIMAL", "INFEASIBLE"), "the other solver was too slow to say"
    assert found.cost == other.cost
    assert found.status == ("infeasible" if other.cost is None else "proven")
    assert audit(problem, found) == ()
    return found


@pytest.mark.parametrize("batch", range(20))
def test_a_thousand_small_jobs(batch: int) -> None:
    """Jobs with every kind of fact and limit, other ones than are tried by enumeration."""
    for seed in range(10_000 + 50 * batch, 10_050 + 50 * batch):
        _agree(job(seed))


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("batch", range(6))
def test_jobs_of_ten_needs_and_eight_suppliers(family: str, batch: int) -> None:
    """120 jobs of about 220 offers."""
    for seed in range(5 * batch, 5 * batch + 5):
        _agree(whole_job(10, 8, family, seed))


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("seed", range(3))
def test_the_same_with_every_limit_pulled_tighter(family: str, seed: int) -> None:
    """Days, cash, hands and suppliers each a little below what the free plan takes, singly and together."""
    problem = whole_job(10, 8, family, 100 + seed)
    totals = _agree(problem).totals
    cash = totals.cash_now - totals.cash_now // 50
    minutes = totals.hands // 10_000 - 10
    each = (
        Limits(days=totals.last_day - 1),
        Limits(cash=cash),
        Limits(minutes=minutes),
        Limits(suppliers=totals.suppliers - 1),
        Limits(days=totals.last_day - 1, cash=cash, minutes=minutes),
    )
    for limits in each:
        found = _agree(msgspec.structs.replace(problem, limits=limits))
        if found.cost is not None:
            assert found.cost >= totals.cost
