"""Reading many books in processes of their own, and writing only what an edit changed."""

from __future__ import annotations

import os
import signal
import subprocess
from pathlib import Path

import pyoxigraph as ox
import pytest

from fitlore.books.layout import builtin_kb
from fitlore.books.standards import read_standards
from fitlore.graph import beside, build, home, store
from fitlore.graph.forms import Forms
from fitlore.graph.manifest import Book
from fitlore.graph.open import open_graph
from tests.graph import small

CATEGORIES = sorted((builtin_kb() / "categories").glob("*.yaml"))
BOOKS = [
    Book(f"kb/{p.name}", str(p), f"https://fitlore.example/book/kb/{p.name}", None, "") for p in CATEGORIES
]


def alone() -> dict[str, build.Said]:
    """What the books say, read here."""
    forms = Forms(read_standards()[0])
    return {book.graph: build.said_by(book, forms) for book in BOOKS}


@pytest.fixture(autouse=True)
def _posix() -> None:
    """Signals are used to end and to halt processes."""
    if not hasattr(signal, "SIGSTOP"):
        pytest.skip("no such signals on this system")


def test_books_say_the_same_in_other_processes() -> None:
    """Every book comes back once, from two processes as from none."""
    found = list(beside.read_beside(BOOKS, read_standards()[0], 2))
    assert len(found) == len(BOOKS) > 10
    assert {said.book.graph: said for said in found} == alone()


def test_a_process_that_dies_costs_no_book(monkeypatch: pytest.MonkeyPatch) -> None:
    """One is killed at once, the other after its start: what they did not hand back is read here."""
    started = beside._started

    def doomed(share: beside.Share) -> subprocess.Popen[bytes]:
        process = started(share)
        if share.books[0] == BOOKS[0]:
            os.kill(process.pid, signal.SIGKILL)
        return process

    monkeypatch.setattr(beside, "_started", doomed)
    found = list(beside.read_beside(BOOKS, read_standards()[0], 2))
    assert sorted(said.book.graph for said in found) == sorted(alone())


def test_a_process_that_talks_nonsense_costs_no_book(monkeypatch: pytest.MonkeyPatch) -> None:
    """What cannot be taken apart ends that share, and its books are read here."""
    echo = "import sys; sys.stdin.buffer.read(); sys.stdout.write('\\0' * 7 + '\\5' + 'xxxxx')"
    monkeypatch.setattr(beside, "_START", echo)
    found = list(beside.read_beside(BOOKS, read_standards()[0], 2))
    assert sorted(said.book.graph for said in found) == sorted(alone())


def test_a_process_that_is_halted_for_a_while_says_all(monkeypatch: pytest.MonkeyPatch) -> None:
    """Halted and sent on in the middle of a write, without a buffer of Python's own: nothing is left out."""
    monkeypatch.setenv("PYTHONUNBUFFERED", "1")
    running: list[subprocess.Popen[bytes]] = []
    started = beside._started

    def noted(share: beside.Share) -> subprocess.Popen[bytes]:
        running.append(started(share))
        return running[-1]

    monkeypatch.setattr(beside, "_started", noted)
    monkeypatch.setattr(build, "said_by", None)
    monkeypatch.setattr(beside, "said_by", None)
    reading = beside.read_beside(BOOKS, read_standards()[0], 2)
    found = []
    for said in reading:
        found.append(said.book.graph)
        for process in running:
            if process.poll() is None:
                process.send_signal(signal.SIGSTOP)
                process.send_signal(signal.SIGCONT)
    assert sorted(found) == sorted(book.graph for book in BOOKS)


def test_stopping_early_leaves_no_process(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever stops asking after the first book ends all processes."""
    running: list[subprocess.Popen[bytes]] = []
    started = beside._started

    def noted(share: beside.Share) -> subprocess.Popen[bytes]:
        running.append(started(share))
        return running[-1]

    monkeypatch.setattr(beside, "_started", noted)
    reading = beside.read_beside(BOOKS, read_standards()[0], 2)
    next(reading)
    reading.close()
    assert len(running) == 2
    assert all(process.poll() is not None for process in running)


def test_few_books_are_read_here(monkeypatch: pytest.MonkeyPatch) -> None:
    """Further processes are started for megabytes of books only, and not where there is one core."""
    assert beside.helpers_for(BOOKS) == 0
    monkeypatch.setattr(beside, "WORTH", 1000)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1, 2}, raising=False)
    assert beside.helpers_for(BOOKS) == 3
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0}, raising=False)
    assert beside.helpers_for(BOOKS) == 0


def statements(shop: Path, cache: Path) -> dict[str, list[str]]:
    """Every graph of the snapshot that counts, as sorted N-Triples."""
    pointer = next(cache.glob("*/*/current"))
    held = ox.Store.read_only(str(pointer.parent / pointer.read_text("utf-8") / "store"))
    found = {}
    for graph in held.named_graphs():
        text = held.dump(format=ox.RdfFormat.N_TRIPLES, from_graph=graph) or b""
        found[str(graph)] = sorted(text.decode().splitlines())
    return found


@pytest.mark.parametrize("edit", ["one word", "a line in front", "everything", "nothing left", "and back"])
def test_an_edited_store_is_the_one_that_reading_all_would_make(
    edit: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever was changed: the same statements, with the same names for nodes, as a new snapshot has."""
    shop = small.copy_to(tmp_path)
    book = shop / "books" / "parts.yaml"
    old = book.read_text("utf-8")
    new = {
        "one word": old.replace("maker: Kestin", "maker: Merrow", 1),
        "a line in front": f"# a remark\n\n{old}",
        "everything": "- part: M 1\n  maker: Merrow\n  is: test-tyre\n",
        "nothing left": "",
        "and back": old,
    }[edit]
    monkeypatch.setattr(store, "_FEW", 5)
    open_graph(shop, cache=tmp_path / "cache")
    if edit == "and back":
        book.write_text("# empty\n", "utf-8")
        open_graph(shop, cache=tmp_path / "cache")
    assert (new == old) == (edit == "and back")
    book.write_text(new, "utf-8")
    open_graph(shop, cache=tmp_path / "cache")
    open_graph(shop, cache=tmp_path / "afresh")
    assert statements(shop, tmp_path / "cache") == statements(shop, tmp_path / "afresh")
    assert home.home_of(shop, tmp_path / "cache").is_dir()
