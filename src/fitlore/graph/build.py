"""Reads the books of a knowledge base, all or only those that changed, into what the store keeps of them."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.books.faults import fault
from fitlore.books.layout import Layout, books_on, builtin_kb, read_layout
from fitlore.books.nodes import uncollected
from fitlore.books.rdf import written_quads
from fitlore.books.reading import read_book
from fitlore.books.standards import read_standards, table_files
from fitlore.graph.derive import derive
from fitlore.graph.forms import Forms
from fitlore.graph.manifest import Book, Manifest, Seen, digest_of, folders_below, look, settled, take
from fitlore.graph.store import Quad, Writer, quads
from fitlore.graph.trust import capped
from fitlore.graph.vocabulary import Entry, entries_of
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.job import Shop
from fitlore.model.origin import Origin
from fitlore.model.record import Name

if TYPE_CHECKING:
    from fitlore.trade.standards import Standards

LAYOUT: Final = ""
TABLES: Final = "tables"
"""Under these the diagnostics of fitlore.yaml and of the tables of standards are kept; others under their graph's IRI."""
PATIENCE: Final = 1.0
"""Seconds after which somebody who waits is told what goes on."""


class Survey(NamedTuple):
    """What there is to be read, and what of it is other than in the manifest it was held against."""

    manifest: Manifest
    changed: tuple[Book, ...]
    gone: tuple[str, ...]
    """Graphs of books that are no more, or are read anew."""
    afresh: bool
    """Nothing of the old snapshot can be kept."""
    layout: Layout


def survey(folder: Path | None, old: Manifest | None) -> Survey:
    """Looks at every file. Books whose times settle that they are as `old` says are not opened."""
    made = time.time_ns()
    known = {seen.path: seen for seen in old.seen} if old else {}

    def at(path: Path) -> Seen:
        before = known.get(str(path))
        return before if old and before and settled(before, old.made) else look(str(path))

    layout = read_layout(folder)
    root = builtin_kb()
    shipped = [at(path) for path in (*table_files(root), root / "context.jsonld", root / "vocabulary.ttl")]
    files = books_on(layout)
    books = [(file, at(file.path)) for file in files]
    roots = [root, *(folder / shelf.folder for shelf in layout.shelves if folder)]
    folders = [look(path) for below in roots for path in folders_below(below)]
    shop_file = [at(folder / "fitlore.yaml")] if folder else []
    manifest = Manifest(
        made=made,
        seen=tuple(
            {s.path: s for s in (*shop_file, *folders, *shipped, *(seen for _, seen in books))}.values()
        ),
        books=tuple(Book(f.shown, str(f.path), f.graph_name, f.trust, seen.digest) for f, seen in books),
        standards=digest_of("\n".join(f"{seen.path} {seen.digest}" for seen in shipped).encode()),
        shop=layout.shop or Shop(shop=Name("shop")),
        shelves=tuple(shelf.shelf for shelf in layout.shelves),
        trust={shelf.shelf: shelf.trust for shelf in layout.shelves if shelf.trust},
        restless=bool(layout.diagnostics),
    )
    afresh = old is None or old.standards != manifest.standards
    before = set() if afresh or old is None else set(old.books)
    changed = tuple(book for book in manifest.books if book not in before)
    gone = tuple(sorted({book.graph for book in before.difference(manifest.books)}))
    return Survey(manifest, changed, gone, afresh, layout)


class Kept(NamedTuple):
    """What a snapshot keeps beside its store; names and diagnostics by the IRI of their book's graph."""

    manifest: Manifest
    standards: Standards
    names: dict[str, tuple[Entry, ...]]
    found: dict[str, tuple[Diagnostic, ...]]


def fill(writer: Writer, seen: Survey, old: Kept | None, progress: Callable[[str], None] | None) -> Kept:
    """Puts into the store what has to be read: everything, or over an old snapshot only what is other than there."""
    standards, about_tables = (old.standards, old.found.get(TABLES, ())) if old else read_standards()
    reader = Reader(standards, progress)
    with uncollected():
        writer.replace(seen.gone if old else (), reader.quads(seen.changed if old else seen.manifest.books))
    read = {book.graph: book for book in reader.books}
    books = tuple(read.get(book.graph, book) for book in seen.manifest.books)
    graphs = {book.graph for book in books}
    names = {graph: entries for graph, entries in (old.names if old else {}).items() if graph in graphs}
    found = {graph: faults for graph, faults in (old.found if old else {}).items() if graph in graphs}
    return Kept(
        manifest=msgspec.structs.replace(seen.manifest, books=books),
        standards=standards,
        names={**names, **reader.names},
        found={LAYOUT: seen.layout.diagnostics, TABLES: about_tables, **found, **reader.found},
    )


class Reader:
    """Reads books one after the other; what they give beside quads gathers in `names`, `found` and `books`."""

    def __init__(self, standards: Standards, progress: Callable[[str], None] | None) -> None:
        self.names: dict[str, tuple[Entry, ...]] = {}
        self.found: dict[str, tuple[Diagnostic, ...]] = {}
        self.books: list[Book] = []
        self._forms, self._progress = Forms(standards), progress

    def quads(self, books: Iterable[Book]) -> Iterator[Quad]:
        """Everything these books say, written and derived."""
        every = list(books)
        told = time.monotonic()
        for number, book in enumerate(every):
            if self._progress and time.monotonic() - told > PATIENCE:
                told = time.monotonic()
                self._progress(f"reading the books: {number} of {len(every)}")
            yield from self._book(book)

    def _book(self, book: Book) -> Iterator[Quad]:
        seen, data = take(book.path)
        self.books.append(Book(book.shown, book.path, book.graph, book.trust, seen.digest))
        if data is None:
            self.names[book.graph] = ()
            self.found[book.graph] = (_unread(book),)
            return
        reading = read_book(book.shown, data, book.graph)
        records = [capped(record, book.trust) for record in reading.records]
        self.found[book.graph] = reading.diagnostics
        self.names[book.graph] = tuple(sorted(entries_of(records)))
        yield from written_quads(reading)
        yield from quads(derive(book.graph, records, self._forms))


def _unread(book: Book) -> Diagnostic:
    """Why a book that is listed cannot be read."""
    try:
        Path(book.path).stat()
        why = "no right to read it"
    except OSError as error:
        why = error.strerror or str(error)
    return fault("L04-cannot-be-read", Origin(book.shown), why=why)
