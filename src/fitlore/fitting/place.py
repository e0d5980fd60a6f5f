"""What is really on the car: which place answers, and which facts are known for it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from fitlore.model.because import Because
from fitlore.model.numbers import number_key
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car, Established, ReallyOn

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


def resolve(graph: Graph, place: PlaceOn, car: Car | None, side: str = "") -> Resolved:
    """Follow `really-on-it:` of the car. An assembly from elsewhere brings that platform's places and not this car's facts."""
    facts = dict(car.facts) if car else {}
    if side:
        facts["side"] = Established(value=(side,))
    if car is None or place.on != car.is_:
        return Resolved(place, None, "", facts, ())
    number, steps = _number_on(car, place, side)
    whole = car.really_on_it.get(place.assembly)
    if whole is None or whole.from_ is None:
        return Resolved(place, None, number, facts, steps)
    other = graph.place(whole.from_, place.path)
    step = Because(
        "really-on", {"assembly": place.assembly, "from": whole.from_, **_how(whole)}, (whole.origin,)
    )
    if other is None:
        return Resolved(
            place, None, number, {}, (*steps, step, Because("no-such-place-there", {"path": place.path}))
        )
    brought = {key: value for key, value in facts.items() if key == "side"}
    return Resolved(other, place, number, brought, (*steps, step))


def stays_on(graph: Graph, car: Car | None, path: str) -> tuple[str, bool]:
    """The key of the part at another place of the car, and whether that is known of this very car (not from the book)."""
    if car is None:
        return "", False
    on_it = car.really_on_it.get(path)
    if on_it is not None and on_it.number:
        return number_key(on_it.number), True
    base = path.partition("@")[0]
    on_it = car.really_on_it.get(base)
    if on_it is not None and on_it.number:
        return number_key(on_it.number), True
    return "", False


def _number_on(car: Car, place: PlaceOn, side: str) -> tuple[str, tuple[Because, ...]]:
    for path in (f"{place.path}@{side}", place.path):
        found = car.really_on_it.get(path)
        if found is not None and found.number:
            step = Because(
                "part-really-on", {"place": path, "number": found.number, **_how(found)}, (found.origin,)
            )
            return found.number, (step,)
    return "", ()


def _how(found: ReallyOn) -> dict[str, str]:
    return {"how": found.how.value if found.how else "", "by": found.by, "note": found.note}
