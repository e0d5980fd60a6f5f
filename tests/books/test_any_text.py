"""Whatever somebody wrote: reading never raises, and gives records or says why not."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from fitlore.books.rdf import written_quads
from fitlore.books.reading import read_book
from fitlore.books.standards import table_rows
from fitlore.model.diagnostic import Severity

RICH = (Path(__file__).parent / "rich.yaml").read_text("utf-8")
TURTLE = (
    "@prefix fl: <https://fitlore.example/terms#> .\n@prefix feature: <https://fitlore.example/feature#> .\n"
    '[] fl:part "A 1" ; fl:is "hex-bolt" ; fl:features [ feature:length "25 mm" ] ; fl:contains ( "B 1" [ fl:number "C" ] ) .\n'
    '_:s fl:supplier "corner" ; fl:trade "factor" ; fl:offers [ fl:number "A 1" ; fl:price "1.00 GBP" ], _:o .\n'
    '_:o fl:number "B 1" ; fl:said "none" .\n'
)
JSON = (
    '{"@context": "https://fitlore.example/context.jsonld", "@graph": [{"part": "A 1", "is": "hex-bolt"},\n'
    ' {"category": "bolt", "names": {"en-gb": "bolt"}, "features": {"length": {"kind": "length", "role": "mates"}}}]}\n'
)
ENDINGS = st.sampled_from([".yaml", ".yml", ".ttl", ".nt", ".nq", ".trig", ".jsonld"])
_YAML = (
    "\n",
    "  ",
    "- ",
    ": ",
    "{",
    "}",
    "[",
    "]",
    "'",
    '"',
    "#",
    "&a ",
    "*a",
    "!t ",
    "\t",
    ",",
    "|\n",
    "? ",
    "<<: ",
)
_OTHER = ("@", "%", "..", "\x00", "\\", "é", "\u2028", "- part: A 1\n", "null", "[] ", "{} ")
_TURTLE = (". ", "; ", "_:s ", "<urn:a> ", "( ", ") ", '"""')
BITS = st.sampled_from([*_YAML, *_OTHER, *_TURTLE])


def reads(shown: str, data: bytes) -> None:
    """Reads a text in every way there is; a book of which nothing was read has an error or nothing in it."""
    book = read_book(shown, data, "https://fitlore.example/book/shop/a")
    quads = written_quads(book)
    if shown.endswith((".yaml", ".yml")):
        assert bool(quads) == bool(book.records)
    for record in book.records:
        assert record.origin.book == shown
        assert record.origin.line >= 1
    for found in book.diagnostics:
        assert found.origin.line >= 1
        assert found.origin.column >= 1
        assert found.width >= 1
        assert found.origin.column <= len(found.excerpt) + 1
    text = data.decode("utf-8", "replace")
    if (
        shown.endswith(".yaml")
        and not book.records
        and any(line.startswith("- ") for line in text.splitlines())
    ):
        assert any(d.severity is Severity.ERROR for d in book.diagnostics)
    table_rows(shown, data)


@settings(max_examples=150, deadline=None)
@given(
    ENDINGS,
    st.one_of(
        st.binary(max_size=200), st.text(max_size=200).map(lambda text: text.encode("utf-8", "replace"))
    ),
)
def test_any_bytes_can_be_read(ending: str, data: bytes) -> None:
    """Bytes of any sort, under any ending."""
    reads(f"shop/a{ending}", data)


@settings(max_examples=150, deadline=None)
@given(ENDINGS, st.lists(BITS, max_size=40).map("".join))
def test_any_heap_of_syntax_can_be_read(ending: str, text: str) -> None:
    """Pieces of YAML and Turtle syntax in any order, under any ending."""
    reads(f"shop/a{ending}", text.encode())


@st.composite
def mangled(draw: st.DrawFn, whole: str) -> str:
    """A sound book with one to three stretches taken out, doubled, or overwritten."""
    text = whole
    for _ in range(draw(st.integers(1, 3))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.integers(0, 60)))
        put = draw(st.one_of(BITS, st.just(""), st.just(text[start:end] * 2), st.text(max_size=4)))
        text = text[:start] + put + text[end:]
    return text


@settings(max_examples=60, deadline=None)
@given(mangled(RICH))
def test_a_mangled_book_of_yaml_can_be_read(text: str) -> None:
    """The rich book with stretches of it spoilt."""
    reads("shop/a.yaml", text.encode("utf-8", "replace"))


@settings(max_examples=100, deadline=None)
@given(mangled(TURTLE), st.sampled_from([".ttl", ".trig"]))
def test_a_mangled_book_of_turtle_can_be_read(text: str, ending: str) -> None:
    """A book of Turtle with stretches of it spoilt: circles, lists and labels included."""
    reads(f"shop/a{ending}", text.encode("utf-8", "replace"))


@settings(max_examples=100, deadline=None)
@given(mangled(JSON))
def test_a_mangled_book_of_json_ld_can_be_read(text: str) -> None:
    """A book of JSON-LD with stretches of it spoilt."""
    reads("shop/a.jsonld", text.encode("utf-8", "replace"))
