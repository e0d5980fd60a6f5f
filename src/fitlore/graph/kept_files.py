"""The files of a snapshot beside its store: written in one step each, and linked to where they are as they were."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from fitlore.graph.begun import FILE
from fitlore.graph.stamp import stamp_of

if TYPE_CHECKING:
    from fitlore.graph.build import Kept
    from fitlore.graph.manifest import Manifest
    from fitlore.graph.vocabulary import Entry


def write_beside(work: Path, kept: Kept, before: Kept | None, old: str | None) -> None:
    """Writes all of them into the folder of a new snapshot; `old` is the folder of the one that it was made over."""
    encode = msgspec.msgpack.encode
    made: dict[str, Callable[[], bytes]] = {
        "names": lambda: encode(kept.names),
        "words": lambda: _words(kept),
        "found": lambda: encode({graph: found for graph, found in kept.found.items() if found}),
        "standards": lambda: encode(kept.standards),
        FILE: lambda: encode(kept.begun),
    }
    same = _same(kept, before)
    other = Path(old) if old else None
    sizes = {name: _keep(work, name, data, other if name in same else None) for name, data in made.items()}
    put_manifest(str(work), kept.manifest, sizes)


def put_manifest(folder: str, manifest: Manifest, sizes: Mapping[str, int]) -> None:
    """Writes a snapshot's manifest, and then its stamp: one that is older than its manifest only costs a look."""
    put(Path(folder, "manifest"), msgspec.msgpack.encode(manifest))
    put(Path(folder, "stamp"), msgspec.msgpack.encode(stamp_of(manifest, sizes)))


def _same(kept: Kept, before: Kept | None) -> set[str]:
    """Which of the files are as they were: what the index of all names costs is paid only for a new name."""
    if before is None:
        return set()
    names = ("names", "words") if before.names == kept.names else ()
    return {"standards", *names, *((FILE,) if before.begun == kept.begun else ())}


def _keep(work: Path, name: str, data: Callable[[], bytes], old: Path | None) -> int:
    """Writes a file of a snapshot, or links to the one of the snapshot before; its size."""
    if old is not None:
        with contextlib.suppress(OSError):
            os.link(old / name, work / name)
            return (work / name).stat().st_size
    made = data()
    put(work / name, made)
    return len(made)


def _words(kept: Kept) -> bytes:
    """The index of all names."""
    from fitlore.graph.kept_words import packed
    from fitlore.graph.vocabulary import index_of

    every = taken_apart(kept.names)
    return packed(index_of(entry for entries in every.values() for entry in entries))


def taken_apart(names: Mapping[str, msgspec.Raw]) -> dict[str, tuple[Entry, ...]]:
    """The entries of the vocabulary, by the IRI of their book's graph."""
    from fitlore.graph.vocabulary import Entry

    return {graph: msgspec.msgpack.decode(raw, type=tuple[Entry, ...]) for graph, raw in names.items()}


def put(path: Path, data: bytes) -> None:
    """A file's whole content, in one step."""
    half = path.with_name(f".{path.name}")
    with half.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    half.replace(path)
