"""Makes a problem smaller without changing its best plan: sorts it, leaves out what can never be bought or taken."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from fitlore.sourcing.check import packs_there_are
from fitlore.sourcing.lines import pack_line
from fitlore.sourcing.problem import Offer, Option, Problem, SharedWork, Supplier, Want


def ordered(problem: Problem) -> Problem:
    """The same problem with every part sorted by id, so that the order it was written in can never show."""
    offers = (
        msgspec.structs.replace(offer, brings=tuple(sorted(offer.brings, key=lambda bring: bring.item)))
        for offer in problem.offers
    )
    return msgspec.structs.replace(
        problem,
        needs=tuple(sorted(problem.needs, key=lambda row: row.id)),
        options=tuple(sorted(problem.options, key=lambda row: row.id)),
        offers=tuple(sorted(offers, key=lambda row: row.id)),
        suppliers=tuple(sorted(map(_ordered_supplier, problem.suppliers), key=lambda row: row.id)),
        shared=tuple(sorted(problem.shared, key=lambda row: row.id)),
        trips=tuple(sorted(problem.trips, key=lambda row: row.id)),
        pools=tuple(sorted(problem.pools, key=lambda row: row.id)),
        companions=tuple(sorted(problem.companions, key=lambda row: (row.option, sorted(row.one_of)))),
        never=tuple(sorted(problem.never, key=lambda row: (row.one, row.other))),
        pairs=tuple(sorted(problem.pairs, key=lambda row: (row.left, row.right))),
    )


def _ordered_supplier(supplier: Supplier) -> Supplier:
    modes = tuple(sorted(supplier.modes, key=lambda mode: mode.id))
    return msgspec.structs.replace(supplier, modes=modes, trips=tuple(sorted(set(supplier.trips))))


def possible(problem: Problem) -> Problem | None:
    """What can still be bought and taken within the limits of days and choice; None if that already rules a plan out.

    The result's `limits` keep their numbers; late and forbidden offers, suppliers and options are gone from it, and so
    are options that no stock can serve, whose companions or partners are gone, and offers nobody could have a use for.
    """
    limits = problem.limits
    late = [] if limits.days is None else [row.id for row in problem.offers if row.days > limits.days]
    gone = {*limits.without_offers, *late}
    offers = tuple(
        row for row in problem.offers if row.id not in gone and row.supplier not in limits.without_suppliers
    )
    latest = {row.id: row.latest for row in problem.needs}
    options = tuple(
        row
        for row in problem.options
        if row.id not in limits.without_options
        and ((last := last_day(problem, row, latest[row.need])) is None or last >= 0)
    )
    trimmed = msgspec.structs.replace(problem, offers=offers, options=options)
    trimmed = _settled(trimmed)
    left = {row.id for row in trimmed.options}
    served = {row.need for row in trimmed.options}
    if not left.issuperset(limits.with_options) or any(n.must and n.id not in served for n in trimmed.needs):
        return None
    trimmed = _useful(trimmed)
    return trimmed if {row.id for row in trimmed.offers}.issuperset(limits.with_offers) else None


def _settled(problem: Problem) -> Problem:
    """Options and shared works that can be carried out at all, until nothing more falls away."""
    while True:
        supply = sources_of(problem)
        works = {row.id: row for row in problem.shared if _served(row.wants, supply, (row.id, True))}
        names = {row.id for row in problem.options}
        companions = [row for row in problem.companions if names.isdisjoint(row.one_of)]
        lonely = {row.option for row in companions}
        lonely |= {
            one for row in problem.pairs for one, other in _both(row.left, row.right) if other not in names
        }
        options = tuple(
            row
            for row in problem.options
            if row.id not in lonely
            and all(name in works for name in row.shared)
            and _served(row.wants, supply, (row.id, False))
        )
        if len(options) == len(problem.options):
            break
        problem = msgspec.structs.replace(problem, options=options)
    wanted = {name for row in options for name in row.shared}
    return msgspec.structs.replace(
        problem,
        shared=tuple(row for row in problem.shared if row.id in wanted),
        companions=tuple(row for row in problem.companions if row.option in names),
        never=tuple(row for row in problem.never if {row.one, row.other} <= names),
        pairs=tuple(row for row in problem.pairs if row.left in names),
    )


def _both(one: str, other: str) -> tuple[tuple[str, str], tuple[str, str]]:
    return (one, other), (other, one)


class Source(msgspec.Struct, frozen=True):
    """An offer that can serve a want with an item: `units` in a pack."""

    offer: Offer
    item: str
    units: int


Owner = tuple[str, bool]
"""Whose want it is: the id of an option (False) or of a shared work (True)."""


def sources_of(problem: Problem) -> Mapping[tuple[Owner, int], tuple[Source, ...]]:
    """For every want (owner, number) the offers that can serve it in time, sorted by offer and item."""
    bringing: dict[str, list[Source]] = {}
    for offer in problem.offers:
        for bring in offer.brings:
            bringing.setdefault(bring.item, []).append(Source(offer, bring.item, bring.units))
    latest = {row.id: row.latest for row in problem.needs}
    banned = {(row.need, row.offer) for row in problem.limits.banned}
    found: dict[tuple[Owner, int], tuple[Source, ...]] = {}
    rows: list[tuple[Option | SharedWork, Owner, str, int | None]] = [
        (row, (row.id, False), row.need, last_day(problem, row, latest[row.need])) for row in problem.options
    ]
    rows += [(row, (row.id, True), "", row.latest) for row in problem.shared]
    for row, owner, need, day in rows:
        for number, want in enumerate(row.wants):
            sources = [
                source
                for item in sorted(want.items)
                for source in bringing.get(item, ())
                if (day is None or source.offer.days <= day) and (need, source.offer.id) not in banned
            ]
            found[owner, number] = tuple(sorted(sources, key=lambda source: (source.offer.id, source.item)))
    return found


def last_day(problem: Problem, option: Option, latest: int | None) -> int | None:
    """The last day on which what an option wants may arrive, its need having this `latest` (None: whenever)."""
    days = [day for day in (latest, problem.limits.days) if day is not None]
    return min(days) - option.ahead if days else None


def _served(
    wants: tuple[Want, ...], supply: Mapping[tuple[Owner, int], tuple[Source, ...]], owner: Owner
) -> bool:
    return all(_enough(supply[owner, number], want.amount) for number, want in enumerate(wants))


def _enough(sources: Iterable[Source], amount: int) -> bool:
    found = 0
    for source in sources:
        packs = packs_there_are(source.offer)
        if packs is None:
            return True
        found += packs * source.units
    return found >= amount


def _useful(problem: Problem) -> Problem:
    """Without the offers that serve no want and could not lift a basket over a limit, nor earn money by themselves."""
    serving = {source.offer.id for sources in sources_of(problem).values() for source in sources}
    asked = set(problem.limits.with_offers)
    lifting = {row.id for row in problem.suppliers if any(m.least_spend or m.minimum for m in row.modes)}
    offers = tuple(
        row
        for row in problem.offers
        if packs_there_are(row) != 0
        and (
            row.id in serving
            or row.id in asked
            or row.supplier in lifting
            or pack_line(row, problem.hour_worth).cost < 0
        )
    )
    sellers = {row.supplier for row in offers}
    suppliers = tuple(row for row in problem.suppliers if row.id in sellers)
    journeys = {name for row in suppliers for name in row.trips}
    trips = tuple(row for row in problem.trips if row.id in journeys)
    return msgspec.structs.replace(problem, offers=offers, suppliers=suppliers, trips=trips)
