"""Books written anew: tidied or with the schema's line on top, each taken back byte for byte."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlore.books.jsonschema import book_schema_text
from fitlore.books.layout import books_of
from fitlore.books.reading import YAML_ENDINGS
from fitlore.books.tidy import Tidied, tidy
from fitlore.upkeep.rewriting import (
    SCHEMA,
    NoSuchBook,
    headed,
    line_for,
    own_books,
    put_schema,
    tidied,
    write,
)
from fitlore.upkeep.undo import undo
from tests.upkeep.lowbarn import bytes_of, copy_to

UNTIDY = "# bench\r\n- is: hose   # ours\r\n  part: BR 9\r\n"


def shop(folder: Path) -> Path:
    """The small shop with an untidy book more, written in another system's lines."""
    made = copy_to(folder)
    (made / "books" / "zz.yaml").write_bytes(UNTIDY.encode())
    return made


def test_a_tidied_book_is_taken_back_byte_for_byte(tmp_path: Path) -> None:
    """Writing changes the untidy books alone; undoing all of it gives every byte again."""
    folder = shop(tmp_path)
    before = bytes_of(folder)
    numbers = [write(folder, made, "tidied") for made in tidied(own_books(folder)) if made.changes]
    assert numbers == list(range(1, len(numbers) + 1))
    text = (folder / "books" / "zz.yaml").read_bytes().decode()
    assert text == "# bench\r\n- part: BR 9\r\n  is: hose   # ours\r\n"
    assert [made for made in tidied(own_books(folder)) if made.changes] == []
    assert len(undo(folder, 99).entries) == len(numbers)
    assert bytes_of(folder) == before


def test_the_books_of_others_and_other_files_are_not_touched(tmp_path: Path) -> None:
    """A shelf with a cap on its trust is somebody else's, Turtle has no order; naming either says what there is."""
    folder = shop(tmp_path)
    (folder / "books" / "x.ttl").write_text("", "utf-8")
    shown = [book.shown for book, _ in own_books(folder)]
    assert shown == [
        "shop/crossfits.yaml",
        "shop/suppliers/northgate.yaml",
        "shop/things.yaml",
        "shop/zz.yaml",
    ]
    for name in ("club/letters.yaml", "shop/x.ttl", "shop/nothing.yaml"):
        with pytest.raises(NoSuchBook, match=r"shop/zz\.yaml"):
            own_books(folder, [name])
    by_name = own_books(folder, ["shop/zz.yaml"])
    assert own_books(folder, [str(folder / "books" / "zz.yaml")]) == by_name


def test_a_book_that_somebody_changed_meanwhile_is_left_alone(tmp_path: Path) -> None:
    """What is on the disk then stays, and nothing is noted that could be undone."""
    folder = shop(tmp_path)
    (made,) = tidied(own_books(folder, ["shop/zz.yaml"]))
    made.book.path.write_text("# mine\n", "utf-8")
    done = write(folder, made, "tidied")
    assert not isinstance(done, int)
    assert done.code == "T04-not-written"
    assert made.book.path.read_text("utf-8") == "# mine\n"
    assert undo(folder).entries == ()


def test_the_schemas_line_names_a_file_that_is_there(tmp_path: Path) -> None:
    """The line's path, seen from the book, is the schema; a second time nothing changes; undo takes it out."""
    folder = shop(tmp_path)
    assert put_schema(folder).read_text("utf-8") == book_schema_text()
    before = bytes_of(folder)
    for made in headed(own_books(folder), folder):
        assert isinstance(write(folder, made, "headed"), int)
        first = made.book.path.read_bytes().decode().splitlines()[0]
        assert first == line_for(made.book.path, folder)
        path = first.partition("$schema=")[2]
        assert (made.book.path.parent / path).resolve() == (folder / SCHEMA).resolve()
    assert (folder / "books" / "zz.yaml").read_bytes().startswith(first.encode() + b"\r\n# bench")
    assert [made for made in headed(own_books(folder), folder) if made.changes] == []
    assert [made for made in tidied(own_books(folder, ["shop/things.yaml"])) if made.refused] == []
    undo(folder, 99)
    assert bytes_of(folder) == before


def test_another_line_on_top_gives_way(tmp_path: Path) -> None:
    """A book that was moved gets the right path; a byte order mark stays in front."""
    folder = shop(tmp_path)
    book = folder / "books" / "zz.yaml"
    book.write_bytes(b"\xef\xbb\xbf# yaml-language-server: $schema=old.json\n- part: BR 9\n")
    (made,) = headed(own_books(folder, ["shop/zz.yaml"]), folder)
    line = line_for(book, folder).encode()
    assert made.after == b"\xef\xbb\xbf" + line + b"\n- part: BR 9\n"


def test_the_books_that_come_along_are_tidy(repo: Path) -> None:
    """Every book of the built-in shelf and of the demo shop is as tidying leaves it."""
    untidy = []
    for book in books_of(repo / "demo" / "lowbarn"):
        if book.path.suffix in YAML_ENDINGS:
            done = tidy(book.shown, book.path.read_bytes())
            if not isinstance(done, Tidied) or done.data != book.path.read_bytes():
                untidy.append(book.shown)
    assert untidy == []
