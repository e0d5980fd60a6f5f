"""A shop's first books: sound, tidy, and answering whatever the shop is called and reckons in; all files or none."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from fitlore.books import files
from fitlore.books.layout import read_layout
from fitlore.fitting import Question, answer
from fitlore.graph.open import open_graph
from fitlore.model.diagnostic import Diagnostic
from fitlore.upkeep.check import check
from fitlore.upkeep.rewriting import own_books, tidied
from fitlore.upkeep.start import FIRST, Started, start

TODAY = date(2026, 12, 3)


@pytest.mark.parametrize(
    ("folder", "said", "shop", "currency"),
    [
        ("barn", {}, "barn", "GBP"),
        ("Great Barn No 2", {"currency": "EUR", "country": "IE"}, "great-barn-no-2", "EUR"),
        ("deep/er", {"currency": "JPY", "name": "yard"}, "yard", "JPY"),
        ("ä", {"currency": "KWD"}, "shop", "KWD"),
    ],
)
def test_they_are_sound_tidy_and_answer(
    folder: str, said: dict[str, str], shop: str, currency: str, tmp_path: Path
) -> None:
    """No rule finds anything, tidying changes nothing, the one place has a part that fits and one by measure.

    Currencies: two, no and three decimals (ISO 4217).
    """
    place = tmp_path / folder
    done = start(place, TODAY, **said)
    assert isinstance(done, Started)
    assert done.shop == shop
    layout = read_layout(place)
    assert layout.shop is not None
    assert (layout.shop.shop, layout.shop.currency) == (shop, currency)
    assert layout.shop.country == said.get("country", "")
    graph = open_graph(place, cache=tmp_path / "cache")
    assert check(graph, TODAY, place) == ()
    assert [made.book.shown for made in tidied(own_books(place)) if made.changes or made.refused] == []
    (at,) = graph.places("tarn-wren")
    found = answer(graph, Question(at, graph.car("first")))
    assert [(one.part.part, one.word.value) for one in found.verdicts] == [
        ("TW 21 0100", "fits"),
        ("VP 88 54", "by-measure"),
    ]
    (offer,) = graph.offers(["TW210100"])
    assert offer.offer.seen is not None
    assert (offer.offer.price.currency if offer.offer.price else None, str(offer.offer.seen)) == (
        currency,
        "2026-12-03",
    )


def test_every_file_has_its_comment() -> None:
    """The first line says what the book is for, and there is a book for each thing that a job needs."""
    books = sorted(path.relative_to(FIRST).as_posix() for path in FIRST.rglob("*.yaml"))
    assert books == [
        "books/cars.yaml",
        "books/jobs.yaml",
        "books/parts.yaml",
        "books/platforms.yaml",
        "books/suppliers.yaml",
        "fitlore.yaml",
    ]
    for book in books:
        first = (FIRST / book).read_text("utf-8").splitlines()[0]
        assert first.startswith("# ")
        assert len(first) > 40


@pytest.mark.parametrize("there", ["fitlore.yaml", "a.yaml", "deep/b.ttl", "C.YAML", "d.jsonld"])
def test_a_folder_with_books_is_left_alone(there: str, tmp_path: Path) -> None:
    """Whatever form they are in; nothing else is written."""
    file = tmp_path / "barn" / there
    file.parent.mkdir(parents=True)
    file.write_text("", "utf-8")
    done = start(tmp_path / "barn", TODAY)
    assert isinstance(done, Diagnostic)
    assert there in done.message
    assert [path for path in (tmp_path / "barn").rglob("*") if path.is_file()] == [file]


def test_other_files_are_no_books(tmp_path: Path) -> None:
    """A picture and a list beside are left as they are."""
    (tmp_path / "prices.csv").write_text("a;b\n", "utf-8")
    assert isinstance(start(tmp_path, TODAY, name="barn"), Started)
    assert (tmp_path / "prices.csv").read_text("utf-8") == "a;b\n"


def test_a_shop_is_not_started_inside_another(tmp_path: Path) -> None:
    """Its books would be read as the other shop's."""
    assert isinstance(start(tmp_path / "barn", TODAY), Started)
    done = start(tmp_path / "barn" / "books" / "new", TODAY)
    assert isinstance(done, Diagnostic)
    assert done.code == "U51-inside-a-shop"
    assert not (tmp_path / "barn" / "books" / "new").exists()


@pytest.mark.parametrize("said", [{"name": "My Barn"}, {"currency": "QQQ"}])
def test_a_word_that_no_book_can_hold_is_refused(said: dict[str, str], tmp_path: Path) -> None:
    """As the fault it would be, before anything is written."""
    done = start(tmp_path / "barn", TODAY, **said)
    assert isinstance(done, Diagnostic)
    assert done.origin.book == "fitlore.yaml"
    assert not (tmp_path / "barn").exists()


def test_what_cannot_be_written_whole_is_not_left_by_halves(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk is full at the third file: the first two are taken away again, and fitlore.yaml was never there."""
    real, count = files.write, 0

    def full(seen: files.Seen, new: bytes | None, shelf: Path) -> files.Written | files.NotWritten:
        nonlocal count
        count += 1
        return real(seen, new, shelf) if count < 3 else files.NotWritten(seen.path, "system", "no space left")

    monkeypatch.setattr(files, "write", full)
    with pytest.raises(OSError, match="no space left"):
        start(tmp_path / "barn", TODAY)
    assert [path.name for path in (tmp_path / "barn").rglob("*.yaml")] == []


def test_a_file_in_the_way_is_said(tmp_path: Path) -> None:
    """The name is that of a file."""
    (tmp_path / "barn").write_text("in the way", "utf-8")
    done = start(tmp_path / "barn", TODAY)
    assert isinstance(done, Diagnostic)
    assert "a file" in done.message
