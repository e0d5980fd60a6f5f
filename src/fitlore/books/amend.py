"""Changes to books: text is put in, nothing else of the book moves, and two guards stand over it.

First, the old bytes come back when exactly the inserted stretches are taken out again. Second, the new text is read, and
its tree is the old tree with exactly the change. Whatever does not pass is refused, with the lines to paste and where.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from pathlib import Path as FilePath
from typing import Final, NamedTuple

import msgspec

from fitlore.books import catalogue, files  # noqa: F401  (the catalogue registers the faults of reading)
from fitlore.books.doc import Doc
from fitlore.books.edits import Edit, NewItem, NewRecord, NewText, expected, place_of
from fitlore.books.edits import plan as plan_of
from fitlore.books.emit import Style, item_lines, pair_lines
from fitlore.books.faults import WIDEST, Fault, fault, register
from fitlore.books.nodes import read_nodes
from fitlore.books.splice import Cannot, Path, Plan, Put
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin

__all__ = [
    "Change",
    "Edit",
    "NewItem",
    "NewRecord",
    "NewText",
    "Spliced",
    "not_written",
    "other_names",
    "redo",
    "splice",
    "taken_back",
    "write",
]

_BOM: Final = b"\xef\xbb\xbf"
_NOT_OURS: Final = frozenset({"B31-anchor", "B32-alias", "B33-second-document", "B34-tag"})
"""Forms of YAML that a book may not have: what is put beside them could be read in several ways."""


class Change(msgspec.Struct, frozen=True, array_like=True):
    """At a byte of the text as it was just before this change, `old` gave way to `new`."""

    at: int
    old: bytes
    new: bytes


class Spliced(NamedTuple):
    """A changed text that passed both guards."""

    data: bytes
    changes: tuple[Change, ...]
    """In the order in which they were made; undone from the last to the first."""
    origin: Origin
    """Where the (last) new text begins."""
    lines: tuple[str, ...]
    """The new lines, as they would be pasted by hand."""


register(
    [
        Fault(
            "A01-not-by-splice",
            Severity.ERROR,
            "A book of this form cannot be changed by itself",
            "{book} was left as it is: {why}",
            "a list of records as a person writes it, and a change that leaves everything else as it reads now",
            "put this in by hand {where}:\n{lines}",
        ),
        Fault(
            "A02-changed-since-read",
            Severity.ERROR,
            "The book was changed by somebody else in between",
            "{book} was changed since it was read, so nothing was written",
            "the book as it was when the change was worked out",
            "ask again, or put this in by hand {where}:\n{lines}",
        ),
        Fault(
            "A03-not-written",
            Severity.ERROR,
            "The book could not be written",
            "{book} was not written: {why}",
            "a folder and a book that can be written",
            "put this in by hand {where}:\n{lines}",
        ),
        Fault(
            "A04-other-name",
            Severity.NOTE,
            "The old book has a second name",
            "{book} has {count} more name(s) on this disk (hard links); they still show the old text",
            "one name per book",
            "make the other names symbolic links to this book",
        ),
    ]
)


def splice(shown: str, data: bytes | None, edits: Sequence[Edit]) -> Spliced | Diagnostic:
    """The book's text with all edits made, in their order, or why not with the lines to paste.

    `data` is None where there is no such book yet. Paths are places in the book as each edit finds it. Raises ValueError for
    text that no book can hold (half a surrogate pair).
    """
    current = data or b""
    changes: list[Change] = []
    origin, lines = Origin(shown, 1, 1), list[str]()
    for edit in edits:
        doc = read_nodes(shown, current)
        plan: Plan | None = None
        try:
            _may_change(doc, current)
            plan = plan_of(doc, edit)
            made = _changes(doc, plan.puts)
            new = redo(current, made)
            again = _guard(doc, current, new, made, edit)
        except Cannot as reason:
            return _refusal(doc, edit, plan, str(reason))
        origin = place_of(again, edit)
        lines += plan.lines
        changes += made
        current = new
    return Spliced(current, tuple(changes), origin, tuple(lines))


def redo(data: bytes, changes: Iterable[Change]) -> bytes:
    """The bytes after changes. Raises ValueError where what is to give way is not there."""
    for change in changes:
        end = change.at + len(change.old)
        if data[change.at : end] != change.old:
            raise ValueError("these changes were made to another text")
        data = data[: change.at] + change.new + data[end:]
    return data


def taken_back(data: bytes, changes: Sequence[Change]) -> bytes:
    """The bytes before changes: byte for byte what `redo` was given. Raises ValueError for another text."""
    return redo(data, [Change(one.at, one.new, one.old) for one in reversed(changes)])


def write(seen: files.Seen, spliced: Spliced, shelf: FilePath) -> files.Written | Diagnostic:
    """Writes a changed text if the book is still as it was seen, else says why not, with the lines to paste."""
    done = files.write(seen, spliced.data, shelf)
    if isinstance(done, files.Written):
        return done
    return not_written(done, spliced.origin, spliced.lines)


def not_written(done: files.NotWritten, origin: Origin, lines: Sequence[str]) -> Diagnostic:
    """The diagnostic for a write that did not happen."""
    where = f"(it was to stand at line {origin.line} of {origin.book})"
    text = "\n".join(lines)
    if done.reason == "changed":
        return fault("A02-changed-since-read", origin, book=origin.book, where=where, lines=text)
    words = {
        "busy": f"others were writing for {done.detail}",
        "read-back": "it did not read back as it was written; somebody may have changed it at the same moment",
    }
    why = words.get(done.reason, done.detail)
    return fault("A03-not-written", origin, book=origin.book, why=why, where=where, lines=text)


def other_names(done: files.Written, origin: Origin) -> tuple[Diagnostic, ...]:
    """A note where the old book lives on under a second name."""
    count = str(done.other_names)
    return (fault("A04-other-name", origin, book=origin.book, count=count),) if done.other_names else ()


def _may_change(doc: Doc, data: bytes) -> None:
    """Only a text whose indexes are those of the file, and that holds none of YAML's forms that have several readings."""
    if (_BOM if doc.bom else b"") + doc.text.encode("utf-8", "surrogatepass") != data:
        raise Cannot("it holds bytes that are no readable text")
    strange = [one for one in doc.found if one.code in _NOT_OURS]
    if strange:
        raise Cannot(f"it holds what a book may not ({strange[0].code} in line {strange[0].origin.line})")


def _changes(doc: Doc, puts: Sequence[Put]) -> list[Change]:
    """Indexes of characters to places of bytes; the last stretch first, so that the others' places stay."""
    bom = len(_BOM) if doc.bom else 0
    made = []
    for put in sorted(puts, reverse=True):
        at = bom + len(doc.text[: put.start].encode())
        made.append(Change(at, doc.text[put.start : put.end].encode(), put.text.encode()))
    return made


def _guard(doc: Doc, data: bytes, new: bytes, made: Sequence[Change], edit: Edit) -> Doc:
    """Both guards; hands back the new text as read. Raises Cannot with what would have gone wrong."""
    if taken_back(new, made) != data:
        raise Cannot("taking the new text out again would not give the old book")
    again = read_nodes(doc.shown, new)
    if again.root != expected(doc.root, edit):
        raise Cannot("the book would then read otherwise than meant")
    worse = _worse(doc.found, again.found)
    if worse or again.bom != doc.bom:
        raise Cannot(f"the book would then hold a fault it does not hold now ({', '.join(worse)})")
    return again


def _refusal(doc: Doc, edit: Edit, plan: Plan | None, why: str) -> Diagnostic:
    """Why nothing was changed, with the lines as they would be pasted and where."""
    if plan is not None:
        lines, line, where = plan.lines, plan.line, f"{plan.where} of {doc.shown}"
    elif isinstance(edit, NewRecord):
        lines = tuple(item_lines(edit.record, 0, Style(), braces=False))
        where, line = f"at the end of {doc.shown}", max(1, doc.at(len(doc.text))[0])
    else:
        value = [edit.item] if isinstance(edit, NewItem) else edit.value
        lines = tuple(pair_lines(str(edit.path[-1]), value, 2, Style()))
        line = _record_line(doc, edit.path)
        where = f"into the record of line {line} of {doc.shown}"
    origin = Origin(doc.shown, line, 1)
    excerpt = doc.line_text(line)[:WIDEST]
    return fault(
        "A01-not-by-splice",
        origin,
        excerpt=excerpt,
        book=doc.shown,
        why=why,
        where=where,
        lines="\n".join(lines),
    )


def _record_line(doc: Doc, path: Path) -> int:
    place = path[0] if path else 0
    if isinstance(doc.root, list) and isinstance(place, int) and place < len(doc.root):
        return doc.origin(doc.root, place).line
    return 1


def _worse(before: Iterable[Diagnostic], after: Iterable[Diagnostic]) -> list[str]:
    return sorted(Counter(one.code for one in after) - Counter(one.code for one in before))
