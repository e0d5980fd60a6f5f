"""Where else a cross-fit may be worth trying: places that want the same number, or one that agrees with it in everything."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.fitting import Question, Verdict, Word, answer
from fitlore.fitting.parts import alike, identity, keys_of, part_named
from fitlore.fitting.shape import State
from fitlore.model.choices import Role
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car
from fitlore.upkeep.knowing import Known

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

MOST_PARTS: Final = 300
"""So many parts of the kind are held against the needed one; of more only equal numbers lead to a hint."""
MOST_PLACES: Final = 24
"""So many places are answered for hints."""
LEAST_ROWS: Final = 2
"""Of fewer features in common nobody can say that two parts agree."""
_OPEN: Final = frozenset({Word.UNPROVEN, Word.BY_MEASURE, Word.DEPENDS})
_COUNTS: Final = frozenset({Role.MATES, Role.WORKS, Role.SAFE})


class Hint(NamedTuple):
    """A place that the claim does not reach, where its part is worth a try."""

    place: PlaceOn
    cars: tuple[Car, ...]
    """Cars of the shop that have this place."""
    original: Part
    """What is the original there."""
    same: bool
    """It is the number of the claim; else one that agrees with it in everything compared."""
    verdict: Verdict
    """What is known of the part there, with what is still to be measured."""


def hints(graph: Graph, claim: CrossFit, today: date) -> tuple[Hint, ...]:
    """The hints that a claim gives, cars of the shop first. `graph` is the knowledge with the claim in it."""
    new = part_named(graph, claim.use, "")
    old = part_named(graph, claim.instead_of, "") if claim.instead_of else None
    if new is None or old is None:
        return ()
    reached = set(Known(graph, today).reached(claim)) if claim.reaches else set[str]()
    places: dict[str, tuple[PlaceOn, Part, bool]] = {}
    for original, same in _wanted(Known(graph, today), old):
        for place in graph.places_of_originals(alike(graph, keys_of(original))):
            if place.on not in reached:
                places.setdefault(place.full_path, (place, original, same))
    found = []
    for place, original, same in list(places.values())[:MOST_PLACES]:
        verdict = _verdict(graph, place, new)
        if verdict is not None:
            found.append(Hint(place, _cars(graph, place), original, same, verdict))
    return tuple(sorted(found, key=lambda hint: (not hint.cars, not hint.same, hint.place.full_path)))


def _wanted(known: Known, old: Part) -> Iterator[tuple[Part, bool]]:
    yield old, True
    like = known.graph.parts_of(sorted(known.graph.narrower(old.is_)))
    for part in like if len(like) <= MOST_PARTS else ():
        if identity(part) != identity(old) and _agree(known, old, part) and _agree(known, part, old):
            yield part, False


def _agree(known: Known, needed: Part, offered: Part) -> bool:
    """Whether every feature that counts is known of both and agrees, and there are enough of them."""
    rows = [check for check in known.checks(needed, offered) if check.definition.role in _COUNTS]
    return len(rows) >= LEAST_ROWS and all(check.state is State.OK for check in rows)


def _verdict(graph: Graph, place: PlaceOn, part: Part) -> Verdict | None:
    """What is known of the part there, where that is neither a yes nor a no."""
    side = part.side.value if part.side and part.side.value in place.sides else ""
    for verdict in answer(graph, Question(place, None, side, only=(part,))).verdicts:
        if identity(verdict.part) == identity(part):
            return verdict if verdict.word in _OPEN and not verdict.danger else None
    return None


def _cars(graph: Graph, place: PlaceOn) -> tuple[Car, ...]:
    """Cars of the platform, but for those whose assembly is another one's; and those with this platform's assembly."""
    rows = []
    for car in graph.cars():
        brought = [
            really.from_ for at, really in car.really_on_it.items() if really.from_ and _around(at, place)
        ]
        if place.on in (brought or [car.is_]):
            rows.append(car)
    return tuple(rows)


def _around(at: str, place: PlaceOn) -> bool:
    return at.partition("@")[0] in (place.assembly, place.path)
