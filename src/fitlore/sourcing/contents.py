"""What is in a pack: the part itself, what it contains, what the offer says it brings, and which kind of goods it is."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from fitlore.fitting.interface import interface_of
from fitlore.model.choices import State
from fitlore.model.numbers import number_key
from fitlore.model.platform import Contained
from fitlore.model.supply import Offer
from fitlore.sourcing.needs import item, kind_item, service_item

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


def kinds_of(graph: Graph, offer: Offer) -> tuple[str, ...]:
    """The categories of what is sold, narrowest first; nothing where its number means no part or several."""
    name = offer.any_
    if name is None and offer.number is not None:
        parts = graph.parts([number_key(offer.number)])
        name = parts[0].is_ if len(parts) == 1 else None
    interface = interface_of(graph, name) if name else None
    return interface.names if interface else ()


def by_kind(graph: Graph, offer: Offer, wanted: Iterable[str]) -> dict[str, int]:
    """What an offer of any part of a kind brings of the kinds that are wanted by kind; those are new pieces."""
    if offer.any_ is None or offer.state is not State.NEW:
        return {}
    kinds = [i.partition(" ")[2] for i in wanted if i.startswith("kind ")]
    pieces = offer.pack * offer.enough_for
    return {kind_item(kind): pieces for kind in kinds if offer.any_ in graph.narrower(kind)}


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
