"""How many packs of an offer can ever be worth buying."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from fitlore.sourcing.check import packs_there_are
from fitlore.sourcing.lines import Line, pack_line
from fitlore.sourcing.problem import Mode, Offer, Problem, Supplier
from fitlore.sourcing.reduce import Owner, Source


def most_packs(problem: Problem, sources: Mapping[tuple[Owner, int], tuple[Source, ...]]) -> dict[str, int]:
    """How many packs of each offer some best plan buys at most: for every want there is, or to reach a limit alone.

    A pack beyond what is used only ever pays when without it the basket falls short of the spend its mode asks for, and
    then only if it is cheaper than the carriage it saves, where the basket could be had at once for a plain fee.
    An offer that earns money with every pack is bound by its stock (`check`).
    """
    asked: dict[tuple[str, str], dict[Owner, int]] = defaultdict(lambda: defaultdict(int))
    amounts = {
        ((row.id, False), n): want.amount for row in problem.options for n, want in enumerate(row.wants)
    }
    amounts |= {
        ((row.id, True), n): want.amount for row in problem.shared for n, want in enumerate(row.wants)
    }
    for (owner, number), found in sources.items():
        for source in found:
            asked[source.offer.id, source.item][owner] += amounts[owner, number]
    worth = problem.hour_worth
    need_of: dict[Owner, Owner] = {(row.id, False): (row.need, False) for row in problem.options}
    wanted: dict[tuple[str, str], int] = {}
    for key, owners in asked.items():
        dearest: dict[Owner, int] = defaultdict(int)
        for owner, amount in owners.items():
            group = need_of.get(owner, owner)
            dearest[group] = max(dearest[group], amount)
        wanted[key] = sum(dearest.values())
    suppliers = {row.id: row for row in problem.suppliers}
    asked_offers = set(problem.limits.with_offers)
    reach: dict[str, int] = {}
    for offer in problem.offers:
        packs = max((-(-wanted.get((offer.id, b.item), 0) // b.units) for b in offer.brings), default=0)
        packs = max(packs, int(offer.id in asked_offers))
        packs = max(packs, min(_lifting(suppliers[offer.supplier], offer, packs, pack_line(offer, worth))))
        there = packs_there_are(offer)
        if pack_line(offer, worth).cost < 0 and there is not None:
            packs = there
        reach[offer.id] = packs if there is None else min(packs, there)
    return reach


def _lifting(supplier: Supplier, offer: Offer, used: int, line: Line) -> Iterator[int]:
    """Bounds on the packs of an offer when some are bought only to lift the basket to what a mode asks for."""
    spend = max((asked_spend(mode) for mode in supplier.modes), default=0)
    if not spend or not counted(offer):
        yield used
        return
    yield -(-spend // counted(offer))
    saved, dear = saving(supplier), min(line.cost, line.cash_now)
    if saved is not None and dear > 0:
        yield used + max(0, saved - 1) // dear


def saving(supplier: Supplier) -> int | None:
    """What any basket can save in carriage by being worth more: more is never worth paying for lifting it (None: no bound).

    A basket that falls short goes by the plain mode, the cheapest that asks for no spend and carries any weight.
    """
    if not any(map(asked_spend, supplier.modes)):
        return 0
    plain = plain_fee(supplier)
    return None if plain is None else plain - min(mode.fee for mode in supplier.modes)


def plain_fee(supplier: Supplier) -> int | None:
    """The fee at which any basket can be had from a supplier at once; None if there is no such mode."""
    if not supplier.modes and not supplier.trips:
        return 0
    plain = [mode.fee for mode in supplier.modes if not asked_spend(mode) and mode.most_weight is None]
    return min(plain, default=None)


def counted(offer: Offer) -> int:
    """What a pack counts towards what its supplier asks to be spent."""
    return offer.price if offer.counts is None else offer.counts


def asked_spend(mode: Mode) -> int:
    """What a basket must be worth for the mode: its least spend or the minimum order."""
    return max(mode.least_spend, mode.minimum)
