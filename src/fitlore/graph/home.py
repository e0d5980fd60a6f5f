"""Where snapshots are kept: in the user's cache folder, by knowledge base and by the program that made them.

Nothing here, nor in `ahead`, `store`, `locks` and `stamp`, needs a `Path`: its module takes as long to read in as a dozen
of ours, and a warm question has no other use for it.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

import fitlore
from fitlore.graph import store

if TYPE_CHECKING:
    from pathlib import Path

CACHE: Final = "FITLORE_CACHE"
"""Environment variable: the folder to keep snapshots in."""
_ROOMS: Final = ("model", "trade", "books", "graph")
_ENDS: Final = (".py", ".rq")
SHOP_FILE: Final = "fitlore.yaml"


def shop_above(start: str) -> str | None:
    """The nearest folder from `start` upwards that holds a fitlore.yaml, without links; None where there is none."""
    here = os.path.realpath(start)
    while not os.path.isfile(os.path.join(here, SHOP_FILE)):
        above = os.path.dirname(here)
        if above == here:
            return None
        here = above
    return here


def home_of(folder: Path | None, cache: Path | None = None) -> Path:
    """Where the snapshots of a knowledge base are, for this very program: other code may read books otherwise."""
    from pathlib import Path

    return Path(home_path(folder, cache))


def home_path(folder: Path | str | None, cache: Path | None = None) -> str:
    """The same as text; `folder` is an absolute path without links."""
    kept = cache or os.environ.get(CACHE) or user_cache()
    return f"{os.fspath(kept)}/{_digest([os.fspath(folder or '')])}/{program()}"


def user_cache() -> str:
    """The user's cache folder on this system."""
    home, known = os.path.expanduser("~"), os.environ.get
    if sys.platform == "win32":
        return f"{known('LOCALAPPDATA') or f'{home}/AppData/Local'}/fitlore"
    if sys.platform == "darwin":
        return f"{home}/Library/Caches/fitlore"
    return f"{known('XDG_CACHE_HOME') or f'{home}/.cache'}/fitlore"


def program() -> str:
    """A digest of the program that reads books and derives from them: its version, the store's, and its files' times."""
    package = os.path.dirname(fitlore.__file__)
    found: list[str | int] = [fitlore.__version__, store.VERSION]
    for room in _ROOMS:
        found += sorted(_files(f"{package}/{room}", room))
    return _digest(found)


def _files(folder: str, shown: str) -> Iterator[str]:
    if not os.path.isdir(folder):
        return
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.name.endswith(_ENDS):
                now = entry.stat()
                yield f"{shown}/{entry.name} {now.st_size} {now.st_mtime_ns}"
            elif entry.is_dir():
                yield from _files(entry.path, f"{shown}/{entry.name}")


def _digest(things: list[str | int] | list[str]) -> str:
    """Sixteen signs that tell one list from another: Python's own hash of whole numbers is the same in every process."""
    text = "\n".join(map(str, things)).encode("utf-8", "surrogateescape")
    numbers = (len(text), int.from_bytes(text, "big"), int.from_bytes(text[::-1], "big"))
    return f"{hash(numbers) & (1 << 64) - 1:016x}"
