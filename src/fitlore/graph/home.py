"""Where snapshots are kept: in the user's cache folder, by knowledge base and by the program that made them."""

from __future__ import annotations

import hashlib
import os
import sys
from pathlib import Path
from typing import Final

import msgspec

import fitlore
from fitlore.graph import store

CACHE: Final = "FITLORE_CACHE"
"""Environment variable: the folder to keep snapshots in."""
_ROOMS: Final = ("model", "trade", "books", "graph")


def home_of(folder: Path | None, cache: Path | None = None) -> Path:
    """Where the snapshots of a knowledge base are, for this very program: other code may read books otherwise."""
    kept = cache or (Path(os.environ[CACHE]) if os.environ.get(CACHE) else user_cache())
    of = hashlib.sha256(str(folder or "").encode("utf-8", "surrogateescape")).hexdigest()[:20]
    return kept / of / program()


def user_cache() -> Path:
    """The user's cache folder on this system."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local") / "fitlore"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "fitlore"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "fitlore"


def program() -> str:
    """A digest of the program that reads books and derives from them: version, libraries, and its files' times."""
    package = Path(fitlore.__file__).parent
    found = [fitlore.__version__, store.VERSION, msgspec.__version__]
    for room in _ROOMS:
        for folder, _, names in os.walk(package / room):
            files = [Path(folder, name) for name in names if name.endswith((".py", ".rq"))]
            stats = [(path, path.stat()) for path in files]
            found += sorted(f"{path.relative_to(package)} {s.st_size} {s.st_mtime_ns}" for path, s in stats)
    return hashlib.sha256("\n".join(found).encode()).hexdigest()[:16]
