"""Suppliers and offers of the books as suppliers and offers of a problem."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.model.choices import State
from fitlore.model.numbers import number_key
from fitlore.model.placed import OfferFrom
from fitlore.model.platform import Contained
from fitlore.model.supply import Offer, Supplier
from fitlore.sourcing import problem as p
from fitlore.sourcing.coins import OtherCurrency, chance, coins
from fitlore.sourcing.needs import item, service_item

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


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


def market_for(graph: Graph, items: Iterable[str], today: date, home: str) -> Market:
    """All offers that bring one of these items, with their suppliers' terms. Offers that nobody can use are left out."""
    wanted = sorted(set(items))
    numbers = [i for i in wanted if " " not in i]
    whole = [number_key(part.part) for part in graph.containers(numbers)]
    found = {o.id: o for o in graph.offers(sorted({*numbers, *whole}))}
    services = [i.partition(" ")[2] for i in wanted if i.startswith("service ")]
    found.update({o.id: o for o in graph.services(services)})
    rows: dict[str, p.Offer] = {}
    lines: dict[str, OfferFrom] = {}
    left_out: list[LeftOut] = []
    for line in sorted(found.values(), key=lambda o: o.id):
        reason = _unusable(line.offer, today)
        try:
            row = _offer(graph, line, home) if reason is None else None
        except OtherCurrency as fault:
            reason, row = ("other-currency", {"currency": str(fault)}), None
        if row is None:
            left_out.append(LeftOut(line, *(reason or ("no-price", {}))))
            continue
        name = _offer_id(line, rows)
        rows[name], lines[name] = msgspec.structs.replace(row, id=name), line
    suppliers, trips = _suppliers(graph, {o.supplier for o in rows.values()}, home)
    known = {s.id for s in suppliers}
    offers = tuple(o for o in rows.values() if o.supplier in known)
    return Market(offers, suppliers, trips, lines, tuple(left_out))


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


def _offer(graph: Graph, line: OfferFrom, home: str) -> p.Offer:
    offer = line.offer
    old = offer.old_unit
    return p.Offer(
        id=line.id,
        supplier=line.supplier,
        price=coins(offer.price, home),
        brings=tuple(p.Bring(name, units) for name, units in sorted(brought(graph, offer).items())),
        stock=offer.stock,
        days=offer.days,
        minutes=offer.minutes,
        surcharge=coins(offer.surcharge, home),
        returned=chance(old.accepted) if old else (0 if offer.surcharge else p.CERTAIN),
        later=coins(old.return_, home) if old else 0,
        back=coins(offer.scrap_back, home),
        weight=math.ceil(offer.weight.value) if offer.weight else 0,
        works=chance(offer.works)
        if offer.state in (State.USED, State.OLD_STOCK) or offer.works
        else p.CERTAIN,
    )


def brought(graph: Graph, offer: Offer) -> dict[str, int]:
    """Item to units in one pack: the part itself, what it contains, and what the offer says it brings besides."""
    units: dict[str, int] = {}
    pieces = offer.pack * offer.enough_for
    if offer.number:
        _add(graph, units, Contained(number=offer.number, quantity=1), pieces, depth=0)
    if offer.service:
        _add(graph, units, Contained(service=offer.service), pieces, depth=0)
    for content in offer.brings:
        _add(graph, units, content, 1, depth=0)
    return units


def _add(graph: Graph, units: dict[str, int], content: Contained, times: int, *, depth: int) -> None:
    """Quantities multiply through contents; four levels deep is deeper than any assembly, so a cycle ends there."""
    count = content.quantity * times
    if content.service:
        name = service_item(content.service)
    elif content.number:
        name = item(content.number)
    else:
        return
    units[name] = units.get(name, 0) + count
    if content.number and depth < 4:
        parts = graph.parts([number_key(content.number)])
        if len(parts) == 1:
            for inner in parts[0].contains:
                _add(graph, units, inner, count, depth=depth + 1)


def _suppliers(
    graph: Graph, names: Iterable[str], home: str
) -> tuple[tuple[p.Supplier, ...], tuple[p.Trip, ...]]:
    rows: list[p.Supplier] = []
    trips: dict[str, p.Trip] = {}
    for name in sorted(names):
        supplier = graph.supplier(name)
        if supplier is None:
            continue
        trip = _trip(graph, supplier, home)
        if trip is not None:
            trips[trip.id] = max(trip, trips.get(trip.id, trip), key=lambda t: (t.minutes, t.money))
        rows.append(p.Supplier(name, modes(supplier, home), (trip.id,) if trip else ()))
    return tuple(rows), tuple(trips.values())


def _trip(graph: Graph, supplier: Supplier, home: str) -> p.Trip | None:
    """There and back: twice the distance at the shop's fuel cost. Suppliers that join share one trip, the longest."""
    if supplier.trip is None:
        return None
    trip = supplier.trip
    money = coins(trip.cost, home)
    if trip.distance is not None and graph.shop.fuel_per_km is not None:
        per_km = coins(graph.shop.fuel_per_km, home)
        money += round(2 * trip.distance.value * per_km / 1_000_000)
    return p.Trip(f"to {trip.joins or supplier.supplier}", money, trip.minutes)


def modes(supplier: Supplier, home: str) -> tuple[p.Mode, ...]:
    """A carriage tariff as one mode per band; without one, nothing is sent."""
    tariff = supplier.carriage
    if tariff is None:
        return ()
    minimum = coins(tariff.minimum_order, home)
    rows = [
        p.Mode(
            f"step {number}",
            coins(step.fee, home),
            least_spend=coins(step.from_spend, home),
            most_weight=int(step.up_to_weight.value) if step.up_to_weight else None,
            minimum=minimum,
        )
        for number, step in enumerate(tariff.steps, 1)
    ]
    if tariff.fixed is not None:
        rows.append(p.Mode("carriage", coins(tariff.fixed, home), minimum=minimum))
    if tariff.free_from is not None:
        rows.append(p.Mode("free", 0, least_spend=coins(tariff.free_from, home), minimum=minimum))
    return tuple(rows) or (p.Mode("no charge", 0, minimum=minimum),)
