"""The one door to the solver: hands it columns, rows and an aim, and takes nothing from it that the exact rows deny."""

from __future__ import annotations

from math import ceil, isfinite
from typing import TYPE_CHECKING, Any, Literal

import msgspec

from fitlore.sourcing.quiet import silent
from fitlore.sourcing.rows import Model, Row
from fitlore.sourcing.watch import Seen, Watch

if TYPE_CHECKING:
    import highspy

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


class Found(msgspec.Struct, frozen=True):
    """One run: the columns' values (empty if no plan was found), their value, and the proven bound on it."""

    state: Literal["proven", "infeasible", "stopped"]
    values: tuple[int, ...] = ()
    value: int = 0
    bound: int | None = None


def run(
    model: Model,
    aim: list[int],
    more: list[Row],
    effort: Effort,
    watch: Watch | None = None,
    times: int = 1,
) -> Found:
    """Make `aim` least over the model and some more rows. Gap 0 on whole numbers: a bound within 0.99 is a proof.

    No start is ever handed over: it gains nothing, and the solver can hand a start back with the value of another plan.
    An answer that contradicts itself is asked for once more without presolve; so is "impossible", which presolve was
    seen to say of jobs that have a plan.
    """
    rows = [*model.rows, *more]
    if not model.columns:
        empty = all((row.low or 0) <= 0 and (row.high is None or row.high >= 0) for row in rows)
        return Found("proven", bound=0) if empty else Found("infeasible")
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
) -> Found | None:
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
        return Found("infeasible")
    whole = tuple(round(value) for value in values)
    if whole and not holds(model, rows, whole):
        return None
    value = value_of(aim, whole) if whole else 0
    bound = _whole_bound(info.mip_dual_bound)
    if status == state.kOptimal and effort.gap == 0.0:
        return Found("proven", whole, value, value) if whole and bound == value else None
    if status in (state.kOptimal, state.kTimeLimit, state.kSolutionLimit, state.kInterrupt):
        return Found("stopped", whole, value, bound)
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


def value_of(aim: list[int], values: tuple[int, ...]) -> int:
    """What an aim comes to at these values of the columns."""
    return sum(weight * value for weight, value in zip(aim, values, strict=True))


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


def holds(model: Model, rows: list[Row], values: tuple[int, ...]) -> bool:
    """Whether whole values satisfy every bound and row exactly."""
    columns = zip(model.columns, values, strict=True)
    return all(column.lower <= value <= column.upper for column, value in columns) and all(
        (row.low is None or total >= row.low) and (row.high is None or total <= row.high)
        for row in rows
        for total in [sum(coefficient * values[number] for number, coefficient in row.entries)]
    )
