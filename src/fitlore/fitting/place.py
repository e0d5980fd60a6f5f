"""What is really on the car: which place answers, which facts are known for it, and what stays at other places."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.conditions import Held, holds, merge_asks
from fitlore.fitting.shape import Ask
from fitlore.model.because import Because
from fitlore.model.choices import Side
from fitlore.model.kleene import Tri, all_of
from fitlore.model.numbers import number_key
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car, Established, Place, ReallyOn

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Resolved(NamedTuple):
    """The place that answers for this car, and why it is that one."""

    place: PlaceOn
    book_place: PlaceOn | None
    """The place of the car's own platform, where another one answers."""
    number_on_it: str
    """The part that is really there, where somebody said so."""
    facts: dict[str, Established]
    steps: tuple[Because, ...]
    there: Held
    """Whether this car has such a place at all: its own `only-if`, and whether it is known what sits around it."""


def resolve(graph: Graph, place: PlaceOn, car: Car | None, side: str = "") -> Resolved:
    """Follow `really-on-it:` of the car. An assembly from elsewhere brings that platform's places and not this car's facts.

    Of a place on another platform than the car's nothing that is known about the car is known. Where another platform's
    assembly is on the car and has no such place, nothing is known of what goes there.
    """
    facts = dict(car.facts) if car and car.is_ == place.on else {}
    brought = {"side": Established(value=(side,))} if side else {}
    facts |= brought
    if car is None or car.is_ != place.on:
        return Resolved(place, None, "", facts, (), holds(place.place.only_if, facts))
    number, steps = _number_on(car, place, side)
    found = _brought(car, place, side)
    if found is None:
        there = _both(holds(place.place.only_if, facts), _around(car, place, side))
        return Resolved(place, None, number, facts, steps, there)
    donor = found.from_ or ""
    steps = (*steps, _really(place, found, donor))
    other = graph.place(donor, place.path)
    if other is None:
        steps = (*steps, Because("no-such-place-there", {"path": place.path}))
        bare = PlaceOn(
            origin=place.origin,
            on=found.from_ or place.on,
            assembly=place.assembly,
            name=place.name,
            sides=place.sides,
            place=Place(is_=place.place.is_),
        )
        return Resolved(bare, place, number, brought, steps, holds({}, {}))
    return Resolved(other, place, number, brought, steps, holds(other.place.only_if, brought))


def unplaced(graph: Graph, car: Car) -> tuple[str, ReallyOn] | None:
    """The first statement of what is really on the car whose place neither its platform has, nor one that it has parts of.

    What is really there is then not known, and an answer by the book could be a wrong yes.
    """
    platforms = dict.fromkeys([car.is_, *(one.from_ for one in car.really_on_it.values() if one.from_)])
    for path, found in car.really_on_it.items():
        base = split_side(path)[0].removeprefix(f"{car.is_}/")
        assembly, _, place = base.partition("/")
        known = any(
            graph.place(name, base) is not None if place else _has(graph, name, assembly)
            for name in platforms
        )
        if not known:
            return path, found
    return None


def _has(graph: Graph, platform: str, assembly: str) -> bool:
    described = graph.platform(platform)
    return described is not None and assembly in described.assemblies


def stays_on(car: Car | None, path: str, side: str = "") -> tuple[str, bool]:
    """The key of the part at another place of the car, and whether that is known of this very car (not from the book).

    `side` is the side asked about, for a path that names none.
    """
    number = _said(car, path, side)
    return (number_key(number), True) if number else ("", False)


def numbers_on(car: Car | None) -> Iterator[tuple[str, str, ReallyOn]]:
    """Every place of the car of which it is known what is there: its path, the number, and the line."""
    for path, found in car.really_on_it.items() if car else ():
        if found.number:
            yield path, found.number, found


def split_side(path: str) -> tuple[str, str]:
    """A place's path without its side, and the side."""
    base, _, side = path.partition("@")
    return base, side


def on_a_side(side: str) -> bool:
    """Whether this is the left or the right side (and not a number, or none)."""
    return side in (Side.LEFT.value, Side.RIGHT.value)


def _said(car: Car | None, path: str, side: str) -> str:
    if car is None:
        return ""
    base, own = split_side(path.removeprefix(f"{car.is_}/"))
    at = own or side
    for wanted in (f"{base}@{at}", base) if at else (base,):
        found = car.really_on_it.get(wanted)
        if found is not None and found.number:
            return found.number
    return ""


def _number_on(car: Car, place: PlaceOn, side: str) -> tuple[str, tuple[Because, ...]]:
    for path in (f"{place.path}@{side}", place.path):
        found = car.really_on_it.get(path)
        if found is not None and found.number:
            step = Because(
                "part-really-on", {"place": path, "number": found.number, **_how(found)}, (found.origin,)
            )
            return found.number, (step,)
    return "", ()


def _brought(car: Car, place: PlaceOn, side: str) -> ReallyOn | None:
    """The nearest statement that this place, or all around it, comes from another platform."""
    paths = (f"{place.path}@{side}", place.path, f"{place.assembly}@{side}", place.assembly)
    return next((f for path in paths if (f := car.really_on_it.get(path)) is not None and f.from_), None)


def _around(car: Car, place: PlaceOn, side: str) -> Held:
    """What the book cannot know: what sits on an assembly with a number of its own, or which side is from elsewhere."""
    whole = car.really_on_it.get(place.assembly)
    if whole is not None and whole.number:
        ask = Ask("place", place.path, f"what sits on the {place.assembly} {whole.number}")
        values = {"place": place.assembly, "number": whole.number, **_how(whole)}
        return Held(Tri.ASK, (ask,), (Because("part-really-on", values, (whole.origin,)),))
    for path, found in car.really_on_it.items():
        base, own = split_side(path)
        if found.from_ and own and not side and base in (place.path, place.assembly):
            ask = Ask("place", "side", "one side is from another platform", place.sides)
            return Held(Tri.ASK, (ask,), (_really(place, found, found.from_),))
    return holds({}, {})


def _both(one: Held, other: Held) -> Held:
    value = all_of((one.value, other.value))
    asks = merge_asks([one.asks, other.asks]) if value is Tri.ASK else ()
    return Held(value, asks, (*one.steps, *other.steps))


def _really(place: PlaceOn, found: ReallyOn, donor: str) -> Because:
    return Because("really-on", {"assembly": place.assembly, "from": donor, **_how(found)}, (found.origin,))


def _how(found: ReallyOn) -> dict[str, str]:
    return {"how": found.how.value if found.how else "", "by": found.by, "note": found.note}
