"""Interfaces: what a category and all above it say, and how one value is held against another."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.fitting.once import once
from fitlore.fitting.shape import Interface, State
from fitlore.model.amounts import read_quantity, read_span
from fitlore.model.because import Because
from fitlore.model.category import Category, Feature
from fitlore.model.choices import End, Renew, Role, Rule, SafetyClass, Sides, UsedOnes
from fitlore.model.late import Late
from fitlore.trade.family import FAMILIES, compare_texts
from fitlore.trade.rows import Certainty

if TYPE_CHECKING:
    from fitlore.graph.open import Graph
    from fitlore.trade.result import FamilyResult
    from fitlore.trade.standards import Standards

WORDS: Final = frozenset({"choice", "text"})
HANDED: Final = frozenset({Sides.MIRROR, Sides.OTHER_LENGTH})
"""Where a part of one side never goes on the other."""
_ONE_SIDED: Final = Late(r"-\s*([\d.,]+)\s*/\s*\+\s*([\d.,]+)\s*(\S+)")
_WEAR: Final = Late(r"(up|down)\s+(\S.*)")
_WORST_LAST: Final = [State.OK, State.WORK, State.UNKNOWN, State.OFF, State.TRAP]
"""Where a category does not say which half of a joint its part has, the worse of the two counts."""
_MEASURING: Final = {"mm": Decimal("0.01")}
"""Two ways of writing one length (22.22 mm and 7/8 in) are the same within this; other dimensions exactly."""


class Compared(NamedTuple):
    """How one offered value stands against one needed value, and why."""

    state: State
    because: Because
    memory: bool = False
    """Whether a row decides that was recalled, and not looked up in a source."""


@once
def interface_of(graph: Graph, name: str) -> Interface | None:
    """The category `name` with what it inherits; None where no book has it. The strictest safety class counts."""
    chain: list[Category] = []
    seen: set[str] = set()
    at: str | None = name
    while at is not None and at not in seen:
        seen.add(at)
        category = graph.category(at)
        if category is None:
            break
        chain.append(category)
        at = category.broader
    if not chain:
        return None
    features: dict[str, Feature] = {}
    for category in reversed(chain):
        features.update(category.features)
    order = list(SafetyClass)
    stated = [c.safety for c in chain if c.safety is not None]
    return Interface(
        category=chain[0],
        features=features,
        safety=min(stated, key=order.index) if stated else SafetyClass.NONE,
        sides=next((c.sides for c in chain if c.sides), Sides.NONE),
        look_first=tuple(dict.fromkeys(f for c in chain for f in c.look_first)),
        always_new=next((c.always_new for c in chain if c.always_new is not None), False),
        renew=next((c.renew for c in chain if c.renew), Renew.EACH),
        renew_with=next((c.renew_with for c in chain if c.renew_with), ()),
        used=next((c.used for c in chain if c.used), UsedOnes.IF_SOUND),
        keep=tuple(dict.fromkeys(k for c in chain for k in c.keep)),
        cautions=next((c.cautions for c in chain if c.cautions), ()),
        shares=next((c.shares for c in chain if c.shares), ()),
        names=tuple(c.category for c in chain),
    )


def narrowed(graph: Graph, interface: Interface, kinds: Iterable[str]) -> Interface:
    """The interface with what narrower categories add to it and tighten: safety the strictest, tolerances the smallest."""
    own = interface.category.category
    for kind in sorted(set(kinds) & graph.narrower(own) - {own}):
        inner = interface_of(graph, kind)
        if inner is None:
            continue
        features = dict(interface.features)
        for name, feature in inner.features.items():
            features[name] = _tighter(features[name], feature) if name in features else feature
        interface = msgspec.structs.replace(
            interface,
            features=features,
            safety=min(interface.safety, inner.safety, key=list(SafetyClass).index),
            sides=inner.sides if inner.sides in HANDED or interface.sides is Sides.NONE else interface.sides,
            look_first=tuple(dict.fromkeys([*interface.look_first, *inner.look_first])),
        )
    return interface


def as_strict_as(interface: Interface, safety: SafetyClass | None) -> Interface:
    """The interface in the stricter of two safety classes: its own, and that of a place or a part that says one."""
    order = list(SafetyClass)
    if safety is None or order.index(safety) >= order.index(interface.safety):
        return interface
    return msgspec.structs.replace(interface, safety=safety)


def demanded(interface: Interface, names: Iterable[str]) -> Interface:
    """The interface with features that only a place names: they have to be the same, word for word."""
    own = {name: Feature(kind="text", role=Role.MATES) for name in names if name not in interface.features}
    return msgspec.structs.replace(interface, features=interface.features | own) if own else interface


def _tighter(one: Feature, other: Feature) -> Feature:
    """Of two definitions of a feature the one that asks for more; the second where neither does."""
    if one.optional != other.optional:
        return one if other.optional else other
    sizes = [read_tolerance(feature.tolerance) if feature.tolerance else None for feature in (one, other)]
    if sizes[0] and sizes[1] and sizes[0][2] == sizes[1][2]:
        return one if sizes[0][0] + sizes[0][1] < sizes[1][0] + sizes[1][1] else other
    return other


def compare(feature: Feature, needed: str, offered: str, standards: Standards) -> Compared:
    """One needed against one offered value by the feature's rule. What cannot be read is unknown, never a yes."""
    if feature.kind in FAMILIES:
        either = tuple(End) if FAMILIES[feature.kind].about.ended else (End.MALE,)
        ends = (feature.end,) if feature.end else either
        rows = [_by_family(feature.kind, needed, offered, end, standards) for end in ends]
        return max(rows, key=lambda row: _WORST_LAST.index(row.state))
    return _plainly(feature.kind in WORDS, feature.rule, feature.tolerance, needed, offered)


@lru_cache(maxsize=8192)
def _plainly(word: bool, rule: Rule, tolerance: str, needed: str, offered: str) -> Compared:
    """Without a family of the trade. Many candidates have the same value, which is then compared once."""
    values = {"needed": needed, "offered": offered, "rule": rule.value}
    if word:
        same = _fold(needed) == _fold(offered)
        return Compared(State.OK if same else State.OFF, Because("word-same" if same else "word-off", values))
    verdict = _RULES.get(rule, _same)(needed, offered, tolerance)
    if verdict is None:
        return Compared(State.UNKNOWN, Because("cannot-compare", values))
    if tolerance:
        values["tolerance"] = tolerance
    return Compared(State.OK if verdict else State.OFF, Because("size-ok" if verdict else "size-off", values))


class _Tables:
    """Tables of standards that are the same only as themselves, so that results can be kept by them."""

    def __init__(self, standards: Standards) -> None:
        self.standards = standards

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Tables) and other.standards is self.standards

    def __hash__(self) -> int:
        return id(self.standards)


@lru_cache(maxsize=2048)
def _compared(kind: str, needed: str, offered: str, end: End, tables: _Tables) -> FamilyResult:
    """Many candidates have the same designation, which is then read once."""
    return compare_texts(kind, needed, offered, end, tables.standards)


def _by_family(kind: str, needed: str, offered: str, end: End, standards: Standards) -> Compared:
    result = _compared(kind, needed, offered, end, _Tables(standards))
    states = {"ok": State.OK, "ok-with-work": State.WORK, "off": State.OFF, "trap": State.TRAP}
    state, because = states.get(result.state, State.UNKNOWN), result.because
    memory = result.certainty is Certainty.MEMORY
    if memory:
        because = msgspec.structs.replace(because, under=(*because.under, Because("row-from-memory")))
    return Compared(state, because, memory)


def looked_up(result: Compared) -> Compared:
    """The same, but that a yes from a row out of memory becomes a question: for what protects someone it is no proof."""
    if not result.memory or result.state not in (State.OK, State.WORK):
        return result
    return Compared(State.UNKNOWN, Because("memory-alone", under=(result.because,)), memory=True)


def protects(graph: Graph, kind: str) -> bool:
    """Whether a family of standards is used by some category for what protects someone."""
    for category in graph.categories():
        roles = [feature.role for feature in category.features.values() if feature.kind == kind]
        interface = interface_of(graph, category.category) if roles else None
        if interface and (Role.SAFE in roles or interface.safety is not SafetyClass.NONE):
            return True
    return False


def _pair(needed: str, offered: str) -> tuple[Decimal, Decimal, str] | None:
    want, have = read_quantity(needed), read_quantity(offered)
    if want is None or have is None or want.unit != have.unit:
        return None
    return want.value, have.value, want.unit


def _same(needed: str, offered: str, tolerance: str) -> bool | None:
    if tolerance:
        return _within(needed, offered, tolerance)
    pair = _pair(needed, offered)
    return None if pair is None else abs(pair[1] - pair[0]) <= same_size(pair[2])


def same_size(unit: str) -> Decimal:
    """How far two ways of writing one size may be apart, in a base unit."""
    return _MEASURING.get(unit, Decimal(0))


def _within(needed: str, offered: str, tolerance: str) -> bool | None:
    pair, limits = _pair(needed, offered), read_tolerance(tolerance)
    if pair is None or limits is None or limits[2] != pair[2]:
        return None
    return -limits[0] <= pair[1] - pair[0] <= limits[1]


def _at_least(needed: str, offered: str, tolerance: str) -> bool | None:
    pair = _pair(needed, offered)
    return None if pair is None else pair[1] >= pair[0]


def _at_most(needed: str, offered: str, tolerance: str) -> bool | None:
    pair = _pair(needed, offered)
    return None if pair is None else pair[1] <= pair[0]


def _holds_range(needed: str, offered: str, tolerance: str) -> bool | None:
    want, have = read_span(needed), read_span(offered)
    if want is None or have is None or want.unit != have.unit:
        return None
    return have.low <= want.low and want.high <= have.high


_RULES = {
    Rule.WITHIN: _within,
    Rule.AT_LEAST: _at_least,
    Rule.AT_MOST: _at_most,
    Rule.RANGE_HOLDS: _holds_range,
}


@cache
def read_tolerance(text: str) -> tuple[Decimal, Decimal, str] | None:
    """`0.5 mm` or `-0.2/+0 mm` as (down, up, base unit), both positive; None where it cannot be read."""
    match = _ONE_SIDED.fullmatch(text.strip())
    parts = (f"{match[1]} {match[3]}", f"{match[2]} {match[3]}") if match else (text, text)
    down, up = read_quantity(parts[0]), read_quantity(parts[1])
    return (down.value, up.value, down.unit) if down and up else None


Limits = tuple[Decimal, Decimal, Decimal, set[str]]
"""How far down and up a used one may be worn, the sum of the measuring errors, and the units of all of these."""


def wear_limits(feature: Feature, errors: Iterable[str]) -> Limits | None:
    """How a measurement of this feature may differ from the nominal size; None where that cannot be read."""
    match = _WEAR.fullmatch(feature.wears.strip())
    wear = read_quantity(match[2]) if match else None
    slack = [read_quantity(error) for error in errors if error]
    if (feature.wears and wear is None) or None in slack:
        return None
    play = sum((abs(one.value) for one in slack if one), Decimal(0))
    worn = wear.value if wear else Decimal(0)
    down, up = (worn, Decimal(0)) if match and match[1] == "down" else (Decimal(0), worn)
    return down, up, play, {one.unit for one in [*slack, wear] if one}


def wear_allows(feature: Feature, nominal: str, measured: str, error: str) -> bool | None:
    """Can a part of this nominal size measure so, given the way it wears and the measuring error? None: cannot tell."""
    pair, limits = _pair(nominal, measured), wear_limits(feature, [error])
    if pair is None or limits is None or limits[3] - {pair[2]}:
        return None
    down, up, play = limits[0], limits[1], limits[2] + same_size(pair[2])
    return pair[0] - down - play <= pair[1] <= pair[0] + up + play


def _fold(text: str) -> str:
    return " ".join(text.split()).casefold()
