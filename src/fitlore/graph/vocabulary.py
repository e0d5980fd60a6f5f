"""The words of names, small enough to be kept as one file: what a text typed by somebody can hit."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain
from typing import Final, NamedTuple, Protocol

import msgspec

from fitlore.graph.words import LANGUAGES, bare, meant, stem, words
from fitlore.model.category import Category
from fitlore.model.platform import Car, Platform
from fitlore.model.record import Rec
from fitlore.model.supply import Supplier

NAME: Final = 0
ACCENT: Final = 1
PLURAL: Final = 2
"""How a word was reached: as it stands, with accents missing, by its stem. The less the better."""


class Entry(msgspec.Struct, frozen=True, array_like=True, order=True):
    """One name of something: `kind` is category, place, assembly, platform, car or supplier, `key` its name in the books.

    Places and assemblies go by their own names, without platform: platforms share them, which keeps this small.
    """

    kind: str
    key: str
    text: str
    language: str
    """Empty where the book does not say."""
    words: tuple[str, ...]


class Hit(NamedTuple):
    """An entry some of whose words were typed. `cover`: place of a typed word -> how it was reached."""

    entry: Entry
    full: bool
    """Every word of the entry was typed."""
    cover: dict[int, int]


class Words(Protocol):
    """All entries, and where each word (and each name's words joined, for `tail light` and `taillight`) occurs."""

    def entry(self, number: int) -> Entry:
        """The entry of this number."""
        ...

    def entries(self) -> Iterable[Entry]:
        """All of them, in order."""
        ...

    def words(self, key: str) -> Sequence[tuple[int, int]]:
        """Where the word of this key occurs: number of the entry, place of the word in it."""
        ...

    def wholes(self, key: str) -> Sequence[int]:
        """The entries whose words joined have this key."""
        ...


class Index(NamedTuple):
    """The same in memory."""

    every: tuple[Entry, ...]
    by_word: dict[str, tuple[tuple[int, int], ...]]
    by_whole: dict[str, tuple[int, ...]]

    def entry(self, number: int) -> Entry:
        """The entry of this number."""
        return self.every[number]

    def entries(self) -> Iterable[Entry]:
        """All of them, in order."""
        return self.every

    def words(self, key: str) -> Sequence[tuple[int, int]]:
        """Where the word of this key occurs: number of the entry, place of the word in it."""
        return self.by_word.get(key, ())

    def wholes(self, key: str) -> Sequence[int]:
        """The entries whose words joined have this key."""
        return self.by_whole.get(key, ())


def index_of(entries: Iterable[Entry]) -> Index:
    """The index of these entries; each counts once."""
    every = tuple(sorted(set(entries)))
    by_word: dict[str, list[tuple[int, int]]] = {}
    by_whole: dict[str, list[int]] = {}
    for number, entry in enumerate(every):
        for at, word in enumerate(entry.words):
            for key in _entry_keys(word, entry.language):
                by_word.setdefault(key, []).append((number, at))
        for key in _entry_keys("".join(entry.words), entry.language):
            by_whole.setdefault(key, []).append(number)
    words = {key: tuple(places) for key, places in by_word.items()}
    return Index(every, words, {key: tuple(numbers) for key, numbers in by_whole.items()})


class Vocabulary:
    """All names, found by the words typed."""

    def __init__(self, index: Words) -> None:
        self._index = index

    @functools.cached_property
    def words(self) -> frozenset[str]:
        """Every word of every entry, folded."""
        return frozenset(word for entry in self._index.entries() for word in entry.words)

    @functools.cached_property
    def wholes(self) -> frozenset[str]:
        """The words of each entry joined."""
        return frozenset("".join(entry.words) for entry in self._index.entries())

    def knows(self, word: str) -> bool:
        """Whether some name has this folded word, or is it when its words are joined."""
        keys = [key for key, how in _asked_keys(word, LANGUAGES)]
        return any(self._index.words(key) or self._index.wholes(key) for key in keys) or bool(meant(word))

    def hits(self, typed: tuple[str, ...]) -> list[Hit]:
        """Every entry that one of these folded words hits, in the order of the vocabulary."""
        reached: dict[int, dict[int, dict[int, int]]] = {}
        for here, word in enumerate(typed):
            for number, at_words in chain(self._reached([word]), self._reached(meant(word))):
                for at, how in at_words.items():
                    at_word = reached.setdefault(number, {}).setdefault(at, {})
                    at_word[here] = min(how, at_word.get(here, how))
        found = {number: self._hit(number, at_words) for number, at_words in reached.items()}
        for number, hit in self._whole(typed):
            if number not in found or not found[number].full:
                found[number] = hit
        return [found[number] for number in sorted(found)]

    def _reached(self, together: Sequence[str]) -> Iterable[tuple[int, dict[int, int]]]:
        """The entries that have all of these words: at which of their own words, and how each was reached."""
        found: dict[int, dict[int, int]] = {}
        for first, word in enumerate(together):
            these: dict[int, dict[int, int]] = {}
            for key, how in self._keys(word):
                for number, at in self._index.words(key):
                    at_words = these.setdefault(number, {})
                    at_words[at] = min(how, at_words.get(at, how))
            found = (
                these
                if not first
                else {number: found[number] | these[number] for number in found.keys() & these.keys()}
            )
        return found.items()

    def _keys(self, word: str) -> list[tuple[str, int]]:
        """The keys of a word typed. One that names have as it stands is the plural or singular of others in their languages
        only: an English lamp is no German Lampe.
        """
        here = f"={word}"
        numbers = [*(number for number, at in self._index.words(here)), *self._index.wholes(here)]
        known = {self._index.entry(number).language.partition("-")[0] for number in numbers} - {""}
        return _asked_keys(word, known or LANGUAGES)

    def _hit(self, number: int, at_words: dict[int, dict[int, int]]) -> Hit:
        entry, cover = self._index.entry(number), dict[int, int]()
        for by_typed in at_words.values():
            for here, how in by_typed.items():
                cover[here] = min(how, cover.get(here, how))
        return Hit(entry, len(at_words) == len(entry.words), cover)

    def _whole(self, typed: tuple[str, ...]) -> Iterator[tuple[int, Hit]]:
        for first in range(len(typed)):
            for last in range(first + 1, min(len(typed), first + 6) + 1):
                for key, how in self._keys("".join(typed[first:last])):
                    for number in self._index.wholes(key):
                        yield (
                            number,
                            Hit(self._index.entry(number), True, dict.fromkeys(range(first, last), how)),
                        )


def vocabulary_of(names: Mapping[str, Iterable[Entry]]) -> Vocabulary:
    """The vocabulary of all names of all books."""
    return Vocabulary(index_of(entry for entries in names.values() for entry in entries))


def entries_of(records: Iterable[Rec]) -> set[Entry]:
    """Every name that a book's records give something."""
    return {entry for record in records for entry in _entries(record) if entry.words}


def _entries(record: Rec) -> Iterator[Entry]:
    if isinstance(record, Category):
        yield _entry("category", record.category, record.category, "en")
        for language, name in record.names.items():
            yield _entry("category", record.category, name, language)
        for language, names in record.also.items():
            yield from (_entry("category", record.category, name, language) for name in names)
    elif isinstance(record, Platform):
        yield from _named("platform", record.platform, record.name)
        for name, assembly in record.assemblies.items():
            yield _entry("assembly", name, name, "en")
            yield from (_entry("assembly", name, called, "") for called in assembly.called)
            yield from (_entry("place", place, place, "en") for place in assembly.places)
    elif isinstance(record, Car):
        yield from _named("car", record.car, record.name)
    elif isinstance(record, Supplier):
        yield from _named("supplier", record.supplier, record.name)


def _named(kind: str, key: str, name: str) -> Iterator[Entry]:
    yield _entry(kind, key, key, "")
    if name:
        yield _entry(kind, key, name, "")


def _entry(kind: str, key: str, text: str, language: str) -> Entry:
    return Entry(kind, key, text, language, words(text))


def _entry_keys(word: str, language: str) -> set[str]:
    known = language.partition("-")[0]
    stems = {f"{at}:{stem(word, at)}" for at in LANGUAGES if known in ("", at)}
    return {f"={word}", f"~{bare(word)}"} | stems


def _asked_keys(word: str, languages: Iterable[str]) -> list[tuple[str, int]]:
    stems = [(f"{language}:{stem(word, language)}", PLURAL) for language in languages]
    return [(f"={word}", NAME), (f"~{bare(word)}", ACCENT), *stems]
