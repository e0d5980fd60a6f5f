"""How a graph is asked: rows of named queries decoded once into records, sorted, remembered."""

from __future__ import annotations

import functools
from collections.abc import Iterable
from typing import Final, TypeVar

import msgspec

from fitlore.graph.derive import KINDS, kind_in, name_of
from fitlore.graph.store import Facts
from fitlore.model.placed import PlaceOn
from fitlore.model.record import Rec

R = TypeVar("R", bound=Rec)
BUILTIN: Final = "kb"
"""The name of the built-in shelf."""
_KNOWN: Final = frozenset({"parts", "replaces"})
"""Queries that mostly find, of many keys, what was read before: they are asked for nodes, and only new ones are read."""
_FEW: Final = 4
_MANY: Final = ("", "")
_WORD: Final = {struct: kind for kind, struct in KINDS.items()}


class Records:
    """The records of all layers, by query and key. `shelves` are named nearest first; the built-in one is the last."""

    def __init__(self, facts: Facts, shelves: tuple[str, ...]) -> None:
        self._facts, self._shelves = facts, shelves
        self._nodes: dict[tuple[str, str], tuple[str, ...]] = {}
        self._records: dict[str, Rec] = {}
        self._ones: dict[tuple[type[Rec], str], Rec | None] = {}

    def look(self, struct: type[R], query: str, keys: Iterable[str]) -> tuple[R, ...]:
        """The records that a named query finds for any of these keys: each once, the nearest shelf first, by line."""
        wanted = sorted(set(keys))
        if len(wanted) == 1 and len(known := self._nodes.get((query, wanted[0]), _MANY)) <= 1:
            return tuple(one for one in map(self._records.__getitem__, known) if isinstance(one, struct))
        self._fetch(query, [key for key in wanted if (query, key) not in self._nodes])
        nodes = dict.fromkeys(node for key in wanted for node in self._nodes[query, key])
        if not nodes:
            return ()
        found = [(node, self._records[node]) for node in nodes]
        found.sort(key=lambda pair: (*self._rank(pair[1]), pair[0]))
        records = tuple(record for _, record in found if isinstance(record, struct))
        return _nearest(records) if struct is PlaceOn else records

    def one(self, struct: type[R], name: str) -> R | None:
        """The record of this kind and name: the nearest, or with `shelf:name` the one of that shelf."""
        if (struct, name) not in self._ones:
            shelf, _, bare = name.rpartition(":")
            found = self.look(struct, "named", [f"{_WORD[struct]} {bare}"])
            here = (record for record in found if not shelf or shelf_of(record) == shelf)
            self._ones[struct, name] = next(here, None)
        one = self._ones[struct, name]
        return one if isinstance(one, struct) else None

    def every(self, struct: type[R]) -> tuple[R, ...]:
        """Every record of a kind, of those with the same name the nearest only."""
        found: dict[str, R] = {}
        for record in self.all_of(struct):
            found.setdefault(name_of(record), record)
        return tuple(found.values())

    def all_of(self, struct: type[R]) -> tuple[R, ...]:
        """Every record of a kind."""
        return self.look(struct, "of_kind", [_WORD[struct]])

    def _fetch(self, query: str, keys: list[str]) -> None:
        if not keys:
            return
        by_key: dict[str, list[str]] = {key: [] for key in keys}
        if query in _KNOWN and len(keys) > _FEW:
            for key, node in self._facts.nodes(query, keys):
                by_key[key].append(node)
                if node not in self._records:
                    self._records[node] = _read(kind_in(node), self._facts.said(node))
        else:
            for row in self._facts.run(query, keys):
                by_key[row.key].append(row.node)
                if row.node not in self._records:
                    self._records[row.node] = _read(row.kind, row.record)
        self._nodes.update({(query, key): tuple(nodes) for key, nodes in by_key.items()})

    def _rank(self, record: Rec) -> tuple[int, str, int, int]:
        shelf, shelves = shelf_of(record), self._shelves
        near = shelves.index(shelf) if shelf in shelves else len(shelves) + (shelf == BUILTIN)
        return near, record.origin.book, record.origin.line, record.origin.column


def _nearest(records: tuple[R, ...]) -> tuple[R, ...]:
    """Places that two shelves describe as the nearest shelf has them, as with everything that has a name."""
    found: dict[str, R] = {}
    for record in records:
        found.setdefault(record.full_path if isinstance(record, PlaceOn) else "", record)
    return tuple(found.values())


def shelf_of(record: Rec) -> str:
    """The shelf a record stands on: the first piece of its book's shown path."""
    return record.origin.book.partition("/")[0]


def _read(kind: str, said: str) -> Rec:
    return _decoder(kind).decode(said)


@functools.cache
def _decoder(kind: str) -> msgspec.json.Decoder[Rec]:
    return msgspec.json.Decoder(KINDS[kind])
