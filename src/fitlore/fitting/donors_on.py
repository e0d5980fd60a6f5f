"""What stands on a vehicle that is broken for parts: by its platform's book, by what was seen on it, by what is sold with it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.conditions import Held, holds, merge_asks
from fitlore.fitting.parts import Identity, identity, keys_of, parts_meant, parts_or_stub
from fitlore.fitting.requirement import other_side
from fitlore.fitting.shape import Ask
from fitlore.model.because import Because
from fitlore.model.kleene import Tri, all_of
from fitlore.model.numbers import number_key
from fitlore.model.part import Part
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.platform import Established
from fitlore.model.supply import Donor, StillOn

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_DEEPEST = 4
"""Assemblies in assemblies that are looked into."""


class Vehicle(NamedTuple):
    """Something to take parts off: any car of a platform, a described one, a whole one that somebody offers."""

    platform: str
    """Empty where only what is sold with it is known."""
    donor: Donor | None = None
    sale: tuple[OfferFrom, ...] = ()
    """Offers of the whole car."""

    @property
    def key(self) -> str:
        """What tells it from every other vehicle: the name in the books, else the offer."""
        if self.donor is not None:
            return self.donor.donor
        return self.sale[0].id if self.sale else self.platform


class Standing(NamedTuple):
    """A part on a vehicle."""

    part: Part
    at: str
    """`assembly/place`, with its side; empty where it is only known to come with the car."""
    there: Tri
    """Whether it is on this very one: by its facts, and by what was seen."""
    asks: tuple[Ask, ...]
    pieces: int
    because: Because
    gone: bool = False
    """Somebody saw that it is gone."""


def vehicle_of(graph: Graph, donor: Donor) -> Vehicle:
    """A described donor, with the offers of it as a whole."""
    offers = graph.offers_by(donor.from_) if donor.from_ else ()
    sale = tuple(o for o in offers if o.offer.whole_car and o.offer.comes_off == donor.donor)
    return Vehicle(donor.is_, donor, sale)


def standing(graph: Graph, vehicle: Vehicle, kinds: Iterable[str], keys: Iterable[str]) -> list[Standing]:
    """Every part on the vehicle that is of one of these categories, or has one of these keys; what is inside it too.

    Each part stands once per place, both sides counted together where nothing tells them apart.
    """
    wanted, known = frozenset(kinds), frozenset(keys)
    found = [
        row
        for row in _joined([*_by_the_book(graph, vehicle), *_sold(graph, vehicle)])
        if row.part.is_ in wanted or known.intersection(keys_of(row.part))
    ]
    return _surest(found)


def _by_the_book(graph: Graph, vehicle: Vehicle) -> Iterator[Standing]:
    places = graph.places(vehicle.platform) if vehicle.platform else ()
    seen = vehicle.donor.still_has if vehicle.donor else ()
    numbers = [original.number for place in places for original in place.place.original]
    graph.parts(map(number_key, [*numbers, *(still.number for still in seen if still.number)]))  # at one go
    for place in places:
        for side in place.sides or ("",):
            for row in _at(graph, vehicle, place, side):
                yield from _with_inside(graph, row, 0)


def _at(graph: Graph, vehicle: Vehicle, place: PlaceOn, side: str) -> Iterator[Standing]:
    """What is at one place and side: what was read on it, else the originals that its facts leave possible."""
    donor, path = vehicle.donor, f"{place.path}@{side}" if side else place.path
    facts: dict[str, Established] = dict(donor.facts) if donor else {}
    if side:
        facts["side"] = Established(value=(side,))
    still = _seen(donor, place, side)
    gone = donor is not None and still is None and _is_gone(donor, place, side)
    if still is not None and still.number:
        for part in parts_or_stub(graph, still.number, place.maker, place.place.is_):
            values = {"vehicle": vehicle.key, "number": part.part, "at": path, "note": still.note}
            because = Because("donor-seen", values, (still.origin,))
            yield Standing(part, path, Tri.TRUE, (), still.quantity, because)
        return
    for original in place.place.original:
        held = _both(holds(place.place.only_if, facts), holds(original.only_if, facts))
        for part in parts_or_stub(graph, original.number, place.maker, place.place.is_):
            if other_side(part, side):
                continue
            there, asks, step = _there(held, donor, still, gone, path)
            values = {"vehicle": vehicle.key, "part": part.part, "at": path, "condition": there.value}
            lines = (original.origin,) if original.origin.book else (place.origin,)
            because = Because("donor-book", values, lines, under=(*held.steps, *step))
            yield Standing(part, path, there, asks, place.place.quantity, because, gone)


def _there(
    held: Held, donor: Donor | None, still: StillOn | None, gone: bool, path: str
) -> tuple[Tri, tuple[Ask, ...], tuple[Because, ...]]:
    """Whether an original is on this very vehicle. What nobody looked at on a described one has to be looked at."""
    if donor is None:
        return held.value, held.asks, ()
    if gone:
        return Tri.FALSE, (), (Because("donor-gone", {"at": path}, (donor.origin,)),)
    if still is not None:
        step = Because("donor-seen-place", {"at": path, "note": still.note}, (still.origin,))
        return held.value, held.asks, (step,)
    if held.value is Tri.FALSE:
        return Tri.FALSE, (), ()
    return Tri.ASK, (*held.asks, Ask("place", path, "whether it is still there")), ()


def _seen(donor: Donor | None, place: PlaceOn, side: str) -> StillOn | None:
    paths = (f"{place.path}@{side}", place.path) if side else (place.path,)
    rows = {still.at.removeprefix(f"{place.on}/"): still for still in (donor.still_has if donor else ())}
    return next((rows[path] for path in paths if path in rows), None)


def _is_gone(donor: Donor, place: PlaceOn, side: str) -> bool:
    names = {place.assembly, place.path, f"{place.assembly}@{side}", f"{place.path}@{side}"}
    return any(str(gone).removeprefix(f"{place.on}/") in names for gone in donor.gone)


def _sold(graph: Graph, vehicle: Vehicle) -> Iterator[Standing]:
    """What the offers of the whole car say that it brings."""
    for line in vehicle.sale:
        for content in line.offer.brings:
            if content.number is None:
                continue
            for part in parts_meant(graph, content.number):
                values = {"offer": line.offer.whole_car or "", "from": line.supplier, "number": part.part}
                because = Because("donor-sold-with", values, (line.origin,))
                row = Standing(part, "", Tri.TRUE, (), content.quantity, because)
                yield from _with_inside(graph, row, 0)


def _with_inside(graph: Graph, row: Standing, depth: int) -> Iterator[Standing]:
    """The part itself, and the parts it contains."""
    yield row
    if depth == _DEEPEST:
        return
    for content in row.part.contains:
        if content.number:
            for part in parts_meant(graph, content.number, row.part.maker):
                values: dict[str, str] = {"part": part.part, "whole": row.part.part}
                because = Because("donor-inside", values, (row.part.origin,), under=(row.because,))
                pieces = row.pieces * content.quantity
                yield from _with_inside(
                    graph, row._replace(part=part, pieces=pieces, because=because), depth + 1
                )


def _joined(rows: Iterable[Standing]) -> list[Standing]:
    """Left and right of a part that is the same on both sides count together."""
    found: dict[tuple[Identity, str, Tri], Standing] = {}
    for row in rows:
        base = row.at.partition("@")[0]
        key = (identity(row.part), base, row.there)
        if key in found:
            old = found[key]
            asks = merge_asks([_sideless(old.asks), _sideless(row.asks)])
            found[key] = old._replace(at=base, pieces=old.pieces + row.pieces, asks=asks)
        else:
            found[key] = row
    return list(found.values())


def _sideless(asks: Iterable[Ask]) -> tuple[Ask, ...]:
    return tuple(
        Ask(a.about, a.name.partition("@")[0], a.look, a.choices) if a.about == "place" else a for a in asks
    )


def _surest(rows: list[Standing]) -> list[Standing]:
    """What is sold with the car is there, wherever the book puts it; it is not counted twice."""
    sold: dict[Identity, Standing] = {identity(row.part): row for row in rows if not row.at}
    placed: Mapping[Identity, list[Standing]] = _by_part(row for row in rows if row.at)
    found: list[Standing] = []
    for key, these in placed.items():
        certain = any(row.there is Tri.TRUE for row in these)
        for at, row in enumerate(these):
            if key in sold and not certain and at == 0:
                row = _as_sold(row, sold[key])
            found.append(row)
    return [*found, *(row for key, row in sold.items() if key not in placed)]


def _as_sold(row: Standing, sold: Standing) -> Standing:
    """A part that the book has on it and the seller too; where somebody saw that it is gone, both are told."""
    steps = (*row.because.under, sold.because)
    asks = (Ask("place", row.at, "sold with it, and said to be gone"),) if row.gone else ()
    there = Tri.ASK if row.gone else Tri.TRUE
    values = {**row.because.values, "condition": there.value}
    because = Because(row.because.code, values, row.because.origins, under=steps)
    return row._replace(there=there, asks=asks, pieces=sold.pieces, because=because, gone=False)


def _by_part(rows: Iterable[Standing]) -> dict[Identity, list[Standing]]:
    found: dict[Identity, list[Standing]] = {}
    for row in rows:
        found.setdefault(identity(row.part), []).append(row)
    return found


def _both(one: Held, other: Held) -> Held:
    value = all_of((one.value, other.value))
    asks = merge_asks([one.asks, other.asks]) if value is Tri.ASK else ()
    return Held(value, asks, (*one.steps, *other.steps))
