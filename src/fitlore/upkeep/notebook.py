"""The books in the hands of a general-purpose RDF library, for notebooks and questions nobody foresaw."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from fitlore.books.layout import books_of
from fitlore.books.rdf import written_quads
from fitlore.books.reading import read_book

if TYPE_CHECKING:
    from rdflib import Dataset


def dataset(folder: Path | None) -> Dataset:
    """Every book of a knowledge base (None: the built-in shelf) as an rdflib Dataset: one named graph per book.

    The graphs hold what the books say and nothing else: the written statements, under the terms of `kb/vocabulary.ttl`.
    Records with faults are left out. Raises OSError where a book cannot be read.
    """
    from rdflib import Dataset

    found = Dataset()
    for book in books_of(folder):
        reading = read_book(book.shown, book.path.read_bytes(), book.graph_name)
        lines = "".join(f"{quad} .\n" for quad in written_quads(reading))
        found.parse(data=lines, format="nquads")
    return found
