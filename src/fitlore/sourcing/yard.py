"""Yard prices by kind (`any: alternator, price: 25.00 GBP`): they serve a need where the very part is known to stand there.

A price by kind says what any of them costs, not that one is there that fits. So it counts for a part where a donor that stands
with this supplier (`from:`) surely has it, by what was seen on it or by its platform's book. Where nobody knows whether one
stands there, the offer is left out, and `where` says so. A piece is sold once: whoever pulls it, at whichever of several
prices by kind, or with the whole car, takes it from the same pool.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.donors_on import standing, vehicle_of
from fitlore.fitting.interface import interface_of
from fitlore.model.kleene import Tri
from fitlore.model.numbers import number_key
from fitlore.model.placed import OfferFrom
from fitlore.sourcing import problem as p

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Stands(NamedTuple):
    """A piece that is sold at a price by kind, and stands on a donor there."""

    line: OfferFrom
    item: str
    donor: str
    pieces: int

    @property
    def pool(self) -> str:
        """What there is of it on that donor, however it is bought."""
        return f"{self.item} on {self.donor}"

    @property
    def line_pool(self) -> str:
        """What there is at this price by kind, whatever is taken for it."""
        return f"stock of {self.line.id}"


class Yard(NamedTuple):
    """Prices by kind for what is wanted: the pieces known to stand there, and the offers of which nobody knows."""

    stands: tuple[Stands, ...]
    unknown: tuple[OfferFrom, ...]


def yard_for(graph: Graph, numbers: Iterable[str], listed: Mapping[str, set[str]]) -> Yard:
    """The prices by kind for these parts (look-up keys). `listed`: what each supplier offers by number; that goes before."""
    parts = {number_key(part.part): part for part in graph.parts(sorted(set(numbers)))}
    kinds = {part.is_ for part in parts.values()}
    names = {name for kind in kinds if (face := interface_of(graph, kind)) for name in face.names}
    lines = [o for o in graph.offers_any(sorted(names)) if o.offer.any_ in names]
    if not lines:
        return Yard((), ())
    found = list(_standing(graph, lines, {key: part.is_ for key, part in parts.items()}, listed))
    known = {row.line.id for row in found}
    return Yard(tuple(found), tuple(line for line in lines if line.id not in known))


def _standing(
    graph: Graph, lines: Iterable[OfferFrom], kind_of: Mapping[str, str], listed: Mapping[str, set[str]]
) -> Iterator[Stands]:
    donors = graph.donors()
    for line in lines:
        kinds = graph.narrower(line.offer.any_ or "")
        wanted = {key for key, kind in kind_of.items() if kind in kinds} - listed.get(line.supplier, set())
        for donor in donors:
            if donor.from_ != line.supplier or not wanted:
                continue
            pieces: dict[str, int] = {}
            for row in standing(graph, vehicle_of(graph, donor), (), wanted):
                key = number_key(row.part.part)
                if row.there is Tri.TRUE and not row.gone and not row.asks and key in wanted:
                    pieces[key] = max(pieces.get(key, 0), row.pieces)
            for key, count in sorted(pieces.items()):
                yield Stands(line, key, donor.donor, count)


def pools_of(
    stands: Iterable[Stands], offers: Iterable[p.Offer], lines: Mapping[str, OfferFrom]
) -> tuple[tuple[p.Pool, ...], dict[str, tuple[p.Take, ...]]]:
    """What there is of each piece on a donor that can be bought in several ways, and which whole cars take it along.

    A stock that is said of a price by kind is a pool too, where several pieces can be had at that price.
    """
    pools: dict[str, p.Pool] = {}
    takes: dict[str, tuple[p.Take, ...]] = {}
    whole = [(o.id, lines[o.id].offer.comes_off) for o in offers if lines[o.id].offer.whole_car]
    rows = list(stands)
    ways, at_price = Counter(row.pool for row in rows), Counter(row.line_pool for row in rows)
    for row in rows:
        cars = [name for name, donor in whole if donor == row.donor]
        if (cars or ways[row.pool] > 1) and row.pool not in pools:
            pools[row.pool] = p.Pool(row.pool, row.pieces)
            for name in cars:
                takes[name] = (*takes.get(name, ()), p.Take(row.pool, row.pieces))
        if row.line.offer.stock is not None and at_price[row.line_pool] > 1:
            pools[row.line_pool] = p.Pool(row.line_pool, row.line.offer.stock)
    return tuple(pools.values()), takes
