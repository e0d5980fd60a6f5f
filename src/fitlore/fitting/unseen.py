"""What nobody has looked at yet on a car, where the kind of part says that it must be looked at first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitlore.fitting.shape import Ask

if TYPE_CHECKING:
    from fitlore.fitting.place import Resolved
    from fitlore.fitting.shape import Interface
    from fitlore.model.platform import Car


def unseen(car: Car | None, resolved: Resolved, interface: Interface) -> tuple[Ask, ...]:
    """One question where the car's `not-looked-at` names the place, its assembly or its kind, and what is there is not known.

    A word there names the place where it is one of the place's own, in the singular or the plural.
    """
    if car is None or resolved.number_on_it or not interface.look_first or not car.not_looked_at:
        return ()
    from fitlore.graph.words import stem, words

    place = resolved.book_place or resolved.place
    category = interface.category
    names = [place.assembly, place.name, *place.called, category.category, *category.names.values()]
    own = {stem(word, "en") for name in names for word in words(name)}
    for text in car.not_looked_at:
        said = {stem(word, "en") for word in words(text)}
        if said and said <= own:
            look = f"nobody has looked there yet: {', '.join(interface.look_first)}"
            return (Ask("place", place.path, look),)
    return ()
