"""Which vehicles are worth looking for: from what is open to the parts that go, and from those to where they stand."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.fitting.donors import Gives, gives
from fitlore.fitting.donors_on import Vehicle, vehicle_of
from fitlore.fitting.donors_wanted import Wanted, may_go, never_used
from fitlore.fitting.parts import Identity, alike, identity, keys_of, means
from fitlore.model.numbers import number_key
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

LOOKED_AT: Final = 16
"""So many vehicles, those that promise most, are looked at part by part."""
_DEEPEST: Final = 4


class Donors(NamedTuple):
    """The vehicles, those that serve most first, and how many more carry something."""

    found: tuple[Gives, ...]
    more: int


def donors_for(graph: Graph, wanted: Sequence[Wanted], most: int = LOOKED_AT) -> Donors:
    """Platforms, described donors and whole cars on offer that carry something that goes, best first.

    Best is what serves most of what must be done, then most of all, then what may serve besides. No part and no platform is
    looked at that nothing open leads to.
    """
    parts = _going(graph, wanted)
    tally = _platforms(graph, parts)
    vehicles: dict[str, tuple[Vehicle, frozenset[tuple[str, str]]]] = {}
    for platform in tally:
        vehicles[platform] = (Vehicle(platform), frozenset(tally[platform]))
    for donor in graph.donors_of(sorted(tally)):
        vehicle = vehicle_of(graph, donor)
        vehicles[f"donor {vehicle.key}"] = (vehicle, frozenset(tally[donor.is_]))
    for vehicle, needs in _whole_cars(graph, parts):
        key = f"donor {vehicle.key}" if vehicle.donor else f"offer {vehicle.key}"
        vehicles[key] = (vehicle, vehicles.get(key, (vehicle, frozenset()))[1] | needs)
    ordered = sorted(vehicles.items(), key=lambda row: (-len(row[1][1]), row[0]))
    found = [gives(graph, vehicle, wanted, leave=False) for _, (vehicle, _) in ordered[:most]]
    good = [one for one in found if one.take or one.look]
    return Donors(tuple(sorted(good, key=_rank)), max(0, len(ordered) - most))


def _rank(one: Gives) -> tuple[object, ...]:
    serves = one.serves
    musts = sum(wanted.must for wanted in serves)
    return -musts, -len(serves), -len(one.may_serve), one.vehicle.donor is None, one.vehicle.key


class _Going(NamedTuple):
    """A part that goes for something open, and the parts it is inside of."""

    part: Part
    keys: frozenset[str]
    needs: set[tuple[str, str]]


def _going(graph: Graph, wanted: Iterable[Wanted]) -> list[_Going]:
    """The parts that go where something is open and may be taken used; then whole assemblies with one of them inside."""
    found: dict[Identity, _Going] = {}
    for one in wanted:
        for verdict in one.answer.verdicts:
            if may_go(graph, one, verdict) and not never_used(graph, one, verdict.part):
                _add(found, graph, verdict.part, {one.id})
    fresh = list(found.values())
    for _ in range(_DEEPEST):
        holding = graph.containers({key for going in fresh for key in going.keys})
        before = set(found)
        for whole in holding:
            inside = [c.number for c in whole.contains if c.number]
            needs = {
                need
                for going in fresh
                if any(means(graph, number, going.part, whole.maker) for number in inside)
                for need in going.needs
            }
            if needs:
                _add(found, graph, whole, needs)
        fresh = [going for key, going in found.items() if key not in before]
        if not fresh:
            break
    return list(found.values())


def _add(found: dict[Identity, _Going], graph: Graph, part: Part, needs: Iterable[tuple[str, str]]) -> None:
    key = identity(part)
    if key not in found:
        found[key] = _Going(part, alike(graph, keys_of(part)), set())
    found[key].needs.update(needs)


def _platforms(graph: Graph, parts: Sequence[_Going]) -> dict[str, set[tuple[str, str]]]:
    """Platform to what its cars may serve: where the parts are originals, and where parts without a number come from."""
    by_key = _by_key(parts)
    tally: dict[str, set[tuple[str, str]]] = defaultdict(set)
    for place in graph.places_of_originals(by_key):
        for original in place.place.original:
            key = number_key(original.number)
            for going in by_key.get(key, ()):
                if key not in keys_of(going.part) or means(graph, original.number, going.part, place.maker):
                    tally[place.on] |= going.needs
    for going in parts:
        if going.part.taken_from is not None:
            tally[going.part.taken_from.from_] |= going.needs
    return tally


def _whole_cars(
    graph: Graph, parts: Sequence[_Going]
) -> Iterable[tuple[Vehicle, frozenset[tuple[str, str]]]]:
    """Whole cars on offer that bring one of the parts; a described donor stands for the offers of it."""
    by_key = _by_key(parts)
    for line in graph.offers(by_key):
        if not line.offer.whole_car or line.offer.said == "none" or line.offer.stock == 0:
            continue
        keys = [number_key(content.number) for content in line.offer.brings if content.number]
        needs = frozenset(need for key in keys for going in by_key.get(key, ()) for need in going.needs)
        donor = graph.donor(line.offer.comes_off) if line.offer.comes_off else None
        yield (vehicle_of(graph, donor) if donor else Vehicle("", None, (line,))), needs


def _by_key(parts: Iterable[_Going]) -> dict[str, list[_Going]]:
    found: dict[str, list[_Going]] = defaultdict(list)
    for going in parts:
        for key in going.keys:
            found[key].append(going)
    return found
