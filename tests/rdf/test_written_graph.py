"""The written graph of every book of the demo is what independent JSON-LD processors make of it."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path

import pyoxigraph as ox
import pytest
import rdflib
from pyld import jsonld

from fitlore.books.context import book_json
from fitlore.books.layout import BookFile, books_of
from fitlore.books.rdf import written_quads
from fitlore.books.reading import read_book

DEMO = Path(__file__).parents[2] / "demo" / "lowbarn"
BOOKS = books_of(DEMO)


def canonical(quads: Iterable[ox.Quad]) -> ox.Dataset:
    """A graph in the canonical form of RDFC-1.0 (W3C RDF Dataset Canonicalization)."""
    dataset = ox.Dataset(ox.Quad(q.subject, q.predicate, q.object) for q in quads)
    dataset.canonicalize(ox.CanonicalizationAlgorithm.RDFC_1_0)
    return dataset


def test_no_book_is_left_out() -> None:
    """All books of the demo shop, and the built-in ones."""
    assert sum(book.shelf == "shop" for book in BOOKS) == len(list((DEMO / "books").rglob("*.yaml"))) > 25
    assert sum(book.shelf == "kb" for book in BOOKS) >= 20


@pytest.mark.filterwarnings("ignore::DeprecationWarning:rdflib.*")
@pytest.mark.parametrize("book", BOOKS, ids=lambda book: book.shown)
def test_three_processors_make_one_graph(book: BookFile) -> None:
    """pyoxigraph (ours), rdflib and PyLD share no code; their graphs of a book are equal by RDFC-1.0."""
    reading = read_book(book.shown, book.path.read_bytes(), book.graph_name)
    text = book_json(reading.items)
    ours = canonical(written_quads(reading))
    assert len(ours) >= 2 * len(reading.records) > 0
    by_rdflib = rdflib.Graph().parse(data=text, format="json-ld").serialize(format="nt")
    assert canonical(ox.parse(by_rdflib, ox.RdfFormat.N_TRIPLES)) == ours
    by_pyld = jsonld.to_rdf(json.loads(text), {"format": "application/n-quads"})
    assert canonical(ox.parse(by_pyld, ox.RdfFormat.N_QUADS)) == ours
