"""Leaves out offers that another one beats wherever they could be used, carriage and what is lost at home included."""

from __future__ import annotations

from collections import defaultdict

import msgspec

from fitlore.sourcing.check import packs_there_are
from fitlore.sourcing.lines import Line, pack_line
from fitlore.sourcing.problem import Offer, Problem, Supplier
from fitlore.sourcing.reach import counted, plain_fee, saving


def without_beaten(problem: Problem) -> Problem:
    """The problem without offers that are in no cheapest plan, so that no tie is touched.

    An offer is beaten if another, with no bound on its packs, brings at least the same just as early and as surely, and
    is cheaper by more than the other supplier's plain fee and all that the offer's own basket could lose by falling
    short. With a limit on suppliers only a supplier's own offers are compared.
    """
    suppliers = {row.id: row for row in problem.suppliers}
    kept_for = {*problem.limits.with_offers}
    banned = {row.offer for row in problem.limits.banned}
    rivals: dict[frozenset[str], list[Offer]] = defaultdict(list)
    for offer in problem.offers:
        if packs_there_are(offer) is None and offer.id not in banned and not offer.takes:
            rivals[frozenset(bring.item for bring in offer.brings)].append(offer)
    beaten = {
        offer.id
        for offer in problem.offers
        if offer.id not in kept_for
        and any(
            _beats(problem, rival, offer, suppliers)
            for rival in rivals[frozenset(bring.item for bring in offer.brings)]
        )
    }
    offers = tuple(row for row in problem.offers if row.id not in beaten)
    return msgspec.structs.replace(problem, offers=offers)


def _beats(problem: Problem, rival: Offer, offer: Offer, suppliers: dict[str, Supplier]) -> bool:
    units = {bring.item: bring.units for bring in rival.brings}
    if (
        rival.days > offer.days
        or rival.minutes > offer.minutes
        or rival.works < offer.works
        or rival.otherwise.money > offer.otherwise.money
        or rival.otherwise.minutes > offer.otherwise.minutes
        or any(units[bring.item] < bring.units for bring in offer.brings)
    ):
        return False
    loss = _loss(problem, rival, offer, suppliers)
    if loss is None:
        return False
    one, other = pack_line(rival, problem.hour_worth), pack_line(offer, problem.hour_worth)
    cheaper = other.cost - one.cost > loss
    return cheaper and other.cash_now - one.cash_now >= loss and _worst(other) - _worst(one) >= loss


def _worst(line: Line) -> int:
    return line.cash_now + line.worst_cash


def _loss(problem: Problem, rival: Offer, offer: Offer, suppliers: dict[str, Supplier]) -> int | None:
    """The most that changing from the offer to the rival can cost in carriage; None if it may not be possible."""
    home, away = suppliers[offer.supplier], suppliers[rival.supplier]
    short = saving(home)
    if home.id == away.id:
        if counted(rival) >= counted(offer) and rival.weight <= offer.weight:
            return 0
        if any(mode.most_weight is not None for mode in home.modes):
            return None
        return short
    fee = plain_fee(away)
    if problem.limits.suppliers is not None or short is None or fee is None:
        return None
    return short + fee + away.joining
