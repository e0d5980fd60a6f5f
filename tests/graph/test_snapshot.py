"""Snapshots give the same answers as the books, follow every change of them, and survive whatever happens to them."""

from __future__ import annotations

import os
import shutil
import time
from pathlib import Path

import pytest

from fitlore.books.layout import find_shop as layout_find_shop
from fitlore.graph import build, home, kept_files, manifest, snapshot, store
from fitlore.graph.open import Graph, find_shop, open_graph
from fitlore.model.choices import How
from tests.graph import small
from tests.graph.everything import answers

BOOKS = {f"shop/{n}.yaml" for n in ("categories", "tolland", "corva", "parts", "crossfits", "suppliers")}
OURS = BOOKS | {"club/newsletter.yaml"}


@pytest.fixture(autouse=True)
def kb(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The built-in knowledge cut down to one book of categories, so that all of it is quickly read again."""
    root, whole = tmp_path / "kb", build.builtin_kb()
    shutil.copytree(whole / "standards", root / "standards")
    (root / "categories").mkdir()
    shutil.copy(whole / "categories" / "ignition.yaml", root / "categories")
    for name in ("policy.yaml", "context.jsonld", "vocabulary.ttl"):
        shutil.copy(whole / name, root)
    for module in ("fitlore.graph.build", "fitlore.books.layout", "fitlore.books.standards"):
        monkeypatch.setattr(f"{module}.builtin_kb", lambda: root)
    return root


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A copy of the small shop."""
    return small.copy_to(tmp_path)


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder for snapshots, named by the environment."""
    monkeypatch.setenv(home.CACHE, str(tmp_path / "cache"))
    return tmp_path / "cache"


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """The shown names of books that are read from now on."""
    names: set[str] = set()
    real = build.read_book

    def noting(shown: str, text: bytes, graph_name: str) -> object:
        names.add(shown)
        return real(shown, text, graph_name)

    monkeypatch.setattr(build, "read_book", noting)
    return names


def in_memory(shop: Path) -> Graph:
    """The shop's graph where no snapshot can be kept."""
    graph = open_graph(shop, cache=shop / "fitlore.yaml" / "no-folder")
    assert len(graph.held.notes) == 1
    assert "no snapshot could be kept" in graph.held.notes[0]
    return graph


def age(folder: Path) -> None:
    """Time passes: what the snapshots below a folder were made of is old enough to be believed by its times."""
    for path in folder.rglob("manifest"):
        old = snapshot.msgspec.msgpack.decode(path.read_bytes(), type=manifest.Manifest)
        later = snapshot.msgspec.structs.replace(old, made=old.made + manifest.SETTLED + 1)
        stamp = snapshot.msgspec.msgpack.decode((path.parent / "stamp").read_bytes(), type=snapshot.Stamp)
        kept_files.put_manifest(str(path.parent), later, stamp.sizes)


def names_in(cache: Path) -> list[str]:
    """The snapshots below a cache folder, finished or not."""
    return sorted(p.name for p in cache.glob("*/*/*") if p.is_dir())


def test_a_snapshot_answers_as_the_books_do(shop: Path, cache: Path) -> None:
    """Made, opened again, or read into memory: the same answers to everything."""
    first, again, memory = open_graph(shop), open_graph(shop), in_memory(shop)
    assert first.held.notes == again.held.notes == ()
    assert answers(first) == answers(again) == answers(memory)
    assert first.shop.name == "Lowbarn"
    assert first.cars()
    assert first.standards.threads


def test_deleting_the_cache_changes_no_answer(shop: Path, cache: Path) -> None:
    """The books are the truth; also while a graph is still open on what was deleted no later question is wrong."""
    before = answers(open_graph(shop))
    shutil.rmtree(cache)
    assert answers(open_graph(shop)) == before


def test_only_a_changed_book_is_read_again(shop: Path, cache: Path, read: set[str]) -> None:
    """Nothing is read for an unchanged shop, one book for one change, and the new answers are those of the books."""
    open_graph(shop)
    assert {name for name in read if not name.startswith("kb/")} == OURS
    read.clear()
    open_graph(shop)
    assert read == set()
    book = shop / "books" / "parts.yaml"
    book.write_text(book.read_text("utf-8") + "- part: KT 1\n  maker: Kestin\n  is: test-tyre\n", "utf-8")
    graph = open_graph(shop)
    assert read == {"shop/parts.yaml"}
    assert [p.part for p in graph.parts_of(["test-tyre"])] == ["KT 1"]
    assert answers(graph) == answers(in_memory(shop))


def test_a_book_is_followed_when_it_goes_comes_or_is_renamed(shop: Path, cache: Path, read: set[str]) -> None:
    """A removed book's facts are gone, a new one's are there, a renamed one's are told with the new name."""
    open_graph(shop)
    read.clear()
    crossfits = shop / "books" / "crossfits.yaml"
    text = crossfits.read_bytes()
    crossfits.unlink()
    gone = open_graph(shop)
    assert [c.origin.book for c in gone.crossfits()] == ["club/newsletter.yaml"]
    assert read == set()
    (shop / "books" / "deep").mkdir()
    (shop / "books" / "deep" / "claims.yaml").write_bytes(text)
    back = open_graph(shop)
    assert read == {"shop/deep/claims.yaml"}
    assert [c.origin.book for c in back.crossfits()] == ["shop/deep/claims.yaml"] * 3 + [
        "club/newsletter.yaml"
    ]
    (shop / "books" / "deep" / "claims.yaml").rename(shop / "books" / "agreed.yaml")
    renamed = open_graph(shop)
    assert [c.origin.book for c in renamed.crossfits()] == ["shop/agreed.yaml"] * 3 + ["club/newsletter.yaml"]
    assert answers(renamed) == answers(in_memory(shop))


def test_a_change_that_hides_behind_the_old_time_and_size_is_seen(shop: Path, cache: Path) -> None:
    """Tools that set a file's time back (cp -p, touch -r) cannot set back the time of that."""
    open_graph(shop)
    age(cache)
    book = shop / "books" / "parts.yaml"
    before = book.stat()
    book.write_text(book.read_text("utf-8").replace("19.05 mm", "22.22 mm"), "utf-8")
    os.utime(book, ns=(before.st_atime_ns, before.st_mtime_ns))
    after = book.stat()
    assert (after.st_size, after.st_mtime_ns, after.st_ino) == (
        before.st_size,
        before.st_mtime_ns,
        before.st_ino,
    )
    (part,) = open_graph(shop).parts(["KT530190"])
    assert part.features["bore"] == ("22.22 mm",)


def test_times_that_do_not_settle_it_are_not_believed(
    shop: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A change within one tick of a coarse clock, by which all times stay the same, is still seen while it is fresh."""
    frozen = (shop / "books" / "parts.yaml").stat()
    real = manifest._stat

    def coarse(path: str) -> os.stat_result | None:
        return frozen if path.endswith("parts.yaml") else real(path)

    monkeypatch.setattr(manifest, "_stat", coarse)
    open_graph(shop)
    book = shop / "books" / "parts.yaml"
    book.write_text(book.read_text("utf-8").replace("19.05 mm", "22.22 mm"), "utf-8")
    (part,) = open_graph(shop).parts(["KT530190"])
    assert part.features["bore"] == ("22.22 mm",)


def test_an_old_snapshot_is_found_current_without_opening_a_book(
    shop: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Once its files are older than any clock's tick, a look at their times is all; before that, one look by content."""
    open_graph(shop)
    looked: list[str] = []
    real = manifest._content

    def noting(path: str, now: os.stat_result) -> bytes | None:
        looked.append(path)
        return real(path, now)

    monkeypatch.setattr(manifest, "_content", noting)
    open_graph(shop)
    assert str(shop / "books" / "parts.yaml") in looked
    monkeypatch.setattr(manifest, "SETTLED", -10_000_000_000)
    looked.clear()
    open_graph(shop)
    assert looked == []


def test_a_look_by_content_is_noted_so_that_the_next_can_do_without(shop: Path, cache: Path) -> None:
    """The snapshot stays, its manifest learns when the books were last found unchanged."""
    open_graph(shop)
    (path,) = cache.rglob("manifest")
    made = snapshot.msgspec.msgpack.decode(path.read_bytes(), type=manifest.Manifest).made
    open_graph(shop)
    assert snapshot.msgspec.msgpack.decode(path.read_bytes(), type=manifest.Manifest).made > made


@pytest.mark.parametrize("moment", ["read_layout", "books_on"])
def test_a_change_while_the_books_are_looked_for_is_seen_next_time(
    shop: Path, cache: Path, monkeypatch: pytest.MonkeyPatch, moment: str
) -> None:
    """A book that comes, or a shelf that is struck out, just after its folder or fitlore.yaml was read is not missed."""
    real = getattr(build, moment)

    def late(given: object) -> object:
        result = real(given)
        if moment == "books_on":
            (shop / "books" / "late.yaml").write_text("- car: late\n  is: tarn-corva\n", "utf-8")
        else:
            layout = (shop / "fitlore.yaml").read_text("utf-8")
            (shop / "fitlore.yaml").write_text(layout.replace("name: Lowbarn", "name: Late"), "utf-8")
        return result

    with monkeypatch.context() as patched:
        patched.setattr(build, moment, late)
        first = open_graph(shop)
    assert (first.shop.name, len(first.cars())) == ("Lowbarn", 2)
    age(cache)
    second = open_graph(shop)
    assert (second.shop.name == "Late") != (len(second.cars()) == 3)


def test_files_that_are_no_books_make_no_new_snapshot(shop: Path, cache: Path, read: set[str]) -> None:
    """A note, a lock or an editor's copy in the folder changes nothing; touching a book reads nothing."""
    open_graph(shop)
    before = names_in(cache)
    read.clear()
    (shop / "books" / "notes.txt").write_text("buy bread", "utf-8")
    (shop / "books" / ".parts.yaml.swp").write_bytes(b"\0")
    (shop / "books" / "tolland.yaml").touch()
    open_graph(shop)
    assert (names_in(cache), read) == (before, set())


def test_another_trust_of_a_shelf_reads_that_shelf_again(shop: Path, cache: Path, read: set[str]) -> None:
    """Evidence on a shelf counts at most as its shelf is trusted."""
    capped = open_graph(shop).crossfit("club:tolland-winder-from-corva")
    assert capped is not None
    assert [e.how for e in capped.evidence] == [How.TOLD]
    read.clear()
    layout = shop / "fitlore.yaml"
    layout.write_text(layout.read_text("utf-8").replace("trust: told", "trust: offered-up"), "utf-8")
    freed = open_graph(shop).crossfit("club:tolland-winder-from-corva")
    assert freed is not None
    assert [e.how for e in freed.evidence] == [How.OFFERED_UP]
    assert read == {"club/newsletter.yaml"}


def test_faults_of_books_are_kept_with_the_snapshot(shop: Path, cache: Path, read: set[str]) -> None:
    """Every opening knows them without reading; mending the book takes them away."""
    book = shop / "books" / "parts.yaml"
    sound = book.read_text("utf-8")
    book.write_text(sound + "- part: KT 1\n  maker: Kestin\n  iss: test-tyre\n", "utf-8")
    first = open_graph(shop)
    assert {d.origin.book for d in first.diagnostics} == {"shop/parts.yaml"}
    assert first.parts(["KT1"]) == ()
    assert first.parts(["KT530190"])
    read.clear()
    assert open_graph(shop).diagnostics == first.diagnostics
    assert read == set()
    book.write_text(sound, "utf-8")
    assert open_graph(shop).diagnostics == ()


def test_a_book_that_cannot_be_read_is_told_and_the_others_answer(
    shop: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No right, or gone while it was looked at: a fault with the book's name, and read as soon as it can be."""
    real = manifest._content

    def refusing(path: str, now: os.stat_result) -> bytes | None:
        return None if path.endswith("corva.yaml") else real(path, now)

    with monkeypatch.context() as patched:
        patched.setattr(manifest, "_content", refusing)
        graph = open_graph(shop)
    assert [(d.code, d.origin.book) for d in graph.diagnostics] == [("L04-cannot-be-read", "shop/corva.yaml")]
    assert [p.platform for p in graph.platforms()] == ["kestin-tolland"]
    assert len(open_graph(shop).platforms()) == 2


def test_a_shelf_whose_folder_comes_later_is_taken_up(shop: Path, cache: Path) -> None:
    """A missing folder is a fault; once it is there its books are read, without a word to anybody."""
    shutil.move(shop / "club", shop / "away")
    assert {d.code for d in open_graph(shop).diagnostics} == {"L03-no-such-folder"}
    shutil.move(shop / "away", shop / "club")
    graph = open_graph(shop)
    assert graph.diagnostics == ()
    assert len(graph.crossfits()) == 4


DAMAGES = [
    "manifest",
    "store",
    "current",
    "in-use",
    "stamp",
    "cut stamp",
    "found",
    "cut manifest",
    "cut names",
    "cut standards",
]


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_damaged_snapshot_is_made_again(shop: Path, cache: Path, damage: str) -> None:
    """Whatever part of it is missing or cut short, the answers are those of the books."""
    before = answers(open_graph(shop))
    (place,) = cache.glob("*/*")
    (kept,) = place.glob("s*")
    if damage == "current":
        (place / "current").write_bytes(b"s123")
    elif damage == "store":
        shutil.rmtree(kept / "store")
    elif damage.startswith("cut "):
        cut = kept / damage[4:]
        cut.write_bytes(cut.read_bytes()[:-7])
    else:
        (kept / damage).unlink()
    assert answers(open_graph(shop)) == before


def test_a_file_system_without_links_gets_whole_snapshots(
    shop: Path, cache: Path, monkeypatch: pytest.MonkeyPatch, read: set[str]
) -> None:
    """Where the store cannot be copied by links (FAT) every book is read again, and the answers are right."""
    open_graph(shop)
    real = store.Writer

    def no_links(folder: Path | None, copy_of: store.Facts | None = None) -> store.Writer:
        if copy_of is not None:
            raise OSError(1, "Operation not permitted")
        return real(folder)

    monkeypatch.setattr(store, "Writer", no_links)
    read.clear()
    (shop / "books" / "suppliers.yaml").unlink()
    graph = open_graph(shop)
    assert graph.suppliers() == ()
    assert {name for name in read if not name.startswith("kb/")} == OURS - {"shop/suppliers.yaml"}
    assert answers(graph) == answers(in_memory(shop))


def test_other_tables_of_standards_read_everything_again(
    shop: Path, cache: Path, kb: Path, read: set[str]
) -> None:
    """Designations are looked up by the tables: without the metric ones M10x1 is found by its text only."""
    wanted = (["test-wheel-cylinder"], {"pipe-thread": "M10x1"})
    assert [p.part for p in open_graph(shop).parts_of(*wanted)] == ["KT 53 0190", "KT 53 0206"]
    read.clear()
    for table in (kb / "standards").glob("*.yaml"):
        table.unlink()
    bare = open_graph(shop)
    assert read >= OURS
    assert not bare.standards.threads
    assert [p.part for p in bare.parts_of(*wanted)] == ["KT 53 0190"]


def test_another_program_keeps_its_own_snapshots(
    shop: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Code that reads or derives otherwise never opens what this one wrote; what is long unused is swept away."""
    old = home.home_of(shop)
    open_graph(shop)
    monkeypatch.setattr("fitlore.__version__", "999")
    new = home.home_of(shop)
    assert new != old
    assert new.parent == old.parent
    open_graph(shop)
    assert old.exists()
    long_ago = time.time() - snapshot._STALE_AFTER - 1
    os.utime(old, (long_ago, long_ago))
    (shop / "books" / "suppliers.yaml").unlink()
    open_graph(shop)
    assert not old.exists()


def test_the_program_is_told_by_its_files(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A changed module or query is another program, though its version is the same."""
    package = tmp_path / "fitlore"
    shutil.copytree(Path(snapshot.__file__).parent, package / "graph")
    monkeypatch.setattr("fitlore.__file__", str(package / "__init__.py"))
    first = home.program()
    assert home.program() == first
    (package / "graph" / "queries" / "parts.rq").write_text("# other\n", "utf-8")
    second = home.program()
    (package / "graph" / "near.py").write_text("# other\n", "utf-8")
    assert len({first, second, home.program()}) == 3


def test_without_a_shop_there_is_the_built_in_knowledge(cache: Path) -> None:
    """It has categories and standards, no platform and no car."""
    graph = open_graph(None)
    assert graph.categories()
    assert graph.standards.threads
    assert graph.policy.classes
    assert graph.platforms() == graph.cars() == ()


def test_a_shop_is_found_upwards_as_the_books_find_it(shop: Path, tmp_path: Path) -> None:
    """The short way to it and the one of the books agree, from inside, from beside and from nowhere."""
    for start in (shop, shop / "books", tmp_path, shop / "fitlore.yaml"):
        assert find_shop(start) == layout_find_shop(start)
    assert find_shop(shop / "books") == shop.resolve()


def test_a_long_build_says_what_it_does(shop: Path, cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Who waits longer than a moment is told how far it is; who does not is told nothing."""
    said: list[str] = []
    open_graph(shop, progress=said.append, cache=cache / "quick")
    assert said == []
    monkeypatch.setattr(build, "PATIENCE", 0.0)
    open_graph(shop, progress=said.append, cache=cache / "slow")
    assert any(line.startswith("reading the books: ") for line in said)


def test_what_if_is_what_would_be(shop: Path, cache: Path) -> None:
    """A draft in memory answers as if the books had been changed so, and changes nothing."""
    graph = open_graph(shop)
    before = answers(graph)
    parts, crossfits = shop / "books" / "parts.yaml", shop / "books" / "crossfits.yaml"
    new_parts = parts.read_bytes().replace(b"19.05 mm", b"22.22 mm") + b"- part: KT 1\n  maker: X\n  iss: y\n"
    changed = {
        "shop/parts.yaml": new_parts,
        "shop/crossfits.yaml": b"",
        "shop/new.yaml": b"- car: third\n  is: tarn-corva\n  name: The new one\n",
        "club/more.yaml": b"- crossfit: heard\n  instead-of: KT 1\n  use: KT 2\n  evidence: [{how: fitted, by: x}]\n",
    }
    draft = graph.what_if(changed)
    assert answers(graph) == before
    parts.write_bytes(new_parts)
    crossfits.unlink()
    (shop / "books" / "new.yaml").write_bytes(changed["shop/new.yaml"])
    (shop / "club" / "more.yaml").write_bytes(changed["club/more.yaml"])
    real = open_graph(shop)
    assert answers(draft) == answers(real)
    assert answers(draft) != before
    heard = draft.crossfit("heard")
    assert heard is not None
    assert heard.evidence[0].how is How.TOLD
    query = "SELECT ?g ?p ?o WHERE { GRAPH ?g { ?s ?p ?o } FILTER(!isBlank(?o)) }"
    assert sorted(map(str, draft.facts.select(query))) == sorted(map(str, real.facts.select(query)))


def test_a_what_if_over_a_what_if_is_both(shop: Path, cache: Path) -> None:
    """The later text of a book counts, the others stand."""
    graph = open_graph(shop)
    one = graph.what_if(
        {"shop/a.yaml": b"- car: a\n  is: tarn-corva\n", "shop/b.yaml": b"- car: b\n  is: tarn-corva\n"}
    )
    two = one.what_if({"shop/b.yaml": b"- car: c\n  is: tarn-corva\n"})
    assert {str(c.car) for c in two.cars()} - {str(c.car) for c in graph.cars()} == {"a", "c"}
    query = "SELECT ?o WHERE { GRAPH ?g { ?s <https://fitlore.example/terms#car> ?o } }"
    assert {("a",), ("c",)} <= set(two.facts.select(query))
    assert ("b",) not in set(two.facts.select(query))
