"""A child process that is killed, as by `kill -9`, after a given number of program lines of some modules."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable
from types import FrameType, ModuleType
from typing import Any


def in_child(work: Callable[[], None], modules: tuple[ModuleType, ...] = (), kill_after: int = 0) -> int:
    """Runs `work` in a forked child; hands back its exit code, or minus the signal that ended it.

    With `kill_after` the child is killed before the line of that number (counted over all lines run in `modules`); 0: never.
    """
    child = os.fork()
    if child == 0:
        code = 1
        try:
            if kill_after:
                sys.settrace(_tracer({module.__file__ for module in modules}, kill_after))
            work()
            code = 0
        finally:
            os._exit(code)
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status)


def lines_run(work: Callable[[], None], modules: tuple[ModuleType, ...]) -> int:
    """How many lines of the modules a run of `work` takes in this process."""
    count = 0

    def count_one() -> None:
        nonlocal count
        count += 1

    sys.settrace(_each_line({module.__file__ for module in modules}, count_one))
    try:
        work()
    finally:
        sys.settrace(None)
    return count


def _tracer(files: set[str | None], kill_after: int) -> Callable[..., Any]:
    left = kill_after

    def step() -> None:
        nonlocal left
        left -= 1
        if left <= 0:
            os.kill(os.getpid(), signal.SIGKILL)

    return _each_line(files, step)


def _each_line(files: set[str | None], step: Callable[[], None]) -> Callable[..., Any]:
    def trace(frame: FrameType, event: str, arg: object) -> Any:
        if frame.f_code.co_filename not in files:
            return None
        if event == "line":
            step()
        return trace

    return trace
