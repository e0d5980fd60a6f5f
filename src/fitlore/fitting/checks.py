"""The interface table: each feature of a candidate against what the place needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitlore.fitting.interface import compare, wear_allows
from fitlore.fitting.shape import Check, Interface, Needed, Requirement, State
from fitlore.model.because import Because
from fitlore.model.category import Feature
from fitlore.model.choices import Rule
from fitlore.model.origin import Origin
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.trade.standards import Standards

_BEST = [State.OK, State.WORK, State.TRAP, State.UNKNOWN, State.OFF]
"""Over values of which any one is enough; a trap stays loud where none of them goes."""


def table(
    interface: Interface, requirement: Requirement, part: Part, standards: Standards
) -> tuple[Check, ...]:
    """One check per feature of the interface that either side knows or that is required, in the category's order."""
    rows: list[Check] = []
    for name, feature in interface.features.items():
        offered = _offered(part, name, feature)
        needs = [alternative.get(name) for alternative in requirement.alternatives]
        if not offered[0] and not any(needs) and feature.optional:
            continue
        rows.append(_check(name, feature, needs, offered, standards))
    return tuple(rows)


def _offered(part: Part, name: str, feature: Feature) -> tuple[tuple[str, ...], tuple[Origin, ...], str]:
    """The offered values, their lines, and a remark. A first-hand measurement outweighs what is printed of the part."""
    nominal = part.features.get(name, ())
    measured = part.measured.get(name)
    if measured is None:
        return nominal, (part.origin,), ""
    if not nominal:
        return (measured.value,), (measured.origin,), "measured"
    if any(wear_allows(feature, value, measured.value, measured.error) for value in nominal):
        return nominal, (part.origin, measured.origin), "measured-agrees"
    if measured.how.first_hand:
        return (measured.value,), (measured.origin, part.origin), "measured-differs"
    return (), (measured.origin, part.origin), "measured-differs"


def _check(
    name: str,
    feature: Feature,
    needs: list[Needed | None],
    offered: tuple[tuple[str, ...], tuple[Origin, ...], str],
    standards: Standards,
) -> Check:
    values, origins, remark = offered
    needed_text = " or ".join(dict.fromkeys(", ".join(n.values) for n in needs if n is not None))
    offered_text = ", ".join(values)
    words = {"feature": name, "needed": needed_text, "offered": offered_text, "remark": remark}
    lines = tuple(dict.fromkeys([*(n.origin for n in needs if n is not None), *(origins if values else ())]))
    if not values or not needs or None in needs:
        missing = "offered" if not values else "needed"
        words["missing"] = missing if values or (needs and None not in needs) else "both"
        return Check(
            name, feature, State.UNKNOWN, needed_text, offered_text, Because("feature-unknown", words, lines)
        )
    results = [_against(feature, need, values, standards) for need in needs if need is not None]
    state = _joined([state for state, _ in results])
    state = State.WORK if state is State.OFF and feature.role.value == "joins" and feature.work else state
    because = Because(
        f"feature-{state.value}", words, lines, under=tuple(step for _, steps in results for step in steps)
    )
    differs = state is State.UNKNOWN and len({state for state, _ in results}) > 1
    return Check(name, feature, state, needed_text, offered_text, because, differs)


def _joined(states: list[State]) -> State:
    """Over alternatives of which one is right, not known which: the same everywhere, else a trap stays loud, else unknown."""
    if len(set(states)) == 1:
        return states[0]
    if set(states) <= {State.OK, State.WORK}:
        return State.WORK
    if set(states) <= {State.OFF, State.TRAP}:
        return State.TRAP
    return State.UNKNOWN


def _against(
    feature: Feature, need: Needed, offered: tuple[str, ...], standards: Standards
) -> tuple[State, tuple[Because, ...]]:
    """The offered values (each is suited) against one alternative's needed ones."""
    grid = [[compare(feature, want, have, standards) for have in offered] for want in need.values]
    best = [min(row, key=lambda cell: _BEST.index(cell.state)) for row in grid]
    steps = tuple(cell.because for cell in best)
    states = [cell.state for cell in best]
    if need.any_will_do or feature.rule is Rule.ONE_OF:
        top = min(best, key=lambda cell: _BEST.index(cell.state))
        if top.state not in (State.OK, State.WORK) and State.UNKNOWN in states:
            return State.UNKNOWN, steps
        return top.state, (top.because,)
    if len(set(states)) == 1:
        return states[0], steps
    if State.TRAP in states:
        return State.TRAP, steps
    return (State.WORK if set(states) <= {State.OK, State.WORK} else State.UNKNOWN), steps
