"""What is kept of how a book was read: when some of its lines change, only what they say is looked for in the store.

    HOME/past/...   one file a book, named after everything that what is in it depends on

Such a file only saves time. One that is not there, or is not whole, is done without.
"""

from __future__ import annotations

import contextlib
import hashlib
import itertools
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Final

import msgspec

from fitlore.graph.manifest import Book

_LENGTH: Final = 16
"""Bytes of a digest."""


class Past(msgspec.Struct, frozen=True, array_like=True):
    """Of one book, as it was read under certain terms."""

    texts: dict[str, tuple[str, ...]]
    """The look-up keys of each text that one of its features has: reading designations anew takes longest of all."""
    written: dict[str, bytes]
    derived: dict[str, bytes]
    """The marks of its two graphs."""


def marks(statements: Iterable[str]) -> dict[str, bytes]:
    """Of each subject a digest over what is said of it: where that is the same, the same was said in the same order."""
    found: dict[str, bytes] = {}
    for subject, run in itertools.groupby(statements, subject_of):
        found[subject] = _digest(found.get(subject, b"") + "\n".join(run).encode("utf-8", "surrogatepass"))
    return found


def changed(old: Mapping[str, bytes], new: Mapping[str, bytes]) -> frozenset[str]:
    """The subjects of which other things are said now, or nothing any more, or something for the first time."""
    return frozenset(one for one in old.keys() | new.keys() if old.get(one) != new.get(one))


def subject_of(statement: str) -> str:
    """The subject of a statement of N-Triples."""
    return statement[: statement.index(" ")]


class Pasts:
    """All that is kept of how books were read by the tables of standards with this digest."""

    def __init__(self, home: Path, standards: str) -> None:
        self._folder, self._standards = home / "past", standards

    def of(self, book: Book) -> Past | None:
        """How this very book was read; None where that is not known."""
        data = b""
        with contextlib.suppress(OSError):
            data = self._at(book).read_bytes()
        if not data or data[:_LENGTH] != _digest(data[_LENGTH:]):
            return None
        try:
            return msgspec.msgpack.decode(data[_LENGTH:], type=Past)
        except msgspec.DecodeError:
            return None

    def keep(self, book: Book, past: bytes) -> None:
        """Keeps it, in MessagePack. What could not be read at all is not kept. OSError where there is no room."""
        if book.digest:
            self._folder.mkdir(exist_ok=True)
            self._at(book).write_bytes(_digest(past) + past)

    def sweep(self, books: Iterable[Book]) -> None:
        """Removes what is known of any other than these books."""
        if not self._folder.exists():
            return
        kept = {self._at(book).name for book in books}
        for path in self._folder.iterdir():
            if path.name not in kept:
                with contextlib.suppress(OSError):
                    path.unlink()

    def _at(self, book: Book) -> Path:
        said = (self._standards, book.graph, book.digest, book.trust.value if book.trust else "")
        return self._folder / _digest("\n".join(said).encode()).hex()


def _digest(data: bytes) -> bytes:
    return hashlib.blake2b(data, digest_size=_LENGTH).digest()
