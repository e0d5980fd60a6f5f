"""Threads as a family of standards: texts in, a state and a proof out."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from itertools import product
from typing import Final

import msgspec

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import weakest
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.match import Outcome, as_replacement
from fitlore.trade.thread.proof import proof, size
from fitlore.trade.thread.reading import read
from fitlore.trade.thread.rows import INCH, ThreadRow
from fitlore.trade.thread.value import Thread, normal

_CRESTS: Final = Decimal("0.15")
"""How far under its major diameter a male thread may measure, in pitches: 6g with room for rounded crests (ISO 965-1)."""

_STATES = {
    Outcome.SAME: FamilyState.OK,
    Outcome.EQUIVALENT: FamilyState.OK,
    Outcome.WITH_WORK: FamilyState.OK_WITH_WORK,
    Outcome.DIFFERENT: FamilyState.OFF,
    Outcome.TRAP: FamilyState.TRAP,
}


class ThreadFamily:
    """The family of kind `thread`."""

    about = About(
        title="screw threads",
        standards=(
            "ISO 68-1",
            "ISO 261",
            "ISO 724",
            "ISO 965-1",
            "ASME B1.1",
            "ASME B1.20.1",
            "BS 84",
            "BS 93",
            "ISO 228-1",
            "ISO 7-1",
        ),
        spellings=(
            "M10x1",
            "m10 × 1,0",
            "3/8-24 UNF",
            "1/8 NPT",
            "G1/8",
            "7/16 UNF",
            "M8x1-LH",
            "M10x1 left hand thread",
        ),
        not_said=("the length of the thread", "the seat or flare behind it", "how it seals"),
        gaps=(
            "buttress, trapezoidal and knuckle threads",
            "tolerance limits of Whitworth, BA and pipe threads",
        ),
        ended=True,
    )

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

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed thread as its male half measures: over the crests, from crest to crest, between the flanks."""
        return (_sized(row) for row in standards.threads)

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


def _sized(row: ThreadRow) -> Sized:
    thread = Thread(row, row.family)
    sizes = dimensions(thread)
    bands = {
        "outside": Band(sizes.major - sizes.pitch * _CRESTS, sizes.major, "down"),
        "pitch": Band.around(sizes.pitch),
        "threads-per-inch": Band.around(INCH / sizes.pitch),
        "angle": Band.around(sizes.angle),
    }
    return Sized("thread", normal(thread), bands, size(thread))


def _one(needed: Thread, offered: Thread, end: End) -> FamilyResult:
    match = as_replacement(needed, offered, end)
    because = proof(match)
    values = {"needed": normal(needed), "offered": normal(offered), **because.values}
    rows = () if match.outcome is Outcome.SAME else (match.male.row, match.female.row)
    state = _STATES[match.outcome]
    return FamilyResult(state, msgspec.structs.replace(because, values=values), weakest(rows))


def _readings(found: Thread | Unreadable, standards: Standards) -> list[Thread]:
    if isinstance(found, Thread):
        return [found]
    again = (read(text, standards) for text in found.readings)
    return [thread for thread in again if isinstance(thread, Thread)]


def _question(faults: list[Unreadable]) -> Because:
    first, *rest = (fault.because() for fault in faults)
    return msgspec.structs.replace(first, under=tuple(rest))


FAMILIES: Final = {"thread": ThreadFamily()}
