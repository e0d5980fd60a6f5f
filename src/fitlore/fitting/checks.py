"""The interface table: each feature of a candidate against what the place needs."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.interface import Compared, compare, looked_up
from fitlore.fitting.measured import Stated, compare_measured, stated
from fitlore.fitting.shape import Check, Interface, Needed, Requirement, State
from fitlore.model.because import Because
from fitlore.model.category import Feature
from fitlore.model.choices import Role, Rule, SafetyClass
from fitlore.model.part import Part
from fitlore.trade.family import FAMILIES

if TYPE_CHECKING:
    from fitlore.trade.standards import Standards

_BEST = [State.OK, State.WORK, State.TRAP, State.UNKNOWN, State.OFF]
"""Over values of which any one is enough; a trap stays loud where none of them goes."""
_NO = frozenset({State.OFF, State.TRAP})


def table(
    interface: Interface, requirement: Requirement, part: Part, standards: Standards
) -> tuple[Check, ...]:
    """One check per feature of the interface that either side knows or that is required, in the category's order."""
    rows: list[Check] = []
    for name, feature in interface.features.items():
        offered = stated(part, name, feature, standards)
        needs = [alternative.get(name) for alternative in requirement.alternatives]
        if requirement.otherwise is not None:
            needs.append(requirement.otherwise.get(name))
        if not offered.values and not offered.doubtful and not any(needs) and feature.optional:
            continue
        grave = feature.role is Role.SAFE or interface.safety is not SafetyClass.NONE
        rows.append(_check(name, feature, needs, offered, _Bench(standards, grave)))
    return tuple(rows)


def plainly_not(interface: Interface, requirement: Requirement, part: Part, standards: Standards) -> bool:
    """Whether something is off and nothing is a trap, told without the whole table: as soon as both are sure.

    Only a designation of a family can be a trap, so those are looked at first.
    """
    ordered = sorted(interface.features.items(), key=lambda row: row[1].kind not in FAMILIES)
    off = False
    for name, feature in ordered:
        if off and feature.kind not in FAMILIES:
            return True
        needs = [alternative.get(name) for alternative in requirement.alternatives]
        if requirement.otherwise is not None:
            needs.append(requirement.otherwise.get(name))
        if not any(needs):
            continue
        offered = stated(part, name, feature, standards)
        if not offered.values:
            continue
        bench = _Bench(standards, feature.role is Role.SAFE or interface.safety is not SafetyClass.NONE)
        state = _joined({state for need in needs for state in _one(feature, need, offered, bench)[0]})
        if state is State.TRAP:
            return False
        off = off or (state is State.OFF and feature.role is not Role.LOOKS)
    return off


class _Bench(NamedTuple):
    """What values are held against each other by, and whether somebody may come to harm by a wrong yes."""

    standards: Standards
    grave: bool

    def compare(
        self, feature: Feature, want: str, have: str, worn: bool = False, errors: tuple[str, ...] = ()
    ) -> Compared:
        """One value against another, measured or printed."""
        if worn or any(errors):
            result = compare_measured(feature, want, have, worn, list(errors), self.standards)
        else:
            result = compare(feature, want, have, self.standards)
        return looked_up(result) if self.grave else result


def _check(name: str, feature: Feature, needs: list[Needed | None], offered: Stated, bench: _Bench) -> Check:
    known = [need for need in needs if need is not None]
    needed_text = " or ".join(dict.fromkeys(", ".join(need.values) for need in known))
    offered_text = ", ".join(offered.values)
    words = {"feature": name, "needed": needed_text, "offered": offered_text, "remark": offered.remark}
    shown = offered.origins if offered.values or offered.doubtful else ()
    lines = tuple(dict.fromkeys([*(need.origin for need in known), *shown]))
    results = [_one(feature, need, offered, bench) for need in needs]
    states = {state for states, _ in results for state in states}
    state = _joined(states)
    if state is State.UNKNOWN and (not offered.values or len(known) < len(needs) or not known):
        gaps = [
            gap
            for gap, here in (("offered", offered.values), ("needed", len(known) == len(needs) > 0))
            if not here
        ]
        words["missing"] = "both" if len(gaps) == 2 else gaps[0]
    if state is State.WORK and feature.work is not None:
        words |= {"do": feature.work.do, "minutes": str(feature.work.minutes or "")}
    because = Because(
        f"feature-{state.value}", words, lines, under=tuple(step for _, steps in results for step in steps)
    )
    differs = state is State.UNKNOWN and (len(states) > 1 or offered.doubtful)
    conflict = differs and (bool(states & _NO) or offered.doubtful)
    perhaps_trap = differs and State.TRAP in states
    return Check(name, feature, state, needed_text, offered_text, because, differs, conflict, perhaps_trap)


def _one(
    feature: Feature, need: Needed | None, offered: Stated, bench: _Bench
) -> tuple[set[State], tuple[Because, ...]]:
    """One alternative: how the offered stands against it, in each case where that depends on which value is needed.

    What the stated work of the category takes care of goes with it.
    """
    if need is None or not offered.values:
        return {State.UNKNOWN}, ()
    states, steps = _against(feature, need, offered, bench)
    if feature.role is Role.JOINS and feature.work is not None:
        states = {State.WORK if state is State.OFF else state for state in states}
    return states, steps


def _joined(states: set[State]) -> State:
    """Over alternatives of which one is right, not known which: the same everywhere, else a trap stays loud, else unknown."""
    if len(states) == 1:
        return next(iter(states))
    if states and states <= {State.OK, State.WORK}:
        return State.WORK
    return State.TRAP if states and states <= _NO else State.UNKNOWN


def _against(
    feature: Feature, need: Needed, offered: Stated, bench: _Bench
) -> tuple[set[State], tuple[Because, ...]]:
    """The offered values (each is suited) against one alternative's needed ones."""
    worn = offered.measured is not None
    measured = (need.error, offered.measured.error if offered.measured is not None else "")
    errors = measured if worn or need.error else ()
    grid = [
        [bench.compare(feature, want, have, worn, errors) for have in offered.values] for want in need.values
    ]
    best = [min(row, key=lambda cell: _BEST.index(cell.state)) for row in grid]
    steps = tuple(cell.because for cell in best)
    states = {cell.state for cell in best}
    if need.any_will_do or feature.rule is Rule.ONE_OF:
        top = min(best, key=lambda cell: _BEST.index(cell.state))
        if top.state not in (State.OK, State.WORK) and State.UNKNOWN in states:
            return {State.UNKNOWN}, steps
        return {top.state}, (top.because,)
    return ({State.TRAP} if State.TRAP in states else states), steps
