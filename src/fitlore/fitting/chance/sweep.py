"""The exact chance of a reduced network: its branches are gone through once, and what may be the case stands side by side.

A case says which open nodes the start reaches, which open nodes reach which, and how the open shared events came out: the
levels of a decision diagram of the network, made one by one and merged where two cases go on alike (for networks without
shared events see Hardy, Lucet and Limnios, IEEE Transactions on Reliability 56 (2007); the shared events are ours).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final, NamedTuple

from fitlore.fitting.chance.network import GOAL, START, Branch, Reduced
from fitlore.fitting.chance.order import ordered

Case = tuple[int, ...]
"""Bits of nodes the start reaches, bits of shared events that hold, then of each open node the bits of those it reaches."""
_GOAL: Final = 1 << GOAL


class Swept(NamedTuple):
    """The chance that was found, and the chance of the cases that were dropped because there were too many."""

    found: float
    dropped: float


class _Step(NamedTuple):
    """A branch, and what is done before and after it."""

    branch: Branch
    ways: tuple[tuple[int, int, int], ...]
    """The ends of each way it can be gone, and at which place the row of the far end is (-1: that end is the goal)."""
    rows: tuple[int, ...]
    """Open nodes that have a row, in the order of their rows: something still leads into each, by this branch or later."""
    opening: tuple[int, ...]
    """Shared events that come up for the first time."""
    keep: tuple[int, ...]
    """Where in a case the rows stand that are wanted further on."""
    nodes: int
    """Bits of the nodes that something still leads out of, and of the goal."""
    events: int
    """Bits of the shared events that are wanted further on."""
    start: bool
    """Something still leads out of the start."""
    goal: bool
    """Something still leads into the goal."""


def sweep(network: Reduced, cases: int) -> Swept:
    """The chance that the start reaches the goal; at most `cases` cases are kept side by side, the likeliest.

    Where none had to be dropped the chance is exact, but for the rounding of floating-point sums.
    """
    won: list[float] = []
    dropped: list[float] = []
    now: dict[Case, float] = {(0, 0): 1.0}
    for step in _steps(ordered(network.branches)):
        now = _opened(now, step, network)
        now = _taken(now, step, won)
        if len(now) > cases:
            ranked = sorted(now.items(), key=lambda pair: (-pair[1], pair[0]))
            dropped += [mass for _, mass in ranked[cases:]]
            now = dict(ranked[:cases])
    return Swept(math.fsum(won), math.fsum(dropped))


def _steps(branches: list[Branch]) -> Iterable[_Step]:
    last_out, last_in, last_use = dict[int, int](), dict[int, int](), dict[int, int]()
    for at, branch in enumerate(branches):
        for tail, head in _ways(branch):
            last_out[tail], last_in[head] = at, at
        last_use.update(dict.fromkeys(branch.shared, at))
    rows: tuple[int, ...] = ()
    seen: set[int] = set()
    for at, branch in enumerate(branches):
        ends = {branch.tail, branch.head} - {START, GOAL, *rows}
        rows = (*rows, *sorted(node for node in ends if last_in.get(node, -1) >= at))
        keep = tuple(place for place, node in enumerate(rows, 2) if last_in.get(node, -1) > at)
        opening = tuple(sorted(branch.shared - seen))
        seen |= branch.shared
        nodes = sum(1 << node for node, last in last_out.items() if last > at and node != START)
        yield _Step(
            branch=branch,
            ways=tuple((t, h, rows.index(h) if h != GOAL else -1) for t, h in _ways(branch)),
            rows=rows,
            opening=opening,
            keep=keep,
            nodes=nodes | _GOAL,
            events=sum(1 << event for event in seen if last_use[event] > at),
            start=last_out.get(START, -1) > at,
            goal=last_in.get(GOAL, -1) > at,
        )
        rows = tuple(rows[place - 2] for place in keep)


def _ways(branch: Branch) -> tuple[tuple[int, int], ...]:
    there = (branch.tail, branch.head)
    return (there, (branch.head, branch.tail)) if branch.both else (there,)


def _opened(now: dict[Case, float], step: _Step, network: Reduced) -> dict[Case, float]:
    """The cases with a row for each new node, and split by how each new shared event comes out."""
    width = len(step.rows) + 2
    for event in step.opening:
        holds, bit = network.shared[event], 1 << event
        split = {}
        for case, mass in now.items():
            split[case] = mass * (1.0 - holds)
            split[(case[0], case[1] | bit, *case[2:])] = mass * holds
        now = split
    if any(len(case) != width for case in now):
        now = {(*case, *(0,) * (width - len(case))): mass for case, mass in now.items()}
    return now


def _taken(now: dict[Case, float], step: _Step, won: list[float]) -> dict[Case, float]:
    """The cases after a branch; what reaches the goal goes to `won`, what no longer can is left out."""
    own, needed = step.branch.own, sum(1 << event for event in step.branch.shared)
    fails = 1.0 - own
    after: dict[Case, float] = {}
    for case, mass in now.items():
        if case[1] & needed != needed:
            _put(after, case, mass, step)
            continue
        joined = _joined(case, step)
        if joined == case:
            _put(after, case, mass, step)
            continue
        if joined is None:
            won.append(mass * own)
        else:
            _put(after, joined, mass * own, step)
        if fails:
            _put(after, case, mass * fails, step)
    return after


def _put(after: dict[Case, float], case: Case, mass: float, step: _Step) -> None:
    """Forgets what no longer matters, so that cases which go on alike are one."""
    reached = case[0] & step.nodes
    if not (reached or step.start):
        return
    open_ = step.nodes & ~reached
    rows = [case[place] & open_ for place in step.keep]
    if not step.goal:
        for row in rows:
            if row & _GOAL:
                break
        else:
            return
    kept = (reached, case[1] & step.events, *rows)
    after[kept] = after.get(kept, 0.0) + mass


def _joined(case: Case, step: _Step) -> Case | None:
    """The case with the branch holding; None where the start then reaches the goal, the case itself where nothing is new."""
    reached, rows = case[0], case[2:]
    for tail, head, place in step.ways:
        if reached >> head & 1:
            continue
        gain = _GOAL if place < 0 else rows[place] | 1 << head
        if gain & _GOAL:
            gain = _GOAL
        if tail == START or reached >> tail & 1:
            if gain == _GOAL:
                return None
            reached |= gain
            others = ~reached
            rows = tuple(
                [
                    0 if reached >> node & 1 else row & others
                    for node, row in zip(step.rows, rows, strict=True)
                ]
            )
        else:
            rows = tuple(
                [
                    row
                    if row & _GOAL or not (node == tail or row >> tail & 1)
                    else gain
                    if gain == _GOAL
                    else (row | gain) & ~(1 << node)
                    for node, row in zip(step.rows, rows, strict=True)
                ]
            )
    return (reached, case[1], *rows)
