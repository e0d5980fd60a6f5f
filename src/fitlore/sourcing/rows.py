"""The problem as integer columns and rows: exact, in plain lists, with the rows that were measured to matter.

Columns (all integer): `z` an option is taken, `f` units of an offer for a want, `x` packs of an offer, `y` a supplier is
used, `m` one of their ways, `t` a journey is made, `g` a shared work is done. Each carries its `Line` for one unit, so
the cost, the cash, the hands and every limit are sums over the same columns.

Rows beyond the plain ones: units against the option where stock is short (without them half of each of two options is
mixed to use scarce cheap parts twice), units against packs with the rounding of whole packs, units against the
supplier per need and not only per supplier. Flows are not split by tariff mode: tighter, and measured three to ten times
slower.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from functools import reduce as fold
from math import gcd

from fitlore.sourcing.columns import Column, Key, Model, Row, Unit, weights
from fitlore.sourcing.lines import (
    joining_line,
    mode_line,
    option_line,
    pack_line,
    shared_line,
    trip_line,
    unit_line,
)
from fitlore.sourcing.problem import MINUTE, Offer, Option, Problem, SharedWork, Supplier
from fitlore.sourcing.reach import asked_spend, counted, reach
from fitlore.sourcing.reduce import Owner, sources_of

__all__ = ["Column", "Key", "Model", "Row", "Unit", "build", "weights"]


def build(problem: Problem) -> Model:
    """Columns and rows of a problem that is sorted and holds only what is possible (`reduce.ordered`, `possible`)."""
    return _Builder(problem).model


class _Builder:
    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.model = Model([], [], {}, [])
        self.sources = sources_of(problem)
        self.reach = reach(problem, self.sources)
        self.of_supplier: dict[str, list[Offer]] = defaultdict(list)
        for offer in problem.offers:
            self.of_supplier[offer.supplier].append(offer)
        self._choices()
        self._buying()
        self._units()
        self._wants()
        self._packs()
        self._sellers()
        self._rules()
        self._limits()

    def _column(self, column: Column) -> int:
        number = len(self.model.columns)
        self.model.columns.append(column)
        self.model.index[column.key] = number
        return number

    def _row(self, low: int | None, high: int | None, entries: Iterable[tuple[int, int]]) -> None:
        self.model.rows.append(Row(low, high, tuple(entries)))

    def _at(self, *key: str) -> int:
        return self.model.index[key]

    def _choices(self) -> None:
        worth = self.problem.hour_worth
        asked = set(self.problem.limits.with_options)
        of_need: dict[str, list[Option]] = defaultdict(list)
        for option in self.problem.options:
            of_need[option.need].append(option)
            forced = int(option.id in asked)
            self._column(Column(("z", option.id), 1, option_line(option, worth), lower=forced))
        for work in self.problem.shared:
            self._column(Column(("g", work.id), 1, shared_line(work, worth)))
        for need in self.problem.needs:
            entries = [(self._at("z", option.id), 1) for option in of_need[need.id]]
            self._row(1 if need.must else None, 1, entries)
            for work in self.problem.shared:
                wanting = [(self._at("z", row.id), 1) for row in of_need[need.id] if work.id in row.shared]
                if wanting:
                    self._row(None, 0, [*wanting, (self._at("g", work.id), -1)])

    def _buying(self) -> None:
        worth = self.problem.hour_worth
        asked = set(self.problem.limits.with_offers)
        for offer in self.problem.offers:
            forced = int(offer.id in asked)
            upper = max(self.reach[offer.id].most, forced)
            line = pack_line(offer, worth)
            self._column(Column(("x", offer.id), upper, line, lower=forced, days=offer.days))

    def _units(self) -> None:
        rows: list[tuple[Option | SharedWork, Owner, str]] = [
            (row, (row.id, False), row.need) for row in self.problem.options
        ]
        rows += [(row, (row.id, True), "") for row in self.problem.shared]
        for row, owner, need in rows:
            for number, want in enumerate(row.wants):
                for source in self.sources[owner, number]:
                    offer = source.offer
                    upper = min(want.amount, source.units * self.reach[offer.id].most)
                    line = unit_line(offer.works, want.fits, offer.otherwise, self.problem.hour_worth)
                    key = ("f", "g" if owner[1] else "z", owner[0], str(number), source.item, offer.id)
                    column = self._column(Column(key, upper, line))
                    unit = Unit(owner, need, number, want.amount, source, column)
                    self.model.units.append(unit)

    def _taken(self, owner: Owner) -> int:
        return self._at("g" if owner[1] else "z", owner[0])

    def _wants(self) -> None:
        """Every want is served in full; and where stock is short, no more than the stock per option."""
        of_want: dict[tuple[Owner, int], list[Unit]] = defaultdict(list)
        for unit in self.model.units:
            of_want[unit.owner, unit.want].append(unit)
        for (owner, _), units in of_want.items():
            taken = self._taken(owner)
            self._row(0, 0, [*((unit.column, 1) for unit in units), (taken, -units[0].amount)])
            for unit in units:
                upper = self.model.columns[unit.column].upper
                if upper < unit.amount:
                    self._row(None, 0, [(unit.column, 1), (taken, -upper)])
        partners = {row.left: row.right for row in self.problem.pairs}
        for (owner, number), units in of_want.items():
            partner = partners.get(owner[0])
            if owner[1] or partner is None:
                continue
            others = {
                (unit.source.offer.id, unit.source.item): unit
                for unit in of_want.get(((partner, False), number), [])
            }
            for unit in units:
                other = others.get((unit.source.offer.id, unit.source.item))
                stock = unit.source.units * self.reach[unit.source.offer.id].most
                if other is not None and stock < unit.amount + other.amount:
                    self._row(None, 0, [(unit.column, 1), (other.column, 1), (self._taken(owner), -stock)])

    def _packs(self) -> None:
        """Units come out of packs (of single ones just so many); a need's units also against whole packs (rounded)."""
        of_item: dict[tuple[str, str], list[Unit]] = defaultdict(list)
        for unit in self.model.units:
            of_item[unit.source.offer.id, unit.source.item].append(unit)
        for (offer, _), units in of_item.items():
            packs = self._at("x", offer)
            size = units[0].source.units
            exact = size == len(units[0].source.offer.brings) == 1 and not self.reach[offer].surplus
            self._row(0 if exact else None, 0, [*((unit.column, 1) for unit in units), (packs, -size)])
            for group, amount in _alike(units):
                whole, rest = divmod(amount, size)
                if rest:
                    entries = [(unit.column, 1) for unit in group]
                    self._row(None, whole * (size - rest), [*entries, (packs, -rest)])

    def _sellers(self) -> None:
        for supplier in self.problem.suppliers:
            counted_in = int(not supplier.own)
            used = self._column(Column(("y", supplier.id), 1, joining_line(supplier), sellers=counted_in))
            for offer in self.of_supplier[supplier.id]:
                packs = self._at("x", offer.id)
                self._row(None, 0, [(packs, 1), (used, -self.model.columns[packs].upper)])
            if supplier.modes or supplier.trips:
                self._ways(supplier, used)
        grouped: dict[tuple[str, str, str, int, int], list[Unit]] = defaultdict(list)
        for unit in self.model.units:
            group = unit.need or f"\0{unit.owner[0]}"
            grouped[unit.source.offer.supplier, group, unit.need, unit.want, unit.amount].append(unit)
        for (seller, _, _, _, amount), units in grouped.items():
            entries = [(unit.column, 1) for unit in units]
            self._row(None, 0, [*entries, (self._at("y", seller), -amount)])

    def _ways(self, supplier: Supplier, used: int) -> None:
        offers = self.of_supplier[supplier.id]
        packs = [(self._at("x", offer.id), offer) for offer in offers]
        most = sum(counted(offer) * self.model.columns[number].upper for number, offer in packs)
        modes = [mode for mode in supplier.modes if asked_spend(mode) <= most]
        ways: list[tuple[int, int]] = []
        for mode in modes:
            ways.append((self._column(Column(("m", supplier.id, mode.id), 1, mode_line(mode))), 1))
        least = [(number, -asked_spend(mode)) for (number, _), mode in zip(ways, modes, strict=True)]
        heaviest = sum(offer.weight * self.model.columns[number].upper for number, offer in packs)
        bounds = [heaviest if mode.most_weight is None else min(mode.most_weight, heaviest) for mode in modes]
        weights = [(number, -bound) for (number, _), bound in zip(ways, bounds, strict=True)]
        for name in supplier.trips:
            journey = self._trip(name)
            way = self._column(Column(("m", supplier.id, "", name), 1))
            self._row(None, 0, [(way, 1), (journey, -1)])
            ways.append((way, 1))
            weights.append((way, -heaviest))
        self._row(0, 0, [*ways, (used, -1)])
        if any(bound for _, bound in least):
            self._row(0, None, [*((number, counted(offer)) for number, offer in packs), *least])
        if any(bound < heaviest for bound in bounds):
            self._row(None, 0, [*((number, offer.weight) for number, offer in packs), *weights])

    def _trip(self, name: str) -> int:
        known = self.model.index.get(("t", name))
        if known is not None:
            return known
        trip = next(row for row in self.problem.trips if row.id == name)
        return self._column(Column(("t", name), 1, trip_line(trip, self.problem.hour_worth)))

    def _rules(self) -> None:
        problem = self.problem
        for row in problem.companions:
            others = [self.model.index.get(("z", name)) for name in row.one_of]
            beside = [(number, -1) for number in dict.fromkeys(others) if number is not None]
            option = self._at("z", row.option)
            if option not in {number for number, _ in beside}:
                self._row(None, 0, [(option, 1), *beside])
        for apart in problem.never:
            if apart.one == apart.other:
                self._row(None, 0, [(self._at("z", apart.one), 1)])
            else:
                self._row(None, 1, [(self._at("z", apart.one), 1), (self._at("z", apart.other), 1)])
        for pair in problem.pairs:
            if pair.left != pair.right:
                self._row(0, 0, [(self._at("z", pair.left), 1), (self._at("z", pair.right), -1)])
        for pool in problem.pools:
            takers = [
                (self._at(letter, row.id), take.amount)
                for letter, rows in (("z", problem.options), ("x", problem.offers))
                for row in rows
                for take in row.takes
                if take.pool == pool.id
            ]
            self._row(None, pool.amount, _summed(takers))

    def _limits(self) -> None:
        limits = self.problem.limits
        for high, aim in (
            (limits.cash, "cash"),
            (limits.minutes, "hands"),
            (limits.worst_cash, "worst cash"),
            (limits.worst_minutes, "worst hands"),
            (limits.suppliers, "suppliers"),
        ):
            if high is None:
                continue
            bound = high * MINUTE if aim.endswith("hands") else high
            entries = [(number, value) for number, value in enumerate(weights(self.model, aim)) if value]
            common = fold(gcd, (value for _, value in entries), 0) or 1
            self._row(None, bound // common, [(number, value // common) for number, value in entries])


def _alike(units: list[Unit]) -> list[tuple[list[Unit], int]]:
    """Units of one offer and item by need (or shared work) with the most that it can want of them."""
    wants: dict[str, dict[Owner, int]] = defaultdict(lambda: defaultdict(int))
    members: dict[str, list[Unit]] = defaultdict(list)
    for unit in units:
        group = unit.need or f"\0{unit.owner[0]}"
        wants[group][unit.owner] += unit.amount
        members[group].append(unit)
    return [(members[group], max(amounts.values())) for group, amounts in wants.items()]


def _summed(entries: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    sums: dict[int, int] = defaultdict(int)
    for number, value in entries:
        sums[number] += value
    return list(sums.items())
