"""`books query` from the command line: where a question comes from, the W3C's forms of results, limits and exit codes."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pyoxigraph
import pytest
from rdflib.query import Result

from tests.demo.shop import Shop

FL = "PREFIX fl: <https://fitlore.example/terms#>\n"
ALL_SORTS = """\
SELECT ?a ?b ?c {
  VALUES (?a ?b ?c) {
    (1 "two, with a \\"comma\\"" <https://fitlore.example/terms#part>)
    (1.50 "drei"@de "fünf\\nund mehr")
    ("2026-12-03"^^<http://www.w3.org/2001/XMLSchema#date> UNDEF "=1+1")
    (true "" UNDEF)
  }
}
"""
"""Every kind of value but nodes without a name."""


def stored(text: str) -> pyoxigraph.QuerySolutions:
    """The same question, answered and written by pyoxigraph's own writers of results."""
    found = pyoxigraph.Store().query(text)
    assert isinstance(found, pyoxigraph.QuerySolutions)
    return found


def test_the_json_is_the_w3cs(asked: Shop) -> None:
    """Word for word what pyoxigraph writes, and rdflib reads it (SPARQL 1.1 Query Results JSON Format, W3C 2013)."""
    said = asked.call("books", "query", "-", "--json", stdin=ALL_SORTS)
    assert (said.code, said.err) == (0, "")
    wanted = stored(ALL_SORTS).serialize(format=pyoxigraph.QueryResultsFormat.JSON)
    assert wanted is not None
    assert _plain_strings(said.json) == _plain_strings(json.loads(wanted))
    read = Result.parse(io.BytesIO(said.out.encode()), format="json")
    assert [str(one) for one in read.vars or ()] == ["a", "b", "c"]
    assert len(read.bindings) == 4


def _plain_strings(found: object) -> object:
    """RDF 1.1: a text without a language is an xsd:string, written or not."""
    if isinstance(found, dict):
        return {
            key: _plain_strings(value)
            for key, value in found.items()
            if (key, value) != ("datatype", "http://www.w3.org/2001/XMLSchema#string")
        }
    return [_plain_strings(one) for one in found] if isinstance(found, list) else found


def test_the_csv_is_the_w3cs(asked: Shop) -> None:
    """Byte for byte what pyoxigraph writes (SPARQL 1.1 Query Results CSV and TSV Formats, W3C 2013); rdflib reads it."""
    said = asked.call("books", "query", "-", "--csv", stdin=ALL_SORTS)
    wanted = stored(ALL_SORTS).serialize(format=pyoxigraph.QueryResultsFormat.CSV)
    assert wanted is not None
    assert said.out.replace("\r\n", "\n") == wanted.decode().replace("\r\n", "\n")
    assert len(Result.parse(io.BytesIO(said.out.encode()), format="csv").bindings) == 4


def test_a_yes_or_no(asked: Shop) -> None:
    """In words, as JSON and as CSV; the exit code says it too."""
    yes, no = FL + 'ASK { [] fl:car "green" }', FL + 'ASK { [] fl:car "purple" }'
    assert asked.call("books", "query", "-", stdin=yes) == (0, "yes\n", "")
    assert asked.call("books", "query", "-", stdin=no) == (1, "no\n", "")
    said = asked.call("books", "query", "-", "--json", stdin=no)
    assert (said.code, said.json) == (1, {"head": {}, "boolean": False})
    assert asked.call("books", "query", "-", "--csv", stdin=yes).out.split() == ["said", "true"]


def test_the_ready_ones_are_listed_shown_and_asked(asked: Shop) -> None:
    """What is shown can be asked from a file or a pipe, and gives the same."""
    listed = asked.call("books", "query")
    names = [row.split()[0] for row in listed.out.splitlines()]
    assert names == [one["name"] for one in asked.call("books", "query", "--json").json["ready"]]
    assert len(names) >= 10
    text = asked.call("books", "query", "--show", "weak-points").out
    said = asked.call("books", "query", "weak-points")
    assert (said.code, said.err) == (0, "")
    assert asked.call("books", "query", "--ready", "weak-points") == said
    assert asked.call("books", "query", "-", stdin=text) == said
    assert said.out.splitlines()[-1] == "15 rows"


def test_a_file_and_a_ready_question_of_ones_own(shop: Shop) -> None:
    """From a file; from `queries`; a file named like a ready question is asked which is meant."""
    text = (
        "# title: Cars\n# answers: the cars there are\n"
        + FL
        + "SELECT ?car { [] fl:car ?car } ORDER BY ?car\n"
    )
    (shop.folder / "mine.rq").write_text("\ufeff" + text.replace("\n", "\r\n"), "utf-8")
    (shop.folder / "queries").mkdir()
    (shop.folder / "queries" / "cars.rq").write_text(text, "utf-8")
    from_file = shop.call("books", "query", "mine.rq")
    assert from_file.out.splitlines()[:2] == ["car", "blue-forty"]
    assert shop.call("books", "query", "cars") == from_file
    assert "cars              Cars (your own)" in shop.call("books", "query").out
    (shop.folder / "cars").write_text(text, "utf-8")
    both = shop.call("books", "query", "cars")
    assert (both.code, both.out) == (2, "")
    assert "say ./cars or --ready cars" in both.err
    assert shop.call("books", "query", "./cars") == from_file
    (shop.folder / "queries" / "bare.rq").write_text("ASK {}\n", "utf-8")
    assert "queries/bare.rq:1:1: error: " in shop.call("books", "query").err


def test_that_there_are_more_rows_is_said(asked: Shop) -> None:
    """The rows come, the note is on the other stream, and the exit code is no yes."""
    said = asked.call("books", "query", "weak-points", "--rows", "3", "--csv")
    assert said.code == 2
    assert len(said.out.splitlines()) == 4
    assert said.err == "note: only the first 3 rows are shown; --rows N shows more\n"
    assert (
        "the first 3 rows; there are more" in asked.call("books", "query", "weak-points", "--rows", "3").out
    )


@pytest.mark.parametrize("width", ["40", "60", "80", "120"])
def test_a_table_degrades(width: str, asked: Shop) -> None:
    """Side by side where there is room, else a block for each row; no word is lost, no line too long but for one word."""
    whole = asked.call("books", "query", "weak-points", COLUMNS="300").out
    said = asked.call("books", "query", "weak-points", COLUMNS=width).out
    words = [word for word in whole.split() if word not in ("platform", "at", "how", "often", "look")]
    assert set(words) <= set(said.split())
    assert max(map(len, said.splitlines())) <= int(width)
    assert "\x1b" not in said


@pytest.mark.parametrize(
    ("words", "stdin", "says"),
    [
        (("none.rq",), "", "none.rq: no such file"),
        (("hearsy",), "", "did you mean hearsay"),
        (("-", "--ready", "hearsay"), "", "one question at a time"),
        (("hearsay", "--csv", "--json"), "", "say --csv or --json"),
        (("-",), "DROP ALL", "U31-would-change"),
        (("-",), "SELECT * { SERVICE <http://127.0.0.1:9/> { } }", "standard input:1:12: error"),
        (
            ("-", "--seconds", "0.3"),
            "SELECT (COUNT(*) AS ?n) { ?a ?b ?c . ?d ?e ?f . ?g ?h ?i }",
            "within 0.3 s",
        ),
    ],
)
def test_what_cannot_be_asked_is_said(words: tuple[str, ...], stdin: str, says: str, asked: Shop) -> None:
    """Exit 2, the reason on standard error; nothing on the other stream unless JSON was asked for."""
    said = asked.call("books", "query", *words, stdin=stdin)
    assert (said.code, "--json" in words or said.out == "") == (2, True)
    assert says in said.err


def test_without_a_shop_the_built_in_books_answer(tmp_path: Path) -> None:
    """They have their own: kinds of part under the kind asked for."""
    text = FL + 'SELECT ?kind { [] fl:category ?kind ; fl:broader "switch" }'
    folder = tmp_path / "nowhere"
    folder.mkdir()
    said = Shop(folder).call("books", "query", "-", "--json", stdin=text)
    assert said.code == 0
    assert {"kind"} == set(said.json["head"]["vars"])
    assert said.json["results"]["bindings"]
