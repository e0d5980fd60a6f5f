"""How much the books know, counted from the knowledge base itself."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import NamedTuple

from fitlore.fitting.interface import WORDS
from fitlore.graph.asking import BUILTIN, shelf_of
from fitlore.model.category import Category
from fitlore.trade.family import FAMILIES
from fitlore.upkeep.knowing import Known


class InBook(NamedTuple):
    """What one book says of kinds of part; the built-in shelf has a book for each system of a vehicle."""

    book: str
    categories: int
    narrowest: int
    """Those that no other is narrower than, in any book."""
    deepest: int
    """Categories in the longest chain upwards."""
    names: int
    """In all languages, further names among them."""
    features: int
    faults: int


class Counts(NamedTuple):
    """The figures. What is inherited counts at the narrowest categories, everything else as it is written."""

    shelves: tuple[str, ...]
    """Those with kinds of part, the built-in one among them."""
    books: tuple[InBook, ...]
    categories: int
    narrowest: int
    deepest: int
    names: dict[str, int]
    """Per language."""
    further_names: dict[str, int]
    false_friends: int
    features: int
    features_with_inherited: int
    """Over the narrowest categories."""
    roles: dict[str, int]
    sizes: dict[str, int]
    """Features that are compared as sizes, by dimension."""
    words: dict[str, int]
    """As words or choices."""
    families: dict[str, int]
    """By standards: every family there is, also those that no feature uses."""
    safety: dict[str, int]
    """Narrowest categories per safety class; so too the next four."""
    sides: dict[str, int]
    used: dict[str, int]
    renew: dict[str, int]
    always_new: int
    texts: dict[str, int]
    """Faults, refurbish routes, rows of `renew-with`, `shares`, `keep`, `inspect`, `cautions`, `law`."""
    records: dict[str, int]
    """What else is in the books: platforms, parts, claims ..."""


def count(known: Known) -> Counts:
    """The figures of everything that the graph holds; a graph of no shop holds the built-in shelf alone."""
    every, leaves = tuple(known.categories.values()), known.narrowest
    features = [feature for category in every for feature in category.features.values()]
    kinds = Counter(feature.kind for feature in features)
    faces = [face for one in leaves if (face := known.interface(one.category)) is not None]
    return Counts(
        shelves=tuple(sorted({shelf_of(one) for one in every}, key=lambda name: (name == BUILTIN, name))),
        books=tuple(_books(known, every)),
        categories=len(every),
        narrowest=len(leaves),
        deepest=_deepest(known, every),
        names=_sorted(Counter(tag for one in every for tag in one.names)),
        further_names=_sorted(Counter(t for one in every for t, words in one.also.items() for _ in words)),
        false_friends=sum(len(one.false_friends) for one in every),
        features=len(features),
        features_with_inherited=sum(len(face.features) for face in faces),
        roles=_falling(Counter(feature.role.value for feature in features)),
        sizes=_falling({kind: n for kind, n in kinds.items() if kind not in WORDS and kind not in FAMILIES}),
        words=_falling({kind: n for kind, n in kinds.items() if kind in WORDS}),
        families=_falling({kind: kinds.get(kind, 0) for kind in FAMILIES}),
        safety=_falling(Counter(face.safety.value for face in faces)),
        sides=_falling(Counter(face.sides.value for face in faces)),
        used=_falling(Counter(face.used.value for face in faces)),
        renew=_falling(Counter(face.renew.value for face in faces)),
        always_new=sum(face.always_new for face in faces),
        texts=_texts(every),
        records=_records(known),
    )


def _books(known: Known, every: Iterable[Category]) -> Iterable[InBook]:
    leaves = {one.category for one in known.narrowest}
    by_book: dict[str, list[Category]] = {}
    for category in every:
        by_book.setdefault(category.origin.book, []).append(category)
    for book in sorted(by_book, key=lambda shown: (shown.partition("/")[0] != BUILTIN, shown)):
        rows = by_book[book]
        yield InBook(
            book,
            len(rows),
            sum(one.category in leaves for one in rows),
            _deepest(known, rows),
            sum(len(one.names) + sum(map(len, one.also.values())) for one in rows),
            sum(len(one.features) for one in rows),
            sum(len(one.faults) for one in rows),
        )


def _deepest(known: Known, rows: Iterable[Category]) -> int:
    return max((len(list(known.above(one.category))) for one in rows), default=0)


def _texts(every: Iterable[Category]) -> dict[str, int]:
    found: Counter[str] = Counter()
    for one in every:
        found["faults"] += len(one.faults)
        found["refurbish"] += len(one.refurbish)
        found["renew-with"] += len(one.renew_with)
        found["shares"] += len(one.shares)
        found["keep"] += len(one.keep)
        found["inspect"] += len(one.inspect)
        found["cautions"] += len(one.cautions)
        found["law"] += len(one.law)
    return dict(found)


def _records(known: Known) -> dict[str, int]:
    graph = known.graph
    return {
        "platforms": len(known.platforms),
        "places": sum(map(len, known.places.values())),
        "parts": len(known.parts),
        "claims": len(known.claims),
        "suppliers": len(graph.suppliers()),
        "offers": len(known.offers),
        "cars": len(graph.cars()),
        "jobs": len(graph.jobs()),
        "donors": len(graph.donors()),
    }


def _sorted(found: Counter[str]) -> dict[str, int]:
    return {key: found[key] for key in sorted(found)}


def _falling(found: dict[str, int]) -> dict[str, int]:
    """The most first, equal ones by name."""
    return dict(sorted(found.items(), key=lambda row: (-row[1], row[0])))
