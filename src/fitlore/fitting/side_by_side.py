"""Two parts of the books held against each other, feature by feature, without a place that would say what it demands."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.fitting.checks import table
from fitlore.fitting.interface import interface_of, narrowed
from fitlore.fitting.parts import with_twins
from fitlore.fitting.requirement import needed_of
from fitlore.fitting.shape import Check, Requirement, State
from fitlore.model.because import Because
from fitlore.model.choices import Role, Side, Sides
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_WORST_LAST: Final = (State.OK, State.WORK, State.UNKNOWN, State.OFF, State.TRAP)
_HANDED: Final = (Sides.MIRROR, Sides.OTHER_LENGTH)


class Pair(NamedTuple):
    """The offered part against the needed one: the category whose features were compared, each of them, and the worst."""

    category: str
    """Empty where the two have no category in common."""
    state: State
    checks: tuple[Check, ...]
    because: Because


def side_by_side(graph: Graph, needed: Part, offered: Part) -> Pair:
    """Compare two parts by the features of the narrowest category that holds both.

    Looks alone decide nothing. A part of the other hand is off. Parts without a common category with features are a
    question: nothing was compared.
    """
    want, have = with_twins(graph, needed), with_twins(graph, offered)
    values = {"needed": str(needed.part), "offered": str(offered.part)}
    one, other = (interface_of(graph, part.is_) for part in (want, have))
    common = next((name for name in one.names if other and name in other.names), "") if one else ""
    interface = interface_of(graph, common) if common else None
    if interface is None:
        return Pair("", State.UNKNOWN, (), Because("pair-no-category", values))
    interface = narrowed(graph, interface, [want.is_, have.is_])
    requirement = Requirement((needed_of(graph, interface, want),), (), (), (), Because("requirement"))
    checks = table(interface, requirement, have, graph.standards)
    states = [check.state for check in checks if check.definition.role is not Role.LOOKS]
    if interface.sides in _HANDED and _other_hand(want, have):
        states.append(State.OFF)
    state = max(states, key=_WORST_LAST.index, default=State.UNKNOWN)
    steps = tuple(check.because for check in checks)
    return Pair(
        common, state, checks, Because(f"pair-{state.value}", values | {"category": common}, under=steps)
    )


def _other_hand(one: Part, other: Part) -> bool:
    hands = {one.side, other.side}
    return hands == {Side.LEFT, Side.RIGHT}
