"""A graph of records that no book was read for, in memory."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Final
from urllib.parse import quote

from fitlore.graph.asking import BUILTIN
from fitlore.graph.derive import derive
from fitlore.graph.forms import Forms
from fitlore.graph.open import Graph, Held
from fitlore.graph.store import Facts, Layer, in_memory
from fitlore.model.job import Shop
from fitlore.model.record import Name, Rec

if TYPE_CHECKING:
    from fitlore.graph.vocabulary import Entry, Vocabulary
    from fitlore.trade.standards import Standards

_MEMORY: Final = "memory:"


def graph_of_records(records: Iterable[Rec], standards: Standards | None, shop: Shop | None) -> Graph:
    """One book per shown name in the records' origins; records without an origin share a book of their own."""
    books: dict[str, list[Rec]] = {}
    for record in records:
        books.setdefault(record.origin.book, []).append(record)
    forms = Forms(standards)
    nodes = [node for book in sorted(books) for node in derive(_graph_name(book), books[book], forms)]
    held = Held(
        shop=shop or Shop(shop=Name("shop")),
        shelves=tuple(sorted({book.partition("/")[0] for book in books} - {BUILTIN})),
        diagnostics=tuple,
        standards=lambda: standards or _no_standards(),
        vocabulary=lambda: _vocabulary(books),
        names=lambda: _names(books),
        graph_name=_graph_name,
    )
    return Graph(Facts([Layer(in_memory(nodes))]), held)


def _graph_name(book: str) -> str:
    return _MEMORY + quote(book)


def _no_standards() -> Standards:
    from fitlore.trade.standards import Standards

    return Standards()


def _names(books: dict[str, list[Rec]]) -> dict[str, list[Entry]]:
    from fitlore.graph.vocabulary import entries_of

    return {_graph_name(book): sorted(entries_of(records)) for book, records in books.items()}


def _vocabulary(books: dict[str, list[Rec]]) -> Vocabulary:
    from fitlore.graph.vocabulary import vocabulary_of

    return vocabulary_of(_names(books))
