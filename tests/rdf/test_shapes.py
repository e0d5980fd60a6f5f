"""The typed walk and the SHACL shapes agree on the shared books, in YAML and in Turtle; the manifest says where they cannot."""

from __future__ import annotations

import re
from collections import defaultdict
from datetime import date
from pathlib import Path

import pyoxigraph as ox
import pytest
import rdflib
from hypothesis import given
from hypothesis import strategies as st

from fitlore.books import conditions, schema, shape_leaves
from fitlore.books.context import structs
from fitlore.books.faults import registered
from fitlore.books.iris import SHAPES, TERMS
from fitlore.books.layout import books_of, builtin_kb
from fitlore.books.rdf import written_quads
from fitlore.books.reading import read_book
from fitlore.books.schema import KINDS
from fitlore.books.shapes import shapes_text
from fitlore.model.amounts import read_money, read_quantity, read_share
from fitlore.model.dates import read_day, read_period
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.numbers import number_key
from fitlore.upkeep.shapes import validate
from tests.rdf.shared_books import FOLDER, GRAPH, Shared, errors_of, manifest, shared, unjudged

FL = "@prefix fl: <https://fitlore.example/terms#> .\n"


def named(book: Shared) -> str:
    """The name of a test."""
    return f"{book.sort}/{book.name}"


@pytest.fixture(scope="module")
def against() -> dict[str, list[Diagnostic]]:
    """What pySHACL finds in each file of the shared books, as one run over all of them."""
    files = [path for book in shared() for path in book.paths]
    found: dict[str, list[Diagnostic]] = defaultdict(list)
    for one in validate(quad for path in files for quad in unjudged(path)):
        assert one.severity is Severity.ERROR, one
        found[one.origin.book].append(one)
    return found


def test_the_committed_shapes_are_current() -> None:
    """`kb/shapes.ttl` is generated: after a change of a Struct, write it anew (`python -m tests.rdf.shared_books`)."""
    assert (builtin_kb() / "shapes.ttl").read_text("utf-8") == shapes_text()


def test_there_is_one_closed_shape_for_each_struct() -> None:
    """Each kind is found by its key; all but conditions, whose series are free keys, are closed."""
    graph = rdflib.Graph().parse(data=shapes_text(), format="turtle")
    sh = rdflib.SH
    for cls in structs():
        shape = rdflib.URIRef(SHAPES + cls.__name__)
        assert (shape, rdflib.RDF.type, sh.NodeShape) in graph
        assert ((shape, sh.closed, rdflib.Literal(True)) in graph) == (cls.__name__ != "Cond")
    targets = {(str(o), str(s)) for s, o in graph.subject_objects(sh.targetSubjectsOf)}
    assert targets == {(TERMS + kind, SHAPES + struct.__name__) for kind, struct in KINDS.items()}


def test_the_shared_books_are_many_and_the_manifest_lists_each() -> None:
    """At least 12 good and 30 bad ones; no file is without its line, no line without its file."""
    files = {path.relative_to(FOLDER).as_posix() for path in FOLDER.glob("*/*.*")}
    assert files == {path.relative_to(FOLDER).as_posix() for book in shared() for path in book.paths}
    assert all(book.ttl.exists() for book in shared())
    both = [book for book in shared() if book.yaml.exists()]
    assert sum(book.sort == "good" for book in both) >= 12
    assert sum(book.sort == "bad" for book in both) >= 30


def test_every_fault_of_reading_is_in_the_manifest() -> None:
    """Each code that reading a book can give has a bad book, or is listed as a fault of the text, once."""
    listed = [code for codes in manifest()["no-graph"].values() for code in codes]
    shown = {code for book in shared() for code in (book.code, book.turtle) if code}
    assert sorted([*listed, *shown]) == sorted(row.code for row in (*registered("B"), *registered("V")))


@pytest.mark.parametrize("book", [book for book in shared() if book.yaml.exists()], ids=named)
def test_the_walk_finds_the_one_fault_in_yaml(book: Shared) -> None:
    """A good book has no error, a bad one exactly the one that the manifest names."""
    assert errors_of(book.yaml) == ([book.code] if book.code else [])


@pytest.mark.parametrize("book", shared(), ids=named)
def test_the_walk_finds_the_same_in_turtle(book: Shared) -> None:
    """The same facts in Turtle have the same one fault, or the one that the manifest says they have there."""
    assert errors_of(book.ttl) == ([book.turtle] if book.turtle else [])


@pytest.mark.parametrize("book", shared(), ids=named)
def test_the_shapes_agree(book: Shared, against: dict[str, list[Diagnostic]]) -> None:
    """pySHACL refuses what the walk refuses and takes what it takes, but where the manifest gives a reason."""
    bad = book.sort == "stricter" or (book.sort == "bad" and not book.unseen)
    for path in book.paths:
        found = against.get(path.relative_to(FOLDER).as_posix(), [])
        assert bool(found) == bad, [(one.message, one.expected) for one in found]


@pytest.mark.parametrize("book", [book for book in shared() if book.yaml.exists()], ids=named)
def test_the_turtle_is_what_the_context_makes_of_the_yaml(book: Shared) -> None:
    """The committed Turtle says what the YAML says, statement for statement (RDFC-1.0)."""
    made = []
    for path in book.paths:
        dataset = ox.Dataset(ox.Quad(q.subject, q.predicate, q.object) for q in unjudged(path))
        dataset.canonicalize(ox.CanonicalizationAlgorithm.RDFC_1_0)
        made.append(dataset)
    assert made[0] == made[1]


def test_real_books_have_the_shapes() -> None:
    """The demo shop's own books, a built-in one and the book with every key: nothing goes against the shapes."""
    rich = Path(__file__).parent.parent / "books" / "rich.yaml"
    wanted = ("shop/", "kb/policy", "kb/categories/restraints")
    demo = Path(__file__).parents[2] / "demo" / "lowbarn"
    files = [(book.shown, book.path) for book in books_of(demo) if book.shown.startswith(wanted)]
    readings = [
        read_book(shown, path.read_bytes(), GRAPH + shown) for shown, path in [("rich.yaml", rich), *files]
    ]
    assert len(readings) > 30
    assert sum(len(written_quads(reading)) for reading in readings) > 9000
    assert validate(readings) == ()


def test_a_finding_has_the_place_of_its_record() -> None:
    """In a book that was read the record's line is known; quads alone give the book's name."""
    text = (FL + '\n[] fl:shared-work "w" ;\n  fl:minutes "30" .\n').encode()
    reading = read_book("shop/w.ttl", text, GRAPH + "shop/w.ttl")
    assert reading.records
    (found,) = validate([reading])
    assert (found.code, str(found.origin), found.severity) == (
        "S01-against-a-shape",
        "shop/w.ttl:3:1",
        Severity.ERROR,
    )
    assert found.message == "the shared-work `w`: under `minutes` stands `30`"
    assert found.expected == "`minutes` of a shared-work: a whole number"
    (bare,) = validate(written_quads(reading))
    assert str(bare.origin) == "shop/w.ttl"
    assert validate([]) == ()


def test_statements_in_other_words_are_notes() -> None:
    """Somebody may say more about a part in another vocabulary: that is told, and goes against nothing."""
    text = FL + (
        '[] fl:part "KT 1" ; fl:is "switch" ; <http://purl.org/dc/terms/creator> "Agnes" ;\n'
        '  fl:contains [ fl:number "KT 2" ; <http://purl.org/dc/terms/creator> "Agnes" ] .\n'
        "<urn:a> <urn:b> <urn:c> .\n"
    )
    found = validate([read_book("shop/p.ttl", text.encode(), GRAPH + "shop/p.ttl")])
    assert [(one.code, one.severity) for one in found] == [("S02-in-other-words", Severity.NOTE)]
    assert "<http://purl.org/dc/terms/creator>" in found[0].message


def test_books_are_held_apart() -> None:
    """A name that two books give, and a node that two books speak of, is a fault of neither."""
    text = (FL + '<urn:p> fl:part "KT 1" ; fl:is "switch" ; fl:note "{}" .').encode()
    readings = [
        read_book(f"shop/{n}.ttl", text.replace(b"{}", n.encode()), f"{GRAPH}shop/{n}.ttl") for n in "ab"
    ]
    assert validate(readings) == ()
    quads = [quad for reading in readings for quad in written_quads(reading)]
    assert validate(quads) == ()


def matches(pattern: str, text: str) -> bool:
    """Whether a shape's pattern is found in a text."""
    return re.search(pattern, text) is not None


WORDY = st.text("abz019-/@ leftrigh.", max_size=14)
FIGURES = st.text('0123456789./-,+ %XGBPEURmkgin?~"', max_size=12)


@given(WORDY)
def test_patterns_of_words_are_those_of_the_walk(text: str) -> None:
    """Names, places, series and languages: the shapes' patterns, which have no look-ahead, say what reading says."""
    pairs = [
        (shape_leaves.NAME, schema.NAME),
        (shape_leaves.PLACE, schema.PLACE),
        (shape_leaves.FULL_PLACE, schema.FULL_PLACE),
        (shape_leaves.ASSEMBLY_OR_PLACE, schema.ASSEMBLY_OR_PLACE),
        (shape_leaves.LANGUAGE, schema.LANGUAGE),
    ]
    for shaped, walked in pairs:
        assert matches(shaped, text) == (walked.fullmatch(text) is not None)
    assert matches(shape_leaves.SERIES, text.upper()) == (schema.SERIES.fullmatch(text.upper()) is not None)
    assert matches(shape_leaves.NUMBER, text) == bool(number_key(text))


@given(FIGURES)
def test_patterns_of_figures_refuse_nothing_that_is_read(text: str) -> None:
    """Money, shares, quantities, days, periods and serial ranges: what reading takes has the shape."""
    money = read_money(text)
    assert matches(shape_leaves.MONEY, text) == (money is not None and not text.startswith("-"))
    assert matches(shape_leaves.SHARE, text) == (read_share(text) is not None)
    size = read_quantity(text)
    if size is not None and not text.strip().startswith("-"):
        assert matches(f"^{shape_leaves.measure()}$", text)
    if conditions.serial_range(text) is not None:
        assert matches(shape_leaves.SERIAL_RANGE, text)
    for read, pattern in ((read_day, shape_leaves.DAY), (read_period, shape_leaves.PERIOD)):
        if read(text) is not None:
            assert matches(pattern, text)


@given(
    st.dates(min_value=date(1000, 1, 1)),
    st.sampled_from(["", "?", "~", "%"]),
    st.sampled_from(["{}/..", "../{}", "{}/", "/{}", "{}", "{}/{}"]),
)
def test_periods_that_are_read_have_the_shape(day: date, mark: str, form: str) -> None:
    """Days, months, years, decades and periods of them, as EDTF (ISO 8601-2) writes them."""
    for text in (f"{day}{mark}", f"{day:%Y-%m}{mark}", f"{day:%Y}{mark}", f"{str(day)[:3]}X"):
        period = form.replace("{}", text)
        assert read_period(period) is not None
        assert matches(shape_leaves.PERIOD, period)
