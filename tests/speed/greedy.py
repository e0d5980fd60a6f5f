"""What somebody does who goes down the list: each need in turn, by what it adds to the bill at that moment.

Dearest need first; every unit from the offer that is cheapest now, carriage and journeys counted by what they grow; packs
for one need only, kits not looked at. A basket below its supplier's minimum is sent to nobody: such a plan is told apart.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from typing import NamedTuple

from fitlore.sourcing.problem import Offer, Option, Problem, Supplier
from tests.sourcing.core.by_hand import earned, option_sum, pack_sum, unit_sum, work_sum


class Greedy(NamedTuple):
    """Cost in coins, and whether a basket is below its supplier's minimum or too heavy for every way."""

    cost: int
    broken: bool


class _State(NamedTuple):
    packs: Counter[str]
    spend: Counter[str]
    weight: Counter[str]
    units: Counter[tuple[str, str]]
    """Units still over of packs that were bought, by offer and item."""
    trips: frozenset[str]
    works: frozenset[str]


class _Walker:
    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.worth = problem.hour_worth
        self.suppliers = {row.id: row for row in problem.suppliers}
        self.trips = {row.id: work_sum(row, self.worth).cost for row in problem.trips}
        self.works = {row.id: work_sum(row, self.worth).cost for row in problem.shared}
        self.of_item: dict[str, list[tuple[Offer, int]]] = defaultdict(list)
        for offer in problem.offers:
            if len(offer.brings) == 1:
                self.of_item[offer.brings[0].item].append((offer, offer.brings[0].units))
        self.price = {row.id: pack_sum(row, self.worth).cost for row in problem.offers}

    def walk(self) -> Greedy:
        """All needs; pairs are taken together with their first side."""
        state = _State(Counter(), Counter(), Counter(), Counter(), frozenset(), frozenset())
        partner = {row.left: row.right for row in self.problem.pairs}
        by_id = {row.id: row for row in self.problem.options}
        right = {by_id[name].need for name in partner.values()}
        total = 0
        needs = [need for need in self.problem.needs if need.id not in right]
        for need in sorted(needs, key=lambda row: -self._least(row.id)):
            found: list[tuple[int, int, _State]] = []
            for number, option in enumerate(self.problem.options):
                if option.need == need.id:
                    both = [option, by_id[partner[option.id]]] if option.id in partner else [option]
                    tried = self._take(both, state)
                    if tried is not None:
                        found.append((tried[0], number, tried[1]))
            if found:
                cost, _, after = min(found, key=lambda row: row[:2])
                if need.must or cost < 0:
                    total, state = total + cost, after
        return Greedy(total, any(self._fee(row, state)[1] for row in self.problem.suppliers))

    def _least(self, need: str) -> int:
        prices = [
            self.price[offer.id]
            for option in self.problem.options
            if option.need == need and option.wants
            for offer, _ in self.of_item[option.wants[0].items[0]]
        ]
        return min(prices, default=0)

    def _take(self, options: list[Option], state: _State) -> tuple[int, _State] | None:
        cost = 0
        for option in options:
            cost += option_sum(option, self.worth).cost
            cost += sum(self.works[name] for name in set(option.shared) - state.works)
            state = state._replace(works=state.works | set(option.shared))
            for want in option.wants:
                for _ in range(want.amount):
                    found = [
                        (more + unit_sum(offer, want, self.worth).cost, offer.id, after)
                        for item in want.items
                        for offer, size in self.of_item[item]
                        for more, after in self._unit(offer, item, size, state)
                    ]
                    if not found:
                        return None
                    more, _, state = min(found, key=lambda row: row[:2])
                    cost += more
        return cost, state

    def _unit(self, offer: Offer, item: str, size: int, state: _State) -> list[tuple[int, _State]]:
        if state.units[offer.id, item]:
            left = state.units.copy()
            left[offer.id, item] -= 1
            return [(0, state._replace(units=left))]
        bounds = [bound for bound in (offer.stock, offer.most) if bound is not None]
        if bounds and state.packs[offer.id] >= min(bounds):
            return []
        supplier = self.suppliers[offer.supplier]
        before, _, _ = self._fee(supplier, state)
        after = _State(
            state.packs + Counter([offer.id]),
            state.spend + Counter({supplier.id: offer.price}),
            state.weight + Counter({supplier.id: offer.weight}),
            state.units + Counter({(offer.id, item): size - 1}),
            state.trips,
            state.works,
        )
        fee, _, trip = self._fee(supplier, after)
        if trip:
            after = after._replace(trips=after.trips | {trip})
        return [(self.price[offer.id] + fee - before, after)]

    def _fee(self, supplier: Supplier, state: _State) -> tuple[int, bool, str]:
        """What carriage of the basket costs now, whether no way would take it, and the journey if one is made."""
        if not state.spend[supplier.id] or not (supplier.modes or supplier.trips):
            return 0, False, ""
        if any(trip in state.trips for trip in supplier.trips):
            return 0, False, ""
        spend, weight = state.spend[supplier.id], state.weight[supplier.id]
        ways = [(mode.fee, False, "") for mode in supplier.modes if earned(mode, spend, weight)]
        ways += [(self.trips[name], False, name) for name in supplier.trips]
        if ways:
            return min(ways)
        return max(mode.fee for mode in supplier.modes), True, ""


def greedy(problem: Problem) -> Greedy:
    """The plan's cost. Knows no limits, companions or pools: the jobs timed have none."""
    return _Walker(problem).walk()
