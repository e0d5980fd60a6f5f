"""The names that somebody who types may have begun: places, parts, cars, suppliers and the like, a line each.

    kind TAB platform TAB name TAB what it is

`begun_lines` makes them, and they are kept beside the store as one text a book. To complete a word is to look through
them: no store, no book, no record.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Final, NamedTuple

import msgspec

MOST: Final = 200
"""So many ways to go on with a number are offered: who sees more types a further letter."""
FILE: Final = "begun"
_BETWEEN: Final = " ./-"
"""What stands between the pieces of a number and makes no difference."""
_WORD: Final = re.compile(r"[^\W_]+")


class Name(NamedTuple):
    """One line: `on` is the platform of a place or car, `about` a few words for those whose shell shows them."""

    kind: str
    on: str
    name: str
    about: str


class Begun:
    """The lines of all books. OSError where there is no such file, msgspec.DecodeError where it is damaged."""

    def __init__(self, snapshot: str) -> None:
        with open(f"{snapshot}/{FILE}", "rb") as file:
            self._texts = msgspec.msgpack.decode(file.read(), type=dict[str, str])

    def names(self, *kinds: str) -> Iterator[Name]:
        """Every name of these kinds."""
        line = re.compile(rf"^({'|'.join(kinds)})\t([^\t\n]*)\t([^\t\n]*)\t([^\n]*)$", re.MULTILINE)
        for text in self._with(*kinds):
            yield from (Name(*found.groups()) for found in line.finditer(text))

    def _with(self, *kinds: str) -> Iterator[str]:
        """The texts of the books that have such a line at all."""
        marks = [f"{kind}\t" for kind in kinds]
        return (text for text in self._texts.values() if any(mark in text for mark in marks))

    def beginning(self, begun: str, *kinds: str) -> dict[str, str]:
        """Those of these kinds that begin so, with what they are; where none does, single words of what they are."""
        low = begun.casefold()
        every = {name.name: name.about for name in self.names(*kinds)}
        found = {name: about for name, about in every.items() if name.casefold().startswith(low)}
        words = {
            word: name
            for name, about in every.items()
            for word in _WORD.findall(f"{name} {about}")
            if word.casefold().startswith(low)
        }
        return dict(sorted((found or words).items()))

    def places(self, platforms: Sequence[str], typed: Sequence[str], begun: str) -> dict[str, str]:
        """Words that go on from `begun` to a place which has all the words typed before, with what they name.

        Names of places and whole paths; where nothing of that begins so, single words of them. No platforms: all.
        """
        before, low = {one for word in typed for one in _words(word)}, begun.casefold()
        whole: dict[str, str] = {}
        single: dict[str, str] = {}
        for place in self._places_with(platforms, {*before, low} - {""}):
            words = _words(place.name)
            if not before <= set(words):
                continue
            assembly, _, own = place.name.partition("/")
            left = (own, place.name) if before else (own, place.name, assembly)
            whole |= {one: place.about for one in left if one.startswith(low) and not _said(one, before)}
            single |= {one: place.about for one in words if one.startswith(low) and one not in before}
        return dict(sorted((whole or single).items()))

    def _places_with(self, platforms: Sequence[str], texts: Iterable[str]) -> Iterator[Name]:
        """The places whose path has all of these texts somewhere in it."""
        on = "|".join(map(re.escape, platforms)) or "[^\\t\\n]*"
        has = "".join(f"(?=[^\\t\\n]*{re.escape(text)})" for text in texts)
        line = re.compile(rf"^(place)\t({on})\t{has}([^\t\n]*)\t([^\n]*)$", re.M | re.I)
        for text in self._with("place"):
            yield from (Name(*found.groups()) for found in line.finditer(text))

    def numbers(self, typed: Sequence[str], begun: str) -> list[str]:
        """How a part's number goes on: the piece that `begun` becomes, the pieces typed before taken for its start."""
        for first in range(len(typed) + 1):
            found = self._numbers(_bare("".join(typed[first:])), begun)
            if found:
                return found
        return []

    def _numbers(self, before: str, begun: str) -> list[str]:
        start = before + _bare(begun)
        if not start or not start.isascii():
            return []
        between = f"[{re.escape(_BETWEEN)}]*"
        line = re.compile(rf"^part\t\t({between.join(map(re.escape, start))}[^\t]*)\t", re.M | re.I)
        found: set[str] = set()
        for text in self._with("part"):
            for hit in line.finditer(text):
                found.add(_piece(hit[1], len(before), begun))
                if len(found) >= MOST:
                    return sorted(found - {""})
        return sorted(found - {""})


def _piece(number: str, before: int, begun: str) -> str:
    """What the begun word becomes: the piece of the number in which it ends, all of it where it was begun in one word."""
    spots = [at for at, sign in enumerate(number) if sign not in _BETWEEN]
    if before >= len(spots):
        return ""
    first = spots[before]
    last = spots[before + len(_bare(begun)) - 1] + 1 if _bare(begun) else first
    end = number.find(" ", last)
    end = len(number) if end < 0 else end
    return number[first:end] if " " not in number[first:last] else begun + number[last:].replace(" ", "")


def _bare(text: str) -> str:
    return "".join(sign for sign in text if sign not in _BETWEEN)


def _words(text: str) -> list[str]:
    return _WORD.findall(text.casefold())


def _said(name: str, before: set[str]) -> bool:
    return set(_words(name)) <= before
