"""How candidates come to be candidates: originals, successors, chains of claims, claims for the place, and dimensions."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.fitting.claims import Link, claim_way, link_for, link_for_place
from fitlore.fitting.conditions import holds
from fitlore.fitting.place import Resolved
from fitlore.fitting.requirement import other_side, part_named
from fitlore.fitting.shape import Interface, Requirement, Way
from fitlore.model.because import Because
from fitlore.model.choices import Goes, Reason
from fitlore.model.job import ClassPolicy
from fitlore.model.kleene import Tri
from fitlore.model.numbers import number_key
from fitlore.model.part import Part
from fitlore.model.platform import Car

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

LONGEST_CHAIN = 4
"""Links of a chain of claims; a longer one is hearsay about hearsay."""


class Setting(NamedTuple):
    """Everything a way is judged by."""

    graph: Graph
    resolved: Resolved
    interface: Interface
    requirement: Requirement
    car: Car | None
    side: str
    both: bool
    rules: ClassPolicy


class Found(NamedTuple):
    """A candidate and one way to it."""

    part: Part
    way: Way


def find_ways(setting: Setting) -> Iterator[Found]:
    """All candidates with every way to each, in a fixed order."""
    yield from _originals(setting)
    yield from _chains(setting)
    yield from _place_claims(setting)
    yield from _by_the_book(setting)


def _originals(setting: Setting) -> Iterator[Found]:
    conditions = dict(setting.requirement.conditions)
    for original in setting.resolved.place.place.original:
        part = part_named(setting.graph, original.number, setting.resolved.place.maker)
        tri = conditions.get(number_key(original.number))
        if part is None or tri is None or other_side(part, setting.side):
            continue
        held = holds(original.only_if, setting.resolved.facts)
        origin = original.origin if original.origin.book else setting.resolved.place.origin
        because = Because(
            "way-original", {"place": setting.resolved.place.full_path}, (origin,), under=held.steps
        )
        yield Found(part, Way("original", condition=held.value, asks=held.asks, because=because))


class _Reached(NamedTuple):
    key: str
    links: tuple[Link, ...]
    condition: Way


def _chains(setting: Setting) -> Iterator[Found]:
    """Breadth first from the valid originals over replacements and cross-fits, each in its own direction."""
    starts = [
        (number_key(p.part), p, found.way)
        for p in setting.requirement.valid
        for found in _own_way(setting, p)
    ]
    frontier: list[tuple[Part, tuple[Link, ...], Way]] = [(part, (), way) for _, part, way in starts]
    seen = {key for key, _, _ in starts}
    for _ in range(LONGEST_CHAIN):
        following: list[tuple[Part, tuple[Link, ...], Way]] = []
        for part, links, start in frontier:
            for link in _links_from(setting, part):
                chain = (*links, link)
                if other_side(link.to, setting.side):
                    continue
                yield Found(link.to, claim_way(chain, start, setting))
                if link.key not in seen and not link.dead:
                    following.append((link.to, chain, start))
        seen.update(number_key(part.part) for part, _, _ in following)
        frontier = following


def _own_way(setting: Setting, part: Part) -> Iterator[Found]:
    return (found for found in _originals(setting) if found.part == part)


def _links_from(setting: Setting, part: Part) -> Iterator[Link]:
    graph, key = setting.graph, number_key(part.part)
    for claim in graph.claims_from([key]):
        forwards = claim.instead_of is not None and _names(claim.instead_of, part)
        if forwards:
            yield from link_for(setting, claim, claim.use)
        elif claim.goes is Goes.BOTH_WAYS and claim.instead_of is not None and _names(claim.use, part):
            yield from link_for(setting, claim, claim.instead_of)
    for replacement in part.replaced_by:
        to = part_named(graph, replacement.number, part.maker)
        if to is not None:
            yield Link(to, None, replacement, part)
    for number in part.same_as:
        to = part_named(graph, number, "")
        if to is not None:
            yield Link(to, None, None, part)
    for older in graph.replaces([key]):
        for replacement in older.replaced_by:
            if replacement.reason is Reason.IDENTICAL and _names(replacement.number, part):
                yield Link(older, None, replacement, part)
        if any(_names(number, part) for number in older.same_as):
            yield Link(older, None, None, part)


def _names(number: str, part: Part) -> bool:
    return number_key(number) in (number_key(part.part), number_key(f"{part.maker} {part.part}"))


def _place_claims(setting: Setting) -> Iterator[Found]:
    place = setting.resolved.place
    for claim in setting.graph.claims_at(place.on, place.path):
        for link in link_for_place(setting, claim):
            if not other_side(link.to, setting.side):
                yield Found(link.to, claim_way((link,), Way("place"), setting))


def _by_the_book(setting: Setting) -> Iterator[Found]:
    """What the book of the car's own platform says, where something else is on the car: shown so that nobody buys it."""
    own = setting.resolved.book_place
    if own is None or setting.car is None:
        return
    for original in own.place.original:
        part = part_named(setting.graph, original.number, own.maker)
        held = holds(original.only_if, setting.car.facts)
        if part is None or held.value is Tri.FALSE or other_side(part, setting.side):
            continue
        because = Because(
            "way-book", {"place": own.full_path, "number": part.part}, (own.origin,), under=held.steps
        )
        yield Found(part, Way("book", applies=False, because=because))


def by_measure(setting: Setting) -> Iterator[Found]:
    """Parts of the category, or a narrower one, that may satisfy every alternative of a known requirement."""
    if not setting.requirement.alternatives:
        return
    having = _indexed(setting)
    for part in setting.graph.parts_of(
        sorted(setting.graph.narrower(setting.interface.category.category)), having
    ):
        if not other_side(part, setting.side):
            yield Found(
                part, Way("measure", because=Because("way-measure", {"part": part.part}, (part.origin,)))
            )


def _indexed(setting: Setting) -> dict[str, str]:
    """One required feature that every alternative states alike and that is compared for sameness: it narrows the search."""
    for name, feature in setting.interface.features.items():
        if (
            feature.rule.value != "same"
            or feature.optional
            or feature.tolerance
            or feature.kind not in ("choice", "text")
        ):
            continue
        needs = {
            alternative[name].values
            for alternative in setting.requirement.alternatives
            if name in alternative
        }
        if len(needs) == 1 and all(name in alternative for alternative in setting.requirement.alternatives):
            values = needs.pop()
            if len(values) == 1:
                return {name: values[0]}
    return {}


def replace_way(way: Way, **changes: object) -> Way:
    """A copy of a way with some fields changed."""
    return msgspec.structs.replace(way, **changes)
