"""A network made smaller without changing its chance.

What lies on no chain from start to goal is left out; events that one arc alone rests on, arcs side by side and arcs in a
row are put together. The steps are those of two-terminal reliability (Colbourn, The Combinatorics of Network Reliability,
1987, chapter 2: relevant arcs, series and parallel reductions), taken only where no shared event is in their way.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable
from itertools import count

from fitlore.fitting.chance.network import GOAL, START, Branch, Network, Reduced


def reduced(network: Network) -> Reduced:
    """The network between numbered nodes, reduced until nothing more can be. The order of arcs makes no difference.

    Raises KeyError where an arc names an event of unknown chance, ValueError where a chance is not within 0 and 1.
    """
    numbers: defaultdict[str, int] = defaultdict(count().__next__)
    assert (numbers[network.start], numbers[network.goal]) == (START, GOAL)
    names = {event: at for at, event in enumerate(sorted({e for arc in network.arcs for e in arc.events}))}
    chances = {at: float(network.events[event]) for event, at in names.items()}
    if any(not 0.0 <= chance <= 1.0 for chance in chances.values()):
        raise ValueError("a chance is a number from 0 to 1")
    arcs = sorted(set(network.arcs), key=lambda arc: (arc.tail, arc.head, sorted(arc.events), arc.both))
    branches = [
        Branch(numbers[arc.tail], numbers[arc.head], 1.0, frozenset(names[e] for e in arc.events), arc.both)
        for arc in arcs
    ]
    before: list[Branch] = []
    while branches != before:
        before = useful(branches)
        branches = _put_together(before, chances)
    used = sorted({event for branch in branches for event in branch.shared})
    return Reduced(tuple(branches), {event: chances[event] for event in used})


def _put_together(branches: list[Branch], chances: dict[int, float]) -> list[Branch]:
    before: list[Branch] = []
    while branches != before:
        before = branches
        branches = _in_a_row(_side_by_side(_absorbed(branches, chances)))
    return branches


def useful(branches: Iterable[Branch]) -> list[Branch]:
    """The branches that may be on a chain without detours, in the only direction such a chain can take them."""
    rows = [row for row in map(_directed, branches) if _leads_on(row)]
    after, before = _neighbours(rows)
    nodes = {end for row in rows for end in (row.tail, row.head)}
    kept = nodes & _reach(START, after, -1) & _reach(GOAL, before, -1)
    if len(kept) > 2:
        for cut in sorted(kept):
            forth = _reach(START, after, cut) if cut != START else set()
            back = _reach(GOAL, before, cut) if cut != GOAL else set()
            kept &= forth | back | {cut}
    rows = [row for row in rows if row.tail in kept and row.head in kept]
    return rows if {START, GOAL} <= kept else []


def _directed(branch: Branch) -> Branch:
    """One that touches the start is left by, one that touches the goal is arrived by."""
    if branch.both and START in (branch.tail, branch.head):
        return branch._replace(tail=START, head=max(branch.tail, branch.head), both=False)
    if branch.both and GOAL in (branch.tail, branch.head):
        return branch._replace(tail=max(branch.tail, branch.head), head=GOAL, both=False)
    return branch


def _leads_on(branch: Branch) -> bool:
    return branch.own > 0.0 and branch.tail not in (GOAL, branch.head) and branch.head != START


def _neighbours(branches: Iterable[Branch]) -> tuple[dict[int, list[int]], dict[int, list[int]]]:
    after: dict[int, list[int]] = defaultdict(list)
    before: dict[int, list[int]] = defaultdict(list)
    for branch in branches:
        after[branch.tail].append(branch.head)
        before[branch.head].append(branch.tail)
        if branch.both:
            after[branch.head].append(branch.tail)
            before[branch.tail].append(branch.head)
    return after, before


def _reach(start: int, after: dict[int, list[int]], cut: int) -> set[int]:
    """What can be reached without passing through one node."""
    found, todo = {start}, [start]
    while todo:
        for node in after.get(todo.pop(), ()):
            if node not in found and node != cut:
                found.add(node)
                todo.append(node)
    return found


def _absorbed(branches: list[Branch], chances: dict[int, float]) -> list[Branch]:
    """An event that only one branch rests on is its own; one that is certain is none; what is impossible is no branch."""
    uses = Counter(event for branch in branches for event in branch.shared)
    rows = []
    for branch in branches:
        own, shared = branch.own, set(branch.shared)
        for event in sorted(branch.shared):
            if uses[event] == 1 or chances[event] in (0.0, 1.0):
                own *= chances[event]
                shared.remove(event)
        if own > 0.0:
            rows.append(branch._replace(own=own, shared=frozenset(shared)))
    return rows


def _side_by_side(branches: list[Branch]) -> list[Branch]:
    """Branches between the same nodes that share the same events are one: one minus the product of what they lack."""
    groups: dict[tuple[int, int, bool, frozenset[int]], list[Branch]] = {}
    for branch in branches:
        ends = (branch.tail, branch.head)
        tail, head = sorted(ends) if branch.both else ends
        groups.setdefault((tail, head, branch.both, branch.shared), []).append(branch)
    return [
        rows[0] if len(rows) == 1 else rows[0]._replace(own=1.0 - math.prod(1.0 - row.own for row in rows))
        for rows in groups.values()
    ]


def _in_a_row(branches: list[Branch]) -> list[Branch]:
    """Two branches that meet at a node where nothing else does are one: both must hold. One such node at a time."""
    at: dict[int, list[Branch]] = defaultdict(list)
    for branch in branches:
        at[branch.tail].append(branch)
        at[branch.head].append(branch)
    for node in sorted(at.keys() - {START, GOAL}):
        if len(at[node]) != 2:
            continue
        one, other = at[node]
        if joint := _joint(one, other, node):
            rest = [row for row in branches if row not in (one, other)]
            return [*rest, joint] if joint.tail != joint.head else rest
    return branches


def _joint(one: Branch, other: Branch, node: int) -> Branch | None:
    """The two as one branch past the node they meet at; None where both only lead in, or both only out."""
    for first, second in ((one, other), (other, one)):
        into = first if first.head == node or not first.both else _turned(first)
        out = second if second.tail == node or not second.both else _turned(second)
        if into.head == node and out.tail == node:
            return Branch(
                into.tail, out.head, into.own * out.own, into.shared | out.shared, into.both and out.both
            )
    return None


def _turned(branch: Branch) -> Branch:
    return branch._replace(tail=branch.head, head=branch.tail)
