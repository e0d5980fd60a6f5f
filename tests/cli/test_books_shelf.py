"""`books shelf` and `books start` from the command line, as one who minds the books uses them."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from tests.cli.shapes import Keys, differences, read_page
from tests.demo.shop import REPO, Shop

PAGES = REPO / "src" / "fitlore" / "cli"
THEIRS = """\
- part: KT 21 0440
  maker: Kestin
  is: radiator
  features: {core-width: 400 mm}
- crossfit: highfield-damper
  instead-of: KT 56 0200
  use: TC 560 118
  evidence: [{how: fitted, by: shop, date: 2026-05}]
"""
MORE = """\
- part: MW 21 99
  maker: Merrow
  is: thermostat
  features: {opens-at: 82 C, flange: 54.0 mm, flange-thickness: 2.0 mm, height: 30 mm, bypass: foot plate}
- crossfit: highfield-thermostat
  instead-of: KT 21 0510
  use: MW 21 99
  evidence: [{how: fitted, by: Jory, date: 2026-05, lasted: 6 months}]
"""
TRAP = """\
- crossfit: highfield-nut
  instead-of: KT 42 1120
  use: VP 42 310
  evidence: [{how: fitted, by: shop, date: 2026-05, lasted: 5 months}]
"""


def with_neighbour(shop: Shop, book: str) -> Path:
    """Another shop beside this one, with one book."""
    folder = shop.folder.parent / "highfield"
    (folder / "books").mkdir(parents=True)
    (folder / "fitlore.yaml").write_text(
        "shop: highfield\nshelves: [{shelf: ours, folder: books}]\n", "utf-8"
    )
    (folder / "books" / "book.yaml").write_text(book, "utf-8")
    return folder


def test_another_shops_shelf_is_asked_with_its_place_and_its_trust(shop: Shop) -> None:
    """Added, it answers: told is not enough for a yes, fitted is; the proof names their book and line. Then it is taken back."""
    with_neighbour(shop, MORE)
    before = (shop.folder / "fitlore.yaml").read_bytes()
    done = shop.call("books", "shelf", "add", "../highfield")
    assert (done.code, done.err) == (0, "")
    assert done.out.splitlines()[0] == "highfield, highfield's: 1 book with 1 part and 1 crossfit"
    assert "added to fitlore.yaml as `highfield`; `fitlore undo` takes it back" in done.out

    def verdict() -> dict[str, object]:
        rows = shop.call("fits", "thermostat", "--json").json["answers"][0]["candidates"]
        return next(row for row in rows if row["part"] == "MW 21 99")

    assert verdict()["verdict"] == "unproven"
    assert shop.call("books", "shelf", "trust", "highfield", "fitted").code == 0
    found = verdict()
    assert found["verdict"] == "fits"
    assert "highfield/book.yaml:5:3" in str(found["because"])
    listed = shop.call("books", "shelf")
    assert "highfield's, trusted as fitted at the most [fitlore.yaml:14:5]" in " ".join(listed.out.split())
    assert shop.call("books", "shelf", "remove", "highfield").code == 0
    assert (shop.folder / "fitlore.yaml").read_bytes() == before
    assert shop.call("undo", "--count", "3").code == 0
    assert (shop.folder / "fitlore.yaml").read_bytes() == before


def test_what_it_says_otherwise_is_listed_before_it_is_added(shop: Shop) -> None:
    """Names, measures and words against, each with both lines; nothing is written without --even-so."""
    with_neighbour(shop, THEIRS)
    before = (shop.folder / "fitlore.yaml").read_bytes()
    said = shop.call("books", "shelf", "add", "../highfield")
    assert (said.code, said.err) == (1, "")
    for code in ("U45-said-otherwise", "U04-measures-say-no", "U49-contradicts"):
        assert f"[{code}]" in said.out
    assert (
        "highfield/book.yaml:1:3: warning: the part `KT 21 0440` stands at shop/parts-cooling.yaml:6:3 too"
        in " ".join(said.out.split())
    )
    assert said.out.splitlines()[-1] == "not added: it says otherwise 3 times; --even-so adds it all the same"
    assert (shop.folder / "fitlore.yaml").read_bytes() == before
    assert shop.call("books", "shelf", "add", "../highfield", "--even-so", "--dry-run").code == 0
    assert (shop.folder / "fitlore.yaml").read_bytes() == before
    assert shop.call("books", "shelf", "add", "../highfield", "--even-so").code == 0
    assert b"highfield" in (shop.folder / "fitlore.yaml").read_bytes()


@pytest.mark.parametrize(
    ("book", "says"),
    [
        (
            TRAP,
            "highfield/book.yaml:1:3: error: the claim `highfield-nut` says that VP 42 310 goes, but it is a trap",
        ),
        (
            "- category: brake-hose\n  safety: none\n",
            "highfield/book.yaml:1:3: error: the category `brake-hose` would count",
        ),
        ("- part: X\n  iz: y\n", "highfield/book.yaml:2:3: error: "),
    ],
)
def test_a_dangerous_or_broken_shelf_is_refused(book: str, says: str, shop: Shop) -> None:
    """With file and line, and --even-so does not help."""
    with_neighbour(shop, book)
    before = (shop.folder / "fitlore.yaml").read_bytes()
    said = shop.call("books", "shelf", "add", "../highfield", "--even-so")
    assert (said.code, said.out) == (2, "")
    assert says in " ".join(said.err.split())
    assert (shop.folder / "fitlore.yaml").read_bytes() == before


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("add",), "say which"),
        (("lend", "club"), "say add FOLDER"),
        (("trust", "shop"), "trusted as what?"),
        (("trust", "shop", "blindly"), "trusted as what?"),
        (("remove", "shop"), "U43-last-own-shelf"),
        (("remove", "club"), "it has shop"),
        (("add", "nowhere"), "no such folder"),
        (("add", "x", "--own", "--trust", "told"), "say --own or --trust"),
        (("remove", "shop", "--dry-run"), "--dry-run goes with add"),
    ],
)
def test_what_cannot_be_done_is_said(words: tuple[str, ...], says: str, asked: Shop) -> None:
    """Exit 2, nothing on standard output."""
    said = asked.call("books", "shelf", *words)
    assert (said.code, said.out) == (2, "")
    assert says in said.err


def test_the_json_is_that_of_the_page(shop: Shop) -> None:
    """Of the list, of what would be added, of a change."""
    page = read_page((PAGES / "books_shelf.md").read_text("utf-8"))
    (listed,) = page.answers
    assert isinstance(listed, Keys)
    assert differences(page, listed, shop.call("books", "shelf", "--json").json) == []
    with_neighbour(shop, THEIRS)
    keys = {"done", "shelf", "number", "folder", "owner", "trust", "books", "records", "conflicts"}
    would = shop.call("books", "shelf", "add", "../highfield", "--json")
    assert (would.code, set(would.json), would.json["done"]) == (1, keys, False)
    assert [one["code"] for one in would.json["conflicts"]].count("U45-said-otherwise") == 1
    done = shop.call("books", "shelf", "add", "../highfield", "--even-so", "--json")
    assert (done.code, done.json["done"], done.json["number"], done.json["trust"]) == (0, True, 1, "told")
    gone = shop.call("books", "shelf", "remove", "highfield", "--json")
    assert (gone.code, set(gone.json), gone.json["number"]) == (0, keys, 2)


def test_a_started_shop_follows_its_own_advice(tmp_path: Path) -> None:
    """Each line that is printed to be tried next is typed as it stands, and answered yes."""
    yard = Shop(tmp_path)
    said = yard.call("books", "start", "barn")
    assert (said.code, said.err) == (0, "")
    steps = re.findall(r"^  (fitlore .*?)(?:  .*)?$", said.out, re.MULTILINE)
    assert [step.split()[1] for step in steps] == ["check", "car", "fits", "plan", "note", "undo"]
    barn = Shop(tmp_path / "barn")
    before = {path: path.read_bytes() for path in (tmp_path / "barn").rglob("*.yaml")}
    answers = {}
    for step in steps:
        answers[step.split()[1]] = done = barn.call(*shlex.split(step)[1:])
        assert (done.code, done.err) == (0, ""), (step, done)
    assert answers["check"].out == "no faults\n"
    assert "1  fits        Tarn TW 21 0100" in answers["fits"].out
    assert "proven" in answers["plan"].out
    assert "by measure -> fits" in answers["note"].out
    assert {path: path.read_bytes() for path in (tmp_path / "barn").rglob("*.yaml")} == before


def test_a_started_shop_as_json_and_as_refused(tmp_path: Path) -> None:
    """The keys of the page; a second time it is refused with what is there."""
    page = read_page((PAGES / "books_start.md").read_text("utf-8"))
    yard = Shop(tmp_path)
    done = yard.call("books", "start", "barn", "--json", "--currency", "EUR")
    assert (done.code, done.err) == (0, "")
    assert differences(page, page.answers[0], done.json) == []
    again = yard.call("books", "start", "barn", "--json")
    assert (again.code, again.json["error"]["code"]) == (2, "U50-books-there")
    for words, says in ((("--currency", "EURO"), "ISO 4217"), (("--country", "gbr"), "ISO 3166-1")):
        said = yard.call("books", "start", "yard", *words)
        assert (said.code, said.out) == (2, "")
        assert says in said.err
        assert not (tmp_path / "yard").exists()
