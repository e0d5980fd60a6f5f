"""Which part a number means: facts of several books about one part added up, and parts of the same number kept apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

import msgspec

from fitlore.fitting.interface import interface_of
from fitlore.fitting.numbered import also_written, by_rules, reads_as, siblings, with_side
from fitlore.fitting.once import once
from fitlore.model.choices import How, Reason, Role, SafetyClass, Side
from fitlore.model.numbers import number_key
from fitlore.model.part import Measured, Part
from fitlore.model.record import Name, Number

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

Identity = tuple[str, str]
"""Issuer (case folded) and look-up key: what makes two records one part."""
_MOST_ALIKE = 40
"""Numbers followed from one to the next identical one; more of them would be a fault in the books."""


def identity(part: Part) -> Identity:
    """Issuer and number; equal numbers of two issuers are two parts."""
    return part.issuer.casefold(), number_key(part.part)


def keys_of(part: Part) -> tuple[str, ...]:
    """The look-up keys of a part: its number, and its issuer (or maker) and number."""
    names = ("", f"{part.issuer} ", f"{part.maker} ")
    return tuple(dict.fromkeys(number_key(f"{name}{part.part}") for name in names))


def every_key(graph: Graph, part: Part) -> tuple[str, ...]:
    """The same, and the keys of whatever else is the same number by the issuer's rules."""
    return tuple(dict.fromkeys((*keys_of(part), *also_written(graph, part))))


@once
def parts_meant(graph: Graph, number: str, maker: str = "") -> tuple[Part, ...]:
    """Every part a number may mean, each once; those of the given issuer where it has one of this number.

    Where nobody wrote it quite so, the first one that is the same by its issuer's rules; the others are `siblings` of it.
    """
    groups: dict[Identity, list[Part]] = {}
    for part in graph.parts([number_key(number)]):
        groups.setdefault(identity(part), []).append(part)
    own = [rows for (issuer, _), rows in groups.items() if maker and issuer == maker.casefold()]
    if not own and (maker or not groups):
        own = _numbered(graph, by_rules(graph, number, maker)) or own
    if not own and maker and not groups:
        own = _numbered(graph, by_rules(graph, number))
    return tuple(with_side(graph, _added_up(rows)) for rows in (own or groups.values()))


def _numbered(graph: Graph, found: Iterable[Part]) -> list[list[Part]]:
    """One group of records per part: of several spellings of one number the first."""
    groups: dict[str, list[Part]] = {}
    for part in found:
        same = groups.setdefault(part.issuer.casefold(), [])
        if not same or identity(part) == identity(same[0]):
            same.append(part)
    return list(groups.values())


def part_named(graph: Graph, number: str, maker: str) -> Part | None:
    """The one part a number means: of the given issuer if there are several; None where none or too many are known."""
    found = parts_meant(graph, number, maker)
    return found[0] if len(found) == 1 else None


def ask_ahead(graph: Graph, parts: Iterable[Part]) -> None:
    """Asks at one go what will be asked of each of these parts: the same parts under other numbers, and claims to them."""
    keys = {key for part in parts for key in every_key(graph, part)}
    graph.parts(keys)
    graph.replaces(keys)
    graph.claims_to(keys)


def parts_or_stub(graph: Graph, number: str, maker: str, kind: str) -> tuple[Part, ...]:
    """What a number may mean; where no book describes it, a part of which nothing is known but its number and its kind."""
    stub = Part(part=Number(number), is_=Name(kind))
    side = with_side(graph, msgspec.structs.replace(stub, maker=maker)).side
    return parts_meant(graph, number, maker) or (msgspec.structs.replace(stub, side=side),)


def means(graph: Graph, number: str, part: Part, maker: str = "") -> bool:
    """Whether a number written in a book, by an issuer's own words or without, may mean this part."""
    if number_key(number) not in keys_of(part):
        return reads_as(graph, number, part) and not graph.parts([number_key(number)])
    found = parts_meant(graph, number, maker)
    return not found or identity(part) in map(identity, found)


def unsure(graph: Graph, number: str, maker: str = "") -> bool:
    """Whether a number may mean several parts."""
    return len(parts_meant(graph, number, maker)) > 1


def whole(graph: Graph, part: Part) -> Part:
    """The part with all that any book says of it."""
    found = parts_meant(graph, part.part, part.issuer)
    return next((one for one in found if identity(one) == identity(part)), with_side(graph, part))


def alike(graph: Graph, numbers: Iterable[str]) -> frozenset[str]:
    """The keys of these numbers and of every number that is the very same part."""
    return _alike(graph, frozenset(number_key(number) for number in numbers))


@once
def _alike(graph: Graph, keys: frozenset[str]) -> frozenset[str]:
    seen: set[str] = set()
    frontier = set(keys)
    while frontier and len(seen) < _MOST_ALIKE:
        seen |= frontier
        frontier = {key for key in _same_parts(graph, frontier) if key not in seen}
    return frozenset(seen | frontier)


def with_twins(graph: Graph, part: Part) -> Part:
    """The part with what is said of the very same part under other numbers; where they differ, a doubt rides along."""
    same = [twin for twin in _twins(graph, part) if twin.is_ == part.is_]
    if not same:
        return part
    whole_one = _added_up([part, *same])
    return msgspec.structs.replace(
        part,
        safety=whole_one.safety,
        side=whole_one.side,
        features=whole_one.features,
        measured=whole_one.measured,
    )


def _twins(graph: Graph, part: Part) -> list[Part]:
    """In both directions, and only over numbers that mean one part."""
    seen = {identity(part): part}
    frontier = [part]
    while frontier and len(seen) < _MOST_ALIKE:
        near = [twin for one in frontier for twin in _next_twins(graph, one) if identity(twin) not in seen]
        frontier = list({identity(twin): twin for twin in near}.values())
        seen |= {identity(twin): twin for twin in frontier}
    return list(seen.values())[1:]


def _next_twins(graph: Graph, part: Part) -> Iterator[Part]:
    named = [(number, "") for number in part.same_as]
    named += [(r.number, part.issuer) for r in part.replaced_by if r.reason is Reason.IDENTICAL]
    for number, maker in named:
        if (twin := part_named(graph, number, maker)) is not None:
            yield twin
    yield from (_no_looks(graph, twin) for twin in siblings(graph, part))
    for record in graph.replaces(every_key(graph, part)):
        said = [(number, "") for number in record.same_as]
        said += [(r.number, record.issuer) for r in record.replaced_by if r.reason is Reason.IDENTICAL]
        if any(
            means(graph, number, part, maker) and not unsure(graph, number, maker) for number, maker in said
        ):
            yield whole(graph, record)


def _no_looks(graph: Graph, part: Part) -> Part:
    """A part of another colour without what only the eye minds."""
    interface = interface_of(graph, part.is_)
    looks = {n for n, f in interface.features.items() if f.role is Role.LOOKS} if interface else set()
    kept = {name: values for name, values in part.features.items() if name not in looks}
    return msgspec.structs.replace(part, features=kept)


def _same_parts(graph: Graph, keys: set[str]) -> Iterator[str]:
    for part in graph.parts(keys):
        yield from every_key(graph, part)
        yield from map(number_key, part.same_as)
        yield from (number_key(r.number) for r in part.replaced_by if r.reason is Reason.IDENTICAL)
    for part in graph.replaces(keys):
        same = [*part.same_as, *(r.number for r in part.replaced_by if r.reason is Reason.IDENTICAL)]
        if keys & set(map(number_key, same)):
            yield from keys_of(part)


def _added_up(rows: list[Part]) -> Part:
    """Facts of several records of one part; what two of them say differently rides along as a doubt, see `stated`."""
    first, *others = rows
    if not others:
        return first
    if any(other.is_ != first.is_ for other in others):
        return msgspec.structs.replace(first, features={}, measured={})
    features, measured = dict(first.features), dict(first.measured)
    for other in others:
        for name, values in other.features.items():
            if name in features and _words(features[name]) != _words(values):
                measured.setdefault(name, _doubt(features[name], values, other))
            features.setdefault(name, values)
        for name, value in other.measured.items():
            measured[name] = _better(measured.get(name), value)
    return msgspec.structs.replace(
        first,
        name=next((row.name for row in rows if row.name), ""),
        safety=min((row.safety for row in rows if row.safety), key=list(SafetyClass).index, default=None),
        side=_only({row.side for row in rows if row.side is not None}),
        features=features,
        measured=measured,
        replaced_by=tuple(dict.fromkeys(r for row in rows for r in row.replaced_by)),
        contains=tuple(dict.fromkeys(c for row in rows for c in row.contains)),
        same_as=tuple(dict.fromkeys(n for row in rows for n in row.same_as)),
    )


def _words(values: tuple[str, ...]) -> set[str]:
    return {" ".join(value.split()).casefold() for value in values}


def _doubt(values: tuple[str, ...], others: tuple[str, ...], other: Part) -> Measured:
    known = _words(values)
    strange = next((value for value in others if not _words((value,)) <= known), others[0])
    return Measured(origin=other.origin, value=strange, how=How.TOLD)


def _only(sides: set[Side]) -> Side | None:
    return sides.pop() if len(sides) == 1 else None


def _better(old: Measured | None, new: Measured) -> Measured:
    """First-hand before told, then the later one; of two alike that say different things neither."""
    if old is None or _words((old.value,)) == _words((new.value,)):
        return old or new
    rank = [(m.how.first_hand, m.date.end if m.date else 0) for m in (old, new)]
    if rank[0] == rank[1]:
        return msgspec.structs.replace(old, value=f"{old.value} or {new.value}", how=How.TOLD)
    return new if rank[1] > rank[0] else old
