"""Laws of tidying on random small books in ugly spacing. The outside reader is PyYAML: its untyped tree, its YAML 1.1 types,
and the places of its nodes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import yaml
from hypothesis import HealthCheck, given, settings

from fitlore.books.order import ranks
from fitlore.books.schema import KINDS
from fitlore.books.tidy import Tidied, tidy
from tests.books.tidy.ugly import Path, Written, ugly

SHOWN = "shop/x.yaml"
LAW = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])


def done(book: Written) -> Tidied:
    """The tidied book: none of these is refused."""
    found = tidy(SHOWN, book.data)
    assert isinstance(found, Tidied), found
    return found


def text_of(data: bytes) -> str:
    """A book's text with plain ends of line."""
    return data.decode("utf-8-sig").replace("\r\n", "\n")


def untyped(data: bytes) -> Any:
    """The tree as PyYAML reads it, every scalar as text."""
    return yaml.load(data, yaml.CBaseLoader)


@settings(LAW, max_examples=300)
@given(ugly())
def test_nothing_is_said_differently_and_no_comment_is_lost(book: Written) -> None:
    """Another reader finds the same tree; the comments are the same in the same order; mark and ends of line stay."""
    found = done(book)
    assert untyped(found.data) == untyped(book.data)
    assert re.findall(r"# (c\d+)", text_of(found.data)) == book.order
    old, new = (re.findall(r"#\s*c\d+.*", text_of(data)) for data in (book.data, found.data))
    assert [one.rstrip() for one in old] == new
    assert found.data.startswith(b"\xef\xbb\xbf") == book.data.startswith(b"\xef\xbb\xbf")
    windows = b"\r\n" in book.data
    assert found.data.count(b"\n") == found.data.count(b"\r\n") if windows else b"\r" not in found.data


@settings(LAW, max_examples=300)
@given(ugly())
def test_tidying_twice_is_tidying_once(book: Written) -> None:
    """The tidied book is its own tidied book, byte for byte."""
    once = done(book)
    again = tidy(SHOWN, once.data)
    assert isinstance(again, Tidied)
    assert again.data == once.data
    assert len(again.kept) == len(once.kept)


@settings(LAW, max_examples=200)
@given(ugly())
def test_comments_stay_with_their_line(book: Written) -> None:
    """A comment on the line of a key or value is on that line, one above a key or item is above it."""
    data = done(book).data
    text = text_of(data)
    lines = text.split("\n")
    node = yaml.compose(text)
    for name, (kind, path) in book.at.items():
        line = next(place for place, one in enumerate(lines) if re.search(rf"# {name}\b", one))
        key, value = at(node, path)
        if kind in ("above", "value"):
            below = next(place for place in range(line, len(lines)) if is_said(lines[place]))
            begins = (value if kind == "value" or key is None else key).start_mark.line
            alone = re.match(r" *- +#", lines[below])
            assert begins == below or (alone and not any(map(is_said, lines[below + 1 : begins]))), name
        elif kind == "on":
            assert key is not None
            assert key.start_mark.line == line, name
        else:
            assert (value.start_mark if kind == "header" else value.end_mark).line == line, name


def is_said(line: str) -> bool:
    """Whether a line is neither blank nor a comment."""
    return bool(line.strip()) and not line.lstrip().startswith("#")


def at(node: yaml.Node, path: Path) -> tuple[yaml.Node | None, yaml.Node]:
    """The key's node (None for an item) and the value's node at a path."""
    key: yaml.Node | None = None
    for step in path:
        if isinstance(step, int) and isinstance(node, yaml.SequenceNode):
            key, node = None, node.value[step]
        else:
            key, node = next((one, inner) for one, inner in node.value if one.value == step)
    return key, node


@settings(LAW, max_examples=200)
@given(ugly(commented=False))
def test_keys_stand_in_their_order(book: Written) -> None:
    """Without comments every record has its kind first and then the order of `books.order`; unheard-of keys come last.

    Braces over several lines are left as they are.
    """
    found = done(book)
    assert found.kept == ()
    nodes = at(yaml.compose(text_of(found.data)), ())[1].value
    for node, record in zip(nodes, untyped(found.data), strict=True):
        if node.flow_style and node.start_mark.line != node.end_mark.line:
            continue
        kind = next(key for key in record if key in KINDS)
        known = list(ranks(KINDS[kind]))
        assert known[0] == kind
        places = [known.index(key) if key in known else len(known) for key in record]
        assert places == sorted(places)


@settings(LAW, max_examples=200)
@given(ugly())
def test_every_column_is_two_from_the_one_outside(book: Written) -> None:
    """Keys stand two columns right of what holds them; lists two right of their key; nothing is left at the ends of lines."""
    text = text_of(done(book).data)
    root = yaml.compose(text)
    assert isinstance(root, yaml.SequenceNode)
    assert set(columns(root, 0)) <= {True}
    assert not re.search(r"[ \t]$", text, re.MULTILINE)
    assert not re.search(r"\n\n\n|\n\n\Z|\A\n", text)


def columns(node: yaml.Node, expected: int) -> Iterator[bool]:
    """For each block collection whether it begins where it is to begin."""
    if isinstance(node, yaml.ScalarNode) or node.flow_style:
        return
    yield node.start_mark.column == expected
    for one in node.value:
        if isinstance(one, tuple):
            yield one[0].start_mark.column == expected
            yield from columns(one[1], expected + 2)
        else:
            yield from columns(one, expected + 2)


@settings(LAW, max_examples=200)
@given(ugly())
def test_one_blank_line_stands_between_records(book: Written) -> None:
    """Above each record but the first there is a blank line, above its comments or below them."""
    text = text_of(done(book).data)
    lines = text.split("\n")
    for record in at(yaml.compose(text), ())[1].value[1:]:
        dash = next(place for place in range(record.start_mark.line, -1, -1) if lines[place].startswith("-"))
        above = next(
            place for place in range(dash - 1, -1, -1) if is_said(lines[place]) or lines[place][:1] == " "
        )
        assert "" in lines[above + 1 : dash]


@settings(LAW, max_examples=200)
@given(ugly())
def test_text_is_text_to_typed_readers_afterwards(book: Written) -> None:
    """PyYAML's own typed reader (YAML 1.1 types) reads every text as text, and every key too."""
    tree = yaml.safe_load(done(book).data)
    for path in book.texts:
        value = tree
        for step in path:
            value = value[step]
        assert isinstance(value, str), path


def test_few_mappings_keep_their_order() -> None:
    """Of random books with comments less than half hold a mapping that stays out of order; some do."""
    kept: list[bool] = []

    @settings(LAW, max_examples=200, derandomize=True, database=None)
    @given(ugly())
    def count(book: Written) -> None:
        kept.append(bool(done(book).kept))

    count()
    assert 0 < sum(kept) < len(kept) / 2, f"{sum(kept)} of {len(kept)}"
