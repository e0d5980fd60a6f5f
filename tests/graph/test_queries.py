"""The named queries keep to the subset that every SPARQL 1.1 store answers alike, and say what they answer."""

from __future__ import annotations

import re
from pathlib import Path

import msgspec
import pytest

from fitlore.books.iris import TERMS as NAMESPACE
from fitlore.graph import asking, derive, work
from fitlore.graph import open as opened
from fitlore.graph.named import QUERIES, nodes_text, query_text
from fitlore.graph.store import MOST_ROWS, Facts, Layer, in_memory
from fitlore.model.category import Category
from fitlore.model.part import Part
from fitlore.model.record import Name, Number, Rec

ALL = sorted(Path(QUERIES).glob("*.rq"))
TERM = re.compile(r"fl:([a-z-]+)")


def body(path: Path) -> str:
    """A query without its comments."""
    return "\n".join(line for line in path.read_text("utf-8").splitlines() if not line.startswith("#"))


def test_there_are_queries() -> None:
    """The other tests of this file look at something."""
    assert len(ALL) >= 20


@pytest.mark.parametrize("path", ALL, ids=[path.stem for path in ALL])
def test_a_query_says_what_it_answers_and_its_columns(path: Path) -> None:
    """The header is a question, the column it is given, and the columns it gives, which are those selected."""
    question, given, gives = path.read_text("utf-8").splitlines()[:3]
    assert question.startswith("# ")
    assert question.endswith("?")
    assert re.fullmatch(r"# in: \?key .+", given)
    assert gives.startswith("# out: ")
    (selected,) = re.findall(r"SELECT ([?a-z ]+) WHERE", body(path))
    assert re.findall(r"\?[a-z]+", gives) == selected.split() == ["?key", "?node", "?kind", "?record"]


@pytest.mark.parametrize("path", ALL, ids=[path.stem for path in ALL])
def test_a_query_keeps_to_the_subset_that_all_stores_answer(path: Path) -> None:
    """VALUES first, one GRAPH block that is always written, no path of any length, no ordering, no limit."""
    text = body(path)
    assert re.search(r"WHERE \{\s*VALUES \(\?key\) \{ \}\s*GRAPH \?g \{", text)
    assert len(re.findall(r"\bGRAPH\b", text)) == 1
    assert not re.search(r"\b(OPTIONAL|UNION|ORDER|LIMIT|OFFSET|DISTINCT|SERVICE|FILTER|BIND)\b", text)
    assert not re.search(r"fl:[a-z-]+[*+?|/]|\^", text)
    assert f"PREFIX fl: <{NAMESPACE}>" in text


@pytest.mark.parametrize("path", ALL, ids=[path.stem for path in ALL])
def test_a_query_asks_only_for_terms_that_are_derived(path: Path) -> None:
    """Every term of it is in the table of derived terms."""
    assert set(TERM.findall(body(path))) <= derive.TERMS.keys()


@pytest.mark.parametrize("path", ALL, ids=[path.stem for path in ALL])
def test_a_query_asked_for_nodes_asks_for_nothing_else(path: Path) -> None:
    """It gives the key and the node, and looks at one statement of it."""
    text = nodes_text(path.stem)
    assert "SELECT ?key ?node WHERE" in text
    assert re.search(r"GRAPH \?g \{\s*\?node fl:[a-z-]+ \?key \.\s*\}", text)


def test_nodes_alone_are_those_of_the_rows_and_say_the_same() -> None:
    """Key by key the same nodes as the whole rows have, and the same record for each; an unknown node is a KeyError."""
    parts = [Part(part=Number(f"TC {at}"), is_=Name("horn"), maker="Tarn") for at in range(7)]
    facts = Facts([Layer(in_memory(derive.derive("test:book", parts)))])
    keys = [f"TC{at}" for at in range(5)] + ["TARNTC6", "TC99"]
    rows = facts.run("parts", keys)
    assert len(rows) == 6
    assert sorted(facts.nodes("parts", keys)) == sorted((row.key, row.node) for row in rows)
    assert [facts.said(row.node) for row in rows] == [row.record for row in rows]
    assert {derive.kind_in(row.node) for row in rows} == {"part"}
    with pytest.raises(KeyError):
        facts.said("test:book#part.99")
    assert facts.over([], ["test:book"], tuple).nodes("parts", keys) == []


def test_every_query_is_asked_by_somebody() -> None:
    """No query is left over, and none is asked for that is not there."""
    source = "".join(
        Path(module.__file__).read_text("utf-8") for module in (asking, opened, work) if module.__file__
    )
    named = set(
        re.findall(
            r'"([a-z_]+)", (?:\[|keys|names|categories|tails|assemblies|self|frontier|platforms)', source
        )
    )
    assert named == {path.stem for path in ALL}


def test_an_unknown_query_is_a_fault_of_the_program() -> None:
    """It raises KeyError, whatever the store."""
    with pytest.raises(KeyError):
        query_text("no-such-query")


def test_derived_terms_are_no_keys_of_books() -> None:
    """A derived statement can never be taken for a written one: no key that people write is a derived term."""
    written: set[str] = set()
    todo: list[type] = list(Rec.__subclasses__())
    while todo:
        struct = todo.pop()
        todo += struct.__subclasses__()
        written |= {field.encode_name for field in msgspec.structs.fields(struct)}
    assert {"part", "is", "only-if"} <= written
    assert not written & derive.TERMS.keys()
    assert all(derive.TERMS.values())


def test_more_keys_than_a_query_may_have_are_asked_in_several() -> None:
    """1,301 keys give 1,301 answers, though a query has at most 500 rows."""
    many = [Category(category=Name(f"c{number}")) for number in range(2 * MOST_ROWS + 301)]
    facts = Facts([Layer(in_memory(derive.derive("test:book", many)))])
    rows = facts.run("named", [f"category {category.category}" for category in many])
    assert len({row.key for row in rows}) == len(rows) == len(many)


@pytest.mark.parametrize("name", ['a"b', "a\\b", "a\nb", "a}b", "?key", "ß{ } µ", "a\u2028b"])
def test_any_text_is_a_key_and_none_is_part_of_a_query(name: str) -> None:
    """What people type is passed as a literal: it finds exactly itself."""
    facts = Facts([Layer(in_memory(derive.derive("test:book", [Category(category=Name(name))])))])
    assert [row.key for row in facts.run("named", [f"category {name}", "category x"])] == [f"category {name}"]
