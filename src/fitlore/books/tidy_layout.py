"""A book as it is laid out: entries with the comments and blank lines above them, and what follows them on their lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from fitlore.books.tidy_shape import Shape
from fitlore.model.origin import Origin


@dataclass(slots=True, frozen=True)
class Note:
    """A comment behind something on its line; columns count from 0."""

    text: str
    column: int


@dataclass(slots=True)
class Leaf:
    """A scalar, or a collection in brackets, as its lines without margins.

    The lines after the first are set in from the column of the key or dash that holds them.
    """

    lines: list[str]
    insets: list[int]
    """For each line how far it is set in; -1 for a line without text."""
    column: int
    above: list[str] = field(default_factory=list)
    """Comments between the key (or dash) and the value."""
    note: Note | None = None
    commented: bool = False
    """Whether it has comments inside."""


@dataclass(slots=True)
class Entry:
    """A key with its value, or an item (then `key` is empty)."""

    key: str
    """As it is to be written."""
    name: str
    column: int
    """Of the key or dash in the old text."""
    lead: list[str]
    """Comments above it, and "" for blank lines."""
    note: Note | None
    """A comment between the key (or dash) and the end of its line."""
    value: Leaf | Block
    tail: list[str] = field(default_factory=list)
    """Comments below an item that are indented deeper than its dash."""


@dataclass(slots=True)
class Block:
    """A mapping or list written over lines."""

    entries: list[Entry]
    shape: Shape
    origin: Origin
    tail: list[str] = field(default_factory=list)
    """Comments below the last entry that belong to it."""


def has_comment(entry: Entry) -> bool:
    """Whether a comment is above, on, in or below an entry."""
    return any(_comments(entry))


def _comments(entry: Entry) -> Iterator[bool]:
    yield any(entry.lead)
    yield entry.note is not None
    yield any(entry.tail)
    if isinstance(entry.value, Leaf):
        yield bool(entry.value.above) or entry.value.note is not None or entry.value.commented
    else:
        yield any(entry.value.tail)
        for inner in entry.value.entries:
            yield from _comments(inner)
