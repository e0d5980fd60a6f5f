"""Work in a child process with bounds on its time and memory, so that nothing it does can hurt the one who watches it."""

from __future__ import annotations

import mmap
import os
import resource
import signal
import sys
import time
import traceback
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import NamedTuple

SLOWEST = 10.0
"""Seconds of the processor that one case may take."""
PATIENCE = 6
"""So many times as long by the clock it may take: others may be at work on the same machine."""
MEMORY = 1_500_000_000
"""Bytes of address space that the child may take beyond what it starts with."""


class Failed(NamedTuple):
    """A case that failed, and how."""

    number: int
    how: str


class Tried(NamedTuple):
    """How many cases were tried, what they added up to, the slowest one, and what failed."""

    cases: int
    total: int
    slowest: float
    failed: tuple[Failed, ...]


class Limits(NamedTuple):
    """What a child may take for a case, and after which time of the clock it begins no further one (0: any)."""

    seconds: float
    memory: int
    until: float


def bounded(
    work: Callable[[], int], *, seconds: float, memory: int = MEMORY, patience: float = PATIENCE
) -> tuple[int, str]:
    """Runs work in a child; (what it returned, "") or (0, how it failed: an exception's text, a signal, out of time)."""
    tried = tried_in_child(lambda _: work(), [0], seconds=seconds, memory=memory, patience=patience)
    return tried.total, "".join(one.how for one in tried.failed)


def tried_in_child(
    check: Callable[[int], int],
    numbers: Iterable[int],
    *,
    seconds: float = SLOWEST,
    memory: int = MEMORY,
    patience: float = PATIENCE,
    until: float = 0,
) -> Tried:
    """Tries cases one after the other, in children that are replaced when one dies or takes too long.

    `until` is a time of the clock after which no further case is begun (0: all are tried).
    """
    todo = list(numbers)
    failed: list[Failed] = []
    board = mmap.mmap(-1, 64)
    done = total = 0
    slowest = 0.0
    while done < len(todo) and not (until and time.time() > until):
        board[:] = bytes(64)
        child = os.fork()
        if child == 0:
            _child(check, todo[done:], board, Limits(seconds, memory, until))
        how = _watched(child, board, seconds, seconds * patience)
        count, added = int.from_bytes(board[0:8], "big"), int.from_bytes(board[8:16], "big")
        slowest = max(slowest, int.from_bytes(board[24:32], "big") / 1e6)
        done += count
        total += added
        if how:
            failed.append(Failed(todo[min(done, len(todo) - 1)], how))
            done += 1
        elif count == 0:
            break
    return Tried(done, total, slowest, tuple(failed))


def _child(check: Callable[[int], int], todo: list[int], board: mmap.mmap, limits: Limits) -> None:
    """Tries cases until one fails; what it says goes to the board's file, its count onto the board."""
    code = 1
    try:
        used = (
            int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
            if Path("/proc").exists()
            else 0
        )
        resource.setrlimit(resource.RLIMIT_AS, (used + limits.memory, used + limits.memory))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        for place, number in enumerate(todo, 1):
            if limits.until and time.time() > limits.until:
                break
            signal.setitimer(signal.ITIMER_PROF, limits.seconds)
            begun = sum(os.times()[:4])
            board[16:24] = int(time.monotonic() * 1e6).to_bytes(8, "big")
            total = int.from_bytes(board[8:16], "big") + check(number)
            took = int((sum(os.times()[:4]) - begun) * 1e6)
            board[8:16] = total.to_bytes(8, "big")
            board[24:32] = max(took, int.from_bytes(board[24:32], "big")).to_bytes(8, "big")
            board[0:8] = place.to_bytes(8, "big")
        code = 0
    finally:
        if code:  # whatever it was, the one who watches is told
            text = traceback.format_exc()[-4000:]
            _letter(os.getpid()).write_text(text, "utf-8", "backslashreplace")
        sys.stdout.flush()
        os._exit(code)


def _watched(child: int, board: mmap.mmap, seconds: float, clock: float) -> str:
    """Waits for a child; how it failed, or nothing."""
    while True:
        pid, status = os.waitpid(child, os.WNOHANG)
        if pid:
            break
        begun = int.from_bytes(board[16:24], "big") / 1e6
        if begun and time.monotonic() - begun > clock:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            return f"not done after {clock:g} s of the clock"
        time.sleep(0.002)
    code = os.waitstatus_to_exitcode(status)
    if code == -signal.SIGPROF:
        return f"not done after {seconds:g} s of work"
    letter = _letter(child)
    if letter.exists():
        text = letter.read_text("utf-8")
        letter.unlink()
        return text
    return "" if code == 0 else f"ended with {code}"


def _letter(pid: int) -> Path:
    import tempfile

    return Path(tempfile.gettempdir(), f"fitlore-fuzz-{pid}")
