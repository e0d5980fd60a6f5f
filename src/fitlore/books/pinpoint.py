"""The line of a single value: a record's origin is the line it begins on, and some values want their own."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Final, TypeAlias

from fitlore.books.doc import Doc, Tree
from fitlore.books.layout import books_of
from fitlore.books.nodes import read_nodes
from fitlore.books.reading import YAML_ENDINGS
from fitlore.model.origin import Origin

TextOf: TypeAlias = Callable[[str], str]
"""A shown book's text; empty where it cannot be had."""
_Mapping: TypeAlias = "dict[str, Tree]"
_NONE: Final[tuple[None, dict[Origin, _Mapping]]] = (None, {})


def no_text(shown: str) -> str:
    """The text of no book."""
    return ""


def texts_of(folder: Path | None) -> TextOf:
    """The texts of a knowledge base as they are on disk (None: of the built-in books)."""
    paths = {book.shown: book.path for book in books_of(folder)}

    def text_of(shown: str) -> str:
        try:
            return paths[shown].read_text("utf-8-sig", errors="replace") if shown in paths else ""
        except OSError:
            return ""

    return text_of


class Pinpoint:
    """Finds the lines of values. A book is read when the first of its values is asked for."""

    def __init__(self, text_of: TextOf = no_text) -> None:
        self._text_of = text_of
        self._read: dict[str, tuple[Doc | None, dict[Origin, _Mapping]]] = {}

    def line(self, record: Origin, keys: Sequence[str]) -> Origin:
        """Where the value under these keys of a record (or of a part of one) is written; else where the record is.

        Only books of YAML say it so exactly; of others the record's own place stands.
        """
        doc, mappings = self._book(record.book)
        holder: Tree | None = mappings.get(record)
        found = record
        for key in keys:
            if doc is None or not isinstance(holder, dict) or key not in holder:
                break
            found = doc.origin(holder, key)
            holder = holder[key]
        return found

    def _book(self, shown: str) -> tuple[Doc | None, dict[Origin, _Mapping]]:
        if shown not in self._read:
            text = self._text_of(shown) if shown.endswith(YAML_ENDINGS) else ""
            doc = read_nodes(shown, text.encode()) if text else None
            root = doc.root if doc is not None else None
            self._read[shown] = (doc, dict(_mappings(doc, root))) if doc is not None and root else _NONE
        return self._read[shown]


def _mappings(doc: Doc, tree: Tree | None) -> Iterator[tuple[Origin, _Mapping]]:
    """Every mapping with the origin that the typed walk gives to the record it is."""
    if isinstance(tree, list):
        rows: list[tuple[str | int, Tree]] = list(enumerate(tree))
    elif isinstance(tree, dict):
        rows = list(tree.items())
    else:
        return
    for key, inner in rows:
        if isinstance(inner, dict):
            yield doc.origin(tree, key), inner
        yield from _mappings(doc, inner)
