"""How many packs of an offer can ever be worth buying."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping

import msgspec

from fitlore.sourcing.check import packs_there_are
from fitlore.sourcing.lines import Line, pack_line
from fitlore.sourcing.problem import Mode, Offer, Problem, Supplier
from fitlore.sourcing.reduce import Owner, Source


class Reach(msgspec.Struct, frozen=True):
    """How many packs of an offer some best plan buys at most; `surplus` if some may be more than its units ask for."""

    most: int
    surplus: bool


def reach(problem: Problem, sources: Mapping[tuple[Owner, int], tuple[Source, ...]]) -> dict[str, Reach]:
    """For each offer: enough for every want there is, or to lift its basket to what a mode asks for.

    A pack beyond what is used only ever pays when without it the basket falls short of the spend its mode asks for, and
    then only if it is cheaper than the carriage it saves, where the basket could be had at once for a plain fee.
    An offer that earns money with every pack is bound by its stock (`check`).
    """
    wanted, worth = _wanted(problem, sources), problem.hour_worth
    suppliers = {row.id: row for row in problem.suppliers}
    asked = set(problem.limits.with_offers)
    found: dict[str, Reach] = {}
    for offer in problem.offers:
        line, there = pack_line(offer, worth), packs_there_are(offer)
        used = max((-(-wanted.get((offer.id, b.item), 0) // b.units) for b in offer.brings), default=0)
        used = max(used, int(offer.id in asked))
        lifting, more = _lifting(suppliers[offer.supplier], offer, line)
        most = max(used, lifting if more is None else min(lifting, used + more))
        surplus = offer.id in asked or (lifting > 0 and more != 0)
        if line.cost < 0 and there is not None:
            most, surplus = there, True
        found[offer.id] = Reach(most if there is None else min(most, there), surplus)
    return found


def _wanted(
    problem: Problem, sources: Mapping[tuple[Owner, int], tuple[Source, ...]]
) -> dict[tuple[str, str], int]:
    """The most units of an item that can be asked of an offer: each need takes one of its options at a time."""
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
    need_of: dict[Owner, Owner] = {(row.id, False): (row.need, False) for row in problem.options}
    wanted: dict[tuple[str, str], int] = {}
    for key, owners in asked.items():
        dearest: dict[Owner, int] = defaultdict(int)
        for owner, amount in owners.items():
            group = need_of.get(owner, owner)
            dearest[group] = max(dearest[group], amount)
        wanted[key] = sum(dearest.values())
    return wanted


def _lifting(supplier: Supplier, offer: Offer, line: Line) -> tuple[int, int | None]:
    """Packs of an offer that alone reach all a mode can ask; and how many more than used can pay (None: no bound)."""
    spend = max((asked_spend(mode) for mode in supplier.modes), default=0)
    if not spend or not counted(offer):
        return 0, 0
    saved, dear = saving(supplier), min(line.cost, line.cash_now)
    more = max(0, saved - 1) // dear if saved is not None and dear > 0 else None
    return -(-spend // counted(offer)), more


def saving(supplier: Supplier) -> int | None:
    """What any basket can save in carriage by being worth more: more is never worth paying for lifting it (None: no bound).

    A basket that falls short goes by the plain mode, the cheapest that asks for no spend and carries any weight.
    """
    if not any(map(asked_spend, supplier.modes)):
        return 0
    paid, kept = plain_fee(supplier), plain_fee(supplier, lambda mode: mode.fee - mode.back)
    if paid is None or kept is None:
        return None
    return max(
        paid - min(mode.fee for mode in supplier.modes),
        kept - min(mode.fee - mode.back for mode in supplier.modes),
    )


def plain_fee(supplier: Supplier, fee: Callable[[Mode], int] = lambda mode: mode.fee) -> int | None:
    """The fee at which any basket can be had from a supplier at once; None if there is no such mode."""
    if not supplier.modes and not supplier.trips:
        return 0
    plain = [fee(mode) for mode in supplier.modes if not asked_spend(mode) and mode.most_weight is None]
    return min(plain, default=None)


def counted(offer: Offer) -> int:
    """What a pack counts towards what its supplier asks to be spent."""
    return offer.price if offer.counts is None else offer.counts


def asked_spend(mode: Mode) -> int:
    """What a basket must be worth for the mode: its least spend or the minimum order."""
    return max(mode.least_spend, mode.minimum)
