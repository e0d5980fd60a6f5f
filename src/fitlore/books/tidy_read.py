"""A book's text into its layout: every comment and blank line goes to the entry it stands above, on, or behind."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator
from typing import Final

from fitlore.books.doc import Doc, Holder, Tree
from fitlore.books.emit import quoted
from fitlore.books.tidy_gaps import HEADER, Mark, Unusual, comments, marks
from fitlore.books.tidy_layout import Block, Entry, Leaf, Note
from fitlore.books.tidy_shape import Shape, needs_quotes, rank, record_shape, typed_elsewhere, under, value_at

_EOL: Final = re.compile(r"\r\n|\n|\r")
_FILLED: Final = re.compile(r"(?<=[\r\n])( *)[^ \r\n]")


def layout(doc: Doc) -> Block:
    """The layout of a book that is a list of records. Raises Unusual for a form that tidying does not know."""
    assert isinstance(doc.root, list)
    reader = _Reader(doc)
    root = reader.items(doc.root, None, threshold=0)
    if reader.pending:
        raise Unusual("this is neither a record nor a comment", reader.pending[0].at)
    return root


class _Reader:
    """Goes over the text once; `pending` is what stands before the next key or value."""

    def __init__(self, doc: Doc) -> None:
        self.doc = doc
        self.text = doc.text
        self.comments = [index for index, _ in comments(doc)]
        self.spans = list(self._tokens(doc.root))
        self.place = 0
        self.pending = marks(self.text, 0, self.spans[0][0], 0)

    def _tokens(self, tree: Tree | None) -> Iterator[tuple[int, int]]:
        """The places of keys and leaves, in the order of the text."""
        assert isinstance(tree, list | dict)
        for key, value in _entries(tree):
            if isinstance(tree, dict):
                yield self.doc.key_span(tree, key)
            if isinstance(value, str) or self.doc.flow(value):
                yield self._leaf_span(tree, key)
            else:
                yield from self._tokens(value)

    def _leaf_span(self, holder: Holder, key: str | int) -> tuple[int, int]:
        """Where a leaf is; a block text without the end of its last line and the empty lines below it."""
        start, end = self.doc.value_span(holder, key)
        if HEADER.match(self.text, start):
            breaks = list(_EOL.finditer(self.text, start, end))
            margin = min((len(one[1]) for one in _FILLED.finditer(self.text, start, end)), default=0)
            while breaks and not self.text[breaks[-1].end() : end][margin:].strip("\r\n"):
                end = breaks.pop().start()
        return start, end

    def _column(self, index: int) -> int:
        return self.doc.at(index)[1] - 1

    def _pass(self) -> tuple[int, int]:
        """Goes past the next key or leaf. Raises Unusual where something else is still before it."""
        if self.pending:
            raise Unusual("a key or a value is expected here", self.pending[0].at)
        start, end = self.spans[self.place]
        self.place += 1
        following = self.spans[self.place][0] if self.place < len(self.spans) else len(self.text)
        self.pending = marks(self.text, end, following, self._column(end))
        return start, end

    def _expect(self, kind: str) -> Mark:
        if not self.pending or self.pending[0].kind != kind:
            at = self.pending[0].at if self.pending else self.spans[min(self.place, len(self.spans) - 1)][0]
            raise Unusual(f"`{kind}` is expected here", at)
        return self.pending.pop(0)

    def _lead(self) -> list[str]:
        """Comments and blank lines that stand before the next thing."""
        found = []
        while self.pending and self.pending[0].own and self.pending[0].kind in ("#", "blank", "line"):
            found.append(self.pending.pop(0).text)
        return found

    def _note(self) -> Note | None:
        if self.pending and self.pending[0].kind == "#" and not self.pending[0].own:
            mark = self.pending.pop(0)
            return Note(mark.text, mark.column)
        return None

    def _tail(self, threshold: int) -> list[str]:
        """Comments that follow and are indented at least so far, with the blank lines between them."""
        found: list[str] = []
        while True:
            ahead = next((i for i, mark in enumerate(self.pending) if mark.kind != "blank"), -1)
            mark = self.pending[ahead] if ahead >= 0 else None
            if mark is None or mark.kind not in ("#", "line") or not mark.own or mark.column < threshold:
                return found
            found += [one.text for one in self.pending[: ahead + 1]]
            del self.pending[: ahead + 1]

    def items(self, items: list[Tree], shape: Shape | None, *, threshold: int) -> Block:
        """A list written over lines; without a shape its items are records."""
        entries = []
        for place, item in enumerate(items):
            lead, dash = self._lead(), self._expect("-")
            note = self._note()
            inner = record_shape(item) if shape is None else shape
            value = self._value(items, place, inner, dash.column, threshold=dash.column + 1)
            tail = self._tail(dash.column + 1) if isinstance(value, Leaf) else []
            entries.append(Entry("", "", dash.column, lead, note, value, tail))
        tail = self._tail(threshold)
        if shape is None:
            while self.pending and self.pending[-1].kind == "blank":
                self.pending.pop()
        return Block(entries, shape or Shape(), self.doc.origin(items), tail)

    def _mapping(self, mapping: dict[str, Tree], shape: Shape, *, threshold: int) -> Block:
        entries = []
        for key, value in mapping.items():
            lead = self._lead()
            start, _ = self._pass()
            column = self._column(start)
            self._expect(":")
            note = self._note()
            least = column + 1 if isinstance(value, str) else max(column + 1, self._start_column(value))
            inner = self._value(mapping, key, under(shape, key), column, threshold=least)
            entries.append(Entry(self._key_text(mapping, key), key, column, lead, note, inner))
        return Block(entries, shape, self.doc.origin(mapping), self._tail(threshold))

    def _start_column(self, holder: Holder) -> int:
        return self._column(self.doc.span(holder).start)

    def _value(
        self, holder: Holder, key: str | int, shape: Shape, base: int, *, threshold: int
    ) -> Leaf | Block:
        value = value_at(holder, key)
        if isinstance(value, str) or self.doc.flow(value):
            return self._leaf(holder, key, shape, base)
        if isinstance(value, list):
            return self.items(value, shape, threshold=threshold)
        return self._mapping(value, shape, threshold=threshold)

    def _key_text(self, holder: dict[str, Tree], key: str) -> str:
        start, end = self.doc.key_span(holder, key)
        plain = self.text[start] not in ("'", '"')
        return quoted(key) if plain and typed_elsewhere(key) else self.text[start:end]

    def _leaf(self, holder: Holder, key: str | int, shape: Shape, base: int) -> Leaf:
        above = [line for line in self._lead() if line]
        start, end = self._pass()
        value = value_at(holder, key)
        header = HEADER.match(self.text, start)
        if header:
            lines, insets = self._block_text(header, end, base)
        elif not _EOL.search(self.text, start, end):
            lines, insets = [self._one_line(holder, key, shape)], [0]
        elif isinstance(value, str):
            quotes = needs_quotes(self.doc, holder, key, shape)
            lines, insets = ([quoted(value)], [0]) if quotes else _folded(self.text[start:end])
        else:
            lines, insets = _brackets(self._as_is(value, shape), base)
        commented = bisect_left(self.comments, start) < bisect_left(self.comments, end)
        return Leaf(lines, insets, self._column(start), above, self._note(), commented)

    def _block_text(self, header: re.Match[str], end: int, base: int) -> tuple[list[str], list[int]]:
        """A text after `|` or `>`: its header and its lines without the margin of the text."""
        if "+" in header[2]:
            why = "the empty lines below this text belong to it (`+`), so space cannot be put there"
            raise Unusual(why, header.start())
        signs, note = header[1] + header[2], header[3] or ""
        gap = " " * (len(header[0]) - len(signs) - len(note)) if note else ""
        if end == len(self.text) and "-" not in signs:
            signs += "-"  # no end of line follows, so none belongs to the text, but one will stand behind it
        first = signs + gap + note.rstrip(" \t")
        lines = _EOL.split(self.text[header.end() : end])[1:]
        figure = header[2].strip("-")
        filled = next((line for line in lines if line.strip(" ")), "")
        margin = base + int(figure) if figure else len(filled) - len(filled.lstrip(" "))
        inset = int(figure) if figure else 2
        rest = [line[margin:] for line in lines]
        return [first, *rest], [0, *(inset if line else -1 for line in rest)]

    def _one_line(self, holder: Holder, key: str | int, shape: Shape) -> str:
        """A scalar as it stands, or a collection in brackets with its keys in order."""
        value = value_at(holder, key)
        if isinstance(value, str):
            start, end = self.doc.value_span(holder, key)
            return quoted(value) if needs_quotes(self.doc, holder, key, shape) else self.text[start:end]
        if isinstance(value, list):
            return f"[{', '.join(self._one_line(value, i, shape) for i in range(len(value)))}]"
        keys = sorted(value, key=lambda one: rank(shape, one))
        pairs = (
            f"{self._key_text(value, one)}: {self._one_line(value, one, under(shape, one))}" for one in keys
        )
        return f"{{{', '.join(pairs)}}}"

    def _as_is(self, holder: Holder, shape: Shape) -> str:
        """Brackets over several lines as they stand, with quotes where they are needed."""
        start, end = self.doc.span(holder).start, self.doc.span(holder).end
        made, at = "", start
        for low, high, text in self._quotes(holder, shape):
            made, at = made + self.text[at:low] + text, high
        return made + self.text[at:end]

    def _quotes(self, holder: Holder, shape: Shape) -> Iterator[tuple[int, int, str]]:
        """The places inside brackets that need quotes, with the quoted text, in order."""
        for key, value in _entries(holder):
            inner = shape if isinstance(key, int) else under(shape, key)
            if isinstance(holder, dict) and isinstance(key, str):
                text = self._key_text(holder, key)
                start, end = self.doc.key_span(holder, key)
                if text != self.text[start:end]:
                    yield start, end, text
            if not isinstance(value, str):
                yield from self._quotes(value, inner)
            elif needs_quotes(self.doc, holder, key, inner):
                yield *self.doc.value_span(holder, key), quoted(value)


def _entries(holder: Holder) -> Iterable[tuple[str | int, Tree]]:
    """Keys or places with their values, in the order of the text."""
    return holder.items() if isinstance(holder, dict) else enumerate(holder)


def _folded(text: str) -> tuple[list[str], list[int]]:
    """A plain or quoted text over several lines; what is blank at the ends of its lines says nothing, but for `\\ `."""
    lines = _EOL.split(text)
    if not text.startswith('"'):
        lines = [line.rstrip(" \t") for line in lines]
    lines = [lines[0], *(line.lstrip(" \t") for line in lines[1:])]
    return lines, [0, *(2 if line else -1 for line in lines[1:])]


def _brackets(text: str, base: int) -> tuple[list[str], list[int]]:
    """Brackets over several lines: each line keeps its place beside the key, but never falls to its column."""
    lines = _EOL.split(text)
    bare = [lines[0], *(line.lstrip(" \t") for line in lines[1:])]
    insets = [len(line) - len(rest) - base for line, rest in zip(lines, bare, strict=True)]
    return bare, [
        0,
        *(max(1, inset) if rest else -1 for inset, rest in zip(insets[1:], bare[1:], strict=True)),
    ]
