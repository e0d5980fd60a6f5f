"""Questions in SPARQL: read only, limited, and answered as another program (rdflib, an engine of its own) answers them."""

from __future__ import annotations

import time
import warnings
from collections import Counter
from pathlib import Path

import pyoxigraph
import pytest
import rdflib
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlore.graph.open import open_graph
from fitlore.model.diagnostic import Diagnostic
from fitlore.upkeep.query import Answered, Limits, Term, asked, ready
from fitlore.upkeep.query.asked import read_term
from fitlore.upkeep.query.read_only import as_run, looked_through
from fitlore.upkeep.query.ready import QUESTIONS
from tests.demo.shop import copy_of_the_demo

FL = "PREFIX fl: <https://fitlore.example/terms#>\n"
NOWHERE = "<http://127.0.0.1:9/sparql>"
"""Nobody answers there."""
MORE = """\
- platform: ostra-41
  built: 1986/1990
  maker: Ostra
  assemblies:
    cooling:
      places:
        radiator: {is: radiator, original: OS 2144 0}
        thermostat: {is: thermostat}
"""
"""What the demo has none of: an original on two platforms, a place of which nothing is known."""


KEPT = ("parts-cooling", "parts-transmission", "platforms-ostra")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Some books of the demo (rdflib wants a minute for all of them) and a further platform, to be asked only."""
    folder = copy_of_the_demo(tmp_path_factory.mktemp("asked")).folder
    for path in (folder / "books").rglob("*.yaml"):
        if path.stem.startswith(("parts-", "platforms-")) and path.stem not in KEPT:
            path.unlink()
    (folder / "books" / "more.yaml").write_text(MORE, "utf-8")
    return folder


@pytest.fixture(scope="module")
def elsewhere(shop: Path) -> rdflib.Dataset:
    """The same statements of the shop's own books in rdflib, look-up keys, kinds and lines included."""
    keys = "as-kind|as-shown|as-named|part-key|sells-key|part-category|place-path"
    said = open_graph(shop).facts.answer(
        FL
        + "SELECT ?g ?s ?p ?o WHERE { GRAPH ?g { ?s ?p ?o } "
        + 'FILTER(STRSTARTS(STR(?g), "https://fitlore.example/book/shop/")) '
        + f'FILTER(!STRENDS(STR(?g), "#derived") || REGEX(STR(?p), "terms#({keys})$") || ?p = <https://schema.org/mpn>) }}'
    )
    assert not isinstance(said, bool)
    lines = "".join(f"{s} {p} {o} {g} .\n" for g, s, p, o in said[1])
    found = rdflib.Dataset(default_union=True)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # rdflib's own reader uses what rdflib deprecates
        found.parse(data=lines, format="nquads")
    assert len(found) > 2000
    return found


def answered(folder: Path | None, text: str, limits: Limits | None = None) -> Answered:
    """The answer; a refusal is an error of the test."""
    found = asked(folder, "q.rq", text, limits or Limits())
    assert isinstance(found, Answered), found
    return found


def refused(text: str, limits: Limits | None = None) -> Diagnostic:
    """Why a question is not answered."""
    found = asked(None, "q.rq", text, limits or Limits())
    assert isinstance(found, Diagnostic), found
    return found


NAMES = sorted(path.stem for path in QUESTIONS.glob("*.rq"))


@pytest.mark.filterwarnings("ignore::DeprecationWarning:rdflib.*")
@pytest.mark.parametrize("name", NAMES)
def test_a_ready_question_is_answered_as_rdflib_answers_it(
    name: str, shop: Path, elsewhere: rdflib.Dataset
) -> None:
    """The same rows, none missing and none more, and there are some."""
    one = ready(shop)[0][name]
    found = answered(shop, one.query)
    wanted = elsewhere.query(one.query)
    assert [str(variable) for variable in wanted.vars or ()] == list(found.columns)
    ours = Counter(tuple(_plain(term.value) if term else None for term in row) for row in found.rows)
    theirs = Counter(
        tuple(None if term is None else _plain(str(term)) for term in row)  # type: ignore[union-attr]
        for row in wanted
    )
    assert ours == theirs
    assert found.rows
    assert not found.cut


def _plain(text: str) -> str:
    """Figures as one writes them: `14.40` and `14.4` are one decimal. Lists in one text have no order of their own."""
    try:
        return f"{float(text):.6f}"
    except ValueError:
        return ", ".join(sorted(text.split(", ")))


def test_there_are_ready_questions_enough() -> None:
    """At least ten, each with a title and what it answers."""
    assert len(NAMES) >= 10
    known, wrong = ready(None)
    assert wrong == ()
    assert sorted(known) == NAMES
    assert all(one.title and one.answers for one in known.values())


@pytest.mark.parametrize(
    "name", [name for name in NAMES if "?stands_at" in (QUESTIONS / f"{name}.rq").read_text()]
)
def test_a_line_that_is_told_is_that_of_the_record(name: str, shop: Path) -> None:
    """The book has, at that line, what another column says (its number, or its name at the end of the path)."""
    for row in answered(shop, ready(shop)[0][name].query).rows:
        values = [term.value for term in row if term]
        book, line, _ = values[-1].rsplit(":", 2)
        text = (shop / "books" / book.removeprefix("shop/")).read_text("utf-8").splitlines()[int(line) - 1]
        assert any(value.rpartition("/")[2] in text for value in values[:-1]), (text, values)


def test_a_shop_has_its_own(tmp_path: Path) -> None:
    """A file in `queries`; one without its header is told with its name; of two of one name the shop's goes first."""
    (tmp_path / "queries").mkdir()
    head = "# title: Mine\n# answers: all of it\n"
    (tmp_path / "queries" / "mine.rq").write_text(head + "ASK {}\n", "utf-8")
    (tmp_path / "queries" / "hearsay.rq").write_bytes(head.replace("\n", "\r\n").encode() + b"ASK {}\n")
    (tmp_path / "queries" / "bare.rq").write_text("# title: Bare\nASK {}\n", "utf-8")
    known, (wrong,) = ready(tmp_path)
    assert known["mine"].title == known["hearsay"].title == "Mine"
    assert (wrong.code, wrong.origin.book) == ("U36-not-ready", "queries/bare.rq")


ELSEWHERE = [
    f"SELECT * {{ SERVICE {NOWHERE} {{ ?s ?p ?o }} }}",
    f"SELECT * {{ service silent {NOWHERE} {{ ?s ?p ?o }} }}",
    f"SELECT * {{ {{ SELECT * {{ OPTIONAL {{ SERVICE {NOWHERE} {{ ?s ?p ?o }} }} }} }} }}",
    f"ASK{{SERVICE{NOWHERE}{{?s ?p ?o}}}}",
    f"ASK{{SERVICESILENT {NOWHERE} {{?s ?p ?o}}}}",
    "PREFIX : <http://127.0.0.1:9/>\nASK{SERVICE:sparql{?s ?p ?o}}",
    "PREFIX a: <http://127.0.0.1:9/>\nASK{SERVICE a:sparql {?s ?p ?o}}",
    f"ASK {{ # no more\rSERVICE {NOWHERE} {{ ?s ?p ?o }}\n}}",
    f"ASK {{ # no more\u000d\u000aSERVICE {NOWHERE} {{ ?s ?p ?o }} }}",
    f"ASK {{ \\u0053ERVICE {NOWHERE} {{ ?s ?p ?o }} }}",
    f"ASK {{ \\U00000053ERVICE {NOWHERE} {{ ?s ?p ?o }} }}",
    f'ASK {{ FILTER("\\\\" = "x") SERVICE {NOWHERE} {{ ?s ?p ?o }} FILTER("" = "") }}',
    f"ASK {{ FILTER(1<2)SERVICE{NOWHERE}{{ ?s ?p ?o }} FILTER(2>1) }}",
    f"ASK {{ FILTER EXISTS {{ SERVICE {NOWHERE} {{ ?s ?p ?o }} }} }}",
    "ASK { { ?s ?p ?o } MINUS { SERVICE ?o { ?s ?p ?o } } }",
]


@pytest.mark.parametrize("text", ELSEWHERE)
def test_nobody_else_is_asked(text: str) -> None:
    """SERVICE in any depth and spelling is refused before anything is run, with its place (the store would ask: tried below)."""
    found = refused(text)
    assert found.code == "U32-asks-elsewhere"
    assert found.excerpt[found.origin.column - 1 :].upper().startswith("SERVICE")


PIECES = [
    "SERVICE", "service", "SILENT", NOWHERE, "?s", "{ ?s ?p ?o }", "{", "}", "# x", "#", "\n", "\r", "'", '"', "\'\'\'", "\\",
    "\\u0027", "\\u0053", "<", ">", "a:b", ":", "FILTER(", ")", "=", "1", ".", "OPTIONAL", "UNION", " ", "@en", "^^", "_:b",
]  # fmt: skip
some = st.lists(st.sampled_from(PIECES), max_size=5).map("".join)


@settings(max_examples=300, deadline=None)
@given(
    before=some,
    gap=st.sampled_from(["", " ", "\t", "SILENT ", "\r", "#\r"]),
    after=some,
    at=st.sampled_from([NOWHERE, "?s", ":s"]),
)
def test_whatever_may_run_asks_nobody(before: str, gap: str, after: str, at: str) -> None:
    """The store itself is the judge: run by it on nothing, a text that passed never tries to reach another machine.

    It refuses port 9 by itself, with an OSError, before any connection.
    """
    text = as_run(
        f"PREFIX : <http://127.0.0.1:9/> PREFIX a: <http://127.0.0.1:9/> ASK {{ {before}SERVICE{gap}{at} {{ ?s ?p ?o }}{after} }}"
    )
    if looked_through("q.rq", text) is True:
        pyoxigraph.Store().query(text)


HARMLESS = [
    'ASK { FILTER("SERVICE <http://x> { }" != "") }',
    "ASK { FILTER('''it's SERVICE <http://x> { }''' != '') }",
    "ASK { FILTER('\\'SERVICE <http://x> {' != '') }",
    "ASK { # SERVICE <http://x> { }\n}",
    "ASK { FILTER(<http://service.example/#SERVICE> = <http://service.example/#SERVICE>) }",
    "PREFIX service: <http://x/> ASK { FILTER(service:SERVICE = service:SERVICE) }",
    "SELECT (1 AS ?service) { FILTER(true) }",
    "PREFIX x: <http://x/> ASK { FILTER(x:a-service = x:a-service) }",
    "ASK { FILTER(1 < 2 && 3 > 2) # a < b\n}",
]


@pytest.mark.parametrize("text", HARMLESS)
def test_the_word_alone_does_no_harm(text: str) -> None:
    """In texts, comments, addresses, names of variables and behind a prefix it is no question to anybody; all are true."""
    found = answered(None, text)
    assert found.said or found.rows


def test_the_store_by_itself_would_ask_elsewhere() -> None:
    """Why it is refused: asked without the look, the store tries to reach the other machine (nobody answers there)."""
    facts = open_graph(None).facts
    with pytest.raises(OSError, match="9"):
        facts.answer(ELSEWHERE[3])


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("INSERT DATA { <a:b> <a:c> 1 }", "INSERT"),
        ("PREFIX insert: <http://x/>\n delete where { ?s ?p ?o }", "DELETE"),
        ("# SELECT\nLOAD <http://127.0.0.1:9/x>", "LOAD"),
        ("WITH <a:b> DELETE { ?s ?p ?o } WHERE { ?s ?p ?o }", "WITH"),
        ("CLEAR ALL", "CLEAR"),
        ("DROP ALL", "DROP"),
        ("COPY DEFAULT TO <a:b>", "COPY"),
    ],
)
def test_nothing_is_changed(text: str, word: str) -> None:
    """An update is refused by its first word, at its place."""
    found = refused(text)
    assert found.code == "U31-would-change"
    assert f"`{word}`" in found.message
    assert found.excerpt[found.origin.column - 1 :].upper().startswith(word)


def test_an_update_behind_a_question_is_none() -> None:
    """`SELECT ...; DROP ALL` is no SPARQL, and is refused as that."""
    found = refused("SELECT * { ?s ?p ?o } ; DROP ALL")
    assert (found.code, found.origin.line) == ("U30-not-sparql", 1)
    assert "stop at" in found.message


@pytest.mark.parametrize("word", ["CONSTRUCT", "DESCRIBE"])
def test_statements_are_exported_not_asked_for(word: str) -> None:
    """There is no table of them."""
    body = "<a:b>" if word == "DESCRIBE" else "{ ?s ?p ?o } WHERE { ?s ?p ?o }"
    assert refused(f"{word} {body}").code == "U33-not-a-table"


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [
        ("SELECT ?x { GRAF ?g {} }", 1, 21),
        ("SELECT ?x\nWHERE { ?x ?y }", 2, 15),
        ("SELECT ?x {\n\n", 1, 11),
        ("", 1, 1),
        (FL + "SELECT ?x { ?x ex:y ?z }", 2, 21),
    ],
)
def test_what_is_no_sparql_says_where(text: str, line: int, column: int) -> None:
    """Line and column at which the store's reader stops, at the fault or just behind it."""
    found = refused(text)
    assert (found.code, found.origin.line, found.origin.column) == ("U30-not-sparql", line, column)


def test_a_later_sparql_is_refused_even_where_the_store_could() -> None:
    """What the second reader does not understand has not been looked through."""
    found = refused("SELECT * { ?s ?p ?o . LATERAL { SELECT * { ?s ?q ?r } LIMIT 1 } }")
    assert found.code == "U30-not-sparql"


def test_brackets_without_end_are_refused() -> None:
    """Neither reader breaks on them."""
    assert refused("ASK " + "{" * 4000 + "}" * 4000).code == "U30-not-sparql"


def test_a_question_is_stopped_when_its_time_is_over() -> None:
    """A product of everything with everything: it ends soon after its second, and no process is left."""
    begun = time.monotonic()
    found = refused("SELECT (COUNT(*) AS ?n) { ?a ?b ?c . ?d ?e ?f . ?g ?h ?i }", Limits(seconds=1))
    assert found.code == "U34-took-too-long"
    assert time.monotonic() - begun < 30


def test_no_more_rows_than_allowed(shop: Path) -> None:
    """The limit is said to be reached only where there are more, and a question without end gives its first rows at once."""
    text = FL + "SELECT ?n { [] fl:car ?n } ORDER BY ?n"
    whole = answered(shop, text)
    cars = len(whole.rows)
    assert (answered(shop, text, Limits(rows=cars)).cut, whole.cut) == (False, False)
    some = answered(shop, text, Limits(rows=cars - 1))
    assert some.cut
    assert some.rows == whole.rows[:-1]
    endless = answered(None, "SELECT ?a { ?a ?b ?c . ?d ?e ?f . ?g ?h ?i }", Limits(seconds=20, rows=10))
    assert (len(endless.rows), endless.cut) == (10, True)


def test_what_books_say_is_apart_from_what_was_derived(shop: Path) -> None:
    """A plain pattern sees written statements alone; GRAPH reaches each book and what was derived from it."""
    assert answered(shop, FL + "ASK { ?s fl:as-read ?o }").said is False
    assert answered(shop, FL + 'ASK { GRAPH ?g { ?s fl:as-kind "car" } }').said is True
    said = answered(shop, FL + 'SELECT ?g { GRAPH ?g { [] fl:car "green" } }')
    assert said.rows == ((Term("uri", "https://fitlore.example/book/shop/cars.yaml"),),)
    named = answered(
        shop, FL + 'ASK FROM <https://fitlore.example/book/shop/jobs.yaml> { [] fl:car "green" }'
    )
    assert isinstance(named.said, bool)


@pytest.mark.parametrize(
    ("text", "term"),
    [
        ("<a:b>", Term("uri", "a:b")),
        ("_:b0", Term("bnode", "b0")),
        ('"x\\ty\\"\\u00e9"@en-GB', Term("literal", 'x\ty"é', "en-GB")),
        ('"1"^^<http://www.w3.org/2001/XMLSchema#integer>', Term("literal", "1", "", "http://www.w3.org/2001/XMLSchema#integer")),
        ("", None),
    ],
)  # fmt: skip
def test_terms_are_read(text: str, term: Term | None) -> None:
    """Each form of a term of N-Triples."""
    assert read_term(text) == term
