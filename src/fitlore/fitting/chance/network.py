"""What a chance is asked of: parts, the arcs between them, and the events the arcs rest on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Arc(NamedTuple):
    """A step from one node to another. It holds where all its events do; a claim that rests on any of several is several."""

    tail: str
    head: str
    events: frozenset[str] = frozenset()
    """None: it is certain."""
    both: bool = False
    """It may be gone in either direction."""


class Network(NamedTuple):
    """Arcs between nodes, and how likely each event is (0 to 1). Events are independent; arcs that name one share it."""

    start: str
    goal: str
    arcs: tuple[Arc, ...]
    events: Mapping[str, float]


class Branch(NamedTuple):
    """An arc between numbered nodes: a coin of its own, and those of its events that other arcs share."""

    tail: int
    head: int
    own: float
    shared: frozenset[int] = frozenset()
    both: bool = False


class Reduced(NamedTuple):
    """A network of which nothing can be taken away without changing its chance. Node 0 is the start, node 1 the goal."""

    branches: tuple[Branch, ...]
    shared: Mapping[int, float]
    """How likely each shared event is."""


START, GOAL = 0, 1
