"""Where a knowledge base is, what is on its shelves, and what the built-in knowledge says."""

from __future__ import annotations

import os
from pathlib import Path
from urllib.parse import unquote

import pytest

from fitlore.books.iris import BOOKS
from fitlore.books.layout import (
    BookFile,
    Layout,
    books_of,
    books_on,
    builtin_kb,
    find_shop,
    graph_name,
    read_layout,
)
from fitlore.books.reading import read_book
from fitlore.books.standards import read_standards, table_rows
from fitlore.model.choices import How
from fitlore.trade.standards import Standards

SHOP = "shop: lowbarn\nname: Lowbarn\nfuel-per-km: 0.18 GBP\nshelves:\n"


def make(folder: Path, text: str, *books: str) -> Layout:
    """A shop's folder with empty books, and what its fitlore.yaml says."""
    (folder / "fitlore.yaml").write_text(text, "utf-8")
    for book in books:
        path = folder / book
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("", "utf-8")
    return read_layout(folder)


def own(layout: Layout) -> list[BookFile]:
    """The books that are not built in."""
    return [book for book in books_on(layout) if book.shelf != "kb"]


def test_the_shop_is_found_from_below(tmp_path: Path) -> None:
    """The nearest fitlore.yaml upwards counts; a folder of that name does not, and none is no fault."""
    inner = tmp_path / "a" / "b"
    inner.mkdir(parents=True)
    assert find_shop(inner) is None
    make(tmp_path, SHOP)
    assert find_shop(inner) == tmp_path.resolve()
    (tmp_path / "a" / "fitlore.yaml").mkdir()
    assert find_shop(inner) == tmp_path.resolve()


def test_a_shops_settings_and_shelves_are_read(tmp_path: Path) -> None:
    """fitlore.yaml is one mapping: the shop's record, and the shelves with their trust; a single shelf may stand alone."""
    text = SHOP + "  - {shelf: shop, folder: books}\n  - {shelf: friend, folder: ../theirs, trust: told}\n"
    (tmp_path / "theirs").mkdir()
    home = tmp_path / "home"
    home.mkdir()
    layout = make(
        home, text, "books/parts.yaml", "books/sub/more.ttl", "books/.hidden/x.yaml", "books/notes.txt"
    )
    assert not layout.diagnostics
    assert layout.shop is not None
    assert (layout.shop.shop, str(layout.shop.fuel_per_km), str(layout.shop.origin)) == (
        "lowbarn",
        "0.18 GBP",
        "fitlore.yaml:1:1",
    )
    (tmp_path / "theirs" / "tips.yml").write_text("", "utf-8")
    assert [(b.shelf, b.shown, b.trust) for b in own(layout)] == [
        ("shop", "shop/parts.yaml", None),
        ("shop", "shop/sub/more.ttl", None),
        ("friend", "friend/tips.yml", How.TOLD),
    ]
    assert all(b.path.is_file() for b in own(layout))
    assert own(make(home, "shop: a\nshelves: {shelf: shop, folder: books}\n"))[0].shown == "shop/parts.yaml"


def test_faults_of_a_shop_file_are_told_and_the_rest_is_used(tmp_path: Path) -> None:
    """A shelf that cannot be used is left out with its reason; the others are there; a faulty shop record is None."""
    text = (
        "shop: Low Barn\nshelves:\n  - {shelf: kb, folder: books}\n" + 2 * "  - {shelf: a, folder: books}\n"
    )
    layout = make(tmp_path, text + "  - {shelf: b, folder: nowhere}\n  - {shelf: c}\n", "books/x.yaml")
    assert [(d.code[:3], d.origin.line) for d in layout.diagnostics] == [
        ("B50", 1),
        ("L02", 3),
        ("L02", 5),
        ("L03", 6),
        ("B70", 7),
    ]
    assert layout.shop is None
    assert [b.shown for b in own(layout)] == ["a/x.yaml"]


def test_graph_names_are_the_shown_names_and_nothing_of_the_machine(tmp_path: Path) -> None:
    """Shelf and path inside it, NFC, percent-encoded (RFC 3987 characters made RFC 3986), the same on every machine."""
    layout = make(
        tmp_path,
        SHOP + "  - {shelf: shop, folder: books}\n",
        "books/Teile für #1 & 50%.yaml",
        "books/e\u0301.yaml",
    )
    names = [book.graph_name for book in own(layout)]
    assert names == [
        BOOKS + "shop/Teile%20f%C3%BCr%20%231%20%26%2050%25.yaml",
        BOOKS + "shop/%C3%A9.yaml",
    ]
    assert not any(os.fspath(tmp_path) in unquote(name) for name in names)
    assert graph_name("shop/a.yaml") == "https://fitlore.example/book/shop/a.yaml"


def test_the_built_in_shelf_is_always_there() -> None:
    """Without a shop there are the built-in books alone, the same first ones as with a shop."""
    books = books_of(None)
    assert books
    assert {b.shelf for b in books} == {"kb"}
    assert all(b.shown.startswith(("kb/categories/", "kb/policy.yaml")) for b in books)
    assert [b.shown for b in books] == sorted(b.shown for b in books)


@pytest.mark.parametrize("book", books_of(None), ids=lambda book: book.shown)
def test_the_built_in_books_are_sound(book: BookFile) -> None:
    """Every built-in book is read without a word."""
    read = read_book(book.shown, book.path.read_bytes(), book.graph_name)
    assert read.records
    assert read.diagnostics == ()


def test_the_tables_of_standards_are_read_with_their_lines() -> None:
    """Each row of the built-in tables arrives in the trade room's value, with the line that proves it."""
    standards, found = read_standards()
    assert found == ()
    assert isinstance(standards, Standards)
    text = (builtin_kb() / "standards" / "threads.yaml").read_text("utf-8").splitlines()
    assert len(standards.threads) > 200
    for row in standards.threads:
        assert row.origin.book == "kb/standards/threads.yaml"
        assert row.source in text[row.origin.line - 1]


def test_rows_of_tables_are_flat_texts() -> None:
    """All cells are texts as written; `meta` is for people; what is no row is told, and costs only itself."""
    data = (
        b"meta: {a: b}\nUNF:\n  - {size: 3/8, tpi: 24}\n  - {size: [x], tpi: 24}\n"
        b"  - {size: y, size: z}\n  - size: 1/2\n    tpi: 020\nUNC: x\n"
    )
    rows, found = table_rows("kb/standards/t.yaml", data)
    assert [(r.section, r.cells, str(r.origin)) for r in rows] == [
        ("UNF", {"size": "3/8", "tpi": "24"}, "kb/standards/t.yaml:3:5"),
        ("UNF", {"size": "1/2", "tpi": "020"}, "kb/standards/t.yaml:6:5"),
    ]
    assert sorted((d.code[:3], d.origin.line) for d in found) == [("B37", 5), ("L05", 8), ("L06", 4)]
