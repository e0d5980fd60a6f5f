"""The shop's books as RDF: always the same text for the same facts, and nothing lost on the way there and back."""

from __future__ import annotations

import random
import shutil
from collections.abc import Iterable
from pathlib import Path

import pyoxigraph as ox
import pytest
import rdflib
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlore.books.alike import said
from fitlore.books.layout import books_of
from fitlore.books.rdf import plain_triples, written_quads
from fitlore.books.reading import Reading, read_book
from fitlore.books.turtle import as_lines, as_trig, as_turtle
from fitlore.model.record import Rec
from fitlore.upkeep.export import FORMS, NotExported, export, export_shelf, in_form
from tests.rdf.test_written_graph import DEMO, canonical

RICH = (Path(__file__).parent.parent / "books" / "rich.yaml").read_bytes()
GRAPH = "https://fitlore.example/book/shop/rich"
OX = {
    "turtle": ox.RdfFormat.TURTLE,
    "trig": ox.RdfFormat.TRIG,
    "n-triples": ox.RdfFormat.N_TRIPLES,
    "n-quads": ox.RdfFormat.N_QUADS,
    "json-ld": ox.RdfFormat.JSON_LD,
}


@pytest.fixture(scope="module")
def demo() -> list[Reading]:
    """The demo shop's own books, read."""
    own = [book for book in books_of(DEMO) if book.shelf == "shop"]
    return [read_book(book.shown, book.path.read_bytes(), book.graph_name) for book in own]


def bare(value: object) -> object:
    """What a record says in the order in which it says it, without origins."""
    if isinstance(value, Rec):
        return [
            type(value).__name__,
            *((f, bare(getattr(value, f))) for f in value.__struct_fields__ if f != "origin"),
        ]
    if isinstance(value, dict):
        return [(key, bare(inner)) for key, inner in value.items()]
    return [bare(inner) for inner in value] if type(value) is tuple else value


@pytest.mark.parametrize("form", FORMS)
def test_the_export_says_what_the_books_say(demo: list[Reading], form: str) -> None:
    """Parsed by pyoxigraph, the one document holds the statements of all books; TriG and N-Quads keep their graphs."""
    quads = list(ox.parse(export(DEMO, form), OX[form]))
    assert canonical(quads) == canonical(quad for reading in demo for quad in written_quads(reading))
    names = {quad.graph_name.value for quad in quads if isinstance(quad.graph_name, ox.NamedNode)}
    assert names == ({reading.graph_name for reading in demo} if form in ("trig", "n-quads") else set())


@pytest.mark.filterwarnings("ignore::DeprecationWarning:rdflib.*")
@pytest.mark.parametrize("form", ["turtle", "n-triples", "json-ld"])
def test_other_programs_read_the_export(demo: list[Reading], form: str) -> None:
    """rdflib reads as many statements as there are."""
    graph = rdflib.Graph().parse(data=export(DEMO, form), format={"n-triples": "nt"}.get(form, form))
    assert len(graph) == sum(len(set(written_quads(reading))) for reading in demo)


@pytest.mark.parametrize("form", FORMS)
def test_the_export_does_not_hang_on_order(demo: list[Reading], form: str) -> None:
    """Books, records and lists in another order give the same bytes."""
    shuffled = demo[::-1]
    assert in_form(shuffled, form) == in_form(demo, form) == export(DEMO, form)
    turned = read_book("shop/rich.yaml", _records_turned(RICH), GRAPH)
    assert in_form([turned], form) == in_form([read_book("shop/rich.yaml", RICH, GRAPH)], form)


def _records_turned(text: bytes) -> bytes:
    """A book with its records in the opposite order."""
    head, *records = text.decode().split("\n- ")
    return "\n- ".join([head, *(record.rstrip("\n") + "\n" for record in records[::-1])]).encode()


@pytest.mark.parametrize("form", FORMS)
def test_records_come_back_in_their_order(form: str) -> None:
    """Every kind and key: in the order of the text nothing is lost, not even the order of what has none."""
    reading = read_book("shop/rich.yaml", RICH, GRAPH)
    back = read_book(f"shop/rich{FORMS[form]}", in_form([reading], form, in_order=True), GRAPH)
    assert not back.diagnostics
    assert [bare(record) for record in back.records] == [bare(record) for record in reading.records]
    sorted_back = read_book(f"shop/rich{FORMS[form]}", in_form([reading], form), GRAPH)
    assert not sorted_back.diagnostics
    assert sorted(map(said, sorted_back.records), key=repr) == sorted(map(said, reading.records), key=repr)


def test_what_is_in_brackets_knows_its_line() -> None:
    """In Turtle an offer stands where its supplier is, and is shown with its own line."""
    text = in_form([read_book("shop/rich.yaml", RICH, GRAPH)], "turtle", in_order=True)
    back = read_book("shop/rich.ttl", text, GRAPH)
    supplier = next(
        record for record in back.records if getattr(record, "supplier", "") == "northgate-breakers"
    )
    lines = text.decode().splitlines()
    for offer in supplier.offers:  # type: ignore[attr-defined]
        at = lines[offer.origin.line - 1][offer.origin.column - 1 :]
        assert at.startswith("[ fl:")
        assert str(offer.number or offer.any_ or offer.service or offer.whole_car) in at


def test_a_shelf_becomes_a_shelf(tmp_path: Path) -> None:
    """One book of Turtle for each book of YAML, under the same name; what exists is never overwritten."""
    made = export_shelf(DEMO / "books", tmp_path / "books", "turtle")
    inside = sorted(path.relative_to(tmp_path / "books").with_suffix(".yaml") for path in made)
    assert inside == sorted(path.relative_to(DEMO / "books") for path in (DEMO / "books").rglob("*.yaml"))
    before = {path: path.read_bytes() for path in made}
    with pytest.raises(FileExistsError):
        export_shelf(DEMO / "books", tmp_path / "books", "turtle")
    assert {path: path.read_bytes() for path in made} == before
    shutil.copy(DEMO / "fitlore.yaml", tmp_path)
    assert export(tmp_path, "turtle") == export(DEMO, "turtle")


def test_two_books_of_one_name_are_not_made_one(tmp_path: Path) -> None:
    """`a.yaml` and `a.nt` would both become `a.ttl`: nothing is written."""
    (tmp_path / "from").mkdir()
    (tmp_path / "from" / "a.yaml").write_text("- part: A\n  is: b-c\n", "utf-8")
    (tmp_path / "from" / "a.nt").write_text("", "utf-8")
    with pytest.raises(FileExistsError):
        export_shelf(tmp_path / "from", tmp_path / "to", "turtle")
    assert not (tmp_path / "to").exists()


def test_books_with_errors_are_not_exported(tmp_path: Path) -> None:
    """What is wrong would be missing without a word, so nothing is exported, and the diagnostics say why."""
    (tmp_path / "fitlore.yaml").write_text("shop: s\nshelves: [{shelf: shop, folder: books}]\n", "utf-8")
    (tmp_path / "books").mkdir()
    (tmp_path / "books" / "a.yaml").write_text("- part: A\n  is: b-c\n- part: B\n", "utf-8")
    with pytest.raises(NotExported) as found:
        export(tmp_path, "turtle")
    assert [d.code for d in found.value.diagnostics] == ["B43-missing-key"]
    with pytest.raises(NotExported):
        export_shelf(tmp_path / "books", tmp_path / "to", "turtle")
    assert not (tmp_path / "to").exists()
    (tmp_path / "fitlore.yaml").write_text("shop: s\nshelves: [{shelf: shop, folder: nowhere}]\n", "utf-8")
    with pytest.raises(NotExported):
        export(tmp_path, "turtle")
    with pytest.raises(KeyError, match="there are turtle"):
        export(tmp_path, "rdf/xml")


NODES = st.sampled_from(["<urn:a>", "<urn:b>", "_:a", "_:b", "_:c", "_:d"])
LITERALS = st.sampled_from(
    [
        '"x"',
        '"x"@en',
        '"1"^^<http://www.w3.org/2001/XMLSchema#integer>',
        '"01"^^<urn:t>',
        '"\\"\\\\ \\n\\t\\u0001 é😀"',
    ]
)
STATEMENTS = st.lists(
    st.tuples(NODES, st.sampled_from(["<urn:p>", "<https://fitlore.example/terms#part>"]), NODES | LITERALS),
    max_size=12,
)


@settings(deadline=None)
@given(STATEMENTS, st.randoms(use_true_random=False))
def test_any_graph_is_written_without_loss(rows: list[tuple[str, str, str]], chance: random.Random) -> None:
    """Shared nodes, circles, empty nodes, languages, strange signs: Turtle, TriG and lines say the graph (RDFC-1.0)."""
    text = "".join(f"{' '.join(row)} .\n" for row in rows)
    quads = list(ox.parse(text, ox.RdfFormat.N_TRIPLES))
    triples = list(plain_triples(quads))
    chance.shuffle(triples)
    wanted = canonical(quads)
    for in_order in (False, True):
        assert canonical(ox.parse(as_turtle(triples, in_order=in_order), ox.RdfFormat.TURTLE)) == wanted
        assert (
            canonical(ox.parse(as_lines({"": triples}, in_order=in_order), ox.RdfFormat.N_TRIPLES)) == wanted
        )
        assert (
            canonical(ox.parse(as_trig({"urn:g": triples}, in_order=in_order), ox.RdfFormat.TRIG)) == wanted
        )


LISTS = (
    "( )",
    '( "a" )',
    '( "a" [ <urn:p> 1 ] ( "b" ) )',
    "( 1 2 ) , ( 1 2 )",
    "( <urn:x> ) ; <urn:q> ( [] )",
)


@pytest.mark.parametrize("thing", LISTS)
def test_lists_are_written_as_lists(thing: str) -> None:
    """RDF lists, also in one another and empty, are lists in Turtle again."""
    quads = list(ox.parse(f"<urn:a> <urn:p> {thing} .", ox.RdfFormat.TURTLE))
    text = as_turtle(plain_triples(quads))
    assert canonical(ox.parse(text, ox.RdfFormat.TURTLE)) == canonical(quads)
    assert "rdf-syntax-ns#first" not in text


def shuffled(triples: Iterable[ox.Quad], seed: int) -> list[ox.Quad]:
    """The same statements in another order."""
    rows = list(triples)
    random.Random(seed).shuffle(rows)
    return rows


def test_the_sorted_text_is_the_same_for_the_same_statements() -> None:
    """However the statements come, and whatever labels their nodes have."""
    reading = read_book("shop/rich.yaml", RICH, GRAPH)
    again = read_book("shop/rich.yaml", RICH, GRAPH)
    texts = {
        as_turtle(plain_triples(shuffled(written_quads(one), seed)))
        for seed in range(5)
        for one in (reading, again)
    }
    assert len(texts) == 1
    lines = {as_lines({"": list(plain_triples(shuffled(written_quads(reading), seed)))}) for seed in range(5)}
    assert len(lines) == 1
