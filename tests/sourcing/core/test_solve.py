"""The one door to the solver: silent, exact, repeatable, honest about what it did not prove."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import msgspec
import pytest

from fitlore.sourcing.audit import audit
from fitlore.sourcing.door import Effort
from fitlore.sourcing.problem import MINUTE, Bring, Limits, Mode, Need, Offer, Option, Problem, Supplier, Want
from fitlore.sourcing.solve import feasible, fewest_given_up, least, solve
from tests.sourcing.core.by_hand import cheapest
from tests.sourcing.core.by_lines import cheapest as by_lines
from tests.sourcing.core.green_estate import GREEN_ESTATE, with_limits
from tests.sourcing.core.small_jobs import job

replace = msgspec.structs.replace

QUIET = """
import sys
from fitlore.sourcing.solve import feasible, least, solve
print("before", flush=True)
{import_job}
assert solve(JOB).status == "proven"
assert solve(JOB, settle=False).status == "proven"
assert least(JOB, "cash") > 0 and feasible(JOB)
print("after", flush=True)
"""


def test_solving_prints_nothing(repo: Path) -> None:
    """Neither to standard output nor to standard error, seen from outside the process."""
    code = QUIET.format(import_job="from tests.sourcing.core.green_estate import GREEN_ESTATE as JOB")
    path = f"import sys; sys.path[:0] = [{str(repo / 'src')!r}, {str(repo)!r}]\n"
    run = subprocess.run([sys.executable, "-c", path + code], capture_output=True, check=False, cwd=repo)
    assert (run.returncode, run.stdout, run.stderr) == (0, b"before\nafter\n", b"")


def test_solving_works_with_standard_output_closed(repo: Path) -> None:
    """Nothing to keep silent then, and nothing breaks."""
    code = (
        f"import sys, os; sys.path[:0] = [{str(repo / 'src')!r}, {str(repo)!r}]\n"
        "os.close(1)\n"
        "from fitlore.sourcing.solve import solve\n"
        "from tests.sourcing.core.green_estate import GREEN_ESTATE\n"
        "sys.stderr.write(str(solve(GREEN_ESTATE).cost))\n"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False, cwd=repo)
    assert run.stderr.startswith(b"53830"), run.stderr


def test_the_heavy_libraries_are_imported_only_when_something_is_solved(repo: Path) -> None:
    """Importing the door costs neither the solver nor numpy."""
    code = (
        f"import sys; sys.path.insert(0, {str(repo / 'src')!r})\n"
        "import fitlore.sourcing.solve, fitlore.sourcing.clash, fitlore.sourcing.runnerup, fitlore.sourcing.audit\n"
        "assert not {'highspy', 'numpy'} & set(sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=repo)


def test_solving_again_gives_the_same_bytes() -> None:
    """In one process, several times."""
    once = msgspec.json.encode(solve(GREEN_ESTATE))
    assert all(msgspec.json.encode(solve(GREEN_ESTATE)) == once for _ in range(3))


def test_a_job_the_solver_once_called_impossible() -> None:
    """With 300.00 the plan costs 567.67 and 278.92 are enough; presolving by enumeration lost every plan of it."""
    poor = with_limits(cash=30000)
    assert feasible(poor)
    assert least(poor, "cash") == 27892
    assert solve(poor).cost == 56767 == by_lines(poor)


def test_what_is_not_settled_still_costs_the_same() -> None:
    """Only the choice among equally cheap plans is left to chance."""
    for seed in range(40):
        problem = job(seed)
        loose = solve(problem, settle=False)
        assert loose.cost == solve(problem).cost
        assert audit(problem, loose) == ()


def test_ties_go_to_fewer_suppliers_then_to_less_waiting() -> None:
    """Three equally dear ways: from two suppliers, from one in five days, from another one in two days."""
    needs = (Need("a"), Need("b"))
    options = tuple(Option(f"{name}/o", name, wants=(Want((name,)),)) for name in ("a", "b"))
    offers = tuple(
        Offer(f"{item}@{shop}", shop, 100, (Bring(item),), days=days)
        for shop, days in (("s1", 5), ("s2", 2), ("s3", 1))
        for item in ("a", "b")
        if shop != "s3" or item == "a"
    )
    problem = Problem(needs, options, offers, tuple(Supplier(name) for name in ("s1", "s2", "s3")))
    solution = solve(problem)
    assert [row.offer for row in solution.bought] == ["a@s2", "b@s2"]
    assert cheapest(problem) == (200, 1, 4)


def test_a_stopped_search_shows_its_plan_and_its_bound() -> None:
    """Stopped within a tenth of the cost: not called proven, the bound is true, and the plan stands."""
    rough = solve(GREEN_ESTATE, effort=Effort(gap=0.1))
    assert rough.status == "stopped"
    assert rough.bound is not None
    assert rough.cost is not None
    assert rough.bound <= 53830 <= rough.cost
    assert rough.cost - rough.bound <= 0.11 * rough.cost
    assert audit(GREEN_ESTATE, rough) == ()


def test_a_search_without_time_finds_nothing_and_says_so() -> None:
    """No plan, not proven, not impossible."""
    none = solve(GREEN_ESTATE, effort=Effort(seconds=0.0))
    assert none.status == "stopped"
    assert none.cost is None
    assert audit(GREEN_ESTATE, none) == ()


def test_a_search_stopped_by_nodes_is_repeatable() -> None:
    """The same plan each time, and never called proven unless it is."""
    first, second = (solve(GREEN_ESTATE, effort=Effort(nodes=0)) for _ in range(2))
    assert first == second
    assert first.status in ("stopped", "proven")
    assert first.cost is None or first.cost >= 53830


@pytest.mark.parametrize("aim", ["cash", "hands", "suppliers"])
def test_the_least_of_something_is_possible_and_no_less_is(aim: str) -> None:
    """As a limit it leaves a plan; one less leaves none (cash is confirmed by branching over the lines)."""
    value = least(GREEN_ESTATE, aim)  # type: ignore[arg-type]
    assert value is not None
    if aim == "suppliers":
        assert feasible(with_limits(suppliers=value))
        assert not feasible(with_limits(suppliers=value - 1))
    elif aim == "cash":
        assert by_lines(with_limits(cash=value)) is not None
        assert by_lines(with_limits(cash=value - 1)) is None
    else:
        minutes = -(-value // MINUTE)
        assert feasible(with_limits(minutes=minutes))
        assert not feasible(with_limits(minutes=minutes - 1))


def test_least_and_given_up_know_the_impossible() -> None:
    """Nothing is least where nothing is possible; what is forbidden and required at once rules out everything."""
    assert least(with_limits(days=1), "cash") is None
    both = with_limits(with_options=("radiator/corva",), without_options=("radiator/corva",))
    assert fewest_given_up(both) is None
    assert solve(both).status == "infeasible"
    assert fewest_given_up(GREEN_ESTATE) == ()


def test_parts_that_nothing_joins_are_solved_apart_to_the_same_plan() -> None:
    """Two copies of the estate without joint limits cost twice as much as one."""
    free = with_limits(minutes=None, cash=None)

    def marked(value: object, mark: str) -> object:
        if isinstance(value, dict):
            return {name: marked(part, mark) for name, part in value.items()}
        if isinstance(value, list | tuple):
            return [marked(part, mark) for part in value]
        return mark + value if isinstance(value, str) and value else value

    one, two = (msgspec.convert(marked(msgspec.to_builtins(free), mark), Problem) for mark in ("1-", "2-"))
    lists = ("needs", "options", "offers", "suppliers", "shared", "trips")
    both = replace(one, **{name: (*getattr(one, name), *getattr(two, name)) for name in lists})
    alone, together = solve(free), solve(both)
    assert alone.cost is not None
    assert together.cost == 2 * alone.cost
    joined = solve(replace(both, limits=replace(both.limits, suppliers=100)))
    assert joined == together


def test_an_empty_job_costs_nothing() -> None:
    """No needs, no offers; and a need that is simply left."""
    assert solve(Problem((), (), (), ())).cost == 0
    assert solve(Problem((Need("n"),), (Option("n/leave", "n"),), (), ())).cost == 0


def test_worth_is_rounded_once_for_each_line() -> None:
    """Seven minutes at 12.34 are 1.4396…: 1.44, for each of two options and not once for both."""
    options = tuple(Option(f"{name}/o", name, minutes=7) for name in ("a", "b"))
    problem = Problem((Need("a"), Need("b")), options, (), (), hour_worth=1234)
    totals = solve(problem).totals
    assert totals.hands == 14 * MINUTE
    assert totals.hands_worth == 288


def test_a_dominated_offer_may_still_lift_a_basket() -> None:
    """The dearer of two in one shop reaches the free limit: it must not be left out beforehand."""
    problem = Problem(
        (Need("n"),),
        (Option("n/o", "n", wants=(Want(("a",)),)),),
        (
            Offer("cheap", "s", 900, (Bring("a"),), most=1),
            Offer("dear", "s", 1000, (Bring("a"),), most=1),
        ),
        (Supplier("s", (Mode("paid", 500), Mode("free", 0, 1000))),),
        limits=Limits(),
    )
    assert [row.offer for row in solve(problem).bought] == ["dear"]
