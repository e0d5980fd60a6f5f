"""What a part's category says can be made good again, as a route of a need (`refurbish` of a category).

**Rules**

- It is planned where the category says how often it succeeds (of several pieces each has to) and every material has a known
  price and comes in time; what follows a failure is the cheapest other way to meet the need (`stages`).
- Otherwise it is said that it could be done, and no more: a chance or a price that nobody knows is never taken as good.
- A written route `refurbish` of the finding that says no more than what is done (`do`, as the category says it; or nothing,
  where the category knows one way only) has minutes, materials and chance from the category, and is planned as it is written.
- Not at all: where the finding forbids it, names only its own routes or has a refurbish route of its own; and where the old one
  never stays, because the kind is always new or its safety class takes nothing used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.fitting.evidence import class_policy
from fitlore.model.category import Refurbish
from fitlore.model.choices import RouteKind
from fitlore.model.job import Route
from fitlore.sourcing import problem as p
from fitlore.sourcing.coins import chance
from fitlore.sourcing.needs import NeedAt

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Mendable(NamedTuple):
    """Something that could be mended and is not planned."""

    need: NeedAt
    how: Refurbish
    lacks: tuple[str, ...] = ()
    """Materials without a known price; empty where it is the chance that nobody says."""


def ways_to_mend(graph: Graph, need: NeedAt) -> tuple[Refurbish, ...]:
    """What the category, or the nearest above it that says anything, knows to be done; nothing where the old one never stays."""
    face, finding = need.answer.interface, need.finding
    rules = class_policy(graph.policy, face.safety)
    if RouteKind.REFURBISH in finding.forbid or face.always_new or rules.no_used:
        return ()
    chain = (graph.category(name) for name in face.names)
    return next((row.refurbish for row in chain if row is not None and row.refurbish), ())


def by_itself(graph: Graph, need: NeedAt) -> tuple[Refurbish, ...]:
    """The ways that count though the finding does not name them."""
    finding = need.finding
    written = any(route.route is RouteKind.REFURBISH for route in finding.routes)
    return () if written or finding.only_these_routes else ways_to_mend(graph, need)


def named_by(graph: Graph, need: NeedAt, route: Route) -> Refurbish | None:
    """The way a written route means, where it leaves the rest to the category."""
    own = route.takes or route.minutes or route.money or route.shares
    if route.route is not RouteKind.REFURBISH or own:
        return None
    ways = ways_to_mend(graph, need)
    if not route.do:
        return ways[0] if len(ways) == 1 else None
    return next((way for way in ways if way.do.casefold() == route.do.casefold()), None)


def as_route(way: Refurbish, quantity: int, written: Route | None = None) -> Route:
    """A way as a route for so many pieces; what the written route says itself (its chance, what follows) stays."""
    route = written or Route(origin=way.origin, route=RouteKind.REFURBISH)
    return msgspec.structs.replace(
        route,
        do=way.do,
        minutes=way.minutes * quantity,
        shares=way.shares,
        succeeds=route.succeeds if route.succeeds is not None else way.succeeds,
    )


def all_succeed(one: int, quantity: int) -> int:
    """The chance that each of so many pieces turns out good, rounded down (ten-thousandths)."""
    return int(one**quantity // p.CERTAIN ** (quantity - 1))


def odds(route: Route, quantity: int) -> int:
    """The chance of a route for all the pieces of a need."""
    return all_succeed(chance(route.succeeds), max(quantity, 1))
