"""The one front door: the facts of a knowledge base, to be asked and not to be changed."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Mapping, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from fitlore.graph.asking import Records
from fitlore.graph.derive import base_path
from fitlore.graph.forms import ANY_BAND, Forms, bands, has_figure
from fitlore.graph.home import shop_above
from fitlore.graph.policy import counting, in_force
from fitlore.graph.store import Facts
from fitlore.graph.work import OfTheWork
from fitlore.model.category import Category
from fitlore.model.choices import How
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.job import Shop
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.platform import Platform
from fitlore.model.policy import InForce, Policy
from fitlore.model.record import Rec
from fitlore.model.supply import Supplier

if TYPE_CHECKING:
    from pathlib import Path

    from fitlore.graph.vocabulary import Entry, Vocabulary
    from fitlore.trade.standards import Standards


class Held(NamedTuple):
    """What a graph holds beside its store; whatever is seldom asked for is a function, called once."""

    shop: Shop
    shelves: tuple[str, ...]
    """Names of shelves, the nearest first; the built-in one is always the last and not named."""
    diagnostics: Callable[[], tuple[Diagnostic, ...]]
    standards: Callable[[], Standards]
    vocabulary: Callable[[], Vocabulary]
    names: Callable[[], Mapping[str, Sequence[Entry]]]
    """The names that each book gives things, by the IRI of the book's graph."""
    graph_name: Callable[[str], str]
    """The IRI of the graph a book has, or would have, by its shown path."""
    trust: Mapping[str, How] = {}
    """Per shelf that caps its evidence: the best it may count as."""
    notes: tuple[str, ...] = ()
    """What the asker should know about how the graph came to be (no writable place for a snapshot)."""
    lock: object = None
    """Kept as long as the graph lives: the shared lock on its snapshot."""


class Graph(OfTheWork):
    """Read-only. Every method is a few indexed queries, remembered for the life of the graph.

    Records come sorted by where they are written, the nearest shelf first and the built-in one last. Where a name is
    given twice, the first in that order counts; `shelf:name` asks for the one of a shelf.
    """

    def __init__(self, facts: Facts, held: Held) -> None:
        super().__init__(Records(facts, held.shelves))
        self.facts, self.held = facts, held
        self._means_one: dict[str, bool] = {}

    @staticmethod
    def from_records(
        records: Iterable[Rec], standards: Standards | None = None, shop: Shop | None = None
    ) -> Graph:
        """A graph in memory of records that no book was read for (in tests, notebooks and what-ifs)."""
        from fitlore.graph.memory import graph_of_records

        return graph_of_records(records, standards, shop)

    def what_if(self, changed: Mapping[str, bytes]) -> Graph:
        """The graph as it would be with these books' texts (shown path -> whole new text; empty: the book is gone)."""
        from fitlore.graph.whatif import what_if

        return what_if(self, changed)

    # -- what holds for the whole knowledge base

    @functools.cached_property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """Of every book of the knowledge base."""
        return self.held.diagnostics()

    @property
    def shop(self) -> Shop:
        """The shop's own settings."""
        return self.held.shop

    @functools.cached_property
    def policy(self) -> InForce:
        """The built-in policy with what the shop says differently put over it, value by value."""
        return in_force(counting(self))

    @property
    def policies(self) -> tuple[Policy, ...]:
        """All that are written, the nearest first."""
        return self._records.all_of(Policy)

    @functools.cached_property
    def standards(self) -> Standards:
        """All tables of published standards."""
        return self.held.standards()

    @functools.cached_property
    def vocabulary(self) -> Vocabulary:
        """The words of names, for look-up."""
        return self.held.vocabulary()

    # -- platforms and places

    def platform(self, name: str) -> Platform | None:
        """Without its places: its assemblies tell their sides and other names only."""
        return self._records.one(Platform, name)

    def platforms(self) -> tuple[Platform, ...]:
        """Every platform, without places."""
        return self._records.every(Platform)

    def places(self, platform: str) -> tuple[PlaceOn, ...]:
        """A platform's places; none where it is not known."""
        return self._records.look(PlaceOn, "places_on", [platform])

    def places_here(self, platforms: Iterable[str], names: Iterable[str]) -> tuple[PlaceOn, ...]:
        """A platform's places that have one of these names, or whose assembly or category has."""
        keys = [f"{platform} {name}" for name in set(names) for platform in platforms]
        return self._records.look(PlaceOn, "places_here", keys)

    def place(self, platform: str, path: str) -> PlaceOn | None:
        """`assembly/place`, with or without a side (ignored) and the platform in front."""
        found = self._records.look(
            PlaceOn, "place_at", [f"{platform}/{base_path(path).removeprefix(f'{platform}/')}"]
        )
        return found[0] if found else None

    def places_of_originals(self, keys: Iterable[str]) -> tuple[PlaceOn, ...]:
        """Places that have a part with one of these keys among their originals."""
        return self._records.look(PlaceOn, "originals", self._every_key(keys))

    def places_named(self, names: Iterable[str]) -> tuple[PlaceOn, ...]:
        """Places, on any platform and in any assembly, that have one of these names."""
        return self._records.look(PlaceOn, "places_named", names)

    def places_in(self, assemblies: Iterable[str]) -> tuple[PlaceOn, ...]:
        """Places, on any platform, of assemblies with one of these names."""
        return self._records.look(PlaceOn, "places_in", assemblies)

    def places_of(self, categories: Iterable[str]) -> tuple[PlaceOn, ...]:
        """Places, on any platform, that want exactly one of these categories."""
        return self._records.look(PlaceOn, "places_of", categories)

    # -- categories

    def category(self, name: str) -> Category | None:
        """A category by name."""
        return self._records.one(Category, name)

    def categories(self) -> tuple[Category, ...]:
        """Every category."""
        return self._records.every(Category)

    def narrower(self, name: str) -> frozenset[str]:
        """The category itself and all below it."""
        found: set[str] = set()
        frontier = {name}
        while frontier:
            found |= frontier
            below = {
                category.category for category in self._records.look(Category, "narrower", frontier)
            } - found
            counted = (self.category(at) for at in sorted(below))
            frontier = {str(c.category) for c in counted if c is not None and c.broader in found}
        return frozenset(found)

    # -- parts and claims

    def parts(self, keys: Iterable[str]) -> tuple[Part, ...]:
        """Parts by look-up key (`number_key`) of their number, or of maker and number."""
        return self._records.look(Part, "parts", keys)

    def parts_by_tail(self, tails: Iterable[str]) -> tuple[Part, ...]:
        """Parts whose number's key is one of these once the letters it starts with are dropped."""
        return self._records.look(Part, "parts_by_tail", tails)

    def parts_of(
        self, categories: Iterable[str], having: Mapping[str, str] | None = None
    ) -> tuple[Part, ...]:
        """Parts of exactly these categories; with `having`, only those that state such a value for each of its features.

        Values are compared by their normal forms (see `graph.forms`): a way to narrow a search, not a comparison.
        """
        names = sorted(set(categories))
        if not having:
            return self._records.look(Part, "parts_of", names)
        found: list[Part] | None = None
        for feature, value in sorted(having.items()):
            keys = [f"{name}|{feature}|{form}" for name in names for form in self._forms_of(value)]
            these = self._records.look(Part, "parts_having", keys)
            kept = {id(part) for part in these}
            found = list(these) if found is None else [part for part in found if id(part) in kept]
        return tuple(found or ())

    def parts_sized(
        self, categories: Iterable[str], feature: str, low: Decimal, high: Decimal, unit: str
    ) -> tuple[Part, ...] | None:
        """Parts of exactly these categories that state, or may have by a measurement, a size from `low` to `high` for a feature.

        Sizes are in a base unit. Wider than asked, never narrower; None where that is so wide that nothing is narrowed.
        """
        near = bands(low, high, unit)
        keys = [f"{name}|{feature}|{band}" for name in sorted(set(categories)) for band in (*near, ANY_BAND)]
        return self._records.look(Part, "parts_having", keys) if near else None

    def claims_from(self, keys: Iterable[str]) -> tuple[CrossFit, ...]:
        """Claims whose `instead-of` is one of these, and claims that go both ways whose `use` is."""
        return self._records.look(CrossFit, "claims_from", self._every_key(keys))

    def claims_to(self, keys: Iterable[str]) -> tuple[CrossFit, ...]:
        """Claims whose `use` is one of these."""
        return self._records.look(CrossFit, "claims_to", self._every_key(keys))

    def claims_at(self, platform: str, path: str) -> tuple[CrossFit, ...]:
        """Claims made for a place."""
        return self._records.look(
            CrossFit, "claims_at", [f"{platform}/{base_path(path).removeprefix(f'{platform}/')}"]
        )

    def crossfit(self, name: str) -> CrossFit | None:
        """A claim by name."""
        return self._records.one(CrossFit, name)

    def crossfits(self) -> tuple[CrossFit, ...]:
        """All of them; claims of the same name on two shelves are two claims."""
        return self._records.all_of(CrossFit)

    def replaces(self, keys: Iterable[str]) -> tuple[Part, ...]:
        """Parts whose `replaced-by` or `same-as` names one of these."""
        return self._records.look(Part, "replaces", self._every_key(keys))

    def containers(self, keys: Iterable[str]) -> tuple[Part, ...]:
        """Parts that contain one of these."""
        return self._records.look(Part, "containers", self._every_key(keys))

    # -- supply

    def offers(self, keys: Iterable[str]) -> tuple[OfferFrom, ...]:
        """Offers of one of these numbers, and offers that bring one along (kits, sets, whole cars)."""
        return self._records.look(OfferFrom, "offers", self._every_key(keys))

    def offers_any(self, categories: Iterable[str]) -> tuple[OfferFrom, ...]:
        """Offers of any part of one of these categories, and offers that bring such a part along."""
        return self._records.look(OfferFrom, "offers_any", categories)

    def services(self, names: Iterable[str]) -> tuple[OfferFrom, ...]:
        """Offers of one of these services, and offers that bring it along."""
        return self._records.look(OfferFrom, "services", names)

    def offers_by(self, supplier: str) -> tuple[OfferFrom, ...]:
        """What one supplier offers."""
        return self._records.look(OfferFrom, "offers_by", [supplier])

    def supplier(self, name: str) -> Supplier | None:
        """Without its offers."""
        return self._records.one(Supplier, name)

    def suppliers(self) -> tuple[Supplier, ...]:
        """Every supplier, without offers."""
        return self._records.every(Supplier)

    # -- how it is asked

    def _every_key(self, keys: Iterable[str]) -> set[str]:
        """These keys, and the other key (number alone, maker and number) of a part they mean, where each means one part.

        Nothing is added where makers share a number: what is said of a bare number is then nobody's in particular.
        """
        wanted = set(keys)
        every = [{number_key(p.part), number_key(f"{p.issuer} {p.part}")} for p in self.parts(wanted)]
        self.parts(key for both in every for key in both)  # asked at one go
        for both in every:
            if any(map(self._alone, both & wanted)):
                wanted |= set(filter(self._alone, both))
        return wanted

    def _alone(self, key: str) -> bool:
        if key not in self._means_one:
            self._means_one[key] = len(self.parts([key])) == 1
        return self._means_one[key]

    def _forms_of(self, value: str) -> tuple[str, ...]:
        """The normal forms of a value; the tables of standards are wanted only where it can be a designation."""
        return (self._forms if has_figure(value) else Forms(None)).of(value)

    @functools.cached_property
    def _forms(self) -> Forms:
        return Forms(self.standards)


def find_shop(start: Path) -> Path | None:
    """The nearest folder from `start` upwards that holds a fitlore.yaml; None where there is none.

    As `books.layout.find_shop`, without what reading books needs.
    """
    from pathlib import Path

    found = shop_above(str(start))
    return Path(found) if found else None


def open_graph(
    folder: Path | str | None, *, progress: Callable[[str], None] | None = None, cache: Path | None = None
) -> Graph:
    """The graph of the knowledge base in `folder` (where fitlore.yaml is; None: the built-in shelf only), up to date.

    Opens the kept snapshot where no book changed since; else reads the changed books and keeps a new one.
    """
    from fitlore.graph.snapshot import current_graph

    return current_graph(folder, progress, cache)
