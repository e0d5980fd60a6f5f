"""What a snapshot was made of: the books as they stood, so that a change is seen without reading them."""

from __future__ import annotations

import hashlib
import os
import stat
import time
from collections.abc import Iterable
from pathlib import Path
from typing import Final, NamedTuple

import msgspec

from fitlore.model.choices import How
from fitlore.model.job import Shop

SETTLED: Final = 2_000_000_000
"""Nanoseconds after its last change from which a file's times are believed: file systems tick as slowly as this (FAT)."""


class Seen(msgspec.Struct, frozen=True, array_like=True):
    """A file or folder as it stood. What is not there has no inode; the digest of a folder is that of its names."""

    path: str
    size: int = 0
    changed: int = 0
    """Last change of its content, ns."""
    touched: int = 0
    """Last change of its inode (content, name, rights), ns."""
    inode: int = 0
    digest: str = ""


class Book(msgspec.Struct, frozen=True, array_like=True):
    """A book that is in the snapshot, and under which terms it was read."""

    shown: str
    path: str
    graph: str
    trust: How | None
    digest: str


class Manifest(msgspec.Struct, frozen=True, array_like=True):
    """All of it. `made` is the time before the first look at a file (ns): what changed later is looked at again."""

    made: int
    seen: tuple[Seen, ...]
    books: tuple[Book, ...]
    standards: str
    """Digest over the tables of standards: designations are read by them, so other tables are another snapshot."""
    shop: Shop
    shelves: tuple[str, ...]
    trust: dict[str, How]
    restless: bool
    """fitlore.yaml has faults, such as a folder that is not there: what would mend it is not among the files seen."""


class Now(NamedTuple):
    """How the files stand against a manifest."""

    same: bool
    """Nothing that counts is different."""
    sure: bool
    """That was seen from their times alone; else something was read, and is noted anew in `seen`."""
    seen: tuple[Seen, ...]
    at: int
    """The time before the first look (ns)."""


def look(path: str) -> Seen:
    """How a file or folder stands now."""
    return take(path)[0]


def take(path: str) -> tuple[Seen, bytes | None]:
    """How a file stands now, and what is in it (None where it cannot be read). What changes meanwhile is read again.

    The digest is empty where it cannot be read: that is seen again, and told, whenever books are read.
    """
    before = _stat(path)
    data: bytes | None = None
    for _ in range(20):
        if before is None:
            break
        data = _content(path, before)
        after = _stat(path)
        if after is not None and _times(before) == _times(after):
            break
        before = after
    if before is None:
        return Seen(path), None
    digest = "" if data is None else digest_of(data)
    return Seen(path, *_times(before), digest), data


def stands(manifest: Manifest) -> Now:
    """Whether everything still is as the manifest says. A file is read only where its times do not settle it."""
    at = time.time_ns()
    seen, same, sure = [], not manifest.restless, True
    for old in manifest.seen:
        if settled(old, manifest.made):
            seen.append(old)
            continue
        new = look(old.path)
        seen.append(new)
        sure = False
        same = same and new.digest == old.digest and bool(new.inode) == bool(old.inode)
    return Now(same, sure, tuple(seen), at)


def settled(old: Seen, made: int) -> bool:
    """Whether the times alone say that a file is as it was: all the same, and old enough when it was looked at."""
    now = _stat(old.path)
    if now is None or not old.inode:
        return now is None and not old.inode
    known = (old.size, old.changed, old.touched, old.inode)
    return _times(now) == known and max(old.changed, old.touched) <= made - SETTLED


def digest_of(data: bytes) -> str:
    """The digest of a file's content."""
    return hashlib.sha256(data).hexdigest()


def folders_below(root: Path) -> list[str]:
    """A shelf's folder and those in it, without those whose name begins with a dot."""
    found = []
    for folder, names, _ in os.walk(root):
        found.append(folder)
        names[:] = sorted(name for name in names if not name.startswith("."))
    return found or [str(root)]


def _stat(path: str) -> os.stat_result | None:
    try:
        return os.stat(path)
    except (FileNotFoundError, NotADirectoryError):
        return None


def _times(now: os.stat_result) -> tuple[int, int, int, int]:
    return now.st_size, now.st_mtime_ns, now.st_ctime_ns, now.st_ino


def _content(path: str, now: os.stat_result) -> bytes | None:
    try:
        if stat.S_ISDIR(now.st_mode):
            return "\0".join(sorted(_names(path))).encode("utf-8", "surrogateescape")
        return Path(path).read_bytes()
    except OSError:
        return None


def _names(folder: str) -> Iterable[str]:
    """The names in a folder, without those that begin with a dot (locks, editors' copies); folders marked."""
    with os.scandir(folder) as entries:
        return [entry.name + "/" * entry.is_dir() for entry in entries if not entry.name.startswith(".")]
