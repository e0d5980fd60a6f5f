"""While a long plan is made: how far it has come, on a terminal; and Ctrl-C stops it with the best plan so far."""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

import click

from fitlore.report.money import said
from fitlore.sourcing.watch import Seen, Watch


@contextmanager
def looking_on(home: str) -> Iterator[Watch]:
    """A watch for the solver. The first Ctrl-C asks it to stop, a second one ends the program as ever."""
    terminal = sys.stderr.isatty()
    watch = Watch((lambda seen: _tell(seen, home)) if terminal else None)
    if threading.current_thread() is not threading.main_thread():
        yield watch
        return

    def asked(number: int, frame: FrameType | None) -> None:
        if watch.stop:
            raise KeyboardInterrupt
        watch.stop = True
        click.echo("stopping with the best plan so far", err=True)

    before = signal.signal(signal.SIGINT, asked)
    try:
        yield watch
    finally:
        signal.signal(signal.SIGINT, before)
        if terminal and watch.told:
            click.echo("\r\x1b[K", nl=False, err=True)


def _tell(seen: Seen, home: str) -> None:
    best = f"best so far {said(seen.best, home)}" if seen.best is not None else "no plan yet"
    bound = f", none is below {said(seen.bound, home)}" if seen.bound is not None else ""
    gap = ""
    if seen.best and seen.bound is not None:
        gap = f" ({100 * (seen.best - seen.bound) / abs(seen.best):.1f} % apart)"
    click.echo(f"\r\x1b[K{seen.seconds:.0f} s: {best}{bound}{gap}", nl=False, err=True)
