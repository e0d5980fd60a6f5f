"""Takes a write out of a book that was edited by hand since, where the edited lines are elsewhere."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from fitlore.books.amend import Change, redo
from fitlore.books.nodes import read_nodes
from fitlore.upkeep.left import stretches


class _Edit(NamedTuple):
    """Whole lines changed by hand: from `low` to `high` in the text a write left, from `start` to `end` in the book now."""

    low: int
    high: int
    start: int
    end: int

    def moved(self, by: int) -> _Edit:
        return _Edit(*(at + by for at in self))


def taken_out(shown: str, left: bytes, now: bytes, changes: Sequence[Change]) -> bytes | None:
    """The book as it is now without what a write changed; `left` is the text that the write left.

    None where a line of the write was edited, or stands so near to an edited one that they may belong together, and where
    the book would hold a fault that it does not hold now.
    """
    edits = [_Edit(*four) for four in stretches(left, now)]
    book = now
    for change in reversed(changes):
        back = Change(change.at, change.new, change.old)
        if any(_together(left, book, edit, back) for edit in edits):
            return None
        place = change.at + sum(
            (edit.end - edit.start) - (edit.high - edit.low) for edit in edits if edit.high <= change.at
        )
        left = redo(left, [back])
        book = redo(book, [Change(place, back.old, back.new)])
        by = len(back.new) - len(back.old)
        edits = [edit.moved(by) if edit.low >= change.at + len(back.old) else edit for edit in edits]
    return None if _worse(shown, now, book) else book


def _together(left: bytes, book: bytes, edit: _Edit, back: Change) -> bool:
    """Whether an edit is in the lines of a change, or touches them where the lower one is no line at the margin."""
    end = back.at + len(back.old)
    low = left.rfind(b"\n", 0, back.at) + 1
    whole = end == low or (end > low and left[end - 1 : end] == b"\n")
    high = end if whole else (left.find(b"\n", end) + 1 or len(left))
    if edit.high < low or edit.low > high:
        return False
    if edit.high == low == high == edit.low:
        return True
    if edit.high == low:
        return not (_at_margin(left[low:]) and _at_margin(left[low : back.at] + back.new + left[end:]))
    return edit.low != high or not _at_margin(book[edit.start :])


def _at_margin(text: bytes) -> bool:
    """Whether the first line that is not blank begins without an indent: it then belongs to nothing above it."""
    return text.lstrip(b"\r\n")[:1] not in (b" ", b"\t")


def _worse(shown: str, before: bytes, after: bytes) -> bool:
    """Whether a text has a fault that the other has not, as far as one book shows it."""
    old, new = (Counter(one.code for one in read_nodes(shown, text).found) for text in (before, after))
    return bool(new - old)
