"""One pass over one tree: where its values stand, and what was found."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final, Protocol, TypeAlias

from fitlore.books.doc import Holder, Spot, Tree, fault_at
from fitlore.books.faults import MOST, severity_of
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin

_MOST_SEARCHES: Final = 500


class Source(Protocol):
    """Where the values of a tree stand: a `Doc`, or the like for a book of RDF."""

    shown: str

    def key(self, holder: Holder, key: str | int) -> Spot:
        """The place of a key, or of an item of a list."""
        ...

    def value(self, holder: Holder, key: str | int) -> Spot:
        """The place of a value."""
        ...

    def start(self, holder: Holder) -> Spot:
        """The place where a collection begins."""
        ...

    def origin(self, holder: Holder, key: str | int | None = None) -> Origin:
        """The origin of a key or item, or of the collection itself."""
        ...

    def plain(self, holder: Holder, key: str | int) -> bool:
        """Is this text written without quotes?"""
        ...

    def flow(self, holder: Holder) -> bool:
        """Is this collection written in brackets?"""
        ...


class Bad:
    """What a reader hands back for a value that was reported."""


BAD: Final = Bad()
Reader: TypeAlias = Callable[[Tree, Holder, str | int, "Walk"], Any]
"""(value, the collection it stands in, its key or index there, the walk) -> the typed value, or BAD."""


class Walk:
    """One pass over one tree: where things stand, and what was found."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.diagnostics: list[Diagnostic] = []
        self.errors = 0
        """How many of the faults were errors, also of those that are not told."""
        self.others = 0
        """How many were warnings or notes: however many there are, no error goes untold for them."""
        self.more = 0
        """Faults beyond those that are told."""
        self._searches = _MOST_SEARCHES

    def add(self, code: str, spot: Spot, **values: str) -> Bad:
        """Reports a fault at a place."""
        error = severity_of(code) is Severity.ERROR
        self.errors += error
        self.others += not error
        if (self.errors if error else self.others) <= MOST:
            self.diagnostics.append(fault_at(self.source.shown, spot, code, values))
        else:
            self.more += 1
        return BAD

    def may_search(self) -> bool:
        """Whether a near word is looked for once more: that is slow, and nobody reads thousands of them."""
        self._searches -= 1
        return self._searches >= 0
