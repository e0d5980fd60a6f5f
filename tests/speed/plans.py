"""The benchmarks of plans: `python tests/speed/plans.py [SIZE...]` (needs x suppliers: 10x8 60x40 300x200), tables on stdout.

Each way of planning solves the same jobs (`tests/speed/jobs.py`), each in a process of its own, in turn, up to `--limit`
seconds: fitlore's solving to the proof, and to a plan within 0.1 %; HiGHS and scipy's milp given the plainest model of the
job; OR-tools' CP-SAT; and going down the list (greedy). Every plan with a proof must cost the same, or the run ends with an
error. What was found is kept in `plans.json`, job by job, and on the README: it may be measured in pieces.

--seeds N     jobs of each family (default 3)
--limit S     seconds for each (default 60)
--family F    one family of jobs only (may be given again)
--way W       one way only (may be given again): fitlore, 0.1, highs, milp, cp-sat, greedy
--runners     besides, all runner-ups of one 60x40 job, near by; --exactly: and exact ones
"""

# ruff: noqa: E402  (this file is run as a script: it has to say where the packages are)
from __future__ import annotations

import argparse
import json
import os
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Final, NamedTuple

_REPO = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(_REPO / "src"), str(_REPO)]

from fitlore.sourcing.door import Effort
from fitlore.sourcing.problem import Problem
from fitlore.sourcing.runnerup import runner_ups
from fitlore.sourcing.solve import solve
from tests.speed.jobs import FAMILIES, whole_job
from tests.speed.measure import machine, table
from tests.speed.plain_rows import plain
from tests.speed.plan_figures import Measured, Second, keep


class Found(NamedTuple):
    """What one way says of one job: cost in coins (None: nothing found), whether proven, seconds, bytes."""

    cost: float | None
    proven: bool
    seconds: float
    processor: float
    memory: int


def fitlore(problem: Problem, limit: float) -> tuple[float | None, bool]:
    """This program, to the proof."""
    found = solve(problem, effort=Effort(seconds=limit), settle=False)
    return found.cost, found.status == "proven"


def nearly(problem: Problem, limit: float) -> tuple[float | None, bool]:
    """This program, to a plan that is proven to be within 0.1 % of the cheapest."""
    found = solve(problem, effort=Effort(gap=0.001, seconds=limit), settle=False)
    if found.cost is None or found.bound is None:
        return found.cost, False
    return found.cost, found.cost - found.bound <= 0.001 * found.cost


def highs(problem: Problem, limit: float) -> tuple[float | None, bool]:
    """HiGHS by its own interface, on the plain model."""
    import highspy
    import numpy

    model = plain(problem)
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 0.99)
    solver.setOptionValue("time_limit", limit)
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(model.cost), len(model.rows)
    lp.col_cost_ = numpy.array(model.cost, dtype=float)
    lp.col_lower_, lp.col_upper_ = numpy.zeros(len(model.cost)), numpy.array(model.upper, dtype=float)
    lp.row_lower_ = numpy.array([row[0] for row in model.rows], dtype=float)
    lp.row_upper_ = numpy.array([row[1] for row in model.rows], dtype=float)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    starts = numpy.cumsum([0, *(len(row[2]) for row in model.rows)])
    lp.a_matrix_.start_ = starts.astype(numpy.int32)
    lp.a_matrix_.index_ = numpy.array([at for row in model.rows for at in row[2]], dtype=numpy.int32)
    lp.a_matrix_.value_ = numpy.array([v for row in model.rows for v in row[2].values()], dtype=float)
    lp.integrality_ = [highspy.HighsVarType.kInteger] * len(model.cost)
    solver.passModel(lp)
    solver.run()
    found = solver.getInfo()
    proven = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return (found.objective_function_value if found.primal_solution_status == 2 else None), proven


def milp(problem: Problem, limit: float) -> tuple[float | None, bool]:
    """scipy.optimize.milp on the plain model."""
    import numpy
    from scipy.optimize import Bounds, LinearConstraint
    from scipy.optimize import milp as solve_milp
    from scipy.sparse import csr_matrix

    model = plain(problem)
    values = [value for row in model.rows for value in row[2].values()]
    places = [at for row in model.rows for at in row[2]]
    starts = numpy.cumsum([0, *(len(row[2]) for row in model.rows)])
    matrix = csr_matrix((values, places, starts), shape=(len(model.rows), len(model.cost)))
    held = LinearConstraint(matrix, [row[0] for row in model.rows], [row[1] for row in model.rows])
    options = {"mip_rel_gap": 0.0, "time_limit": limit}
    whole = numpy.ones(len(model.cost))
    found = solve_milp(
        model.cost, constraints=held, integrality=whole, bounds=Bounds(0, model.upper), options=options
    )
    return found.fun, found.status == 0


def cp_sat(problem: Problem, limit: float) -> tuple[float | None, bool]:
    """OR-tools' CP-SAT with one worker (with two it was measured slower on these jobs)."""
    from tests.sourcing.core.by_cp_sat import cp_sat as solve_cp_sat

    found = solve_cp_sat(problem, limit, workers=1)
    return found.cost, found.status == "OPTIMAL"


def greedy(problem: Problem, limit: float) -> tuple[float | None, bool]:
    """Down the list; a plan that breaks a minimum order counts as none."""
    from tests.speed.greedy import greedy as go_down

    found = go_down(problem)
    return (None if found.broken else found.cost), False


WAYS: Final[dict[str, tuple[str, Callable[[Problem, float], tuple[float | None, bool]]]]] = {
    "fitlore": ("fitlore, proven", fitlore),
    "0.1": ("fitlore, within 0.1 %", nearly),
    "highs": ("HiGHS, plain model", highs),
    "milp": ("scipy milp, plain model", milp),
    "cp-sat": ("CP-SAT", cp_sat),
    "greedy": ("down the list", greedy),
}


def once(way: str, needs: int, suppliers: int, family: str, seed: int, limit: float) -> Found:
    """One way on one job, in this process; `proven` says for `0.1` that the plan is proven to be as near as that."""
    problem = whole_job(needs, suppliers, family, seed)
    begun, processor = time.perf_counter(), time.process_time()
    cost, proven = WAYS[way][1](problem, limit)
    seconds, processor = time.perf_counter() - begun, time.process_time() - processor
    scale = 1 if sys.platform == "darwin" else 1024
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * scale
    return Found(cost, proven, seconds, processor, memory)


def apart(way: str, needs: int, suppliers: int, family: str, seed: int, limit: float) -> Found:
    """The same in a process of its own. A RuntimeError where it fails."""
    words = [
        sys.executable,
        __file__,
        "--once",
        way,
        str(needs),
        str(suppliers),
        family,
        str(seed),
        str(limit),
    ]
    done = subprocess.run(words, capture_output=True, text=True, env={**os.environ}, check=False)
    if done.returncode:
        raise RuntimeError(f"{way} failed: {done.stderr}")
    return Found(*json.loads(done.stdout.splitlines()[-1]))


def size(needs: int, suppliers: int, asked: argparse.Namespace) -> None:
    """All ways on all jobs of one size, family by family; each result is kept as soon as it is there."""
    rows = []
    for family in asked.family or FAMILIES:
        found: dict[str, list[Found]] = {way: [] for way in asked.way or WAYS}
        for seed in range(asked.seeds):
            for way, mine in found.items():
                one = apart(way, needs, suppliers, family, seed, asked.limit)
                mine.append(one)
                keep(machine(), [_measured((needs, suppliers, family, seed), way, one, asked.limit)], [])
            costs = {round(m[-1].cost or 0) for way, m in found.items() if m[-1].proven and way != "0.1"}
            if len(costs) > 1:
                raise RuntimeError(f"{family} {seed}: proven plans differ: {sorted(costs)}")
            if sys.stderr.isatty():
                print(f"{needs}x{suppliers} {family} {seed}", file=sys.stderr)
        best = [min(mine[at].cost or float("inf") for mine in found.values()) for at in range(asked.seeds)]
        rows += [(f"{family}: {WAYS[way][0]}", *_figures(one, best)) for way, one in found.items()]
    head = ("job: by", "processor s", "longest", "reached", "dearer by", "no plan", "MB")
    print(table(f"{needs} needs, {suppliers} suppliers", head, rows), flush=True)


def _measured(job: tuple[int, int, str, int], way: str, one: Found, limit: float) -> Measured:
    """The result as it is kept."""
    return Measured(
        *job,
        WAYS[way][0],
        one.cost,
        one.proven and way != "0.1",
        one.seconds,
        one.processor,
        one.memory,
        limit,
        one.proven,
    )


def _figures(found: list[Found], best: list[float]) -> tuple[str, ...]:
    dearer = [row.cost / least - 1 for row, least in zip(found, best, strict=True) if row.cost is not None]
    return (
        f"{statistics.median(row.processor for row in found):.2f}",
        f"{max(row.processor for row in found):.2f}",
        f"{sum(row.proven for row in found)} of {len(found)}",
        f"{100 * statistics.median(dearer):.2f} %" if dearer else "",
        str(sum(row.cost is None for row in found)),
        f"{max(row.memory for row in found) / 1e6:.0f}",
    )


def runners(*, exactly: bool) -> None:
    """All runner-ups of a job of 60 needs: as bounds at once, and exactly."""
    problem = whole_job(60, 40, "plain", 0)
    solution = solve(problem)
    rows = []
    for name, near in (("near by, never too small", True), ("exact", False))[: 1 + exactly]:
        begun = time.process_time()
        found = runner_ups(problem, solution, near=near, offers=False)
        seconds = time.process_time() - begun
        keep(machine(), [], [Second(name, len(found), seconds)])
        rows.append((name, str(len(found)), f"{seconds:.2f}", f"{1000 * seconds / len(found):.0f}"))
    print(table("runner-ups, 60 needs", ("how", "asked", "processor s", "ms each"), rows), flush=True)


def main() -> None:
    """Reads the command line."""
    if "--once" in sys.argv:
        way, needs, suppliers, family, seed, limit = sys.argv[2:]
        print(json.dumps(once(way, int(needs), int(suppliers), family, int(seed), float(limit))))
        return
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("sizes", nargs="*", metavar="SIZE")
    parser.add_argument("--seeds", type=int, default=3)
    parser.add_argument("--limit", type=float, default=60.0)
    parser.add_argument("--family", action="append", choices=FAMILIES)
    parser.add_argument("--way", action="append", choices=WAYS)
    parser.add_argument("--runners", action="store_true")
    parser.add_argument("--exactly", action="store_true")
    asked = parser.parse_args()
    print(machine())
    for text in asked.sizes:
        needs, suppliers = map(int, text.split("x"))
        size(needs, suppliers, asked)
    if asked.runners:
        runners(exactly=asked.exactly)


if __name__ == "__main__":
    main()
