"""Words that read as nothing exactly: slips put right, long words taken apart, and names held against what was typed.

Nothing of this is ever taken for what was meant; it is offered, the likeliest first.
"""

from __future__ import annotations

import difflib
import itertools
import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.graph.derive import name_of
from fitlore.graph.lookup import Asked, Match, candidates, exactly, record_of, speaks_of
from fitlore.graph.vocabulary import Hit, Vocabulary

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_CLOSE: Final = 0.7
"""difflib's ratio from which a word may be meant by another."""
_CLOSEST: Final = 6
_CORRECTIONS: Final = 30
_TRIED: Final = 6
"""So many ways to put the words right are held against names that do not have them all."""
_LONG: Final = 10
_END: Final = 6
"""Letters of a word put together of several, and of the end that tells what it is."""
_SHORTEST: Final = 4
"""Letters of a piece of a long word."""
_JOINTS: Final = ("", "s", "n", "en", "es", "e")
"""What stands between the pieces of a German word."""
_HEAD: Final = 0.4
"""What it counts that a name has the word that says what the thing is."""
_HEAD_FIRST: Final = ("fr", "es")
_UNKNOWN: Final = 0.3
_WHERE: Final = 0.1
"""What a word counts that no name has, and one that says no more than where a thing sits."""


class Near(NamedTuple):
    """Something that may have been meant: the lower the tier and the higher the score, the likelier."""

    tier: int
    score: float
    match: Match


def corrected(
    graph: Graph, ways: Sequence[Asked], asked: Asked, platforms: Sequence[str], kinds: frozenset[str]
) -> Iterator[Near]:
    """Exact readings of the words put right."""
    for again in ways:
        for read in exactly(graph, again, platforms, kinds):
            yield Near(2, _alike(asked, again), read.match._replace(how="typing"))


def ways_put_right(graph: Graph, asked: Asked) -> list[Asked]:
    """The words with those that no name has put right or taken apart, likeliest first; none where every word is known."""
    known = {at for hit in asked.hits for at in hit.cover}
    unknown = sorted(asked.needed - known)
    if not unknown:
        return []
    choices = [_instead(graph, asked.typed[at]) for at in unknown]
    ways = [
        _again(graph, asked, dict(zip(unknown, chosen, strict=True)))
        for chosen in itertools.islice(itertools.product(*choices), _CORRECTIONS)
    ]
    return sorted(ways, key=lambda again: -_alike(asked, again))


def alike(
    graph: Graph, ways: Sequence[Asked], asked: Asked, platforms: Sequence[str], kinds: frozenset[str]
) -> Iterator[Near]:
    """Things whose names have much of what was typed, and little else."""
    for again in (asked, *ways[:_TRIED]):
        trust = _alike(asked, again) ** 2
        for hit in again.hits:
            if hit.entry.kind in kinds and hit.entry.kind != "place" and _half(again, set(hit.cover)):
                record = record_of(graph, hit)
                if record is not None:
                    by = Match(
                        hit.entry.kind,
                        name_of(record),
                        record,
                        "some-words",
                        hit.entry.text,
                        hit.entry.language,
                    )
                    yield Near(3, trust * _score(again, hit, set(hit.cover)), by)
        if "place" in kinds:
            yield from _places_alike(graph, again, platforms, trust)


def _places_alike(graph: Graph, asked: Asked, platforms: Sequence[str], trust: float) -> Iterator[Near]:
    hits = [hit for hit in asked.hits if hit.entry.kind != "platform"]
    for place in candidates(graph, hits, platforms):
        about = [hit for hit in asked.hits if speaks_of(hit, place)]
        cover = {at for hit in about for at in hit.cover}
        if about and _half(asked, cover):
            head = max(about, key=lambda hit: _score(asked, hit, set(hit.cover)))
            by = Match("place", place.full_path, place, "some-words", head.entry.text, head.entry.language)
            yield Near(3, trust * _score(asked, head, cover), by)


def _instead(graph: Graph, word: str) -> list[tuple[str, ...]]:
    """What may be meant by a word that no name has: another word, or two that are written as one."""
    vocabulary = graph.vocabulary
    most = slips_in(word)
    pool = [other for other in vocabulary.words | vocabulary.wholes if abs(len(other) - len(word)) <= most]
    close = difflib.get_close_matches(word, sorted(pool), n=12, cutoff=_CLOSE) if most else []
    meant = [(other,) for other in close if slips(word, other) <= most][:_CLOSEST]
    return (
        [*meant, *_pieces(graph, word)]
        or [(other,) for other in _ending_alike(vocabulary, word)]
        or [(word,)]
    )


def _ending_alike(vocabulary: Vocabulary, word: str) -> list[str]:
    """Long words that end as this one does, where it is no piece of its own in any name: what an Achsmanschette is."""
    if len(word) < _LONG:
        return []
    ends = {other: _common_end(word, other) for other in vocabulary.words}
    alike = sorted((other for other in ends if ends[other] >= _END), key=lambda other: (-ends[other], other))
    return alike[:_CLOSEST]


def _common_end(one: str, other: str) -> int:
    pairs = zip(reversed(one), reversed(other), strict=False)
    return sum(1 for _ in itertools.takewhile(lambda pair: pair[0] == pair[1], pairs))


def slips_in(word: str) -> int:
    """How many slips of the finger are thinkable in a word of its length."""
    return 0 if len(word) < 4 else 1 if len(word) < 6 else 2 if len(word) < 12 else 3


def slips(one: str, other: str) -> int:
    """How many letters were left out, put in, taken for another or changed round (Damerau 1964, Levenshtein 1966; neighbours
    are changed round at most once)."""
    before, above = list[int](), list(range(len(other) + 1))
    for here, sign in enumerate(one, 1):
        row = [here]
        for there, wanted in enumerate(other, 1):
            least = min(row[-1] + 1, above[there] + 1, above[there - 1] + (sign != wanted))
            if here > 1 and there > 1 and sign == other[there - 2] and one[here - 2] == wanted:
                least = min(least, before[there - 2] + 1)
            row.append(least)
        before, above = above, row
    return above[-1]


def _pieces(graph: Graph, word: str) -> Iterator[tuple[str, ...]]:
    """A long word as two that names have, the longest last piece first: it says what the thing is."""
    for cut in range(_SHORTEST, len(word) - _SHORTEST + 1):
        first, last = word[:cut], word[cut:]
        if not graph.vocabulary.knows(last):
            continue
        stems = [first.removesuffix(joint) for joint in _JOINTS if first.endswith(joint)]
        whole = next(
            (stem for stem in stems if len(stem) >= _SHORTEST and graph.vocabulary.knows(stem)), None
        )
        if whole is not None:
            yield whole, last


def _again(graph: Graph, asked: Asked, instead: dict[int, tuple[str, ...]]) -> Asked:
    """The question with other words in the place of some."""
    typed: list[str] = []
    now: dict[int, range] = {}
    for at, word in enumerate(asked.typed):
        pieces = instead.get(at, (word,))
        now[at] = range(len(typed), len(typed) + len(pieces))
        typed += pieces
    return Asked(
        tuple(typed),
        frozenset(new for at in asked.needed for new in now[at]),
        tuple(graph.vocabulary.hits(tuple(typed))),
        asked.side,
        frozenset(new for at in asked.aside for new in now[at]),
        now[asked.head][-1] if asked.head in now else asked.head,
    )


def _alike(asked: Asked, again: Asked) -> float:
    return difflib.SequenceMatcher(None, "".join(asked.typed), "".join(again.typed)).ratio()


def _weight(asked: Asked, at: int) -> float:
    if at in asked.aside:
        return _WHERE
    names = sum(at in hit.cover for hit in asked.hits)
    return 1 / (1 + math.log2(1 + names)) if names else _UNKNOWN


def _half(asked: Asked, cover: set[int]) -> bool:
    """Whether a name has at least half of the words for the thing itself."""
    thing = asked.needed - asked.aside or asked.needed
    return 2 * len(thing & cover) >= len(thing)


def _score(asked: Asked, hit: Hit, cover: set[int]) -> float:
    """How much of what was typed is covered, a rare word counting more; how much of the name was typed; and whether the word
    that says what the thing is was among them: the last one, in French and Spanish the first, or the one before `for`.
    """
    weights = {at: _weight(asked, at) for at in asked.needed}
    reached = sum(weight * _covered(asked.typed[at], hit, at in cover) for at, weight in weights.items())
    covered = reached / (sum(weights.values()) or 1)
    named = min(len(hit.cover) / len(hit.entry.words), 1)
    thing = sorted(asked.needed - asked.aside or asked.needed)
    head = asked.head if asked.head in thing else thing[0 if hit.entry.language in _HEAD_FIRST else -1]
    return covered + named / 2 + _HEAD * (head in hit.cover)


def _covered(word: str, hit: Hit, fully: bool) -> float:
    """A long word that begins or ends with one of the name, or the other way round, is covered by half: gearbox, gear."""
    if fully:
        return 1
    for other in hit.entry.words:
        short, long = sorted((word, other), key=len)
        if len(short) >= _SHORTEST and (long.startswith(short) or long.endswith(short)):
            return 0.5
    return 0
