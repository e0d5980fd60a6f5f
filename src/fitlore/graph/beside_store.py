"""What a snapshot keeps beside its store, read back: each file only when it is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

if TYPE_CHECKING:
    from fitlore.graph.vocabulary import Entry, Vocabulary
    from fitlore.model.diagnostic import Diagnostic
    from fitlore.trade.standards import Standards


def found_in(folder: str) -> dict[str, tuple[Diagnostic, ...]]:
    """What was found wrong, by the IRI of the book's graph."""
    from fitlore.model.diagnostic import Diagnostic

    return msgspec.msgpack.decode(content(f"{folder}/found"), type=dict[str, tuple[Diagnostic, ...]])


def names_in(folder: str) -> dict[str, tuple[Entry, ...]]:
    """The entries of the vocabulary, by the IRI of the book's graph."""
    from fitlore.graph.vocabulary import Entry

    return msgspec.msgpack.decode(content(f"{folder}/names"), type=dict[str, tuple[Entry, ...]])


def begun_in(folder: str) -> dict[str, str]:
    """The names that somebody may have begun to type, by the IRI of the book's graph."""
    from fitlore.graph.begun import FILE

    return msgspec.msgpack.decode(content(f"{folder}/{FILE}"), type=dict[str, str])


def vocabulary_in(folder: str) -> Vocabulary:
    """All names, looked up in their file."""
    from fitlore.graph.kept_words import KeptWords
    from fitlore.graph.vocabulary import Vocabulary

    return Vocabulary(KeptWords(f"{folder}/words"))


def standards_in(folder: str) -> Standards:
    """The tables of standards."""
    from fitlore.trade.standards import Standards

    return msgspec.msgpack.decode(content(f"{folder}/standards"), type=Standards)


def content(path: str) -> bytes:
    """The bytes of a file. OSError where it cannot be read."""
    with open(path, "rb") as file:
        return file.read()
