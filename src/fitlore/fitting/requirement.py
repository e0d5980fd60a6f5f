"""What a place demands of any part put there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitlore.fitting.conditions import holds, merge_asks
from fitlore.fitting.place import Resolved
from fitlore.fitting.shape import Ask, Interface, Needed, Requirement
from fitlore.model.because import Because
from fitlore.model.choices import Side
from fitlore.model.kleene import Tri
from fitlore.model.numbers import number_key
from fitlore.model.origin import Origin
from fitlore.model.part import Part
from fitlore.model.platform import Original

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


def requirement_of(graph: Graph, resolved: Resolved, interface: Interface, side: str) -> Requirement:
    """The place's must-be, and for features it does not name those of the originals valid for this car.

    Originals whose condition is unknown each make an alternative: what differs between them is a question.
    """
    place = resolved.place.place
    must = {
        name: Needed(values, resolved.place.origin, any_will_do=True)
        for name, values in place.must_be.items()
    }
    valid: list[tuple[Part, Tri]] = []
    asks: list[tuple[Ask, ...]] = []
    steps: list[Because] = list(resolved.steps)
    for original in place.original:
        held = holds(original.only_if, resolved.facts)
        found = part_named(graph, original.number, resolved.place.maker)
        if found is None or other_side(found, side):
            continue
        values = {"number": original.number, "place": resolved.place.full_path, "condition": held.value.value}
        steps.append(Because("original-of-place", values, _lines(original, resolved), under=held.steps))
        if held.value is not Tri.FALSE:
            valid.append((found, held.value))
            asks.append(held.asks)
    alternatives = _alternatives(must, [part for part, _ in valid])
    if resolved.number_on_it:
        steps.append(Because("what-is-on-it-noted", {"number": resolved.number_on_it}))
    values = {"place": resolved.place.full_path, "alternatives": str(len(alternatives))}
    return Requirement(
        alternatives=alternatives,
        valid=tuple(part for part, _ in valid),
        conditions=tuple((number_key(part.part), tri) for part, tri in valid),
        asks=merge_asks(asks),
        because=Because("requirement", values, (resolved.place.origin,), under=tuple(steps)),
    )


def part_named(graph: Graph, number: str, maker: str) -> Part | None:
    """The one part a number means: of the given issuer if there are several; None where none or too many are known."""
    found = graph.parts([number_key(number)])
    if len(found) > 1 and maker:
        found = tuple(part for part in found if part.maker.casefold() == maker.casefold()) or found
    return found[0] if len(found) == 1 else None


def other_side(part: Part, side: str) -> bool:
    """Whether the part is made for the side that is not asked about."""
    return bool(side) and part.side in (Side.LEFT, Side.RIGHT) and part.side.value != side


def _alternatives(must: dict[str, Needed], originals: list[Part]) -> tuple[dict[str, Needed], ...]:
    if not originals:
        return (must,) if must else ()
    rows: list[dict[str, Needed]] = []
    for part in originals:
        row = {name: Needed(values, part.origin, any_will_do=False) for name, values in part.features.items()}
        for name, measured in part.measured.items():
            row.setdefault(name, Needed((measured.value,), measured.origin, any_will_do=False))
        row.update(must)
        if row not in rows:
            rows.append(row)
    return tuple(rows)


def _lines(original: Original, resolved: Resolved) -> tuple[Origin, ...]:
    return (original.origin,) if original.origin.book else (resolved.place.origin,)
