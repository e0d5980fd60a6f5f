"""Looking on while a plan is made: how far the proof has come, and the wish to stop."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, NamedTuple

EVERY: Final = 0.5
"""Seconds between two words on how far it has come."""


class Seen(NamedTuple):
    """How far one run has come: the best plan's cost so far and the bound no plan can be under, in coins; None: none yet.

    They are of the part of the job that is being solved, which is all of it unless nothing joins its parts.
    """

    seconds: float
    best: int | None
    bound: int | None


class Watch:
    """Told now and then; `stop` may be set at any time (from a signal), and the run ends with the best plan so far."""

    def __init__(self, tell: Callable[[Seen], None] | None = None) -> None:
        self.stop = False
        self.told = False
        """Whether anything was told."""
        self._tell = tell
        self._told = 0.0

    def see(self, seen: Seen) -> bool:
        """Takes note of how far it is; whether to go on."""
        if self._tell is not None and seen.seconds >= self._told + EVERY:
            self._told, self.told = seen.seconds, True
            self._tell(seen)
        return not self.stop
