"""Random small jobs: the solver's plans against trying everything, and laws that must hold whatever the job."""

from __future__ import annotations

import random
from collections.abc import Iterator

import msgspec
import pytest

from fitlore.sourcing.audit import audit
from fitlore.sourcing.problem import CERTAIN, Limits, Problem, Solution
from fitlore.sourcing.solve import feasible, solve
from tests.sourcing.core.by_hand import Best, cheapest
from tests.sourcing.core.green_estate import GREEN_ESTATE
from tests.sourcing.core.small_jobs import job

BATCHES = 40
EACH = 27


def _found(problem: Problem, solution: Solution) -> Best | None:
    if solution.cost is None:
        return None
    days = {offer.id: offer.days for offer in problem.offers}
    waiting = sum(row.packs * days[row.offer] for row in solution.bought)
    return Best(solution.cost, solution.totals.suppliers, waiting)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_the_plan_is_the_best_of_all(batch: int) -> None:
    """Cost, then number of suppliers, then waiting equal those of the best plan there is; or there is none."""
    for seed in range(batch * EACH, (batch + 1) * EACH):
        problem = job(seed)
        solution = solve(problem)
        expected = cheapest(problem)
        assert _found(problem, solution) == expected, seed
        assert solution.status == ("infeasible" if expected is None else "proven"), seed
        assert solution.bound == solution.cost, seed
        assert audit(problem, solution) == (), seed
        assert feasible(problem) == (expected is not None), seed


def _features(problem: Problem) -> Iterator[str]:
    """Which parts of a problem a job uses."""
    limits = problem.limits
    yield from (
        f"limit {name}" for name in Limits.__struct_fields__ if getattr(limits, name) not in (None, ())
    )
    for name in ("companions", "never", "pairs"):
        if getattr(problem, name):
            yield name
    for need in problem.needs:
        yield "must" if need.must else "extra"
        yield "latest of a need" if need.latest is not None else "no latest"
    for option in problem.options:
        yield from (
            f"option {name}"
            for name in ("money", "minutes", "adds", "shared", "takes")
            if getattr(option, name)
        )
        yield "ahead of a branch" if option.ahead else "no branch"
        yield "option fails" if option.succeeds < CERTAIN else "option succeeds"
        yield from ("equal standing" for want in option.wants if len(want.items) > 1)
        yield from ("two of one" for want in option.wants if want.amount > 1)
        yield from ("may not fit" for want in option.wants if want.fits < CERTAIN)
    for offer in problem.offers:
        plain = ("minutes", "surcharge", "later", "back", "weight", "takes", "stock", "most", "counts")
        yield from (f"offer {name}" for name in plain if getattr(offer, name))
        yield "unsound" if offer.works < CERTAIN else "sound"
        yield "surcharge lost" if offer.surcharge and offer.returned < CERTAIN else "surcharge returned"
        yield ("filler", "single", "kit")[min(len(offer.brings), 2)]
        yield from ("packet" for bring in offer.brings if bring.units > 1)
        yield "earns" if offer.back > offer.price else "costs"
    for supplier in problem.suppliers:
        yield "own stores" if supplier.own else "somebody's"
        yield "joining" if supplier.joining else "open to all"
        yield "trip" if supplier.trips else "no trip"
        yield "handed over" if not supplier.trips and not supplier.modes else "fetched or carried"
        for mode in supplier.modes:
            yield from (
                f"mode {name}" for name in ("fee", "least_spend", "minimum", "back") if getattr(mode, name)
            )
            yield "mode weight" if mode.most_weight is not None else "mode any weight"


def test_the_jobs_use_every_part_of_a_problem_and_some_are_impossible() -> None:
    """Every kind of fact and limit occurs in several jobs; one job in four or five has no plan."""
    jobs = [job(seed) for seed in range(BATCHES * EACH)]
    seen: dict[str, int] = {}
    for problem in jobs:
        for feature in set(_features(problem)):
            seen[feature] = seen.get(feature, 0) + 1
    every = {f"limit {name}" for name in Limits.__struct_fields__} | {
        *("companions", "never", "pairs", "latest of a need", "option fails", "equal standing", "two of one"),
        *(
            "may not fit",
            "unsound",
            "surcharge lost",
            "filler",
            "kit",
            "packet",
            "earns",
            "trip",
            "handed over",
        ),
        *("mode least_spend", "mode minimum", "mode weight", "option shared", "option takes", "offer takes"),
        *("own stores", "mode back", "ahead of a branch", "joining"),
        *("offer counts", "offer later", "offer back", "offer stock", "offer most", "offer minutes", "extra"),
    }
    assert {feature for feature in every if seen.get(feature, 0) < 10} == set()
    impossible = sum(not feasible(problem) for problem in jobs[:100])
    assert 10 < impossible < 40


def _shuffled(problem: Problem, seed: int) -> Problem:
    dice = random.Random(seed)

    def mixed(rows: tuple[object, ...]) -> tuple[object, ...]:
        return tuple(dice.sample(rows, len(rows)))

    replace = msgspec.structs.replace
    tuples = (name for name in Problem.__struct_fields__ if isinstance(getattr(problem, name), tuple))
    parts = {name: mixed(getattr(problem, name)) for name in tuples}
    parts["offers"] = tuple(replace(row, brings=mixed(row.brings)) for row in parts["offers"])
    parts["suppliers"] = tuple(
        replace(row, modes=mixed(row.modes), trips=mixed(row.trips)) for row in parts["suppliers"]
    )
    parts["options"] = tuple(
        replace(
            row, shared=mixed(row.shared), wants=tuple(replace(w, items=mixed(w.items)) for w in row.wants)
        )
        for row in parts["options"]
    )
    limits = {
        name: mixed(value)
        for name in Limits.__struct_fields__
        if isinstance(value := getattr(problem.limits, name), tuple)
    }
    return replace(problem, **parts, limits=replace(problem.limits, **limits))


@pytest.mark.parametrize("seed", range(40))
def test_the_order_things_are_written_in_changes_nothing(seed: int) -> None:
    """The solution of the same facts in another order is the same to the byte."""
    problem = GREEN_ESTATE if seed < 5 else job(seed)
    mixed = _shuffled(problem, seed)
    assert mixed != problem
    assert msgspec.json.encode(solve(mixed)) == msgspec.json.encode(solve(problem))


def _no_dearer(one: Solution, other: Solution) -> bool:
    """Whether the first is possible and not dearer, if the second is possible."""
    return other.cost is None or (one.cost is not None and one.cost <= other.cost)


@pytest.mark.parametrize("seed", range(40))
def test_one_more_offer_never_makes_a_plan_dearer(seed: int) -> None:
    """Each offer left out in turn."""
    problem = job(seed)
    whole = solve(problem, settle=False)
    named = {*problem.limits.with_offers, *problem.limits.without_offers}
    named |= {row.offer for row in problem.limits.banned}
    for offer in problem.offers:
        if offer.id not in named:
            left = tuple(row for row in problem.offers if row.id != offer.id)
            less = solve(msgspec.structs.replace(problem, offers=left), settle=False)
            assert _no_dearer(whole, less), offer.id


@pytest.mark.parametrize("seed", range(40))
def test_a_limit_relaxed_never_makes_a_plan_dearer(seed: int) -> None:
    """Each limit widened by one, and taken away."""
    problem = job(seed)
    tight = solve(problem, settle=False)
    for name in Limits.__struct_fields__:
        value = getattr(problem.limits, name)
        wider: list[object] = []
        if isinstance(value, int):
            wider = [value + 1, None]
        elif value:
            wider = [()]
        for change in wider:
            limits = msgspec.structs.replace(problem.limits, **{name: change})
            loose = solve(msgspec.structs.replace(problem, limits=limits), settle=False)
            assert _no_dearer(loose, tight), name
