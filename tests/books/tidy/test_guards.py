"""What tidying refuses, the guards over it, any text at all, and what the program itself writes."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlore.books import tidy as tidying
from fitlore.books.amend import NewItem, NewRecord, Spliced, splice
from fitlore.books.emit import Style, item_lines, tree_of
from fitlore.books.faults import registered, shown
from fitlore.books.reading import read_book
from fitlore.books.schema import KINDS
from fitlore.books.tidy import Tidied, tidy
from fitlore.books.tidy_shape import ranks
from fitlore.model.diagnostic import Diagnostic
from tests.books.test_any_text import BITS, RICH, mangled
from tests.books.tidy.books import GRAPH, refused, text

REFUSED = {
    "anchor": ("- part: &a A 1\n", "T01-faulty-text", "B31-anchor", 1),
    "alias": ("- part: A 1\n  maker: *a\n", "T01-faulty-text", "B32-alias", 2),
    "tag": ("- part: !!str A 1\n", "T01-faulty-text", "B34-tag", 1),
    "second document": ("- part: A 1\n---\n- part: B 1\n", "T01-faulty-text", "B33-second-document", 2),
    "syntax": ("- part: A 1\n  note: @x\n", "T01-faulty-text", "B17-reserved-character", 2),
    "no value": ("- part: A 1\n  note:\n", "T01-faulty-text", "B30-empty-value", 2),
    "brackets": ("# a\n[{part: A 1, is: b}]\n", "T02-not-to-be-tidied", "one list in brackets", 2),
    "mapping": ("shop: lowbarn\n", "T02-not-to-be-tidied", "not a list of records", 1),
    "question mark": ("- part: A 1\n  ? note\n  : n\n", "T02-not-to-be-tidied", "written with `?`", 2),
    "kept lines": ("- part: A 1\n  note: |+\n    a\n\n", "T02-not-to-be-tidied", "(`+`)", 2),
}


@pytest.mark.parametrize("case", REFUSED)
def test_refused_with_the_reason(case: str) -> None:
    """Forms with several readings, faulty texts, and forms whose space cannot be changed are refused at their line."""
    book, code, words, line = REFUSED[case]
    found = refused(book)
    assert (found.code, found.origin.line) == (code, line)
    assert words in found.message
    assert found.excerpt == book.splitlines()[line - 1]


def test_only_yaml_is_tidied() -> None:
    """A book of Turtle is left as it is."""
    assert "only books of YAML" in refused(b"", "shop/x.ttl").message


def test_a_refusal_in_full() -> None:
    """What is there, what was expected, and what to do."""
    assert shown(refused("- part: &a A 1\n")) == (
        "shop/x.yaml:1:9: error: shop/x.yaml was left as it is: `&a` would give this value a name for use elsewhere; "
        "books are read without that (B31-anchor) [T01-faulty-text]\n"
        "    - part: &a A 1\n            ^^\n"
        "  expected: a text that is read as a whole\n  remedy: Put that right first; `check` says how."
    )
    assert {row.code for row in registered("T0")} >= {
        "T01-faulty-text",
        "T02-not-to-be-tidied",
        "T03-would-change",
    }


BOOK = "- part: A 1\n  # one\n  is: b\n  # two\n  note: new\n"
SPOILT = {
    "a comment lost": ("- part: A 1\n  # one\n  is: b\n  note: new\n", "a comment"),
    "comments that changed places": ("- part: A 1\n  # two\n  is: b\n  # one\n  note: new\n", "a comment"),
    "another value": ("- part: A 1\n  # one\n  is: c\n  # two\n  note: new\n", "read otherwise"),
    "a key lost": ("- part: A 1\n  # one\n  # two\n  note: new\n", "read otherwise"),
    "a fault": (
        "- part: A 1\n  # one\n  is: b\n  # two\n  note: new\n  name:\n",
        "hold a fault (B30-empty-value)",
    ),
}


@pytest.mark.parametrize("case", SPOILT)
def test_the_guards_stop_a_spoilt_text(case: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """If writing lost or changed something, the book would be left as it is."""
    spoilt, words = SPOILT[case]
    monkeypatch.setattr(tidying, "lines", lambda root: spoilt.splitlines())
    found = refused(BOOK)
    assert found.code == "T03-would-change"
    assert words in found.message


def test_what_is_amended_stays_tidy() -> None:
    """A record or an item that the program writes into a tidied book is already tidy, in every kind of record there is."""
    reading = read_book("shop/x.yaml", RICH.encode(), GRAPH)
    data = text(RICH).encode()
    for record in reading.records:
        kind = next(kind for kind, struct in KINDS.items() if struct is type(record))
        made = splice("shop/x.yaml", data, [NewRecord(tree_of(record, kind))])
        assert isinstance(made, Spliced)
        assert text(made.data) == made.data.decode()
    assert len({type(record) for record in reading.records}) == len(KINDS)
    added = splice("shop/x.yaml", data, [NewItem((4, "contains"), {"number": "0123", "quantity": 2})])
    assert isinstance(added, Spliced)
    assert text(added.data) == added.data.decode()


def test_what_the_program_writes_by_itself_is_tidy() -> None:
    """A new book made of records, one below the other, is left as it is."""
    reading = read_book("shop/x.yaml", RICH.encode(), GRAPH)
    for record in reading.records:
        kind = next(kind for kind, struct in KINDS.items() if struct is type(record))
        book = "\n".join(item_lines(tree_of(record, kind), 0, Style(), braces=False)) + "\n"
        assert text(book) == book


def test_the_kind_is_first_in_every_struct() -> None:
    """The order of keys begins with the kind."""
    for kind, struct in KINDS.items():
        assert ranks(struct)[kind] == 0
        assert sorted(ranks(struct).values()) == list(range(len(ranks(struct))))


def settled(book: str) -> None:
    """Any text is refused or tidied, never an exception, and a tidied one reads the same and stays."""
    data = book.encode("utf-8", "replace")
    found = tidy("shop/x.yaml", data)
    if isinstance(found, Diagnostic):
        assert found.code.startswith(("T01", "T02"))
        return
    assert yaml.load(found.data, yaml.CBaseLoader) == yaml.load(data, yaml.CBaseLoader)
    again = tidy("shop/x.yaml", found.data)
    assert isinstance(again, Tidied)
    assert again.data == found.data


SMALL = (
    "- part: A 1\n  # c\n  is: b  # d\n  note: |\n    x\n\n    y\n  contains:\n  -   {number: 1, quantity: 2}\n"
    "  - is: x\n    quantity: 2\n# e\n- category: b\n  names: {en-gb: b,\n    de: c}\n"
)


@settings(max_examples=200, deadline=None)
@given(mangled(SMALL))
def test_a_mangled_book_is_tidied_or_refused(book: str) -> None:
    """A small book with stretches of it spoilt."""
    settled(book)


@settings(max_examples=200, deadline=None)
@given(st.lists(BITS, max_size=30).map("".join))
def test_any_heap_of_syntax_is_tidied_or_refused(book: str) -> None:
    """Pieces of YAML syntax in any order."""
    settled("- part: A 1\n" + book)
