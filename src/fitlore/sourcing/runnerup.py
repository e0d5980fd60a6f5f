"""What comes second: the plan without the present choice, and how far its price is away."""

from __future__ import annotations

from typing import Literal

import msgspec

from fitlore.sourcing.nearby import Nearby
from fitlore.sourcing.problem import Banned, Limits, Problem, Solution
from fitlore.sourcing.solve import solve

Without = Literal["option", "offers"]


class RunnerUp(msgspec.Struct, frozen=True):
    """The best plan that does without one present choice of a need.

    `without` says which: the option taken, or the offers that serve it (the option may stay). `difference` is what that
    plan costs more in coins, never negative; None if there is no other plan. With `exact` false it is only at most that
    much, and None then only says that nothing was found near by.
    """

    need: str
    without: Without
    option: str
    offers: tuple[str, ...]
    difference: int | None
    exact: bool
    plan: Solution


class Rival(msgspec.Struct, frozen=True):
    """An option of a need that the plan did not take: the cheapest plan with it costs `dearer` coins more.

    `option` is empty where the need would be left. None: no plan with it keeps to the limits.
    """

    need: str
    option: str
    dearer: int | None


def runner_ups(
    problem: Problem, solution: Solution, *, near: bool = False, offers: bool = True
) -> tuple[RunnerUp, ...]:
    """For every need that has an option: without that option, and (if it buys anything, and asked) without its offers.

    Exact ones solve the job again each time. `near` holds every other need as it is, which is fast and gives a difference
    that is never too small.
    """
    asked: list[tuple[str, Without]] = []
    for chosen in solution.chosen:
        asked.append((chosen.need, "option"))
        if offers and offers_of(solution, chosen.option):
            asked.append((chosen.need, "offers"))
    beside = Nearby(problem, solution) if near and asked else None
    return tuple(_runner_up(problem, solution, need, without, beside) for need, without in asked)


def runner_up(
    problem: Problem, solution: Solution, need: str, without: Without, *, near: bool = False
) -> RunnerUp:
    """The best plan without the need's present option, or without its present offers (for this need alone)."""
    return _runner_up(problem, solution, need, without, Nearby(problem, solution) if near else None)


def rivals(problem: Problem, solution: Solution, need: str) -> tuple[Rival, ...]:
    """Every other option of a need, and leaving it where it may be left, the nearest first; each solved exactly."""
    limits, present = problem.limits, option_of(solution, need)
    mine = [row.id for row in problem.options if row.need == need]
    found: list[Rival] = []
    for option in mine:
        if option != present:
            asked = msgspec.structs.replace(limits, with_options=(*limits.with_options, option))
            found.append(Rival(need, option, _dearer(problem, solution, asked)))
    must = next(row.must for row in problem.needs if row.id == need)
    if present and not must:
        left = msgspec.structs.replace(limits, without_options=(*limits.without_options, *mine))
        found.append(Rival(need, "", _dearer(problem, solution, left)))
    return tuple(sorted(found, key=lambda row: (row.dearer is None, row.dearer or 0)))


def _dearer(problem: Problem, solution: Solution, limits: Limits) -> int | None:
    other = solve(msgspec.structs.replace(problem, limits=limits), settle=False).cost
    return None if other is None or solution.cost is None else other - solution.cost


def _runner_up(
    problem: Problem, solution: Solution, need: str, without: Without, beside: Nearby | None
) -> RunnerUp:
    option = option_of(solution, need)
    offers = offers_of(solution, option)
    limits = problem.limits
    if beside is not None:
        plan = beside.best(need, option if without == "option" else "", offers if without == "offers" else ())
    elif without == "option":
        limits = msgspec.structs.replace(limits, without_options=(*limits.without_options, option))
        plan = solve(msgspec.structs.replace(problem, limits=limits), settle=False)
    else:
        more = tuple(Banned(need, offer) for offer in offers)
        limits = msgspec.structs.replace(limits, banned=(*limits.banned, *more))
        plan = solve(msgspec.structs.replace(problem, limits=limits), settle=False)
    difference = None if plan.cost is None or solution.cost is None else plan.cost - solution.cost
    return RunnerUp(need, without, option, offers, difference, beside is None, plan)


def option_of(solution: Solution, need: str) -> str:
    """The option taken for a need; empty if it is left."""
    for row in solution.chosen:
        if row.need == need:
            return row.option
    return ""


def offers_of(solution: Solution, option: str) -> tuple[str, ...]:
    """The offers that serve an option itself (not the shared works it needs)."""
    return tuple(sorted({use.offer for use in solution.assigned if use.owner == option and not use.shared}))
