"""The cheapest plan by another solver of another kind: OR-tools' CP-SAT (constraint programming with learnt clauses).

The model is written from the words of `problem` alone: implications instead of big numbers, one flow for each want and
offer, a basket's spend and weight as sums, no tightening. The figures of each line are `by_hand`'s, not the program's.
"""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from ortools.sat.python import cp_model

from fitlore.sourcing.problem import Offer, Problem, Supplier
from tests.sourcing.core.by_hand import Sum, counts, option_sum, pack_sum, unit_sum, until, work_sum

MOST = 40
"""More packs of one offer than this are never worth buying in the jobs this is used for."""


class Proven(NamedTuple):
    """What CP-SAT says: `cost` is None where nothing is possible; `bound` is what it has proven in any case."""

    status: str
    cost: int | None
    bound: float
    seconds: float


class _Model:
    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.cp = cp_model.CpModel()
        self.sums: list[tuple[cp_model.IntVar, Sum]] = []
        self.taken = {row.id: self._bool(f"take {row.id}") for row in problem.options}
        self.done = {row.id: self._bool(f"do {row.id}") for row in problem.shared}
        self.packs = {row.id: self._packs(row) for row in problem.offers}
        self.made = {row.id: self._bool(f"go {row.id}") for row in problem.trips}
        self.used = {row.id: self._bool(f"use {row.id}") for row in problem.suppliers}
        self._costs()
        self._choices()
        self._wants()
        for supplier in problem.suppliers:
            self._basket(supplier)
        self._limits()

    def _bool(self, name: str) -> cp_model.IntVar:
        return self.cp.new_bool_var(name)

    def _packs(self, offer: Offer) -> cp_model.IntVar:
        limits = self.problem.limits
        out = offer.id in limits.without_offers or offer.supplier in limits.without_suppliers
        late = limits.days is not None and offer.days > limits.days
        bounds = [MOST, *(b for b in (offer.stock, offer.most) if b is not None)]
        packs = self.cp.new_int_var(0, 0 if out or late else min(bounds), f"buy {offer.id}")
        if offer.id in limits.with_offers:
            self.cp.add(packs >= 1)
        return packs

    def _costs(self) -> None:
        worth = self.problem.hour_worth
        self.sums += [(self.taken[row.id], option_sum(row, worth)) for row in self.problem.options]
        self.sums += [(self.packs[row.id], pack_sum(row, worth)) for row in self.problem.offers]
        for work in self.problem.shared:
            self.sums.append((self.done[work.id], work_sum(work, worth)))
        for trip in self.problem.trips:
            self.sums.append((self.made[trip.id], work_sum(trip, worth)))

    def _choices(self) -> None:
        problem, cp = self.problem, self.cp
        for need in problem.needs:
            rows = [self.taken[row.id] for row in problem.options if row.need == need.id]
            if need.must:
                cp.add_exactly_one(rows)
            else:
                cp.add_at_most_one(rows)
        for option in problem.options:
            last = until(problem, option)
            if last is not None and last < 0:
                cp.add(self.taken[option.id] == 0)
            for work in option.shared:
                cp.add_implication(self.taken[option.id], self.done[work])
        for companion in problem.companions:
            cp.add_bool_or(
                [self.taken[companion.option].negated(), *map(self.taken.__getitem__, companion.one_of)]
            )
        for never in problem.never:
            if never.one == never.other:
                cp.add(self.taken[never.one] == 0)
            cp.add_at_most_one([self.taken[name] for name in {never.one, never.other}])
        for pair in problem.pairs:
            cp.add(self.taken[pair.left] == self.taken[pair.right])
        for pool in problem.pools:
            uses = [
                t.amount * self.taken[o.id] for o in problem.options for t in o.takes if t.pool == pool.id
            ]
            uses += [
                t.amount * self.packs[o.id] for o in problem.offers for t in o.takes if t.pool == pool.id
            ]
            cp.add(sum(uses) <= pool.amount)

    def _wants(self) -> None:
        problem = self.problem
        banned = {(row.need, row.offer) for row in problem.limits.banned}
        rows = [(row.wants, self.taken[row.id], row.need, {until(problem, row)}) for row in problem.options]
        rows += [(row.wants, self.done[row.id], "", {row.latest}) for row in problem.shared]
        drawn: dict[tuple[str, str], list[cp_model.IntVar]] = defaultdict(list)
        for wants, chosen, need, ends in rows:
            for want in wants:
                units = []
                for offer in problem.offers:
                    late = any(day is not None and offer.days > day for day in ends)
                    if late or (need, offer.id) in banned:
                        continue
                    for bring in offer.brings:
                        if bring.item in want.items:
                            unit = self.cp.new_int_var(0, want.amount, "")
                            units.append(unit)
                            drawn[offer.id, bring.item].append(unit)
                            self.sums.append((unit, unit_sum(offer, want, problem.hour_worth)))
                self.cp.add(sum(units) == want.amount * chosen)
        for offer in problem.offers:
            for bring in offer.brings:
                self.cp.add(sum(drawn[offer.id, bring.item]) <= bring.units * self.packs[offer.id])

    def _basket(self, supplier: Supplier) -> None:
        cp, used = self.cp, self.used[supplier.id]
        rows = [row for row in self.problem.offers if row.supplier == supplier.id]
        anything = sum(self.packs[row.id] for row in rows)
        cp.add(anything == 0).only_enforce_if(used.negated())
        cp.add(anything >= 1).only_enforce_if(used)
        joining = supplier.joining
        self.sums.append((used, Sum(joining, joining, 0, joining, 0)))
        if not (supplier.modes or supplier.trips):
            return
        spend = sum(counts(row) * self.packs[row.id] for row in rows)
        weight = sum(row.weight * self.packs[row.id] for row in rows)
        ways = []
        for mode in supplier.modes:
            way = self._bool(f"{supplier.id} {mode.id}")
            ways.append(way)
            self.sums.append((way, Sum(mode.fee - mode.back, mode.fee, 0, mode.fee, 0)))
            cp.add(spend >= max(mode.least_spend, mode.minimum)).only_enforce_if(way)
            if mode.most_weight is not None:
                cp.add(weight <= mode.most_weight).only_enforce_if(way)
        for trip in supplier.trips:
            way = self._bool(f"{supplier.id} {trip}")
            ways.append(way)
            cp.add_implication(way, self.made[trip])
        cp.add(sum(ways) == used)

    def _limits(self) -> None:
        limits, total = self.problem.limits, Sum(*(self._total(n) for n in range(5)))
        for value, bound in (
            (total.cash, limits.cash),
            (total.minutes, None if limits.minutes is None else limits.minutes * 10_000),
            (total.worst_cash, limits.worst_cash),
            (total.worst_minutes, None if limits.worst_minutes is None else limits.worst_minutes * 10_000),
            (sum(self.used[row.id] for row in self.problem.suppliers if not row.own), limits.suppliers),
        ):
            if bound is not None:
                self.cp.add(value <= bound)
        for name in limits.without_options:
            self.cp.add(self.taken[name] == 0)
        for name in limits.with_options:
            self.cp.add(self.taken[name] == 1)
        self.cp.minimize(total.cost)

    def _total(self, field: int) -> cp_model.LinearExprT:
        return sum(row[field] * variable for variable, row in self.sums if row[field])  # type: ignore[return-value]


def cp_sat(problem: Problem, seconds: float = 60.0, workers: int = 1) -> Proven:
    """The optimum of a job by CP-SAT, within so many seconds; the same every time with one worker."""
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    solver.parameters.linearization_level = 2
    status = solver.solve(_Model(problem).cp)
    name = solver.status_name(status)
    cost = round(solver.objective_value) if name in ("OPTIMAL", "FEASIBLE") else None
    return Proven(name, cost, solver.best_objective_bound, solver.wall_time)
