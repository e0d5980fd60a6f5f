"""Laws of every plan, on tiny jobs with every feature and on middling ones of four kinds of market.

One more offer never makes it dearer, a limit let out neither, the order of writing changes nothing, and money counted in
another unit is the same plan at so many times the cost.
"""

from __future__ import annotations

import random

import msgspec
import pytest

from fitlore.sourcing.audit import audit
from fitlore.sourcing.problem import MINUTE, Limits, Otherwise, Problem
from fitlore.sourcing.solve import solve
from tests.sourcing.core.small_jobs import job
from tests.speed.jobs import FAMILIES, whole_job

replace = msgspec.structs.replace
MIDDLING = [(family, 0) for family in FAMILIES]
TENTH = 1000
"""Of a chance."""


def _middling(family: str, seed: int, *, evenly: bool = False) -> Problem:
    """Five needs, four suppliers, held to the hands, purse, days and suppliers that its cheapest plan takes."""
    free = whole_job(5, 4, family, seed)
    free = _evenly(free) if evenly else free
    found = solve(free, settle=False).totals
    limits = Limits(
        minutes=-(-found.hands // MINUTE), cash=found.cash_now, days=found.last_day, suppliers=found.suppliers
    )
    return replace(free, limits=limits)


def _evenly(problem: Problem) -> Problem:
    """The job with figures of which no expected sum needs rounding: chances in tenths, money in hundreds, hours in 6000s."""
    dice = random.Random(len(problem.offers) + problem.hour_worth)

    def tenths(chance: int) -> int:
        return chance // TENTH * TENTH

    return _times(
        replace(
            problem,
            options=tuple(
                replace(
                    row,
                    succeeds=tenths(row.succeeds),
                    wants=tuple(replace(want, fits=tenths(want.fits)) for want in row.wants),
                )
                for row in problem.options
            ),
            shared=tuple(
                replace(row, wants=tuple(replace(want, fits=tenths(want.fits)) for want in row.wants))
                for row in problem.shared
            ),
            offers=tuple(
                replace(row, works=tenths(row.works), returned=tenths(row.returned)) for row in problem.offers
            ),
            hour_worth=60 * dice.randrange(4),
        ),
        100,
    )


def _times(problem: Problem, factor: int) -> Problem:
    """Every amount of money in the problem so many times as much."""

    def more(row: msgspec.Struct, *fields: str) -> dict[str, int | None]:
        return {name: None if (v := getattr(row, name)) is None else factor * v for name in fields}

    def otherwise(row: Otherwise) -> Otherwise:
        return replace(row, money=factor * row.money)

    paid = ("price", "surcharge", "later", "back", "counts")
    return replace(
        problem,
        options=tuple(
            replace(row, **more(row, "money", "adds"), otherwise=otherwise(row.otherwise))
            for row in problem.options
        ),
        offers=tuple(
            replace(row, **more(row, *paid), otherwise=otherwise(row.otherwise)) for row in problem.offers
        ),
        suppliers=tuple(
            replace(
                row,
                modes=tuple(
                    replace(mode, **more(mode, "fee", "least_spend", "minimum", "back")) for mode in row.modes
                ),
                **more(row, "joining"),
            )
            for row in problem.suppliers
        ),
        shared=tuple(replace(row, **more(row, "money")) for row in problem.shared),
        trips=tuple(replace(row, **more(row, "money")) for row in problem.trips),
        limits=replace(problem.limits, **more(problem.limits, "cash", "worst_cash")),
        hour_worth=factor * problem.hour_worth,
    )


def test_every_amount_of_money_is_scaled() -> None:
    """Nothing that is money is forgotten: of the fields that hold whole numbers, those that stay are no money."""
    still = {
        "amount",
        "fits",
        "minutes",
        "succeeds",
        "latest",
        "stock",
        "most",
        "days",
        "returned",
        "weight",
        "works",
    }
    still |= {"most_weight", "suppliers", "worst_minutes", "units", "ahead"}
    seen: set[str] = set()
    for seed in range(60):
        problem = job(seed)
        scaled = _times(problem, 3)
        rows = list(zip(_structs(problem), _structs(scaled), strict=True))
        for one, other in rows:
            for name in one.__struct_fields__:
                value = getattr(one, name)
                if isinstance(value, int) and not isinstance(value, bool) and value:
                    same = getattr(other, name) == value
                    assert same == (name in still), name
                    seen.add(name)
    asked = {
        "price",
        "fee",
        "back",
        "hour_worth",
        "cash",
        "worst_cash",
        "adds",
        "minimum",
        "later",
        "joining",
    }
    assert asked <= seen


def _structs(value: object) -> list[msgspec.Struct]:
    if isinstance(value, tuple):
        return [row for one in value for row in _structs(one)]
    if isinstance(value, msgspec.Struct):
        return [value, *(row for name in value.__struct_fields__ for row in _structs(getattr(value, name)))]
    return []


@pytest.mark.parametrize("seed", range(60))
def test_money_in_another_unit_is_the_same_plan(seed: int) -> None:
    """Seven times every amount: seven times the cost, and what is chosen, bought and fetched is the same."""
    problem = _evenly(job(seed))
    one, seven = solve(problem), solve(_times(problem, 7))
    assert seven.status == one.status
    if one.cost is not None:
        assert seven.cost == 7 * one.cost
        for name in ("chosen", "bought", "assigned", "ways", "trips", "shared"):
            assert getattr(seven, name) == getattr(one, name), name


@pytest.mark.parametrize(("family", "seed"), MIDDLING)
def test_middling_jobs_scaled(family: str, seed: int) -> None:
    """The same with five needs and four suppliers."""
    problem = _middling(family, seed, evenly=True)
    one, ten = solve(problem), solve(_times(problem, 10))
    assert one.status == ten.status == "proven"
    assert ten.cost == 10 * (one.cost or 0)
    assert ten.bought == one.bought


@pytest.mark.parametrize(("family", "seed"), MIDDLING)
def test_one_more_offer_never_makes_a_middling_plan_dearer(family: str, seed: int) -> None:
    """Six offers left out in turn, those of the plan among them."""
    problem = _middling(family, seed)
    whole = solve(problem, settle=False)
    assert audit(problem, whole) == ()
    bought = [row.offer for row in whole.bought]
    others = [row.id for row in problem.offers if row.id not in bought]
    dice = random.Random(seed)
    for name in (*dice.sample(bought, min(3, len(bought))), *dice.sample(others, 3)):
        less = replace(problem, offers=tuple(row for row in problem.offers if row.id != name))
        left = solve(less, settle=False)
        assert left.cost is None or (whole.cost or 0) <= left.cost, name
        assert name in bought or left.cost == whole.cost, name


@pytest.mark.parametrize(("family", "seed"), MIDDLING)
def test_a_limit_let_out_never_makes_a_middling_plan_dearer(family: str, seed: int) -> None:
    """Hands, purse, days and suppliers, each by a little and altogether; tightened, never cheaper."""
    problem = _middling(family, seed)
    tight = solve(problem, settle=False)
    assert tight.cost is not None
    for name, step in (("minutes", 60), ("cash", 1000), ("days", 1), ("suppliers", 1)):
        value = getattr(problem.limits, name)
        costs = []
        for bound in (value - step, value, value + step, None):
            limits = replace(problem.limits, **{name: bound})
            cost = solve(replace(problem, limits=limits), settle=False).cost
            costs.append(float("inf") if cost is None else cost)
        assert costs == sorted(costs, reverse=True), name
        assert costs[1] == tight.cost


@pytest.mark.parametrize(("family", "seed"), MIDDLING)
def test_the_order_of_writing_changes_nothing_in_a_middling_job(family: str, seed: int) -> None:
    """Needs, options, offers, suppliers, works, journeys and pairs in another order: the same bytes."""
    problem = _middling(family, seed)
    dice = random.Random(seed)
    names = ("needs", "options", "offers", "suppliers", "shared", "trips", "pairs")
    mixed = replace(
        problem,
        **{name: tuple(dice.sample(rows := getattr(problem, name), len(rows))) for name in names},
    )
    assert mixed != problem
    assert msgspec.json.encode(solve(mixed)) == msgspec.json.encode(solve(problem))
