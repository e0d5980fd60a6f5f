"""From measurements to the books: parts that measure so, and the places of a car that take a designation."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.fitting.interface import (
    WORDS,
    compare,
    interface_of,
    looked_up,
    same_size,
    wear_limits,
)
from fitlore.fitting.place import resolve
from fitlore.fitting.requirement import requirement_of
from fitlore.fitting.shape import Needed, State
from fitlore.model.amounts import read_span
from fitlore.model.because import Because
from fitlore.model.category import Feature
from fitlore.model.choices import Role, SafetyClass
from fitlore.model.part import Part
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car
from fitlore.trade.family import FAMILIES, Reading
from fitlore.trade.sizes import Band, Sized

if TYPE_CHECKING:
    from fitlore.graph.open import Graph
    from fitlore.trade.measuring import Said

_YES: Final = (State.OK, State.WORK)
_FEW: Final = 40
"""Of so many categories at most every part with a designation is looked at."""
_PLAY, _PLAY_SHARE = Decimal("0.1"), Decimal("0.004")
"""How far a sound part may be from the round figures of its designation, in mm and as a share (judgement of this project)."""
_FINEST: Final = Decimal("0.005")
"""No more than this share: a pitch is told from the next one by so little."""
_NO_LENGTHS: Final = frozenset({"pressure", "opens", "heater", "wires", "teeth", "ribs"})
"""Figures of designations that are no lengths."""


class SizedPart(NamedTuple):
    """A part of the books as something that can be measured."""

    part: Part
    sized: Sized


class Serves(NamedTuple):
    """A place of the car with a feature that a designation satisfies, by itself: the part's other features are not asked."""

    place: PlaceOn
    feature: str
    needed: str
    state: State
    because: Because


def sized_parts(graph: Graph, categories: Iterable[str], said: Sequence[Said]) -> Iterator[SizedPart]:
    """Parts of these categories that may measure so: those whose size of some feature is about one of the measurements.

    Of few categories also those whose sizes are in a designation (`6203` says bore, outside and width).
    """
    found: dict[str, Part] = {}
    kinds = sorted(categories)
    named = [kind for kind in kinds if _designated(graph, kind)] if len(kinds) <= _FEW else []
    for part in graph.parts_of(named) if named else ():
        found.setdefault(f"{part.issuer}\n{part.part}", part)
    features = {kind: _measurable(graph, kind) for kind in kinds}
    for name in sorted({name for rows in features.values() for name in rows}):
        having = [kind for kind in kinds if name in features[kind]]
        worn = max((_wear(features[kind][name]) for kind in having), default=Decimal(0))
        for one in said:
            low, high = one.value - one.error - worn, one.value + one.error + worn
            near = graph.parts_sized(having, name, low, high, one.unit)
            for part in graph.parts_of(having) if near is None else near:
                found.setdefault(f"{part.issuer}\n{part.part}", part)
    listed: dict[str, dict[str, Sized]] = {}
    for key in sorted(found):
        part = found[key]
        bands = dict(_read_out(graph, part, listed)) | dict(_bands(part, features[part.is_]))
        if bands:
            name = f"{part.maker} {part.part}".strip()
            because = Because("part-size", {"part": name, "category": part.is_}, (part.origin,))
            yield SizedPart(part, Sized(part.is_, name, bands, because))


def _measurable(graph: Graph, kind: str) -> dict[str, Feature]:
    interface = interface_of(graph, kind)
    rows = interface.features if interface else {}
    return {name: one for name, one in rows.items() if one.kind not in FAMILIES and one.kind not in WORDS}


def _designated(graph: Graph, kind: str) -> dict[str, Feature]:
    interface = interface_of(graph, kind)
    rows = interface.features if interface else {}
    return {name: one for name, one in rows.items() if one.kind in FAMILIES}


def _read_out(graph: Graph, part: Part, listed: dict[str, dict[str, Sized]]) -> Iterator[tuple[str, Band]]:
    """The sizes that a designation on the part says: as the standard lists them, else its round figures in mm.

    `listed` keeps the sizes of each kind once they have been asked for.
    """
    for name, feature in _designated(graph, part.is_).items():
        for value in part.features.get(name, ())[:1]:
            found = FAMILIES[feature.kind].read(value, graph.standards)
            if not isinstance(found, Reading):
                continue
            if feature.kind not in listed:
                sizes = FAMILIES[feature.kind].sizes(graph.standards)
                listed[feature.kind] = {size.designation: size for size in sizes}
            sized = listed[feature.kind].get(found.normal)
            if sized is not None:
                yield from sized.bands.items()
                continue
            for key, size in found.keys.items():
                if key not in _NO_LENGTHS:
                    play = min(max(_PLAY, size * _PLAY_SHARE), size * _FINEST)
                    yield key, Band.around(size, play)._replace(unit="mm")


def _wear(feature: Feature) -> Decimal:
    limits = wear_limits(feature, ()) if feature.wears else None
    return max(limits[0], limits[1]) if limits else Decimal(0)


def _bands(part: Part, features: dict[str, Feature]) -> Iterator[tuple[str, Band]]:
    """What is stated of each feature, and where nothing is, what somebody measured on one specimen."""
    for name, feature in features.items():
        measured = part.measured.get(name)
        values = part.features.get(name, ()) or ((measured.value,) if measured else ())
        spans = [span for value in values if (span := read_span(value)) is not None]
        if not spans or len({span.unit for span in spans}) > 1:
            continue
        unit, play = spans[0].unit, same_size(spans[0].unit)
        low, high = min(span.low for span in spans) - play, max(span.high for span in spans) + play
        yield name, Band(low, high, feature.wears.split(" ")[0], _wear(feature), unit)


def serving(graph: Graph, car: Car, kind: str, designation: str) -> tuple[Serves, ...]:
    """Where on the car something of this designation is what a feature asks for, in the order of the places.

    Only places where every alternative is known and satisfied are named: what is unknown is left out, it is no yes.
    """
    rows = (_served(graph, car, place, kind, designation) for place in graph.places(car.is_))
    return tuple(one for found in rows for one in found)


def _served(graph: Graph, car: Car, place: PlaceOn, kind: str, designation: str) -> Iterator[Serves]:
    interface = interface_of(graph, place.place.is_)
    if interface is None or not any(feature.kind == kind for feature in interface.features.values()):
        return
    resolved = resolve(graph, place, car)
    own = interface_of(graph, resolved.place.place.is_) or interface
    requirement, own = requirement_of(graph, resolved, own, "")
    grave = own.safety is not SafetyClass.NONE
    for name, feature in own.features.items():
        needs = [alternative.get(name) for alternative in requirement.alternatives]
        known = [need for need in needs if need is not None]
        if feature.kind != kind or not known or len(known) < len(needs) or requirement.otherwise is not None:
            continue
        safe = grave or feature.role is Role.SAFE
        found = [one for need in known for one in _met(graph, feature, need, designation, safe)]
        if all(state in _YES for state, _ in found):
            state = max((state for state, _ in found), key=_YES.index)
            needed = " or ".join(dict.fromkeys(", ".join(need.values) for need in known))
            values = {"designation": designation, "feature": name, "place": place.path, "needed": needed}
            steps = tuple(because for _, because in found)
            lines = tuple(dict.fromkeys(need.origin for need in known))
            yield Serves(resolved.place, name, needed, state, Because("serves", values, lines, under=steps))


def _met(
    graph: Graph, feature: Feature, need: Needed, designation: str, safe: bool
) -> list[tuple[State, Because]]:
    """The designation against the values of one alternative: each of them, or the best where one is enough."""
    results = [compare(feature, want, designation, graph.standards) for want in need.values]
    judged = [looked_up(result) if safe else result for result in results]
    rows = [(result.state, result.because) for result in judged]
    good = [row for row in rows if row[0] in _YES]
    return good[:1] if need.any_will_do and good else rows
