"""Locks on files, freed by the system when their holder dies. Where the system has none, everybody is let in."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import fcntl
    from pathlib import Path
else:
    try:
        import fcntl
    except ImportError:  # no such locks on this system
        fcntl = None


class Shared:
    """A shared lock, held as long as this lives. OSError where the file is not there."""

    def __init__(self, path: Path | str) -> None:
        self._handle: int | None = None
        self._handle = os.open(path, os.O_RDONLY)
        if fcntl is not None:
            fcntl.flock(self._handle, fcntl.LOCK_SH)

    def close(self) -> None:
        """Lets go; a second time does nothing."""
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None

    def __del__(self) -> None:
        self.close()


@contextlib.contextmanager
def alone(path: Path | str, *, wait: bool = True) -> Iterator[bool]:
    """Holds the exclusive lock on a file, which is made if need be. Without `wait` it says whether it was granted."""
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
    try:
        yield _take(handle, wait)
    finally:
        os.close(handle)


def locking() -> bool:
    """Whether this system has such locks."""
    return fcntl is not None


def _take(handle: int, wait: bool) -> bool:
    if fcntl is None:
        return True
    try:
        fcntl.flock(handle, fcntl.LOCK_EX if wait else fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True
