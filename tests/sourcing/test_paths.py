"""Substitute sources: cheapest landed cost first, held against networkx and against plain sums."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import networkx as nx
import pytest

from fitlore.fitting import Question, Word, answer
from fitlore.graph.open import Graph, open_graph
from fitlore.model.choices import Trade
from fitlore.model.record import Name
from fitlore.model.supply import Supplier
from fitlore.sourcing.coins import coins
from fitlore.sourcing.inhand import STORES
from fitlore.sourcing.paths import Source, Sources, sources_for
from tests.demo.shop import REPO

TODAY = date(2026, 12, 3)


@pytest.fixture(scope="module")
def graph(tmp_path_factory: pytest.TempPathFactory) -> Graph:
    """The demo shop."""
    return open_graph(REPO / "demo" / "lowbarn", cache=tmp_path_factory.mktemp("cache"))


@pytest.fixture(scope="module")
def found(graph: Graph) -> list[Sources]:
    """The sources of every place of the green car that has any."""
    car = graph.car("green")
    assert car is not None
    rows = []
    for place in graph.places(car.is_):
        reply = answer(graph, Question(place, car, both=True))
        sources = sources_for(graph, reply, place.place.quantity, TODAY)
        if sources.sources:
            rows.append(sources)
    assert len(rows) >= 20
    return rows


def delivery(graph: Graph, supplier: Supplier, goods: int) -> int:
    """The cheapest way of delivery in coins with the journey's minutes at their worth, written apart from the program."""
    ways = []
    tariff = supplier.carriage
    hour = coins(graph.shop.hour_worth, "GBP")
    if tariff is not None:
        short = max(0, coins(tariff.minimum_order, "GBP") - goods)
        if tariff.fixed is not None:
            ways.append(short + coins(tariff.fixed, "GBP"))
        if tariff.free_from is not None and goods >= coins(tariff.free_from, "GBP"):
            ways.append(short)
    if supplier.trip is not None:
        km = supplier.trip.distance.value / 1_000_000 if supplier.trip.distance else Decimal(0)
        fuel = round(2 * km * coins(graph.shop.fuel_per_km, "GBP"))
        ways.append(fuel + round(Decimal(supplier.trip.minutes * hour) / 60))
    return min(ways) if ways else 0


def lower_bound(graph: Graph, source: Source) -> int:
    """Goods, what is lost, delivery and hands of a source that needs nothing besides."""
    supplier = graph.supplier(source.offer.supplier)
    if source.offer.supplier == STORES:
        supplier = Supplier(supplier=Name(STORES), trade=Trade.PRIVATE)
    assert supplier is not None
    hands = source.choice.option.minutes + source.offer.minutes * source.packs
    work = Decimal(hands * coins(graph.shop.hour_worth, "GBP")) / 60
    return source.goods + source.lost + delivery(graph, supplier, source.goods) + round(work)


def test_the_first_source_is_networkxs_shortest_path(graph: Graph, found: list[Sources]) -> None:
    """A graph need - part - offer - supplier - got, weighted by sums made here: Dijkstra's length is the first landed cost."""
    for sources in found:
        plain = [source for source in sources.sources if source.lost >= 0]  # no scrap money comes back
        net: nx.DiGraph = nx.DiGraph()
        for source in plain:
            part, offer = (
                ("part", source.choice.option.id),
                ("offer", source.choice.option.id, source.offer.id),
            )
            whole = lower_bound(graph, source)
            besides = source.landed - whole if source.extras else 0
            net.add_edge("need", part, weight=0)
            net.add_edge(part, offer, weight=source.goods + source.lost + besides)
            net.add_edge(offer, "got", weight=whole - source.goods - source.lost)
        length = nx.dijkstra_path_length(net, "need", "got")
        assert abs(length - plain[0].landed) <= 1, sources.answer.place.full_path  # each room rounds once


def test_sources_come_cheapest_first_and_only_for_a_yes(found: list[Sources]) -> None:
    """The order is by landed cost, and no source rests on a verdict that a plan may not buy."""
    for sources in found:
        costs = [source.landed for source in sources.sources]
        assert costs == sorted(costs)
        for source in sources.sources:
            assert source.verdict is not None
            assert source.verdict.word in (Word.FITS, Word.FITS_WITH_WORK, Word.BY_MEASURE)


def test_every_offer_of_a_good_part_is_a_source_or_is_left_out_with_a_reason(
    graph: Graph, found: list[Sources]
) -> None:
    """No offer of a part that fits vanishes."""
    for sources in found:
        good = [v for v in sources.answer.verdicts if v.word in (Word.FITS, Word.FITS_WITH_WORK)]
        named = {source.line.origin for source in sources.sources}
        named |= {line.origin for line, _ in sources.barred} | {row.offer.origin for row in sources.left_out}
        for verdict in good:
            for offer in graph.offers([verdict.key]):
                assert offer.origin in named, (sources.answer.place.full_path, offer.id)


def test_a_basket_below_the_minimum_order_is_filled_up(found: list[Sources]) -> None:
    """KT 48 0090 at 8.90 from a factor with a minimum of 10.00: 1.10 more has to be bought of something."""
    (sources,) = [s for s in found if s.answer.place.path == "steering/track-rod-end"]
    row = next(s for s in sources.sources if s.offer.id.startswith("castle-street KT 48 0090"))
    assert (row.goods, row.fill, row.carriage) == (890 * row.packs, max(0, 1000 - 890 * row.packs), 600)
