"""What the rules in Python look at: the records of a graph, each kind fetched once, and comparisons made once."""

from __future__ import annotations

import functools
from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Final

from fitlore.books.pinpoint import Pinpoint, TextOf, no_text
from fitlore.fitting.checks import table
from fitlore.fitting.interface import interface_of
from fitlore.fitting.place import resolve
from fitlore.fitting.requirement import part_named, requirement_of
from fitlore.fitting.shape import Check, Interface, State
from fitlore.model.category import Category
from fitlore.model.choices import Role
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.platform import Original, Place, Platform
from fitlore.model.record import Name

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_ROLES: Final = frozenset({Role.MATES, Role.WORKS, Role.SAFE, Role.JOINS})


class Known:
    """The knowledge as the rules see it, on a given day."""

    def __init__(self, graph: Graph, today: date, text_of: TextOf = no_text) -> None:
        self.graph, self.today = graph, today
        self.lines = Pinpoint(text_of)
        """For values that have a line of their own inside their record."""
        self._interfaces: dict[str, Interface | None] = {}
        self._tables: dict[tuple[str, str], tuple[Check, ...]] = {}

    @functools.cached_property
    def categories(self) -> dict[str, Category]:
        """By name."""
        return {category.category: category for category in self.graph.categories()}

    @functools.cached_property
    def narrowest(self) -> tuple[Category, ...]:
        """Those that no other is narrower than: what parts are."""
        broader = {category.broader for category in self.categories.values()}
        return tuple(category for name, category in self.categories.items() if name not in broader)

    @functools.cached_property
    def platforms(self) -> dict[str, Platform]:
        """By name, without their places."""
        return {platform.platform: platform for platform in self.graph.platforms()}

    @functools.cached_property
    def places(self) -> dict[str, dict[str, PlaceOn]]:
        """By platform, then by `assembly/place`."""
        return {name: {p.path: p for p in self.graph.places(name)} for name in self.platforms}

    @functools.cached_property
    def claims(self) -> tuple[CrossFit, ...]:
        """All of them, refuted ones too."""
        return self.graph.crossfits()

    @functools.cached_property
    def parts(self) -> tuple[Part, ...]:
        """Of every known category."""
        return self.graph.parts_of(self.categories)

    @functools.cached_property
    def offers(self) -> tuple[OfferFrom, ...]:
        """Of every supplier."""
        return tuple(offer for one in self.graph.suppliers() for offer in self.graph.offers_by(one.supplier))

    def above(self, name: str) -> Iterator[Category]:
        """The category and all broader ones, narrowest first; a circle ends it."""
        seen: set[str] = set()
        at: str | None = name
        while at is not None and at not in seen and at in self.categories:
            seen.add(at)
            yield self.categories[at]
            at = self.categories[at].broader

    def interface(self, category: str) -> Interface | None:
        """A category with all it inherits; None where no book has it."""
        if category not in self._interfaces:
            self._interfaces[category] = interface_of(self.graph, category)
        return self._interfaces[category]

    def part(self, number: str, maker: str = "") -> Part | None:
        """The one part a number means."""
        return part_named(self.graph, number, maker)

    def ends(self, claim: CrossFit) -> tuple[Part | None, Part | None]:
        """The part a claim starts at and the one it ends at, where each is known."""
        return (self.part(claim.instead_of) if claim.instead_of else None), self.part(claim.use)

    def checks(self, needed: Part, offered: Part) -> tuple[Check, ...]:
        """The interface table of one part held against another one, as at a place where that one is the original."""
        key = (named(needed), named(offered))
        if key not in self._tables:
            self._tables[key] = self.at_place(_place_of(needed), offered)
        return self._tables[key]

    def claim_checks(self, claim: CrossFit) -> tuple[Check, ...]:
        """The interface tables of a claim: against the part it starts at, and against the place it is made for."""
        old, new = self.ends(claim)
        if new is None:
            return ()
        rows = list(self.checks(old, new)) if old is not None else []
        place = self.place(claim.at) if claim.at else None
        return (*rows, *(self.at_place(place, new) if place is not None else ()))

    def claim_traps(self, claim: CrossFit) -> list[Check]:
        """Its near misses of the dangerous kind, also where it would bring the part to: places demand what originals do not."""
        new = self.ends(claim)[1]
        found = traps(self.claim_checks(claim))
        if found or new is None or claim.instead_of is None:
            return found
        places = self.graph.places_of_originals([number_key(claim.instead_of)])
        reached = [place for place in places if not claim.reaches or place.on in claim.reaches]
        return [trap for place in reached for trap in traps(self.at_place(place, new))]

    def at_place(self, place: PlaceOn, part: Part) -> tuple[Check, ...]:
        """The interface table of a part at a place, with no facts of a car known."""
        interface = self.interface(place.place.is_)
        if interface is None:
            return ()
        resolved = resolve(self.graph, place, None)
        needed, interface = requirement_of(self.graph, resolved, interface, "")
        return table(interface, needed, part, self.graph.standards)

    def place(self, full_path: str) -> PlaceOn | None:
        """`platform/assembly/place`, with or without a side."""
        platform, _, path = full_path.partition("/")
        return self.graph.place(platform, path)

    def reached(self, claim: CrossFit) -> tuple[str, ...]:
        """The platforms a claim is about: those it reaches, of its place, else those where its first part is an original."""
        if claim.reaches:
            return tuple(claim.reaches)
        if claim.at:
            return (claim.at.partition("/")[0],)
        places = self.graph.places_of_originals([number_key(claim.instead_of or "")])
        return tuple(dict.fromkeys(place.on for place in places))


def off(checks: tuple[Check, ...], waives: tuple[str, ...] = ()) -> list[Check]:
    """Rows that say no and that no stated work takes care of."""
    return [
        c for c in checks if c.state is State.OFF and c.definition.role in _ROLES and c.feature not in waives
    ]


def traps(checks: tuple[Check, ...]) -> list[Check]:
    """Rows that are a near miss of the dangerous kind."""
    return [check for check in checks if check.state is State.TRAP]


def said(checks: list[Check]) -> str:
    """`bore (22.22 mm against 19.05 mm needed), ...`."""
    return ", ".join(f"{c.feature} ({c.offered} against {c.needed} needed)" for c in checks)


def named(part: Part) -> str:
    """Maker and number."""
    return f"{part.maker} {part.part}".strip()


def _place_of(part: Part) -> PlaceOn:
    """A place of which nothing is known but that this part is right there."""
    place = Place(origin=part.origin, is_=part.is_, original=(Original(number=part.part),))
    return PlaceOn(
        origin=part.origin,
        on=Name("any"),
        assembly=Name("any"),
        name=Name("place"),
        maker=part.maker,
        place=place,
    )
