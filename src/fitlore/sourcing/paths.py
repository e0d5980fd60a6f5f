"""Substitute sources for one place: the cheapest paths need → candidate → offer → supplier, each with its landed cost."""

from __future__ import annotations

from datetime import date, time
from itertools import islice
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting import Answer, Verdict
from fitlore.model.job import Finding
from fitlore.model.placed import OfferFrom
from fitlore.model.record import PlacePath
from fitlore.sourcing import problem as p
from fitlore.sourcing.coins import coins
from fitlore.sourcing.landed import Reckoning
from fitlore.sourcing.lines import pack_line, unit_line, worth
from fitlore.sourcing.needs import NeedAt
from fitlore.sourcing.offers import LeftOut, Market, market_for
from fitlore.sourcing.options import Choice, choices_of, refused_state
from fitlore.sourcing.wrong import with_failures

if TYPE_CHECKING:
    import networkx as nx

    from fitlore.graph.open import Graph

MOST_PATHS = 60
"""So many sources are more than anybody reads."""


class Source(NamedTuple):
    """One way to get what a place needs, bought by itself. Money in smallest coins."""

    choice: Choice
    offer: p.Offer
    line: OfferFrom
    packs: int
    goods: int
    fill: int
    """What has to be bought besides to reach the supplier's minimum order."""
    lost: int
    """What of surcharges and failures is expected to be lost."""
    carriage: int
    by: str
    """The way of delivery, or the journey."""
    hands: int
    """Minutes: work at the car, pulling, the journey."""
    landed: int
    extras: tuple[str, ...]
    """What has to be bought besides, and where it is cheapest; its goods are in `landed`, its carriage is not."""
    joining: int = 0
    """What is paid to join the supplier first."""

    @property
    def verdict(self) -> Verdict | None:
        """The verdict the source rests on."""
        return self.choice.verdict


class Sources(NamedTuple):
    """All sources of a place, cheapest first, and what was left out."""

    answer: Answer
    home: str
    sources: tuple[Source, ...]
    refused: tuple[Verdict, ...]
    left_out: tuple[LeftOut, ...]
    barred: tuple[tuple[OfferFrom, str], ...]


def sources_for(graph: Graph, reply: Answer, count: int, today: date, now: time | None = None) -> Sources:
    """Every buyable candidate at every supplier, cheapest landed cost first: goods, carriage, journey, hands at their worth.

    `now`: the hour it is on the day (see `opening`).
    """
    home = graph.shop.currency
    need = NeedAt(reply.place.path, Finding(at=PlacePath(reply.place.path), fault=""), reply, count)
    choices, refused = choices_of(graph, need, home, ())
    choices = [choice for choice in choices if choice.option.wants]
    items = {i for choice in choices for want in choice.option.wants for i in want.items}
    market = market_for(graph, items, today, home, now=now)
    market = market._replace(offers=with_failures(graph, market, choices, Reckoning(graph, today)))
    barred: list[tuple[OfferFrom, str]] = []
    found = [
        source
        for choice in choices
        for offer in market.offers
        for source in _source(graph, choice, offer, market, barred)
    ]
    ordered = _cheapest_first(found)
    verdicts = tuple(row.verdict for row in refused)
    return Sources(reply, home, ordered, verdicts, market.left_out, tuple(barred))


def _source(
    graph: Graph, choice: Choice, offer: p.Offer, market: Market, barred: list[tuple[OfferFrom, str]]
) -> list[Source]:
    key, count = choice.option.wants[0].items[0], choice.option.wants[0].amount
    units = sum(bring.units for bring in offer.brings if bring.item == key)
    if not units:
        return []
    line = market.lines[offer.id]
    code = refused_state(graph, choice, key, line.offer, ())
    packs = -(-count // units)
    if code or (offer.stock is not None and packs > offer.stock):
        barred.append((line, code or "too-few-in-stock"))
        return []
    supplier = next(s for s in market.suppliers if s.id == offer.supplier)
    hour = coins(graph.shop.hour_worth, graph.shop.currency)
    one = pack_line(offer, 0)
    goods, lost = offer.price * packs, one.surcharges_lost * packs + offer.later * packs - offer.back * packs
    lost += unit_line(offer.works, choice.option.wants[0].fits, offer.otherwise, 0).failures * count
    besides = tuple(_besides(want, market) for want in choice.option.wants[1:])
    rows = []
    for by, fee, fill, minutes in _deliveries(supplier, market, goods):
        hands = choice.option.minutes + offer.minutes * packs + minutes
        landed = goods + fill + lost + fee + supplier.joining
        landed += sum(cost for _, cost in besides) + worth(hands * p.MINUTE, hour)
        extras = tuple(words for words, _ in besides)
        rows.append(
            Source(
                choice,
                offer,
                line,
                packs,
                goods,
                fill,
                lost,
                fee,
                by,
                hands,
                landed,
                extras,
                supplier.joining,
            )
        )
    return sorted(rows, key=lambda row: row.landed)[:1]


def _besides(want: p.Want, market: Market) -> tuple[str, int]:
    """What has to be bought as well, and the least its goods cost; nothing is added where nobody offers it."""
    prices = [
        (-(-want.amount // bring.units) * offer.price, _called(offer, bring, market), offer.supplier)
        for offer in market.offers
        for bring in offer.brings
        if bring.item in want.items and bring.units and len(offer.brings) == 1
    ]
    if not prices:
        return f"{' or '.join(want.items)} (no offer known)", 0
    cost, name, supplier = min(prices)
    return f"{name} from {supplier}", cost


def _called(offer: p.Offer, bring: p.Bring, market: Market) -> str:
    return market.lines[offer.id].offer.number or bring.item


def _deliveries(supplier: p.Supplier, market: Market, goods: int) -> list[tuple[str, int, int, int]]:
    """Ways the goods come: name, fee, what a minimum order wants filled up with something else, minutes."""
    rows = [
        (mode.id, mode.fee - mode.back, max(0, mode.minimum - goods), 0)
        for mode in supplier.modes
        if goods >= mode.least_spend
    ]
    trips = {trip.id: trip for trip in market.trips}
    rows += [(name, trips[name].money, 0, trips[name].minutes) for name in supplier.trips if name in trips]
    if not supplier.modes and not supplier.trips:
        rows.append(("handed over", 0, 0, 0))
    return rows


def _cheapest_first(found: list[Source]) -> tuple[Source, ...]:
    """Shortest simple paths through the layers need → candidate → offer → supplier → got; the weights are landed coins."""
    import networkx as nx

    graph: nx.DiGraph[object] = nx.DiGraph()
    by_path: dict[tuple[object, ...], Source] = {}
    for source in found:
        part, offer = source.choice.option.id, (source.choice.option.id, source.offer.id)
        path = ("need", part, offer, (offer, source.offer.supplier), "got")
        graph.add_edge("need", part, weight=0)
        graph.add_edge(part, offer, weight=source.goods + source.lost)
        rest = source.landed - source.goods - source.lost
        graph.add_edge(offer, path[3], weight=source.carriage)
        graph.add_edge(path[3], "got", weight=rest - source.carriage)
        by_path[path] = source
    if not found:
        return ()
    least = min(graph.edges[e]["weight"] for e in graph.edges)
    if least < 0:
        for edge in graph.edges:
            graph.edges[edge]["weight"] -= least
    paths = nx.shortest_simple_paths(graph, "need", "got", weight="weight")
    rows = [by_path[tuple(path)] for path in islice(paths, MOST_PATHS)]
    return tuple(sorted(rows, key=lambda row: (row.landed, row.offer.days, row.offer.id)))
