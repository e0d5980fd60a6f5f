"""What a rubber has to bear, and whether another one bears it: for O-rings and for the lips of shaft seals.

A rubber that swells or melts in what runs against it looks right on the day it is fitted: that is a trap, not an off.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.o_ring.tables import MEDIA
from fitlore.trade.pieces import PRACTICE, Words, verdict, words
from fitlore.trade.result import FamilyResult, FamilyState
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_MEDIA: Final = (
    ("brake-fluid", words(r"\b(?:(?:for|in) )?(?:glycol )?brake fluid\b|\b(?:for|in) brakes\b")),
    ("petrol", words(r"\b(?:(?:for|in) )?(?:petrol|gasoline|fuel)\b")),
    ("coolant", words(r"\b(?:(?:for|in) )?(?:coolant|antifreeze|water)\b")),
    ("r134a", words(r"\b(?:(?:for|in) )?(?:r134a|air[- ]con(?:ditioning)?)\b")),
    ("oil", words(r"\b(?:(?:for|in) )?(?:engine |gear |mineral |hydraulic )?oil\b")),
)
_PLAINLY: Final = ("NBR", "HNBR", "FKM")
"""Rubbers that are meant where nothing is said: they bear oil and petrol, which most rings of a car meet (common practice)."""


@lru_cache(maxsize=8)
def _names(standards_key: tuple[tuple[str, str], ...]) -> tuple[re.Pattern[str], dict[str, str]]:
    ordered = sorted(standards_key, key=lambda pair: -len(pair[0]))
    pattern = "|".join(re.escape(name) for name, _ in ordered)
    return words(rf"(?<![A-Z0-9])(?P<name>{pattern})(?![A-Z])"), dict(standards_key)


def take_rubber(found: Words, standards: Standards) -> str:
    """The rubber named in a text, taken out of it; empty where there is none."""
    rows = standards.table("rubber-name").rows
    if not rows:
        return ""
    pattern, meant = _names(tuple((row.word("name"), row.word("rubber")) for row in rows))
    match = found.take(pattern)
    return meant[match["name"].upper()] if match else ""


def take_medium(found: Words) -> str:
    """What runs against it, where the text says so; empty where it does not."""
    return next((name for name, pattern in _MEDIA if found.take(pattern)), "")


def compare_rubber(needed: str, medium: str, offered: str, standards: Standards) -> FamilyResult:
    """How the offered rubber stands where `needed` (may be empty) meets `medium` (may be empty)."""
    values = {"needed": needed or f"one for {medium}", "offered": offered, "medium": medium}
    if needed == offered and not medium:
        return verdict(FamilyState.OK, "rubber-same", values)
    if not offered:
        return verdict(FamilyState.UNREADABLE, "rubber-unsaid", values)
    table = standards.table("rubber")
    have, need = table.find(rubber=offered), table.find(rubber=needed)
    if not needed and not medium:
        rows, plainly = have, offered in _PLAINLY
        return verdict(
            FamilyState.OK if plainly else FamilyState.UNREADABLE,
            "rubber-not-asked" if plainly else "rubber-special",
            values,
            () if plainly else rows,
            (PRACTICE,),
        )
    steps = list(_steps(need, have[0], medium, values))
    worst = max((step[0] for step in steps), key=_ORDER.index, default=FamilyState.OK)
    chosen = next((step for step in steps if step[0] is worst), None)
    code, extra = (chosen[1], chosen[2]) if chosen else ("rubber-serves", {})
    tells = (Because("rubber-tell", {}),) if worst is FamilyState.TRAP else ()
    return verdict(worst, code, values | extra, (*need, *have), (PRACTICE,), tells)


_ORDER: Final = (FamilyState.OK, FamilyState.UNREADABLE, FamilyState.OFF, FamilyState.TRAP)


def _steps(
    need: tuple[TableRow, ...], have: TableRow, medium: str, values: dict[str, str]
) -> Iterator[tuple[FamilyState, str, dict[str, str]]]:
    """Each medium by itself: what the needed rubber bears (or the text names) the offered one has to bear."""
    for one in (medium,) if medium else MEDIA:
        bears, borne = have.word(one), need[0].word(one) if need and not medium else "yes"
        if borne == "yes" and bears == "no":
            yield FamilyState.TRAP, "rubber-swells", {"medium": one}
        elif borne == "yes" and bears == "some":
            yield FamilyState.UNREADABLE, "rubber-some", {"medium": one}
    if need and have.number("heat") < need[0].number("heat"):
        limits = {"needed-heat": f"{need[0].cell('heat')} C", "offered-heat": f"{have.cell('heat')} C"}
        yield FamilyState.UNREADABLE, "rubber-heat", limits
