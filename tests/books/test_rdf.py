"""Books of RDF against books of YAML, and our written graph against two independent JSON-LD processors."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path

import pyoxigraph as ox
import pytest
import rdflib
from pyld import jsonld

from fitlore.books.alike import said
from fitlore.books.context import ORDERED, book_json, codings
from fitlore.books.iris import CONTEXT
from fitlore.books.layout import BookFile, books_of
from fitlore.books.rdf import written_quads
from fitlore.books.reading import Reading, read_book
from fitlore.books.schema import KINDS
from fitlore.model.supply import Supplier

HERE = Path(__file__).parent
RICH = (HERE / "rich.yaml").read_bytes()
GRAPH = "https://fitlore.example/book/shop/rich.yaml"
FL = "@prefix fl: <https://fitlore.example/terms#> . @prefix feature: <https://fitlore.example/feature#> .\n"


@pytest.fixture(scope="module")
def rich() -> Reading:
    """The rich book of YAML."""
    return read_book("shop/rich.yaml", RICH, GRAPH)


def canonical(quads: Iterable[ox.Quad]) -> ox.Dataset:
    """A graph in the canonical form of RDFC-1.0 (W3C RDF Dataset Canonicalization)."""
    dataset = ox.Dataset(ox.Quad(q.subject, q.predicate, q.object) for q in quads)
    dataset.canonicalize(ox.CanonicalizationAlgorithm.RDFC_1_0)
    return dataset


def in_form(reading: Reading, form: ox.RdfFormat) -> bytes:
    """The written graph of a book in a format of RDF."""
    triples = [ox.Triple(q.subject, q.predicate, q.object) for q in written_quads(reading)]
    text = ox.serialize(triples, format=form)
    assert text is not None
    return text


def test_the_rich_book_has_every_kind_and_every_key(rich: Reading) -> None:
    """The round trips below are tried on every key of every Struct, so none can be lost unseen."""
    assert not rich.diagnostics
    assert {type(record) for record in rich.records} == set(KINDS.values())
    keys: set[str] = set()
    todo: list[object] = list(rich.items)
    while todo:
        one = todo.pop()
        if isinstance(one, dict):
            keys |= set(one)
            todo += one.values()
        elif isinstance(one, list):
            todo += one
    assert set(codings()) - keys == {"named", "any"} - keys


@pytest.mark.parametrize(
    ("ending", "form"),
    [
        (".ttl", ox.RdfFormat.TURTLE),
        (".nt", ox.RdfFormat.N_TRIPLES),
        (".nq", ox.RdfFormat.N_QUADS),
        (".trig", ox.RdfFormat.TRIG),
        (".jsonld", ox.RdfFormat.JSON_LD),
    ],
)
def test_the_same_facts_in_rdf_give_the_same_records(rich: Reading, ending: str, form: ox.RdfFormat) -> None:
    """YAML to its written graph, to a text of RDF, and back: equal records but for their origins, and nothing reported."""
    back = read_book(f"shop/rich{ending}", in_form(rich, form), GRAPH)
    assert not back.diagnostics
    assert sorted(map(said, back.records), key=repr) == sorted(map(said, rich.records), key=repr)
    assert canonical(written_quads(back)) == canonical(written_quads(rich))


def test_ordered_lists_keep_their_order(rich: Reading) -> None:
    """`faults`, `inspect`, `look-first` and `cautions` are to be done in their order; Turtle keeps it as RDF lists."""
    back = read_book("shop/rich.ttl", in_form(rich, ox.RdfFormat.TURTLE), GRAPH)
    pick = [r for r in back.records if getattr(r, "category", "") == "reversing-lamp-switch"]
    first = [r for r in rich.records if getattr(r, "category", "") == "reversing-lamp-switch"]
    assert set(ORDERED) == {"look-first", "inspect", "faults", "cautions"}
    for name in ("look_first", "inspect", "cautions"):
        assert getattr(pick[0], name) == getattr(first[0], name)
    assert [f.fault for f in pick[0].faults] == ["plug full of oil", "sticks"]  # type: ignore[attr-defined]


@pytest.mark.filterwarnings("ignore::DeprecationWarning:rdflib.*")
def test_generic_processors_make_the_same_graph_of_a_book(rich: Reading) -> None:
    """The written graph is what the context makes of the text, whichever JSON-LD 1.1 processor does it.

    Checked against rdflib and PyLD, which share no code with pyoxigraph; compared by RDFC-1.0.
    """
    text = book_json(rich.items)
    ours = canonical(written_quads(rich))
    by_rdflib = rdflib.Graph().parse(data=text, format="json-ld").serialize(format="nt")
    assert canonical(ox.parse(by_rdflib, ox.RdfFormat.N_TRIPLES)) == ours
    by_pyld = jsonld.to_rdf(json.loads(text), {"format": "application/n-quads"})
    assert canonical(ox.parse(by_pyld, ox.RdfFormat.N_QUADS)) == ours
    assert len(ours) > 400


def test_a_changed_value_changes_the_graph(rich: Reading) -> None:
    """The comparison above can fail: one other price makes another graph."""
    other = read_book("shop/rich.yaml", RICH.replace(b"2.50 GBP", b"2.51 GBP"), GRAPH)
    assert canonical(written_quads(other)) != canonical(written_quads(rich))


def test_cut_statements_make_the_graph_of_the_whole(rich: Reading) -> None:
    """Reading Turtle statement by statement loses and adds nothing, against one parse of the whole text."""
    nasty = (
        FL.encode()
        + b'PREFIX n: <http://n.example/a#b>\n# a dot. in a comment "\n'
        + b'[] fl:part "A. 1 # no comment" ; fl:is "x-y" ; fl:note """two\nlines. "q" """ . n:a.b n:c 1.5 , .5, true .\n'
        + b"<http://n.example/a.b> n:d [ n:e ( 1 [ n:f 'x.' ] ) ] , [] ; n:g '''it's. ''' .n:h n:i\\. n:k.\n"
    )
    for text in (nasty, in_form(rich, ox.RdfFormat.TURTLE)):
        cut = read_book("shop/x.ttl", text, GRAPH)
        assert not [d for d in cut.diagnostics if d.code == "B90-not-rdf"]
        assert canonical(written_quads(cut)) == canonical(ox.parse(text, ox.RdfFormat.TURTLE))


def test_records_of_turtle_know_their_lines() -> None:
    """A statement's records, its offers and the keys at fault are shown with line and column in the Turtle text."""
    text = FL + (
        '<urn:s> fl:supplier "one" ; fl:trade "factor" ;\n'
        '  fl:offers [ fl:number "A" ; fl:price "1.00 GBP" ] ,\n'
        '            [ fl:number "B" ; fl:price "1.00" ] .\n\n'
        '[] fl:supplier "two" ; fl:trade "factor" ;\n'
        '  fl:offers [ fl:number "A" ; fl:price "1.00 GBP" ] ,\n'
        '            [ fl:number "B" ; fl:price "2.00 GBP" ] .\n'
    )
    read = read_book("shop/s.ttl", text.encode(), GRAPH)
    assert [(str(d.origin), d.code) for d in read.diagnostics] == [
        ("shop/s.ttl:4:34", "B55-money-without-currency")
    ]
    assert [str(r.origin) for r in read.records] == ["shop/s.ttl:6:1"]
    assert [str(o.origin) for o in read.records[0].offers] == ["shop/s.ttl:7:13", "shop/s.ttl:8:13"]  # type: ignore[attr-defined]


def test_a_statement_that_cannot_be_read_costs_only_itself() -> None:
    """The statements around a syntax error are read; the error has its line and column."""
    text = FL + (
        '[] fl:part "A" ; fl:is "x-y" .\n[] fl:part "B" ; fl:is "x-y" ; fl:note unknown:x .\n[] fl:part "C" ; fl:is "x-y" .\n'
    )
    read = read_book("shop/s.ttl", text.encode(), GRAPH)
    assert [getattr(r, "part", "") for r in read.records] == ["A", "C"]
    assert [(d.origin.line, d.origin.column) for d in read.diagnostics] == [(3, 40)]


def test_statements_of_records_with_faults_are_not_in_the_written_graph() -> None:
    """What is kept out of the records is kept out of the graph, with all that only it leads to; foreign facts stay."""
    text = FL + (
        '[] fl:part "A" ; fl:is "x-y" .\n[] fl:part "B" ; fl:features [ feature:bore "1 mm" ] .\n'
        "<urn:a> <urn:b> <urn:c> .\n"
    )
    read = read_book("shop/s.ttl", text.encode(), GRAPH)
    objects = {q.object.value for q in written_quads(read)}
    assert objects == {"A", "x-y", "urn:c"}


def test_labels_of_two_books_never_meet() -> None:
    """`_:a` of one book and `_:a` of another are two nodes in one store."""
    text = (FL + '_:a fl:part "A" ; fl:is "x-y" .').encode()
    first = read_book("shop/a.ttl", text, GRAPH + "1")
    second = read_book("shop/b.ttl", text, GRAPH + "2")
    assert written_quads(first)[0].subject != written_quads(second)[0].subject


def test_json_ld_under_the_address_of_our_context_is_read_without_fetching() -> None:
    """The context's address stands for the shipped text; any other address is refused, and nothing is fetched."""
    book = {"@context": CONTEXT, "@graph": [{"part": "A", "is": "x-y", "features": {"bore": "1 mm"}}]}
    read = read_book("shop/a.jsonld", json.dumps(book).encode(), GRAPH)
    assert not read.diagnostics
    assert [r.features for r in read.records] == [{"bore": ("1 mm",)}]  # type: ignore[attr-defined]
    book["@context"] = "https://elsewhere.example/context"
    read = read_book("shop/a.jsonld", json.dumps(book).encode(), GRAPH)
    assert [d.code for d in read.diagnostics] == ["B91-strange-context"]


def test_a_json_ld_book_in_any_context_is_read_by_its_graph() -> None:
    """What counts is the graph, not the keys: a foreign context that leads to the same properties gives the same record."""
    book = {
        "@context": {
            "nummer": "https://fitlore.example/terms#part",
            "ist": "https://fitlore.example/terms#is",
        },
        "nummer": "A",
        "ist": "x-y",
    }
    read = read_book("shop/a.jsonld", json.dumps(book).encode(), GRAPH)
    assert not read.diagnostics
    assert [getattr(r, "part", "") for r in read.records] == ["A"]


def test_items_of_json_ld_know_their_lines() -> None:
    """Each top-level item is shown with the line on which it begins."""
    items = '[\n {"part": "A", "is": "x-y"},\n\n  {"part": "B", "is": "x-y"}\n]'
    text = f'{{"x": "[", "@context": "{CONTEXT}",\n "@graph": {items}}}'
    read = read_book("shop/a.jsonld", text.encode(), GRAPH)
    assert [str(r.origin) for r in read.records] == ["shop/a.jsonld:3:2", "shop/a.jsonld:5:3"]


def test_no_two_offers_of_one_book_have_one_origin(rich: Reading) -> None:
    """An offer is known by its supplier and its origin, so origins differ in every form, even in JSON-LD on one line."""
    offers = [
        {"number": "A", "price": "1.00 GBP"},
        {"number": "A", "price": "2.00 GBP"},
        {"number": "B", "said": "none"},
    ]
    book = {"@context": CONTEXT, "supplier": "s", "trade": "factor", "offers": offers}
    readings = [read_book("shop/a.jsonld", json.dumps(book).encode(), GRAPH)]
    for ending, form in (
        (".ttl", ox.RdfFormat.TURTLE),
        (".nt", ox.RdfFormat.N_TRIPLES),
        (".jsonld", ox.RdfFormat.JSON_LD),
    ):
        readings.append(read_book(f"shop/rich{ending}", in_form(rich, form), GRAPH))
    for reading in readings:
        suppliers = [record for record in reading.records if isinstance(record, Supplier)]
        origins = [(s.supplier, str(offer.origin)) for s in suppliers for offer in s.offers]
        assert len(origins) >= 3
        assert len(set(origins)) == len(origins)


def test_control_characters_get_in_by_no_door() -> None:
    """A strange character, written or escaped, costs its own statement; nothing of it reaches a record or a terminal."""
    text = FL + (
        '[] fl:part "A" ; fl:is "x-y" .\n[] fl:part "B" ; fl:is "x-y" ; fl:note "a\x07b" .\n'
        '[] fl:part "C" ; fl:is "x-y" ; fl:note "a\\u001B[31m" .\n[] fl:part "D" ; fl:is "x-y" ; fl:note "a\u2028b" .\n'
    )
    read = read_book("shop/s.ttl", text.encode(), GRAPH)
    assert [getattr(r, "part", "") for r in read.records] == ["A"]
    assert [(d.code[:3], d.origin.line) for d in read.diagnostics] == [("B04", 3), ("B04", 4), ("B03", 5)]


def test_statements_about_statements_are_told() -> None:
    """RDF 1.2 triple terms cannot be said in a book; they are reported, not dropped in silence."""
    text = FL + '[] fl:part "A" ; fl:is "x-y" ; fl:note <<( <urn:a> <urn:b> <urn:c> )>> .\n'
    read = read_book("shop/s.ttl", text.encode(), GRAPH)
    assert not read.records
    assert [d.code for d in read.diagnostics] == ["B90-not-rdf"]


def test_an_ending_in_capitals_is_the_same_ending() -> None:
    """`PARTS.YAML` and `Parts.TTL` are books like any other."""
    assert len(read_book("shop/P.YAML", b"- part: A\n  is: b-c\n", GRAPH).records) == 1
    assert len(read_book("shop/P.TTL", (FL + '[] fl:part "A" ; fl:is "b-c" .').encode(), GRAPH).records) == 1


@pytest.mark.parametrize("book", books_of(None), ids=lambda book: book.shown)
def test_the_built_in_books_are_the_same_in_turtle(book: BookFile) -> None:
    """Every built-in book through its written graph and Turtle and back: equal records, nothing reported."""
    first = read_book(book.shown, book.path.read_bytes(), book.graph_name)
    back = read_book(book.shown + ".ttl", in_form(first, ox.RdfFormat.TURTLE), book.graph_name)
    assert not back.diagnostics
    assert sorted(map(said, back.records), key=repr) == sorted(map(said, first.records), key=repr)
