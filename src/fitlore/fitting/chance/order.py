"""In which order the branches of a network are gone through: so that few nodes stand open at any time."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator

from fitlore.fitting.chance.network import GOAL, START, Branch

_MOST_STARTS = 40
"""So many nodes are tried as the first one."""
_THREE = math.log2(3)


def ordered(branches: Iterable[Branch]) -> list[Branch]:
    """The branches in the cheapest of several orders: breadth first from each node, and one that keeps least open."""
    rows = sorted(branches, key=_key)
    near: dict[int, set[int]] = defaultdict(set)
    for row in rows:
        near[row.tail].add(row.head)
        near[row.head].add(row.tail)
    nodes = sorted(near)
    walks = [_least_open(near)] + [_breadth_first(near, first) for first in nodes[:_MOST_STARTS]]
    return min((_along(rows, walk) for walk in walks), key=_cost, default=[])


def _key(branch: Branch) -> tuple[int, int, list[int], bool]:
    return branch.tail, branch.head, sorted(branch.shared), branch.both


def _breadth_first(near: dict[int, set[int]], first: int) -> list[int]:
    walk = [first]
    for node in walk:
        walk += sorted(near[node].difference(walk))
    return walk


def _least_open(near: dict[int, set[int]]) -> list[int]:
    """From the start on, always the neighbour after which fewest nodes stand open: gone to, and not yet all around them."""
    walk = [START]
    done, beside = {START}, set(near[START])
    left = {node: len(around) for node, around in near.items()}
    while beside:
        following = min(beside, key=lambda node: (_opened(node, near, done, left), node))
        walk.append(following)
        done.add(following)
        for other in near[following]:
            left[other] -= 1
        beside = (beside | near[following]) - done
    return walk


def _opened(node: int, near: dict[int, set[int]], done: set[int], left: dict[int, int]) -> int:
    """How many more nodes stand open after going to this one."""
    closes = sum(left[other] == 1 for other in near[node] & done if other not in (START, GOAL))
    opens = node != GOAL and not near[node] <= done
    return opens - closes


def _along(rows: list[Branch], walk: list[int]) -> list[Branch]:
    at = {node: number for number, node in enumerate(walk)}
    return sorted(rows, key=lambda row: sorted((at[row.tail], at[row.head]), reverse=True))


def _cost(rows: list[Branch]) -> float:
    """What going through them may take: at each step three states a node that is open, two a shared event that is."""
    first, last = dict[str, int](), dict[str, int]()
    for step, row in enumerate(rows):
        for name in _names(row):
            first.setdefault(name, step)
            last[name] = step
    change = [0.0] * (len(rows) + 1)
    for name in first:
        weight = _THREE if name.startswith("n") else 1.0
        change[first[name]] += weight
        change[last[name]] -= weight
    total = width = 0.0
    for more in change:
        width += more
        total += 2.0**width
    return total


def _names(row: Branch) -> Iterator[str]:
    for node in {row.tail, row.head} - {START, GOAL}:
        yield f"n{node}"
    for event in row.shared:
        yield f"e{event}"
