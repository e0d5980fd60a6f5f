"""The neighbourhood of a record as a small graph of its own: the rules can then be asked what one change does, at any size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

import msgspec

from fitlore.graph.derive import citable, kind_of, name_of
from fitlore.graph.policy import counting
from fitlore.model.category import Category
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.platform import Platform
from fitlore.model.record import Rec

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


def around(graph: Graph, records: Iterable[Rec]) -> tuple[Rec, ...]:
    """What these records refer to, and what refers to the same parts: parts, claims, places, platforms, categories, cars."""
    found: dict[tuple[str, str, str], Rec] = {}
    start = list(citable(records))
    words = {word for record in start for word in _words(msgspec.to_builtins(record))}
    keys = {number_key(word) for word in words}
    parts = graph.parts(keys)
    own_keys = {key for part in parts for key in _keys_of(part)}
    claims = (*graph.claims_from(keys | own_keys), *graph.claims_to(keys | own_keys))
    parts = (*parts, *graph.parts({number_key(n) for claim in claims for n in _numbers(claim)}))
    parts = (*parts, *graph.replaces(own_keys))
    places = graph.places_of_originals(keys | own_keys)
    platforms = {*words, *(word.partition("/")[0] for word in words), *(place.on for place in places)}
    _add(found, [*counting(graph), *parts, *claims])
    for name in sorted(platforms):
        platform = graph.platform(name)
        if platform is not None:
            _add(found, [platform, *graph.places(name)])
    _add(found, _named(graph, words))
    every = [*found.values(), *start]
    _add(found, _categories(graph, words | {category for one in every for category in _categories_of(one)}))
    return tuple(found.values())


def _add(found: dict[tuple[str, str, str], Rec], records: Iterable[Rec]) -> None:
    for record in records:
        found.setdefault((kind_of(record), name_of(record), str(record.origin)), record)


def _words(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        yield from (word for key, one in value.items() if key != "@origin" for word in (key, *_words(one)))
    elif isinstance(value, list | tuple):
        yield from (word for one in value for word in _words(one))


def _keys_of(part: Part) -> tuple[str, str]:
    return number_key(part.part), number_key(f"{part.maker} {part.part}")


def _numbers(claim: CrossFit) -> Iterator[str]:
    yield claim.use
    yield from [claim.instead_of] if claim.instead_of else []
    yield from (number for companion in claim.with_ for number in companion.use)
    yield from (extra.number for extra in claim.extras if extra.number)


def _named(graph: Graph, words: Iterable[str]) -> Iterator[Rec]:
    """Cars, suppliers, jobs and shared work of these names."""
    for word in sorted(set(words)):
        for one in (graph.car(word), graph.supplier(word), graph.job(word), graph.shared_work(word)):
            if one is not None:
                yield one


def _categories_of(record: Rec) -> Iterator[str]:
    if isinstance(record, Part):
        yield record.is_
    elif isinstance(record, PlaceOn):
        yield record.place.is_
    elif isinstance(record, OfferFrom) and record.offer.any_:
        yield record.offer.any_
    elif isinstance(record, Category) and record.broader:
        yield record.broader
    elif isinstance(record, Platform):
        yield from (place.is_ for one in record.assemblies.values() for place in one.places.values())


def _categories(graph: Graph, names: Iterable[str]) -> Iterator[Category]:
    """The categories of these names with all above them."""
    seen: set[str] = set()
    waiting = sorted(set(names))
    while waiting:
        name = waiting.pop()
        category = graph.category(name) if name not in seen else None
        seen.add(name)
        if category is not None:
            yield category
            waiting += [category.broader] if category.broader else []
            waiting += [one.is_ for one in category.renew_with if one.is_]
