"""The shop's journal of writes: what `undo` reads. A line is written before the book is, so a dying writer loses nothing.

`.fitlore/journal` in the shop's folder holds one JSON object per line. A line says what a book was before and after
(SHA-256) and which bytes gave way to which; whether the write then happened is seen from the book itself.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final, Literal

import msgspec

from fitlore.books import files
from fitlore.books.amend import Change

FOLDER: Final = ".fitlore"
NAME: Final = "journal"
_LOCK: Final = "journal-lock"


Closed = Literal["undone", "let-go"]
"""How a write comes to stand no longer."""


class Entry(msgspec.Struct, frozen=True, omit_defaults=True):
    """One line: a write about to happen, or one taken back, or one let go: it stays, and is not asked about again."""

    kind: Literal["write", "undoing", "undone", "let-go"]
    number: int
    """Of the write that this is about; writes are numbered from 1."""
    time: str = ""
    """Coordinated universal time, ISO 8601, to the second."""
    what: str = ""
    book: str = ""
    """The shown name."""
    path: str = ""
    """From the shop's folder where the book lies below it, else the whole path."""
    shelf: str = ""
    """The shelf's folder, likewise."""
    before: str = ""
    """SHA-256 of the book before; empty where there was none."""
    after: str = ""
    """SHA-256 of the book after; of an undoing: what the book is to be once it is done, where that is not `before`."""
    changes: tuple[Change, ...] = ()


class Torn(Exception):
    """A line of the journal that is none of ours, but not the last one: somebody edited it."""


@contextmanager
def held(shop: Path) -> Iterator[Path]:
    """The journal of a shop, for one writer at a time; its folder is made. Raises OSError where that cannot be."""
    folder = shop / FOLDER
    folder.mkdir(exist_ok=True)
    with files.locked(folder / _LOCK):
        yield folder / NAME


def read(journal: Path) -> list[Entry]:
    """All entries. A last line that was cut off by a dying writer does not count: nothing followed it. Raises Torn."""
    try:
        lines = journal.read_bytes().split(b"\n")
    except FileNotFoundError:
        return []
    whole = lines[:-1]
    try:
        return [_decode(line) for line in whole if line]
    except msgspec.DecodeError as error:
        raise Torn(str(error)) from error


def append(journal: Path, entry: Entry) -> None:
    """Adds an entry, on the disk when this returns; a cut-off last line is taken away first."""
    line = msgspec.json.encode(entry) + b"\n"
    new = not journal.exists()
    handle = os.open(journal, os.O_RDWR | os.O_CREAT, 0o666)
    with os.fdopen(handle, "r+b") as file:
        data = file.read()
        whole = data.rfind(b"\n") + 1
        file.seek(whole)
        file.truncate()
        file.write(line)
        file.flush()
        os.fsync(file.fileno())
    if new:
        files.sync_folder(journal.parent)


def standing(entries: list[Entry]) -> list[Entry]:
    """Writes neither taken back nor let go, oldest first."""
    gone = {entry.number for entry in entries if entry.kind in ("undone", "let-go")}
    return [entry for entry in entries if entry.kind == "write" and entry.number not in gone]


def begun(entries: list[Entry]) -> dict[int, str]:
    """Writes that somebody began to take back, and SHA-256 of what their books were to be (empty: as before them)."""
    return {entry.number: entry.after for entry in entries if entry.kind == "undoing"}


def next_number(entries: list[Entry]) -> int:
    """The number of the next write."""
    return max((entry.number for entry in entries), default=0) + 1


def _decode(line: bytes) -> Entry:
    return msgspec.json.decode(line, type=Entry)
