"""Texts that may mean several things: each reading is compared, and the answer is no only where every one is."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

import msgspec

from fitlore.model.because import Because
from fitlore.trade.pieces import question
from fitlore.trade.result import FamilyResult, FamilyState, Unreadable
from fitlore.trade.rows import Certainty

_T = TypeVar("_T")
_NO = (FamilyState.OFF, FamilyState.TRAP)


def each_reading(
    code: str,
    needed: _T | Unreadable,
    offered: _T | Unreadable,
    again: Callable[[str], _T | Unreadable],
    one: Callable[[_T, _T], FamilyResult],
) -> FamilyResult:
    """Compare two texts. What has no reading, or some reading that goes, is a question; else the worst no.

    `again` reads a reading, `one` compares two values; `code` tells that no reading goes.
    """
    faults = [found for found in (needed, offered) if isinstance(found, Unreadable)]
    pairs = [(want, have) for want in _all(needed, again) for have in _all(offered, again)]
    results = [one(want, have) for want, have in pairs]
    if not faults:
        return results[0]
    if not results or any(result.state not in _NO for result in results):
        return question(*faults)
    state = (
        FamilyState.TRAP if any(result.state is FamilyState.TRAP for result in results) else FamilyState.OFF
    )
    under = tuple(msgspec.structs.replace(result.because, under=()) for result in results)
    because = Because(code, {"text": ", ".join(fault.text for fault in faults)}, under=under)
    order = list(Certainty)
    return FamilyResult(state, because, max((result.certainty for result in results), key=order.index))


def _all(found: _T | Unreadable, again: Callable[[str], _T | Unreadable]) -> Iterable[_T]:
    if not isinstance(found, Unreadable):
        return [found]
    made = (again(text) for text in found.readings)
    return [one for one in made if not isinstance(one, Unreadable)]
