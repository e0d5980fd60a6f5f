"""The cheapest plan of a job like the green estate by branching over its lines: no solver, its own sums, exact.

First every way to deal with every supplier (not at all, by each mode, by each journey) and every set of kits is fixed.
What is left are lines that touch each other only through the sums of hands, cash and the two baskets with limits. They are
tried in turn; a branch is cut only when what is spent already plus the least that the other lines can cost, add in hands
or in cash is over the best plan or over a limit (a basket that must fall short costs at least what it is short of). A
basket that falls short is filled up with the cheapest packs that do.

It holds for jobs in which every shared work is wanted by some must whichever way it is met, a kit's units are never fewer
than all that is wanted of them, and no unit can prove wrong; `cheapest` refuses others.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product
from typing import NamedTuple

from fitlore.sourcing.problem import CERTAIN, Mode, Offer, Option, Problem, Want

COIN = 600_000
"""Costs are counted in so many parts of a coin and minutes in ten-thousandths, so that nothing is rounded."""


class Line(NamedTuple):
    """Cost with hands valued, in parts of a coin; cash in coins; minutes / 10 000; what it adds to the baskets."""

    cost: int
    cash: int
    minutes: int
    baskets: tuple[int, ...]


class Setting(NamedTuple):
    """One way to deal with all suppliers: their modes where they have any, the kits bought, what baskets must reach."""

    modes: dict[str, Mode | None]
    trips: frozenset[str]
    kits: tuple[Offer, ...]
    asked: tuple[int, ...]


def cheapest(problem: Problem) -> int | None:
    """The least cost in coins (which must come out whole), or None if nothing is possible."""
    best = _Search(problem).run()
    assert best is None or best % COIN == 0
    return None if best is None else best // COIN


class _Search:
    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        limits = problem.limits
        self.offers = [
            row
            for row in problem.offers
            if (limits.days is None or row.days <= limits.days)
            and row.supplier not in limits.without_suppliers
            and row.id not in limits.without_offers
        ]
        self.lifted = [
            row.id for row in problem.suppliers if any(m.least_spend or m.minimum for m in row.modes)
        ]
        self.empty = (0,) * len(self.lifted)
        wanted = {item for row in problem.options + problem.shared for w in row.wants for item in w.items}
        self.kits = [row for row in self.offers if len(wanted & {bring.item for bring in row.brings}) > 1]
        self._refuse_others()
        self.best: int | None = None
        self.fills: dict[str, list[int]] = {}

    def _refuse_others(self) -> None:
        problem = self.problem
        assert problem.companions + problem.never + problem.pairs + problem.pools == ()
        assert all(row.works == CERTAIN and row.counts is None for row in problem.offers)
        assert all(not row.ahead for row in problem.options)
        assert not any(
            row.own or row.joining or any(mode.back for mode in row.modes) for row in problem.suppliers
        )
        wants = [want for row in problem.options + problem.shared for want in row.wants]
        assert all(want.fits == CERTAIN and len(want.items) == 1 for want in wants)
        for work in problem.shared:
            assert any(
                all(work.id in row.shared for row in problem.options if row.need == need.id)
                for need in problem.needs
                if need.must
            )
        owners = [(row.need, row.wants) for row in problem.options] + [
            ("", row.wants) for row in problem.shared
        ]
        for kit in self.kits:
            for bring in kit.brings:
                asked = {
                    (need, w.amount) for need, wants in owners for w in wants if w.items == (bring.item,)
                }
                assert len(asked) <= 1
                assert all(amount <= bring.units for _, amount in asked)

    def run(self) -> int | None:
        known: dict[tuple[frozenset[str], tuple[Offer, ...]], tuple[list[list[Line]], list[Line]]] = {}
        starts: list[tuple[int, int, Setting]] = []
        for number, setting in enumerate(self._settings()):
            goods = frozenset(setting.modes), setting.kits
            if goods not in known:
                lines = sorted(self._lines(setting), key=len)
                known[goods] = lines, _least(lines) if all(lines) else []
            if known[goods][1]:
                starts.append((self._base(setting).cost + known[goods][1][0].cost, number, setting))
        for bound, _, setting in sorted(starts, key=lambda start: start[:2]):
            if self.best is not None and bound >= self.best:
                break
            lines, least = known[frozenset(setting.modes), setting.kits]
            self._branch(setting, self._base(setting), lines, 0, least)
        return self.best

    def _settings(self) -> Iterator[Setting]:
        ways: list[list[tuple[str, Mode | None, str]]] = []
        for supplier in self.problem.suppliers:
            choices: list[tuple[str, Mode | None, str]] = [("", None, "")]
            if any(offer.supplier == supplier.id for offer in self.offers):
                choices += [(supplier.id, mode, "") for mode in supplier.modes]
                choices += [(supplier.id, None, trip) for trip in supplier.trips]
                if not supplier.modes and not supplier.trips:
                    choices.append((supplier.id, None, ""))
            ways.append(choices)
        for chosen in product(*ways):
            modes = {name: mode for name, mode, _ in chosen if name}
            trips = frozenset(trip for _, _, trip in chosen if trip)
            kits = [kit for kit in self.kits if kit.supplier in modes]
            taken = [modes.get(name) for name in self.lifted]
            asked = tuple(max(mode.least_spend, mode.minimum) if mode else 0 for mode in taken)
            for count in range(len(kits) + 1):
                for some in combinations(kits, count):
                    yield Setting(modes, trips, some, asked)

    def _base(self, setting: Setting) -> Line:
        fees = sum(mode.fee for mode in setting.modes.values() if mode)
        journeys = [row for row in self.problem.trips if row.id in setting.trips]
        money = fees + sum(row.money for row in journeys) + sum(row.money for row in self.problem.shared)
        minutes = sum(row.minutes for row in (*journeys, *self.problem.shared)) * CERTAIN
        start = Line(self._cost(money, minutes), money, minutes, self.empty)
        return _sum(start, *(self._packs(kit, 1) for kit in setting.kits))

    def _cost(self, money: int, minutes: int) -> int:
        return money * COIN + minutes * self.problem.hour_worth

    def _packs(self, offer: Offer, count: int) -> Line:
        lost = (CERTAIN - offer.returned) * offer.surcharge * (COIN // CERTAIN)
        cost = lost + self._cost(offer.price + offer.later - offer.back, offer.minutes * CERTAIN)
        baskets = tuple(offer.price * count if offer.supplier == name else 0 for name in self.lifted)
        cash = offer.price + offer.surcharge
        return Line(count * cost, count * cash, count * offer.minutes * CERTAIN, baskets)

    def _lines(self, setting: Setting) -> list[list[Line]]:
        """For every need (and the wants of shared works) every way to meet it in this setting."""
        nothing = Line(0, 0, 0, self.empty)
        lines: list[list[Line]] = []
        for need in self.problem.needs:
            ways = [] if need.must else [nothing]
            for option in self.problem.options:
                if option.need == need.id and option.id not in self.problem.limits.without_options:
                    own = self._work(option)
                    ways += [_sum(own, goods) for goods in self._goods(option.wants, setting)]
            lines.append(_undominated(ways))
        for work in self.problem.shared:
            lines.append(_undominated(list(self._goods(work.wants, setting))))
        return lines

    def _work(self, option: Option) -> Line:
        fails = CERTAIN - option.succeeds
        minutes = option.minutes * CERTAIN + fails * option.otherwise.minutes
        failures = fails * option.otherwise.money * (COIN // CERTAIN)
        cost = failures + self._cost(option.money - option.adds, minutes)
        return Line(cost, option.money, minutes, self.empty)

    def _goods(self, wants: tuple[Want, ...], setting: Setting) -> Iterator[Line]:
        nothing = Line(0, 0, 0, self.empty)
        for chosen in product(*(list(self._served(want, setting)) for want in wants)):
            yield _sum(nothing, *chosen)

    def _served(self, want: Want, setting: Setting) -> Iterator[Line]:
        """Every way to buy one want: out of a kit that is there, or packs of single offers, mixed."""
        nothing = Line(0, 0, 0, self.empty)
        (item,) = want.items
        if any(bring.item == item for kit in setting.kits for bring in kit.brings):
            yield nothing
        singles = [
            (row, next(bring.units for bring in row.brings if bring.item == item))
            for row in self.offers
            if row not in self.kits and row.supplier in setting.modes and item in {b.item for b in row.brings}
        ]
        for counts in product(*(range(-(-want.amount // units) + 1) for _, units in singles)):
            units = sum(count * size for count, (_, size) in zip(counts, singles, strict=True))
            fewest = all(
                units - size < want.amount for count, (_, size) in zip(counts, singles, strict=True) if count
            )
            stock = all(
                bound is None or count <= bound
                for count, (row, _) in zip(counts, singles, strict=True)
                for bound in (row.stock, row.most)
            )
            if units >= want.amount and fewest and stock:
                yield _sum(
                    nothing, *(self._packs(row, c) for c, (row, _) in zip(counts, singles, strict=True) if c)
                )

    def _branch(
        self, setting: Setting, spent: Line, lines: list[list[Line]], done: int, least: list[Line]
    ) -> None:
        limits, rest = self.problem.limits, least[done]
        if limits.minutes is not None and spent.minutes + rest.minutes > limits.minutes * CERTAIN:
            return
        if limits.cash is not None and spent.cash + rest.cash > limits.cash:
            return
        if self.best is not None:
            cost = spent.cost + rest.cost
            for asked, basket, most in zip(setting.asked, spent.baskets, rest.baskets, strict=True):
                cost += max(0, asked - basket - most) * COIN
            if cost >= self.best:
                return
        if done == len(lines):
            self._finish(setting, spent)
            return
        cost, cash, minutes, baskets = spent
        for line in lines[done]:
            sums = tuple([a + b for a, b in zip(baskets, line.baskets, strict=True)])
            further = Line(cost + line.cost, cash + line.cash, minutes + line.minutes, sums)
            self._branch(setting, further, lines, done + 1, least)

    def _finish(self, setting: Setting, spent: Line) -> None:
        cost, cash = spent.cost, spent.cash
        for name, asked, basket in zip(self.lifted, setting.asked, spent.baskets, strict=True):
            short = asked - basket
            if short > 0:
                fill = self._fill(name, short)
                if fill is None:
                    return
                cost, cash = cost + fill * COIN, cash + fill
        if self.problem.limits.cash is not None and cash > self.problem.limits.cash:
            return
        if self.best is None or cost < self.best:
            self.best = cost

    def _fill(self, supplier: str, short: int) -> int | None:
        """The least that packs of plain price come to that lift a basket by so much: never less than it is short."""
        plain = [row for row in self.offers if row.supplier == supplier]
        assert all(not (r.surcharge or r.back or r.minutes or r.stock or r.most or r.later) for r in plain)
        prices = {row.price for row in plain}
        least = self.fills.setdefault(supplier, [0])
        while len(least) <= short:
            least.append(min((price + least[max(0, len(least) - price)] for price in prices), default=10**9))
        return None if least[short] >= 10**9 else least[short]


def _sum(*lines: Line) -> Line:
    baskets = tuple(map(sum, zip(*(line.baskets for line in lines), strict=True)))
    cost, cash = sum(line.cost for line in lines), sum(line.cash for line in lines)
    return Line(cost, cash, sum(line.minutes for line in lines), baskets)


def _least(lines: list[list[Line]]) -> list[Line]:
    """For each depth the least that the lines still to come can add and the most to each basket, each by itself."""
    rest = [Line(0, 0, 0, tuple(0 for _ in lines[0][0].baskets))]
    for ways in reversed(lines):
        last = rest[0]
        rest.insert(
            0,
            Line(
                last.cost + min(line.cost for line in ways),
                last.cash + min(line.cash for line in ways),
                last.minutes + min(line.minutes for line in ways),
                tuple(
                    a + max(b)
                    for a, b in zip(last.baskets, zip(*(w.baskets for w in ways), strict=True), strict=True)
                ),
            ),
        )
    return rest


def _undominated(ways: list[Line]) -> list[Line]:
    """Without ways that are no better in anything than another one; cheapest first."""
    kept: list[Line] = []
    for line in sorted(
        set(ways), key=lambda way: (way.cost, way.cash, way.minutes, [-b for b in way.baskets])
    ):
        if not any(
            other.cost <= line.cost
            and other.cash <= line.cash
            and other.minutes <= line.minutes
            and all(a >= b for a, b in zip(other.baskets, line.baskets, strict=True))
            for other in kept
        ):
            kept.append(line)
    return kept
