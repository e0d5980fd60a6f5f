"""Three-valued logic after Kleene: true, false, and not known."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum


class Tri(Enum):
    """A truth value; `ASK` is the third one: the answer is a question."""

    FALSE = "false"
    ASK = "ask"
    TRUE = "true"

    def __invert__(self) -> Tri:
        return {Tri.TRUE: Tri.FALSE, Tri.FALSE: Tri.TRUE, Tri.ASK: Tri.ASK}[self]

    def __and__(self, other: Tri) -> Tri:
        return all_of((self, other))

    def __or__(self, other: Tri) -> Tri:
        return any_of((self, other))


def all_of(values: Iterable[Tri]) -> Tri:
    """The strong Kleene conjunction: false if any is false, else unknown if any is unknown. Empty: true."""
    seen = set(values)
    return Tri.FALSE if Tri.FALSE in seen else Tri.ASK if Tri.ASK in seen else Tri.TRUE


def any_of(values: Iterable[Tri]) -> Tri:
    """The strong Kleene disjunction: true if any is true, else unknown if any is unknown. Empty: false."""
    seen = set(values)
    return Tri.TRUE if Tri.TRUE in seen else Tri.ASK if Tri.ASK in seen else Tri.FALSE
