"""What the law says of a part beside the verdict: by country and occasion, with the day it was read.

Lawful and fitting are two statements: nothing here changes a verdict's word.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.interface import interface_of
from fitlore.model.part import Law, Part

if TYPE_CHECKING:
    from fitlore.fitting.shape import Way
    from fitlore.fitting.ways import Setting


class Lawful(NamedTuple):
    """The statements that may concern this car, and whether it has to be asked in which country it is."""

    says: tuple[Law, ...]
    asks_country: bool


def lawful(part: Part, way: Way, setting: Setting) -> Lawful:
    """What the way's claims, the part's kind and the place's kind say for the car's country, else the shop's.

    Where neither is known every country's statement stands, each under its own country, and the country is a question.
    """
    graph, car = setting.graph, setting.car
    own = interface_of(graph, part.is_)
    names = dict.fromkeys([*(own.names if own else ()), *setting.interface.names])
    kinds = [category for name in names if (category := graph.category(name)) is not None]
    every = dict.fromkeys([*way.law, *(law for kind in kinds for law in kind.law)])
    country = ((car.country if car else "") or graph.shop.country).casefold()
    says = tuple(law for law in every if not country or law.country.casefold() == country)
    return Lawful(says, bool(says) and not country)
