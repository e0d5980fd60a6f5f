"""Money against days and certainty: every plan of a job than which no other is at once cheaper, sooner and surer.

Days are tried from the latest downwards: offers that come later are left out, and the next day tried is the latest before
the last arrival of all plans found. For each of them the chance that everything proves right the first time is raised step
by step: with a plan's misgivings as a limit that the next one must be under, each time the cheapest, and of those the
surest. Misgivings are the sum of -ln of the chances, in whole millionths, so that the sum is exact; plans whose chances
differ by less than about a millionth count as equally sure.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import islice
from math import log
from typing import Final

import msgspec

from fitlore.sourcing.beaten import without_beaten
from fitlore.sourcing.check import check
from fitlore.sourcing.columns import Column
from fitlore.sourcing.door import FULL, run, value_of
from fitlore.sourcing.outcome import outcome
from fitlore.sourcing.problem import CERTAIN, Problem, Solution
from fitlore.sourcing.read import Read, read_plan
from fitlore.sourcing.reduce import ordered, possible
from fitlore.sourcing.rows import Model, Row, build, weights
from fitlore.sourcing.watch import Watch

MILLIONTHS: Final = 1_000_000
MOST_POINTS: Final = 200
"""So many plans are looked for before the search is cut."""


class Point(msgspec.Struct, frozen=True):
    """One plan: `cost` in coins, `days` till all is in hand, `chance` that all of it proves right the first time."""

    cost: int
    days: int
    chance: Fraction
    plan: Solution


class Frontier(msgspec.Struct, frozen=True):
    """The plans worth choosing between, the cheapest first. `whole` is false if the search was cut: there may be more."""

    points: tuple[Point, ...]
    whole: bool


def frontier(problem: Problem, watch: Watch | None = None, most: int = MOST_POINTS) -> Frontier:
    """All plans within the limits of the job that no other betters in money, days and certainty together; exact.

    Empty if nothing is possible. Where `watch` stops it, what was found so far. Raises `ProblemError` if the problem
    contradicts itself.
    """
    check(problem)
    found: list[Point] = []
    days = problem.limits.days
    waits = {0, *(row.ahead for row in problem.options)}
    leads = sorted({lead + wait for lead in (0, *(row.days for row in problem.offers)) for wait in waits})
    leads = [lead for lead in leads if days is None or lead <= days]
    while True:
        limits = msgspec.structs.replace(problem.limits, days=leads[-1])
        search = _Search(msgspec.structs.replace(problem, limits=limits), watch)
        points = list(islice(search.points(), most - len(found)))
        found += points
        if search.cut or len(found) >= most:
            return Frontier(_best(found), whole=False)
        last = max((point.days for point in points), default=0)
        leads = [lead for lead in leads if lead < last]
        if not points or not leads:
            return Frontier(_best(found), whole=True)


class _Search:
    """The plans for one last day: the cheapest, then the cheapest of the surer ones, and so on."""

    def __init__(self, problem: Problem, watch: Watch | None) -> None:
        self.watch = watch
        self.cut = False
        smaller = possible(ordered(problem))
        self.problem = without_beaten(smaller) if smaller is not None else None

    def points(self) -> Iterator[Point]:
        """Each with the least cost at its chance; `cut` is set where the search was stopped."""
        if self.problem is None:
            return
        model = build(self.problem)
        costs, doubts = weights(model, "cost"), _misgivings(model, self.problem)
        hopeless = {at for at, doubt in enumerate(doubts) if doubt is None}
        aim = [doubt or 0 for doubt in doubts]
        more: list[Row] = []
        while True:
            cheapest = run(model, costs, more, FULL, self.watch)
            if cheapest.state == "infeasible":
                return
            kept = [*more, _at_most(costs, cheapest.value)]
            surest = run(model, aim, kept, FULL, self.watch) if cheapest.state == "proven" else cheapest
            if surest.state != "proven":
                self.cut = True
                return
            values = surest.values
            plan = read_plan([Read(self.problem, model, values)], True, cheapest.value)
            chance = outcome(self.problem, plan).chance
            yield Point(cheapest.value, _in_hand(self.problem, plan), chance, plan)
            if any(values[at] for at in hopeless):
                model = _without(model, hopeless)
            elif value_of(aim, values) > 0:
                more = [_at_most(aim, value_of(aim, values) - 1)]
            else:
                return


def _in_hand(problem: Problem, plan: Solution) -> int:
    """The day on which all is in hand, what follows a failure included where an option has to be `ahead` for it."""
    ahead = {row.id: row.ahead for row in problem.options}
    days = {row.id: row.days for row in problem.offers}
    last = [days[row.offer] + ahead[row.owner] for row in plan.assigned if not row.shared]
    return max([plan.totals.last_day, *last, *(ahead[row.option] for row in plan.chosen)])


def _misgivings(model: Model, problem: Problem) -> list[int | None]:
    """Per column -ln of the chance in millionths; None where there is no chance at all."""
    options = {row.id: row for row in problem.options}
    works = {row.id: row for row in problem.shared}
    found: list[int | None] = [0] * len(model.columns)
    for option in problem.options:
        found[model.index["z", option.id]] = _doubt(option.succeeds, CERTAIN)
    for unit in model.units:
        name, shared = unit.owner
        want = (works[name].wants if shared else options[name].wants)[unit.want]
        found[unit.column] = _doubt(want.fits * unit.source.offer.works, CERTAIN * CERTAIN)
    return found


def _doubt(right: int, of: int) -> int | None:
    return round(-log(right / of) * MILLIONTHS) if right else None


def _at_most(aim: list[int], value: int) -> Row:
    return Row(None, value, tuple((number, weight) for number, weight in enumerate(aim) if weight))


def _without(model: Model, shut: set[int]) -> Model:
    """The model with some columns held at nothing."""
    columns = [
        Column(row.key, 0, row.line, 0, row.days) if at in shut else row
        for at, row in enumerate(model.columns)
    ]
    return Model(columns, model.rows, model.index, model.units)


def _best(points: list[Point]) -> tuple[Point, ...]:
    """Without those that another betters or equals in all three."""
    order = sorted(points, key=lambda row: (row.cost, row.days, -row.chance))
    kept: list[Point] = []
    for point in order:
        if not any(other.days <= point.days and other.chance >= point.chance for other in kept):
            kept.append(point)
    return tuple(kept)
