"""The one door to the solver: builds its arrays, runs it to a proof, and reads a plan out of what it returns."""

from __future__ import annotations

from math import ceil, isfinite
from typing import TYPE_CHECKING, Any, Literal

import msgspec

from fitlore.sourcing.apart import components
from fitlore.sourcing.beaten import without_beaten
from fitlore.sourcing.check import check
from fitlore.sourcing.problem import Problem, Solution
from fitlore.sourcing.quiet import silent
from fitlore.sourcing.read import Read, read_plan
from fitlore.sourcing.reduce import ordered, possible
from fitlore.sourcing.rows import Model, Row, build, weights
from fitlore.sourcing.ties import first_aim, stages
from fitlore.sourcing.watch import Seen, Watch

if TYPE_CHECKING:
    import highspy

Aim = Literal["cash", "hands", "worst cash", "worst hands", "suppliers", "waiting"]
"""What `least` can make least: coins of cash now, hands (ten-thousandths of a minute), the same at the worst, a count."""


ENUMERATING = 1 << 16
"""The presolve rule that enumerates short rows: version 1.16 of the solver loses plans by it, and is no faster."""


class SolverError(RuntimeError):
    """The solver's answer contradicts the exact rows: an error of the program, never of the books."""


class Effort(msgspec.Struct, frozen=True):
    """Where to stop without a proof; None: never. `gap` is a share of the cost (0.001), 0 asks for the proof.

    A plan stopped by `seconds` may differ from run to run; one stopped by `gap` or `nodes` does not. A job that falls into
    parts that nothing joins spends up to as much on each of them, and once more on deciding between equally cheap plans.
    """

    gap: float = 0.0
    nodes: int | None = None
    seconds: float | None = None


FULL = Effort()


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
        found = _run(model, weights(model, aim), [], FULL)
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
        if _run(model, [0] * len(model.columns), [], FULL).state == "infeasible":
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
    found = _run(model, aim, [], FULL)
    if found.state == "infeasible":
        return None
    met = {row.need for row in smaller.options if model.columns and found.values[model.index["z", row.id]]}
    return tuple(name for name in musts if name not in met)


class _Found(msgspec.Struct, frozen=True):
    """One run: the columns' values (empty if no plan was found), their value, and the proven bound on it."""

    state: Literal["proven", "infeasible", "stopped"]
    values: tuple[int, ...] = ()
    value: int = 0
    bound: int | None = None


class _Part(msgspec.Struct, frozen=True):
    problem: Problem
    model: Model
    found: _Found


def _solve_part(problem: Problem, effort: Effort, settle: bool, watch: Watch | None) -> _Part:
    model = build(problem)
    costs = weights(model, "cost")
    aim, times = first_aim(model) if settle else (costs, 1)
    found = _run(model, aim, [], effort, watch, times)
    if not found.values or not model.columns:
        bound = None if found.bound is None else -(-(found.bound - times + 1) // times)
        return _Part(problem, model, msgspec.structs.replace(found, bound=bound))
    cost = _value(costs, found.values)
    if found.state == "stopped":
        bound = None if found.bound is None else min(cost, -(-(found.bound - times + 1) // times))
        return _Part(problem, model, _Found("stopped", found.values, cost, bound))
    settle = settle and not (watch and watch.stop)
    values = _settled(model, found.values, effort) if settle else found.values
    if _value(costs, values) != cost:
        raise SolverError("deciding between equal plans changed the cost")
    return _Part(problem, model, _Found("proven", values, cost, cost))


def _settled(model: Model, values: tuple[int, ...], effort: Effort) -> tuple[int, ...]:
    """The one plan that is meant among those of the same cost with as few suppliers, as far as the effort goes."""
    costs, suppliers = weights(model, "cost"), weights(model, "suppliers")
    cost, waiting = _value(costs, values), _value(weights(model, "waiting"), values)
    kept = [_at_most(costs, cost), _at_most(suppliers, _value(suppliers, values))]
    for stage in stages(model, cost, waiting):
        best = _run(model, stage.aim, kept, msgspec.structs.replace(effort, gap=0.0))
        if best.state == "stopped":
            return best.values or values
        if best.state == "infeasible":
            raise SolverError("the plan was lost while deciding between equal ones")
        values = best.values
        kept.append(_at_most(stage.held, _value(stage.held, values)))
    return values


def _at_most(aim: list[int], value: int) -> Row:
    return Row(None, value, tuple((number, weight) for number, weight in enumerate(aim) if weight))


def _value(aim: list[int], values: tuple[int, ...]) -> int:
    return sum(weight * value for weight, value in zip(aim, values, strict=True))


def _run(
    model: Model,
    aim: list[int],
    more: list[Row],
    effort: Effort,
    watch: Watch | None = None,
    times: int = 1,
) -> _Found:
    """Make `aim` least over the model and some more rows. Gap 0 on whole numbers: a bound within 0.99 is a proof.

    No start is ever handed over: it gains nothing, and the solver can hand a start back with the value of another plan.
    An answer that contradicts itself is asked for once more without presolve; so is "impossible", which presolve was
    seen to say of jobs that have a plan.
    """
    rows = [*model.rows, *more]
    if not model.columns:
        empty = all((row.low or 0) <= 0 and (row.high is None or row.high >= 0) for row in rows)
        return _Found("proven", bound=0) if empty else _Found("infeasible")
    for presolve in ("choose", "off"):
        found = _answer(model, aim, rows, effort, presolve, watch, times)
        if found is not None and (found.state != "infeasible" or presolve == "off"):
            return found
    raise SolverError("the solver's answer contradicts the exact rows")


def _answer(
    model: Model,
    aim: list[int],
    rows: list[Row],
    effort: Effort,
    presolve: str,
    watch: Watch | None,
    times: int,
) -> _Found | None:
    """One run of the solver; None if what it returns breaks the rows, is not as good as it says, or is no answer."""
    import highspy

    state = highspy.HighsModelStatus
    with silent():
        highs = highspy.Highs()  # type: ignore[no-untyped-call]
        _options(highs, effort)
        highs.setOptionValue("presolve", presolve)
        highs.setOptionValue("presolve_rule_off", ENUMERATING)
        if watch is not None:
            _looked_at(highs, watch, times)
        highs.passModel(_arrays(model, aim, rows))
        highs.run()
        status = highs.getModelStatus()
        info = highs.getInfo()
        values = highs.getSolution().col_value if info.primal_solution_status == 2 else ()
    if status == state.kInfeasible:
        return _Found("infeasible")
    whole = tuple(round(value) for value in values)
    if whole and not _holds(model, rows, whole):
        return None
    value = _value(aim, whole) if whole else 0
    bound = _whole_bound(info.mip_dual_bound)
    if status == state.kOptimal and effort.gap == 0.0:
        return _Found("proven", whole, value, value) if whole and bound == value else None
    if status in (state.kOptimal, state.kTimeLimit, state.kSolutionLimit, state.kInterrupt):
        return _Found("stopped", whole, value, bound)
    return None


def _looked_at(highs: highspy.Highs, watch: Watch, times: int) -> None:
    """Has the solver call back between its steps; there Python's own signal handlers run as well."""
    from highspy import cb

    def between(kind: cb.HighsCallbackType, text: str, out: Any, back: Any, _: object) -> None:
        best = round(out.mip_primal_bound) // times if isfinite(out.mip_primal_bound) else None
        bound = _whole_bound(out.mip_dual_bound / times)
        back.user_interrupt = not watch.see(Seen(out.running_time, best, bound))

    highs.setCallback(between, None)
    highs.startCallback(cb.HighsCallbackType.kCallbackMipInterrupt)


def _whole_bound(bound: float) -> int | None:
    """The least whole value that a bound in floating point still allows."""
    return ceil(bound - 1e-6 - 1e-13 * abs(bound)) if isfinite(bound) else None


def _options(highs: highspy.Highs, effort: Effort) -> None:
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("mip_rel_gap", effort.gap)
    highs.setOptionValue("mip_abs_gap", 0.99)
    if effort.nodes is not None:
        highs.setOptionValue("mip_max_nodes", effort.nodes)
    if effort.seconds is not None:
        highs.setOptionValue("time_limit", effort.seconds)


def _arrays(model: Model, aim: list[int], rows: list[Row]) -> highspy.HighsLp:
    import highspy
    import numpy

    lp = highspy.HighsLp()
    lp.num_col_ = len(model.columns)
    lp.num_row_ = len(rows)
    lp.col_cost_ = numpy.array(aim, dtype=float)
    lp.col_lower_ = numpy.array([column.lower for column in model.columns], dtype=float)
    lp.col_upper_ = numpy.array([column.upper for column in model.columns], dtype=float)
    free = highspy.kHighsInf
    lp.row_lower_ = numpy.array([-free if row.low is None else row.low for row in rows], dtype=float)
    lp.row_upper_ = numpy.array([free if row.high is None else row.high for row in rows], dtype=float)
    lengths = numpy.array([0, *(len(row.entries) for row in rows)])
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = numpy.cumsum(lengths).astype(numpy.int32)
    numbers = [number for row in rows for number, _ in row.entries]
    lp.a_matrix_.index_ = numpy.array(numbers, dtype=numpy.int32)
    lp.a_matrix_.value_ = numpy.array([value for row in rows for _, value in row.entries], dtype=float)
    lp.integrality_ = [highspy.HighsVarType.kInteger] * len(model.columns)
    return lp


def _holds(model: Model, rows: list[Row], values: tuple[int, ...]) -> bool:
    """Whether whole values satisfy every bound and row exactly."""
    columns = zip(model.columns, values, strict=True)
    return all(column.lower <= value <= column.upper for column, value in columns) and all(
        (row.low is None or total >= row.low) and (row.high is None or total <= row.high)
        for row in rows
        for total in [sum(coefficient * values[number] for number, coefficient in row.entries)]
    )
