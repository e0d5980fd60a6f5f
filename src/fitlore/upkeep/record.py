"""Writes a draft: the journal's line first, then the book, as one change that can be taken back byte for byte."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from fitlore.books import amend, files
from fitlore.books.faults import fault
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.upkeep import journal, left
from fitlore.upkeep.draft import Draft


class Recorded(NamedTuple):
    """What was written: the book and line, the new lines, the number for `undo`, and notes (a second hard link)."""

    origin: Origin
    lines: tuple[str, ...]
    number: int
    path: Path
    notes: tuple[Diagnostic, ...] = ()


def record(draft: Draft, folder: Path) -> Recorded | Diagnostic:
    """Writes a draft that is ready into the knowledge base in `folder`, or says why not, with the lines to paste.

    Raises ValueError for a draft that is not ready: its objections say why it must not be written.
    """
    if not draft.ready or draft.spliced is None or draft.seen is None or draft.target is None:
        raise ValueError("this draft has objections that keep it from being written")
    made = draft.spliced
    try:
        with journal.held(folder) as path:
            number = journal.next_number(settled(path, folder))
            if files.see(draft.seen.path).data != draft.seen.data:
                done: files.Written | files.NotWritten = files.NotWritten(draft.target.path, "changed")
            else:
                journal.append(path, _entry(draft, made, number, folder))
                done = files.write(draft.seen, made.data, draft.target.shelf)
                concluded(path, folder, number, done, made.data)
    except journal.Torn as error:
        return unreadable(str(error))
    except BlockingIOError:
        done = files.NotWritten(draft.target.path, "busy", f"{files.PATIENCE:.0f} s")
    except OSError as error:
        done = files.NotWritten(draft.target.path, "system", error.strerror or str(error))
    if isinstance(done, files.NotWritten):
        return amend.not_written(done, made.origin, made.lines)
    notes = amend.other_names(done, made.origin)
    return Recorded(made.origin, made.lines, number, done.path, notes)


def settled(path: Path, folder: Path) -> list[journal.Entry]:
    """The journal, after the last write in it is crossed out where it did not happen, or is undone already."""
    entries = journal.read(path)
    standing = journal.standing(entries)
    if standing and files.see(folder / standing[-1].path).digest == standing[-1].before:
        journal.append(path, journal.Entry(kind="undone", number=standing[-1].number))
        entries = journal.read(path)
    return entries


def concluded(
    path: Path, folder: Path, number: int, done: files.Written | files.NotWritten, text: bytes
) -> None:
    """Keeps the text that was written; crosses out a write that was refused, or that did not happen."""
    if isinstance(done, files.NotWritten) and done.reason in ("changed", "busy"):
        journal.append(path, journal.Entry(kind="undone", number=number))
        return
    entries = settled(path, folder)
    left.keep(folder, text)
    left.sweep(folder, entries)


def _entry(draft: Draft, made: amend.Spliced, number: int, folder: Path) -> journal.Entry:
    assert draft.seen is not None
    assert draft.target is not None
    return journal.Entry(
        kind="write",
        number=number,
        time=datetime.now(UTC).isoformat(timespec="seconds"),
        what=draft.what,
        book=draft.target.shown,
        path=below(draft.target.path, folder),
        shelf=below(draft.target.shelf, folder),
        before=draft.seen.digest,
        after=files.digest(made.data),
        changes=made.changes,
    )


def below(path: Path, folder: Path) -> str:
    """A path from the shop's folder on where it lies below it, so that the folder may be moved; else the whole path."""
    return path.relative_to(folder).as_posix() if path.is_relative_to(folder) else str(path.absolute())


def unreadable(why: str) -> Diagnostic:
    """The diagnostic for a journal that somebody edited."""
    path = f"{journal.FOLDER}/{journal.NAME}"
    return fault("U12-journal-unreadable", Origin(path), path=path, why=why)
