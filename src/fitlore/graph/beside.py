"""Reads many books at once, in processes of their own, while this one fills the store.

A process is started with nothing but this package, gets its share of the books on its standard input and hands back what
each says. A share that does not come back whole is read here, so a process that dies costs time and nothing else.
"""

from __future__ import annotations

import contextlib
import os
import queue
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import IO, Final

import msgspec

from fitlore.graph.build import Said, said_by
from fitlore.graph.forms import Forms
from fitlore.graph.manifest import Book
from fitlore.trade.standards import Standards

WORTH: Final = 3_000_000
"""Bytes of books from which the start of further processes pays: about a second of reading."""
MOST: Final = 4
_AHEAD: Final = 3
"""Books read ahead of the store."""
_START: Final = "import sys; sys.path[:] = sys.argv[1:]; from fitlore.graph.beside import work; work()"
_LENGTH: Final = 8


class Share(msgspec.Struct, frozen=True, array_like=True):
    """The books that one process reads, and the tables to read designations by."""

    books: list[Book]
    standards: Standards


def helpers_for(books: list[Book]) -> int:
    """How many processes these books are worth; 0 where they are read here."""
    size = 0
    for book in books:
        with contextlib.suppress(OSError):
            size += Path(book.path).stat().st_size
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return min(MOST, cores) if size >= WORTH and cores > 1 else 0


def read_beside(books: list[Book], standards: Standards, helpers: int) -> Iterator[Said]:
    """What all these books say, in no particular order."""
    ready: queue.Queue[Said | None] = queue.Queue(_AHEAD)
    shares = [Share(books[at::helpers], standards) for at in range(helpers)]
    processes = [_started(share) for share in shares]
    for process in processes:
        threading.Thread(target=_gather, args=(process, ready), daemon=True).start()
    missing = {book.graph: book for book in books}
    try:
        for _ in shares:
            while (said := ready.get()) is not None:
                del missing[said.book.graph]
                yield said
    finally:
        for process in processes:
            process.kill()
            process.wait()
    forms = Forms(standards)
    yield from (said_by(book, forms) for book in missing.values())


def work() -> None:
    """What a process does: reads its share, and writes what each book says, with its length in front."""
    share = msgspec.msgpack.decode(sys.stdin.buffer.read(), type=Share)
    forms = Forms(share.standards)
    # Not sys.stdout.buffer: where Python runs unbuffered, that one leaves out what a signal cut short.
    with os.fdopen(sys.stdout.fileno(), "wb", closefd=False) as out:
        for book in share.books:
            data = msgspec.msgpack.encode(said_by(book, forms))
            out.write(len(data).to_bytes(_LENGTH, "big"))
            out.write(data)
            out.flush()


def _started(share: Share) -> subprocess.Popen[bytes]:
    process = subprocess.Popen(
        [sys.executable, "-c", _START, *sys.path],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
    )
    assert process.stdin is not None
    with contextlib.suppress(OSError), process.stdin as to:
        to.write(msgspec.msgpack.encode(share))
    return process


def _gather(process: subprocess.Popen[bytes], ready: queue.Queue[Said | None]) -> None:
    """Takes in what a process hands back until it ends, whole or not."""
    assert process.stdout is not None
    try:
        with process.stdout as out, contextlib.suppress(EOFError, msgspec.DecodeError, UnicodeDecodeError):
            while True:
                data = _exactly(out, int.from_bytes(_exactly(out, _LENGTH), "big"))
                ready.put(msgspec.msgpack.decode(data, type=Said))
    finally:
        ready.put(None)


def _exactly(out: IO[bytes], length: int) -> bytes:
    data = out.read(length)
    if len(data) < length:
        raise EOFError
    return data
