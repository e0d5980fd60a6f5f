"""The front door of the room: the cheapest way to everything a job needs, with its proof, or what stands in the way."""

from __future__ import annotations

from datetime import time
from typing import TYPE_CHECKING

import msgspec

from fitlore.model.job import Job
from fitlore.sourcing import problem as p
from fitlore.sourcing.assemble import Assembled, Wishes, assemble
from fitlore.sourcing.audit import confirm
from fitlore.sourcing.clash import clash
from fitlore.sourcing.coins import digits
from fitlore.sourcing.door import FULL, Effort
from fitlore.sourcing.eased import Eased, Steps, eased
from fitlore.sourcing.explain import Explain, lines_of
from fitlore.sourcing.opening import last_order
from fitlore.sourcing.outcome import outcome
from fitlore.sourcing.planned import NextBest, Order, OrderLine, Plan, PlanLine
from fitlore.sourcing.reduce import last_day
from fitlore.sourcing.solve import solve
from fitlore.sourcing.watch import Watch

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

__all__ = ["Explain", "NextBest", "Order", "OrderLine", "Plan", "PlanLine", "plan", "replanned"]


def plan(
    graph: Graph,
    job: Job,
    wishes: Wishes | None = None,
    *,
    explain: bool | Explain = True,
    effort: Effort = FULL,
    watch: Watch | None = None,
) -> Plan:
    """The provably cheapest plan for a job; with `explain`, the runner-up of each line, or what clashes if there is none.

    Where `effort` or `watch` end the search early, the best plan so far, which is not explained, or no lines at all.

    Raises JobFault for a job that cannot be planned as it is written, AuditError if solver and audit differ by a coin.
    """
    wishes = wishes or Wishes()
    how = Explain() if explain is True else explain or None
    assembled = assemble(graph, job, wishes)
    problem = assembled.problem
    solution = solve(problem, effort=effort, watch=watch)
    if solution.status == "stopped" and solution.cost is None:
        return Plan(assembled, solution, (), (), None, wishes)
    if solution.status == "infeasible":
        return Plan(assembled, solution, (), (), clash(problem) if how else None, wishes)
    confirm(problem, solution)
    orders = _orders(graph, assembled, solution, wishes.now)
    how = how if solution.status == "proven" else None
    lines = lines_of(assembled, solution, orders, how, watch)
    let_out: tuple[Eased, ...] = ()
    if how is not None and how.exactly(problem) and not (watch and watch.stop):
        let_out = eased(problem, solution, Steps(cash=10 * 10 ** digits(assembled.home)))
    return Plan(assembled, solution, lines, orders, None, wishes, let_out, outcome(problem, solution))


def _orders(graph: Graph, assembled: Assembled, solution: p.Solution, now: time | None) -> tuple[Order, ...]:
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
        fee, last = _fee(assembled.problem, way), _last_day(graph, assembled, solution, lines, now)
        joining = next(s.joining for s in assembled.problem.suppliers if s.id == way.supplier)
        seller = graph.supplier(way.supplier)
        cut_off = (seller.cut_off or "") if seller and last is not None else ""
        rows.append(Order(way.supplier, lines, goods, surcharges, fee, way, last, joining, cut_off))
    return tuple(rows)


def _fee(problem: p.Problem, way: p.Way) -> int:
    supplier = next(s for s in problem.suppliers if s.id == way.supplier)
    return next((mode.fee for mode in supplier.modes if mode.id == way.mode), 0)


def _last_day(
    graph: Graph, assembled: Assembled, solution: p.Solution, lines: tuple[OrderLine, ...], now: time | None
) -> int | None:
    """The last day an order may be sent: each line is there in time, days without orders counted; None: no limit."""
    problem, seller = assembled.problem, graph.supplier(lines[0].line.supplier) if lines else None
    if seller is None:
        return None
    needs = {row.id: row.latest for row in problem.needs}
    latest: dict[tuple[str, bool], list[int | None]] = {
        (row.id, False): [last_day(problem, row, needs[row.need])] for row in problem.options
    }
    latest |= {(row.id, True): [row.latest] for row in problem.shared}
    days = []
    for line in lines:
        owners = [(r.owner, r.shared) for r in solution.assigned if r.offer == line.offer.id]
        bounds = [problem.limits.days, *(day for owner in owners for day in latest[owner])]
        found = [
            last_order(seller, assembled.today, line.line.offer.days, bound, now)
            for bound in bounds
            if bound is not None
        ]
        days += [day for day in found if day is not None]
    return min(days, default=None)


def replanned(plan_of: Plan, **limits: object) -> p.Solution:
    """The same job under other limits (fields of Limits), for what-ifs: no new questions are asked of the books."""
    changed = msgspec.structs.replace(plan_of.assembled.problem.limits, **limits)
    return solve(msgspec.structs.replace(plan_of.assembled.problem, limits=changed))
