"""Books on disk: whole or not at all, never over somebody else's change, and nothing lost among many writers."""

from __future__ import annotations

import os
import random
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest

from fitlore.books import files
from fitlore.books.amend import NewRecord, Spliced, splice, write
from fitlore.books.nodes import read_nodes
from fitlore.model.diagnostic import Diagnostic
from tests.books.amend.killing import in_child, lines_run


def names_in(book: Path) -> list[str]:
    """The parts of a book, in its order; it must be without a fault."""
    doc = read_nodes("shop/x.yaml", book.read_bytes())
    assert doc.found == []
    assert isinstance(doc.root, list)
    return [str(record["part"]) for record in doc.root if isinstance(record, dict)]


def append(book: Path, name: str) -> None:
    """Puts one record into a book; asks again as long as others come first."""
    while True:
        seen = files.see(book)
        found = splice("shop/x.yaml", seen.data, [NewRecord({"part": name})])
        assert isinstance(found, Spliced)
        done = write(seen, found, book.parent)
        if isinstance(done, files.Written):
            return
        assert done.code == "A02-changed-since-read"


def test_a_book_is_replaced_as_a_whole(tmp_path: Path) -> None:
    """The new text is there, with the old rights, and nothing is left beside it but the lock file."""
    book = tmp_path / "x.yaml"
    book.write_bytes(b"old")
    book.chmod(0o640)
    done = files.write(files.see(book), b"new", tmp_path)
    assert done == files.Written(book.resolve(), files.digest(b"new"), 0)
    assert book.read_bytes() == b"new"
    assert stat.S_IMODE(book.stat().st_mode) == 0o640
    assert sorted(path.name for path in tmp_path.iterdir()) == [".write-lock", "x.yaml"]


def test_a_book_somebody_changed_is_left_alone(tmp_path: Path) -> None:
    """A change since it was seen, its removal and its appearance all keep the write out."""
    book = tmp_path / "x.yaml"
    nothing = files.see(book)
    book.write_bytes(b"one")
    one = files.see(book)
    assert files.write(nothing, b"new", tmp_path) == files.NotWritten(book.resolve(), "changed")
    book.write_bytes(b"two")
    assert files.write(one, b"new", tmp_path) == files.NotWritten(book.resolve(), "changed")
    assert book.read_bytes() == b"two"
    book.unlink()
    assert files.write(one, b"new", tmp_path) == files.NotWritten(book.resolve(), "changed")
    assert [path.name for path in tmp_path.iterdir()] == [".write-lock"]


def test_the_refusal_hands_over_the_lines(tmp_path: Path) -> None:
    """What was not written is there to be pasted, with the place it was meant for."""
    book = tmp_path / "x.yaml"
    book.write_bytes(b"- part: A\n")
    seen = files.see(book)
    found = splice("shop/x.yaml", seen.data, [NewRecord({"part": "B", "is": "hose"})])
    assert isinstance(found, Spliced)
    book.write_bytes(b"- part: A2\n")
    refused = write(seen, found, tmp_path)
    assert isinstance(refused, Diagnostic)
    assert refused.code == "A02-changed-since-read"
    assert "- part: B\n  is: hose" in refused.remedy
    assert "line 2 of shop/x.yaml" in refused.remedy


def test_new_books_and_folders_are_made_and_removed(tmp_path: Path) -> None:
    """A book that was not there is made with its folders; None removes one."""
    book = tmp_path / "books" / "deep" / "x.yaml"
    assert isinstance(files.write(files.see(book), b"new", tmp_path / "books"), files.Written)
    assert book.read_bytes() == b"new"
    assert isinstance(files.write(files.see(book), None, tmp_path / "books"), files.Written)
    assert not book.exists()


def test_a_symbolic_link_stays_one(tmp_path: Path) -> None:
    """The file it points to is replaced, and relative links hold."""
    (tmp_path / "real").mkdir()
    (tmp_path / "real" / "x.yaml").write_bytes(b"old")
    link = tmp_path / "x.yaml"
    link.symlink_to(Path("real") / "x.yaml")
    assert isinstance(files.write(files.see(link), b"new", tmp_path), files.Written)
    assert link.is_symlink()
    assert (tmp_path / "real" / "x.yaml").read_bytes() == b"new"


def test_a_second_hard_link_is_told(tmp_path: Path) -> None:
    """The other name goes on showing the old text: the write counts such names."""
    book, other = tmp_path / "x.yaml", tmp_path / "other"
    book.write_bytes(b"old")
    os.link(book, other)
    done = files.write(files.see(book), b"new", tmp_path)
    assert isinstance(done, files.Written)
    assert done.other_names == 1
    assert other.read_bytes() == b"old"


def test_what_the_system_refuses_is_a_reason_not_a_crash(tmp_path: Path) -> None:
    """Where a folder cannot be (a file has its name), the system's own words come back."""
    (tmp_path / "file").write_bytes(b"")
    book = tmp_path / "file" / "x.yaml"
    done = files.write(files.Seen(book, None), b"new", tmp_path)
    assert isinstance(done, files.NotWritten)
    assert done.reason == "system"
    assert done.detail


def test_a_writer_waits_and_then_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """While somebody holds the lock nothing is written; after the patience it is a refusal, not a hang."""
    book = tmp_path / "x.yaml"
    book.write_bytes(b"old")
    monkeypatch.setattr(files, "PATIENCE", 0.05)
    begun = time.monotonic()
    with files.locked(tmp_path / files.LOCK):
        done = files.write(files.see(book), b"new", tmp_path)
    assert isinstance(done, files.NotWritten)
    assert done.reason == "busy"
    assert 0.05 <= time.monotonic() - begun < 5
    assert book.read_bytes() == b"old"


_WRITER = """
import sys
from pathlib import Path
from tests.books.amend.test_files import append
for number in range(int(sys.argv[3])):
    append(Path(sys.argv[1]), f"W{sys.argv[2]} {number}")
"""


def test_eight_writers_at_once_lose_nothing(tmp_path: Path, repo: Path) -> None:
    """Eight processes put ten records each into one book: all eighty are there, each writer's in its order."""
    book = tmp_path / "x.yaml"
    book.write_bytes(b"- part: first\n")
    env = {**os.environ, "PYTHONPATH": os.pathsep.join([str(repo / "src"), str(repo)])}
    command = [sys.executable, "-c", _WRITER, str(book)]
    writers = [subprocess.Popen([*command, str(one), "10"], env=env) for one in range(8)]
    assert [writer.wait(120) for writer in writers] == [0] * 8
    names = names_in(book)
    assert names[0] == "first"
    assert sorted(names[1:]) == sorted(f"W{one} {number}" for one in range(8) for number in range(10))
    for one in range(8):
        assert [n for n in names if n.startswith(f"W{one} ")] == [f"W{one} {number}" for number in range(10)]


def test_a_killed_writer_loses_nothing(tmp_path: Path) -> None:
    """Thirty writers are killed at random lines of the write: the book is the old or the new one, and the next proceeds.

    A killed process keeps no lock, so nobody waits for it, and the next write takes away what it left.
    """
    book = tmp_path / "x.yaml"
    book.write_bytes(b"- part: P 0\n")
    known = ["P 0"]
    every = lines_run(lambda: append(book, "P 1"), (files,))
    known.append("P 1")
    chance = random.Random(19)
    outcomes = set()
    for round_ in range(30):
        name = f"K {round_}"
        code = in_child(lambda name=name: append(book, name), (files,), chance.randint(1, every))
        assert code == -9
        names = names_in(book)
        outcomes.add(names == known)
        assert names in (known, [*known, name])
        begun = time.monotonic()
        append(book, f"P {round_ + 2}")
        assert time.monotonic() - begun < 2
        known = [*names, f"P {round_ + 2}"]
        assert names_in(book) == known
        assert sorted(path.name for path in tmp_path.iterdir()) == [".write-lock", "x.yaml"]
    assert outcomes == {True, False}
