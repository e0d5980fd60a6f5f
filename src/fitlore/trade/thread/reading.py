"""Designations into threads: which row of the tables a text names, or why it names none."""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal
from typing import TYPE_CHECKING, Final

from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.thread.rows import METRIC, PIPE, UNIFIED, WHITWORTH, Family, ThreadRow, size_value
from fitlore.trade.thread.spelling import Spelt, spell, spell_bare
from fitlore.trade.thread.value import Thread, normal

if TYPE_CHECKING:
    from fractions import Fraction

NEAR: Final = 4
"""How many near designations a text that is not listed is told."""
_ROWS_OF: Final = {Family.RC: Family.R, Family.RP: Family.R, Family.NPTF: Family.NPT}
_EXAMPLES: Final = ("M10x1", "3/8-24 UNF", "1/4-20 BSW", "2 BA", "G1/8", "1/8-27 NPT")


def read(text: str, standards: Standards) -> Thread | Unreadable:
    """The thread a text names, in any usual spelling, or why it names none.

    `M10` is M10x1.5: the standard says that a pitch left out is the coarse one. `3/8-24` is UNF because no other series
    has 24 threads per inch at 3/8; `1/4-20` could be UNC or Whitworth and is refused, like `1/8 BSP` (parallel or taper?),
    with the readings it may have. A size or pitch that no table lists is refused with the nearest listed ones.
    """
    spelt = spell(text)
    if spelt is None:
        bare = spell_bare(text)
        found = _listed(bare, standards) if bare else []
        if bare and found:
            return _unsure(text, bare, found)
        return Unreadable(text, "thread-unknown", expected=_EXAMPLES)
    found = _listed(spelt, standards)
    if not found:
        return _unlisted(text, spelt, standards)
    if spelt.families == METRIC and spelt.pitch is None:
        coarse = [row for row in found if row.family is Family.METRIC_COARSE]
        found, implied = coarse or found, "coarse-pitch" if coarse else ""
    else:
        implied = "" if spelt.lettered else "series"
    unsaid = implied == "series" and (spelt.tpi is None or found[0].family not in UNIFIED)
    parallel_or_taper = spelt.lettered and {Family.G, Family.R} <= spelt.families
    if len(found) > 1 or unsaid or parallel_or_taper:
        return _unsure(text, spelt, found)
    return _made(spelt, found[0], implied)


def _made(spelt: Spelt, row: ThreadRow, implied: str = "") -> Thread:
    letters = next((f for f in spelt.families if _ROWS_OF.get(f) is row.family), row.family)
    return Thread(row, letters, spelt.hand, spelt.tolerance, implied)


def _unsure(text: str, spelt: Spelt, rows: Iterable[ThreadRow]) -> Unreadable:
    readings = tuple(normal(_made(spelt, row)) for row in rows)
    return Unreadable(text, "thread-several" if len(readings) > 1 else "thread-incomplete", readings)


def _families(spelt: Spelt) -> frozenset[Family]:
    return frozenset(_ROWS_OF.get(family, family) for family in spelt.families)


def _listed(spelt: Spelt, standards: Standards) -> list[ThreadRow]:
    """The rows a designation may mean, in the tables' order."""
    families = _families(spelt)
    rows = [row for row in standards.threads if row.family in families and _sized(row, spelt.size)]
    if spelt.pitch is not None:
        return [row for row in rows if row.pitch == spelt.pitch]
    return [row for row in rows if row.tpi == spelt.tpi] if spelt.tpi is not None else rows


def _sized(row: ThreadRow, size: Decimal | Fraction | int | str) -> bool:
    if isinstance(size, str):
        return row.size == size
    if isinstance(size, Decimal):
        return row.family not in PIPE and row.major == size
    if isinstance(size, int) and row.family in UNIFIED and row.size == f"#{size}":
        return True
    return row.family is not Family.BA and size_value(row.size) == size


def _unlisted(text: str, spelt: Spelt, standards: Standards) -> Unreadable:
    """Say what is wrong with the nearest thing: the pitch, the series letters, or the size."""
    families = _families(spelt)
    kin = next((group for group in (METRIC, UNIFIED, WHITWORTH) if families <= group), families)
    same_size = [row for row in standards.threads if row.family in kin and _sized(row, spelt.size)]
    if spelt.pitch is not None and isinstance(spelt.size, Decimal) and spelt.pitch * 3 > spelt.size:
        return Unreadable(text, "thread-length-for-pitch", expected=_nearest(spelt, same_size))
    if not same_size:
        near = [row for row in standards.threads if row.family in families]
        return Unreadable(text, "thread-size-unlisted", expected=_nearest(spelt, near))
    clash = [row for row in same_size if row.pitch == spelt.pitch and row.tpi == (spelt.tpi or row.tpi)]
    if clash and (spelt.pitch or spelt.tpi):
        return Unreadable(text, "thread-series-clash", expected=_nearest(spelt, same_size))
    return Unreadable(text, "thread-pitch-unlisted", expected=_nearest(spelt, same_size))


def _nearest(spelt: Spelt, rows: Iterable[ThreadRow]) -> tuple[str, ...]:
    """Normal forms of the rows nearest in diameter and then in pitch."""
    pitch = spelt.pitch or (Decimal("25.4") / spelt.tpi if spelt.tpi else None)

    def distance(row: ThreadRow) -> tuple[float, float]:
        return _size_apart(row, spelt.size), abs(float(row.pitch_mm - pitch)) if pitch else 0.0

    def made(row: ThreadRow) -> str:
        return normal(_made(spelt._replace(tolerance=""), row))

    return tuple(made(row) for row in sorted(rows, key=distance)[:NEAR])


def _size_apart(row: ThreadRow, size: Decimal | Fraction | int | str) -> float:
    """How far a row's size is from the one asked for, in the size's own unit; number sizes by their number."""
    if isinstance(size, str):
        wanted, own = size.lstrip("#"), row.size.lstrip("#")
        alike = own.isdigit() and row.size.startswith("#") == size.startswith("#")
        return abs(float(own) - float(wanted)) if alike else math.inf
    if isinstance(size, Decimal):
        return abs(float(row.major) - float(size))
    value = size_value(row.size)
    return math.inf if value is None else abs(float(value - size))
