"""What holds for any bytes whatever: everything that looks at a book ends, raises nothing, and says what is wrong where."""

from __future__ import annotations

from collections.abc import Iterable

import pyoxigraph as ox

from fitlore.books.alike import said
from fitlore.books.amend import NewRecord, Spliced, splice, taken_back
from fitlore.books.faults import MOST, shown
from fitlore.books.raw import decode, line_starts
from fitlore.books.rdf import written_quads, written_statements
from fitlore.books.reading import Reading, name_of, read_book
from fitlore.books.standards import table_rows
from fitlore.books.tidy import Tidied, tidy
from fitlore.graph.derive import derive
from fitlore.graph.forms import Forms
from fitlore.graph.page import page_of
from fitlore.graph.vocabulary import entries_of
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.upkeep.export import FORMS, in_form
from tests.books.fuzz.seeds import GRAPH

WIDEST = 6000
"""Characters that one diagnostic may have in all."""


def examine(shown_name: str, data: bytes) -> Reading:
    """Reads a book and does everything with it that is done with books; AssertionError where something is not as it should."""
    book = read_book(shown_name, data, GRAPH)
    places_hold(book.diagnostics, data)
    assert all(record.origin.line >= 1 and record.origin.book == shown_name for record in book.records)
    assert not {name_of(record) for record in book.records} & {""}
    statements(book)
    graph_holds(book)
    table_rows(shown_name, data)
    if shown_name.endswith(".yaml"):
        tidied(shown_name, data, book)
        spliced(shown_name, data)
    if not any(d.severity is Severity.ERROR for d in book.diagnostics):
        comes_back(book)
    return book


def places_hold(diagnostics: Iterable[Diagnostic], data: bytes) -> None:
    """Every diagnostic is complete, stands inside the text, and is of a size that can be shown."""
    text = decode(data).text
    starts = [*line_starts(text), len(text) + 2]
    found = tuple(diagnostics)
    assert len(found) <= MOST
    for one in found:
        assert all((one.message, one.expected, one.remedy, one.code)), one
        line, column = one.origin.line, one.origin.column
        assert 1 <= line < len(starts), (one.origin, len(starts))
        assert 1 <= column <= starts[line] - starts[line - 1] + 1, one
        assert one.excerpt in text
        assert column - one.cut <= len(one.excerpt) + 1, one
        assert one.width >= 1
        words = shown(one)
        assert len(words) <= WIDEST, (len(words), one.code)
        words.encode()


def statements(book: Reading) -> None:
    """The written graph is RDF: as many statements as the store takes in."""
    lines = written_statements(book)
    text = "".join(f"{line} .\n" for line in lines)
    assert len(set(ox.parse(text, ox.RdfFormat.N_TRIPLES))) <= len(lines)
    assert bool(book.records) <= bool(lines) or not written_quads(book)


def graph_holds(book: Reading) -> None:
    """What the graph derives of the records can be stored."""
    nodes = list(derive(GRAPH, book.records, Forms(None)))
    page = page_of("urn:derived", nodes)
    list(ox.parse("".join(f"{line} .\n" for line in page.statements), ox.RdfFormat.N_TRIPLES))
    list(entries_of(book.records))


def tidied(shown_name: str, data: bytes, book: Reading) -> None:
    """Tidying refuses, or gives a text with the same records that is its own tidied text."""
    once = tidy(shown_name, data)
    if not isinstance(once, Tidied):
        places_hold([once], data)
        return
    again = tidy(shown_name, once.data)
    assert isinstance(again, Tidied), again
    assert again.data == once.data
    back = read_book(shown_name, once.data, GRAPH)
    assert [said(record) for record in back.records] == [said(record) for record in book.records]


def spliced(shown_name: str, data: bytes) -> None:
    """A record is put in with every old byte in its place, or it is refused with the lines to paste."""
    done = splice(shown_name, data, [NewRecord({"part": "ZZ 0", "maker": "Brede", "is": "hose"})])
    if isinstance(done, Spliced):
        assert taken_back(done.data, done.changes) == data
        assert read_book(shown_name, done.data, GRAPH).source is not None
    else:
        assert "- part: ZZ 0" in done.remedy


def comes_back(book: Reading) -> None:
    """What was read is written in every form of RDF, and read from there it says the same."""
    was = sorted((said(record) for record in book.records), key=repr)
    for form, ending in FORMS.items():
        back = read_book(f"shop/back{ending}", in_form([book], form, in_order=True), GRAPH)
        errors = [d for d in back.diagnostics if d.severity is Severity.ERROR]
        assert not errors, (form, shown(errors[0]))
        assert sorted((said(record) for record in back.records), key=repr) == was, form
