"""Takes the last writes back, newest first, each byte for byte, and none over somebody's later edit."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from fitlore.books import amend, files
from fitlore.books.faults import fault
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.upkeep import catalogue, journal  # noqa: F401  (the catalogue registers the faults)
from fitlore.upkeep.journal import Entry
from fitlore.upkeep.record import unreadable


class Undone(NamedTuple):
    """What was taken back, newest first, and why it went no further (None: as far as was asked, or nothing was left)."""

    entries: tuple[Entry, ...]
    refused: Diagnostic | None = None


def undo(folder: Path, count: int = 1) -> Undone:
    """Takes back the last `count` writes into the knowledge base in `folder`.

    A book made by a write is removed again. A write whose book has been edited since is not taken back, nor any before it.
    """
    done: list[Entry] = []
    if not (folder / journal.FOLDER / journal.NAME).is_file():
        return Undone(())
    try:
        with journal.held(folder) as path:
            while len(done) < count:
                entries = _without_what_never_was(path, folder)
                standing = journal.standing(entries)
                if not standing:
                    break
                entry = standing[-1]
                refused = _take_back(entry, entries, path, folder)
                if refused is not None:
                    return Undone(tuple(done), refused)
                done.append(entry)
    except journal.Torn as error:
        return Undone(tuple(done), unreadable(str(error)))
    except BlockingIOError:
        return Undone(tuple(done), _system(folder, f"others were writing for {files.PATIENCE:.0f} s"))
    except OSError as error:
        return Undone(tuple(done), _system(folder, error.strerror or str(error)))
    return Undone(tuple(done))


def last(folder: Path, count: int = 1) -> tuple[Entry, ...]:
    """The writes that `undo` would take back, newest first. Raises journal.Torn and OSError."""
    entries = journal.read(folder / journal.FOLDER / journal.NAME)
    there = [one for one in reversed(journal.standing(entries)) if _happened(one, entries, folder)]
    return tuple(there[:count])


def _without_what_never_was(path: Path, folder: Path) -> list[Entry]:
    """The journal, after the newest writes in it are crossed out that did not happen.

    Once older ones are taken back their books look as if somebody had edited them, and nothing before them could be undone.
    """
    while True:
        entries = journal.read(path)
        standing = journal.standing(entries)
        if not standing or _happened(standing[-1], entries, folder):
            return entries
        journal.append(path, Entry(kind="undone", number=standing[-1].number))


def _happened(entry: Entry, entries: list[Entry], folder: Path) -> bool:
    """Whether a noted write is one to take back.

    A writer that died after its line and before its book left the book as it was before: there is nothing to take back. The
    same sight after somebody began to undo it means that this undoing went through and only its line is missing.
    """
    in_place = files.see(folder / entry.path).digest != entry.before
    return in_place or entry.number in journal.begun(entries)


def _take_back(entry: Entry, entries: list[Entry], path: Path, folder: Path) -> Diagnostic | None:
    book = folder / entry.path
    seen = files.see(book)
    if not (seen.digest == entry.before and entry.number in journal.begun(entries)):
        if seen.digest != entry.after or seen.data is None:
            return _edited(entry)
        old = amend.taken_back(seen.data, entry.changes)
        if files.digest(old) != (entry.before or files.digest(b"")):
            return _edited(entry)
        journal.append(path, Entry(kind="undoing", number=entry.number))
        done = files.write(seen, old if entry.before else None, folder / entry.shelf)
        if isinstance(done, files.NotWritten):
            return _edited(entry) if done.reason == "changed" else _system(folder, done.detail or done.reason)
    journal.append(path, Entry(kind="undone", number=entry.number))
    return None


def _edited(entry: Entry) -> Diagnostic:
    lines = "\n".join(change.new.decode("utf-8", "replace").strip("\r\n") for change in entry.changes)
    return fault(
        "U11-edited-since",
        Origin(entry.book),
        book=entry.book,
        number=str(entry.number),
        what=entry.what,
        lines=lines,
    )


def _system(folder: Path, why: str) -> Diagnostic:
    text = "what should be undone"
    return fault("A03-not-written", Origin(str(folder)), book=str(folder), why=why, where="later", lines=text)
