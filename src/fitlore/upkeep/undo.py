"""Takes writes back, newest first or by number, byte for byte, and none over somebody's later edit."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final, NamedTuple

from fitlore.books import files
from fitlore.books.faults import fault
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.upkeep import catalogue, journal, left  # noqa: F401  (the catalogue registers the faults)
from fitlore.upkeep.around_edits import taken_out
from fitlore.upkeep.journal import Entry
from fitlore.upkeep.record import unreadable

_SHOWN: Final = 12
"""Lines of a write that are handed over at most, to be taken out by hand."""


class Undone(NamedTuple):
    """What was taken back, newest first, and why it went no further (None: as far as was asked, or nothing was left)."""

    entries: tuple[Entry, ...]
    refused: Diagnostic | None = None
    around: frozenset[int] = frozenset()
    """Numbers of those whose books were edited since: the edits stay."""


class Standing(NamedTuple):
    """A write that can be asked back, and how its book is now."""

    entry: Entry
    back: str
    """`whole`: as the write left it. `around`: edited since, elsewhere. Empty: edited where the write was, or gone."""


class _Back(NamedTuple):
    """A book as it is once a write is taken back; None where it is then gone."""

    text: bytes | None
    around: bool


def undo(folder: Path, count: int = 1, number: int | None = None) -> Undone:
    """Takes back the last `count` writes into the knowledge base in `folder`, or the one of a number by itself.

    A book made by a write is removed again. Where a book was edited since, or written to again, the write is taken out around
    that; where the edit is in its lines or touches them it stays, and so do those before it that were not asked for by number.
    """
    done: list[Entry] = []
    around: set[int] = set()

    def take(path: Path) -> Diagnostic | None:
        while len(done) < (count if number is None else 1):
            entries = _without_what_never_was(path, folder)
            entry = _chosen(entries, number)
            if entry is None:
                break
            seen = files.see(folder / entry.path)
            back = _back(entry, entries, seen, folder)
            refused = _take_back(entry, entries, seen, back, path, folder)
            if refused is not None:
                return refused
            done.append(entry)
            around.update({entry.number} if back and back.around else ())
        return None

    refused = _writing(folder, take)
    return Undone(tuple(done), refused, frozenset(around))


def let_go(folder: Path, number: int) -> Undone:
    """Leaves what a write wrote as it is, for good: it no longer stands before older ones. None is touched on the disk."""
    done: list[Entry] = []

    def cross_out(path: Path) -> None:
        entries = journal.read(path)
        entry = _chosen(entries, number)
        if entry is not None:
            _close(entry, entries, files.see(folder / entry.path).data, path, folder, "let-go")
            done.append(entry)

    refused = _writing(folder, cross_out)
    return Undone(tuple(done), refused)


def listed(folder: Path) -> tuple[Standing, ...]:
    """The writes that can be asked back, newest first. Raises journal.Torn and OSError."""
    entries = journal.read(folder / journal.FOLDER / journal.NAME)
    found = []
    for entry in reversed(journal.standing(entries)):
        if _happened(entry, entries, folder):
            back = _back(entry, entries, files.see(folder / entry.path), folder)
            found.append(Standing(entry, "" if back is None else "around" if back.around else "whole"))
    return tuple(found)


def _writing(folder: Path, change: Callable[[Path], Diagnostic | None]) -> Diagnostic | None:
    """Changes the journal while nobody else does; what goes wrong as a diagnostic."""
    if not (folder / journal.FOLDER / journal.NAME).is_file():
        return None
    try:
        with journal.held(folder) as path:
            return change(path)
    except journal.Torn as error:
        return unreadable(str(error))
    except BlockingIOError:
        return _system(folder, f"others were writing for {files.PATIENCE:.0f} s")
    except OSError as error:
        return _system(folder, error.strerror or str(error))


def _chosen(entries: list[Entry], number: int | None) -> Entry | None:
    standing = journal.standing(entries)
    if number is None:
        return standing[-1] if standing else None
    return next((entry for entry in standing if entry.number == number), None)


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


def _back(entry: Entry, entries: list[Entry], seen: files.Seen, folder: Path) -> _Back | None:
    """The book without this write; None where an edit is in the way."""
    if _went_through(entry, entries, seen):
        return _Back(seen.data, seen.digest != entry.before)
    text = left.text_after(folder, entry, entries, seen.data)
    if text is None or seen.data is None:
        return None
    if seen.digest == entry.after:
        before = left.text_before(text, entry)
        return None if before is None else _Back(before if entry.before else None, around=False)
    rest = taken_out(entry.book, text, seen.data, entry.changes)
    return None if rest is None else _Back(rest if rest or entry.before else None, around=True)


def _went_through(entry: Entry, entries: list[Entry], seen: files.Seen) -> bool:
    """Whether an undoing that somebody began reached the book, and only the journal does not say so yet."""
    begun = journal.begun(entries)
    return entry.number in begun and seen.digest == (begun[entry.number] or entry.before)


def _take_back(
    entry: Entry, entries: list[Entry], seen: files.Seen, back: _Back | None, path: Path, folder: Path
) -> Diagnostic | None:
    if back is None:
        return _edited(entry)
    if not _went_through(entry, entries, seen):
        after = files.digest(back.text) if back.around else ""
        journal.append(path, Entry(kind="undoing", number=entry.number, after=after))
        done = files.write(seen, back.text, folder / entry.shelf)
        if isinstance(done, files.NotWritten):
            return _edited(entry) if done.reason == "changed" else _system(folder, done.detail or done.reason)
    _close(entry, entries, seen.data, path, folder, "undone")
    return None


def _close(
    entry: Entry, entries: list[Entry], now: bytes | None, path: Path, folder: Path, how: journal.Closed
) -> None:
    """Crosses a write out, and keeps the text before it: an older write may have left that one."""
    text = left.text_after(folder, entry, entries, now)
    before = left.text_before(text, entry) if text is not None else None
    if before is not None and entry.before:
        left.keep(folder, before)
    journal.append(path, Entry(kind=how, number=entry.number))
    left.sweep(folder, journal.read(path))


def _edited(entry: Entry) -> Diagnostic:
    written = "".join(change.new.decode("utf-8", "replace") for change in reversed(entry.changes))
    lines = written.strip("\r\n").splitlines()
    more = [f"... and {len(lines) - _SHOWN} more lines"] if len(lines) > _SHOWN else []
    return fault(
        "U11-edited-since",
        Origin(entry.book),
        book=entry.book,
        number=str(entry.number),
        what=entry.what,
        lines="\n".join([*lines[:_SHOWN], *more]),
    )


def _system(folder: Path, why: str) -> Diagnostic:
    text = "what should be undone"
    return fault("A03-not-written", Origin(str(folder)), book=str(folder), why=why, where="later", lines=text)
