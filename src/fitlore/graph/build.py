"""Reads the books of a knowledge base, all or only those that changed, into what the store keeps of them."""

from __future__ import annotations

import contextlib
import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.books.faults import fault
from fitlore.books.layout import Layout, books_on, builtin_kb, misnamed, nameable, read_layout
from fitlore.books.nodes import uncollected
from fitlore.books.rdf import written_statements
from fitlore.books.reading import read_book
from fitlore.books.standards import read_standards, table_files
from fitlore.graph.begun_lines import begun_of
from fitlore.graph.derive import derive
from fitlore.graph.forms import Forms
from fitlore.graph.manifest import Book, Manifest, Seen, digest_of, folders_below, look, settled, take
from fitlore.graph.page import Page, page_of
from fitlore.graph.past import Past, Pasts, changed, marks
from fitlore.graph.store import DERIVED, Writer
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
    """Looks at every file. Books whose times settle that they are as `old` says are not opened.

    Each file and folder is looked at before it is read or listed: what changes in between is seen the next time.
    """
    made = time.time_ns()
    known = {seen.path: seen for seen in old.seen} if old else {}

    def at(path: Path) -> Seen:
        before = known.get(str(path))
        return before if old and before and settled(before, old.made) else look(str(path))

    root = builtin_kb()
    shop_file = [at(folder / "fitlore.yaml")] if folder else []
    layout = read_layout(folder)
    layout = layout._replace(diagnostics=(*layout.diagnostics, *misnamed(layout)))
    roots = [root, *(folder / shelf.folder for shelf in layout.shelves if folder and shelf.folder)]
    folders = [look(path) for below in roots for path in folders_below(below) if nameable(path)]
    shipped = [at(path) for path in (*table_files(root), root / "context.jsonld", root / "vocabulary.ttl")]
    books = [(file, at(file.path)) for file in books_on(layout)]
    manifest = Manifest(
        made=made,
        seen=tuple(
            {s.path: s for s in (*shop_file, *folders, *shipped, *(seen for _, seen in books))}.values()
        ),
        books=tuple(Book(f.shown, str(f.path), f.graph_name, f.trust, seen.digest) for f, seen in books),
        standards=digest_of("\n".join(f"{seen.path} {seen.digest}" for seen in shipped).encode()),
        shop=layout.shop or Shop(shop=Name("shop")),
        shelves=tuple(shelf.shelf for shelf in layout.shelves),
        trust={shelf.shelf: shelf.cap for shelf in layout.shelves if shelf.cap},
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
    names: dict[str, msgspec.Raw]
    """The entries of the vocabulary in MessagePack: seldom looked at, so not taken apart."""
    found: dict[str, tuple[Diagnostic, ...]]
    begun: dict[str, str]
    """The names that somebody may have begun to type, by the IRI of their book's graph."""


class Said(msgspec.Struct, frozen=True, array_like=True):
    """Everything one book gives; `written` and `derived` are the statements of its two graphs."""

    book: Book
    """As it stood when it was read."""
    names: msgspec.Raw
    found: tuple[Diagnostic, ...]
    written: list[str]
    derived: list[str]
    past: bytes = b""
    """What is kept of how it was read: a `Past` in MessagePack."""
    begun: str = ""


def fill(
    writer: Writer,
    seen: Survey,
    old: Kept | None,
    progress: Callable[[str], None] | None,
    pasts: Pasts | None = None,
) -> Kept:
    """Puts into the store what has to be read: everything, or over an old snapshot only what is other than there."""
    standards, about_tables = (old.standards, old.found.get(TABLES, ())) if old else read_standards()
    reader = Reader(standards, progress, pasts, old.manifest.books if old else ())
    todo = seen.changed if old else seen.manifest.books
    with uncollected() if old else contextlib.nullcontext():
        writer.put(reader.pages(todo))
    writer.take_out(set(seen.gone if old else ()).difference(book.graph for book in todo))
    read = {book.graph: book for book in reader.books}
    books = tuple(read.get(book.graph, book) for book in seen.manifest.books)
    graphs = {book.graph for book in books}
    names = {graph: entries for graph, entries in (old.names if old else {}).items() if graph in graphs}
    found = {graph: faults for graph, faults in (old.found if old else {}).items() if graph in graphs}
    begun = {graph: lines for graph, lines in (old.begun if old else {}).items() if graph in graphs}
    return Kept(
        manifest=msgspec.structs.replace(seen.manifest, books=books),
        standards=standards,
        names={**names, **reader.names},
        found={LAYOUT: seen.layout.diagnostics, TABLES: about_tables, **found, **reader.found},
        begun={**begun, **reader.begun},
    )


class Reader:
    """Reads books; what they give beside statements gathers in `names`, `found`, `begun` and `books`."""

    def __init__(
        self,
        standards: Standards,
        progress: Callable[[str], None] | None,
        pasts: Pasts | None = None,
        before: Iterable[Book] = (),
    ) -> None:
        """`pasts` tells how the books that were there `before` were read, and keeps how these are."""
        self.names: dict[str, msgspec.Raw] = {}
        self.found: dict[str, tuple[Diagnostic, ...]] = {}
        self.begun: dict[str, str] = {}
        self.books: list[Book] = []
        self._standards, self._progress, self._pasts = standards, progress, pasts
        self._before = {book.graph: book for book in before} if pasts else {}
        self._was: dict[str, Past] = {}

    def pages(self, books: Iterable[Book]) -> Iterator[Page]:
        """Both graphs of each book, one book after the other: no more than a few are held in memory."""
        every = list(books)
        told = time.monotonic()
        for number, said in enumerate(self._said(every)):
            if self._progress and time.monotonic() - told > PATIENCE:
                told = time.monotonic()
                self._progress(f"reading the books: {number} of {len(every)}")
            graph = said.book.graph
            self.books.append(said.book)
            self.names[graph], self.found[graph], self.begun[graph] = said.names, said.found, said.begun
            old = self._was.pop(graph, None) or self._past(said.book)
            new = msgspec.msgpack.decode(said.past, type=Past) if old and said.past else None
            touched = (
                (changed(old.written, new.written), changed(old.derived, new.derived))
                if old and new
                else None
            )
            yield Page(graph, said.written, touched[0] if touched else None)
            yield Page(graph + DERIVED, said.derived, touched[1] if touched else None)
            if self._pasts and said.past:
                self._pasts.keep(said.book, said.past)

    def _past(self, book: Book) -> Past | None:
        """How a book was read before."""
        before = self._before.get(book.graph)
        return self._pasts.of(before) if self._pasts and before else None

    def _said(self, books: list[Book]) -> Iterator[Said]:
        from fitlore.graph.beside import helpers_for, read_beside

        helpers = helpers_for(books)
        if helpers:
            yield from read_beside(books, self._standards, helpers)
            return
        forms = Forms(self._standards)
        for book in books:
            past = self._past(book)
            if past:
                self._was[book.graph] = past
                forms.learn(past.texts)
            yield said_by(book, forms)


def said_by(book: Book, forms: Forms) -> Said:
    """Reads one book."""
    seen, data = take(book.path)
    read = Book(book.shown, book.path, book.graph, book.trust, seen.digest)
    if data is None:
        return Said(read, _raw(()), (_unread(book),), [], [])
    forms.met.clear()
    with uncollected():
        reading = read_book(book.shown, data, book.graph)
        records = [capped(record, book.trust) for record in reading.records]
        derived = list(page_of(book.graph + DERIVED, derive(book.graph, records, forms)).statements)
        written = written_statements(reading)
        past = Past(forms.met, marks(written), marks(derived))
        names = _raw(tuple(sorted(entries_of(records))))
        kept = msgspec.msgpack.encode(past)
        return Said(read, names, reading.diagnostics, written, derived, kept, begun_of(records))


def _raw(names: tuple[Entry, ...]) -> msgspec.Raw:
    return msgspec.Raw(msgspec.msgpack.encode(names))


def _unread(book: Book) -> Diagnostic:
    """Why a book that is listed cannot be read."""
    try:
        Path(book.path).stat()
        why = "no right to read it"
    except OSError as error:
        why = error.strerror or str(error)
    return fault("L04-cannot-be-read", Origin(book.shown), why=why)
