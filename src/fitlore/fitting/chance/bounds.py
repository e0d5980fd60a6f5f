"""Certain bounds for a network that is too large to be worked out.

Leaving branches out never raises the chance, so the likeliest chains alone give a lower bound. To reach the goal every cut
must be crossed, so cuts give upper bounds; the chance that something crosses a cut is at most one minus the product of what
its branches lack, for events that only ever help are associated (Esary, Proschan and Walkup, Annals of Mathematical
Statistics 38 (1967); Barlow and Proschan, Statistical Theory of Reliability and Life Testing, 1975, chapter 2). Cuts
without a branch or a shared event in common are independent of each other: their chances may be multiplied.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from typing import Final

from fitlore.fitting.chance.network import GOAL, START, Branch, Reduced
from fitlore.fitting.chance.sweep import sweep

_ROUNDS: Final = 5
"""Chains are added in so many rounds, each as many as all before it."""
_AGAIN: Final = 0.5
"""A branch that a chain has taken already counts only so much for the next one: other chains are looked for."""


def at_least(network: Reduced, cases: int) -> float:
    """The exact chance of as many of the likeliest chains as can be worked out with so many cases side by side."""
    best, taken = 0.0, set[Branch]()
    chains = _chains(network)
    for number in (2**power for power in range(_ROUNDS)):
        before = len(taken)
        for chain in (chain for chain, _ in zip(chains, range(number), strict=False)):
            taken.update(chain)
        some = tuple(branch for branch in network.branches if branch in taken)
        found = sweep(Reduced(some, network.shared), cases)
        if found.dropped:
            break
        best = max(best, found.found)
        if len(taken) == before:
            break
    return best


def _chains(network: Reduced) -> Iterator[list[Branch]]:
    """Chains from start to goal, the likeliest first and then ones that differ."""
    used: defaultdict[Branch, int] = defaultdict(int)
    leaving: defaultdict[int, list[tuple[int, Branch]]] = defaultdict(list)
    for branch in network.branches:
        leaving[branch.tail].append((branch.head, branch))
        if branch.both:
            leaving[branch.head].append((branch.tail, branch))
    weights = {
        branch: -math.log(branch.own * math.prod(network.shared[event] for event in sorted(branch.shared)))
        for branch in network.branches
    }
    while True:
        costs = {branch: weight - used[branch] * math.log(_AGAIN) for branch, weight in weights.items()}
        chain = _cheapest(leaving, costs)
        if not chain:
            return
        yield chain
        for branch in chain:
            used[branch] += 1


def _cheapest(leaving: dict[int, list[tuple[int, Branch]]], costs: dict[Branch, float]) -> list[Branch]:
    """Dijkstra's cheapest way from start to goal, as its branches; none where there is no way."""
    from heapq import heappop, heappush

    came: dict[int, tuple[int, Branch]] = {}
    done: set[int] = set()
    heap: list[tuple[float, int]] = [(0.0, START)]
    least = {START: 0.0}
    while heap:
        cost, node = heappop(heap)
        if node in done:
            continue
        done.add(node)
        for head, branch in leaving.get(node, ()):
            further = cost + costs[branch]
            if head not in done and further < least.get(head, math.inf):
                least[head], came[head] = further, (node, branch)
                heappush(heap, (further, head))
    chain: list[Branch] = []
    node = GOAL
    while node in came:
        node, branch = came[node]
        chain.append(branch)
    return chain[::-1]


def at_most(network: Reduced) -> float:
    """The least of what the cuts allow: those at so many steps from the start, and at so many steps from the goal."""
    return min(
        (_allowed(cuts, network) for cuts in (_cuts(network, START), _cuts(network, GOAL))), default=1.0
    )


def _cuts(network: Reduced, first: int) -> list[list[Branch]]:
    """The branches that lead from each distance to the next one. No branch is in two of them."""
    near: defaultdict[int, list[int]] = defaultdict(list)
    for branch in network.branches:
        here, there = (branch.tail, branch.head) if first == START else (branch.head, branch.tail)
        near[here].append(there)
        if branch.both:
            near[there].append(here)
    far, walk = {first: 0}, [first]
    for node in walk:
        for other in near[node]:
            if other not in far:
                far[other] = far[node] + 1
                walk.append(other)
    last = far.get(GOAL if first == START else START, 0)
    cuts: list[list[Branch]] = [[] for _ in range(last)]
    for branch in network.branches:
        tail, head = far.get(branch.tail, last), far.get(branch.head, last)
        crosses = branch.both or (tail < head if first == START else head < tail)
        if crosses and tail != head and min(tail, head) < last:
            cuts[min(tail, head)].append(branch)
    return cuts


def _allowed(cuts: list[list[Branch]], network: Reduced) -> float:
    """What is allowed by cuts that share no event, and by the narrowest one alone."""
    product, least, seen = 1.0, 1.0, set[int]()
    for cut in cuts:
        lack = math.prod(
            1.0 - b.own * math.prod(network.shared[event] for event in sorted(b.shared)) for b in cut
        )
        events = {event for branch in cut for event in branch.shared}
        least = min(least, 1.0 - lack)
        if not events & seen:
            product *= 1.0 - lack
            seen |= events
    return min(product, least)
