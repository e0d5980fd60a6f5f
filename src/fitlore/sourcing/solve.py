"""What is asked of the solver: the cheapest plan, the least of something, whether anything is possible, what to give up."""

from __future__ import annotations

from typing import Literal

import msgspec

from fitlore.sourcing.alike import fewer
from fitlore.sourcing.apart import components
from fitlore.sourcing.beaten import without_beaten
from fitlore.sourcing.check import check
from fitlore.sourcing.door import FULL, Effort, Found, SolverError, holds, run, value_of
from fitlore.sourcing.problem import Problem, Solution
from fitlore.sourcing.read import Read, read_plan
from fitlore.sourcing.reduce import ordered, possible
from fitlore.sourcing.rows import Model, Row, build, weights
from fitlore.sourcing.ties import first_aim, stages
from fitlore.sourcing.watch import Watch

Aim = Literal["cash", "hands", "worst cash", "worst hands", "suppliers", "waiting"]
"""What `least` can make least: coins of cash now, hands (ten-thousandths of a minute), the same at the worst, a count."""


def solve(
    problem: Problem, *, effort: Effort = FULL, settle: bool = True, watch: Watch | None = None
) -> Solution:
    """The cheapest plan with its proof. `settle` decides between equally cheap plans (`ties`), else any one is returned.

    `watch` is told how far it has come, and may stop it: then the best plan so far is returned as "stopped".

    Raises `ProblemError` if the problem contradicts itself. Where nothing is possible the status is "infeasible".
    """
    check(problem)
    whole = ordered(problem)
    smaller = possible(whole)
    if smaller is None:
        return Solution("infeasible")
    parts = [_solve_part(part, effort, settle, watch) for part in components(without_beaten(smaller))]
    if any(part.found.state == "infeasible" for part in parts):
        return Solution("infeasible")
    proven = all(part.found.state == "proven" for part in parts)
    bounds = [part.found.bound for part in parts if part.found.bound is not None]
    bound = sum(bounds) if len(bounds) == len(parts) else None
    if not proven and any(not part.found.values for part in parts if part.model.columns):
        return Solution("stopped", bound=bound)
    read = [Read(part.problem, part.model, part.found.values) for part in parts]
    solution = read_plan(read, proven, bound)
    if proven and solution.cost != bound:
        raise SolverError(f"the lines come to {solution.cost}, the proof is for {bound}")
    return solution


def least(problem: Problem, aim: Aim) -> int | None:
    """The least an aim can be within the limits, whatever it costs; None if nothing is possible at all."""
    check(problem)
    smaller = possible(ordered(problem))
    if smaller is None:
        return None
    total = 0
    for part in components(smaller):
        model = build(part)
        found = run(model, weights(model, aim), [], FULL)
        if found.state == "infeasible":
            return None
        total += found.value
    return total


def feasible(problem: Problem) -> bool:
    """Whether any plan keeps to the limits."""
    check(problem)
    smaller = possible(ordered(problem))
    if smaller is None:
        return False
    for part in components(smaller):
        model = build(part)
        if run(model, [0] * len(model.columns), [], FULL).state == "infeasible":
            return False
    return True


def fewest_given_up(problem: Problem) -> tuple[str, ...] | None:
    """The fewest musts to give up so that the rest keeps to every limit; None if a plan is ruled out even so.

    Of several such sets the one that keeps the needs late in the alphabet; all parts together, so that limits are shared.
    """
    check(problem)
    musts = sorted(need.id for need in problem.needs if need.must)
    relaxed = tuple(msgspec.structs.replace(need, must=False) for need in problem.needs)
    smaller = possible(ordered(msgspec.structs.replace(problem, needs=relaxed)))
    if smaller is None:
        return None
    gains = {name: len(musts) ** 2 + rank for rank, name in enumerate(musts)}
    model = build(smaller)
    aim = [0] * len(model.columns)
    for option in smaller.options:
        aim[model.index["z", option.id]] = -gains.get(option.need, 0)
    found = run(model, aim, [], FULL)
    if found.state == "infeasible":
        return None
    met = {row.need for row in smaller.options if model.columns and found.values[model.index["z", row.id]]}
    return tuple(name for name in musts if name not in met)


class _Part(msgspec.Struct, frozen=True):
    problem: Problem
    model: Model
    found: Found


def _solve_part(problem: Problem, effort: Effort, settle: bool, watch: Watch | None) -> _Part:
    model = build(problem)
    costs = weights(model, "cost")
    found, times = _cheapest(problem, model, effort, settle, watch)
    if not found.values or not model.columns:
        bound = None if found.bound is None else -(-(found.bound - times + 1) // times)
        return _Part(problem, model, msgspec.structs.replace(found, bound=bound))
    cost = value_of(costs, found.values)
    if found.state == "stopped":
        bound = None if found.bound is None else min(cost, -(-(found.bound - times + 1) // times))
        return _Part(problem, model, Found("stopped", found.values, cost, bound))
    settle = settle and not (watch and watch.stop)
    values = _settled(model, found.values, effort) if settle else found.values
    if value_of(costs, values) != cost:
        raise SolverError("deciding between equal plans changed the cost")
    return _Part(problem, model, Found("proven", values, cost, cost))


def _cheapest(
    problem: Problem, model: Model, effort: Effort, settle: bool, watch: Watch | None
) -> tuple[Found, int]:
    """The first run, over the fewer columns, told in the model's own; and how many times a coin counts in its value."""
    less = fewer(problem, model)
    aim, times = first_aim(less.model) if settle else (weights(less.model, "cost"), 1)
    found = run(less.model, aim, [], effort, watch, times)
    if not found.values:
        return found, times
    values = less.whole(found.values, model)
    if not holds(model, model.rows, values):
        raise SolverError("units could not be dealt out among wants that nothing tells apart")
    return msgspec.structs.replace(found, values=values), times


def _settled(model: Model, values: tuple[int, ...], effort: Effort) -> tuple[int, ...]:
    """The one plan that is meant among those of the same cost with as few suppliers, as far as the effort goes."""
    costs, suppliers = weights(model, "cost"), weights(model, "suppliers")
    cost, waiting = value_of(costs, values), value_of(weights(model, "waiting"), values)
    kept = [_at_most(costs, cost), _at_most(suppliers, value_of(suppliers, values))]
    for stage in stages(model, cost, waiting):
        best = run(model, stage.aim, kept, msgspec.structs.replace(effort, gap=0.0))
        if best.state == "stopped":
            return best.values or values
        if best.state == "infeasible":
            raise SolverError("the plan was lost while deciding between equal ones")
        values = best.values
        kept.append(_at_most(stage.held, value_of(stage.held, values)))
    return values


def _at_most(aim: list[int], value: int) -> Row:
    return Row(None, value, tuple((number, weight) for number, weight in enumerate(aim) if weight))
