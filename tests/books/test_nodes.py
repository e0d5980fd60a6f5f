"""The YAML reader: every scalar is text, every place is known, and one fault costs one record."""

from __future__ import annotations

import gc
from pathlib import Path

import pytest
import yaml

from fitlore.books import catalogue, nodes  # noqa: F401  (the catalogue registers its faults)
from fitlore.books.doc import Doc, Tree
from fitlore.books.nodes import read_nodes, uncollected

HERE = Path(__file__).parent
RICH = HERE / "rich.yaml"


def read(text: str | bytes) -> Doc:
    """A text as a document."""
    return read_nodes("shop/a.yaml", text.encode() if isinstance(text, str) else text)


def codes(doc: Doc) -> list[tuple[str, int, int]]:
    """The faults of a document: code, line and column."""
    return [(d.code[:3], d.origin.line, d.origin.column) for d in doc.found]


def test_every_scalar_is_the_text_that_was_written() -> None:
    """`0123`, `NO`, `12:30:45`, `~`, dates and `1e3` stay text; YAML 1.1 types (yaml.org/type) would change each of them."""
    doc = read("- {a: 0123, b: NO, c: 12:30:45, d: ~, e: 2026-12-03, f: 1e3, g: null, h: 0x1F, 'on': yes}\n")
    assert doc.root == [
        {
            "a": "0123",
            "b": "NO",
            "c": "12:30:45",
            "d": "~",
            "e": "2026-12-03",
            "f": "1e3",
            "g": "null",
            "h": "0x1F",
            "on": "yes",
        }
    ]
    assert not doc.found


@pytest.mark.parametrize(
    "text",
    [
        "- a: one\n  b: [x, 'y', \"z\\u00e9\"]\n- c: {d: e, f: {g: h}}\n",
        "- a: |\n    one\n    two\n\n  b: >-\n    folded\n    text\n- c: plain\n   over lines\n",
        "# comment\n---\n- a: one # comment\n\n  # more\n  b: two\n...\n",
        "[{a: one}, {b: [two, three]}]\n",
        "-   a: one\n    b:\n    - x\n    -   y\n",
        "- a: über\u00a0alles \U0001f600\r\n  b: 'it''s'\r\n",
    ],
)
def test_trees_are_those_of_an_independent_loader(text: str) -> None:
    """Where no type is involved, the tree is that of PyYAML's own composer (BaseLoader)."""
    doc = read(text)
    assert doc.root == yaml.load(text, yaml.BaseLoader)
    assert not doc.found


def places(doc: Doc, tree: Tree) -> list[tuple[str, str]]:
    """Every plain text of a tree with the text that stands at its place."""
    found: list[tuple[str, str]] = []
    if isinstance(tree, dict):
        for key, value in tree.items():
            found.append((key, doc.text[slice(*doc.key_span(tree, key))]))
            found += (
                [(value, doc.text[slice(*doc.value_span(tree, key))])]
                if isinstance(value, str)
                else places(doc, value)
            )
    elif isinstance(tree, list):
        for place, value in enumerate(tree):
            found += (
                [(value, doc.text[slice(*doc.value_span(tree, place))])]
                if isinstance(value, str)
                else places(doc, value)
            )
    return found


@pytest.mark.parametrize("bom", ["", "\ufeff"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_spans_are_where_the_texts_stand(bom: str, end: str) -> None:
    """Start and end of every key and value cut exactly that text out of the book: with CRLF, accents, emoji, and a BOM."""
    lines = ["# é\U0001f600", "- ключ: один", "  b: [x, {c: d}]", "- e:", "    f: g", "    h: i j"]
    doc = read((bom + end.join(lines) + end).encode())
    assert doc.bom == bool(bom)
    assert doc.root is not None
    found = places(doc, doc.root)
    assert len(found) == 11
    assert all(text == written for text, written in found)


def test_lines_and_columns_are_an_editors() -> None:
    """Places count characters from 1; CRLF is one line end; the BOM is no character."""
    doc = read("\ufeff- a: x\r\n  bé: [y,\r\n   z]\r\n".encode())
    assert isinstance(doc.root, list)
    record = doc.root[0]
    assert isinstance(record, dict)
    listed = record["bé"]
    assert isinstance(listed, list)
    assert str(doc.origin(doc.root, 0)) == "shop/a.yaml:1:3"
    assert str(doc.origin(record, "bé")) == "shop/a.yaml:2:3"
    assert doc.value(listed, 1)[:3] == (3, 4, 1)
    assert doc.value(listed, 1).excerpt == "   z]"


def test_a_block_ends_after_its_last_leaf() -> None:
    """Comments and blank lines after a record are not part of it: a new entry belongs before them."""
    doc = read("- a: x\n  b:\n    - y # why\n\n# about the next\n- c: z\n")
    assert isinstance(doc.root, list)
    assert doc.text[: doc.value_span(doc.root, 0)[1]] == "- a: x\n  b:\n    - y"
    assert doc.span(doc.root).flow is False


def test_bytes_that_are_no_text_keep_the_other_records() -> None:
    """A wrong byte in one record is told with its line; the record is spoilt, the others are not."""
    doc = read(b"- a: x\n- a: caf\xe9 \xff\xfe\n- a: y\n")
    assert codes(doc) == [("B01", 2, 9)]
    assert doc.spoilt == {1}
    assert isinstance(doc.root, list)
    assert len(doc.root) == 3


@pytest.mark.parametrize(
    "data", ["- a: x\n".encode("utf-16"), "- a: x\n".encode("utf-16-le"), "- a: x\n".encode("utf-16-be")]
)
def test_utf_16_is_refused(data: bytes) -> None:
    """YAML would take UTF-16 in silence; a book is UTF-8 (as YAML-LD and JSON-LD want it)."""
    doc = read(data)
    assert codes(doc) == [("B02", 1, 1)]
    assert doc.root is None


@pytest.mark.parametrize("char", ["\u0085", "\u2028", "\u2029"])
def test_line_ends_that_editors_do_not_have_are_refused(char: str) -> None:
    """YAML 1.1 ends a line at these three; line numbers after one would be wrong, so the record is refused instead."""
    doc = read(f"- a: x{char}y\n- b: z\n  b: u\n")
    assert codes(doc) == [("B03", 1, 7), ("B37", 3, 3)]
    assert doc.spoilt == {0, 1}


@pytest.mark.parametrize("text", ['- a: "x\\0y"\n', '- a: "\\e[31m"\n', '- a: "x\\u2028y"\n'])
def test_escapes_bring_in_no_control_characters(text: str) -> None:
    """What may not stand in a book may not come in through an escape either: it would reach the terminal."""
    doc = read(text)
    assert codes(doc) == [("B04", 1, 6)]
    assert doc.spoilt == {0}


def test_a_key_that_spells_an_inner_mark_is_a_key() -> None:
    """No text a writer can think of is mixed up with what the reader uses inside."""
    doc = read('- "no key yet": "dropped with its value"\n  b: no key yet\n')
    assert doc.root == [{"no key yet": "dropped with its value", "b": "no key yet"}]
    assert not doc.found


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("- a: &x y\n", [("B31", 1, 6)]),
        ("- a: &x {b: c}\n- d: *x\n", [("B31", 1, 6), ("B32", 2, 6)]),
        ("- *x : b\n", [("B32", 1, 3)]),
        ("- a: !b c\n", [("B34", 1, 6)]),
        ("- a: ! c\n", [("B34", 1, 6)]),
        ("- a: !!set {b: c}\n", [("B34", 1, 6)]),
        ("- <<: {a: b}\n", [("B36", 1, 3)]),
        ("- ? [a, b]\n  : c\n", [("B35", 1, 5)]),
        ("- {[a]: c}\n", [("B35", 1, 4)]),
        ("- ? {a: b}\n  : {c: d}\n  e: f\n", [("B35", 1, 5)]),
        ("- a: b\n  a: c\n", [("B37", 2, 3)]),
        ("- a:\n", [("B30", 1, 3)]),
        ("- a: ''\n", [("B30", 1, 3)]),
        ("- [a, '']\n", [("B30", 1, 7)]),
        ("-\n- a: b\n", [("B30", 1, 2)]),
        ("- a: #x\n", [("B29", 1, 6)]),
        ("- {a: 1,234.50 GBP}\n", [("B25", 1, 9)]),
        ("- {a: works, no leak}\n", [("B25", 1, 14)]),
        ("- {a:1}\n", [("B11", 1, 4)]),
        ("- a: {b}\n", [("B27", 1, 7)]),
        ("- a: b\n---\n- c: d\n", [("B33", 2, 1)]),
    ],
)
def test_what_yaml_allows_and_books_do_not(text: str, wanted: list[tuple[str, int, int]]) -> None:
    """Each is valid YAML 1.1, read elsewhere without a word; each is told with its place, once."""
    assert list(yaml.parse(text)) != []
    assert codes(read(text)) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("maker:Ostra", ("B11", 2, 3)),
        ('note: "never closed', ("B14", 2, 9)),
        ("features: {a: b", ("B19", 2, 13)),
        ("features: [a, b", ("B19", 2, 13)),
        ("features: {a: b c: d}", ("B20", 2, 20)),
        ("  maker: x", ("B21", 2, 5)),
        ("note: one: two", ("B22", 2, 12)),
        ("note: 'it's'", ("B23", 2, 13)),
        ('note: "a" b', ("B23", 2, 13)),
        ("note: @x", ("B17", 2, 9)),
        ("note: `x", ("B17", 2, 9)),
        ("note: %x", ("B17", 2, 9)),
        ('note: "\\q"', ("B15", 2, 10)),
        ("\tnote: x", ("B16", 2, 3)),
        ("maker:\u00a0Ostra", ("B12", 2, 9)),
        ("maker", ("B13", 2, 3)),
        ("note: |x", ("B10", 2, 10)),
    ],
)
def test_a_syntax_error_costs_one_record(text: str, wanted: tuple[str, int, int]) -> None:
    """The error is told where the writer has to look; the records before and after it are read, at their own lines."""
    doc = read(f"- part: A\n  {text}\n  is: b\n\n- part: B\n  is: c\n")
    assert codes(doc)[:1] == [wanted]
    assert isinstance(doc.root, list)
    assert doc.root[-1] == {"part": "B", "is": "c"}
    assert str(doc.origin(doc.root, len(doc.root) - 1)) == "shop/a.yaml:5:3"


def test_a_fault_spoils_its_own_record_only() -> None:
    """Spoilt are the records in which a fault lies, also where the text had to be read piece by piece."""
    assert read("- a: b\n---\n- c: d\n").spoilt == set()
    assert read("- a: b\n- c: &x d\n- e: f\n").spoilt == {1}
    doc = read("- a:b:c\n  d: e\n- f: g\n- h: *x\n- i: 'j\n- k: l\x07\n")
    assert doc.root == [{"f": "g"}, {"h": ""}, {"k": "l\ufffd"}]
    assert doc.spoilt == {1, 2}


def test_seven_records_with_five_errors() -> None:
    """All five errors of different kinds are told, and both sound records are kept (the case of the design paper)."""
    doc = read(
        "- part: A\n- part: B\n  maker:x\n  is: b\n- part: C\n  n: 'it's'\n- part: D\n  n: [a\n- part: E\n"
        "  n: a: b\n- part: F\n\tis: x\n- part: G\n"
    )
    assert [d.code[:3] for d in doc.found] == ["B11", "B23", "B19", "B22", "B16"]
    assert doc.root == [{"part": "A"}, {"part": "G"}]


@pytest.mark.parametrize(
    ("text", "root"), [("", None), ("# only a comment\n", None), ("---\n", None), ("- a: b", [{"a": "b"}])]
)
def test_small_books(text: str, root: Tree | None) -> None:
    """A book without records is no fault, and neither is a missing end of line."""
    doc = read(text)
    assert (doc.root or None) == root
    assert not doc.found


def test_depth_is_refused_not_survived() -> None:
    """A thousand brackets end in a diagnostic, not in the stack."""
    assert [code for code, _, _ in codes(read("- " + "[" * 3000))]


def test_the_cycle_collector_is_as_before() -> None:
    """Reading keeps it quiet and puts it back, also where it was off before."""
    assert gc.isenabled()
    with uncollected():
        assert not gc.isenabled()
        with uncollected():
            pass
        assert not gc.isenabled()
    assert gc.isenabled()


@pytest.mark.parametrize(
    "book", [RICH, *sorted((HERE / "faults").glob("B*.yaml"))], ids=lambda path: path.stem
)
def test_without_the_c_library_everything_is_the_same(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """PyYAML's two parsers, in C and in Python, give one tree, the same spans, and the same faults at the same places."""
    data = book.read_bytes()
    first = read(data)
    monkeypatch.setattr(nodes, "_LOADER", yaml.SafeLoader)
    second = read(data)
    assert second.root == first.root
    assert codes(second) == codes(first)
    assert sorted(second.spans.values()) == sorted(first.spans.values())
