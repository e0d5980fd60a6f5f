"""What it costs when a part proves wrong: for a used one what the finding says, for others what the supplier's terms say.

A supplier who says on which terms a thing goes back (`takes-back`) costs, when it does not fit, the sending back and the share
of the price that is not refunded; how likely that is, is what the words for the part are worth (the lower bound of its chance).
Where the terms are not said nothing is reckoned: a plan says `fits` and stands by it.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import TYPE_CHECKING

import msgspec

from fitlore.model.choices import State
from fitlore.model.supply import TakesBack
from fitlore.sourcing import problem as p
from fitlore.sourcing.landed import Reckoning
from fitlore.sourcing.offers import Market
from fitlore.sourcing.options import Choice

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


def with_failures(
    graph: Graph, market: Market, choices: Iterable[Choice], at: Reckoning
) -> tuple[p.Offer, ...]:
    """The offers, each with what a wrong unit of it costs further; where several findings say it, the dearest counts."""
    costs: dict[str, p.Otherwise] = {}
    for choice in choices:
        wrong = choice.need.finding.if_wrong
        if wrong is None or choice.verdict is None:
            continue
        otherwise = p.Otherwise(at.coins(wrong.money), wrong.minutes)
        key = choice.verdict.key
        costs[key] = max(otherwise, costs.get(key, otherwise), key=_size)
    terms = {
        s.id: seller.takes_back for s in market.suppliers if (seller := graph.supplier(s.id)) is not None
    }
    rows = []
    for offer in market.offers:
        found = [costs[bring.item] for bring in offer.brings if bring.item in costs]
        goes_back = terms.get(offer.supplier)
        if found and offer.works < p.CERTAIN:
            offer = msgspec.structs.replace(offer, otherwise=max(found, key=_size))
        elif goes_back is not None and market.lines[offer.id].offer.state is not State.USED:
            offer = msgspec.structs.replace(offer, otherwise=_sent_back(offer, goes_back, at))
        rows.append(offer)
    return tuple(rows)


def _sent_back(offer: p.Offer, terms: TakesBack, at: Reckoning) -> p.Otherwise:
    """The fee, and of the price what does not come back; for the price of a whole pack, for one sends it back whole."""
    kept = Decimal(0) if terms.refunds is None else 1 - terms.refunds.percent / 100
    return p.Otherwise(at.coins(terms.fee) + -int(-(offer.price * kept) // 1))


def _size(otherwise: p.Otherwise) -> tuple[int, int]:
    return otherwise.money, otherwise.minutes
