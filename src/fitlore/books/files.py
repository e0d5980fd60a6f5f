"""Books on disk: seen once, and replaced as a whole only while they are still what was seen.

A write is a temporary file in the same folder, flushed to the disk, then put in the book's place in one step: a reader sees the
old book or the new one, and a writer that dies leaves the old one. Writers wait for each other at a lock file that the system
frees when they die. Editors know no locks: against them only the comparison just before the replacement helps.
"""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import secrets
import stat
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    import fcntl
else:
    try:
        import fcntl
    except ImportError:  # no such locks on this system: there the comparison alone protects
        fcntl = None

LOCK: Final = ".write-lock"
"""In the shelf's folder (not above it: that one may belong to somebody else). It holds nothing and stays."""
PATIENCE: Final = 20.0
"""Seconds that a writer waits for the ones before it."""
_HALF: Final = ".half"
"""Ending of a temporary file; no book ends so."""


class Seen(NamedTuple):
    """A book as it was read. `data` is None where there was no such file."""

    path: Path
    data: bytes | None

    @property
    def digest(self) -> str:
        """SHA-256 of the bytes in hexadecimal digits, empty for no file."""
        return digest(self.data)


class Written(NamedTuple):
    """A write that was read back and found as it should be."""

    path: Path
    """The real path, symbolic links followed."""
    digest: str
    other_names: int
    """Further hard links to the old file; they still show the old book."""


class NotWritten(NamedTuple):
    """Why nothing was written. `reason` is one of changed, busy, system, read-back."""

    path: Path
    reason: str
    detail: str = ""


def digest(data: bytes | None) -> str:
    """SHA-256 in hexadecimal digits; empty for None."""
    return "" if data is None else hashlib.sha256(data).hexdigest()


def see(path: Path) -> Seen:
    """Reads a book, or notes that there is none. Raises OSError where it is there and cannot be read."""
    return Seen(path, _bytes_of(path))


def write(seen: Seen, new: bytes | None, shelf: Path) -> Written | NotWritten:
    """Puts `new` in the place of a book that is still as it was seen; None removes it, a missing one is made.

    Folders on the way are made. Mode and, where the system lets us, owner are kept; a symbolic link stays one.
    """
    real = Path(os.path.realpath(seen.path))
    try:
        shelf.mkdir(parents=True, exist_ok=True)
        real.parent.mkdir(parents=True, exist_ok=True)
        with locked(shelf / LOCK):
            return _write(seen, real, new)
    except BlockingIOError:
        return NotWritten(real, "busy", f"{PATIENCE:.0f} s")
    except OSError as error:
        return NotWritten(real, "system", error.strerror or str(error))


@contextlib.contextmanager
def locked(path: Path) -> Iterator[None]:
    """Holds a lock file for oneself. Raises BlockingIOError when the others take longer than the patience there is."""
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
    try:
        _take(handle, time.monotonic() + PATIENCE)
        yield
    finally:
        os.close(handle)


def _take(handle: int, until: float) -> None:
    while fcntl is not None:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            if time.monotonic() > until:
                raise
            time.sleep(0.005)
        else:
            return


def _write(seen: Seen, real: Path, new: bytes | None) -> Written | NotWritten:
    _sweep(real)
    before = real.stat() if seen.data is not None and real.exists() else None
    half = None if new is None else _half(real, new, before)
    try:
        if _bytes_of(real) != seen.data:
            return NotWritten(real, "changed")
        if half is None:
            real.unlink(missing_ok=True)
        elif seen.data is None:
            if not _place_new(half, real):
                return NotWritten(real, "changed")
        else:
            half.replace(real)
        sync_folder(real.parent)
    finally:
        if half is not None:
            half.unlink(missing_ok=True)
    if _bytes_of(real) != new:
        return NotWritten(real, "read-back")
    return Written(real, digest(new), before.st_nlink - 1 if before else 0)


def _half(real: Path, new: bytes, before: os.stat_result | None) -> Path:
    """The whole new book, on the disk under another name in the same folder."""
    half = real.with_name(f".{real.name}.{os.getpid()}-{secrets.token_hex(4)}{_HALF}")
    handle = os.open(half, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(new)
            file.flush()
            if before is not None and os.name == "posix":
                _keep_rights(file.fileno(), before)
            os.fsync(file.fileno())
    except BaseException:
        half.unlink(missing_ok=True)
        raise
    return half


def _keep_rights(handle: int, before: os.stat_result) -> None:
    own = os.fstat(handle)
    if (own.st_uid, own.st_gid) != (before.st_uid, before.st_gid):
        with contextlib.suppress(PermissionError):
            os.fchown(handle, before.st_uid, before.st_gid)
    os.fchmod(handle, stat.S_IMODE(before.st_mode))


def _place_new(half: Path, real: Path) -> bool:
    """Gives a new book its name; False where somebody else made one just now."""
    try:
        os.link(half, real)
    except FileExistsError:
        return False
    except OSError as error:
        if error.errno not in (errno.EPERM, errno.ENOTSUP, errno.EMLINK):
            raise
        if real.exists():
            return False
        half.replace(real)
    return True


def _sweep(real: Path) -> None:
    """What writers that died left behind; under the lock nobody is still at it."""
    for left in real.parent.glob(f".{_plain(real.name)}.*{_HALF}"):
        left.unlink(missing_ok=True)


def _plain(name: str) -> str:
    return "".join(f"[{char}]" if char in "*?[" else char for char in name)


def sync_folder(folder: Path) -> None:
    """Makes a new or replaced name in a folder last, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _bytes_of(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None
