"""What a place demands of any part put there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitlore.fitting.cells import covered
from fitlore.fitting.conditions import Held, holds, merge_asks
from fitlore.fitting.interface import demanded, narrowed
from fitlore.fitting.measured import stated
from fitlore.fitting.parts import part_named, parts_or_stub, with_twins
from fitlore.fitting.place import Resolved, on_a_side
from fitlore.fitting.shape import Ask, Interface, Listed, Needed, Requirement
from fitlore.model.because import Because
from fitlore.model.choices import Side
from fitlore.model.kleene import Tri
from fitlore.model.numbers import number_key
from fitlore.model.origin import Origin
from fitlore.model.part import Part
from fitlore.model.platform import Original

__all__ = ["other_side", "part_named", "requirement_of"]

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class _Originals:
    """The originals of a place, sorted by what is known of this car."""

    def __init__(self) -> None:
        self.listed: list[Listed] = []
        self.steps: list[Because] = []
        self.asks: list[tuple[Ask, ...]] = []
        self.conditions: list[Original] = []
        self.unclear = False
        """One of them is a number of several parts."""

    def add(self, graph: Graph, resolved: Resolved, original: Original, side: str) -> None:
        """Takes one listing: a number no book describes is an original of which nothing else is known."""
        held, place = holds(original.only_if, resolved.facts), resolved.place
        found = parts_or_stub(graph, original.number, place.maker, place.place.is_)
        if all(other_side(part, side) for part in found):
            return
        values = {"number": original.number, "place": place.full_path, "condition": held.value.value}
        self.steps.append(Because("original-of-place", values, _lines(original, resolved), under=held.steps))
        if held.value is Tri.FALSE:
            return
        self.conditions.append(original)
        self.asks.append(held.asks)
        if len(found) > 1:
            self.unclear = True
            return
        self.listed.append(Listed(found[0], held.value, held.asks, _because(original, resolved, held)))


def requirement_of(
    graph: Graph, resolved: Resolved, interface: Interface, side: str
) -> tuple[Requirement, Interface]:
    """The place's must-be, and for features it does not name those of the originals valid for this car.

    Originals whose condition is unknown each make an alternative: what differs between them is a question. Where it may be
    that none of them is right, `otherwise` says what is known then. The interface comes back with what the categories of
    the originals add to it.
    """
    place = resolved.place.place
    must = {
        name: Needed(values, resolved.place.origin, any_will_do=True)
        for name, values in place.must_be.items()
    }
    found = _Originals()
    for original in place.original:
        found.add(graph, resolved, original, side)
    parts = [row.part for row in found.listed]
    interface = narrowed(graph, interface, [part.is_ for part in parts])
    interface = demanded(interface, must) if interface.features else interface
    alternatives = _alternatives(graph, interface, must, parts)
    gap = found.unclear or (bool(parts) and not _one_is_right(graph, resolved, found))
    steps = [*resolved.steps, *resolved.there.steps, *found.steps]
    if resolved.number_on_it:
        steps.append(Because("what-is-on-it-noted", {"number": resolved.number_on_it}))
    values = {"place": resolved.place.full_path, "alternatives": str(len(alternatives))}
    requirement = Requirement(
        alternatives=alternatives,
        valid=tuple(parts),
        conditions=tuple((number_key(row.part.part), row.condition) for row in found.listed),
        asks=merge_asks(found.asks),
        because=Because("requirement", values, (resolved.place.origin,), under=tuple(steps)),
        listed=tuple(found.listed),
        otherwise=must if gap else None,
    )
    return requirement, interface


def other_side(part: Part, side: str) -> bool:
    """Whether the part is made for the side that is not asked about."""
    return on_a_side(side) and part.side in (Side.LEFT, Side.RIGHT) and part.side.value != side


def _one_is_right(graph: Graph, resolved: Resolved, found: _Originals) -> bool:
    """Whether at least one of the listed originals is right for this car, whatever its unknown facts are."""
    if any(row.condition is Tri.TRUE for row in found.listed):
        return True
    platform = graph.platform(resolved.place.on)
    return covered([original.only_if for original in found.conditions], resolved.facts, platform)


def _alternatives(
    graph: Graph, interface: Interface, must: dict[str, Needed], originals: list[Part]
) -> tuple[dict[str, Needed], ...]:
    if not originals:
        return (must,) if must else ()
    rows: list[dict[str, Needed]] = []
    for part in originals:
        row = needed_of(graph, interface, with_twins(graph, part)) | must
        if row not in rows:
            rows.append(row)
    return tuple(rows)


def needed_of(graph: Graph, interface: Interface, part: Part) -> dict[str, Needed]:
    """What an original is known to be. A worn specimen does not tell what is needed, nor do two sources that differ."""
    row: dict[str, Needed] = {}
    for name in dict.fromkeys([*part.features, *part.measured]):
        feature = interface.features.get(name)
        if feature is None:
            values = part.features.get(name) or (part.measured[name].value,)
            row[name] = Needed(values, part.origin, any_will_do=False)
            continue
        known = stated(part, name, feature, graph.standards)
        if not known.values or (known.measured is not None and feature.wears):
            continue
        error = known.measured.error if known.measured is not None else ""
        row[name] = Needed(known.values, known.origins[0], any_will_do=False, error=error)
    return row


def _because(original: Original, resolved: Resolved, held: Held) -> Because:
    return Because(
        "way-original", {"place": resolved.place.full_path}, _lines(original, resolved), under=held.steps
    )


def _lines(original: Original, resolved: Resolved) -> tuple[Origin, ...]:
    return (original.origin,) if original.origin.book else (resolved.place.origin,)
