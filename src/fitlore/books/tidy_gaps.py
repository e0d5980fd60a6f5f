"""What stands between the scalars of a book: comments, blank lines, dashes and colons."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final, NamedTuple

from fitlore.books.doc import Doc, Tree

_LINE: Final = re.compile(r"([^\r\n]*)(\r\n|\n|\r|\Z)")
_PIECE: Final = re.compile(r"[ \t]+|[-:]|#.*")
_MARKER: Final = re.compile(r"(?:---|\.\.\.)(?=[ \t]|\Z)|%")
_COMMENT: Final = re.compile(r"#[^\r\n]*")
HEADER: Final = re.compile(r"([|>])([-+1-9]*)[ \t]*(#[^\r\n]*)?")


class Unusual(Exception):
    """A form of YAML that tidying does not know, and the index where it is. Raised and caught inside `books` only."""

    def __init__(self, why: str, index: int = 0) -> None:
        super().__init__(why)
        self.index = index


class Mark(NamedTuple):
    """One thing in a gap. `own`: it is the first on its line."""

    kind: str
    """`-`, `:`, `#`, `blank`, or `line` for a line of `---`, `...` or `%`."""
    text: str
    column: int
    own: bool
    at: int
    """Its index in the text."""


def marks(text: str, start: int, end: int, column: int) -> list[Mark]:
    """What stands between two indexes, the first of which has this column. Raises Unusual for anything strange."""
    found: list[Mark] = []
    at, first = start, column > 0
    while at < end:
        match = _LINE.match(text, at, end)
        assert match is not None
        line = match[1]
        if line.strip(" \t"):
            found += _line(line, column, at, own=not first)
        elif match[2] and not first:
            found.append(Mark("blank", "", 0, True, at))
        at, first, column = match.end(), False, 0
    return found


def _line(line: str, column: int, start: int, *, own: bool) -> Iterator[Mark]:
    if own and _MARKER.match(line):
        yield Mark("line", line.rstrip(" \t"), 0, True, start)
        return
    at = 0
    while at < len(line):
        piece = _PIECE.match(line, at)
        if piece is None:
            why = "a key is written with `?`" if line[at] == "?" else f"`{line[at]}` stands by itself"
            raise Unusual(why, start + at)
        if not piece[0].isspace():
            yield Mark(piece[0][0], piece[0].rstrip(" \t"), column + at, own, start + at)
            own = False
        at = piece.end()


def comments(doc: Doc) -> list[tuple[int, str]]:
    """Every comment of a book with its index, in the order of the text."""
    text, at = doc.text, 0
    found: list[tuple[int, str]] = []
    for start, end in sorted(_scalars(doc, doc.root)):
        found += _between(text, at, start)
        at = max(at, end)
        header = HEADER.match(text, start)
        if header and header[3]:
            found.append((header.start(3), header[3].rstrip(" \t")))
    return found + _between(text, at, len(text))


def _between(text: str, start: int, end: int) -> list[tuple[int, str]]:
    return [(match.start(), match[0].rstrip(" \t")) for match in _COMMENT.finditer(text, start, end)]


def _scalars(doc: Doc, tree: Tree | None) -> Iterator[tuple[int, int]]:
    """The places of all keys and texts, inside brackets too."""
    if tree is None or isinstance(tree, str):
        return
    spans = doc.span(tree)
    yield from spans.keys
    for value, span in zip(tree.values() if isinstance(tree, dict) else tree, spans.values, strict=True):
        if isinstance(value, str):
            yield span
        else:
            yield from _scalars(doc, value)
