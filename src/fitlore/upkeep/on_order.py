"""Rules about order: circles, safety classes of categories, and prices that are out of date."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from fitlore.books.faults import fault
from fitlore.model.choices import SafetyClass
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.part import Part
from fitlore.model.placed import OfferFrom
from fitlore.upkeep.knowing import Known, named


def circles_of_parts(known: Known) -> Iterator[Diagnostic]:
    """Replacements and contents lead to an end."""
    parts = {named(part): part for part in known.parts}
    newer = {
        name: _resolved(known, part, (r.number for r in part.replaced_by)) for name, part in parts.items()
    }
    inner = {
        name: _resolved(known, part, (c.number for c in part.contains if c.number))
        for name, part in parts.items()
    }
    for code, edges in (("Q11-replacement-in-a-circle", newer), ("Q12-contains-itself", inner)):
        for ring in _rings(edges):
            part = parts[ring[0]]
            yield fault(code, part.origin, part=ring[0], chain=" → ".join([*ring, ring[0]]))


def _resolved(known: Known, part: Part, numbers: Iterable[str]) -> tuple[str, ...]:
    found = (known.part(number, part.maker) for number in numbers)
    return tuple(named(one) for one in found if one is not None)


def circles_of_categories(known: Known) -> Iterator[Diagnostic]:
    """Broader leads up to a root."""
    edges = {name: (category.broader,) for name, category in known.categories.items() if category.broader}
    for ring in _rings(edges):
        origin = known.categories[ring[0]].origin
        yield fault("Q13-category-in-a-circle", origin, category=ring[0], chain=" → ".join([*ring, ring[0]]))


def _rings(edges: Mapping[str, tuple[str, ...]]) -> list[tuple[str, ...]]:
    """The circles of a directed graph that a depth-first walk closes, each once, begun at its first name by the alphabet."""
    found: dict[frozenset[str], tuple[str, ...]] = {}
    done: set[str] = set()
    for start in sorted(edges):
        stack: list[tuple[str, Iterator[str]]] = [(start, iter(edges.get(start, ())))]
        path = [start]
        while stack and start not in done:
            name, rest = stack[-1]
            following = next(rest, None)
            if following is None:
                done.add(name)
                stack.pop()
                path.pop()
            elif following in path:
                ring = path[path.index(following) :]
                first = ring.index(min(ring))
                found.setdefault(frozenset(ring), (*ring[first:], *ring[:first]))
            elif following not in done:
                stack.append((following, iter(edges.get(following, ()))))
                path.append(following)
    return sorted(found.values())


def without_safety_class(known: Known) -> Iterator[Diagnostic]:
    """Every category has a safety class, its own or from above; told where it should be written: at the broadest."""
    classes = ", ".join(one.value for one in SafetyClass)
    roots = {}
    for name in known.categories:
        chain = list(known.above(name))
        if all(category.safety is None for category in chain):
            roots[chain[-1].category] = chain[-1]
    for name, category in roots.items():
        yield fault("Q19-no-safety-class", category.origin, category=name, classes=classes)


def weaker_than_above(known: Known) -> Iterator[Diagnostic]:
    """No category is weaker in safety than a broader one."""
    order = list(SafetyClass)
    for category in known.categories.values():
        above = [
            one for one in known.above(category.category) if one.safety is not None and one is not category
        ]
        if category.safety is None or not above or above[0].safety is None:
            continue
        if order.index(category.safety) > order.index(above[0].safety):
            yield fault(
                "Q25-weaker-safety",
                category.origin,
                category=category.category,
                own=category.safety.value,
                broader=above[0].category,
                above=above[0].safety.value,
            )


def stale_prices(known: Known) -> Iterator[Diagnostic]:
    """Prices are seen within the time that the policy sets for the kind of supplier."""
    limits = known.graph.policy.stale_after
    for offer in known.offers:
        limit, seen = limits.get(offer.trade), offer.offer.seen
        if limit is None or seen is None or offer.offer.price is None:
            continue
        days = (known.today - seen).days
        if days > limit:
            yield fault(
                "Q18-stale-price",
                offer.origin,
                what=_what(offer),
                supplier=offer.supplier,
                seen=seen.isoformat(),
                days=str(days),
                limit=str(limit),
            )


def ran_out(known: Known) -> Iterator[Diagnostic]:
    """Offers hold on the day of asking."""
    for offer in known.offers:
        until = offer.offer.until
        if until is not None and until < known.today:
            values = _what(offer), offer.supplier, until.isoformat()
            yield fault(
                "Q28-offer-ran-out", offer.origin, what=values[0], supplier=values[1], until=values[2]
            )


def _what(offer: OfferFrom) -> str:
    one = offer.offer
    return one.number or one.service or one.whole_car or (f"any {one.any_}" if one.any_ else "it")


RULES = (
    circles_of_parts,
    circles_of_categories,
    without_safety_class,
    weaker_than_above,
    stale_prices,
    ran_out,
)
