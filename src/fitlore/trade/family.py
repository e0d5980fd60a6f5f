"""Families of standards, by the kind a feature has: the one door through which other rooms use them.

A family reads a designation and holds an offered one against a needed one. To add a family: its rows in `standards`, its
own module, and one line in `FAMILIES`.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, Protocol

from fitlore.model.choices import End
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.thread.family import ThreadFamily

__all__ = ["FAMILIES", "Family", "FamilyResult", "FamilyState", "Reading", "Unreadable", "compare_texts"]


class Family(Protocol):
    """What a family of standards can do. Both functions are pure and take any text."""

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """What a designation says, or why it says nothing: `books` reports the latter where the text is written."""
        ...

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """How the offered designation stands against the needed one, for parts that both have the half `end`."""
        ...


FAMILIES: Final[Mapping[str, Family]] = {"thread": ThreadFamily()}
"""Feature kind to the family that reads and compares it."""


def compare_texts(kind: str, needed: str, offered: str, end: str | End, standards: Standards) -> FamilyResult:
    """Hold an offered designation against the needed one, both as written in a book.

    `end` is `male` or `female`: which half of the joint the part has. `KeyError` where no family has this kind.
    """
    return FAMILIES[kind].compare(needed, offered, End(end), standards)
