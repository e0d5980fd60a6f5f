"""The texts of books as writes left them: what tells an edit made by hand since from what was written.

`.fitlore/left` in the shop's folder holds a text per file, named by its SHA-256. Where one write followed another with no
edit in between, only the later text is there: the earlier one is had by taking the later write back. A text that is missing
loses nothing but this: a book edited since is then not taken back around the edit.
"""

from __future__ import annotations

import contextlib
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from fitlore.books import amend, files
from fitlore.upkeep import journal
from fitlore.upkeep.journal import Entry

NAME: Final = "left"


def keep(shop: Path, text: bytes) -> None:
    """Keeps a text, where the disk lets us."""
    folder = shop / journal.FOLDER / NAME
    path = folder / files.digest(text)
    draft = path.with_suffix(".new")
    with contextlib.suppress(OSError):
        folder.mkdir(exist_ok=True)
        draft.write_bytes(text)
        draft.replace(path)


def sweep(shop: Path, entries: list[Entry]) -> None:
    """Takes away the texts that no write asks for any more, or that are had from a later one."""
    standing = journal.standing(entries)
    followed = {(entry.path, entry.before): entry.number for entry in standing}
    wanted = {one.after for one in standing if followed.get((one.path, one.after), 0) <= one.number}
    with contextlib.suppress(OSError):
        for file in list((shop / journal.FOLDER / NAME).iterdir()):
            if file.name not in wanted:
                file.unlink()


def text_after(shop: Path, entry: Entry, entries: list[Entry], now: bytes | None) -> bytes | None:
    """A book as a write left it, from its kept text, from later writes or from the book of `now`; None where it is lost."""
    later = [one for one in journal.standing(entries) if one.path == entry.path and one.number > entry.number]
    chain, text = [entry], _text(shop, entry.after, now)
    while text is None:
        following = next((one for one in later if one.before == chain[-1].after), None)
        if following is None:
            return None
        later = later[later.index(following) + 1 :]
        chain.append(following)
        text = _text(shop, following.after, now)
    for following in reversed(chain[1:]):
        text = text_before(text, following)
        if text is None:
            return None
    return text


def text_before(text: bytes, entry: Entry) -> bytes | None:
    """What a write found, from the text it left; None where the two do not belong together."""
    try:
        before = amend.taken_back(text, entry.changes)
    except ValueError:
        return None
    return before if files.digest(before) == (entry.before or files.digest(b"")) else None


def _text(shop: Path, digest: str, now: bytes | None) -> bytes | None:
    if now is not None and files.digest(now) == digest:
        return now
    with contextlib.suppress(OSError):
        text = (shop / journal.FOLDER / NAME / digest).read_bytes()
        return text if files.digest(text) == digest else None
    return None


def stretches(before: bytes, after: bytes) -> Sequence[tuple[int, int, int, int]]:
    """The whole lines in which two texts differ: first and last byte of each stretch in the one, and in the other."""
    from difflib import SequenceMatcher

    one, other = before.splitlines(keepends=True), after.splitlines(keepends=True)
    starts, other_starts = _starts(one), _starts(other)
    found, last = [], 0
    codes = SequenceMatcher(None, one, other).get_opcodes()
    for at, (what, low, high, from_, to) in enumerate(codes):
        if what == "equal":
            continue
        above = low - last
        below = codes[at + 1][2] - codes[at + 1][1] if at + 1 < len(codes) else 0
        by = _slide(one, low, high, above, below) if what == "delete" else 0
        by = _slide(other, from_, to, above, below) if what == "insert" else by
        last = high + by
        found.append((starts[low + by], starts[high + by], other_starts[from_ + by], other_starts[to + by]))
    return found


def _slide(lines: Sequence[bytes], low: int, high: int, above: int, below: int) -> int:
    """By how many lines a stretch put in or taken out is moved: the same text, but begun at a blank line, or at the margin.

    Between two records it is then the one with the blank line above it that came or went, as people see it.
    """
    up, down = 0, 0
    while up < above and lines[low - up - 1] == lines[high - up - 1]:
        up += 1
    while down < below and lines[low + down] == lines[high + down]:
        down += 1
    ways = sorted(range(-up, down + 1), key=abs)
    blank = (by for by in ways if not lines[low + by].strip())
    margin = (by for by in ways if not lines[low + by].startswith((b" ", b"\t")))
    return next(blank, next(margin, 0))


def _starts(lines: Sequence[bytes]) -> list[int]:
    starts = [0]
    for line in lines:
        starts.append(starts[-1] + len(line))
    return starts
