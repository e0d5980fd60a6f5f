"""A job as the plainest whole-number model there is, for solvers to be compared on: no tightening, nothing left out.

One big number per supplier links what is bought to whether they are used; packs are a column for every offer. The lines'
figures are those of `tests/sourcing/core/by_hand`.
"""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from fitlore.sourcing.problem import Offer, Problem, Supplier
from tests.sourcing.core.by_hand import counts, option_sum, pack_sum, unit_sum, work_sum

MOST = 40
INFINITE = float("inf")


class Plain(NamedTuple):
    """Make ``cost · x`` least over whole x between 0 and `upper` with ``low ≤ row · x ≤ high``."""

    cost: list[float]
    upper: list[float]
    rows: list[tuple[float, float, dict[int, float]]]


class _Writer:
    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.plain = Plain([], [], [])
        worth = problem.hour_worth
        self.taken = {row.id: self.column(option_sum(row, worth).cost, 1) for row in problem.options}
        self.done = {row.id: self.column(work_sum(row, worth).cost, 1) for row in problem.shared}
        self.made = {row.id: self.column(work_sum(row, worth).cost, 1) for row in problem.trips}
        self.packs = {row.id: self.column(pack_sum(row, worth).cost, _most(row)) for row in problem.offers}
        self._choices()
        self._wants()
        for supplier in problem.suppliers:
            self._basket(supplier)

    def column(self, cost: float, upper: float) -> int:
        self.plain.cost.append(cost)
        self.plain.upper.append(upper)
        return len(self.plain.cost) - 1

    def row(self, low: float, high: float, entries: dict[int, float]) -> None:
        self.plain.rows.append((low, high, entries))

    def _choices(self) -> None:
        for need in self.problem.needs:
            of_need = {self.taken[o.id]: 1.0 for o in self.problem.options if o.need == need.id}
            self.row(1 if need.must else 0, 1, of_need)
        for option in self.problem.options:
            for work in option.shared:
                self.row(-INFINITE, 0, {self.taken[option.id]: 1, self.done[work]: -1})
        for pair in self.problem.pairs:
            self.row(0, 0, {self.taken[pair.left]: 1, self.taken[pair.right]: -1})

    def _wants(self) -> None:
        carried: dict[str, list[tuple[Offer, int]]] = defaultdict(list)
        for offer in self.problem.offers:
            for bring in offer.brings:
                carried[bring.item].append((offer, bring.units))
        drawn: dict[tuple[str, str], list[int]] = defaultdict(list)
        rows = [(row.wants, self.taken[row.id]) for row in self.problem.options]
        rows += [(row.wants, self.done[row.id]) for row in self.problem.shared]
        for wants, chosen in rows:
            for want in wants:
                units = {}
                for item in want.items:
                    for offer, _ in carried[item]:
                        cost = unit_sum(offer, want, self.problem.hour_worth).cost
                        unit = self.column(cost, want.amount)
                        drawn[offer.id, item].append(unit)
                        units[unit] = 1.0
                self.row(0, 0, {**units, chosen: -want.amount})
        for item, rows_of in carried.items():
            for offer, size in rows_of:
                self.row(
                    -INFINITE, 0, {**dict.fromkeys(drawn[offer.id, item], 1.0), self.packs[offer.id]: -size}
                )

    def _basket(self, supplier: Supplier) -> None:
        rows = [row for row in self.problem.offers if row.supplier == supplier.id]
        if not rows:
            return
        used = self.column(0, 1)
        every = sum(_most(row) for row in rows)
        self.row(-INFINITE, 0, {**{self.packs[row.id]: 1.0 for row in rows}, used: -every})
        ways: dict[int, float] = {}
        for mode in supplier.modes:
            way = self.column(mode.fee, 1)
            ways[way] = 1.0
            least = max(mode.least_spend, mode.minimum)
            if least:
                spend = {self.packs[row.id]: float(counts(row)) for row in rows}
                self.row(0, INFINITE, {**spend, way: -least})
            if mode.most_weight is not None:
                heaviest = sum(row.weight * _most(row) for row in rows)
                weight = {self.packs[row.id]: float(row.weight) for row in rows}
                self.row(-INFINITE, heaviest, {**weight, way: heaviest - mode.most_weight})
        for trip in supplier.trips:
            way = self.column(0, 1)
            ways[way] = 1.0
            self.row(-INFINITE, 0, {way: 1, self.made[trip]: -1})
        if ways:
            self.row(0, 0, {**ways, used: -1})


def plain(problem: Problem) -> Plain:
    """The model. Of a job's limits, companions, pools and forbidden pairs it knows nothing: the jobs timed have none."""
    return _Writer(problem).plain


def _most(offer: Offer) -> int:
    return min([MOST, *(bound for bound in (offer.stock, offer.most) if bound is not None)])
