"""The store of the snapshot that counts, opened by a thread while the program is still being read in.

Opening a store of millions of statements takes as long as reading the modules that ask it, and needs none of them: this
one and what it imports know no record. Whoever opens the graph afterwards finds the store here, or opens it by itself.
"""

from __future__ import annotations

import os
import threading
from typing import Final, NamedTuple

from fitlore.graph.home import home_path
from fitlore.graph.locks import Shared
from fitlore.graph.store import Facts, open_facts

_TRIES: Final = 50


class Ready(NamedTuple):
    """An opened store, and the snapshot it is of."""

    folder: str
    facts: Facts
    lock: Shared
    """Held against the snapshot's being swept away."""


class _Opening:
    """The opening of one store."""

    def __init__(self, home: str) -> None:
        self.ready: Ready | None = None
        self.thread = threading.Thread(target=self._open, args=(home,))
        self.thread.start()

    def _open(self, home: str) -> None:
        self.ready = open_store(home)


_openings: Final[dict[str, _Opening]] = {}
_begun: Final[dict[str | None, str]] = {}
"""Where the snapshots of folders are for which an opening was begun: to find that out takes a look at every file of ours."""


def open_ahead(folder: str | None) -> None:
    """Begins to open the kept snapshot of the knowledge base in this folder; does nothing where there is none."""
    real = os.path.realpath(folder) if folder else None
    home = home_path(real)
    _begun[real] = home
    if home not in _openings and pointer(home):
        _openings[home] = _Opening(home)


def home_begun(folder: str | None) -> str | None:
    """Where the snapshots of a folder (real path) are, if an opening was begun for it and not asked for since."""
    return _begun.pop(folder, None)


def taken(home: str) -> Ready | None:
    """What was begun for these snapshots, once it is done, and if it is still the snapshot that counts."""
    opening = _openings.pop(home, None)
    if opening is None:
        return None
    opening.thread.join()
    ready = opening.ready
    if ready is not None and os.path.basename(ready.folder) == pointer(home):
        return ready
    return None


def open_store(home: str) -> Ready | None:
    """Opens the store of the snapshot that counts, and locks it; None where there is none that can be opened."""
    for _ in range(_TRIES):
        name = pointer(home)
        if not name:
            return None
        folder = f"{home}/{name}"
        try:
            lock = Shared(f"{folder}/in-use")
        except OSError:
            if pointer(home) == name:
                return None
            continue
        if pointer(home) == name:
            try:
                return Ready(folder, open_facts(f"{folder}/store"), lock)
            except OSError:
                lock.close()
                return None
        lock.close()
    return None


def pointer(home: str) -> str:
    """The name of the snapshot that counts; empty where there is none."""
    try:
        with open(f"{home}/current", encoding="utf-8") as file:
            return file.read()
    except (OSError, UnicodeDecodeError):
        return ""
