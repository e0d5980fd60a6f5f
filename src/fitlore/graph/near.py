"""What somebody may have meant, where nothing reads exactly: slips in numbers and words, names half given, kinds above."""

from __future__ import annotations

import difflib
import itertools
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.graph.derive import name_of
from fitlore.graph.lookup import BEGUN, Asked, Match, begun, best, candidates, readings, record_of, speaks_of
from fitlore.graph.vocabulary import Hit
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
_CLOSE: Final = 0.7
"""difflib's ratio from which a word may be meant by another."""
_CORRECTIONS: Final = 30


class _Near(NamedTuple):
    tier: int
    score: float
    match: Match


def nearest(
    graph: Graph, text: str, asked: Asked, platforms: Sequence[str], kinds: frozenset[str]
) -> tuple[Match, ...]:
    """At most eight things that may have been meant, the likeliest first. Numbers with a slip go before everything."""
    numbers = sorted(_numbers(graph, text) if "part" in kinds else (), key=_order)
    words: Iterable[_Near] = ()
    if asked.needed and not numbers:
        words = (
            *_broader(graph, asked, platforms, kinds),
            *(
                _Near(1, 0, read.match)
                for kind in sorted(kinds & BEGUN)
                for read in begun(graph, asked, kind)
            ),
            *_corrected(graph, asked, platforms, kinds),
            *_some_words(graph, asked, platforms, kinds),
        )
    kept: dict[tuple[str, str], Match] = {}
    for near in [*numbers, *sorted(words, key=_order)]:
        kept.setdefault((near.match.kind, near.match.name), near.match)
    return tuple(itertools.islice(kept.values(), MOST))


def _order(near: _Near) -> tuple[int, float, str, str]:
    return near.tier, -near.score, near.match.kind, near.match.name


def _numbers(graph: Graph, text: str) -> Iterator[_Near]:
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
        yield _Near(
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


def _broader(graph: Graph, asked: Asked, platforms: Sequence[str], kinds: frozenset[str]) -> Iterator[_Near]:
    """Places for a narrower kind than the one named in full."""
    if "place" not in kinds:
        return
    for hit in asked.hits:
        if hit.full and hit.entry.kind == "category":
            for place in graph.places_of(graph.narrower(hit.entry.key)):
                covers = [set(hit.cover), *(set(h.cover) for h in asked.hits if speaks_of(h, place))]
                if (not platforms or place.on in platforms) and asked.needed <= set().union(*covers):
                    by = Match("place", place.full_path, place, "broader", hit.entry.text, hit.entry.language)
                    yield _Near(0, len(hit.cover), by)


def _corrected(
    graph: Graph, asked: Asked, platforms: Sequence[str], kinds: frozenset[str]
) -> Iterator[_Near]:
    """Exact readings of the words with the unknown ones put right."""
    known = {at for hit in asked.hits for at in hit.cover}
    unknown = sorted(asked.needed - known)
    if not unknown:
        return
    choices = [_close(graph, asked.typed[at]) for at in unknown]
    for chosen in itertools.islice(itertools.product(*choices), _CORRECTIONS):
        typed = list(asked.typed)
        for at, word in zip(unknown, chosen, strict=True):
            typed[at] = word
        again = asked._replace(typed=tuple(typed), hits=tuple(graph.vocabulary.hits(tuple(typed))))
        score = difflib.SequenceMatcher(None, " ".join(asked.typed), " ".join(typed)).ratio()
        for kind in sorted(kinds):
            for read in best(readings(graph, again, platforms, kind)):
                yield _Near(2, score, read.match._replace(how="typing"))


def _close(graph: Graph, word: str) -> list[str]:
    pool = [
        other
        for other in graph.vocabulary.words | graph.vocabulary.wholes
        if abs(len(other) - len(word)) <= 2
    ]
    return difflib.get_close_matches(word, sorted(pool), n=6, cutoff=_CLOSE)


def _some_words(
    graph: Graph, asked: Asked, platforms: Sequence[str], kinds: frozenset[str]
) -> Iterator[_Near]:
    """Things of whose name at least half the words typed are, best covered first."""
    some = [hit for hit in asked.hits if 2 * len(asked.needed & hit.cover.keys()) >= len(asked.needed)]
    for hit in some:
        if hit.entry.kind in kinds and hit.entry.kind != "place":
            record = record_of(graph, hit)
            if record is not None:
                by = Match(
                    hit.entry.kind, name_of(record), record, "some-words", hit.entry.text, hit.entry.language
                )
                yield _Near(3, _score(asked, hit, set(hit.cover)), by)
    if "place" in kinds:
        for place in candidates(
            graph, (hit for hit in asked.hits if hit.entry.kind != "platform"), platforms
        ):
            about = [hit for hit in asked.hits if speaks_of(hit, place)]
            cover = {at for hit in about for at in hit.cover}
            if about and 2 * len(asked.needed & cover) >= len(asked.needed):
                head = max(about, key=lambda hit: _score(asked, hit, set(hit.cover)))
                by = Match(
                    "place", place.full_path, place, "some-words", head.entry.text, head.entry.language
                )
                yield _Near(3, _score(asked, head, cover), by)


def _score(asked: Asked, hit: Hit, cover: set[int]) -> float:
    """How much of what was typed is covered, and then how much of the name was typed."""
    return len(asked.needed & cover) + min(len(hit.cover) / len(hit.entry.words), 1) / 2
