"""Wants counted as one because nothing tells them apart: the same cheapest plan as with each counted by itself."""

from __future__ import annotations

import pytest

from fitlore.sourcing import alike
from fitlore.sourcing.alike import Fewer, fewer
from fitlore.sourcing.apart import components
from fitlore.sourcing.audit import audit
from fitlore.sourcing.columns import Model
from fitlore.sourcing.door import FULL, holds, run
from fitlore.sourcing.problem import (
    Bring,
    Mode,
    Need,
    Offer,
    Option,
    Pair,
    Problem,
    Supplier,
    Want,
)
from fitlore.sourcing.reduce import ordered, possible
from fitlore.sourcing.rows import build, weights
from fitlore.sourcing.solve import solve
from tests.sourcing.core.by_cp_sat import cp_sat
from tests.sourcing.core.small_jobs import job
from tests.speed.jobs import FAMILIES, whole_job


def _both(problem: Problem) -> list[tuple[Model, Fewer]]:
    """Each part of a job as it is written down, and with fewer columns; none where no plan can be."""
    left = possible(ordered(problem))
    if left is None:
        return []
    parts = [(part, build(part)) for part in components(left)]
    return [(model, fewer(part, model)) for part, model in parts if model.columns]


def _tins(needs: int, stock: int) -> Problem:
    """So many needs: a new part at 3500, or a fifth of a tin at 1200 and ten minutes at 60.00 an hour; post is 300."""
    names = [f"need {number}" for number in range(needs)]
    options = [Option(f"{name}: new", name, wants=(Want((f"part of {name}",)),)) for name in names]
    options += [Option(f"{name}: varnish", name, minutes=10, wants=(Want(("varnish",)),)) for name in names]
    offers = [Offer(f"new {name}", "maker", 3500, (Bring(f"part of {name}"),)) for name in names]
    offers += [Offer(f"tin from {who}", who, 1200, (Bring("varnish", 5),), stock=stock) for who in ("b", "c")]
    post = (Mode("post", 300),)
    return Problem(
        tuple(map(Need, names)),
        tuple(options),
        tuple(offers),
        (Supplier("b", post), Supplier("c", post), Supplier("maker", post)),
        hour_worth=6000,
    )


@pytest.mark.parametrize(
    ("needs", "stock", "cost"),
    [
        (5, 1, 5 * 1000 + 1200 + 300),
        (6, 2, 6 * 1000 + 2 * 1200 + 300),
        (6, 1, 6 * 1000 + 2 * (1200 + 300)),
        (10, 1, 10 * 1000 + 2 * (1200 + 300)),
        (11, 1, 10 * 1000 + 2 * (1200 + 300) + 3500 + 300),
    ],
)
def test_tins_are_shared_out(needs: int, stock: int, cost: int) -> None:
    """Added up by hand: ten units are two tins, from one supplier if they have both; the eleventh need is met anew."""
    problem = _tins(needs, stock)
    solution = solve(problem)
    assert (solution.status, solution.cost) == ("proven", cost)
    assert audit(problem, solution) == ()
    ((model, less),) = _both(problem)
    assert len(model.columns) - len(less.model.columns) == 2 * (needs - 1)


def test_few_wants_stay_as_they_are() -> None:
    """Three of them keep the rows that tie each to its suppliers: nothing is counted as one."""
    ((model, less),) = _both(_tins(3, 1))
    assert less.groups == []
    assert (less.model.columns, less.model.rows) == (model.columns, list(dict.fromkeys(model.rows)))


def test_a_pair_counts_as_one_and_each_side_gets_its_unit() -> None:
    """Left and right from one offer with one in stock and another with many: 2000 and 3000, each side one unit."""
    sides = ("left", "right")
    options = tuple(Option(side, side, wants=(Want(("lamp",)),)) for side in sides)
    offers = (
        Offer("last one", "s", 2000, (Bring("lamp"),), stock=1),
        Offer("many", "s", 3000, (Bring("lamp"),)),
    )
    problem = Problem(
        tuple(map(Need, sides)), options, offers, (Supplier("s"),), pairs=(Pair("left", "right"),)
    )
    solution = solve(problem)
    assert solution.cost == 5000
    assert sorted((row.owner, row.units) for row in solution.assigned) == [("left", 1), ("right", 1)]
    assert audit(problem, solution) == ()
    ((model, less),) = _both(problem)
    assert len(model.columns) - len(less.model.columns) == 2


@pytest.mark.parametrize("batch", range(4))
def test_the_same_plan_of_small_jobs_however_few_wants_are_counted_as_one(
    batch: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every kind of fact and limit, wants counted as one from two on: as cheap as OR-tools' CP-SAT finds the job."""
    monkeypatch.setattr(alike, "MANY", 2)
    grouped = 0
    for seed in range(50_000 + 60 * batch, 50_060 + 60 * batch):
        problem = job(seed)
        found, other = solve(problem, settle=False), cp_sat(problem)
        assert found.cost == other.cost, seed
        assert audit(problem, found) == (), seed
        grouped += any(less.groups for _, less in _both(problem))
    assert grouped >= 15


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("many", [2, 4])
def test_the_same_cost_of_larger_jobs_counted_either_way(
    family: str, many: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Jobs of fifteen needs: the whole model and the smaller one come to the same, and its units can be dealt out."""
    monkeypatch.setattr(alike, "MANY", many)
    grouped = 0
    for seed in range(3):
        for model, less in _both(whole_job(15, 10, family, seed)):
            whole = run(model, weights(model, "cost"), [], FULL)
            small = run(less.model, weights(less.model, "cost"), [], FULL)
            assert (small.state, small.value) == (whole.state, whole.value), seed
            assert holds(model, model.rows, less.whole(small.values, model)), seed
            grouped += len(less.groups)
    assert grouped >= 3
