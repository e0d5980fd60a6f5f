"""Threads as a family of standards: texts in, a state and a proof out."""

from __future__ import annotations

from itertools import product

import msgspec

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.match import Outcome, as_replacement
from fitlore.trade.thread.proof import proof
from fitlore.trade.thread.reading import read
from fitlore.trade.thread.value import Thread, normal

_STATES = {
    Outcome.SAME: FamilyState.OK,
    Outcome.EQUIVALENT: FamilyState.OK,
    Outcome.WITH_WORK: FamilyState.OK_WITH_WORK,
    Outcome.DIFFERENT: FamilyState.OFF,
    Outcome.TRAP: FamilyState.TRAP,
}


class ThreadFamily:
    """The family of kind `thread`."""

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form of a designation, with `major` and `pitch` in mm to look parts up by.

        The tolerance class is left out of it: M10x1-6g and M10x1 are found by one key.
        """
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        sizes = dimensions(found)
        keys = {"major": round(sizes.major, 4), "pitch": round(sizes.pitch, 4)}
        return Reading(normal(msgspec.structs.replace(found, tolerance="")), found.implied, keys)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """One text against another. A text with several readings is compared by each of them.

        If no reading goes, the answer is no (a trap where one is); if some reading goes, it is a question.
        """
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Thread) and isinstance(had, Thread):
            return _one(wanted, had, end)
        faults = list(dict.fromkeys(found for found in (wanted, had) if isinstance(found, Unreadable)))
        pairs = list(product(_readings(wanted, standards), _readings(had, standards)))
        results = [_one(want, have, end) for want, have in pairs]
        no = {FamilyState.OFF, FamilyState.TRAP}
        if not results or any(result.state not in no for result in results):
            return FamilyResult(FamilyState.UNREADABLE, _question(faults))
        trap = any(result.state is FamilyState.TRAP for result in results)
        because = Because(
            "thread-no-reading-goes",
            {"needed": needed, "offered": offered, "pairs": str(len(results))},
            under=tuple(msgspec.structs.replace(result.because, under=()) for result in results),
        )
        return FamilyResult(FamilyState.TRAP if trap else FamilyState.OFF, because)


def _one(needed: Thread, offered: Thread, end: End) -> FamilyResult:
    match = as_replacement(needed, offered, end)
    because = proof(match)
    values = {"needed": normal(needed), "offered": normal(offered), **because.values}
    return FamilyResult(_STATES[match.outcome], msgspec.structs.replace(because, values=values))


def _readings(found: Thread | Unreadable, standards: Standards) -> list[Thread]:
    if isinstance(found, Thread):
        return [found]
    again = (read(text, standards) for text in found.readings)
    return [thread for thread in again if isinstance(thread, Thread)]


def _question(faults: list[Unreadable]) -> Because:
    first, *rest = (fault.because() for fault in faults)
    return msgspec.structs.replace(first, under=tuple(rest))
