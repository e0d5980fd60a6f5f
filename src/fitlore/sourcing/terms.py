"""Suppliers' terms as plain data: carriage as modes, journeys, what sending back costs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from fitlore.model.amounts import Money
from fitlore.model.supply import Supplier
from fitlore.sourcing import problem as p
from fitlore.sourcing.coins import OtherCurrency, finely
from fitlore.sourcing.landed import NotKnown, Reckoning, Terms

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


def suppliers_of(
    graph: Graph, names: Iterable[str], at: Reckoning
) -> tuple[tuple[p.Supplier, ...], tuple[p.Trip, ...]]:
    """The terms of these suppliers, and the journeys to them; one that no book has is left out.

    Where what is asked for carriage cannot be told in the home currency, only a journey is left, if there is one.
    """
    rows: list[p.Supplier] = []
    trips: dict[str, p.Trip] = {}
    for name in sorted(names):
        supplier = graph.supplier(name)
        if supplier is None:
            continue
        trip = _trip(graph, supplier, at)
        try:
            ways = modes(supplier, at)
        except (NotKnown, OtherCurrency):
            if trip is None:
                continue
            ways = ()
        if trip is not None:
            trips[trip.id] = max(trip, trips.get(trip.id, trip), key=lambda t: (t.minutes, t.money))
        rows.append(p.Supplier(name, ways, (trip.id,) if trip else (), joining=_joining(graph, supplier, at)))
    return tuple(rows), tuple(trips.values())


def _joining(graph: Graph, supplier: Supplier, at: Reckoning) -> int:
    """What joining costs, as it is said. Whoever bought there for any job has joined; nobody says it otherwise."""
    if supplier.joining_fee is None:
        return 0
    bought = any(row.from_ == supplier.supplier for job in graph.jobs() for row in job.purchases)
    return 0 if bought else at.coins(supplier.joining_fee)


def _trip(graph: Graph, supplier: Supplier, at: Reckoning) -> p.Trip | None:
    """There and back: twice the distance at the shop's fuel cost. Suppliers that join share one trip, the longest."""
    if supplier.trip is None:
        return None
    trip = supplier.trip
    money = at.coins(trip.cost)
    if trip.distance is not None and graph.shop.fuel_per_km is not None:
        per_km = finely(graph.shop.fuel_per_km, at.home)
        money += round(2 * trip.distance.value * per_km / 1_000_000)
    return p.Trip(f"to {trip.joins or supplier.supplier}", money, trip.minutes)


def modes(supplier: Supplier, at: Reckoning) -> tuple[p.Mode, ...]:
    """A carriage tariff as one mode per band; without one, nothing is sent. Limits are in the supplier's own coins."""
    tariff = supplier.carriage
    if tariff is None:
        return ()
    terms = at.terms(supplier)
    minimum = terms.counts(tariff.minimum_order)
    rows = [
        _mode(
            terms,
            f"step {number}",
            step.fee,
            least_spend=terms.counts(step.from_spend),
            most_weight=int(step.up_to_weight.value) if step.up_to_weight else None,
            minimum=minimum,
        )
        for number, step in enumerate(tariff.steps, 1)
    ]
    if tariff.fixed is not None:
        rows.append(_mode(terms, "carriage", tariff.fixed, minimum=minimum))
    if tariff.free_from is not None:
        rows.append(p.Mode("free", 0, least_spend=terms.counts(tariff.free_from), minimum=minimum))
    return tuple(rows) or (p.Mode("no charge", 0, minimum=minimum),)


def _mode(
    terms: Terms,
    name: str,
    fee: Money,
    *,
    minimum: int,
    least_spend: int = 0,
    most_weight: int | None = None,
) -> p.Mode:
    landed = terms.carriage(fee)
    return p.Mode(name, landed.paid, least_spend, most_weight, minimum, landed.back)


def limits_in(supplier: Supplier) -> frozenset[str]:
    """The currencies in which a supplier states his limits."""
    tariff = supplier.carriage
    if tariff is None:
        return frozenset()
    stated = [tariff.free_from, tariff.minimum_order, *(step.from_spend for step in tariff.steps)]
    return frozenset(money.currency for money in stated if money is not None)
