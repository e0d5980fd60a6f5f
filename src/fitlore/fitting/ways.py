"""How candidates come to be candidates: originals, successors, chains of claims, claims for the place, and dimensions."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.fitting.checks import table
from fitlore.fitting.claims import claim_way
from fitlore.fitting.companions import Refusal
from fitlore.fitting.conditions import holds, merge_asks
from fitlore.fitting.evidence import class_policy, shelf_doubted
from fitlore.fitting.interface import as_strict_as, narrowed
from fitlore.fitting.links import Link, links_from, place_links
from fitlore.fitting.narrowing import worth_comparing
from fitlore.fitting.open_points import about
from fitlore.fitting.parts import Identity, identity, part_named, whole, with_twins
from fitlore.fitting.place import Resolved
from fitlore.fitting.requirement import other_side
from fitlore.fitting.shape import Ask, Interface, Requirement, State, Way
from fitlore.model.because import Because
from fitlore.model.choices import Role, Sides
from fitlore.model.kleene import Tri
from fitlore.model.part import Part
from fitlore.model.platform import Car
from fitlore.model.policy import ClassRules

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

LONGEST_CHAIN = 4
"""Links of a chain of claims; a longer one is hearsay about hearsay."""


class Setting(NamedTuple):
    """Everything a way is judged by."""

    graph: Graph
    resolved: Resolved
    interface: Interface
    requirement: Requirement
    car: Car | None
    """The car asked about; none where the place is not on its platform."""
    side: str
    both: bool
    rules: ClassRules
    refusals: tuple[Refusal, ...] = ()
    """What the pieces that are on the car refuse to meet at the place."""
    unseen: tuple[Ask, ...] = ()
    """What nobody has looked at yet on this car."""

    def for_part(self, part: Part) -> Setting:
        """The same, with what the part's own narrower category adds and tightens, and in its stricter class if it has one."""
        interface = as_strict_as(narrowed(self.graph, self.interface, [part.is_]), part.safety)
        if interface is self.interface:
            return self
        return self._replace(interface=interface, rules=class_policy(self.graph.policy, interface.safety))


class Found(NamedTuple):
    """A candidate and one way to it."""

    part: Part
    way: Way


class _Reached(NamedTuple):
    """How far a chain has come: the part, the links to it, and the way it started from."""

    part: Part
    links: tuple[Link, ...]
    start: Way
    passed: frozenset[Identity]
    first: Part | None = None
    """The original it started from."""
    doubt: tuple[Because, ...] = ()
    """A part on the way does not go here by its own measures: what is chained on it is a hint."""


def find_ways(setting: Setting) -> Iterator[Found]:
    """All candidates with every way to each, in a fixed order."""
    yield from _originals(setting)
    yield from _chains(setting)
    yield from _by_the_book(setting)


def passes(part: Part, setting: Setting) -> bool:
    """Whether a part may be looked at for the side that is asked about."""
    changeable = setting.interface.sides in (Sides.CHANGEABLE, Sides.SAME_BOTH_SIDES)
    return changeable or not other_side(part, setting.side)


def _originals(setting: Setting) -> Iterator[Found]:
    for row in setting.requirement.listed:
        doubt = shelf_doubted(setting.graph, setting.rules, row.because.origins)
        because = msgspec.structs.replace(row.because, under=(*row.because.under, *doubt))
        way = Way(
            "original",
            condition=row.condition,
            asks=row.asks,
            proven=not doubt,
            start=identity(row.part),
            because=because,
        )
        yield Found(row.part, way)


def _starts(setting: Setting) -> Iterator[_Reached]:
    """The originals as starts of chains, with what is to be looked at where another one may be right for this car."""
    for found in _originals(setting):
        asks: list[tuple[Ask, ...]] = [found.way.asks]
        if len(setting.requirement.listed) > 1:
            part = with_twins(setting.graph, found.part)
            own = table(setting.interface, setting.requirement, part, setting.graph.standards)
            asks += [about(check, found.way, setting) for check in own if check.state is State.UNKNOWN]
        merged = merge_asks(asks)
        condition = Tri.ASK if merged else found.way.condition
        way = msgspec.structs.replace(found.way, condition=condition, asks=merged)
        yield _Reached(found.part, (), way, frozenset({identity(found.part)}), found.part)


def _chains(setting: Setting) -> Iterator[Found]:
    """Breadth first from the valid originals and the claims for the place, each link in its own direction.

    A part that is reached again is followed again only where the new chain stands differently.
    """
    frontier = list(_starts(setting))
    seen: set[tuple[object, ...]] = {(*_standing(one.part, one.start), False) for one in frontier}
    steps = [(_Reached(link.to, (), Way("place"), frozenset()), link) for link in place_links(setting)]
    for _ in range(LONGEST_CHAIN):
        steps += [(reached, link) for reached in frontier for link in links_from(setting, reached.part)]
        frontier, fresh = [], set()
        for reached, link in steps:
            if not passes(link.to, setting) or link.key in reached.passed:
                continue
            chain = (*reached.links, link)
            way = claim_way(chain, reached.start, setting.for_part(link.to), reached.first)
            if reached.doubt:
                because = msgspec.structs.replace(way.because, under=(*way.because.under, *reached.doubt))
                way = msgspec.structs.replace(way, hint=True, because=because)
            yield Found(link.to, way)
            if link.dead:
                continue
            doubt = reached.doubt or _in_doubt(link.to, way, setting)
            if (mark := (*_standing(link.to, way), bool(doubt))) not in seen:
                fresh.add(mark)
                passed = reached.passed | {link.key}
                frontier.append(_Reached(link.to, chain, reached.start, passed, reached.first, doubt))
        seen |= fresh
        steps = []


def _standing(part: Part, way: Way) -> tuple[object, ...]:
    return (
        identity(part),
        way.condition,
        way.applies,
        way.hint,
        way.proven,
        way.changed,
        way.forbidden,
        way.spoken_against,
    )


def _in_doubt(part: Part, way: Way, setting: Setting) -> tuple[Because, ...]:
    """Where a part reached on the way is off, or a trap, in what no work so far takes care of: nothing is proven over it."""
    full, own = with_twins(setting.graph, part), setting.for_part(part)
    checks = table(own.interface, own.requirement, full, setting.graph.standards)
    stops = (check for check in checks if check.definition.role is not Role.LOOKS)
    off = [
        check.feature
        for check in stops
        if check.state is State.TRAP or (check.state is State.OFF and check.feature not in way.waives)
    ]
    values = {"part": part.part, "off": ", ".join(off)}
    return (Because("over-what-is-off", values, (part.origin,)),) if off else ()


def _by_the_book(setting: Setting) -> Iterator[Found]:
    """What the book of the car's own platform says, where something else is on the car: shown so that nobody buys it."""
    own = setting.resolved.book_place
    if own is None or setting.car is None:
        return
    for original in own.place.original:
        part = part_named(setting.graph, original.number, own.maker)
        held = holds(original.only_if, setting.car.facts)
        if part is None or held.value is Tri.FALSE or other_side(part, setting.side):
            continue
        because = Because(
            "way-book", {"place": own.full_path, "number": part.part}, (own.origin,), under=held.steps
        )
        yield Found(part, Way("book", applies=False, because=because))


def by_measure(setting: Setting) -> Iterator[Found]:
    """Parts of the category, or a narrower one, that may satisfy every alternative of a known requirement."""
    if not setting.requirement.alternatives:
        return
    for record in worth_comparing(setting):
        if (found := measured(setting, record)) is not None:
            yield found


def measured(setting: Setting, record: Part) -> Found | None:
    """A part as a candidate by its measures alone; None where it is made for the other side."""
    part = whole(setting.graph, record)
    if not passes(part, setting):
        return None
    return Found(part, Way("measure", because=Because("way-measure", {"part": part.part}, (part.origin,))))
