"""Every kind of car that facts leave possible: between two change points all cars answer a condition alike."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from itertools import pairwise, product
from typing import Final

from fitlore.fitting.conditions import DATES, holds, serial_bounds
from fitlore.model.dates import FIRST, LAST, Period, read_period
from fitlore.model.kleene import Tri
from fitlore.model.platform import Cond, Condition, Established, Platform

MOST_CELLS: Final = 64


def covered(
    conditions: Sequence[Condition], facts: Mapping[str, Established], platform: Platform | None
) -> bool:
    """Whether at least one of the conditions holds for every car that the facts, and the platform's ranges, leave possible.

    False also where this cannot be told: a fact without a list of what it can be, or too many cells.
    """
    cells = possible(conditions, facts, platform)
    return bool(cells) and all(
        any(holds(condition, {**facts, **cell}).value is Tri.TRUE for condition in conditions)
        for cell in cells
    )


def possible(
    conditions: Sequence[Condition], facts: Mapping[str, Established], platform: Platform | None
) -> list[dict[str, Established]]:
    """One set of facts per cell, over all facts that the conditions name and that are not settled; empty: cannot be told."""
    names = sorted({name for condition in conditions for name in condition})
    open_ones = [name for name in names if _undecided(name, conditions, facts)]
    choices = [
        _values(name, [c[name] for c in conditions if name in c], facts, platform) for name in open_ones
    ]
    count = 1
    for values in choices:
        count *= len(values)
    if not 0 < count <= MOST_CELLS:
        return []
    return [
        {name: Established(value=(value,)) for name, value in zip(open_ones, row, strict=True)}
        for row in product(*choices)
    ]


def _undecided(name: str, conditions: Iterable[Condition], facts: Mapping[str, Established]) -> bool:
    return any(holds({name: c[name]}, facts).value is Tri.ASK for c in conditions if name in c)


def _values(
    name: str, conds: list[Cond], facts: Mapping[str, Established], platform: Platform | None
) -> list[str]:
    known = facts.get(name)
    if name in DATES:
        return _days(name, conds, facts, platform)
    if known is not None and known.value:
        return list(known.value)
    allowed = platform.facts.get(name) if platform else None
    if allowed is None:
        return []
    if allowed.series:
        return [f"{series} {number}" for series in allowed.series for number in _serials(series, conds)]
    return list(allowed.any_)


def _serials(series: str, conds: list[Cond]) -> list[int]:
    """One serial number of each stretch between two change points of a series."""
    cuts = {1}
    for cond in conds:
        low, high = serial_bounds(cond.series, series) or (None, None)
        cuts |= {low} if low is not None else set()
        cuts |= {high + 1} if high is not None else set()
    return sorted(cuts)


def _days(
    name: str, conds: list[Cond], facts: Mapping[str, Established], platform: Platform | None
) -> list[str]:
    """Stretches of days, as intervals: those that are possible, cut where a condition begins or ends."""
    spans = _possible_days(name, facts, platform)
    periods = [read_period(text) for cond in conds for text in (*cond.any_, *cond.not_)]
    cuts = {
        edge
        for p in periods
        if p is not None
        for edge in (p.start, p.end + 1, p.surely_from, p.surely_till + 1)
    }
    rows = []
    for start, end in spans:
        edges = sorted({start, end + 1, *(cut for cut in cuts if start < cut <= end)})
        rows += [_interval(low, high - 1) for low, high in pairwise(edges)]
    return rows


def _possible_days(
    name: str, facts: Mapping[str, Established], platform: Platform | None
) -> list[tuple[int, int]]:
    known = facts.get(name)
    if known is not None and known.value:
        periods = [read_period(text) for text in known.value]
        return [_bounds(period) for period in periods]
    first, last = _bounds(platform.built if platform and name == "built" else None)
    registered = facts.get("registered")
    if name == "built" and registered is not None and len(registered.value) == 1:
        last = min(last, _bounds(read_period(registered.value[0]))[1])
    return [(first, last)] if first <= last else []


def _bounds(period: Period | None) -> tuple[int, int]:
    return (FIRST, LAST) if period is None or period.qualified else (period.start, period.end)


def _interval(first: int, last: int) -> str:
    return f"{date.fromordinal(first).isoformat()}/{date.fromordinal(last).isoformat()}"
