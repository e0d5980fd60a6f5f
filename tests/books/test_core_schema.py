"""The modest claim: with every scalar as text a book is JSON-LD; typed readers agree where `check` notes nothing."""

from __future__ import annotations

import json
import os
import re
from pathlib import Path
from typing import Any

import pyoxigraph as ox
import pytest
import yaml

from fitlore.books.context import book_json
from fitlore.books.iris import WORD, XSD_INTEGER
from fitlore.books.layout import books_on, read_layout
from fitlore.books.reading import read_book
from tests.books.test_jsonschema import Core

DEMO = Path(__file__).resolve().parents[2] / "demo" / "lowbarn"
LONG = os.environ.get("FITLORE_FUZZ") == "long"
BOOKS = [book for book in books_on(read_layout(DEMO)) if book.path.suffix == ".yaml"][:: 1 if LONG else 3]
NOTED = "B69-looks-like-another-type"


def graph_of(tree: Any) -> set[str]:
    """What the shipped context makes of a tree, with canonical names for blank nodes (W3C RDFC-1.0)."""
    document = {**json.loads(book_json([])), "@graph": tree}
    dataset = ox.Dataset(ox.parse(json.dumps(document), ox.RdfFormat.JSON_LD))
    dataset.canonicalize(ox.CanonicalizationAlgorithm.RDFC_1_0)
    return {str(quad) for quad in dataset}


def texts(data: bytes) -> Any:
    """The tree with every scalar as text, by PyYAML's own loader."""
    return yaml.load(data, yaml.BaseLoader)


def typed(data: bytes) -> Any:
    """The tree under the Core Schema, which YAML-LD wants (YAML 1.2.2, 10.3.2)."""
    return yaml.load(data, Core)


def words_as_text(graph: set[str]) -> list[str]:
    """The statements with the values of free words as plain text, whatever the blank nodes are called then."""
    free = re.compile(rf'(<{WORD}[^>]*> "[0-9]+")\^\^<{XSD_INTEGER}>')
    return sorted(re.sub(r"_:c14n[0-9]+", "_:b", free.sub(r"\1", one)) for one in graph)


@pytest.mark.parametrize("book", BOOKS, ids=lambda book: book.shown)
def test_typed_readers_make_the_same_graph_of_the_books(book: Any) -> None:
    """Counts become numbers and are `xsd:integer` either way; nothing else in these books is taken for another type.

    Numbers under words that somebody gave (`stale-after: {club: 180}`) are text in our graph: a context cannot type these.
    """
    data = book.path.read_bytes()
    assert NOTED not in {one.code for one in read_book(book.shown, data, book.graph_name).diagnostics}
    assert len(graph_of(texts(data))) > 1
    assert words_as_text(graph_of(typed(data))) == words_as_text(graph_of(texts(data)))


@pytest.mark.parametrize("word", ["0123", "8.8", "2.0", "1e3", "true"])
def test_what_is_noted_is_what_typed_readers_change(word: str) -> None:
    """Bare, such a text makes another graph under the Core Schema, and `check` notes it; in quotes neither happens."""
    for written, same in ((word, False), (f'"{word}"', True)):
        data = f"- part: A 1\n  maker: Velm\n  is: gas-strut\n  note: {written}\n".encode()
        found = read_book("shop/a.yaml", data, "urn:g").diagnostics
        assert (graph_of(typed(data)) == graph_of(texts(data))) is same
        assert [one.code for one in found] == ([] if same else [NOTED])
