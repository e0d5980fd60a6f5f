"""Parts nobody has claimed: those that satisfy everything, and the traps, which must be known before one is bought."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.fitting.checks import plainly_not, table
from fitlore.fitting.narrowing import near_trap, worth
from fitlore.fitting.nearest import Lot, lot, nearness
from fitlore.fitting.parts import Identity, alike, ask_ahead, identity, keys_of, with_twins
from fitlore.fitting.shape import Check, Verdict, Word
from fitlore.fitting.verdict import judge
from fitlore.fitting.ways import Found, Setting, by_measure, measured

if TYPE_CHECKING:
    from fitlore.model.part import Part

Trials = dict[Identity, frozenset[str]]
"""What the shop's own trials say, by part."""
_FEW: Final = 2
"""Where there are no more than so many times what is shown, each is looked at, and what is left out is counted exactly."""


class Unclaimed(NamedTuple):
    """What is to be said of them, and of how many nothing is said."""

    verdicts: tuple[Verdict, ...]
    more: int = 0
    more_traps: int = 0


def unclaimed(setting: Setting, trials: Trials, most: int | None) -> Unclaimed:
    """Verdicts on what nobody has claimed: all of it, or the nearest so many and as many traps (see `nearest.Nearness`).

    `trials` names what was found otherwise, which is left out here.
    """
    if most is None:
        return Unclaimed(tuple(_every(setting, trials)))
    here = worth(setting)
    if not setting.requirement.alternatives or not (here.found or here.about):
        return Unclaimed(())
    if len(here.found) + len(here.about) <= _FEW * most:
        return _counted(setting, trials, most)
    return _Walk(setting, trials, most).result()


def checks_of(part: Part, own: Setting) -> tuple[Check, ...]:
    """The interface table of a part; `own` is the setting as the part's own category tightens it."""
    return table(own.interface, own.requirement, part, own.graph.standards)


def tried(part: Part, setting: Setting, trials: Trials) -> frozenset[str]:
    """What the shop's own trials say of a part, under whichever of its numbers it was tried."""
    if not any(trials.values()):
        return frozenset()
    same = alike(setting.graph, keys_of(part))
    return frozenset(word for (_, key), words in trials.items() if key in same for word in words)


def _every(setting: Setting, trials: Trials) -> Iterator[Verdict]:
    known = set(trials)
    for candidate in by_measure(setting):
        if identity(candidate.part) not in known:
            known.add(identity(candidate.part))
            verdict = _judged(candidate, setting, trials)
            if verdict is not None:
                yield verdict


def _judged(candidate: Found, setting: Setting, trials: Trials) -> Verdict | None:
    full = with_twins(setting.graph, candidate.part)
    own = setting.for_part(full)
    if plainly_not(own.interface, own.requirement, full, own.graph.standards):
        return None
    verdict = judge(full, [candidate.way], checks_of(full, own), own, tried(candidate.part, setting, trials))
    return verdict if verdict.word in (Word.BY_MEASURE, Word.DEPENDS) or verdict.danger else None


def _counted(setting: Setting, trials: Trials, most: int) -> Unclaimed:
    """The nearest of a few, each of which is looked at."""
    here = worth(setting)
    rank = nearness(setting, (*here.found, *here.about))
    rows = sorted(_every(setting, trials), key=lambda verdict: rank[identity(verdict.part)])
    traps = [verdict for verdict in rows if verdict.danger]
    goes = [verdict for verdict in rows if not verdict.danger]
    shown = (*goes[:most], *traps[:most])
    return Unclaimed(shown, len(goes) - len(goes[:most]), len(traps) - len(traps[:most]))


class _Walk:
    """The nearest of many, until there are enough of them.

    Whether one further off is a trap is told by its own record: one that is a trap only by what is said of it under
    another number is told of by that number.
    """

    def __init__(self, setting: Setting, trials: Trials, most: int) -> None:
        self._setting, self._trials, self._most = setting, trials, most
        self._lot: Lot = lot(setting)
        self._seen: dict[Identity, Verdict | None] = {}

    def result(self) -> Unclaimed:
        """Those that go, traps, and how many of either are left out at most."""
        goes: list[Verdict] = []
        for key, part in self._ahead(self._lot.found):
            verdict = self._look(key, part)
            if verdict is not None and not verdict.danger:
                goes.append(verdict)
            if len(goes) == self._most:
                break
        count = 0
        for key, part in self._ahead(self._lot.traps):
            if count == self._most:
                break
            verdict = self._look(key, part)
            count += verdict is not None and bool(verdict.danger)
        kept = [verdict for verdict in self._seen.values() if verdict is not None]
        traps = [verdict for verdict in kept if verdict.danger]
        beyond = len(kept) - len(traps) - len(goes)
        traps.sort(key=lambda verdict: self._lot.rank[identity(verdict.part)])
        left = self._lot.traps.keys() - self._seen.keys() - self._trials.keys()
        more = self._lot.found.keys() - self._lot.traps.keys() - self._seen.keys() - self._trials.keys()
        shown = (*goes, *traps[: self._most])
        return Unclaimed(shown, len(more) + beyond, len(left) + len(traps[self._most :]))

    def _ahead(self, parts: dict[Identity, Part]) -> Iterator[tuple[Identity, Part]]:
        """What nothing else leads to, in order; what is asked of each is asked some at a time."""
        rest = ((key, part) for key, part in parts.items() if key not in self._trials)
        while some := list(islice(rest, _FEW * self._most)):
            ask_ahead(self._setting.graph, (part for key, part in some if key not in self._seen))
            yield from some

    def _look(self, key: Identity, part: Part) -> Verdict | None:
        if key not in self._seen:
            self._seen[key] = self._verdict(key, part)
        return self._seen[key]

    def _verdict(self, key: Identity, part: Part) -> Verdict | None:
        if key not in self._lot.found and not near_trap(self._setting, part):
            return None
        candidate = measured(self._setting, part)
        return _judged(candidate, self._setting, self._trials) if candidate is not None else None
