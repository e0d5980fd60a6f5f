"""The front door of the room: the cheapest way to everything a job needs, with its proof, or what stands in the way."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.model.amounts import Money
from fitlore.model.job import Job
from fitlore.model.placed import OfferFrom
from fitlore.sourcing import problem as p
from fitlore.sourcing.assemble import Assembled, Wishes, assemble
from fitlore.sourcing.audit import confirm
from fitlore.sourcing.clash import Clash, clash
from fitlore.sourcing.coins import amount, coins
from fitlore.sourcing.door import FULL, Effort
from fitlore.sourcing.needs import NeedAt
from fitlore.sourcing.options import Choice
from fitlore.sourcing.runnerup import runner_up
from fitlore.sourcing.solve import solve
from fitlore.sourcing.watch import Watch

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class OrderLine(NamedTuple):
    """Packs of one offer."""

    offer: p.Offer
    line: OfferFrom
    packs: int
    serves: tuple[str, ...]
    """Needs and shared works its units go to."""


class Order(NamedTuple):
    """What is bought from one supplier, and how it comes."""

    supplier: str
    lines: tuple[OrderLine, ...]
    goods: int
    surcharges: int
    fee: int
    way: p.Way


class NextBest(NamedTuple):
    """What would be done for a need instead."""

    option: str | None
    """None: it would be left."""
    dearer: int | None
    """Coins that the whole plan would cost more; None: nothing else would do."""


class PlanLine(NamedTuple):
    """One need and how it is met."""

    number: int
    need: NeedAt
    choice: Choice | None
    """None: an optional finding that is left."""
    offers: tuple[OrderLine, ...]
    next_best: NextBest | None


class Plan(NamedTuple):
    """The plan of a job. Money in smallest coins of `home`; hands in ten-thousandths of a minute."""

    assembled: Assembled
    solution: p.Solution
    lines: tuple[PlanLine, ...]
    orders: tuple[Order, ...]
    clash: Clash | None

    @property
    def home(self) -> str:
        """The shop's currency."""
        return self.assembled.home

    def money(self, whole: int) -> Money:
        """Smallest coins as money of the shop."""
        return amount(whole, self.home)

    @property
    def most_to_pay(self) -> int | None:
        """The most such a car may cost: sale − plan − profit wanted − selling costs − reserve. None: no sale is expected."""
        job = self.assembled.job
        if job.expected_sale is None or self.solution.cost is None:
            return None
        reserve = job.purse.reserve if job.purse else None
        spent = [
            self.solution.cost,
            *(coins(m, self.home) for m in (job.profit_wanted, job.selling_costs, reserve)),
        ]
        return coins(job.expected_sale, self.home) - sum(spent)


def plan(
    graph: Graph,
    job: Job,
    wishes: Wishes | None = None,
    *,
    explain: bool = True,
    effort: Effort = FULL,
    watch: Watch | None = None,
) -> Plan:
    """The provably cheapest plan for a job; with `explain`, the runner-up of each line, or what clashes if there is none.

    Where `effort` or `watch` end the search early, the best plan so far, which is not explained, or no lines at all.

    Raises JobFault for a job that cannot be planned as it is written, AuditError if solver and audit differ by a coin.
    """
    assembled = assemble(graph, job, wishes or Wishes())
    solution = solve(assembled.problem, effort=effort, watch=watch)
    if solution.status == "stopped" and solution.cost is None:
        return Plan(assembled, solution, (), (), None)
    if solution.status == "infeasible":
        return Plan(assembled, solution, (), (), clash(assembled.problem) if explain else None)
    confirm(assembled.problem, solution)
    orders = _orders(assembled, solution)
    explain = explain and solution.status == "proven"
    return Plan(assembled, solution, _lines(assembled, solution, orders, explain=explain), orders, None)


def _orders(assembled: Assembled, solution: p.Solution) -> tuple[Order, ...]:
    offers = {offer.id: offer for offer in assembled.problem.offers}
    owners = {option.id: option.need for option in assembled.problem.options}
    serves: dict[str, set[str]] = {}
    for row in solution.assigned:
        serves.setdefault(row.offer, set()).add(row.owner if row.shared else owners[row.owner])
    rows = []
    for way in solution.ways:
        lines = tuple(
            OrderLine(
                offers[b.offer],
                assembled.market.lines[b.offer],
                b.packs,
                tuple(sorted(serves.get(b.offer, ()))),
            )
            for b in solution.bought
            if b.supplier == way.supplier
        )
        goods = sum(line.offer.price * line.packs for line in lines)
        surcharges = sum(line.offer.surcharge * line.packs for line in lines)
        rows.append(Order(way.supplier, lines, goods, surcharges, _fee(assembled.problem, way), way))
    return tuple(rows)


def _fee(problem: p.Problem, way: p.Way) -> int:
    supplier = next(s for s in problem.suppliers if s.id == way.supplier)
    return next((mode.fee for mode in supplier.modes if mode.id == way.mode), 0)


def _lines(
    assembled: Assembled, solution: p.Solution, orders: tuple[Order, ...], *, explain: bool
) -> tuple[PlanLine, ...]:
    chosen = {row.need: assembled.choices[row.option] for row in solution.chosen}
    rows = []
    for number, need in enumerate(assembled.needs, 1):
        choice = chosen.get(need.id)
        used = {
            row.offer
            for row in solution.assigned
            if choice and not row.shared and row.owner == choice.option.id
        }
        lines = tuple(line for order in orders for line in order.lines if line.offer.id in used)
        next_best = _next_best(assembled, solution, need.id) if explain and choice else None
        rows.append(PlanLine(number, need, choice, lines, next_best))
    return tuple(rows)


def _next_best(assembled: Assembled, solution: p.Solution, need: str) -> NextBest:
    other = runner_up(assembled.problem, solution, need, "option")
    option = next((row.option for row in other.plan.chosen if row.need == need), None)
    return NextBest(option, other.difference)


def replanned(plan_of: Plan, **limits: object) -> p.Solution:
    """The same job under other limits (fields of Limits), for what-ifs: no new questions are asked of the books."""
    changed = msgspec.structs.replace(plan_of.assembled.problem.limits, **limits)
    return solve(msgspec.structs.replace(plan_of.assembled.problem, limits=changed))
