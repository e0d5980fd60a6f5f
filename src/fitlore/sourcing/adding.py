"""Adds a plan up again, line by line in `Decimal`, from the books alone; for the audit, apart from the solver's sums."""

from __future__ import annotations

from collections import defaultdict
from decimal import ROUND_HALF_UP, Decimal

from fitlore.sourcing.problem import (
    CERTAIN,
    MINUTE,
    Offer,
    Option,
    Otherwise,
    Problem,
    SharedWork,
    Solution,
    Totals,
)


def add_up(problem: Problem, solution: Solution) -> Totals:
    """The totals of a plan whose ids are all known. Fees of unknown modes count nothing (the audit names them)."""
    return _Adding(problem, solution).whole()


class _Adding:
    def __init__(self, problem: Problem, solution: Solution) -> None:
        self.solution = solution
        self.hour_worth = Decimal(problem.hour_worth)
        self.options = {row.id: row for row in problem.options}
        self.offers = {row.id: row for row in problem.offers}
        self.works = {row.id: row for row in problem.shared}
        self.trips = {row.id: row for row in problem.trips}
        self.modes = {(row.id, mode.id): mode for row in problem.suppliers for mode in row.modes}
        self.joining = {row.id: row.joining for row in problem.suppliers}
        self.own = {row.id for row in problem.suppliers if row.own}
        self.sums: dict[str, Decimal] = defaultdict(Decimal)

    def whole(self) -> Totals:
        plan = self.solution
        for row in plan.chosen:
            option = self.options[row.option]
            fails = 1 - Decimal(option.succeeds) / CERTAIN
            self._work(option.money, option.minutes + fails * option.otherwise.minutes, 1)
            self._failing(fails, option.otherwise, fails * option.otherwise.minutes, 1)
            self.sums["adds"] += option.adds
        for name in plan.shared:
            self._work(self.works[name].money, Decimal(self.works[name].minutes), 1)
        for order in plan.bought:
            self._packs(self.offers[order.offer], order.packs)
        for use in plan.assigned:
            owner: Option | SharedWork = self.works[use.owner] if use.shared else self.options[use.owner]
            offer = self.offers[use.offer]
            right = Decimal(offer.works) / CERTAIN * Decimal(owner.wants[use.want].fits) / CERTAIN
            minutes = _rounded((1 - right) * offer.otherwise.minutes * MINUTE) / MINUTE
            self._work(0, minutes, use.units)
            self._failing(1 - right, offer.otherwise, minutes, use.units)
        for name in {row.supplier for row in plan.bought}:
            self.sums["carriage"] += self.joining[name]
        for way in plan.ways:
            mode = self.modes.get((way.supplier, way.mode))
            if mode is not None:
                self.sums["carriage"] += mode.fee
                self.sums["back"] += mode.back
        for name in plan.trips:
            self.sums["trips"] += self.trips[name].money
            self._work(0, Decimal(self.trips[name].minutes), 1)
        return self._totals()

    def _work(self, money: int, minutes: Decimal, times: int) -> None:
        self.sums["materials"] += money * times
        self.sums["hands"] += minutes * MINUTE * times
        self.sums["hands_worth"] += _rounded(minutes * self.hour_worth / 60) * times

    def _failing(self, chance: Decimal, otherwise: Otherwise, counted: Decimal, times: int) -> None:
        self.sums["failures"] += _rounded(chance * otherwise.money) * times
        if chance:
            self.sums["worst money"] += otherwise.money * times
            self.sums["worst minutes"] += (otherwise.minutes - counted) * times

    def _packs(self, offer: Offer, packs: int) -> None:
        lost = (1 - Decimal(offer.returned) / CERTAIN) * offer.surcharge
        self.sums["goods"] += packs * offer.price
        self.sums["surcharges"] += packs * offer.surcharge
        self.sums["surcharges_lost"] += packs * _rounded(lost)
        self.sums["later"] += packs * offer.later
        self.sums["back"] += packs * offer.back
        self._work(0, Decimal(offer.minutes), packs)

    def _totals(self) -> Totals:
        sums = self.sums
        paid = sums["goods"] + sums["carriage"] + sums["trips"] + sums["materials"]
        end = paid + sums["surcharges_lost"] + sums["later"] + sums["failures"] - sums["back"]
        cash = paid + sums["surcharges"]
        bought = self.solution.bought
        derived = {
            "money_end": end,
            "cost": end + sums["hands_worth"] - sums["adds"],
            "cash_now": cash,
            "worst_cash": cash + sums["later"] + sums["worst money"],
            "worst_hands": sums["hands"] + sums["worst minutes"] * MINUTE,
            "packs": Decimal(sum(row.packs for row in bought)),
            "suppliers": Decimal(len({row.supplier for row in bought} - self.own)),
            "last_day": Decimal(max((self.offers[row.offer].days for row in bought), default=0)),
        }
        values = {name: derived.get(name, sums[name]) for name in Totals.__struct_fields__}
        return Totals(**{name: int(value) for name, value in values.items()})


def _rounded(value: Decimal) -> Decimal:
    return value.quantize(Decimal(1), rounding=ROUND_HALF_UP)
