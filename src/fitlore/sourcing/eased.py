"""What each limit of a job costs: the plan solved again with an hour, a day, a little money or a supplier more."""

from __future__ import annotations

from typing import Final, Literal

import msgspec

from fitlore.sourcing.problem import Limits, Problem, Solution
from fitlore.sourcing.solve import solve

Bound = Literal["minutes", "cash", "days", "suppliers"]
"""A limit of the whole job."""


class Steps(msgspec.Struct, frozen=True):
    """How far each limit is let out: minutes, coins, days, suppliers."""

    minutes: int = 60
    cash: int = 1000
    days: int = 1
    suppliers: int = 1


class Eased(msgspec.Struct, frozen=True):
    """One limit let out by `more` (in its own unit): the cheapest plan then costs `saves` coins less, never below 0.

    `value` is the limit it was let out to; `cost` is None if even so nothing is possible; `plan` is that plan.
    """

    bound: Bound
    more: int
    value: int
    cost: int | None
    saves: int | None
    plan: Solution


BOUNDS: Final[tuple[Bound, ...]] = ("minutes", "cash", "days", "suppliers")


def eased(problem: Problem, solution: Solution, steps: Steps | None = None) -> tuple[Eased, ...]:
    """Every limit that the job sets, let out alone by its step; each solved exactly.

    Where the plan without any of these limits is no cheaper, none of them costs anything, and that one solve says so.
    """
    limits = problem.limits
    steps = steps or Steps()
    asked = [bound for bound in BOUNDS if getattr(limits, bound) is not None]
    if not asked:
        return ()
    free = _solved(problem, msgspec.structs.replace(limits, **dict.fromkeys(asked)))
    idle = solution.cost is not None and free.cost == solution.cost
    rows = []
    for bound in asked:
        more = getattr(steps, bound)
        value = getattr(limits, bound) + more
        plan = solution if idle else _solved(problem, msgspec.structs.replace(limits, **{bound: value}))
        known = plan.cost is not None and solution.cost is not None
        saves = (solution.cost or 0) - (plan.cost or 0) if known else None
        rows.append(Eased(bound, more, value, plan.cost, saves, plan))
    return tuple(rows)


def _solved(problem: Problem, limits: Limits) -> Solution:
    return solve(msgspec.structs.replace(problem, limits=limits), settle=False)
