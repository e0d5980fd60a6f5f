"""Free words to a place or a part: exact readings, or the near ones listed so that nothing is guessed."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from fitlore.cli.counter import Counter
from fitlore.cli.failure import CouldNot
from fitlore.graph.lookup import Found, Match, find
from fitlore.model.part import Part
from fitlore.model.placed import PlaceOn

MOST_PLACES = 40
"""More places than this are no question but a parts book."""


class Wanted(NamedTuple):
    """The places asked about, and the parts that are asked for there (none: whatever fits)."""

    places: tuple[PlaceOn, ...]
    parts: tuple[Part, ...]
    side: str


def wanted(counter: Counter, words: str, at: str, side: str) -> Wanted:
    """`words` name a place, or a part that is asked for `at` a place; a part alone is asked for wherever its kind sits.

    Raises CouldNot with the readings where the words are ambiguous or mean nothing.
    """
    if at:
        parts = parts_named(counter, words)
        places, said = places_named(counter, at)
        return Wanted(places, parts, side or said)
    found = _find(counter, words)
    places = _places(counter, found.exact)
    if places:
        return Wanted(places, (), side or found.side)
    parts = _parts(found.exact)
    if parts:
        return Wanted(_where_it_sits(counter, parts), parts, side or found.side)
    raise CouldNot(_no_reading(words, found.near))


def parts_named(counter: Counter, words: str) -> tuple[Part, ...]:
    """The parts that words or a number mean; raises CouldNot with the near ones."""
    found = _find(counter, words)
    parts = _parts(found.exact)
    if not parts:
        parts = _of_category(counter, found.exact)
    if not parts:
        raise CouldNot(_no_reading(words, found.near or found.exact))
    return parts


def places_named(counter: Counter, words: str) -> tuple[tuple[PlaceOn, ...], str]:
    """The places that words mean, and the side they say; raises CouldNot with the near ones."""
    found = _find(counter, words)
    places = _places(counter, found.exact)
    if not places:
        raise CouldNot(_no_reading(words, found.near))
    return places, found.side


def _find(counter: Counter, words: str) -> Found:
    if not words.strip():
        raise CouldNot("nothing was asked; name a place or a part")
    platforms = counter.platforms
    car = counter.car
    steering = car.facts["steering"].value[0] if car and "steering" in car.facts else ""
    country = (car.country if car else "") or counter.graph.shop.country
    found = find(counter.graph, words, platforms=platforms, steering=steering, country=country)
    if found.asks:
        raise CouldNot(f"{words!r}: which side that is depends on the car's {found.asks}; say left or right")
    return found


def _places(counter: Counter, matches: Iterable[Match]) -> tuple[PlaceOn, ...]:
    found = {m.record.full_path: m.record for m in matches if isinstance(m.record, PlaceOn)}
    if len(found) > MOST_PLACES:
        raise CouldNot(f"that means {len(found)} places; pick a car (`fitlore car`) or say more")
    if counter.car is None and len({place.on for place in found.values()}) > 1:
        names = ", ".join(sorted(found))
        raise CouldNot(
            f"no car is picked, and that may be {names}; pick a car or write the platform in front"
        )
    return tuple(found.values())


def _parts(matches: Iterable[Match]) -> tuple[Part, ...]:
    return tuple(m.record for m in matches if isinstance(m.record, Part))


def _of_category(counter: Counter, matches: Iterable[Match]) -> tuple[Part, ...]:
    names = [m.name for m in matches if m.kind == "category"]
    return (
        counter.graph.parts_of(sorted({n for name in names for n in counter.graph.narrower(name)}))
        if names
        else ()
    )


def _where_it_sits(counter: Counter, parts: tuple[Part, ...]) -> tuple[PlaceOn, ...]:
    """Places of the car's platform that want a part of this kind, a broader or a narrower one."""
    if counter.car is None:
        raise CouldNot("pick a car first (`fitlore car`), or say where: `fits PART in PLACE`")
    kinds = {part.is_ for part in parts}
    rows = [
        place
        for place in counter.graph.places(counter.car.is_)
        if any(kind in counter.graph.narrower(place.place.is_) for kind in kinds)
    ]
    if not rows:
        raise CouldNot(
            f"no place on a {counter.car.is_} takes a {', '.join(sorted(kinds))}; say where: `fits PART in PLACE`"
        )
    return tuple(rows)


def _no_reading(words: str, near: Iterable[Match]) -> str:
    names = list(dict.fromkeys(f"{m.name} ({m.kind})" for m in near))[:6]
    hint = (
        f"; did you mean {', '.join(names)}?"
        if names
        else "; the books know neither a place nor a part by that name"
    )
    return f"{words!r} reads as nothing exactly{hint}"
