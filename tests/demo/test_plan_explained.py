"""What explains a plan of the demo shop: lines of books behind every clash, days to order by, profit, prices, trade-offs."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import msgspec
import pytest

from fitlore.graph.open import Graph, open_graph
from fitlore.model.amounts import Money
from fitlore.model.because import Because
from fitlore.model.job import Job
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.frontier import frontier
from fitlore.sourcing.plan import Explain, Plan, plan, replanned
from fitlore.sourcing.proof import clash_proofs, line_proof, point_proof
from tests.demo.shop import REPO

SHOP = REPO / "demo" / "lowbarn"
THURSDAY = date(2026, 12, 3)


@pytest.fixture(scope="module")
def graph(tmp_path_factory: pytest.TempPathFactory) -> Graph:
    """The demo shop, opened with a snapshot of its own."""
    return open_graph(SHOP, cache=tmp_path_factory.mktemp("cache"))


@pytest.fixture(scope="module")
def job(graph: Graph) -> Job:
    """The green estate's job."""
    found = graph.job("green-estate")
    assert found is not None
    return found


@pytest.fixture(scope="module")
def made(graph: Graph, job: Job) -> Plan:
    """Its plan, explained as far as `fitlore plan` does it."""
    return plan(graph, job)


def _line(because: Because) -> str:
    """The text of the line that a step names first, of the book itself."""
    origin = because.origins[0]
    book = SHOP / "books" / str(origin.book).partition("/")[2]
    return book.read_text("utf-8").splitlines()[origin.line - 1]


def test_a_clash_goes_down_to_the_lines_of_the_finding_and_of_every_offer(graph: Graph, job: Job) -> None:
    """By Friday the 4th: the day is the asker's, the finding and the sellers are lines that say what is claimed of them."""
    found = plan(graph, job, Wishes(by=date(2026, 12, 4)))
    assert found.clash is not None
    day, need = clash_proofs(found)
    assert (day.code, day.values["asked"], day.origins) == ("clash-days", "as asked", ())
    assert need.code == "clash-need"
    assert "at: heating/blower-resistor" in _line(need)
    offers = [step for _, step in need.walk() if step.code == "clash-offer"]
    assert {"northgate OS 6640 02 used", "postbag KT 66 4002 new"} <= {row.values["offer"] for row in offers}
    for row in offers:
        assert date.fromisoformat(row.values["day"]) > date(2026, 12, 4), row
        line = _line(row)
        assert any(word in line for word in ("number:", "whole-car:", "offers", "- {")), line
    refused = [step for _, step in need.walk() if step.code == "clash-refused"]
    assert [row.values["part"] for row in refused] == ["VP 66 120"]
    assert found.clash.give_up == ("heating/blower-resistor", "lighting/rear-lamp@right")


def test_limits_of_the_job_are_named_by_the_jobs_lines(graph: Graph, job: Job) -> None:
    """With a purse and hands of its own that are too small, the purse's and the hands' lines are the proof."""

    assert job.purse is not None
    assert job.hands is not None
    poor = msgspec.structs.replace(
        job,
        purse=msgspec.structs.replace(job.purse, cash=Money(Decimal(300), "GBP")),
    )
    tired = msgspec.structs.replace(job, hands=msgspec.structs.replace(job.hands, minutes=120))
    for changed, code, words in ((poor, "clash-cash", "purse:"), (tired, "clash-hands", "hands:")):
        proof = next(row for row in clash_proofs(plan(graph, changed)) if row.code == code)
        assert words in _line(proof)
        assert proof.values["asked"] == ""


def test_every_order_can_wait_till_its_day_and_no_longer(made: Plan) -> None:
    """Sent on its last day, each order is just in hand by Wednesday the 9th; what is in the stores has no such day."""
    seen = 0
    for order in made.orders:
        own = order.supplier.startswith("own ")
        assert (order.last_day is None) == own
        if order.last_day is not None:
            slowest = max(row.offer.days for row in order.lines)
            assert THURSDAY + timedelta(days=order.last_day + slowest) == date(2026, 12, 9)
            seen += 1
    assert seen >= 6


def test_the_nearest_option_not_chosen_is_the_next_best(made: Plan) -> None:
    """Sorted by what they cost more, the first is the runner-up of the line, and all are other options of it."""
    assert sum(len(line.others) for line in made.lines) >= 12
    for line in made.lines:
        assert line.choice is not None
        assert line.next_best is not None
        dearer = [row.dearer for row in line.others if row.dearer is not None]
        assert dearer == sorted(dearer)
        assert line.next_best.dearer == (dearer[0] if dearer else None)
        assert line.choice.option.id not in {row.option for row in line.others}
        codes = [step.code for step in line_proof(made, line).under]
        told = sum(code in ("next-best", "not-chosen", "not-chosen-impossible") for code in codes)
        assert told == len(line.others)


def test_a_day_more_saves_what_planning_a_day_later_saves(made: Plan) -> None:
    """The block of limits against the job planned anew with that limit; hands and purse do not bind."""
    saves = {row.bound: row.saves for row in made.eased}
    assert saves["minutes"] == saves["cash"] == 0
    limits = made.assembled.problem.limits
    assert limits.days is not None
    later = replanned(made, days=limits.days + 1)
    assert saves["days"] == 53830 - (later.cost or 0) > 0


def test_profit_of_a_car_that_is_bought(graph: Graph, made: Plan) -> None:
    """690.00 sale - 240.00 bought - 30.00 selling - the plan; of a car not bought there is only the most to pay."""
    assert made.profit is None
    job = graph.job("blue-forty-tidy")
    assert job is not None
    found = plan(graph, job, Wishes(today=THURSDAY), explain=False)
    assert found.solution.status == "proven"
    assert found.solution.cost is not None
    assert found.profit == 69000 - 24000 - 3000 - found.solution.cost


def test_prices_both_ways_are_in_the_proof_of_a_line(graph: Graph, job: Job) -> None:
    """Line 2: the joint may rise to 10.69 and the rod to 5.70; the old joint comes in below 14.80."""
    found = plan(graph, job, explain=Explain(prices=True))
    steps = {
        step.values["offer"]: step
        for _, step in line_proof(found, found.lines[1]).walk()
        if step.code.startswith("price-")
    }
    rod, old = steps["northgate OS 4810 316 used"], steps["postbag KT 48 0070 new"]
    assert (rod.code, rod.values["now"], rod.values["price"]) == ("price-up", "3.00 GBP", "5.70 GBP")
    assert (old.code, old.values["now"], old.values["price"]) == ("price-down", "17.50 GBP", "14.80 GBP")
    assert "OS 4810 316" in _line(rod)
    assert found.lines[1].next_best is not None
    assert found.lines[1].next_best.dearer == 270


def test_trade_offs_start_at_the_plan_and_say_what_they_do_otherwise(made: Plan) -> None:
    """538.30 comes first; every other line names needs it meets otherwise or packs it buys otherwise."""
    found = frontier(made.assembled.problem)
    assert found.whole
    assert found.points[0].cost == 53830
    assert len(found.points) >= 5
    for at in range(1, len(found.points)):
        assert found.points[at].cost > 53830
        assert point_proof(made, found.points, at).under
