"""What the books say of a kind of part, with all it inherits: what decides, what goes wrong, how it is made good again."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.interface import interface_of
from fitlore.fitting.shape import Interface
from fitlore.model.category import Category, FalseFriend, Fault, Law, Refurbish
from fitlore.model.platform import Car

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Kind(NamedTuple):
    """One kind of part. Lists are its own where it has any, else those of the nearest kind above it."""

    interface: Interface
    about: str
    faults: tuple[Fault, ...]
    """The ones of its own first, then those of all kinds above; each with the test that tells it."""
    refurbish: tuple[Refurbish, ...]
    inspect: tuple[str, ...]
    """What to look at before a used one is bought."""
    false_friends: tuple[FalseFriend, ...]
    law: tuple[Law, ...]
    narrower: tuple[Category, ...]
    """The kinds right below it."""
    places: tuple[str, ...]
    """Where one sits on the car that is picked."""

    @property
    def category(self) -> Category:
        """The kind itself."""
        return self.interface.category


def kind_of(graph: Graph, name: str, car: Car | None, country: str) -> Kind | None:
    """A kind by its name, with the places of `car` that take one, and the law of `country`; None where no book has it."""
    interface = interface_of(graph, name)
    if interface is None:
        return None
    chain = [one for above in interface.names if (one := graph.category(above)) is not None]
    below = graph.narrower(name)
    inner = sorted(below - {name})
    places = graph.places(car.is_) if car else ()
    return Kind(
        interface,
        about=next((one.about for one in chain if one.about), ""),
        faults=tuple(
            {fault.fault: fault for one in reversed(chain) for fault in reversed(one.faults)}.values()
        )[::-1],
        refurbish=next((one.refurbish for one in chain if one.refurbish), ()),
        inspect=next((one.inspect for one in chain if one.inspect), ()),
        false_friends=chain[0].false_friends,
        law=tuple(law for one in chain for law in one.law if law.country in ("", country)),
        narrower=tuple(
            one for at in inner if (one := graph.category(at)) is not None and one.broader == name
        ),
        places=tuple(dict.fromkeys(place.path for place in places if place.place.is_ in below)),
    )
