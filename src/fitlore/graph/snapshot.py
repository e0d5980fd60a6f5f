"""Snapshots: the store kept in the user's cache folder, immutable, replaced by a pointer, never in the way of a reader.

    HOME/writer          locked by the one who writes
    HOME/current         the name of the snapshot that counts; replaced in one step
    HOME/s.../in-use     locked (shared) by everybody who reads this snapshot
    HOME/s.../store, manifest, stamp (what every start needs of it), names, words, found, standards, begun
    HOME/past/...        how the books of the last one were read, so that an edit costs little (see `graph.past`)

A crash leaves the old pointer. Books are the truth: all of this can be deleted at any time.
"""

from __future__ import annotations

import contextlib
import os
import time
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.graph import ahead, store
from fitlore.graph.beside_store import begun_in, content, found_in, names_in, standards_in, vocabulary_in
from fitlore.graph.home import home_path
from fitlore.graph.locks import Shared, alone, locking
from fitlore.graph.open import Graph, Held
from fitlore.graph.stamp import Stamp, unchanged

if TYPE_CHECKING:
    from pathlib import Path

    from fitlore.graph.build import Kept, Survey
    from fitlore.graph.manifest import Manifest
    from fitlore.model.diagnostic import Diagnostic

_KEPT_WITHOUT_LOCKS: Final = 3
_STALE_AFTER: Final = 14 * 24 * 3600
_LONGEST_PROCESS: Final = 24 * 3600
Progress = Callable[[str], None] | None


class Opened(NamedTuple):
    """A snapshot being read."""

    folder: str
    facts: store.Facts
    stamp: Stamp
    lock: Shared

    def manifest(self) -> Manifest | None:
        """All that is known of what it was made of; None where that cannot be read."""
        from fitlore.graph.manifest import Manifest

        try:
            return msgspec.msgpack.decode(content(f"{self.folder}/manifest"), type=Manifest)
        except (OSError, msgspec.DecodeError):
            return None


def current_graph(folder: Path | str | None, progress: Progress = None, cache: Path | None = None) -> Graph:
    """See `graph.open.open_graph`. Where no snapshot can be kept the graph is in memory, and its notes say so."""
    shop = os.path.realpath(folder) if folder else None
    if shop and not shop.isascii() and not _nameable(shop):
        from pathlib import Path

        return _unkept(
            Path(shop), progress, "no snapshot could be kept: the name of the shop's folder is no UTF-8"
        )
    home = (ahead.home_begun(shop) if cache is None else None) or home_path(shop, cache)
    opened = _opened(ahead.taken(home) or ahead.open_store(home))
    if opened is not None and (unchanged(opened.stamp) or _stands(home, opened)):
        return _graph(opened)
    from pathlib import Path

    at = Path(shop) if shop else None
    try:
        return _graph(_updated(Path(home), at, opened, progress))
    except OSError as error:
        return _unkept(at, progress, f"no snapshot could be kept in {home}: {error.strerror or error}")


def open_current(home: Path) -> Opened | None:
    """The snapshot that counts, locked against being swept away; None where there is none that can be read."""
    return _opened(ahead.open_store(str(home)))


def _stands(home: str, opened: Opened, *, note: bool = True) -> bool:
    """Whether the books are as they were, by what is in them where their times do not settle it; that is then noted."""
    from fitlore.graph.manifest import stands

    manifest = opened.manifest()
    now = stands(manifest) if manifest else None
    if manifest is None or now is None or not now.same:
        return False
    if note and not now.sure:
        renew(home, opened, msgspec.structs.replace(manifest, made=now.at, seen=now.seen))
    return True


def renew(home: str, opened: Opened, manifest: Manifest) -> None:
    """Notes that the books were found unchanged, so that the next look need not read them. Fails in silence."""
    with contextlib.suppress(OSError), alone(f"{home}/writer", wait=False) as granted:
        if granted and ahead.pointer(home) == os.path.basename(opened.folder):
            _note(opened, manifest)


def _note(opened: Opened, manifest: Manifest) -> None:
    from fitlore.graph.kept_files import put_manifest

    put_manifest(opened.folder, manifest, opened.stamp.sizes)


def _opened(ready: ahead.Ready | None) -> Opened | None:
    if ready is None:
        return None
    try:
        stamp = msgspec.msgpack.decode(content(f"{ready.folder}/stamp"), type=Stamp)
        if any(os.stat(f"{ready.folder}/{name}").st_size != size for name, size in stamp.sizes.items()):
            raise OSError("cut short")
        return Opened(ready.folder, ready.facts, stamp, ready.lock)
    except (OSError, msgspec.DecodeError):
        ready.lock.close()
        return None


def _updated(home: Path, folder: Path | None, opened: Opened | None, progress: Progress) -> Opened:
    home.mkdir(parents=True, exist_ok=True)
    with alone(home / "writer"):
        old = opened
        if opened is None or ahead.pointer(str(home)) != os.path.basename(opened.folder):
            old = open_current(home)
            if old is not None and (unchanged(old.stamp) or _stands(str(home), old, note=False)):
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
    from fitlore.graph.build import LAYOUT, survey

    before = old.manifest() if old else None
    seen = survey(folder, before)
    if old is not None and before is not None and not (seen.afresh or seen.changed or seen.gone):
        same = msgspec.structs.replace(seen.manifest, made=0, seen=()) == msgspec.structs.replace(
            before, made=0, seen=()
        )
        if same and found_in(old.folder).get(LAYOUT, ()) == seen.layout.diagnostics:
            _note(old, seen.manifest)
            return None
    work = home / f".s{time.time_ns()}-{os.getpid()}"
    work.mkdir()
    try:
        _fill(work, seen, None if seen.afresh or old is None else _Old(old, _kept(old, before)), progress)
        (work / "in-use").touch()
        work.rename(home / work.name[1:])
    except BaseException:
        _remove(work)
        raise
    return work.name[1:]


class _Old(NamedTuple):
    """The snapshot that a new one is made over."""

    opened: Opened
    kept: Kept | None
    """What it keeps beside its store; None where that cannot be read, so that all is made anew."""


def _fill(work: Path, seen: Survey, old: _Old | None, progress: Progress) -> None:
    from fitlore.graph.build import fill
    from fitlore.graph.kept_files import write_beside
    from fitlore.graph.past import Pasts

    over = old if old is not None and old.kept is not None else None
    try:
        writer = store.Writer(work / "store", over.opened.facts if over else None)
    except OSError:
        if over is None:
            raise
        _remove(work / "store")
        writer, over = store.Writer(work / "store"), None
    before = over.kept if over else None
    pasts = Pasts(work.parent, seen.manifest.standards)
    kept = fill(writer, seen, before, progress, pasts)
    writer.close()
    write_beside(work, kept, before, over.opened.folder if over else None)
    pasts.sweep(kept.manifest.books)


def point(home: Path, name: str) -> None:
    """Makes a snapshot the one that counts, in one step that lasts."""
    from fitlore.graph.kept_files import put

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


def _kept(opened: Opened, manifest: Manifest | None) -> Kept | None:
    from fitlore.graph.build import Kept

    if manifest is None:
        return None
    folder = opened.folder
    try:
        names = msgspec.msgpack.decode(content(f"{folder}/names"), type=dict[str, msgspec.Raw])
        return Kept(manifest, standards_in(folder), names, found_in(folder), begun_in(folder))
    except msgspec.DecodeError:
        return None


def _graph(opened: Opened) -> Graph:
    folder, manifest = opened.folder, opened.stamp
    held = Held(
        shop=manifest.shop,
        shelves=manifest.shelves,
        diagnostics=lambda: _all(found_in(folder)),
        standards=lambda: standards_in(folder),
        vocabulary=lambda: vocabulary_in(folder),
        names=lambda: names_in(folder),
        graph_name=_graph_name,
        trust=manifest.trust,
        lock=opened.lock,
    )
    return Graph(opened.facts, held)


def _unkept(folder: Path | None, progress: Progress, note: str) -> Graph:
    from fitlore.graph.build import fill, survey
    from fitlore.graph.kept_files import taken_apart
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


def _nameable(path: str) -> bool:
    from fitlore.books.layout import nameable

    return nameable(path)


def _graph_name(shown: str) -> str:
    from fitlore.books.layout import graph_name

    return graph_name(shown)
