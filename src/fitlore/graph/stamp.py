"""The little of a manifest that every start needs: what is to be looked at, and what an opened graph tells at once.

At a million parts thousands of books are looked at before each answer. So their times stand here as plain numbers, to be
compared at one go; only where that does not settle it is the manifest itself read.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import TYPE_CHECKING

import msgspec

from fitlore.model.choices import How
from fitlore.model.job import Shop

if TYPE_CHECKING:
    from fitlore.graph.manifest import Manifest


class Stamp(msgspec.Struct, frozen=True, array_like=True):
    """Kept beside the manifest, and made of it."""

    paths: str
    """Of every file and folder that counts, with a NUL between."""
    times: list[int]
    """Of each: size, last change of its content and of its inode (ns), inode; four noughts where it is not there."""
    calm: bool
    """The times settle it: nothing was changed too shortly before it was looked at, and nothing may turn up elsewhere."""
    sizes: dict[str, int]
    """Of the snapshot's other files, by name: one that was cut short is seen."""
    shop: Shop
    shelves: tuple[str, ...]
    trust: dict[str, How]


def stamp_of(manifest: Manifest, sizes: Mapping[str, int]) -> Stamp:
    """The stamp of a manifest, for a snapshot whose files have these sizes."""
    from fitlore.graph.manifest import SETTLED

    seen = manifest.seen
    youngest = max((max(one.changed, one.touched) for one in seen if one.inode), default=0)
    return Stamp(
        paths="\0".join(one.path for one in seen),
        times=[time for one in seen for time in (one.size, one.changed, one.touched, one.inode)],
        calm=youngest <= manifest.made - SETTLED and not manifest.restless,
        sizes=dict(sizes),
        shop=manifest.shop,
        shelves=manifest.shelves,
        trust=manifest.trust,
    )


def unchanged(stamp: Stamp) -> bool:
    """Whether the times of all files alone say that everything is as it was; else the manifest has to be asked."""
    if not stamp.calm:
        return False
    now: list[int] = []
    look = os.stat
    for path in stamp.paths.split("\0"):
        try:
            found = look(path)
        except (FileNotFoundError, NotADirectoryError):
            now += (0, 0, 0, 0)
        except OSError:
            return False
        else:
            now += (found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino)
    return now == stamp.times
