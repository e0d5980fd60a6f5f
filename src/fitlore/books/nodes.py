"""The door to YAML: a book's text as plain text, lists and mappings, with the place of everything beside them.

Every scalar is text. What YAML allows and a book does not (anchors, aliases, tags, merge keys, several documents, equal
keys, empty values, keys that are no text) is a fault at its place; after a syntax error the records around it are read.
"""

from __future__ import annotations

import gc
import re
from bisect import bisect_right
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

import yaml
from yaml.events import (
    AliasEvent,
    CollectionEndEvent,
    CollectionStartEvent,
    DocumentStartEvent,
    MappingStartEvent,
    ScalarEvent,
    StreamEndEvent,
)

from fitlore.books.doc import Doc, Holder, Spans, Tree
from fitlore.books.raw import CONTROL, LONGEST_TEXT, TOO_LONG, Found, decode
from fitlore.books.syntax import Trouble, explain, glued_text, pieces

_LOADER: Final = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_NOT_READ_ON: Final = "B33-second-document"
_DEEPEST: Final = 64
"""How deep lists and mappings may stand inside one another; no record is deeper than ten."""
_WORD: Final = re.compile(r"\S*")
_NO_KEY: Final = "no key yet"
_DROPPED: Final = "dropped with its value"
"""Compared by identity: no text of a book is one of these."""


@contextmanager
def uncollected() -> Iterator[None]:
    """Keeps the cycle collector quiet while many small objects are made: reading is 1.6 to 4 times faster so."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def read_nodes(shown: str, data: bytes) -> Doc:
    """A YAML text as a tree with places. Never raises for any bytes."""
    raw = decode(data)
    doc = Doc(shown, raw.text, raw.bom)
    found = list(raw.found)
    with uncollected():
        whole = _Builder(doc, raw.text, 0)
        trouble = whole.build()
        if trouble is None:
            doc.root = whole.root
            found += whole.found
            limits = [len(doc.text)] * len(doc.root) if isinstance(doc.root, list) else []
        else:
            doc.spans.clear()
            more, limits = _piecewise(doc, trouble)
            found += more
    for one in sorted(found, key=lambda one: one.place):
        doc.report(one)
    if isinstance(doc.root, list):
        starts = [start for start, _ in doc.span(doc.root).values]
        items = [
            (bisect_right(starts, one.place) - 1, one.place) for one in found if one.code != _NOT_READ_ON
        ]
        doc.spoilt = {item for item, place in items if item >= 0 and place < limits[item]}
    return doc


def _piecewise(doc: Doc, trouble: Trouble) -> tuple[list[Found], list[int]]:
    """Reads each item of the outermost list by itself, after the whole could not be read.

    Hands back what was found, and for each item that was read where its piece of the text ends.
    """
    cut = list(pieces(doc.text))
    if len(cut) == 1:
        return [explain(doc.text, trouble)], []
    limits: list[int] = []
    found: list[Found] = []
    items: list[Tree] = []
    places: list[tuple[int, int]] = []
    for start, text in cut:
        piece = _Builder(doc, text, start)
        failed = piece.build()
        found += piece.found
        if failed is not None:
            one = explain(text, failed)
            found.append(one._replace(place=one.place + start))
        elif isinstance(piece.root, list):
            items += piece.root
            places += doc.span(piece.root).values
            limits += [start + len(text)] * len(piece.root)
        elif piece.root:
            found.append(Found("B26-not-a-list", start, 1, {}))
    if not found:
        found.append(explain(doc.text, trouble))
    doc.root = items
    doc.spans[id(items)] = Spans(places[0][0] if places else 0, len(doc.text), False, [], places)
    return found, limits


class _Builder:
    """Builds the tree of one text from the parser's events; `base` is the text's index in the book."""

    def __init__(self, doc: Doc, text: str, base: int) -> None:
        self.doc, self.text, self.base = doc, text, base
        self.root: Tree | None = None
        self.found: list[Found] = []
        self.documents = 0
        self.deep = False
        self.holder: Holder | None = None
        self.places = Spans(0, 0, False, [], [])
        self.key = _NO_KEY
        self.stack: list[tuple[Holder | None, Spans, str]] = []

    def build(self) -> Trouble | None:
        """Fills `root` and `found`; hands back the parser's trouble where the text is no YAML."""
        loader = _LOADER(self.text)
        try:
            self._run(loader.get_event)
        except yaml.MarkedYAMLError as error:
            begun, at = error.context_mark, error.problem_mark
            return Trouble(
                error.problem or "", error.context or "", at.index if at else -1, begun.index if begun else -1
            )
        except yaml.reader.ReaderError as error:
            return Trouble(str(error.reason), "", int(error.position), -1)
        finally:
            loader.dispose()
        return None

    def _run(self, next_event: Callable[[], yaml.Event]) -> None:
        while True:
            event = next_event()
            if isinstance(event, ScalarEvent):
                if event.anchor is not None or event.tag is not None:
                    self._adorned(event)
                if event.style == '"' and CONTROL.search(event.value):
                    self._hidden(event)
                if len(event.value) > LONGEST_TEXT:
                    self._too_long(event)
                else:
                    self._put(event.value, *self._span(event))
            elif isinstance(event, CollectionStartEvent):
                if event.anchor is not None or event.tag is not None:
                    self._adorned(event)
                self.stack.append((self.holder, self.places, self.key))
                self.holder = {} if isinstance(event, MappingStartEvent) else []
                self.places = Spans(self._span(event)[0], 0, bool(event.flow_style), [], [])
                self.key = _NO_KEY
            elif isinstance(event, CollectionEndEvent):
                self._close(self._span(event)[1])
            elif isinstance(event, AliasEvent):
                start, end = self._span(event)
                self.found.append(Found("B32-alias", start, end - start, {"name": event.anchor or ""}))
                self._put([] if self._wants_key() else "", start, end, silent=True)
            elif isinstance(event, StreamEndEvent) or (
                isinstance(event, DocumentStartEvent) and self._next_document(event)
            ):
                return

    def _span(self, event: yaml.Event) -> tuple[int, int]:
        start, end = event.start_mark, event.end_mark
        assert start is not None
        assert end is not None
        return start.index + self.base, end.index + self.base

    def _wants_key(self) -> bool:
        return isinstance(self.holder, dict) and self.key is _NO_KEY

    def _close(self, end: int) -> None:
        holder, places = self.holder, self.places
        assert holder is not None
        if len(self.stack) > _DEEPEST:
            self._too_deep(end)
            return
        if not places.flow and places.values:
            end = places.values[-1][1]
        self.doc.spans[id(holder)] = places._replace(end=end)
        self.holder, self.places, self.key = self.stack.pop()
        self._put(holder, places.start, end)

    def _too_long(self, event: ScalarEvent) -> None:
        start, end = self._span(event)
        self.found.append(Found("B10-not-yaml", start, 1, {"problem": TOO_LONG}))
        self._put([] if self._wants_key() else "", start, end, silent=True)

    def _too_deep(self, end: int) -> None:
        """Drops what no reader of a book could go down to; told once, at the innermost place."""
        start = self.places.start
        self.holder, self.places, self.key = self.stack.pop()
        if not self.deep:
            self.found.append(
                Found("B10-not-yaml", start, 1, {"problem": "it stands too deep inside others"})
            )
        self.deep = len(self.stack) > _DEEPEST
        self._put([] if self._wants_key() else "", start, end, silent=True)

    def _put(self, value: Tree, start: int, end: int, *, silent: bool = False) -> None:
        """Hands a finished text or collection to the collection around it, as key, value or item."""
        holder = self.holder
        if isinstance(holder, dict):
            if self.key is _NO_KEY:
                self.key = self._key(holder, value, start, end, silent)
                if self.key is not _DROPPED:
                    self.places.keys.append((start, end))
                return
            if self.key is not _DROPPED:
                if value == "" and not silent:
                    self._empty_value(self.key)
                holder[self.key] = value
                self.places.values.append((start, end))
            self.key = _NO_KEY
        elif isinstance(holder, list):
            if value == "" and not silent:
                self.found.append(Found("B30-empty-value", start, max(1, end - start), {"key": "-"}))
            holder.append(value)
            self.places.values.append((start, end))
        else:
            self.root = value

    def _next_document(self, event: DocumentStartEvent) -> bool:
        self.documents += 1
        if self.documents > 1:
            self.found.append(Found(_NOT_READ_ON, self._span(event)[0], 3, {}))
        return self.documents > 1

    def _adorned(self, event: ScalarEvent | CollectionStartEvent) -> None:
        start = self._span(event)[0]
        if event.anchor is not None:
            width = len(event.anchor) + 1
            self.found.append(Found("B31-anchor", start, width, {"name": event.anchor}))
        if event.tag is not None:
            at = max(start, self.doc.text.find("!", start))
            match = _WORD.match(self.doc.text, at)
            written = match[0] if match else ""
            self.found.append(Found("B34-tag", at, len(written), {"tag": written}))

    def _hidden(self, event: ScalarEvent) -> None:
        match = CONTROL.search(event.value)
        assert match is not None
        start, end = self._span(event)
        values = {"char": f"U+{ord(match[0]):04X}"}
        self.found.append(Found("B04-control-character", start, end - start, values))

    def _key(self, holder: dict[str, Tree], value: Tree, start: int, end: int, silent: bool) -> str:
        found = None
        if not isinstance(value, str):
            found = Found("B35-key-not-text", start, 1, {})
        elif value == "<<":
            found = Found("B36-merge-key", start, 2, {})
        elif value in holder:
            found = Found("B37-key-twice", start, end - start, {"key": value})
        elif not value:
            found = Found("B38-empty-key", start, 1, {})
        else:
            return value
        if not silent:
            self.found.append(found)
        return _DROPPED

    def _cut_short(self) -> None:
        """The text before a comma in braces is only the beginning of what was meant, so it is not judged."""
        holder = self.holder
        before = list(holder)[-1:] if isinstance(holder, dict) else []
        for key in before:
            if isinstance(holder, dict) and isinstance(holder[key], str):
                holder[key] = ""

    def _empty_value(self, key: str) -> None:
        """Says which of the silent traps of YAML left this key without a value."""
        text, keys = self.doc.text, self.places.keys
        start, end = keys[-1]
        rest = text[end : end + 80].lstrip(" \t")
        values = {"key": key}
        glued = glued_text(text, start, end) if ":" in key else None
        if glued is not None and glued.place < end:
            found = glued
        elif self.places.flow and not rest.startswith(":"):
            code = "B25-comma-in-braces" if len(keys) > 1 else "B27-no-value-in-braces"
            self._cut_short()
            found = Found(code, start, end - start, values)
        elif rest[1:].lstrip(" \t").startswith("#"):
            found = Found("B29-value-is-comment", text.index("#", end), 1, values)
        else:
            found = Found("B30-empty-value", start, end - start, values)
        self.found.append(found)
