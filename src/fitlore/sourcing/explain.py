"""The lines of a plan, each with what comes second and at which price that changes."""

from __future__ import annotations

import msgspec

from fitlore.sourcing import problem as p
from fitlore.sourcing.assemble import Assembled
from fitlore.sourcing.planned import NextBest, Order, OrderLine, PlanLine
from fitlore.sourcing.prices import Cut, Rise, price_cut, price_rise
from fitlore.sourcing.runnerup import Rival, RunnerUp, offers_of, option_of, rivals, runner_up, runner_ups
from fitlore.sourcing.watch import Watch

MOST_EXACT = 20
"""With more needs than this the second best is sought near by, unless the exact one is asked for."""


class Explain(msgspec.Struct, frozen=True):
    """How far a plan is explained.

    `exact`: every option not chosen is solved for, and every limit let out; None: in jobs of up to `MOST_EXACT` needs.
    Else the second best of each line is sought near by, which is never too cheap. `prices`: at which price each line changes.
    """

    exact: bool | None = None
    prices: bool = False

    def exactly(self, problem: p.Problem) -> bool:
        """Whether this job is explained exactly."""
        return len(problem.needs) <= MOST_EXACT if self.exact is None else self.exact


def lines_of(
    assembled: Assembled,
    solution: p.Solution,
    orders: tuple[Order, ...],
    how: Explain | None,
    watch: Watch | None = None,
) -> tuple[PlanLine, ...]:
    """One line per need in the job's order. Where `watch` stops it, the lines not reached yet are not explained."""
    chosen = {row.need: assembled.choices[row.option] for row in solution.chosen}
    exactly = how is not None and how.exactly(assembled.problem)
    near: dict[str, RunnerUp] = {}
    if how is not None and not exactly:
        near = {row.need: row for row in runner_ups(assembled.problem, solution, near=True, offers=False)}
    rows = []
    for number, need in enumerate(assembled.needs, 1):
        choice = chosen.get(need.id)
        used = set(offers_of(solution, choice.option.id)) if choice else set()
        lines = tuple(line for order in orders for line in order.lines if line.offer.id in used)
        line = PlanLine(number, need, choice, lines, None)
        stopped = watch is not None and watch.stop
        if need.id in near:
            line = line._replace(next_best=_near(near[need.id], need.id))
        elif exactly and not stopped:
            others = rivals(assembled.problem, solution, need.id)
            line = line._replace(next_best=_next_best(others) if choice else None, others=others)
        if how is not None and how.prices and not stopped:
            line = line._replace(
                rises=_rises(assembled.problem, solution, lines),
                cuts=_cuts(assembled.problem, solution, need.id),
            )
        rows.append(line)
    return tuple(rows)


def _next_best(others: tuple[Rival, ...]) -> NextBest:
    """The nearest of the options not chosen."""
    if not others or others[0].dearer is None:
        return NextBest(None, None)
    return NextBest(others[0].option or None, others[0].dearer)


def _near(found: RunnerUp, need: str) -> NextBest:
    return NextBest(option_of(found.plan, need) or None, found.difference, exact=False)


def _rises(problem: p.Problem, solution: p.Solution, lines: tuple[OrderLine, ...]) -> tuple[Rise, ...]:
    own = {row.id for row in problem.suppliers if row.own}
    bought = [line.offer.id for line in lines if line.offer.supplier not in own]
    return tuple(price_rise(problem, solution, name) for name in bought)


def _cuts(problem: p.Problem, solution: p.Solution, need: str) -> tuple[Cut, ...]:
    """For the offers by which the need would be met instead: without the present option, or without its offers."""
    present = option_of(solution, need)
    if not present:
        return ()
    mine = offers_of(solution, present)
    others: list[str] = []
    for without in ("option", "offers") if mine else ("option",):
        other = runner_up(problem, solution, need, without)
        others += offers_of(other.plan, option_of(other.plan, need))
    own = {row.id for row in problem.suppliers if row.own}
    free = {row.id for row in problem.offers if row.supplier in own}
    return tuple(
        price_cut(problem, solution, need, name)
        for name in dict.fromkeys(others)
        if name not in mine and name not in free
    )
