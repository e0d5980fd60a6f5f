"""A book's text as a tree of plain texts, lists and mappings, and where everything in it stands."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from typing import Final, NamedTuple, TypeAlias

from fitlore.books.faults import MOST, fault, in_short, stretch
from fitlore.books.raw import Found, line_starts
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin

Tree: TypeAlias = "str | list[Tree] | dict[str, Tree]"
"""An empty text in a tree marks a value that was already reported."""
Holder: TypeAlias = "list[Tree] | dict[str, Tree]"
_LARGE: Final = 32
"""Keys of a mapping from which looking for one of them is done by an index."""


class Spot(NamedTuple):
    """A place of a book: line and column from 1, how many characters it covers, and the line's text.

    Of a very long line `excerpt` is the stretch around the place, and `cut` says how much is left out before it.
    """

    line: int
    column: int
    width: int
    excerpt: str
    cut: int = 0


def spot_in(text: str, starts: Sequence[int], at: int, width: int) -> Spot:
    """The place of an index of a text whose lines begin at `starts`, not wider than what is left of its line.

    An index inside the end of a line (between CR and LF) is the place after the line's last character.
    """
    line = bisect_right(starts, at)
    begin = starts[line - 1]
    end = starts[line] if line < len(starts) else len(text)
    while end > begin and text[end - 1] in "\r\n":
        end -= 1
    at = min(at, end)
    first, last = stretch(begin, end, at)
    return Spot(line, at - begin + 1, max(1, min(width, end - at)), text[first:last], first - begin)


class Spans(NamedTuple):
    """Where a collection and its entries are, as indexes of the text; entries in the collection's order."""

    start: int
    end: int
    """After the last entry, or after the bracket."""
    flow: bool
    keys: list[tuple[int, int]]
    values: list[tuple[int, int]]


class Doc:
    """A book's text (without byte order mark), its tree, and where everything is.

    `root` is None where there is nothing to read, and empty after a lone `---`. `found` are the faults of the text itself;
    the items of the outermost list in which they lie are in `spoilt` (their indexes), so that these records are left out.
    """

    def __init__(self, shown: str, text: str, bom: bool) -> None:
        self.shown = shown
        self.text = text
        self.bom = bom
        self.root: Tree | None = None
        self.found: list[Diagnostic] = []
        self.spoilt: set[int] = set()
        self.spans: dict[int, Spans] = {}
        self.more = 0
        """Faults of the text beyond those that are told."""
        self._starts = line_starts(text)
        self._places: dict[int, tuple[Holder, dict[str, int]]] = {}

    def at(self, index: int) -> tuple[int, int]:
        """Line and column (both from 1) of an index of the text."""
        line = bisect_right(self._starts, index)
        return line, index - self._starts[line - 1] + 1

    def line_text(self, line: int) -> str:
        """The text of a line, without its end."""
        end = self._starts[line] if line < len(self._starts) else len(self.text)
        return self.text[self._starts[line - 1] : end].rstrip("\r\n")

    def span(self, holder: Holder) -> Spans:
        """Where a collection of this tree is. Raises KeyError for any other."""
        return self.spans[id(holder)]

    def key_span(self, holder: Holder, key: str | int) -> tuple[int, int]:
        """Start and end of a key; of an item, where it is in a list."""
        spans = self.spans[id(holder)]
        if isinstance(holder, list):
            return spans.values[int(key)]
        return spans.keys[self._place(holder, str(key))]

    def value_span(self, holder: Holder, key: str | int) -> tuple[int, int]:
        """Start and end of a value. Plain texts can be replaced there."""
        spans = self.spans[id(holder)]
        return spans.values[int(key) if isinstance(holder, list) else self._place(holder, str(key))]

    def spot(self, start: int, end: int) -> Spot:
        """A stretch of the text, cut at the end of its first line."""
        return spot_in(self.text, self._starts, start, end - start)

    def key(self, holder: Holder, key: str | int) -> Spot:
        """The place of a key, or of an item of a list."""
        return self.spot(*self.key_span(holder, key))

    def value(self, holder: Holder, key: str | int) -> Spot:
        """The place of a value."""
        return self.spot(*self.value_span(holder, key))

    def start(self, holder: Holder) -> Spot:
        """The place where a collection begins."""
        spans = self.spans[id(holder)]
        return self.spot(spans.start, spans.start + 1)

    def origin(self, holder: Holder, key: str | int | None = None) -> Origin:
        """The line and column of a key or item, or of the start of the collection itself."""
        index = self.spans[id(holder)].start if key is None else self.key_span(holder, key)[0]
        return Origin(self.shown, *self.at(index))

    def plain(self, holder: Holder, key: str | int) -> bool:
        """Is this text written without quotes and not as a block?"""
        start = self.value_span(holder, key)[0]
        return self.text[start : start + 1] not in ("'", '"', "|", ">")

    def flow(self, holder: Holder) -> bool:
        """Is this collection written in brackets?"""
        return self.spans[id(holder)].flow

    def report(self, found: Found) -> None:
        """Adds a fault of the text at its place."""
        if len(self.found) >= MOST:
            self.more += 1
            return
        spot = self.spot(found.place, found.place + found.width)
        self.found.append(fault_at(self.shown, spot, found.code, found.values))

    def _place(self, holder: dict[str, Tree], key: str) -> int:
        """Which entry of a mapping a key is; of a large one that is remembered, with the mapping so that its id stays its own."""
        if len(holder) < _LARGE:
            return next(place for place, one in enumerate(holder) if one == key)
        if id(holder) not in self._places:
            self._places[id(holder)] = holder, {one: place for place, one in enumerate(holder)}
        return self._places[id(holder)][1][key]


def fault_at(shown: str, spot: Spot, code: str, values: Mapping[str, str]) -> Diagnostic:
    """A diagnostic at a place of a book; the book's words in it are cut to what can be read."""
    origin = Origin(shown, spot.line, spot.column)
    return fault(code, origin, excerpt=spot.excerpt, width=spot.width, cut=spot.cut, **in_short(values))
