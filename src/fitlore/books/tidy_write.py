"""A layout in order and as lines: keys as the Structs have them, two columns to a step, one blank line between records."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from heapq import heapify, heappop, heappush
from typing import Final, NamedTuple

from fitlore.books.tidy_layout import Block, Entry, Leaf, Note, has_comment
from fitlore.books.tidy_shape import rank
from fitlore.model.origin import Origin

_STEP: Final = 2


def arrange(block: Block) -> Iterator[Origin]:
    """Puts the keys of all records in order, as far as no two comments change places.

    Hands back where a mapping begins whose keys stay out of order for that.
    """
    for entry in block.entries:
        if isinstance(entry.value, Block):
            if not entry.key and entry.note is None:
                first = entry.value.entries[0]
                entry.lead, first.lead = entry.lead + _parted(first.lead)[1], []
            yield from _arrange_keys(entry.value)
            yield from arrange(entry.value)


def _arrange_keys(block: Block) -> Iterator[Origin]:
    """Puts the keys of one mapping in order; where not even the first key can come first, all stay as they are."""
    if block.shape.record is None or not block.entries[0].key:
        return
    wanted = sorted(block.entries, key=lambda one: rank(block.shape, one.name))
    found = _ordered(block)
    if found != wanted:
        yield block.origin
    if found[0] is wanted[0]:
        if found[0] is not block.entries[0]:
            _swap_blanks(block.entries[0], found[0])
        block.entries = found


def _ordered(block: Block) -> list[Entry]:
    """Always the next key of the Struct's order; of the entries with comments only the one that is first in the text."""
    ranked = [(rank(block.shape, entry.name), place, entry) for place, entry in enumerate(block.entries)]
    waiting = deque(row for row in ranked if has_comment(row[2]))
    free = [row for row in ranked if not has_comment(row[2])]
    if waiting:
        free.append(waiting[0])
    heapify(free)
    done: list[Entry] = []
    while free:
        row = heappop(free)
        done.append(row[2])
        if waiting and row is waiting[0]:
            waiting.popleft()
            if waiting:
                heappush(free, waiting[0])
    return done


def _swap_blanks(old: Entry, new: Entry) -> None:
    """Blank lines above the first entry stay above the first; a paragraph the new first began now begins with the old."""
    old_blanks, old_lead = _parted(old.lead)
    new_blanks, new_lead = _parted(new.lead)
    old.lead, new.lead = new_blanks + old_lead, old_blanks + new_lead


def _parted(lead: list[str]) -> tuple[list[str], list[str]]:
    """The blank lines at the beginning, and the rest."""
    count = next((place for place, line in enumerate(lead) if line), len(lead))
    return lead[:count], lead[count:]


def lines(root: Block) -> list[str]:
    """The lines of a book."""
    found: list[str] = []
    for place, entry in enumerate(root.entries):
        text = _item(entry, 0)
        lead = _squeezed(text.lead)
        if not place:
            lead = _parted(lead)[1]
        elif "" not in lead:
            lead.insert(0, "")
        found += lead + text.body
    found += _squeezed(root.tail)
    while found and not found[-1]:
        found.pop()
    return found


class _Text(NamedTuple):
    """Lines of an entry or block; those above it have no margin yet, as they may stand above a dash instead."""

    lead: list[str]
    body: list[str]


def _block(block: Block, indent: int) -> _Text:
    found: list[str] = []
    first: list[str] = []
    for place, entry in enumerate(block.entries):
        text = _pair(entry, indent) if entry.key else _item(entry, indent)
        if place:
            found += _at(_squeezed(text.lead), indent)
        else:
            first = text.lead
        found += text.body
    return _Text(first, found + _at(_squeezed(block.tail), indent))


def _pair(entry: Entry, indent: int) -> _Text:
    """A key with its value."""
    head = " " * indent + entry.key + ":"
    shift = indent - entry.column
    if isinstance(entry.value, Block):
        inner = _block(entry.value, indent + _STEP)
        above = _at(_squeezed(inner.lead), indent + _STEP)
        return _Text(entry.lead, [_noted(head, entry.note, shift), *above, *inner.body])
    leaf = entry.value
    if entry.note is None and not leaf.above:
        return _Text(entry.lead, _leaf(leaf, head + " ", indent, shift))
    return _Text(entry.lead, [_noted(head, entry.note, shift), *_below(leaf, indent)])


def _item(entry: Entry, indent: int) -> _Text:
    """An item; comments above the first thing in it stand above its dash, if there is no comment behind the dash."""
    inset, dash = indent + _STEP, " " * indent + "- "
    tail = _at(_squeezed(entry.tail), inset)
    if isinstance(entry.value, Leaf):
        leaf = entry.value
        if entry.note is not None:
            head = _noted(dash.rstrip(), entry.note, indent - entry.column)
            return _Text(entry.lead, [head, *_below(leaf, indent), *tail])
        body = _leaf(leaf, dash, indent, inset - leaf.column)
        return _Text(entry.lead + leaf.above, body + tail)
    inner = _block(entry.value, inset)
    above = _parted(inner.lead)[1]
    if entry.note is not None:
        head = _noted(dash.rstrip(), entry.note, indent - entry.column)
        return _Text(entry.lead, [head, *_at(_squeezed(above), inset), *inner.body])
    first, *rest = inner.body
    return _Text(entry.lead + above, [dash + first[inset:], *rest])


def _below(leaf: Leaf, base: int) -> list[str]:
    """A leaf on lines of its own, below its key or dash."""
    inset = base + _STEP
    return _at(leaf.above, inset) + _leaf(leaf, " " * inset, base, inset - leaf.column)


def _leaf(leaf: Leaf, head: str, base: int, shift: int) -> list[str]:
    """The lines of a leaf, the first one behind `head`, the others set in from the column of the key or dash."""
    found = [head + leaf.lines[0]]
    for line, inset in zip(leaf.lines[1:], leaf.insets[1:], strict=True):
        found.append(" " * (base + inset) + line if inset >= 0 else line)
    found[-1] = _noted(found[-1], leaf.note, shift)
    return found


def _noted(line: str, note: Note | None, shift: int) -> str:
    """A line with the comment behind it, which keeps its column (moved with the line) where there is room."""
    if note is None:
        return line
    return line.ljust(max(len(line) + 1, note.column + shift)) + note.text


def _at(found: list[str], indent: int) -> list[str]:
    return [" " * indent + line if line else "" for line in found]


def _squeezed(found: list[str]) -> list[str]:
    """Without second blank lines."""
    return [line for place, line in enumerate(found) if line or not place or found[place - 1]]
