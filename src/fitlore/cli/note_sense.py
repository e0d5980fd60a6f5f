"""What a line for a part cannot mean: another kind of thing, the other side, or a part without a number where a trap stands."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product

from fitlore.cli.counter import Counter
from fitlore.cli.failure import CouldNot
from fitlore.cli.note_parts import Meant, Where, originals_at
from fitlore.fitting import Question, answer_pair
from fitlore.fitting.interface import HANDED, interface_of
from fitlore.fitting.parts import keys_of
from fitlore.fitting.requirement import other_side
from fitlore.model.part import Part
from fitlore.model.placed import PlaceOn


def must_be_possible(counter: Counter, meant: Meant, part: Part, where: Where) -> None:
    """Raises CouldNot where the words say a yes that can hardly be meant; nothing is noted then."""
    kind = where.part.is_ if where.part else where.place.place.is_ if where.place else ""
    if kind and not _related(counter, part.is_, kind):
        raise CouldNot(
            f"{part.maker} {part.part} is a {part.is_}, and what it would stand in for is a {kind}: nothing was noted; look"
            " at the number. Where one really does the other's job, the claim is written into the book by hand"
        )
    interface = interface_of(counter.graph, kind) if kind else None
    if interface is not None and interface.sides in HANDED and other_side(part, where.side):
        side = part.side.value if part.side else ""
        whose = where.place.full_path if where.place else where.part.part if where.part else ""
        raise CouldNot(
            f"{part.maker} {part.part} is a {side} one, and {whose} is the {where.side}: nothing was noted; name the side"
            " that it went to"
        )
    if meant.part is None and meant.at is not None:
        _no_trap(counter, originals_at(counter, meant.at, meant.side), meant.at, where)


def _no_trap(counter: Counter, parts: Iterable[Part], stood: PlaceOn, where: Where) -> None:
    """Raises CouldNot where what the book has at the place it stood is a trap at the place it is to go to."""
    places = [where.place] if where.place else _places_of(counter, where.part)
    for one, place in product(parts, places):
        if answer_pair(counter.graph, one, Question(place, counter.car, where.side)).danger:
            raise CouldNot(
                f"by the book {one.maker} {one.part} stands at {stood.full_path}, and that one is a trap at"
                f" {place.full_path}: nothing was noted; read the number on it, or measure it (`fitlore what`)"
            )


def _places_of(counter: Counter, part: Part | None) -> list[PlaceOn]:
    """Where the car has this part by the book; on any platform where no car is meant."""
    found = counter.graph.places_of_originals(keys_of(part)) if part else ()
    return [place for place in found if not counter.platforms or place.on in counter.platforms]


def _related(counter: Counter, one: str, other: str) -> bool:
    """Whether one kind is the other, a narrower one of it, or stands right beside it under a kind that is no whole system."""
    graph = counter.graph
    if one in graph.narrower(other) or other in graph.narrower(one):
        return True
    first, second = graph.category(one), graph.category(other)
    if first is None or second is None:
        return True
    above = graph.category(first.broader) if first.broader and first.broader == second.broader else None
    return above is not None and above.broader is not None
