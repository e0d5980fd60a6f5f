"""Keeping a library's own words off the standard output, which is for data."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def silent() -> Iterator[None]:
    """The solver prints lines of its own to file descriptor 1 before it can be told not to: keep them from the output.

    For that while nothing else in the process can print there either.
    """
    try:
        kept = os.dup(1)
    except OSError:
        yield
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)
