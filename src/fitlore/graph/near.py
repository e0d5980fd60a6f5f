"""What somebody may have meant, where nothing reads exactly: slips in numbers and words, names half given, kinds above."""

from __future__ import annotations

import difflib
import itertools
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Final

from fitlore.graph.likely import Near, alike, corrected, ways_put_right
from fitlore.graph.lookup import BEGUN, Asked, Match, begun, speaks_of
from fitlore.model.numbers import number_key

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

MOST: Final = 8
"""Near matches handed out."""
_LONGEST: Final = 24
"""Longer texts are no number with a slip in it."""
_SIGNS: Final = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_MISREAD: Final = str.maketrans("OQDILZSGB", "000112568")
"""Letters that are read for figures on worn castings."""


def nearest(
    graph: Graph, text: str, asked: Asked, platforms: Sequence[str], kinds: frozenset[str]
) -> tuple[Match, ...]:
    """At most eight things that may have been meant, the likeliest first. Numbers with a slip go before everything."""
    numbers = sorted(_numbers(graph, text) if "part" in kinds else (), key=_order)
    words: Iterable[Near] = ()
    if asked.needed and not numbers:
        ways = ways_put_right(graph, asked)
        words = (
            *_broader(graph, asked, platforms, kinds),
            *(Near(1, 0, read.match) for kind in sorted(kinds & BEGUN) for read in begun(graph, asked, kind)),
            *corrected(graph, ways, asked, platforms, kinds),
            *alike(graph, ways, asked, platforms, kinds),
        )
    kept: dict[tuple[str, str], Match] = {}
    for near in [*numbers, *sorted(words, key=_order)]:
        kept.setdefault((near.match.kind, near.match.name), near.match)
    return tuple(itertools.islice(kept.values(), MOST))


def _order(near: Near) -> tuple[int, float, str, str]:
    return near.tier, -near.score, near.match.kind, near.match.name


def _numbers(graph: Graph, text: str) -> Iterator[Near]:
    """Parts whose number is one slip away, is the number as misread, or is the same without the letters in front."""
    key = number_key(text)
    if not 4 <= len(key) <= _LONGEST or not any(c.isdigit() for c in key):
        return
    tail = key.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    parts = [*graph.parts(_slips(key)), *graph.parts([key.translate(_MISREAD)])]
    if len(tail) >= 4:
        parts += graph.parts_by_tail([tail])
    for part in parts:
        score = difflib.SequenceMatcher(None, key, number_key(part.part)).ratio()
        yield Near(
            0, score, Match("part", part.part, part, "number-typing", f"{part.maker} {part.part}".strip())
        )


def _slips(key: str) -> Iterator[str]:
    """Every key one sign away: another, one too few, one too many, two changed round."""
    for at in range(len(key) + 1):
        before, after = key[:at], key[at:]
        yield from (f"{before}{sign}{after}" for sign in _SIGNS)
        if after:
            yield before + after[1:]
            yield from (f"{before}{sign}{after[1:]}" for sign in _SIGNS)
        if len(after) > 1:
            yield f"{before}{after[1]}{after[0]}{after[2:]}"


def _broader(graph: Graph, asked: Asked, platforms: Sequence[str], kinds: frozenset[str]) -> Iterator[Near]:
    """Places for a narrower kind than the one named in full."""
    if "place" not in kinds:
        return
    for hit in asked.hits:
        if hit.full and hit.entry.kind == "category":
            for place in graph.places_of(graph.narrower(hit.entry.key)):
                covers = [set(hit.cover), *(set(h.cover) for h in asked.hits if speaks_of(h, place))]
                if (not platforms or place.on in platforms) and asked.needed <= set().union(*covers):
                    by = Match("place", place.full_path, place, "broader", hit.entry.text, hit.entry.language)
                    yield Near(0, len(hit.cover), by)
