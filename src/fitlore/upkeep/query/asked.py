"""A question answered in a process of its own, which is ended when its time is over; no more rows come than were asked for."""

from __future__ import annotations

import contextlib
import itertools
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.books.faults import fault
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.upkeep.query.read_only import as_run, looked_through, not_sparql

if TYPE_CHECKING:
    from fitlore.graph.store import Facts

_START: Final = "import sys; sys.path[:] = sys.argv[1:]; from fitlore.upkeep.query.asked import work; work()"
_READY: Final = b"+"
_TERM: Final = re.compile(r'<([^>]*)>|_:(\S+)|("(?:[^"\\]++|\\.)*+")(?:@([\w-]+)|\^\^<([^>]*)>)?', re.DOTALL)


class Term(NamedTuple):
    """One value of a row: `uri`, `bnode` or `literal`, the words of the W3C's JSON of results."""

    kind: str
    value: str
    language: str = ""
    datatype: str = ""
    """Its IRI; empty for plain text."""


class Limits(NamedTuple):
    """How far an answer may go."""

    seconds: float = 20.0
    rows: int = 1000


class Answered(NamedTuple):
    """The columns and rows of a SELECT, or the yes or no of an ASK (`said`; None for a SELECT)."""

    columns: tuple[str, ...]
    rows: tuple[tuple[Term | None, ...], ...]
    said: bool | None = None
    cut: bool = False
    """There are more rows than were allowed."""


class _Asked(msgspec.Struct, frozen=True):
    """What the process is told."""

    folder: str
    query: str
    rows: int
    run: bool


class _Reply(msgspec.Struct, frozen=True):
    """What it says: terms as in N-Triples."""

    columns: list[str] = []
    rows: list[list[str]] = []
    said: bool | None = None
    syntax: str = ""
    """Why it is no SPARQL."""
    wrong: str = ""


def asked(folder: Path | None, shown: str, text: str, limits: Limits) -> Answered | Diagnostic:
    """The answer to a question over the books of a knowledge base (None: the built-in shelf), or why there is none.

    What the books say is asked of as one graph; `GRAPH ?book { }` tells them apart, and reaches what was derived from them.
    `shown` names the question in faults.
    """
    query = as_run(text)
    may_run = looked_through(shown, query)
    if isinstance(may_run, Diagnostic):
        return may_run
    process = _started()
    try:
        reply = _reply(process, _Asked(str(folder or ""), query, limits.rows + 1, may_run), limits.seconds)
    except subprocess.TimeoutExpired:
        return fault("U34-took-too-long", Origin(shown, 1, 1), seconds=f"{limits.seconds:g}")
    finally:
        process.kill()
        if process.stdout is not None:
            process.stdout.close()
        process.wait()
    if reply.syntax or not may_run:
        return not_sparql(shown, query, reply.syntax)
    if reply.wrong:
        return fault("U35-broke-off", Origin(shown, 1, 1), why=reply.wrong)
    rows = tuple(tuple(map(read_term, row)) for row in reply.rows[: limits.rows])
    return Answered(tuple(reply.columns), rows, reply.said, len(reply.rows) > limits.rows)


def _started() -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-c", _START, *sys.path],
        bufsize=0,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
    )


def _reply(process: subprocess.Popen[bytes], wanted: _Asked, seconds: float) -> _Reply:
    """What the process says; the clock starts once it has opened the books. Raises TimeoutExpired."""
    assert process.stdin is not None
    assert process.stdout is not None
    with contextlib.suppress(OSError), process.stdin as to:
        to.write(msgspec.msgpack.encode(wanted))
    process.stdin = None
    process.stdout.read(len(_READY))
    data, _ = process.communicate(timeout=seconds)
    try:
        return msgspec.msgpack.decode(data, type=_Reply)
    except msgspec.DecodeError:
        return _Reply(wrong=f"it ended with {process.returncode} and said nothing")


def work() -> None:
    """What the process does: opens the books, says that it has, and answers. A text that breaks the reader breaks only this."""
    from fitlore.graph.open import open_graph
    from fitlore.graph.store import Facts, Layer, in_memory

    wanted = msgspec.msgpack.decode(sys.stdin.buffer.read(), type=_Asked)
    facts = open_graph(wanted.folder or None).facts if wanted.run else Facts([Layer(in_memory(()))])
    with os.fdopen(sys.stdout.fileno(), "wb", closefd=False) as out:
        out.write(_READY)
        out.flush()
        out.write(msgspec.msgpack.encode(_answer(facts, wanted)))


def _answer(facts: Facts, wanted: _Asked) -> _Reply:
    try:
        found = facts.answer(wanted.query)
        if isinstance(found, bool):
            return _Reply(said=found)
        return _Reply(found[0], list(itertools.islice(found[1], wanted.rows)))
    except SyntaxError as error:
        return _Reply(syntax=str(error))
    except (ValueError, OSError, RuntimeError) as error:
        return _Reply(wrong=str(error))


def read_term(text: str) -> Term | None:
    """A term as N-Triples writes it; None for an empty text. Raises ValueError for any other text."""
    if not text:
        return None
    found = _TERM.fullmatch(text)
    if found is None:
        raise ValueError(f"no term of N-Triples: {text[:80]}")
    if found[1] is not None:
        return Term("uri", found[1])
    if found[2] is not None:
        return Term("bnode", found[2])
    # The escapes of a text are JSON's too, and signs below a blank may stand as they are.
    return Term("literal", json.loads(found[3], strict=False), found[4] or "", found[5] or "")
