"""What keeps snapshots and books whole over power cuts, read-only folders, systems without locks, and many days of edits."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from fitlore.books import files
from fitlore.books.layout import books_of
from fitlore.books.reading import read_book
from fitlore.graph import home, kept_files, locks, manifest, snapshot, store
from fitlore.graph.derive import derive
from fitlore.graph.forms import Forms
from fitlore.graph.open import open_graph
from fitlore.graph.page import page_of
from tests.graph.changing import Changing, everything

DEMO = Path(__file__).resolve().parents[2] / "demo" / "lowbarn"
EDITS = 120 if os.environ.get("FITLORE_FUZZ") == "long" else 8
PART = b"- part: NEW %d\n  maker: Velm\n  is: test-tyre\n"


@pytest.fixture
def world(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Changing:
    """A small shop to change."""
    return Changing(tmp_path, monkeypatch)


@pytest.fixture
def deeds(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, str]]:
    """What is brought onto the disk, and what gets another's name, in order."""
    done: list[tuple[str, str]] = []
    sync, replace, flush = os.fsync, Path.replace, store.Writer.close

    def synced(handle: int) -> None:
        done.append(("sync", Path(f"/proc/self/fd/{handle}").readlink().name))
        sync(handle)

    def replaced(self: Path, target: Path) -> Path:
        done.append(("replace", Path(target).name))
        return replace(self, target)

    def flushed(self: store.Writer) -> store.Facts:
        done.append(("flush", "store"))
        return flush(self)

    monkeypatch.setattr(os, "fsync", synced)
    monkeypatch.setattr(Path, "replace", replaced)
    monkeypatch.setattr(store.Writer, "close", flushed)
    return done


proc = pytest.mark.skipif(
    not Path("/proc/self/fd").exists(), reason="names of open files are looked up in /proc"
)


@proc
def test_a_book_is_on_the_disk_before_it_has_its_name(tmp_path: Path, deeds: list[tuple[str, str]]) -> None:
    """The new text is synced, then takes the name, then the folder is synced: a power cut leaves the old or the new one."""
    book = tmp_path / "a.yaml"
    book.write_bytes(b"old")
    assert isinstance(files.write(files.see(book), b"new", tmp_path), files.Written)
    (text, name), taken, folder = deeds
    assert text == "sync"
    assert name.startswith(".a.yaml.")
    assert taken == ("replace", "a.yaml")
    assert folder == ("sync", tmp_path.name)


@proc
def test_a_snapshot_is_on_the_disk_before_it_counts(world: Changing, deeds: list[tuple[str, str]]) -> None:
    """The store is flushed, each file beside it synced before it has its name, and the pointer comes last of all."""
    world.opened()
    at = {deed: place for place, deed in reversed(list(enumerate(deeds)))}
    assert at["flush", "store"] < at["sync", ".current"] < at["replace", "current"]
    for name in ("manifest", "stamp", "names", "words", "found", "standards"):
        assert at["sync", f".{name}"] < at["replace", name] < at["replace", "current"], name
    assert deeds[-1][0] == "sync"
    assert deeds[-2] == ("replace", "current")


def test_nothing_is_left_to_be_replayed(world: Changing) -> None:
    """What a published store's newest log holds each opening would go through again; so it holds nothing."""
    for number in range(2):
        world.write("books/new.yaml", PART % number)
        world.opened()
        (folder,) = (path.parent for path in world.cache.rglob("stamp"))
        assert list(folder.glob("store/*.sst"))
        assert max(folder.glob("store/*.log")).stat().st_size == 0


def test_asking_writes_nothing(world: Changing, monkeypatch: pytest.MonkeyPatch) -> None:
    """A snapshot is only read, so it also serves from a folder that nobody may write to."""
    world.opened()
    monkeypatch.setattr(manifest, "SETTLED", -10_000_000_000)
    world.opened()

    def stands() -> dict[str, tuple[int, int, int]]:
        found = {str(path): path.stat() for path in world.cache.rglob("*")}
        return {name: (now.st_size, now.st_mtime_ns, now.st_ino) for name, now in found.items()}

    before = stands()
    assert len(everything(world.opened())) > 5
    assert stands() == before


def test_a_cache_that_cannot_be_written_costs_the_snapshot_and_nothing_else(world: Changing) -> None:
    """The graph is made in memory, with the same answers, and a note says where and why."""
    (world.shop.parent / "file").write_bytes(b"")
    graph = open_graph(world.shop, cache=world.shop.parent / "file")
    assert "no snapshot could be kept" in graph.held.notes[0]
    assert everything(graph) == everything(world.opened())


def test_without_locks_the_last_three_stay(world: Changing, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the system has no such locks nobody can tell that he reads: older ones than the last three go."""
    monkeypatch.setattr(locks, "fcntl", None)
    for number in range(4):
        world.write("books/new.yaml", PART % number)
        graph = world.opened()
        assert len(graph.parts([f"NEW{number}"])) == 1
    assert len(world.snapshots()) == 3
    assert everything(world.opened()) == everything(world.afresh())


def test_many_edits_leave_one_snapshot_of_the_same_size(world: Changing) -> None:
    """Edits of one book, again and again: one snapshot in the end, hardly larger than one made of the same books at once."""
    for number in range(EDITS):
        world.write("books/new.yaml", b"".join(PART % (number * 1000 + one) for one in range(20)))
        world.opened()
    (kept,) = world.snapshots()
    fresh = world.shop.parent / "other"
    open_graph(world.shop, cache=fresh)
    grown, whole = (
        sum(path.stat().st_size for path in place.rglob("*") if path.is_file())
        for place in (world.cache, fresh)
    )
    assert grown < 3 * whole, (kept, grown, whole)


def test_the_place_of_snapshots_is_the_users_and_not_the_shops(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By the shop's real path and by the program: not beside the books, whose disk may have no locks or links."""
    shop, other = tmp_path / "shop", tmp_path / "link"
    shop.mkdir()
    other.symlink_to(shop)
    monkeypatch.delenv(home.CACHE, raising=False)
    place = home.home_of(shop)
    assert shop not in place.parents
    assert Path(home.user_cache()) in place.parents
    assert home.home_path(os.path.realpath(other)) == str(place)
    assert home.home_of(tmp_path / "second") != place
    monkeypatch.setenv(home.CACHE, str(tmp_path / "kept"))
    assert tmp_path / "kept" in home.home_of(shop).parents


def test_no_derived_fact_is_a_truth() -> None:
    """Some stores give a truth back as `1` and others as `true`: nothing that is asked for may hang on it."""
    kinds: set[str] = set()
    for book in books_of(DEMO):
        reading = read_book(book.shown, book.path.read_bytes(), book.graph_name)
        page = page_of(book.graph_name, derive(book.graph_name, reading.records, Forms(None)))
        kinds |= {line.rpartition("#")[2] for line in page.statements if line.endswith("XMLSchema#boolean>")}
    assert kinds == set()


def test_a_half_written_pointer_is_never_seen(world: Changing) -> None:
    """The pointer is put in place as a whole: whatever a dead writer left of the next one is not looked at."""
    world.opened()
    (home_,) = (path.parent for path in world.cache.rglob("current"))
    (home_ / ".current").write_bytes(b"s99")
    assert snapshot.open_current(home_) is not None
    world.write("books/new.yaml", PART % 1)
    assert len(world.opened().parts(["NEW1"])) == 1
    kept_files.put(home_ / "current", b"s-not-there")
    assert len(world.opened().parts(["NEW1"])) == 1
