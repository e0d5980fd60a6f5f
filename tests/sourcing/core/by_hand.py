"""The cheapest plan of a tiny job by trying everything: no solver, its own tariffs, roundings and sums.

The only thing not tried is a surplus pack in a basket that is already worth the most any of its supplier's modes asks
for: unless a pack earns money by itself, it only costs.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from math import floor
from typing import NamedTuple

from fitlore.sourcing.problem import Mode, Offer, Option, Otherwise, Problem, SharedWork, Supplier, Trip, Want


class Best(NamedTuple):
    """Least cost; then, of the cheapest plans, fewest suppliers; then least waiting (days summed over packs)."""

    cost: int
    suppliers: int
    waiting: int


class Sum(NamedTuple):
    """What one line adds: cost at the end, cash now, minutes / 10 000, and the last two at the worst."""

    cost: int = 0
    cash: int = 0
    minutes: int = 0
    worst_cash: int = 0
    worst_minutes: int = 0


def _penny(value: Fraction) -> int:
    return floor(value + Fraction(1, 2))


def _line(
    worth: int, cost: int, cash: int, minutes: Fraction, more_cash: int = 0, worst_minutes: int | None = None
) -> Sum:
    labour = _penny(minutes * worth / 60)
    parts = int(minutes * 10_000)
    assert parts == minutes * 10_000
    worst = parts if worst_minutes is None else worst_minutes * 10_000
    return Sum(cost + labour, cash, parts, cash + more_cash, worst)


def _plus(rows: list[Sum]) -> Sum:
    return Sum(*map(sum, zip(*rows, strict=True))) if rows else Sum()


def _times(count: int, row: Sum) -> Sum:
    return Sum(*(count * value for value in row))


def _chance(value: int) -> Fraction:
    return Fraction(value, 10_000)


def _fails(chance: Fraction, otherwise: Otherwise) -> tuple[int, Fraction, int, int]:
    bad = 1 - chance
    if not bad:
        return 0, Fraction(0), 0, 0
    return _penny(bad * otherwise.money), bad * otherwise.minutes, otherwise.money, otherwise.minutes


def option_sum(option: Option, worth: int) -> Sum:
    """Taking an option."""
    money, minutes, worst, worst_minutes = _fails(_chance(option.succeeds), option.otherwise)
    cost = option.money + money - option.adds
    return _line(worth, cost, option.money, option.minutes + minutes, worst, option.minutes + worst_minutes)


def pack_sum(offer: Offer, worth: int) -> Sum:
    """Buying one pack."""
    lost = _penny((1 - _chance(offer.returned)) * offer.surcharge)
    cost = offer.price + lost + offer.later - offer.back
    return _line(worth, cost, offer.price + offer.surcharge, Fraction(offer.minutes), offer.later)


def unit_sum(offer: Offer, want: Want, worth: int) -> Sum:
    """Using one unit for a want."""
    right = _chance(offer.works) * _chance(want.fits)
    money, minutes, worst, worst_minutes = _fails(right, offer.otherwise)
    exact = Fraction(floor(minutes * 10_000 + Fraction(1, 2)), 10_000)
    return _line(worth, money, 0, exact, worst, worst_minutes)


def work_sum(row: SharedWork | Trip, worth: int) -> Sum:
    """Doing a shared work, or making a journey."""
    return _line(worth, row.money, row.money, Fraction(row.minutes))


def cheapest(problem: Problem) -> Best | None:
    """The best plan, or None if there is none."""
    found: Best | None = None
    for options in _choices(problem):
        for best in _plans(problem, options):
            if found is None or best < found:
                found = best
    return found


def _choices(problem: Problem) -> Iterator[tuple[Option, ...]]:
    """Every allowed set of options."""
    limits = problem.limits
    of_need: list[list[Option | None]] = []
    for need in problem.needs:
        rows: list[Option | None] = [
            row for row in problem.options if row.need == need.id and row.id not in limits.without_options
        ]
        of_need.append(rows if need.must else [None, *rows])
    for taken in product(*of_need):
        options = tuple(row for row in taken if row is not None)
        if any(day is not None and day < 0 for day in (until(problem, row) for row in options)):
            continue
        names = {row.id for row in options}
        if (
            all(row.option not in names or names & set(row.one_of) for row in problem.companions)
            and all(not (row.one in names and row.other in names) for row in problem.never)
            and all((row.left in names) == (row.right in names) for row in problem.pairs)
            and names.issuperset(limits.with_options)
        ):
            yield options


def until(problem: Problem, option: Option) -> int | None:
    """The last day for what an option wants: its need's or the job's, less what a branch after a failure takes."""
    ends = [need.latest for need in problem.needs if need.id == option.need] + [problem.limits.days]
    known = [day for day in ends if day is not None]
    return min(known) - option.ahead if known else None


class _Token(NamedTuple):
    want: Want
    sources: list[tuple[Offer, str]]


def _tokens(problem: Problem, options: tuple[Option, ...], works: list[SharedWork]) -> list[_Token]:
    limits = problem.limits
    tokens = []
    owners: list[tuple[tuple[Want, ...], str, tuple[int | None, ...]]] = [
        (row.wants, row.need, (until(problem, row),)) for row in options
    ]
    owners += [(row.wants, "", (row.latest,)) for row in works]
    for wants, need, ends in owners:
        for want in wants:
            sources = []
            for offer in problem.offers:
                late = any(last is not None and offer.days > last for last in (*ends, limits.days))
                out = offer.id in limits.without_offers or offer.supplier in limits.without_suppliers
                banned = any(row.need == need and row.offer == offer.id for row in limits.banned)
                if not (late or out or banned):
                    items = {bring.item for bring in offer.brings}
                    sources += [(offer, item) for item in want.items if item in items]
            tokens.append(_Token(want, sources))
    return tokens


def _shares(amount: int, places: int) -> Iterator[tuple[int, ...]]:
    """Every way to share an amount out over some places."""
    if places == 0:
        if amount == 0:
            yield ()
        return
    for first in range(amount + 1):
        for rest in _shares(amount - first, places - 1):
            yield first, *rest


def _plans(problem: Problem, options: tuple[Option, ...]) -> Iterator[Best]:
    worth, limits = problem.hour_worth, problem.limits
    names = {name for row in options for name in row.shared}
    works = [row for row in problem.shared if row.id in names]
    fixed = [option_sum(row, worth) for row in options]
    fixed += [work_sum(row, worth) for row in works]
    base = _plus(fixed)
    if not _within(problem, base):
        return
    pools = Counter[str]()
    for option in options:
        for take in option.takes:
            pools[take.pool] += take.amount
    tokens = _tokens(problem, options, works)
    offers = {row.id: row for row in problem.offers}
    risk = {
        (id(token), row.id): unit_sum(row, token.want, worth) for token in tokens for row, _ in token.sources
    }
    price = {row.id: pack_sum(row, worth) for row in problem.offers}
    drawn: set[tuple[frozenset[tuple[tuple[str, str], int]], Sum]] = {(frozenset(), Sum())}
    for token in tokens:
        shares = list(_shares(token.want.amount, len(token.sources)))
        further = set()
        for taken, risks in drawn:
            for share in shares:
                units = Counter(dict(taken))
                sums = [risks]
                for (offer, item), count in zip(token.sources, share, strict=True):
                    if count:
                        units[offer.id, item] += count
                        sums.append(_times(count, risk[id(token), offer.id]))
                further.add((frozenset(units.items()), _plus(sums)))
        drawn = further
    seen = set()
    for taken, risks in drawn:
        packs = dict.fromkeys(limits.with_offers, 1)
        for (name, item), count in taken:
            size = next(bring.units for bring in offers[name].brings if bring.item == item)
            packs[name] = max(packs.get(name, 0), -(-count // size))
        key = (frozenset(packs.items()), risks)
        if key not in seen:
            seen.add(key)
            yield from _bought(problem, _plus([base, risks]), packs, pools, price)


def _bought(
    problem: Problem, base: Sum, packs: dict[str, int], pools: Counter[str], price: dict[str, Sum]
) -> Iterator[Best]:
    """Every way to order at least these packs and to get them home."""
    limits, worth = problem.limits, problem.hour_worth
    offers = {row.id: row for row in problem.offers}
    baskets = [list(_baskets(problem, supplier, packs, price)) for supplier in problem.suppliers]
    for chosen in product(*baskets):
        order = {name: count for basket in chosen for name, count in basket.items()}
        used = Counter(pools)
        for name, count in order.items():
            for take in offers[name].takes:
                used[take.pool] += take.amount * count
        if any(used[pool.id] > pool.amount for pool in problem.pools):
            continue
        own = {row.id for row in problem.suppliers if row.own}
        sellers = {offers[name].supplier for name in order} - own
        if limits.suppliers is not None and len(sellers) > limits.suppliers:
            continue
        waiting = sum(offers[name].days * count for name, count in order.items())
        goods = _plus([base, *(_times(count, price[name]) for name, count in order.items())])
        if not _within(problem, goods):
            continue
        for fees, back, trips in _home(problem, order):
            legs = [work_sum(row, worth) for row in problem.trips if row.id in trips]
            total = _plus([goods, Sum(fees - back, fees, 0, fees, 0), *legs])
            if _within(problem, total):
                yield Best(total.cost, len(sellers), waiting)


def _within(problem: Problem, total: Sum) -> bool:
    limits = problem.limits
    pairs = (
        (total.cash, limits.cash, 1),
        (total.minutes, limits.minutes, 10_000),
        (total.worst_cash, limits.worst_cash, 1),
        (total.worst_minutes, limits.worst_minutes, 10_000),
    )
    return all(bound is None or value <= bound * unit for value, bound, unit in pairs)


def counts(offer: Offer) -> int:
    """What a pack counts towards its supplier's limits."""
    return offer.price if offer.counts is None else offer.counts


def _baskets(
    problem: Problem, supplier: Supplier, packs: dict[str, int], price: dict[str, Sum]
) -> Iterator[dict[str, int]]:
    """The packs needed of one supplier, with every surplus that could lift the basket over a limit or earn money."""
    limits = problem.limits
    rows = [row for row in problem.offers if row.supplier == supplier.id]
    needed = {row.id: packs[row.id] for row in rows if packs.get(row.id)}
    out = set(limits.without_offers) | {
        row.id for row in rows if limits.days is not None and row.days > limits.days
    }
    if supplier.id in limits.without_suppliers:
        out |= {row.id for row in rows}
    most = {
        row.id: 0 if row.id in out else min([99, *(b for b in (row.stock, row.most) if b is not None)])
        for row in rows
    }
    if any(count > most[name] for name, count in needed.items()):
        return
    enough = max((max(mode.least_spend, mode.minimum) for mode in supplier.modes), default=0)

    def more(left: list[Offer], basket: dict[str, int]) -> Iterator[dict[str, int]]:
        if not left:
            yield {name: count for name, count in basket.items() if count}
            return
        offer, *rest = left
        earns = price[offer.id].cost < 0
        for count in range(basket.get(offer.id, 0), most[offer.id] + 1):
            yield from more(rest, {**basket, offer.id: count})
            spend = sum(counts(row) * basket.get(row.id, 0) for row in rows if row.id != offer.id)
            if not earns and (not counts(offer) or spend + counts(offer) * count >= enough):
                break

    yield from more(rows, needed)


def _home(problem: Problem, order: dict[str, int]) -> Iterator[tuple[int, int, frozenset[str]]]:
    """Every way to get the baskets home: the fees, what comes back of them, and the journeys made."""
    ways: list[list[tuple[int, int, str]]] = []
    joining = sum(
        supplier.joining
        for supplier in problem.suppliers
        if any(row.supplier == supplier.id and row.id in order for row in problem.offers)
    )
    for supplier in problem.suppliers:
        basket = [
            (row, order[row.id]) for row in problem.offers if row.supplier == supplier.id and row.id in order
        ]
        if not basket or not (supplier.modes or supplier.trips):
            continue
        spend = sum(counts(row) * count for row, count in basket)
        weight = sum(row.weight * count for row, count in basket)
        fees = [(mode.fee, mode.back, "") for mode in supplier.modes if earned(mode, spend, weight)]
        ways.append([*fees, *((0, 0, name) for name in supplier.trips)])
    for chosen in product(*ways):
        fee, back = joining + sum(row[0] for row in chosen), sum(row[1] for row in chosen)
        yield fee, back, frozenset(trip for _, _, trip in chosen if trip)


def earned(mode: Mode, spend: int, weight: int) -> bool:
    """Whether a basket of that worth and weight goes this way."""
    heavy = mode.most_weight is not None and weight > mode.most_weight
    return spend >= mode.least_spend and spend >= mode.minimum and not heavy
