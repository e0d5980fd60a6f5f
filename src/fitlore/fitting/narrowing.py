"""Which parts are worth comparing where nobody has claimed anything: of very many only those about as large as is required.

A part whose size is plainly another one can satisfy no requirement of that size, whatever else it is, so it is not even
read. Parts of about the size are read, and kept where their designation is a trap: one that goes in without fitting must be
told of, whatever it measures elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.fitting.interface import WORDS, compare, narrowed, read_tolerance, same_size, wear_limits
from fitlore.fitting.once import once
from fitlore.fitting.parts import ask_ahead, identity, keys_of, whole, with_twins
from fitlore.fitting.shape import Needed, State
from fitlore.model.amounts import read_quantity
from fitlore.model.category import Feature
from fitlore.model.choices import Role, Rule
from fitlore.model.numbers import number_key
from fitlore.model.part import Part
from fitlore.trade.family import FAMILIES

if TYPE_CHECKING:
    from fitlore.fitting.ways import Setting
    from fitlore.graph.open import Graph

ENOUGH: Final = 100
"""So few candidates are compared one by one without a further look at the index."""
LENGTHS: Final = "mm"
"""The base unit of lengths."""
NEAR: Final = Decimal("0.07")
"""What is off by no more than this share of its size can be taken for the right one by eye (judgement of this project)."""
_STOPS: Final = frozenset({Role.MATES, Role.WORKS, Role.SAFE, Role.JOINS})


class _Ends(NamedTuple):
    """The smallest and the largest size that is about what is required, in a base unit."""

    low: Decimal
    high: Decimal
    unit: str


class Worth(NamedTuple):
    """What the index leaves of a category for one requirement."""

    asked: tuple[object, ...]
    """All that the search went by."""
    found: tuple[Part, ...]
    """Parts that may have every size and word that is required."""
    about: tuple[Part, ...]
    """Others of about the size, of which only traps count."""
    designations: dict[str, list[Feature]]
    """The required features that can be a trap, as the category and the narrower ones define them."""


def worth_comparing(setting: Setting) -> tuple[Part, ...]:
    """Parts of the category, or of a narrower one, that may be by measure, and traps of about the size.

    Where the index says nothing, all of the category.
    """
    known, here = _compared(setting.graph), worth(setting)
    if here.asked not in known:
        ask_ahead(setting.graph, here.about)
        traps = (part for part in here.about if near_trap(setting, part))
        known[here.asked] = (*here.found, *traps)
        ask_ahead(setting.graph, known[here.asked])
    return known[here.asked]


def worth(setting: Setting) -> Worth:
    """The same before anything is compared: by the index, and by what each record says of its size."""
    known, asked = _already(setting.graph), _asked(setting)
    if asked not in known:
        known[asked] = _worth(setting, asked)
    return known[asked]


@once
def _already(graph: Graph) -> dict[tuple[object, ...], Worth]:
    """What was found before: left and right, and other places of one kind, mostly require the same."""
    return {}


@once
def _compared(graph: Graph) -> dict[tuple[object, ...], tuple[Part, ...]]:
    return {}


def _asked(setting: Setting) -> tuple[object, ...]:
    """All that the search goes by."""
    interface, requirement = setting.interface, setting.requirement
    rows = (
        *requirement.alternatives,
        *((requirement.otherwise,) if requirement.otherwise is not None else ()),
    )
    needs = tuple(tuple((name, need.values, need.error) for name, need in row.items()) for row in rows)
    return (
        interface.category.category,
        tuple(interface.features.items()),
        needs,
        requirement.otherwise is None,
    )


def _worth(setting: Setting, asked: tuple[object, ...]) -> Worth:
    kinds = sorted(setting.graph.narrower(setting.interface.category.category))
    traps = _designations(setting, kinds)
    found = _narrowed_to(setting, kinds)
    if found is None:
        return Worth(asked, setting.graph.parts_of(kinds), (), traps)
    if not traps:
        return Worth(asked, found, (), traps)
    known = {identity(part) for part in found}
    sized = tuple(_sized(setting, kinds, NEAR))
    near = next(
        (these for name, ends in sized if (these := setting.graph.parts_sized(kinds, name, *ends))), ()
    )
    about = tuple(part for part in near if all(_within(part, name, ends) for name, ends in sized))
    others = (part for part in _with_twins(setting, kinds, about) if identity(part) not in known)
    return Worth(asked, found, tuple(others), traps)


def near_trap(setting: Setting, part: Part) -> bool:
    """Whether a part of about the size is a trap, with what is said of it under other numbers."""
    here = worth(setting)
    kinds = sorted(setting.graph.narrower(setting.interface.category.category))
    full = with_twins(setting.graph, whole(setting.graph, part))
    return all(_within(full, name, ends) for name, ends in _sized(setting, kinds, NEAR)) and _is_trap(
        setting, full, here.designations
    )


def _within(part: Part, name: str, ends: _Ends) -> bool:
    """Whether a part may have such a size: what is not said, or is no such size, may be any."""
    read = [read_quantity(value) for value in offered(part, name)]
    sizes = [size for size in read if size is not None and size.unit == ends.unit]
    return len(sizes) < len(read) or not sizes or any(ends.low <= size.value <= ends.high for size in sizes)


def _narrowed_to(setting: Setting, kinds: list[str]) -> tuple[Part, ...] | None:
    """Parts that may have every size and word that is required; None where the index says nothing."""
    found: tuple[Part, ...] | None = None
    for these in _looks(setting, kinds):
        fit = _with_twins(setting, kinds, these)
        kept = {identity(part) for part in fit}
        found = fit if found is None else tuple(part for part in found if identity(part) in kept)
        if len(found) <= ENOUGH:
            break
    return found


def _designations(setting: Setting, kinds: list[str]) -> dict[str, list[Feature]]:
    """The required features that can be a trap, as the category and the narrower ones define them."""
    inner = [setting.interface, *(narrowed(setting.graph, setting.interface, [kind]) for kind in kinds)]
    found: dict[str, list[Feature]] = {}
    for interface in inner:
        for name, feature in interface.features.items():
            if feature.kind in FAMILIES and feature not in found.setdefault(name, []):
                found[name].append(feature)
    return found


def _is_trap(setting: Setting, part: Part, features: dict[str, list[Feature]]) -> bool:
    """Whether a designation of the part is a trap for what is required."""
    alternatives = [*setting.requirement.alternatives, setting.requirement.otherwise or {}]
    return any(
        compare(feature, needed, value, setting.graph.standards).state is State.TRAP
        for name, every in features.items()
        for value in offered(part, name)
        for needed in {want for needs in alternatives if name in needs for want in needs[name].values}
        for feature in every
    )


def offered(part: Part, name: str) -> tuple[str, ...]:
    """What a record states of a feature, and what was measured on it."""
    measured = part.measured.get(name)
    return (*part.features.get(name, ()), *((measured.value,) if measured else ()))


def _looks(setting: Setting, kinds: list[str]) -> Iterator[tuple[Part, ...]]:
    """For each feature that narrows the search the parts that it leaves: sizes first, then words."""
    for name, ends in _sized(setting, kinds, Decimal(0)):
        these = setting.graph.parts_sized(kinds, name, *ends)
        if these is not None:
            yield these
    for name, value in _alike(setting, kinds):
        yield setting.graph.parts_of(kinds, {name: value})


def _with_twins(setting: Setting, kinds: list[str], parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """These, and the very same parts under other numbers: what is said of the one holds of the other."""
    graph = setting.graph
    every = {(identity(part), part.origin): part for part in parts}
    fresh = list(parts)
    while fresh:
        keys = {key for part in fresh for key in keys_of(part)}
        named = {number_key(number) for part in fresh for number in part.same_as}
        named |= {number_key(newer.number) for part in fresh for newer in part.replaced_by}
        near = (*graph.replaces(keys), *graph.parts(named))
        fresh = [part for part in near if part.is_ in kinds and (identity(part), part.origin) not in every]
        every |= {(identity(part), part.origin): part for part in fresh}
    return tuple(every.values())


def _sized(setting: Setting, kinds: list[str], near: Decimal) -> Iterator[tuple[str, _Ends]]:
    """The features by whose size the search can be narrowed, with a share of it to either side.

    Lengths come first: voltages and temperatures are the same for very many parts.
    """
    yield from sorted(_every_size(setting, kinds, near), key=lambda sized: sized[1].unit != LENGTHS)


def _every_size(setting: Setting, kinds: list[str], near: Decimal) -> Iterator[tuple[str, _Ends]]:
    for name, every in _strict(setting, kinds):
        found = [_ends(setting, name, feature) for feature in every]
        known = [ends for ends in found if ends is not None]
        if len(known) == len(found) and len({ends.unit for ends in known}) == 1:
            low, high = min(ends.low for ends in known), max(ends.high for ends in known)
            yield name, _Ends(low - abs(low) * near, high + abs(high) * near, known[0].unit)


def _alike(setting: Setting, kinds: list[str]) -> Iterator[tuple[str, str]]:
    """The features by whose word the search can be narrowed: the one word that is required, whichever alternative counts."""
    for name, every in _strict(setting, kinds):
        values = {value for need in _needs(setting, name) for value in need.values}
        if len(values) == 1 and all(feature.kind in WORDS for feature in every):
            yield name, values.pop()


def _strict(setting: Setting, kinds: list[str]) -> Iterator[tuple[str, list[Feature]]]:
    """The features in which a part that is otherwise can only be off, as each of these categories defines them."""
    inner = [narrowed(setting.graph, setting.interface, [kind]) for kind in kinds]
    for name in setting.interface.features:
        every = [interface.features[name] for interface in inner]
        if _needs(setting, name) and all(_stops(feature) for feature in every):
            yield name, every


def _stops(feature: Feature) -> bool:
    """Whether a part that is off in this feature does not go."""
    stated_work = feature.role is Role.JOINS and feature.work is not None
    same = feature.rule in (Rule.SAME, Rule.WITHIN)
    return (
        same and feature.role in _STOPS and not (feature.optional or stated_work or feature.kind in FAMILIES)
    )


def _needs(setting: Setting, name: str) -> list[Needed]:
    """What every alternative requires of a feature; nothing where one of them does not say."""
    requirement = setting.requirement
    every = [
        *requirement.alternatives,
        *([requirement.otherwise] if requirement.otherwise is not None else ()),
    ]
    known = [alternative[name] for alternative in every if name in alternative]
    return known if len(known) == len(every) else []


def _ends(setting: Setting, name: str, feature: Feature) -> _Ends | None:
    """Between which sizes a part has to be; None where it may have any."""
    needs = _needs(setting, name)
    limits = wear_limits(feature, [need.error for need in needs])
    tolerance = read_tolerance(feature.tolerance) if feature.tolerance else None
    sizes = [] if feature.kind in WORDS else _sizes(needs)
    if not sizes or limits is None or (feature.tolerance and tolerance is None):
        return None
    units = {unit for _, unit in sizes} | limits[3] | ({tolerance[2]} if tolerance else set())
    if len(units) != 1:
        return None
    unit = units.pop()
    slack = sum(limits[:3], Decimal(0)) + max(tolerance[:2] if tolerance else (Decimal(0),)) + same_size(unit)
    values = [value for value, _ in sizes]
    return _Ends(min(values) - slack, max(values) + slack, unit)


def _sizes(needs: Iterable[Needed]) -> list[tuple[Decimal, str]]:
    """All needed sizes in their base units; none where one of them is no size."""
    read = [read_quantity(value) for need in needs for value in need.values]
    known = [(size.value, size.unit) for size in read if size is not None]
    return known if len(known) == len(read) else []
