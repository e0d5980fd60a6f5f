"""Whole books written anew: tidied, or with the line on top by which editors find the schema. Each can be taken back."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Final, NamedTuple

from fitlore.books import amend, files
from fitlore.books.faults import Fault, fault, register
from fitlore.books.jsonschema import book_schema_text, header_line
from fitlore.books.layout import BookFile, books_of, read_layout
from fitlore.books.reading import YAML_ENDINGS
from fitlore.books.tidy import Tidied, tidy
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin
from fitlore.upkeep import journal, left
from fitlore.upkeep.record import below, concluded, settled, unreadable

SCHEMA: Final = f"{journal.FOLDER}/book.schema.json"
"""Where the schema is put, from the shop's folder on."""
_BOM: Final = b"\xef\xbb\xbf"
_HEADER: Final = b"# yaml-language-server:"

register(
    [
        Fault(
            "T04-not-written",
            Severity.ERROR,
            "A book that could not be written anew",
            "{book} was left as it is: {why}",
            "a book that nobody else is writing, and a folder that can be written",
            "ask again when that is put right",
        ),
    ]
)


class Made(NamedTuple):
    """A book as it is and as it would be. `refused` says why it is left alone; then both are the same."""

    book: BookFile
    shelf: Path
    before: bytes
    after: bytes
    refused: Diagnostic | None = None
    kept: int = 0
    """Mappings whose keys stay out of order, because comments would have changed places."""

    @property
    def changes(self) -> bool:
        """Whether there is anything to write."""
        return self.after != self.before


class NoSuchBook(Exception):
    """A name that no book of the shop's own has; its words are the name and what there is."""


def own_books(folder: Path, names: Sequence[str] = ()) -> list[tuple[BookFile, Path]]:
    """The shop's own books of YAML with their shelves' folders: those named (shown name or file), or all. Raises NoSuchBook.

    The shop's own are those on shelves without a cap on their trust.
    """
    shelves = {
        str(s.shelf): folder / s.folder for s in read_layout(folder).shelves if s.trust is None and s.folder
    }
    found = {
        book.shown: (book, shelves[book.shelf])
        for book in books_of(folder)
        if book.shelf in shelves and book.path.suffix.lower() in YAML_ENDINGS
    }
    if not names:
        return list(found.values())
    by_file = {book.path.resolve(): shown for shown, (book, _) in found.items()}
    chosen: dict[str, tuple[BookFile, Path]] = {}
    for name in names:
        shown = name if name in found else by_file.get(Path(name).resolve(), "")
        if not shown:
            raise NoSuchBook(f"{name}: no book of the shop's own; there are {', '.join(found) or 'none'}")
        chosen[shown] = found[shown]
    return list(chosen.values())


def tidied(books: Sequence[tuple[BookFile, Path]]) -> Iterator[Made]:
    """Each book in canonical order and alignment, or why it is left alone. Raises OSError where one cannot be read."""
    for book, shelf in books:
        data = book.path.read_bytes()
        done = tidy(book.shown, data)
        if isinstance(done, Tidied):
            yield Made(book, shelf, data, done.data, kept=len(done.kept))
        else:
            yield Made(book, shelf, data, data, done)


def headed(books: Sequence[tuple[BookFile, Path]], folder: Path) -> Iterator[Made]:
    """Each book with the line on top by which editors find the shop's schema; one with such a line gets the right one."""
    for book, shelf in books:
        data = book.path.read_bytes()
        mark, text = (_BOM, data[len(_BOM) :]) if data.startswith(_BOM) else (b"", data)
        first, end, rest = text.partition(b"\n")
        eol = b"\r\n" if first.endswith(b"\r") else b"\n"
        line = line_for(book.path, folder).encode()
        kept = rest if first.startswith(_HEADER) and end else b"" if first.startswith(_HEADER) else text
        yield Made(book, shelf, data, mark + line + eol + kept)


def line_for(book: Path, folder: Path) -> str:
    """The line for a book: the schema's file is named from the book on, so that the shop's folder may be moved."""
    return header_line(Path(os.path.relpath(folder.resolve() / SCHEMA, book.resolve().parent)))


def put_schema(folder: Path) -> Path:
    """Writes the schema of books into the shop's folder, for editors that are not on a net. Raises OSError."""
    path = folder / SCHEMA
    path.parent.mkdir(exist_ok=True)
    draft = path.with_suffix(".new")
    draft.write_text(book_schema_text(), "utf-8")
    draft.replace(path)
    return path


def write(folder: Path, made: Made, what: str) -> int | Diagnostic:
    """Writes a book anew if it still is as it was read: the journal's line first, then the book. The number is for `undo`."""
    seen = files.Seen(made.book.path, made.before)
    try:
        with journal.held(folder) as path:
            number = journal.next_number(settled(path, folder))
            if files.see(seen.path).data != seen.data:
                done: files.Written | files.NotWritten = files.NotWritten(seen.path, "changed")
            else:
                journal.append(path, _entry(folder, made, what, number))
                done = files.write(seen, made.after, made.shelf)
                concluded(path, folder, number, done, made.after)
    except journal.Torn as error:
        return unreadable(str(error))
    except BlockingIOError:
        return _not_written(made, f"others were writing for {files.PATIENCE:.0f} s")
    except OSError as error:
        return _not_written(made, error.strerror or str(error))
    if isinstance(done, files.NotWritten):
        changed = "somebody else changed it in between"
        return _not_written(made, changed if done.reason == "changed" else done.detail or done.reason)
    return number


def _entry(folder: Path, made: Made, what: str, number: int) -> journal.Entry:
    return journal.Entry(
        kind="write",
        number=number,
        time=datetime.now(UTC).isoformat(timespec="seconds"),
        what=what,
        book=made.book.shown,
        path=below(made.book.path, folder),
        shelf=below(made.shelf, folder),
        before=files.digest(made.before),
        after=files.digest(made.after),
        changes=_changes(made.before, made.after),
    )


def _changes(before: bytes, after: bytes) -> tuple[amend.Change, ...]:
    """The stretches of lines in which two texts differ, the last one first, so that the others' places stay."""
    return tuple(
        amend.Change(low, before[low:high], after[start:end])
        for low, high, start, end in reversed(left.stretches(before, after))
    )


def _not_written(made: Made, why: str) -> Diagnostic:
    return fault("T04-not-written", Origin(made.book.shown, 1, 1), book=made.book.shown, why=why)
