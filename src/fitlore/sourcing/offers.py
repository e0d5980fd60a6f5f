"""Offers of the books as offers of a problem: what can be bought for a job, on which terms, and what is left out and why."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, time
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.model.choices import State
from fitlore.model.job import Job
from fitlore.model.numbers import number_key
from fitlore.model.placed import OfferFrom
from fitlore.model.supply import Offer, Supplier
from fitlore.sourcing import problem as p
from fitlore.sourcing.coins import OtherCurrency, chance
from fitlore.sourcing.contents import brought, by_kind, kinds_of
from fitlore.sourcing.inhand import OWN, bought_already, lying_there, worth_of
from fitlore.sourcing.landed import NotKnown, Reckoning
from fitlore.sourcing.opening import waits
from fitlore.sourcing.reach import asked_spend, counted, saving
from fitlore.sourcing.terms import limits_in, suppliers_of
from fitlore.sourcing.untaken import not_taken
from fitlore.sourcing.yard import pools_of, yard_for

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

MOST_FILLERS = 12
"""So many of a supplier's cheapest things are looked at when a basket falls short of his limits, and one of
which there is enough to fill it alone."""


class LeftOut(NamedTuple):
    """An offer that no plan may use, and why."""

    offer: OfferFrom
    code: str
    values: Mapping[str, str]


class Market(NamedTuple):
    """What can be bought for a job, as plain data, and which line of a book each piece is."""

    offers: tuple[p.Offer, ...]
    suppliers: tuple[p.Supplier, ...]
    trips: tuple[p.Trip, ...]
    lines: dict[str, OfferFrom]
    left_out: tuple[LeftOut, ...]
    pools: tuple[p.Pool, ...] = ()
    """Pieces on a donor that can be bought singly and with the whole car."""
    off: Mapping[str, str] = {}
    """Offers at a price by kind, and the donor that the piece stands on."""
    fillers: frozenset[str] = frozenset()
    """Offers that serve nothing; they are there to lift a basket over what its supplier asks for."""


def market_for(
    graph: Graph,
    items: Iterable[str],
    today: date,
    home: str,
    job: Job | None = None,
    *,
    fill: bool = False,
    now: time | None = None,
) -> Market:
    """All offers that bring one of these items, with their suppliers' terms. Offers that nobody can use are left out.

    The shop's stores are among them, and with a `job` what was bought for it already. `fill`: with fillers.
    `now`: the hour it is on the day (see `opening`).
    """
    return _Gathering(graph, today, home, job, now).market(sorted(set(items)), fill=fill)


class _Gathering:
    def __init__(self, graph: Graph, today: date, home: str, job: Job | None, now: time | None) -> None:
        self.graph, self.today, self.home, self.job, self.now = graph, today, home, job, now
        self.at = Reckoning(graph, today)
        self.sellers: dict[str, Supplier | None] = {}
        self.rows: dict[str, p.Offer] = {}
        self.lines: dict[str, OfferFrom] = {}
        self.left_out: list[LeftOut] = []
        self.pools: list[p.Pool] = []
        self.off: dict[str, str] = {}

    def market(self, wanted: list[str], *, fill: bool) -> Market:
        """Everything that brings something wanted, then what fills up."""
        for line in sorted(self._found(wanted), key=lambda o: o.id):
            self._take(line, brought(self.graph, line.offer) | by_kind(self.graph, line.offer, wanted))
        self._yard([i for i in wanted if " " not in i])
        for line in self._in_hand():
            units = brought(self.graph, line.offer) | by_kind(self.graph, line.offer, wanted)
            if not units.keys().isdisjoint(wanted):
                self._take(line, units)
        names = {row.supplier for row in self.rows.values()}
        suppliers, trips = suppliers_of(self.graph, names - OWN, self.at)
        suppliers += tuple(p.Supplier(name, own=True) for name in sorted(names & OWN))
        fillers = frozenset(self._fill(suppliers)) if fill else frozenset()
        known = {s.id for s in suppliers}
        offers = tuple(o for o in self.rows.values() if o.supplier in known)
        return Market(
            offers, suppliers, trips, self.lines, tuple(self.left_out), tuple(self.pools), self.off, fillers
        )

    def _found(self, wanted: list[str]) -> Iterable[OfferFrom]:
        numbers = [i for i in wanted if " " not in i]
        whole = [number_key(part.part) for part in self.graph.containers(numbers)]
        found = {o.id: o for o in self.graph.offers(sorted({*numbers, *whole}))}
        services = [i.partition(" ")[2] for i in wanted if i.startswith("service ")]
        found |= {o.id: o for o in self.graph.services(services)}
        kinds = {k for i in wanted if i.startswith("kind ") for k in self.graph.narrower(i.partition(" ")[2])}
        found |= {o.id: o for o in self.graph.offers_any(sorted(kinds)) if o.offer.any_ in kinds}
        return found.values()

    def _yard(self, numbers: list[str]) -> None:
        """What is sold at a price by kind and stands there."""
        listed: dict[str, set[str]] = {}
        for line in self.lines.values():
            if line.offer.number is not None:
                listed.setdefault(line.supplier, set()).add(number_key(line.offer.number))
        yard = yard_for(self.graph, numbers, listed)
        self.left_out += [
            LeftOut(line, "not-seen-there", {"kind": line.offer.any_ or ""})
            for line in yard.unknown
            if line.id not in {known.id for known in self.lines.values()}
        ]
        pools, takes = pools_of(yard.stands, self.rows.values(), self.lines)
        self.pools += pools
        for name, taken in takes.items():
            self.rows[name] = msgspec.structs.replace(self.rows[name], takes=taken)
        shared = {pool.id for pool in pools}
        for stands in yard.stands:
            single = self._take(stands.line, {stands.item: 1})
            if single is not None:
                row = self.rows[single]
                stock = stands.pieces if row.stock is None else min(row.stock, stands.pieces)
                took = tuple(p.Take(name) for name in (stands.pool, stands.line_pool) if name in shared)
                self.rows[single] = msgspec.structs.replace(row, stock=stock, takes=took)
                self.off[single] = stands.donor

    def _in_hand(self) -> Iterator[OfferFrom]:
        yield from lying_there(self.graph.stores(), self.home)
        if self.job is not None:
            yield from bought_already(self.job, self.today, self.home)

    def _take(self, line: OfferFrom, units: Mapping[str, int]) -> str | None:
        """The offer among the others, under its id; None where it is left out."""
        reason = _unusable(line.offer, self.today)
        if reason is None and line.supplier not in OWN:
            reason = not_taken(self.graph, line.offer, self.today)
        try:
            row = self._offer(line, units) if reason is None else None
        except OtherCurrency as fault:
            reason, row = ("other-currency", {"currency": str(fault)}), None
        except NotKnown as fault:
            reason, row = (fault.code, fault.values), None
        if row is None:
            self.left_out.append(LeftOut(line, *(reason or ("no-price", {}))))
            return None
        name = _offer_id(line, self.rows)
        self.rows[name], self.lines[name] = msgspec.structs.replace(row, id=name), line
        return name

    def _seller(self, name: str) -> Supplier | None:
        if name not in self.sellers:
            self.sellers[name] = self.graph.supplier(name)
        return self.sellers[name]

    def _offer(self, line: OfferFrom, units: Mapping[str, int]) -> p.Offer:
        offer, at = line.offer, self.at
        old, seller = offer.old_unit, self._seller(line.supplier)
        back, counts, surcharge = at.coins(offer.scrap_back), None, at.coins(offer.surcharge)
        if seller is None:
            paid, taxed = at.coins(offer.price), 0
        else:
            terms = at.terms(seller)
            kinds = kinds_of(self.graph, offer) if terms.by_kind else ()
            paid, taxed = terms.goods(offer.price, kinds)
            surcharge = terms.surcharge(offer.surcharge)
            if offer.price is not None:
                if limits_in(seller) - {offer.price.currency}:
                    raise OtherCurrency(offer.price.currency)
                said = terms.counts(offer.price)
                counts = None if (said, offer.price.currency) == (paid, self.home) else said
        own = worth_of(line, self.graph.stores()) if line.supplier in OWN else None
        return p.Offer(
            id=line.id,
            supplier=line.supplier,
            price=paid,
            brings=tuple(p.Bring(name, count) for name, count in sorted(units.items())),
            stock=offer.stock,
            days=offer.days + (waits(seller, self.today, self.now) if seller is not None else 0),
            minutes=offer.minutes,
            surcharge=surcharge,
            returned=chance(old.accepted) if old else (0 if offer.surcharge else p.CERTAIN),
            later=at.coins(own) + (at.coins(old.return_) if old else 0),
            back=back + taxed,
            counts=counts,
            weight=math.ceil(offer.weight.value) if offer.weight else 0,
            works=_works(offer),
        )

    def _fill(self, suppliers: Iterable[p.Supplier]) -> Iterator[str]:
        """The cheapest new things of each supplier that could lift a basket over his limits for less than they save."""
        taken, left_out = {line.id for line in self.lines.values()}, list(self.left_out)
        for supplier in suppliers:
            asked, saved = max(map(asked_spend, supplier.modes), default=0), saving(supplier)
            if not asked:
                continue
            lines = {
                o.id: o for o in self.graph.offers_by(supplier.id) if _fills(o.offer) and o.id not in taken
            }
            names = [name for key in sorted(lines) if (name := self._take(lines[key], {})) is not None]
            pays = [name for name in names if _may_pay(self.rows[name], saved)]
            pays.sort(key=lambda name: (self.rows[name].price, name))
            cheap = pays[:MOST_FILLERS]
            cheap += [name for name in pays[MOST_FILLERS:] if _fills_alone(self.rows[name], asked)][:1]
            for name in set(names) - set(cheap):
                del self.rows[name], self.lines[name]
            yield from cheap
        self.left_out = left_out


def _fills(offer: Offer) -> bool:
    """Whether it is an honest filler: a new thing with a number that one can put on a shelf."""
    return (
        offer.state is State.NEW
        and offer.number is not None
        and offer.surcharge is None
        and not offer.minutes
    )


def _may_pay(offer: p.Offer, saved: int | None) -> bool:
    """Whether it counts, and costs no more than any basket can save by it; to reach a minimum order it may cost whatever."""
    return counted(offer) > 0 and (saved is None or offer.price - offer.back <= saved)


def _fills_alone(offer: p.Offer, asked: int) -> bool:
    """Whether there is enough of it to reach the limit with nothing else."""
    return offer.stock is None or counted(offer) * offer.stock >= asked


def _works(offer: Offer) -> int:
    worn = offer.state in (State.USED, State.OLD_STOCK)
    return chance(offer.works) if worn or offer.works else p.CERTAIN


def _unusable(offer: Offer, today: date) -> tuple[str, dict[str, str]] | None:
    if offer.said == "none":
        return "asked-and-had-none", {"seen": str(offer.seen or "")}
    if offer.price is None:
        return "no-price", {}
    if offer.until is not None and offer.until < today:
        return "price-held-till", {"until": str(offer.until)}
    if offer.stock == 0:
        return "out-of-stock", {}
    return None


def _offer_id(line: OfferFrom, taken: Mapping[str, object]) -> str:
    """Supplier, what it is, state; numbered where that is not unique. It does not change when lines move in the book."""
    offer = line.offer
    what = offer.number or offer.service or offer.any_ or offer.whole_car or "?"
    base = " ".join([line.supplier, what, offer.state.value])
    name, number = base, 2
    while name in taken:
        name, number = f"{base} {number}", number + 1
    return name
