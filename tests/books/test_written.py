"""The quick way to the written graph against the definition: what a JSON-LD processor makes of the shipped context."""

from __future__ import annotations

from pathlib import Path

import pyoxigraph as ox
import pytest

from fitlore.books.layout import books_on, read_layout
from fitlore.books.rdf import written_quads, written_statements
from fitlore.books.reading import Reading, read_book
from fitlore.books.written import Unusual, literal, statements

GRAPH = "https://fitlore.example/book/shop/a"
RICH = Path(__file__).with_name("rich.yaml")
REPO = Path(__file__).resolve().parents[2]


def canonical(triples: list[ox.Triple]) -> set[str]:
    """The statements with canonical names for blank nodes (W3C RDFC-1.0)."""
    dataset = ox.Dataset(ox.Quad(t.subject, t.predicate, t.object) for t in triples)
    dataset.canonicalize(ox.CanonicalizationAlgorithm.RDFC_1_0)
    return {str(quad) for quad in dataset}


def parsed(lines: list[str]) -> list[ox.Triple]:
    """Statements as N-Triples, parsed."""
    text = "".join(f"{line} .\n" for line in lines)
    return [quad.triple for quad in ox.parse(text, ox.RdfFormat.N_TRIPLES)]


def every_book() -> list[Reading]:
    """The built-in books, the demo's, and the one that has every key in it."""
    books = books_on(read_layout(REPO / "demo" / "lowbarn"))
    found = [read_book(book.shown, book.path.read_bytes(), book.graph_name) for book in books]
    return [*found, read_book("shop/rich.yaml", RICH.read_bytes(), GRAPH)]


def test_the_statements_are_those_of_a_json_ld_processor() -> None:
    """For every book there is: the same graph as JSON-LD 1.1 makes of it, up to the names of blank nodes."""
    books = every_book()
    assert len(books) > 40
    for book in books:
        quick = parsed(statements(book.items, book.graph_name))
        assert canonical(quick) == canonical([q.triple for q in written_quads(book)]), book.shown


def test_statements_are_written_as_the_store_writes_them() -> None:
    """Canonical N-Triples, line for line: else an edit would write anew what did not change."""
    for book in every_book():
        lines = statements(book.items, book.graph_name)
        assert sorted(set(lines)) == sorted({str(triple) for triple in parsed(lines)})


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("plain", '"plain"'),
        ('say "so"\\', '"say \\"so\\"\\\\"'),
        ("two\nlines\r\tand a tab", '"two\\nlines\\r\\tand a tab"'),
        ("\x01\x7f", '"\\u0001\\u007F"'),
        ("ä € 🚗", '"ä € 🚗"'),
    ],
)
def test_texts_are_escaped_and_come_back(text: str, written: str) -> None:
    """RDF 1.2 N-Triples, canonical form; parsed again it is the same text."""
    assert literal(text) == written
    (triple,) = parsed([f"<urn:s> <urn:p> {literal(text)}"])
    assert isinstance(triple.object, ox.Literal)
    assert triple.object.value == text


def test_a_record_says_the_same_wherever_it_stands() -> None:
    """A record put in front leaves the statements of the others as they were; one changed word changes one record's."""
    before = statements(read_book("shop/a.yaml", RICH.read_bytes(), GRAPH).items, GRAPH)
    more = b"- part: ZZ 1\n  maker: Ostra\n  is: gas-strut\n\n" + RICH.read_bytes()
    after = statements(read_book("shop/a.yaml", more, GRAPH).items, GRAPH)
    assert set(before) < set(after)
    assert len(set(after) - set(before)) == 3


def test_equal_names_in_one_book_are_two_records() -> None:
    """Two makers may use one number: their parts have nodes of their own."""
    text = b"- part: A 1\n  maker: Ostra\n  is: gas-strut\n- part: A 1\n  maker: Velm\n  is: gas-strut\n"
    lines = statements(read_book("shop/a.yaml", text, GRAPH).items, GRAPH)
    assert len({line.split(" ")[0] for line in lines}) == 2


def test_an_unusual_key_is_left_to_a_json_ld_processor() -> None:
    """A colon or a blank in a free key means something else in JSON-LD: such a tree is refused, and read the long way."""
    for key in ("a:b", "a b", "@id"):
        with pytest.raises(Unusual):
            statements([{"part": "A", "features": {key: "1"}}], GRAPH)
    book = read_book("shop/rich.yaml", RICH.read_bytes(), GRAPH)
    strange = book._replace(items=({"part": "A", "features": {"urn:b": "1"}},))
    assert canonical(parsed(written_statements(strange))) == canonical(
        [q.triple for q in written_quads(strange)]
    )
