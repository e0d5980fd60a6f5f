"""The index of all names as a file of which a look-up reads a few hundred bytes, however many names there are.

    two counts; where each drawer begins; where each entry begins; the drawers; the entries

A key lies in the drawer that its checksum names; a drawer is a small table of keys. Numbers are little-endian.
"""

from __future__ import annotations

import mmap
import struct
import zlib
from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

import msgspec

from fitlore.graph.vocabulary import Entry, Index

_PER_DRAWER: Final = 4
_WIDE: Final = 4
_HEAD: Final = 2 * _WIDE


class _Lies(NamedTuple):
    """Where a key lies: (entry, place of the word in it) where it is a word, entries where it is a whole name."""

    words: tuple[tuple[int, int], ...] = ()
    wholes: tuple[int, ...] = ()


_drawer: Final = msgspec.msgpack.Decoder(dict[str, _Lies])
_entry: Final = msgspec.msgpack.Decoder(Entry)


def packed(index: Index) -> bytes:
    """The file's content."""
    keys = index.by_word.keys() | index.by_whole.keys()
    drawers: list[dict[str, _Lies]] = [{} for _ in range(len(keys) // _PER_DRAWER + 1)]
    for key in sorted(keys):
        lies = _Lies(index.by_word.get(key, ()), index.by_whole.get(key, ()))
        drawers[_number(key, len(drawers))][key] = lies
    encode = msgspec.msgpack.Encoder().encode
    blobs = [*map(encode, drawers), *map(encode, index.every)]
    counts = struct.pack("<2I", len(drawers), len(index.every))
    return b"".join([counts, *_begins(blobs), *blobs])


def _begins(blobs: Iterable[bytes]) -> Iterator[bytes]:
    sizes = [len(blob) for blob in blobs]
    at = _HEAD + (len(sizes) + 1) * _WIDE
    for size in [*sizes, 0]:
        yield struct.pack("<I", at)
        at += size


def _number(key: str, drawers: int) -> int:
    return zlib.crc32(key.encode()) % drawers


class KeptWords:
    """The index read from its file: the same as an `Index`. OSError where there is no file."""

    def __init__(self, path: str) -> None:
        with open(path, "rb") as file:
            self._data = mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ)
        self._drawers, self._count = struct.unpack_from("<2I", self._data)

    def entry(self, number: int) -> Entry:
        """The entry of this number."""
        return _entry.decode(self._blob(self._drawers + number))

    def entries(self) -> Iterator[Entry]:
        """All of them, in order."""
        return (self.entry(number) for number in range(self._count))

    def words(self, key: str) -> tuple[tuple[int, int], ...]:
        """Where a word occurs: number of the entry, place of the word in it."""
        return self._lies(key).words

    def wholes(self, key: str) -> tuple[int, ...]:
        """The entries whose words joined are this."""
        return self._lies(key).wholes

    def _lies(self, key: str) -> _Lies:
        drawer = _drawer.decode(self._blob(_number(key, self._drawers)))
        return drawer.get(key, _Lies())

    def _blob(self, number: int) -> bytes:
        begin, end = struct.unpack_from("<2I", self._data, _HEAD + number * _WIDE)
        return self._data[begin:end]
