"""Snapshots: the store kept in the user's cache folder, immutable, replaced by a pointer, never in the way of a reader.

    HOME/writer          locked by the one who writes
    HOME/current         the name of the snapshot that counts; replaced in one step
    HOME/s.../in-use     locked (shared) by everybody who reads this snapshot
    HOME/s.../store, manifest, names, words, found, standards, whole (their sizes)

A crash leaves the old pointer. Books are the truth: all of this can be deleted at any time.
"""

from __future__ import annotations

import contextlib
import os
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.graph import store
from fitlore.graph.home import home_of
from fitlore.graph.kept_files import put, taken_apart, write_beside
from fitlore.graph.locks import Shared, alone, locking
from fitlore.graph.manifest import Manifest, stands
from fitlore.graph.open import Graph, Held
from fitlore.model.diagnostic import Diagnostic

if TYPE_CHECKING:
    from fitlore.graph.build import Kept, Survey
    from fitlore.graph.vocabulary import Entry, Vocabulary
    from fitlore.trade.standards import Standards

_TRIES: Final = 50
_KEPT_WITHOUT_LOCKS: Final = 3
_STALE_AFTER: Final = 14 * 24 * 3600
_LONGEST_PROCESS: Final = 24 * 3600
Progress = Callable[[str], None] | None


class Opened(NamedTuple):
    """A snapshot being read."""

    folder: Path
    facts: store.Facts
    manifest: Manifest
    lock: Shared


def current_graph(folder: Path | None, progress: Progress = None, cache: Path | None = None) -> Graph:
    """See `graph.open.open_graph`. Where no snapshot can be kept the graph is in memory, and its notes say so."""
    folder = folder.resolve() if folder else None
    home = home_of(folder, cache)
    opened = open_current(home)
    if opened is not None:
        now = stands(opened.manifest)
        if now.same and not now.sure:
            renew(home, opened, msgspec.structs.replace(opened.manifest, made=now.at, seen=now.seen))
        if now.same:
            return _graph(opened)
    try:
        return _graph(_updated(home, folder, opened, progress))
    except OSError as error:
        return _unkept(folder, progress, f"no snapshot could be kept in {home}: {error.strerror or error}")


def open_current(home: Path) -> Opened | None:
    """The snapshot that counts, locked against being swept away; None where there is none that can be read."""
    for _ in range(_TRIES):
        name = _pointer(home)
        if not name:
            return None
        try:
            lock = Shared(home / name / "in-use")
        except OSError:
            if _pointer(home) == name:
                return None
            continue
        if _pointer(home) == name:
            return _open(home / name, lock)
        lock.close()
    return None


def renew(home: Path, opened: Opened, manifest: Manifest) -> None:
    """Notes that the books were found unchanged, so that the next look need not read them. Fails in silence."""
    with contextlib.suppress(OSError), alone(home / "writer", wait=False) as granted:
        if granted and _pointer(home) == opened.folder.name:
            put(opened.folder / "manifest", msgspec.msgpack.encode(manifest))


def _open(folder: Path, lock: Shared) -> Opened | None:
    try:
        manifest = msgspec.msgpack.decode((folder / "manifest").read_bytes(), type=Manifest)
        whole = msgspec.msgpack.decode((folder / "whole").read_bytes(), type=dict[str, int])
        if any((folder / name).stat().st_size != size for name, size in whole.items()):
            raise OSError("cut short")
        return Opened(folder, store.open_facts(folder / "store"), manifest, lock)
    except (OSError, msgspec.DecodeError):
        lock.close()
        return None


def _updated(home: Path, folder: Path | None, opened: Opened | None, progress: Progress) -> Opened:
    home.mkdir(parents=True, exist_ok=True)
    with alone(home / "writer"):
        old = opened
        if opened is None or _pointer(home) != opened.folder.name:
            old = open_current(home)
            if old is not None and stands(old.manifest).same:
                return old
        made = _make(home, folder, old, progress)
        if made is not None:
            point(home, made)
            for done in (old, opened):
                if done is not None:
                    done.lock.close()
            _sweep(home, made)
            _sweep_programs(home)
        found = open_current(home)
    if found is None:
        raise OSError("the snapshot just made cannot be opened")
    return found


def _make(home: Path, folder: Path | None, old: Opened | None, progress: Progress) -> str | None:
    """Makes a snapshot beside the current one, and returns its name; None where the current one will do."""
    from fitlore.graph.build import survey

    seen = survey(folder, old.manifest if old else None)
    if old is not None and not seen.afresh and not seen.changed and not seen.gone:
        same = msgspec.structs.replace(seen.manifest, made=0, seen=()) == msgspec.structs.replace(
            old.manifest, made=0, seen=()
        )
        if same:
            put(old.folder / "manifest", msgspec.msgpack.encode(seen.manifest))
            return None
    work = home / f".s{time.time_ns()}-{os.getpid()}"
    work.mkdir()
    try:
        _fill(work, seen, None if seen.afresh else old, progress)
        (work / "in-use").touch()
        work.rename(home / work.name[1:])
    except BaseException:
        _remove(work)
        raise
    return work.name[1:]


def _fill(work: Path, seen: Survey, old: Opened | None, progress: Progress) -> None:
    from fitlore.graph.build import fill

    before = _kept(old) if old else None
    try:
        writer = store.Writer(work / "store", old.facts if old else None)
    except OSError:
        if old is None:
            raise
        _remove(work / "store")
        writer, before = store.Writer(work / "store"), None
    kept = fill(writer, seen, before, progress)
    writer.close()
    write_beside(work, kept, before, old.folder if old else None)


def point(home: Path, name: str) -> None:
    """Makes a snapshot the one that counts, in one step that lasts."""
    put(home / "current", name.encode())
    if os.name == "posix":
        handle = os.open(home, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _sweep(home: Path, current: str) -> None:
    """Removes snapshots that nobody reads, and what dead writers left; the caller holds the writer's lock."""
    finished = sorted((path for path in home.glob("s[0-9]*") if path.name != current), reverse=True)
    for path in finished if locking() else finished[_KEPT_WITHOUT_LOCKS - 1 :]:
        with contextlib.suppress(OSError), alone(path / "in-use", wait=False) as granted:
            if granted:
                _remove(path)
    for path in home.glob(".s[0-9]*"):
        _remove(path)
    for path in home.glob(f"{store.SPARE}*"):
        if _untouched_for(path, _LONGEST_PROCESS):
            _remove(path)


def _sweep_programs(home: Path) -> None:
    """Removes the snapshots of other versions of the program, long unused, unless somebody is at them."""
    for other in home.parent.iterdir():
        if other == home or not _untouched_for(other, _STALE_AFTER):
            continue
        with contextlib.suppress(OSError), alone(other / "writer", wait=False) as granted:
            if granted:
                _sweep(other, "")
            if granted and not any(other.glob("s[0-9]*")):
                _remove(other)


def _untouched_for(path: Path, seconds: float) -> bool:
    try:
        return time.time() - path.stat().st_mtime > seconds
    except FileNotFoundError:
        return False


def _remove(folder: Path) -> None:
    import shutil

    shutil.rmtree(folder, ignore_errors=True)


def _pointer(home: Path) -> str:
    try:
        return (home / "current").read_text(encoding="ascii")
    except (OSError, UnicodeDecodeError):
        return ""


def _kept(opened: Opened) -> Kept:
    from fitlore.graph.build import Kept

    names = msgspec.msgpack.decode((opened.folder / "names").read_bytes(), type=dict[str, msgspec.Raw])
    return Kept(opened.manifest, _standards(opened.folder), names, _found(opened.folder))


def _graph(opened: Opened) -> Graph:
    folder, manifest = opened.folder, opened.manifest
    held = Held(
        shop=manifest.shop,
        shelves=manifest.shelves,
        diagnostics=lambda: _all(_found(folder)),
        standards=lambda: _standards(folder),
        vocabulary=lambda: _vocabulary(folder),
        names=lambda: _names(folder),
        graph_name=_graph_name,
        trust=manifest.trust,
        lock=opened.lock,
    )
    return Graph(opened.facts, held)


def _unkept(folder: Path | None, progress: Progress, note: str) -> Graph:
    from fitlore.graph.build import fill, survey
    from fitlore.graph.vocabulary import vocabulary_of

    writer = store.Writer(None)
    kept = fill(writer, survey(folder, None), None, progress)
    manifest = kept.manifest
    held = Held(
        shop=manifest.shop,
        shelves=manifest.shelves,
        diagnostics=lambda: _all(kept.found),
        standards=lambda: kept.standards,
        vocabulary=lambda: vocabulary_of(taken_apart(kept.names)),
        names=lambda: taken_apart(kept.names),
        graph_name=_graph_name,
        trust=manifest.trust,
        notes=(note,),
    )
    return Graph(writer.close(), held)


def _all(found: Mapping[str, tuple[Diagnostic, ...]]) -> tuple[Diagnostic, ...]:
    every = (diagnostic for diagnostics in found.values() for diagnostic in diagnostics)
    return tuple(sorted(every, key=lambda d: (d.origin, d.code)))


def _found(folder: Path) -> dict[str, tuple[Diagnostic, ...]]:
    return msgspec.msgpack.decode((folder / "found").read_bytes(), type=dict[str, tuple[Diagnostic, ...]])


def _names(folder: Path) -> dict[str, tuple[Entry, ...]]:
    from fitlore.graph.vocabulary import Entry

    return msgspec.msgpack.decode((folder / "names").read_bytes(), type=dict[str, tuple[Entry, ...]])


def _vocabulary(folder: Path) -> Vocabulary:
    from fitlore.graph.vocabulary import Index, Vocabulary

    return Vocabulary(msgspec.msgpack.decode((folder / "words").read_bytes(), type=Index))


def _standards(folder: Path) -> Standards:
    from fitlore.trade.standards import Standards

    return msgspec.msgpack.decode((folder / "standards").read_bytes(), type=Standards)


def _graph_name(shown: str) -> str:
    from fitlore.books.layout import graph_name

    return graph_name(shown)
