"""Families of standards, by the kind a feature has: the one door through which other rooms use them.

A family reads a designation, holds an offered one against a needed one, and lists its sizes for the one who measures. To
add a family: its rows in `kb/standards`, its package (`tables.py`, `family.py`), one line in `registry.py`, its sentences.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from importlib import import_module
from typing import Final, Protocol, cast

import msgspec

from fitlore.model.choices import End
from fitlore.trade.registry import KINDS
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards

__all__ = [
    "FAMILIES",
    "About",
    "Family",
    "FamilyResult",
    "FamilyState",
    "Reading",
    "Unreadable",
    "compare_texts",
]


class About(msgspec.Struct, frozen=True):
    """What there is to say of a family as such, for people: the page of families is made of these and of the tables."""

    title: str
    standards: tuple[str, ...]
    """The standards by number, as they are cited."""
    spellings: tuple[str, ...]
    """Designations as people write them, each readable."""
    not_said: tuple[str, ...]
    """What the designation does not say, and a joint or a job may still fail by."""
    gaps: tuple[str, ...]
    """What is known to be missing here."""
    ended: bool = False
    """Whether it matters which half of a joint the part has."""


class Family(Protocol):
    """What a family of standards can do. All functions are pure and take any text."""

    about: About

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """What a designation says, or why it says nothing: `books` reports the latter where the text is written."""
        ...

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """How the offered designation stands against the needed one, for parts that both have the half `end`."""
        ...

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Every listed size with its measures; none where nothing can be told by measuring."""
        ...


class _Families(Mapping[str, Family]):
    """Feature kind to family, each imported when first asked for."""

    def __init__(self) -> None:
        self._met: dict[str, Family] = {}

    def __getitem__(self, kind: str) -> Family:
        if kind not in self._met:
            self._met[kind] = cast(
                Family, import_module(f"fitlore.trade.{KINDS[kind]}.family").FAMILIES[kind]
            )
        return self._met[kind]

    def __iter__(self) -> Iterator[str]:
        return iter(KINDS)

    def __len__(self) -> int:
        return len(KINDS)

    def __contains__(self, kind: object) -> bool:
        return kind in KINDS


FAMILIES: Final[Mapping[str, Family]] = _Families()
"""Feature kind to the family that reads and compares it."""


def compare_texts(kind: str, needed: str, offered: str, end: str | End, standards: Standards) -> FamilyResult:
    """Hold an offered designation against the needed one, both as written in a book.

    `end` is `male` or `female`: which half of the joint the part has. `KeyError` where no family has this kind.
    """
    return FAMILIES[kind].compare(needed, offered, End(end), standards)
