"""Money against days and certainty: every plan on the frontier, and none besides, against trying everything."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import msgspec
import pytest

from fitlore.sourcing.audit import audit
from fitlore.sourcing.frontier import Frontier, frontier
from fitlore.sourcing.problem import (
    CERTAIN,
    Bring,
    Need,
    Offer,
    Option,
    Otherwise,
    Problem,
    Supplier,
    Want,
)
from fitlore.sourcing.solve import solve
from fitlore.sourcing.watch import Watch
from tests.sourcing.core.by_hand import cheapest
from tests.sourcing.core.by_lines import cheapest as by_lines
from tests.sourcing.core.green_estate import GREEN_ESTATE
from tests.sourcing.core.small_jobs import job

replace = msgspec.structs.replace
Three = tuple[int, int, Fraction]


def _three(found: Frontier) -> list[Three]:
    return [(row.cost, row.days, row.chance) for row in found.points]


def _best(rows: set[Three]) -> list[Three]:
    """Those that no other betters or equals in all three."""
    return sorted(
        row
        for row in rows
        if not any(
            other != row and other[0] <= row[0] and other[1] <= row[1] and other[2] >= row[2]
            for other in rows
        )
    )


def test_used_is_cheaper_new_is_surer_and_the_dear_one_is_here_tomorrow() -> None:
    """Worked by hand: used 20.00 + 0.10 x 10.00, day 5; new 30.00, day 5; new 45.00, day 1; the dear used one is beaten."""
    offers = (
        Offer("used", "s", 2000, (Bring("a"),), days=5, works=9000, otherwise=Otherwise(1000)),
        Offer("new", "s", 3000, (Bring("a"),), days=5),
        Offer("soon", "s", 4500, (Bring("a"),), days=1),
        Offer("dear", "s", 4600, (Bring("a"),), days=2, works=9000, otherwise=Otherwise(1000)),
    )
    problem = Problem((Need("n"),), (Option("n/o", "n", wants=(Want(("a",)),)),), offers, (Supplier("s"),))
    assert _three(frontier(problem)) == [
        (2100, 5, Fraction(9, 10)),
        (3000, 5, Fraction(1)),
        (4500, 1, Fraction(1)),
    ]


def test_what_has_no_chance_at_all_is_on_it_only_while_it_is_cheapest() -> None:
    """A route that never succeeds is told with chance nought; the next plan is without it."""
    options = (
        Option("n/hope", "n", money=100, succeeds=0, otherwise=Otherwise(200)),
        Option("n/sure", "n", money=500),
    )
    found = frontier(Problem((Need("n"),), options, (), ()))
    assert _three(found) == [(300, 0, Fraction(0)), (500, 0, Fraction(1))]


def test_the_green_estate_sooner() -> None:
    """Its days against its money, each confirmed by branching over the lines with that day as the limit."""
    found = frontier(GREEN_ESTATE)
    assert found.whole
    assert found.points[0].cost == 53830
    assert found.points[0].days == 4
    days = GREEN_ESTATE.limits.days
    assert days is not None
    for last in range(days + 1):
        limits = replace(GREEN_ESTATE.limits, days=last)
        least = min((row.cost for row in found.points if row.days <= last), default=None)
        assert by_lines(replace(GREEN_ESTATE, limits=limits)) == least


def _surely_bought(problem: Problem) -> Problem:
    """The job with goods that are always right, so that the options alone decide how sure it is."""
    options = tuple(
        replace(row, wants=tuple(replace(want, fits=CERTAIN) for want in row.wants))
        for row in problem.options
    )
    shared = tuple(
        replace(row, wants=tuple(replace(want, fits=CERTAIN) for want in row.wants)) for row in problem.shared
    )
    offers = tuple(replace(row, works=CERTAIN) for row in problem.offers)
    return replace(problem, options=options, shared=shared, offers=offers)


def _by_trying(problem: Problem) -> list[Three]:
    """Every mix of options and every last day; the cheapest plan of each is found without a solver."""
    rows: set[Three] = set()
    ways = [[None, *(o.id for o in problem.options if o.need == need.id)] for need in problem.needs]
    succeeds = {row.id: Fraction(row.succeeds, CERTAIN) for row in problem.options}
    every = {row.id for row in problem.options}
    last = problem.limits.days
    days = [day for day in range(8) if last is None or day <= last]
    for mix in product(*ways):
        taken = {name for name in mix if name is not None}
        chance = Fraction(1)
        for name in taken:
            chance *= succeeds[name]
        without = (*problem.limits.without_options, *sorted(every - taken))
        asked = tuple(sorted({*problem.limits.with_options} | taken))
        if set(asked) != taken:
            continue
        for day in days:
            limits = replace(problem.limits, days=day, with_options=asked, without_options=without)
            best = cheapest(replace(problem, limits=limits))
            if best is not None:
                rows.add((best.cost, day, chance))
    return _best(rows)


@pytest.mark.parametrize("seed", range(40))
def test_the_frontier_of_a_random_job_is_that_of_trying_everything(seed: int) -> None:
    """The same plans in money, days and chance, no more and no fewer; each stands up to the audit."""
    problem = _surely_bought(job(seed))
    found = frontier(problem)
    assert found.whole
    assert _three(found) == _by_trying(problem)
    for point in found.points:
        assert audit(problem, replace(point.plan, bound=point.plan.cost)) == ()


@pytest.mark.parametrize("seed", range(30))
def test_the_cheapest_on_it_is_the_plan_and_no_point_betters_another(seed: int) -> None:
    """With units that may be wrong too: it starts at the plan's cost, and every point is there for a reason."""
    problem = job(seed)
    found = frontier(problem)
    plan = solve(problem)
    assert (found.points[0].cost if found.points else None) == plan.cost
    assert _three(found) == _best(set(_three(found)))


def test_a_search_that_is_cut_says_so() -> None:
    """By its own bound, and by whoever is looking on."""
    assert not frontier(GREEN_ESTATE, most=1).whole
    assert len(frontier(GREEN_ESTATE, most=1).points) == 1
    watch = Watch()
    watch.stop = True
    assert not frontier(GREEN_ESTATE, watch).whole
