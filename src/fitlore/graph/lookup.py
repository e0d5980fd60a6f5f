"""Free words to what they mean: places, parts, categories, cars, suppliers, platforms.

What reads exactly is told apart from what is only near; where two things read equally well both are handed out, and
nothing is guessed. Numbers are looked up by key, words in the small vocabulary of names: no part is ever scanned.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.graph.derive import name_of
from fitlore.graph.numbering import by_rules
from fitlore.graph.vocabulary import ACCENT, NAME, PLURAL, Hit
from fitlore.graph.words import APART, ENDS, Side, head_of, read_ends, read_sides, speak_against, words
from fitlore.model.numbers import number_key
from fitlore.model.placed import PlaceOn
from fitlore.model.record import Rec

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

ALL: Final = frozenset({"place", "part", "category", "car", "supplier", "platform"})
"""Every kind of thing that can be found."""
BEGUN: Final = frozenset({"car", "supplier", "platform"})
"""Kinds that go by a proper name, which may be begun only."""
FEW: Final = 4
"""Of so few platforms each is asked for the names; of more those that have one of the names, wherever they are."""
_HOW: Final = {NAME: "name", ACCENT: "accent", PLURAL: "plural"}


class Match(NamedTuple):
    """One thing the words may mean."""

    kind: str
    name: str
    """A place's full path, a part's number, else the name in the books."""
    record: Rec
    how: str
    """`name`, `accent` (accents missing), `plural`, `number`, `numbering` (by its issuer's rules), `short`
    (a name begun); and for near ones `broader` (a kind above it was named), `some-words`, `typing` (words put right or
    taken apart), `number-typing`."""
    by: str
    """The name or number it was reached by, as the book has it."""
    language: str = ""


class Found(NamedTuple):
    """What was found. `near` is filled only where nothing reads exactly."""

    words: str
    exact: tuple[Match, ...] = ()
    near: tuple[Match, ...] = ()
    sides: tuple[Side, ...] = ()
    """The words for a side, in order; they are no part of a name."""
    ends: tuple[str, ...] = ()
    """`front`, `rear`, `upper`, `lower`, `inner`, `outer` as typed, also where the name found has it."""

    @property
    def side(self) -> str:
        """`left`, `right`, `both`, or empty: no side was typed, or it is not known which (see `asks`)."""
        said = {side.side for side in self.sides}
        return "" if "" in said or not said else said.pop() if len(said) == 1 else "both"

    @property
    def asks(self) -> str:
        """`country` or `steering`: what has to be known to tell the side; empty where nothing has."""
        return next((side.asks for side in self.sides if side.asks), "")


class Asked(NamedTuple):
    """A question cut into words."""

    typed: tuple[str, ...]
    needed: frozenset[int]
    """Which of them an answer has to account for: all but the words for a side."""
    hits: tuple[Hit, ...]
    side: str
    """The one side that was said, where it is known."""
    aside: frozenset[int] = frozenset()
    """Which words are for a side or an end, if they are not part of a name."""
    head: int = -1
    """Which word says what the thing is, where that follows from a `for` or `of` behind it."""

    @property
    def wanted(self) -> set[str]:
        """The words that an answer must not speak against."""
        return {self.typed[at] for at in self.needed} | {self.side}


class Read(NamedTuple):
    """One exact reading: how well, of what, and by which name."""

    rank: int
    match: Match
    head: frozenset[int]
    """The typed words that make up the name itself."""


def find(
    graph: Graph,
    text: str,
    *,
    platforms: Sequence[str] = (),
    kinds: frozenset[str] = ALL,
    country: str = "",
    steering: str = "",
) -> Found:
    """What the words mean. `platforms` restricts places to these; `country` (ISO 3166; absent: the shop's) and `steering`
    (the side the driver sits on) tell nearside and driver's side.
    """
    parts = tuple(_numbers(graph, text)) if "part" in kinds else ()
    if parts:
        return Found(text, exact=parts)
    if "place" in kinds and "/" in text and (found := _by_path(graph, text, platforms)):
        return found
    typed = words(text)
    sides = read_sides(typed, country or graph.shop.country, steering)
    needed = frozenset(range(len(typed))) - {at for side in sides for at in side.at}
    side = Found(text, sides=sides).side
    beside = read_ends(typed)
    aside = frozenset(at for at in beside if typed[at] not in APART) | (frozenset(range(len(typed))) - needed)
    asked = Asked(typed, needed, tuple(graph.vocabulary.hits(typed)), side, aside, head_of(text))
    reads = exactly(graph, asked, platforms, kinds)
    if not reads and kinds <= BEGUN:
        reads = [read for kind in sorted(kinds) for read in begun(graph, asked, kind)]
    if reads:
        inside = frozenset.intersection(*(read.head for read in reads))
        kept = tuple(side for side in sides if not inside & set(side.at))
        return Found(text, tuple(read.match for read in reads), sides=kept, ends=_ends(typed, beside))
    from fitlore.graph.near import nearest

    near = nearest(graph, text, asked, platforms, kinds)
    by_number = bool(near) and near[0].how == "number-typing"
    return Found(text, near=near, sides=() if by_number else sides, ends=_ends(typed, beside))


def _ends(typed: Sequence[str], at: Iterable[int]) -> tuple[str, ...]:
    return tuple(filter(None, dict.fromkeys(ENDS[typed[i]] for i in sorted(at))))


def exactly(graph: Graph, asked: Asked, platforms: Sequence[str], kinds: frozenset[str]) -> list[Read]:
    """The best readings of each kind. Where no place is asked for, a kind of part is known without the words that say
    where on the car it sits.
    """
    reads = [read for kind in sorted(kinds) for read in best(readings(graph, asked, platforms, kind), asked)]
    if reads or "category" not in kinds or "place" in kinds:
        return reads
    thing = asked._replace(needed=asked.needed - asked.aside)
    found = best(readings(graph, thing, platforms, "category"), thing)
    return [read for read in found if not speak_against(asked.wanted, frozenset(words(read.match.name)))]


def _numbers(graph: Graph, text: str) -> Iterator[Match]:
    """Parts with this very number, typed with any separators, with or without the maker in front; and those that are the
    same by their issuer's rules."""
    if any(character.isdigit() for character in text):
        parts = graph.parts([number_key(text)])
        for part in parts:
            yield Match("part", part.part, part, "number", f"{part.issuer} {part.part}".strip())
        for part in by_rules(graph, text, parts):
            yield Match("part", part.part, part, "numbering", f"{part.issuer} {part.part}".strip())


def _by_path(graph: Graph, text: str, platforms: Sequence[str]) -> Found | None:
    """The place whose very path was typed, on these platforms or with its own in front, and with a side behind or without."""
    path, _, side = text.strip().casefold().partition("@")
    on = [path.partition("/")[0]] if path.count("/") == 2 else platforms
    found = [place for name in on if (place := graph.place(name, path)) and (not side or side in place.sides)]
    if not found:
        return None
    exact = tuple(Match("place", place.full_path, place, "name", place.full_path) for place in found)
    return Found(text, exact, sides=(Side(side, side),) if side else ())


def readings(graph: Graph, asked: Asked, platforms: Sequence[str], kind: str) -> Iterator[Read]:
    """Every reading as this kind of thing that accounts for all the words that have to be."""
    if asked.needed and kind == "place":
        yield from _places(graph, asked, platforms)
    elif asked.needed and kind != "part":
        yield from _named(graph, asked, kind)


def best(reads: Iterable[Read], asked: Asked) -> list[Read]:
    """Of all readings the best ones, each thing once; a word for a side that makes up a name (`drop links`) is no side."""
    every = list(reads)
    sides = frozenset(range(len(asked.typed))) - asked.needed
    every = [read for read in every if read.head & sides] or every
    rank = min((read.rank for read in every), default=0)
    kept: dict[tuple[str, str, str], Read] = {}
    for read in every:
        if read.rank == rank:
            kept.setdefault((read.match.kind, read.match.name, str(read.match.record.origin)), read)
    return list(kept.values())


def _places(graph: Graph, asked: Asked, platforms: Sequence[str]) -> Iterator[Read]:
    heads = [hit for hit in asked.hits if hit.full and hit.entry.kind in ("category", "place")]
    for place in candidates(graph, heads, platforms):
        if speak_against(asked.wanted, _own_words(place)):
            continue
        about = [hit for hit in asked.hits if speaks_of(hit, place)]
        own = [hit for hit in about if hit.full and hit.entry.kind in ("category", "place")]
        head = min(own, key=lambda hit: (-len(hit.cover), max(hit.cover.values())), default=None)
        rank = _rank(asked, head, (hit.cover for hit in about)) if head else None
        if head is not None and rank is not None:
            yield Read(rank, _match("place", place, rank, head), frozenset(head.cover))


def _own_words(place: PlaceOn) -> frozenset[str]:
    return frozenset(words(f"{place.assembly} {place.name}"))


def candidates(graph: Graph, hits: Iterable[Hit], platforms: Sequence[str]) -> list[PlaceOn]:
    """Places on these platforms (none named: on any) whose category, own name or assembly is one of those hit."""
    keys: dict[str, set[str]] = {"category": set(), "place": set(), "assembly": set()}
    for hit in hits:
        keys.setdefault(hit.entry.kind, set()).add(hit.entry.key)
    if 0 < len(platforms) <= FEW:
        every = [*graph.places_here(platforms, set().union(*keys.values()))]
    else:
        every = [
            *graph.places_of(keys["category"]),
            *graph.places_named(keys["place"]),
            *graph.places_in(keys["assembly"]),
        ]
    found = {
        place.full_path: place
        for place in every
        if (
            place.place.is_ in keys["category"]
            or place.name in keys["place"]
            or place.assembly in keys["assembly"]
        )
        and (not platforms or place.on in platforms)
    }
    return [found[path] for path in sorted(found)]


def speaks_of(hit: Hit, place: PlaceOn) -> bool:
    """Whether a name is one of the place's: of its category, itself, its assembly or its platform."""
    keys = {
        "category": place.place.is_,
        "place": place.name,
        "assembly": place.assembly,
        "platform": place.on,
    }
    if (
        hit.entry.kind == "assembly"
        and hit.entry.text != place.assembly
        and hit.entry.text not in place.called
    ):
        return False
    return keys.get(hit.entry.kind) == hit.entry.key


def _named(graph: Graph, asked: Asked, kind: str) -> Iterator[Read]:
    for hit in asked.hits:
        rank = _rank(asked, hit, [hit.cover]) if hit.full and hit.entry.kind == kind else None
        record = record_of(graph, hit) if rank is not None else None
        if rank is not None and record is not None:
            yield Read(rank, _match(kind, record, rank, hit), frozenset(hit.cover))


def begun(graph: Graph, asked: Asked, kind: str) -> Iterator[Read]:
    """A name of which only some words were typed, where no other thing of its kind has them all."""
    hits = [
        hit for hit in asked.hits if hit.entry.kind == kind and _rank(asked, hit, [hit.cover]) is not None
    ]
    record = record_of(graph, hits[0]) if asked.needed and len({hit.entry.key for hit in hits}) == 1 else None
    if record is not None:
        match = Match(kind, name_of(record), record, "short", hits[0].entry.text, hits[0].entry.language)
        yield Read(PLURAL + 1, match, frozenset(hits[0].cover))


def record_of(graph: Graph, hit: Hit) -> Rec | None:
    """The record a hit on a named thing means."""
    ask = {
        "category": graph.category,
        "car": graph.car,
        "supplier": graph.supplier,
        "platform": graph.platform,
    }
    return ask[hit.entry.kind](hit.entry.key)


def _rank(asked: Asked, head: Hit, covers: Iterable[dict[int, int]]) -> int | None:
    """The worst way in which a needed word, or one of the name, was reached, taking the best of each.

    None where a needed word was not reached at all.
    """
    reached: dict[int, int] = {}
    for cover in covers:
        for at, how in cover.items():
            reached[at] = min(how, reached.get(at, how))
    if not asked.needed <= reached.keys():
        return None
    return max(reached[at] for at in asked.needed | head.cover.keys())


def _match(kind: str, record: Rec, rank: int, head: Hit) -> Match:
    return Match(kind, name_of(record), record, _HOW[rank], head.entry.text, head.entry.language)
