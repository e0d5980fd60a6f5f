"""Writing and taking back: byte for byte, never over somebody's edit, and nothing lost when a writer dies."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
from pathlib import Path

import pytest

from fitlore.books import files
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.part import Part
from fitlore.model.record import Name, Number
from fitlore.upkeep import journal
from fitlore.upkeep import record as recording
from fitlore.upkeep import undo as undoing
from fitlore.upkeep.addition import Addition, MoreEvidence, NewClaim, NewRecord, NewValue
from fitlore.upkeep.record import Recorded, record
from fitlore.upkeep.undo import listed, undo
from tests.books.amend.killing import in_child, lines_run
from tests.upkeep.lowbarn import bytes_of, claim, copy_to, draft_at, graph_at, piece


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A copy of the small shop."""
    return copy_to(tmp_path)


def written(shop: Path, addition: Addition) -> Recorded:
    """An addition drafted and recorded."""
    found = draft_at(shop, addition)
    assert found.ready, found.objections
    done = record(found, shop)
    assert isinstance(done, Recorded), done
    return done


def several(shop: Path) -> list[dict[str, bytes]]:
    """Writes of several kinds into several books, two of them new; the shop before the first and after each."""
    states = [bytes_of(shop)]
    nut = graph_at(shop).crossfit("nut-from-tarn")
    assert nut is not None
    additions: list[Addition] = [
        NewClaim(claim("x", "KT 1", "TC 1", piece())),
        MoreEvidence(nut, piece()),
        NewRecord(Part(part=Number("BR 1"), maker="Brede", is_=Name("test-lever"))),
        NewValue(graph_at(shop).offers_by("northgate")[1], ("price",), "1.00 GBP"),
        NewRecord(Part(part=Number("BR 2"), maker="Brede", is_=Name("test-lever"))),
        NewClaim(claim("z", "KT 1", "BR 1", piece()), "shop/heard/new.yaml"),
        NewValue(graph_at(shop).offers_by("northgate")[0], ("stock",), 0),
    ]
    for addition in additions:
        written(shop, addition)
        states.append(bytes_of(shop))
    return states


def test_a_write_is_what_was_drafted(shop: Path) -> None:
    """The book holds the drafted text, and the place and lines are told."""
    found = draft_at(shop, NewClaim(claim("x", "KT 1", "TC 1", piece())))
    done = record(found, shop)
    assert isinstance(done, Recorded)
    assert found.spliced is not None
    assert (shop / "books" / "crossfits.yaml").read_bytes() == found.spliced.data
    assert (done.origin, done.lines, done.number) == (found.spliced.origin, found.spliced.lines, 1)
    assert done.notes == ()
    assert graph_at(shop).crossfit("x") is not None


def test_the_journal_says_what_was_done(shop: Path) -> None:
    """A line per write: hashes before and after, the bytes put in, when, and paths that hold when the shop moves."""
    before = files.see(shop / "books" / "crossfits.yaml").digest
    written(shop, NewClaim(claim("x", "KT 1", "TC 1", piece())))
    (line,) = (shop / ".fitlore" / "journal").read_text("utf-8").splitlines()
    row = json.loads(line)
    assert row["what"] == "claim x"
    assert row["book"] == "shop/crossfits.yaml"
    assert row["path"] == "books/crossfits.yaml"
    assert row["before"] == before
    assert row["after"] == files.see(shop / "books" / "crossfits.yaml").digest
    assert row["time"].endswith("+00:00")
    moved = shop.rename(shop.with_name("moved"))
    assert len(undo(moved).entries) == 1
    assert files.see(moved / "books" / "crossfits.yaml").digest == before


def test_undo_goes_back_through_several_writes_byte_for_byte(shop: Path) -> None:
    """Each state comes back as it was; books that a write made are gone again; then there is nothing left."""
    states = several(shop)
    assert len(states) == 8
    assert len({frozenset(state.items()) for state in states}) == 8
    for number, state in zip(range(7, 0, -1), reversed(states[:-1]), strict=True):
        assert [one.entry.number for one in listed(shop)] == list(range(number, 0, -1))
        done = undo(shop)
        assert [entry.number for entry in done.entries] == [number]
        assert done.refused is None
        assert bytes_of(shop) == state
    assert undo(shop).entries == ()
    assert listed(shop) == ()


def test_several_are_taken_back_at_once(shop: Path) -> None:
    """Newest first, as many as are asked for; writing goes on afterwards and can be taken back again."""
    states = several(shop)
    assert [entry.number for entry in undo(shop, 3).entries] == [7, 6, 5]
    assert bytes_of(shop) == states[4]
    done = written(shop, NewClaim(claim("y", "KT 5", "BR 5", piece())))
    assert done.number == 8
    assert [entry.number for entry in undo(shop, 99).entries] == [8, 4, 3, 2, 1]
    assert bytes_of(shop) == states[0]


def test_an_edit_since_is_never_undone(shop: Path) -> None:
    """One more byte, or the book gone, and the write stays, with the lines to take out by hand; other books too wait."""
    start = bytes_of(shop)
    written(shop, NewRecord(Part(part=Number("BR 1"), maker="Brede", is_=Name("test-lever"))))
    written(shop, NewClaim(claim("x", "KT 1", "TC 1", piece())))
    book = shop / "books" / "crossfits.yaml"
    after = book.read_bytes()
    for text in (after.replace(b"KT 1", b"KT 9"), after.rstrip() + b"\n    more\n", None):
        if text is None:
            book.unlink()
        else:
            book.write_bytes(text)
        done = undo(shop, 2)
        assert done.entries == ()
        assert done.refused is not None
        assert done.refused.code == "U11-edited-since"
        assert "- crossfit: x\n  instead-of: KT 1" in done.refused.remedy
        assert files.see(book).data == text
        assert (shop / "books" / "parts.yaml").is_file()
    book.write_bytes(after)
    assert len(undo(shop, 2).entries) == 2
    assert bytes_of(shop) == start


def test_a_book_changed_since_the_draft_is_not_written(shop: Path) -> None:
    """The hash guard: the other change stays, the lines are handed over, and there is nothing to undo."""
    found = draft_at(shop, NewClaim(claim("x", "KT 1", "TC 1", piece())))
    book = shop / "books" / "crossfits.yaml"
    book.write_bytes(book.read_bytes() + b"# mine\n")
    before = bytes_of(shop)
    refused = record(found, shop)
    assert isinstance(refused, Diagnostic)
    assert refused.code == "A02-changed-since-read"
    assert "- crossfit: x" in refused.remedy
    assert bytes_of(shop) == before
    assert listed(shop) == ()


def test_a_draft_with_objections_is_not_written(shop: Path) -> None:
    """A trap that somebody says fits does not get in by any way."""
    found = draft_at(shop, NewClaim(claim("trap", "KT 5", "VP 5", piece())))
    assert not found.ready
    with pytest.raises(ValueError, match="objections"):
        record(found, shop)


def test_a_journal_cut_off_in_its_last_line_goes_on(shop: Path) -> None:
    """A writer that died while noting wrote nothing: what is before counts, what comes after is whole."""
    several(shop)
    path = shop / ".fitlore" / "journal"
    whole = path.read_bytes()
    path.write_bytes(whole + b'{"kind":"write","number":8,"bo')
    assert [one.entry.number for one in listed(shop)] == [7, 6, 5, 4, 3, 2, 1]
    assert written(shop, NewClaim(claim("y", "KT 5", "BR 5", piece()))).number == 8
    assert len(undo(shop, 99).entries) == 8


def test_a_journal_somebody_edited_stops_writing_and_undoing(shop: Path) -> None:
    """Nothing is guessed from a line that is none of ours, and the books stay as they are."""
    several(shop)
    found = draft_at(shop, NewClaim(claim("y", "KT 5", "BR 5", piece())))
    before = bytes_of(shop)
    path = shop / ".fitlore" / "journal"
    path.write_bytes(b"hello\n" + path.read_bytes())
    done = record(found, shop)
    assert isinstance(done, Diagnostic)
    assert done.code == "U12-journal-unreadable"
    refused = undo(shop).refused
    assert refused is not None
    assert refused.code == "U12-journal-unreadable"
    assert bytes_of(shop) == before


_WRITER = """
import sys
from pathlib import Path
from tests.upkeep.test_record import note_until_done
for number in range(int(sys.argv[3])):
    note_until_done(Path(sys.argv[1]), f"w{sys.argv[2]}-{number}")
"""


def note_until_done(shop: Path, name: str) -> None:
    """A claim drafted and recorded, and drafted anew as long as somebody else was quicker."""
    while True:
        found = draft_at(shop, NewClaim(claim(name, f"A {name}", f"B {name}", piece())))
        assert found.ready, found.objections
        done = record(found, shop)
        if isinstance(done, Recorded):
            return
        assert done.code == "A02-changed-since-read"


def test_eight_writers_at_once_lose_nothing(shop: Path, repo: Path) -> None:
    """Eight processes note three claims each: all are there, the journal has each once, and all can be taken back."""
    start = bytes_of(shop)
    env = {**os.environ, "PYTHONPATH": os.pathsep.join([str(repo / "src"), str(repo)])}
    command = [sys.executable, "-c", _WRITER, str(shop)]
    writers = [subprocess.Popen([*command, str(one), "3"], env=env) for one in range(8)]
    assert [writer.wait(300) for writer in writers] == [0] * 8
    names = {f"w{one}-{number}" for one in range(8) for number in range(3)}
    assert {one.crossfit for one in graph_at(shop).crossfits()} >= names
    assert sorted(one.entry.what for one in listed(shop)) == sorted(f"claim {name}" for name in names)
    assert len(undo(shop, 99).entries) == 24
    assert bytes_of(shop) == start


def test_a_writer_killed_anywhere_loses_nothing(shop: Path) -> None:
    """Thirty writers are killed at random lines of noting and writing.

    Each time the shop is as before or as after, the next write proceeds at once, and in the end all that was written,
    by the living and the dead, is taken back byte for byte.
    """
    start = bytes_of(shop)
    rooms = ((files,), (journal,), (recording,))
    first = NewClaim(claim("x", "KT 1", "TC 1", piece()))
    lines = []
    for modules in rooms:
        found = draft_at(shop, first)
        lines.append(lines_run(lambda found=found: record(found, shop), modules))
        assert len(undo(shop).entries) == 1
    chance = random.Random(7)
    outcomes = set()
    for number in range(30):
        found = draft_at(shop, NewClaim(claim(f"k-{number}", f"A {number}", f"B {number}", piece())))
        assert found.spliced is not None
        before = bytes_of(shop)
        after = before | {"books/crossfits.yaml": found.spliced.data}
        room = number % 3
        killed = in_child(
            lambda found=found: record(found, shop), rooms[room], chance.randint(1, lines[room])
        )
        assert killed == -9
        now = bytes_of(shop)
        outcomes.add(now == before)
        assert now in (before, after)
        written(shop, NewClaim(claim(f"p-{number}", f"C {number}", f"D {number}", piece())))
    assert outcomes == {True, False}
    noted = {one.crossfit for one in graph_at(shop).crossfits()}
    assert {f"p-{number}" for number in range(30)} <= noted
    done = undo(shop, 99)
    assert done.refused is None
    assert bytes_of(shop) == start
    assert 30 < len(done.entries) < 60


class Died(BaseException):
    """The writer is no more."""


def test_a_write_that_never_was_is_not_in_the_way_of_older_ones(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its writer died after the journal's line. Undoing the write before it does not make it one that somebody edited over."""
    start = bytes_of(shop)
    for name in ("one", "two"):
        written(shop, NewClaim(claim(name, f"A {name}", f"B {name}", piece())))
    found = draft_at(shop, NewClaim(claim("three", "A 3", "B 3", piece())))

    def dies(*_: object) -> None:
        raise Died

    monkeypatch.setattr(files, "write", dies)
    with pytest.raises(Died):
        record(found, shop)
    monkeypatch.undo()
    noted = journal.standing(journal.read(shop / journal.FOLDER / journal.NAME))
    assert [one.what for one in noted] == ["claim one", "claim two", "claim three"]
    assert [one.entry.what for one in listed(shop)] == ["claim two", "claim one"]
    assert [one.what for one in undo(shop).entries] == ["claim two"]
    assert [one.what for one in undo(shop, 9).entries] == ["claim one"]
    assert bytes_of(shop) == start


def test_a_write_refused_at_the_last_moment_is_crossed_out(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An editor that saves between the journal's line and the write keeps its text, and older writes can still be undone."""
    start = bytes_of(shop)
    written(
        shop, NewRecord(Part(part=Number("BR 1"), maker="Brede", is_=Name("test-lever")), "shop/other.yaml")
    )
    found = draft_at(shop, NewClaim(claim("three", "A 3", "B 3", piece())))
    assert found.target is not None
    book, real = found.target.path, files.write

    def too_late(*given: object) -> object:
        book.write_bytes(book.read_bytes() + b"# edited\n")
        return real(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(files, "write", too_late)
    assert getattr(record(found, shop), "code", "") == "A02-changed-since-read"
    monkeypatch.undo()
    assert len(undo(shop, 9).entries) == 1
    assert bytes_of(shop) == start | {"books/crossfits.yaml": start["books/crossfits.yaml"] + b"# edited\n"}


def test_an_undoing_killed_anywhere_is_finished_by_the_next(shop: Path) -> None:
    """Thirty undoings are killed at random lines; asking again takes back that write and none before it."""
    states = several(shop)
    rooms = ((files,), (journal,), (undoing,))
    lines = []
    for modules in rooms:
        lines.append(lines_run(lambda: undo(shop), modules))
        written_again = NewValue(graph_at(shop).offers_by("northgate")[0], ("stock",), 0)
        written(shop, written_again)
    assert len(undo(shop).entries) == 1
    chance = random.Random(3)
    outcomes = set()
    for number in range(30):
        written(shop, written_again)
        assert bytes_of(shop) == states[7]
        room = number % 3
        assert in_child(lambda: undo(shop), rooms[room], chance.randint(1, lines[room])) == -9
        outcomes.add(bytes_of(shop) == states[7])
        assert bytes_of(shop) in (states[7], states[6])
        if listed(shop) and listed(shop)[0].entry.number > 7:
            assert len(undo(shop).entries) == 1
        assert bytes_of(shop) == states[6]
    assert outcomes == {True, False}
    assert [entry.number for entry in undo(shop, 99).entries] == [6, 5, 4, 3, 2, 1]
    assert bytes_of(shop) == states[0]
