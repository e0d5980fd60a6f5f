"""Inputs made to hurt: bombs, depths, lengths and encodings. Each is read within bounds, and what it is is said."""

from __future__ import annotations

import http.server
import os
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from fitlore.books.alike import said
from fitlore.books.reading import read_book
from fitlore.graph.derive import derive
from fitlore.graph.forms import Forms
from fitlore.graph.page import Page, page_of
from fitlore.graph.store import Writer
from fitlore.model.diagnostic import Severity
from tests.books.fuzz.bounds import bounded
from tests.books.fuzz.properties import examine
from tests.books.fuzz.seeds import GRAPH
from tests.books.fuzz.special import ALL

SCALE = 100 if os.environ.get("FITLORE_FUZZ") == "long" else 5
"""At 100 the inputs are as large as anybody should bear: ten thousands of faults, 10^5 brackets, a text of 100 MB."""
SECONDS, MEMORY = 60.0, 2_000_000_000
SOUND = {"huge text, folded (.yaml)", "long text (.ttl)", "CR only (.yaml)", "strange nodes (.nt)"}
SOUND |= {
    "prefixes (.ttl)",
    "a long IRI (.ttl)",
    "a long path (.ttl)",
    "huge name (.yaml)",
    "huge number (.yaml)",
}
"""Odd, but nothing is wrong with them, or only a note is due."""


@pytest.mark.parametrize("name", ALL)
def test_it_is_read_within_bounds(name: str) -> None:
    """A minute and two gigabytes at the very most; no exception, and every diagnostic inside the text."""
    ending, made = ALL[name]
    data = made(SCALE)
    found, failed = bounded(
        lambda: len(examine(f"shop/a{ending}", data).diagnostics), seconds=SECONDS, memory=MEMORY
    )
    assert not failed
    assert found or name in SOUND or len(read_book(f"shop/a{ending}", data, GRAPH).records)


def test_a_text_of_many_megabytes_costs_its_record_alone() -> None:
    """It is told as too long, within a few times its size; the record behind it is kept."""
    ending, made = ALL["huge text (.yaml)"]
    data = made(SCALE) + b"- part: B 1\n  maker: Velm\n  is: gas-strut\n"

    def work() -> int:
        book = read_book(f"shop/a{ending}", data, GRAPH)
        assert [one.code for one in book.diagnostics] == ["B10-not-yaml"]
        assert "million" in book.diagnostics[0].message
        return len(book.records)

    assert bounded(work, seconds=60, memory=1_200_000_000) == (1, "")


def test_a_text_of_nearly_a_million_characters_is_kept_and_stored() -> None:
    """The store takes in what its parser would not take in one piece (a record may hold many such texts)."""
    text = "".join(
        f"- part: A {n}\n  maker: Velm\n  is: gas-strut\n  note: {'x' * 999_000}\n" for n in range(2)
    )
    book = read_book("shop/a.yaml", text.encode(), GRAPH)
    assert not book.diagnostics
    assert len(book.records) == 2
    page = page_of(GRAPH, derive(GRAPH, book.records, Forms(None)))
    writer = Writer(None)
    writer.put([page, Page("urn:long", [f'<urn:s> <urn:p> "{"é" * 10_000_000}"', '<urn:s> <urn:p> "b"@en'])])
    assert len(list(writer.close().select("SELECT ?o WHERE { GRAPH <urn:long> { ?s ?p ?o } }"))) == 2


@pytest.mark.parametrize(
    "name",
    ["unknown keys, one line (.yaml)", "faults, one line (.ttl)", "dots (.ttl)", "JSON records (.jsonld)"],
)
def test_faults_in_one_long_line_do_not_each_carry_the_line(name: str) -> None:
    """What is shown of a line is the stretch around the fault; all that is said is no longer than so much for each."""
    ending, made = ALL[name]
    found = read_book(f"shop/a{ending}", made(20), GRAPH).diagnostics
    assert len(found) > 900
    assert {len(one.excerpt) for one in found} <= set(range(401))
    assert sum(len(one.message) + len(one.excerpt) for one in found) < 1000 * len(found)


def test_more_faults_than_anybody_reads_are_counted() -> None:
    """Five thousand are told; the last of them says how many more there are. A record with a fault beyond is kept out too."""
    text = b"- part: A\n" * 6000
    book = read_book("shop/a.yaml", text, GRAPH)
    assert len(book.diagnostics) == 5000
    assert "(and 1000 further faults" in book.diagnostics[-1].message
    assert not book.records


@pytest.mark.parametrize(("length", "kept"), [(1_000_000, 1), (1_000_001, 0)])
def test_a_text_has_one_greatest_length_in_every_form(length: int, kept: int) -> None:
    """Found by an input made to hurt: what is just short enough in YAML is so in RDF, whatever stands around it there."""
    note = "x\\" * (length // 2) + "x" * (length % 2)
    yaml = f"- part: A 1\n  maker: Velm\n  is: hose\n  note: {note}\n".encode()
    assert len(read_book("shop/a.yaml", yaml, GRAPH).records) == kept
    text = note.replace("\\", "\\\\")
    turtle = f'[] fl:part "A 1" ; fl:maker "Velm" ; fl:is "hose" ; fl:note "{text}" .\n'
    data = f"@prefix fl: <https://fitlore.example/terms#> .\n{turtle}".encode()
    book = read_book("shop/a.ttl", data, GRAPH)
    assert len(book.records) == kept
    assert bool(book.diagnostics) is not bool(kept)


@pytest.mark.parametrize("first", [True, False])
def test_an_error_is_told_however_many_notes_there_are(first: bool) -> None:
    """Else a book with an error would be taken for one without, and be exported without the record that is at fault."""
    notes = "".join(f"- part: A {n}\n  maker: Velm\n  is: gas-strut\n  note: 0{n}\n" for n in range(5100))
    wrong = "- part: B 1\n  iss: gas-strut\n"
    book = read_book("shop/a.yaml", (wrong + notes if first else notes + wrong).encode(), GRAPH)
    assert len(book.records) == 5100
    assert len(book.diagnostics) == 5000
    assert [d.code for d in book.diagnostics if d.severity is Severity.ERROR] == ["B42-unknown-key"]
    assert "(and 101 further faults" in book.diagnostics[-1].message


SERVED: list[str] = []


class _Server(http.server.BaseHTTPRequestHandler):
    def do_GET(self) -> None:
        SERVED.append(self.path)
        self.send_response(404)
        self.end_headers()

    def log_message(self, *_: object) -> None:
        """Nothing."""


@pytest.fixture
def address() -> Iterator[str]:
    """The address of a server on this machine that notes what is asked for."""
    with http.server.HTTPServer(("127.0.0.1", 0), _Server) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05})
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}"
        server.shutdown()
        thread.join()


CONTEXTS = [
    '{"@context": "%s", "@graph": [{"part": "A 1", "is": "hose"}]}',
    '{"@context": ["https://fitlore.example/context.jsonld", "%s"], "@graph": [{"part": "A 1", "is": "hose"}]}',
    '{"@context": {"@import": "%s"}, "@graph": [{"part": "A 1", "is": "hose"}]}',
    '{"@context": {"part": {"@id": "urn:p", "@context": "%s"}}, "@graph": [{"part": {"a": "b"}}]}',
    '{"@context": "https://fitlore.example/context.jsonld", "@graph": [{"@context": "%s", "part": "A 1", "is": "hose"}]}',
    '{"@context": "https://fitlore.example/context.jsonld", "@graph": [{"part": "A 1", "note": {"@context": "%s"}}]}',
]


@pytest.mark.parametrize("text", CONTEXTS)
@pytest.mark.parametrize("local", [True, False])
def test_no_context_is_ever_fetched(text: str, local: bool, address: str, tmp_path: Path) -> None:
    """A context by its address, wherever JSON-LD 1.1 allows one, is a fault: no server is asked, and no file is opened."""
    SERVED.clear()
    file = tmp_path / "context.jsonld"
    os.mkfifo(file)  # whoever opened it would wait for ever
    where = file.as_uri() if local else f"{address}/context.jsonld"
    data = (text % where).encode()
    found, failed = bounded(
        lambda: len(read_book("shop/a.jsonld", data, GRAPH).diagnostics), seconds=20, patience=2
    )
    assert not failed
    assert found
    assert not read_book("shop/a.jsonld", data, GRAPH).records
    assert SERVED == []


@pytest.mark.parametrize(
    "text",
    [
        '<!DOCTYPE a [<!ENTITY x SYSTEM "%s">]>\n- part: &x;\n',
        "- part: !include %s\n",
        "- part: !!python/object/apply:urllib.request.urlopen ['%s']\n",
        "- part: !<%s> A\n",
    ],
)
def test_no_tag_or_entity_of_yaml_is_followed(text: str, address: str) -> None:
    """Nothing is opened or called, and each is a fault."""
    SERVED.clear()
    book = read_book("shop/a.yaml", (text % address).encode(), GRAPH)
    assert book.diagnostics
    assert not book.records
    assert SERVED == []


def test_a_graph_of_another_book_cannot_be_written_into() -> None:
    """TriG and N-Quads may name any graph: every statement is this book's, and is cited from here."""
    turtle = '[] fl:part "A 1" ; fl:maker "Velm" ; fl:is "gas-strut" .'
    text = f"@prefix fl: <https://fitlore.example/terms#> .\n<https://fitlore.example/book/kb/policy.yaml> {{ {turtle} }}\n"
    book = read_book("club/a.trig", text.encode(), GRAPH)
    (record,) = book.records
    assert record.origin.book == "club/a.trig"
    assert {str(quad.graph_name) for quad in book.source.quads} == {f"<{GRAPH}>"}  # type: ignore[attr-defined]
    line = '_:a <https://fitlore.example/terms#part> "A 1" <https://fitlore.example/book/kb/policy.yaml> .\n'
    book = read_book("club/a.nq", line.encode(), GRAPH)
    assert {d.origin.book for d in book.diagnostics} == {"club/a.nq"}


@pytest.mark.parametrize(
    "name",
    ["doubling (.ttl)", "doubling without end (.ttl)", "a list in itself (.ttl)", "a node in itself (.ttl)"],
)
def test_nodes_without_end_cost_their_record_alone(name: str) -> None:
    """A circle or a bomb of shared nodes is told as one, and the record beside it is kept."""
    ending, made = ALL[name]
    more = b'\n<urn:b> fl:part "B 2" ; fl:maker "Velm" ; fl:is "gas-strut" .\n'
    book = read_book(f"shop/a{ending}", made(5) + more, GRAPH)
    assert "B94-circle" in {d.code for d in book.diagnostics}
    assert "B 2" in {str(getattr(record, "part", "")) for record in book.records}


def test_prefixes_and_bases_mean_what_they_mean_where_they_stand() -> None:
    """Each statement is read by itself with the prefixes it uses: given anew, on a base, in either spelling (Turtle 2.4)."""
    text = (
        '@prefix x: <https://fitlore.example/terms#> .\n[] x:part "A 1" ; x:maker "Velm" ; x:is "hose" .\n'
        'PREFIX x: <urn:other#>\n[] x:part "A 2" .\nBASE <https://fitlore.example/>\n@prefix y: <terms#> .\n'
        '@base <http://a.example/> .\n[] y:part "A 3" ; y:maker "Velm" ; y:is "hose" .\n@base <b/> .\n<c> y:part "A 4" ;\n'
        '  y:maker "Velm" ; y:is "hose" .\n'
    )
    book = read_book("shop/a.ttl", text.encode(), GRAPH)
    assert not book.diagnostics
    assert [dict(said(record)[1])["part"] for record in book.records] == ["A 1", "A 3", "A 4"]
    assert "<http://a.example/b/c>" in {str(q.subject) for q in book.source.quads}  # type: ignore[attr-defined]


@pytest.mark.parametrize("tag", ["en", "de-at", "zh-hant-tw", "de-1996", "es-419", "sl-rozaj"])
def test_languages_that_are_read_can_be_stored(tag: str) -> None:
    """RFC 5646, section 2.1: language, script, region, variant; the examples are from its appendix A."""
    examine("shop/a.yaml", f"- category: hose\n  names: {{{tag}: hose}}\n".encode())
    book = read_book("shop/a.yaml", f"- category: hose\n  names: {{{tag}: hose}}\n".encode(), GRAPH)
    assert "B63-not-a-language" not in {d.code for d in book.diagnostics}


@pytest.mark.parametrize("tag", ["en-se-unit-x", "a-de", "de-419-de", "en-unit-at-de", "de-19961-19961"])
def test_languages_that_no_store_takes_in_are_faults(tag: str) -> None:
    """Such a tag would break the whole snapshot (RFC 5646: ill-formed, or a variant given twice)."""
    book = read_book("shop/a.yaml", f"- category: hose\n  names: {{{tag}: hose}}\n".encode(), GRAPH)
    assert "B63-not-a-language" in {d.code for d in book.diagnostics}
