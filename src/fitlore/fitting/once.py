"""What is worked out of a graph once: a graph never changes, so the second asking has the first one's answer."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeVar
from weakref import WeakKeyDictionary

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

P = ParamSpec("P")
R = TypeVar("R")


def once(function: Callable[Concatenate[Graph, P], R]) -> Callable[Concatenate[Graph, P], R]:
    """For functions of a graph and of hashable values given in order: each is worked out once in the life of the graph."""
    every: WeakKeyDictionary[Graph, dict[tuple[object, ...], R]] = WeakKeyDictionary()

    @wraps(function)
    def remembered(graph: Graph, /, *args: P.args, **kwargs: P.kwargs) -> R:
        known = every.get(graph)
        if known is None:
            known = every[graph] = {}
        asked = (*args, *sorted(kwargs.items())) if kwargs else args
        if asked not in known:
            known[asked] = function(graph, *args, **kwargs)
        return known[asked]

    return remembered
