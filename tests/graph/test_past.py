"""What is kept of how books were read: it saves work and changes nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

import msgspec
import pytest
from pyoxigraph import NamedNode

from fitlore.graph import forms, store
from fitlore.graph.home import home_of
from fitlore.graph.manifest import Book
from fitlore.graph.open import open_graph
from fitlore.graph.past import Past, Pasts, changed, marks
from fitlore.model.choices import How
from fitlore.trade.standards import Standards
from tests.graph import small
from tests.graph.test_beside import statements

BOOK = Book("shop/parts.yaml", "/x/parts.yaml", "urn:shop/parts.yaml", None, "d1")


def encoded(past: Past) -> bytes:
    """As it is kept."""
    return msgspec.msgpack.encode(past)


def test_the_marks_tell_of_which_subjects_other_things_are_said() -> None:
    """One changed, one gone, one new; one that is as it was is not named, though what stands around it moved."""
    old = ['<a> <p> "1"', '<b> <p> "1"', "_:c <p> <b>", '<a> <q> "2"']
    new = ['<d> <p> "1"', '<b> <p> "1"', '<a> <p> "1"', '<a> <q> "3"']
    assert changed(marks(old), marks(new)) == {"<a>", "_:c", "<d>"}
    assert changed(marks(old), marks(old)) == frozenset()


def test_a_past_is_of_one_text_read_under_one_set_of_terms(tmp_path: Path) -> None:
    """Another content, another bound on evidence, another graph or other tables of standards: nothing is known."""
    past = Past({"M10x1": ("thread:M10x1",)}, {"<a>": b"1"}, {})
    Pasts(tmp_path, "tables").keep(BOOK, encoded(past))
    assert Pasts(tmp_path, "tables").of(BOOK) == past
    assert Pasts(tmp_path, "others").of(BOOK) is None
    others = (
        Book(BOOK.shown, BOOK.path, BOOK.graph, How.TOLD, BOOK.digest),
        Book(BOOK.shown, BOOK.path, BOOK.graph, None, "d2"),
        Book(BOOK.shown, BOOK.path, "urn:other", None, BOOK.digest),
    )
    assert [Pasts(tmp_path, "tables").of(book) for book in others] == [None, None, None]


@pytest.mark.parametrize("spoil", [b"", b"short", None])
def test_a_file_that_is_not_whole_is_done_without(spoil: bytes | None, tmp_path: Path) -> None:
    """Nothing is synchronised to disk, so after a power cut anything may be in it."""
    pasts = Pasts(tmp_path, "tables")
    pasts.keep(BOOK, encoded(Past({}, {"<a>": b"1"}, {})))
    file = next((tmp_path / "past").iterdir())
    file.write_bytes(file.read_bytes()[:-1] if spoil is None else spoil)
    assert pasts.of(BOOK) is None


@pytest.mark.parametrize("kept", [True, False])
def test_an_edit_reads_no_designation_and_no_graph_again(
    kept: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only what the changed line says is looked for; without the files everything is, and the store is the same."""
    shop, cache = small.copy_to(tmp_path), tmp_path / "cache"
    book = shop / "books" / "parts.yaml"
    open_graph(shop, cache=cache)
    if not kept:
        for file in (home_of(shop, cache) / "past").iterdir():
            file.unlink()
    read: list[str] = []
    whole: list[bool] = []
    designations, stored = forms._designations, store.Writer._stored

    def reading(text: str, standards: Standards) -> list[str]:
        read.append(text)
        return designations(text, standards)

    def looking(writer: store.Writer, graph: NamedNode, touched: Iterable[str] | None) -> Iterator[str]:
        whole.append(touched is None)
        return stored(writer, graph, touched)

    monkeypatch.setattr(forms, "_designations", reading)
    monkeypatch.setattr(store.Writer, "_stored", looking)
    book.write_text(book.read_text("utf-8").replace("maker: Kestin", "maker: Merrow", 1), "utf-8")
    open_graph(shop, cache=cache)
    assert (not read) == kept
    assert whole == [not kept] * 2
    monkeypatch.undo()
    open_graph(shop, cache=tmp_path / "afresh")
    assert statements(shop, cache) == statements(shop, tmp_path / "afresh")


def test_only_what_is_known_of_the_books_that_count_stays(tmp_path: Path) -> None:
    """After an edit there are as many files as before; none of the text that is no more."""
    shop, cache = small.copy_to(tmp_path), tmp_path / "cache"
    book = shop / "books" / "parts.yaml"
    open_graph(shop, cache=cache)
    folder = home_of(shop, cache) / "past"
    before = {path.name for path in folder.iterdir()}
    book.write_text(f"# a remark\n{book.read_text('utf-8')}", "utf-8")
    open_graph(shop, cache=cache)
    after = {path.name for path in folder.iterdir()}
    assert len(after) == len(before)
    assert len(after - before) == 1
