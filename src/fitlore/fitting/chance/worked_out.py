"""The chance of a network: exact up to a stated size, between two certain bounds beyond it."""

from __future__ import annotations

from typing import Final, NamedTuple

from fitlore.fitting.chance.bounds import at_least, at_most
from fitlore.fitting.chance.network import Network
from fitlore.fitting.chance.reduce import reduced
from fitlore.fitting.chance.sweep import sweep

CASES: Final = 4096
"""So many cases may stand side by side: whatever is the size of a network, it is exact while there are no more.

There are never more than two for each coin, so a network that reduces to twelve coins (branches and shared events) is
always exact. How large others may be is in `tests/speed/evidence.py`.
"""
_NARROW: Final = 0.002
"""Bounds that are no farther apart are near enough: no others are looked for."""
_ROUNDING: Final = 1e-12
"""More than the sums of a few thousand floating-point products can be off."""


class Chance(NamedTuple):
    """Between which bounds the chance lies, 0 to 1; where it was worked out exactly both are the same."""

    low: float
    high: float
    exact: bool


def chance(network: Network, cases: int = CASES) -> Chance:
    """The chance that at least one chain of arcs from start to goal holds: two-terminal reliability with shared events.

    With more than `cases` cases side by side the likeliest are followed; what the others may come to is the width of the
    answer, unless the chains or the cuts tell more. KeyError, ValueError: see `reduced`.
    """
    if network.start == network.goal:
        return Chance(1.0, 1.0, True)
    small = reduced(network)
    found = sweep(small, cases)
    if not found.dropped:
        exact = min(1.0, found.found)
        return Chance(exact, exact, True)
    low, high = found.found, found.found + found.dropped
    if found.dropped > _NARROW:
        low, high = max(low, at_least(small, cases)), min(high, at_most(small))
    return Chance(max(0.0, low - _ROUNDING), min(1.0, high + _ROUNDING), False)
