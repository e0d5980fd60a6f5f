"""Which places an addition touches, and what their verdicts are before and after."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting import Answer, Question, Verdict, answer
from fitlore.fitting.interface import interface_of
from fitlore.fitting.ways import LONGEST_CHAIN
from fitlore.model.choices import Reason, Sides
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

Verdicts = Callable[["Graph", Sequence[Question]], Sequence[Answer]]
"""One answer per question, in their order."""


class Changed(NamedTuple):
    """A candidate at a place whose verdict an addition changes. None: it was, or will be, no candidate there."""

    place: PlaceOn
    car: Car | None
    part: Part
    before: Verdict | None
    after: Verdict | None
    side: str = ""
    """Where left and right ones differ: the side it was asked for."""


def answers(graph: Graph, questions: Sequence[Question]) -> list[Answer]:
    """The verdicts of the fitting room."""
    return [answer(graph, question) for question in questions]


def questions_about(graph: Graph, numbers: Iterable[str], at: Iterable[str] = ()) -> list[Question]:
    """Places that a claim between these numbers (or for the places `at`) may be asked at: on the platform, and on each car.

    From the numbers backwards over claims and replacements, as far as chains of claims are followed.
    """
    keys = _back(graph, {number_key(number) for number in numbers})
    places = {place.full_path: place for place in graph.places_of_originals(keys)}
    for path in at:
        platform, _, inner = path.partition("/")
        place = graph.place(platform, inner)
        if place is not None:
            places[place.full_path] = place
    found = []
    for place in places.values():
        asked = [Question(place), *_on_cars(graph, place)]
        found += [one for question in asked for one in _each_side(graph, question)]
    return found


def _each_side(graph: Graph, question: Question) -> list[Question]:
    """One question per side where left and right ones differ, else the question itself."""
    interface = interface_of(graph, question.place.place.is_)
    if (
        not question.place.sides
        or interface is None
        or interface.sides not in (Sides.MIRROR, Sides.OTHER_LENGTH)
    ):
        return [question]
    return [Question(question.place, question.car, side, both=True) for side in question.place.sides]


def _back(graph: Graph, keys: set[str]) -> set[str]:
    """These parts, and all that a chain of claims may start from to end at one of them."""
    found = set(keys)
    frontier = set(keys)
    for _ in range(LONGEST_CHAIN):
        reached: set[str] = set()
        for claim in (*graph.claims_to(frontier), *graph.claims_from(frontier)):
            reached |= {
                number_key(n) for n in (claim.instead_of, claim.use) if n and _leads(claim, n, frontier)
            }
        reached |= {number_key(part.part) for part in graph.replaces(frontier)}
        reached |= {number_key(number) for part in graph.parts(frontier) for number in _equals(part)}
        frontier = reached - found
        found |= frontier
        if not frontier:
            break
    return found


def _equals(part: Part) -> list[str]:
    """Other numbers of this very part: whatever reaches one of them reaches it."""
    return [*part.same_as, *(one.number for one in part.replaced_by if one.reason is Reason.IDENTICAL)]


def _leads(claim: CrossFit, number: str, to: set[str]) -> bool:
    """Whether the claim goes from this number to one of those: in its own direction, or in both."""
    if number == claim.instead_of:
        return number_key(claim.use) in to
    return claim.goes.value == "both-ways" and number_key(claim.instead_of or "") in to


def _on_cars(graph: Graph, place: PlaceOn) -> list[Question]:
    found = []
    for car in graph.cars():
        if car.is_ == place.on:
            found.append(Question(place, car))
        elif any(
            really.from_ == place.on and at.partition("@")[0] in (place.assembly, place.path)
            for at, really in car.really_on_it.items()
        ):
            own = graph.place(car.is_, place.path)
            found.append(Question(own or place, car))
    return found


def changed(
    before: Graph, after: Graph, questions: Sequence[Question], verdicts: Verdicts = answers
) -> tuple[Changed, ...]:
    """The candidates whose verdict differs, in the order of the questions and of the answers after."""
    rows: list[Changed] = []
    for old, new in zip(verdicts(before, questions), verdicts(after, questions), strict=True):
        was = {_key(verdict): verdict for verdict in old.verdicts}
        now = {_key(verdict): verdict for verdict in new.verdicts}
        for key in [*now, *(key for key in was if key not in now)]:
            one, other = was.get(key), now.get(key)
            if (one and one.word) != (other and other.word):
                part = (other or one).part  # type: ignore[union-attr]
                rows.append(Changed(new.place, new.car, part, one, other, new.side))
    return tuple(rows)


def _key(verdict: Verdict) -> tuple[str, str]:
    return verdict.part.maker, verdict.key
