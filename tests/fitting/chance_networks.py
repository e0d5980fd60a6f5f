"""Networks for the tests of chances: random ones with shared sources, and the chance of one by plain enumeration."""

from __future__ import annotations

import random
from collections.abc import Iterable
from itertools import product

from fitlore.fitting.chance import Arc, Network

CHANCES = (0.0, 0.1, 0.4, 0.75, 0.85, 0.9, 0.97, 1.0)


def arc(tail: str, head: str, *events: str, both: bool = True) -> Arc:
    """One arc."""
    return Arc(tail, head, frozenset(events), both)


def network(
    arcs: Iterable[Arc], events: dict[str, float] | float, start: str = "a", goal: str = "b"
) -> Network:
    """A network from a to b; one figure for all events where all are alike."""
    rows = tuple(arcs)
    names = {event for one in rows for event in one.events}
    chances = events if isinstance(events, dict) else dict.fromkeys(names, events)
    return Network(start, goal, rows, chances)


def random_network(rng: random.Random, *, events: int = 8, arcs: int = 9, both: float = 0.4) -> Network:
    """Up to six nodes; sources are shared by claims in a row and side by side, and some arcs need two of them."""
    nodes = "abcdef"[: rng.randint(2, 6)]
    names = [f"e{number}" for number in range(rng.randint(1, events))]
    rows = []
    for _ in range(rng.randint(1, arcs)):
        tail, head = rng.sample(nodes, 2)
        some = rng.sample(names, min(len(names), rng.choice([0, 1, 1, 1, 1, 2])))
        rows.append(arc(tail, head, *some, both=rng.random() < both))
    return network(rows, {name: rng.choice([*CHANCES, rng.random()]) for name in names})


def shares_a_source(made: Network) -> bool:
    """Whether any event stands behind arcs between different nodes."""
    ends: dict[str, set[frozenset[str]]] = {}
    for one in made.arcs:
        for event in one.events:
            ends.setdefault(event, set()).add(frozenset((one.tail, one.head)))
    return any(len(rows) > 1 for rows in ends.values())


def enumerated(made: Network) -> float:
    """The sum over every way in which the events may come out: no reduction, no order, no merging."""
    names = sorted({event for one in made.arcs for event in one.events})
    bits = {name: 1 << at for at, name in enumerate(names)}
    rows = [(one.tail, one.head, one.both, sum(bits[e] for e in one.events)) for one in made.arcs]
    total = 0.0
    for outcome in product((0, 1), repeat=len(names)):
        holds = sum(bits[name] for name, came in zip(names, outcome, strict=True) if came)
        weight = 1.0
        for name, came in zip(names, outcome, strict=True):
            weight *= made.events[name] if came else 1.0 - made.events[name]
        if weight and made.goal in _reached(made.start, [r for r in rows if r[3] & holds == r[3]]):
            total += weight
    return total


def _reached(start: str, rows: list[tuple[str, str, bool, int]]) -> set[str]:
    found, before = {start}, 0
    while len(found) != before:
        before = len(found)
        for tail, head, both, _ in rows:
            if tail in found:
                found.add(head)
            if both and head in found:
                found.add(tail)
    return found
