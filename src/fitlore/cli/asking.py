"""Free words to a place or a part: exact readings, or the near ones listed so that nothing is guessed."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NamedTuple

import click

from fitlore.cli.counter import Counter
from fitlore.cli.failure import CouldNot
from fitlore.fitting import Question
from fitlore.fitting.interface import interface_of
from fitlore.graph.lookup import Found, Match, candidates, find, speaks_of
from fitlore.graph.words import read_sides
from fitlore.graph.words import words as folded
from fitlore.model.choices import Sides
from fitlore.model.part import Part
from fitlore.model.placed import PlaceOn

MOST_PLACES = 40
"""More places than this are no question but a parts book."""


_ASKED_FIRST: Final = {"place": 0, "part": 1}
"""What is asked about is named before what is only a kind of part."""


class Wanted(NamedTuple):
    """The places asked about, and the parts that are asked for there (none: whatever fits)."""

    places: tuple[PlaceOn, ...]
    parts: tuple[Part, ...]
    side: str


def asked_of(counter: Counter, words: str, at: str, side: str) -> tuple[Counter, Wanted]:
    """As `wanted`; what says nothing of the car in hand is asked without one, if nobody picked that car."""
    try:
        return counter, wanted(counter, words, at, side)
    except CouldNot:
        if not counter.taken:
            raise
        without = counter._replace(car=None, taken="")
        try:
            return without, wanted(without, words, at, side)
        except CouldNot:
            pass
        raise


def wanted(counter: Counter, words: str, at: str, side: str) -> Wanted:
    """`words` name a place or an assembly, or a part that is asked for `at` one; a part alone is asked for wherever its
    kind sits.

    Raises CouldNot with the readings where the words are ambiguous or mean nothing.
    """
    if at:
        places, said = places_named(counter, at)
        parts = parts_or_theirs(counter, words, side or said)
        places = _taking(counter, parts, places, at)
        return Wanted(places, parts, _one_side(side, said, places))
    found = _find(counter, words)
    places = _places(counter, found.exact)
    if len(places) > 1:
        raise CouldNot(f"{words!r} may be {_few(place.full_path for place in places)}; say which")
    places = places or _assembly(counter, words)
    if places:
        return Wanted(places, (), _one_side(side, found.side, places))
    parts = _parts(found.exact) or theirs(counter, words, side)
    if parts:
        places = _where_it_sits(counter, parts)
        return Wanted(places, parts, _one_side(side, found.side, places))
    raise CouldNot(_no_reading(words, found.near))


def questions(counter: Counter, asked: Wanted) -> list[Question]:
    """One question per place; a place with left and right parts is asked for each side, unless one was said."""
    return [
        Question(place, counter.car, side, both=not asked.side, only=asked.parts)
        for place in asked.places
        for side in _sides(counter, place, asked.side)
    ]


def _sides(counter: Counter, place: PlaceOn, side: str) -> tuple[str, ...]:
    if not place.sides or side:
        return (side if side in place.sides else "",)
    interface = interface_of(counter.graph, place.place.is_)
    handed = interface is not None and interface.sides in (Sides.MIRROR, Sides.OTHER_LENGTH)
    return place.sides if handed else ("",)


def parts_named(counter: Counter, words: str, near: int = 6) -> tuple[Part, ...]:
    """The parts that words or a number mean; raises CouldNot with at most so many near ones."""
    found = _find(counter, words)
    parts = _parts(found.exact)
    if not parts:
        parts = _of_category(counter, found.exact)
    if not parts:
        raise CouldNot(_no_reading(words, found.near or found.exact, near))
    return parts


def parts_or_theirs(counter: Counter, words: str, side: str) -> tuple[Part, ...]:
    """As `parts_named`, and what stands on another platform: `Corva winder`."""
    try:
        return parts_named(counter, words)
    except CouldNot:
        parts = theirs(counter, words, side)
        if not parts:
            raise
        return parts


def theirs(counter: Counter, words: str, side: str) -> tuple[Part, ...]:
    """What stands at a place of a platform that some of the words name, by maker or model; none where they name none."""
    if counter.car is None:
        return ()
    from fitlore.cli.note_parts import part_meant, platforms_in

    if not platforms_in(counter, words):
        return ()
    try:
        meant = part_meant(counter, words, side, None, numberless=False)
    except CouldNot:
        return ()
    return (meant.part,) if meant.part else ()


def places_named(counter: Counter, words: str) -> tuple[tuple[PlaceOn, ...], str]:
    """The places that words mean (all of an assembly), and the side they say; raises CouldNot with the near ones."""
    found = _find(counter, words)
    places = _places(counter, found.exact) or _assembly(counter, words)
    if not places:
        raise CouldNot(_no_reading(words, found.near))
    return places, found.side


def _find(counter: Counter, words: str) -> Found:
    if not words.strip():
        raise CouldNot("nothing was asked; name a place or a part")
    platforms = counter.platforms
    car = counter.car
    known = car.facts["steering"].value if car and "steering" in car.facts else ()
    steering = known[0] if len(known) == 1 else ""
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
        raise CouldNot(
            f"no car is picked, and that may be {_few(sorted(found))}; pick a car or write the platform in front"
        )
    return tuple(found.values())


def _assembly(counter: Counter, words: str) -> tuple[PlaceOn, ...]:
    """Every place of the assembly that the words name in full, besides a side and the platform."""
    typed = folded(words)
    sides = {at for side in read_sides(typed, counter.graph.shop.country, "") for at in side.at}
    needed = set(range(len(typed))) - sides
    hits = [hit for hit in counter.graph.vocabulary.hits(typed) if hit.full]
    named = [hit for hit in hits if hit.entry.kind == "assembly"]
    places = [
        place
        for place in candidates(counter.graph, named, counter.platforms)
        if any(speaks_of(hit, place) for hit in named)
        and needed <= {at for hit in hits if speaks_of(hit, place) for at in hit.cover}
    ]
    return _places(counter, (Match("place", place.full_path, place, "name", words) for place in places))


def _taking(
    counter: Counter, parts: tuple[Part, ...], places: tuple[PlaceOn, ...], at: str
) -> tuple[PlaceOn, ...]:
    """Of several places those that take a part of this kind; one place is asked whatever the part is."""
    if len(places) == 1:
        return places
    kinds = {part.is_ for part in parts}
    rows = tuple(place for place in places if _takes(counter, place, kinds))
    if not rows:
        raise CouldNot(f"nothing at {at!r} takes a {' or '.join(sorted(kinds))}; name the place itself")
    return rows


def _takes(counter: Counter, place: PlaceOn, kinds: Iterable[str]) -> bool:
    return any(kind in counter.graph.narrower(place.place.is_) for kind in kinds)


def _one_side(option: str, said: str, places: tuple[PlaceOn, ...]) -> str:
    """Both sides are asked as none is: each place then says what goes on either."""
    if option and said and option != said:
        raise CouldNot(f"{said} and --side {option} are not the same")
    side = option or said
    if not side or side == "both":
        return ""
    if not any(side in place.sides for place in places):
        names = _few(dict.fromkeys(place.path for place in places))
        click.echo(f"note: {names}: nothing there is told by its side; `{side}` was left aside", err=True)
    return side


def _few(names: Iterable[str], most: int = 8) -> str:
    rows = list(names)
    more = f" and {len(rows) - most} more" if len(rows) > most else ""
    return ", ".join(rows[:most]) + more


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
    rows = [place for place in counter.graph.places(counter.car.is_) if _takes(counter, place, kinds)]
    if not rows:
        raise CouldNot(
            f"no place on a {counter.car.is_} takes a {', '.join(sorted(kinds))}; say where: `fits PART in PLACE`"
        )
    return tuple(rows)


def _no_reading(words: str, near: Iterable[Match], most: int = 6) -> str:
    first = sorted(near, key=lambda match: _ASKED_FIRST.get(match.kind, len(_ASKED_FIRST)))
    names = list(dict.fromkeys(f"{m.name} ({m.kind})" for m in first))[:most]
    hint = (
        f"; did you mean {', '.join(names)}?"
        if names
        else "; the books know neither a place nor a part by that name"
    )
    return f"{words!r} reads as nothing exactly{hint}"
