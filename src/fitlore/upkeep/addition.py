"""What somebody wants to add to the knowledge, as values; and where on the shop's own shelf it goes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.books.emit import Said
from fitlore.books.layout import Shelf, read_layout
from fitlore.books.reading import YAML_ENDINGS
from fitlore.model.dates import Period
from fitlore.model.part import CrossFit, Evidence
from fitlore.model.record import Rec

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class NewClaim(NamedTuple):
    """A new cross-fit, or a new `does not fit` (a claim with nothing but `against`)."""

    claim: CrossFit
    book: str = ""
    """Shown name of the book; empty: where the shop keeps its claims."""


class MoreEvidence(NamedTuple):
    """A further piece of evidence for a claim."""

    claim: CrossFit
    evidence: Evidence


class SpeaksAgainst(NamedTuple):
    """A piece of evidence against a claim."""

    claim: CrossFit
    evidence: Evidence


class Withdrawal(NamedTuple):
    """Somebody takes back what he said for a claim; nothing is deleted."""

    claim: CrossFit
    by: str
    date: Period | None = None
    note: str = ""


class NewRecord(NamedTuple):
    """A record of any other kind (a part, a car, a supplier ...)."""

    record: Rec
    book: str = ""


class NewItem(NamedTuple):
    """An item in a list of a record: an offer of a supplier, a finding of a job, a measured feature's list ..."""

    record: Rec
    """As the graph gave it: a record, a place (PlaceOn) or an offer (OfferFrom)."""
    path: tuple[str | int, ...]
    """Keys from the record inwards to the list: `("offers",)`."""
    item: Rec | Said


class NewValue(NamedTuple):
    """Another scalar in a record: the price, stock or `seen` of an offer ..."""

    record: Rec
    path: tuple[str | int, ...]
    value: Said


Addition = NewClaim | MoreEvidence | SpeaksAgainst | Withdrawal | NewRecord | NewItem | NewValue

BOOKS: Final = {
    "crossfit": "crossfits",
    "category": "categories",
    "supplier": "suppliers",
    "shared-work": "shared-work",
    "policy": "policy",
}
"""The book that a kind of record goes into where there is none yet; others are the kind with an `s`."""


class Target(NamedTuple):
    """A book to be changed: its shown name, its file, and the folder of its shelf."""

    shown: str
    path: Path
    shelf: Path


def own_shelf(folder: Path) -> Shelf | None:
    """The shelf that the shop writes on: the first of fitlore.yaml without a cap on its trust."""
    return next(
        (shelf for shelf in read_layout(folder).shelves if shelf.trust is None and shelf.folder), None
    )


def target(folder: Path, shelf: Shelf, shown: str) -> Target:
    """The file of a shown book on a shelf."""
    root = folder / shelf.folder
    return Target(shown, root / shown.partition("/")[2], root)


def is_own(record: Rec, shelf: Shelf) -> bool:
    """Whether a record stands in a book that can be added to: YAML, on the shop's own shelf."""
    book = record.origin.book
    return book.partition("/")[0] == shelf.shelf and book.endswith(YAML_ENDINGS)


def book_for(graph: Graph, folder: Path, shelf: Shelf, kind: str) -> str:
    """Where the shop keeps its records of a kind: the book named after it, else the one with most of them."""
    named = f"{shelf.shelf}/{BOOKS.get(kind, kind + 's')}"
    for ending in YAML_ENDINGS:
        if target(folder, shelf, named + ending).path.is_file():
            return named + ending
    books = Counter(one.origin.book for one in _known(graph, kind) if is_own(one, shelf))
    most = max(books.items(), key=lambda pair: (pair[1], pair[0]), default=None)
    return most[0] if most else named + YAML_ENDINGS[0]


def _known(graph: Graph, kind: str) -> Iterable[Rec]:
    ask: dict[str, Callable[[], Iterable[Rec]]] = {
        "crossfit": graph.crossfits,
        "supplier": graph.suppliers,
        "platform": graph.platforms,
        "category": graph.categories,
        "car": graph.cars,
        "job": graph.jobs,
    }
    return ask[kind]() if kind in ask else ()
