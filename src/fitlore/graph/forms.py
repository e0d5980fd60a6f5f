"""Normal forms of a feature's value, so that two spellings of the same value are found by one key."""

from __future__ import annotations

import functools
import math
from collections.abc import Mapping
from decimal import Decimal
from typing import TYPE_CHECKING, Final

from fitlore.model.amounts import read_quantity

if TYPE_CHECKING:
    from fitlore.trade.family import Family
    from fitlore.trade.standards import Standards


class Forms:
    """Every key a value is found by: its words, its size in the base unit, its designation in each family of standards.

    A part's book does not say of which kind a feature is (the category's book does), so every form that can be read is
    kept and two values meet where any form agrees: this narrows a search, it proves nothing.
    """

    def __init__(self, standards: Standards | None) -> None:
        self._standards = standards
        self._known: dict[str, tuple[str, ...]] = {}
        self.met: dict[str, tuple[str, ...]] = {}
        """Every text asked for, since whoever wants to know cleared it, and its keys."""

    def learn(self, known: Mapping[str, tuple[str, ...]]) -> None:
        """Takes over what was read before, by the same tables."""
        self._known.update(known)

    def of(self, text: str) -> tuple[str, ...]:
        """The keys of a value; without tables of standards it has none of a family."""
        found = self._known.get(text)
        if found is None:
            found = self._known[text] = tuple(self._read(text))
        self.met[text] = found
        return found

    def _read(self, text: str) -> list[str]:
        size = read_quantity(text) if has_figure(text) else None
        if size is not None:
            found = [f"size:{size.value.normalize():f} {size.unit}"]
        else:
            found = [f"text:{' '.join(text.casefold().split())}"]
        if not has_figure(text):
            return found
        if self._standards is not None:
            found += _designations(text, self._standards)
        return found


BAND: Final = 1.02
"""Sizes are looked up by bands, each wider than the one before by this factor: a band holds what is about as large."""
MOST_BANDS: Final = 60
"""So many bands hold sizes of which the largest is three times the smallest; a wider search narrows nothing."""


def bands(low: Decimal, high: Decimal, unit: str) -> tuple[str, ...]:
    """The keys of the bands that the sizes from `low` to `high` lie in (in a base unit); none where they are too many."""
    first, last = _band(low), _band(high)
    if last - first >= MOST_BANDS:
        return ()
    return tuple(f"band:{at} {unit}" for at in range(first, last + 1))


def bands_of(text: str, error: str = "") -> tuple[str, ...]:
    """The bands of a size that was measured with this error; every one (`band:any`) where they are too many to list."""
    size = read_quantity(text) if has_figure(text) else None
    if size is None:
        return ()
    play = read_quantity(error) if error else None
    if error and (play is None or play.unit != size.unit):
        return (ANY_BAND,)
    slack = abs(play.value) if play else Decimal(0)
    return bands(size.value - slack, size.value + slack, size.unit) or (ANY_BAND,)


ANY_BAND: Final = "band:any"
"""The key of a size that may be any: its error cannot be read, or is as large as itself."""


def _band(value: Decimal) -> int:
    """The number of a size's band; everything that is nothing or less shares one far below all others."""
    return math.floor(math.log(value) / math.log(BAND)) if value > 0 else -(10**6)


def has_figure(text: str) -> bool:
    """Whether a value can be a size or a designation at all."""
    return any(character.isdigit() for character in text)


@functools.cache
def _families() -> tuple[tuple[str, Family], ...]:
    from fitlore.trade.family import FAMILIES

    return tuple(sorted(FAMILIES.items()))


def _designations(text: str, standards: Standards) -> list[str]:
    from fitlore.trade.result import Reading

    readings = ((kind, family.read(text, standards)) for kind, family in _families())
    return [f"{kind}:{reading.normal}" for kind, reading in readings if isinstance(reading, Reading)]
