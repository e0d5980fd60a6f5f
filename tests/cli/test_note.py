"""`note` and `undo`: a line of trade words becomes a line in the shop's book, shows what it changes, and can be taken back."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.restoring import put_back, saved
from tests.cli.shapes import Keys, differences, read_page
from tests.demo.shop import REPO, Shop, copy_of_the_demo

WINDER = ("note", "VP", "84", "310", "R", "for", "window", "winder", "right,", "measured,", "holes", "agree")
BOOK = Path("books/crossfits.yaml")


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    """The demo shop with the green estate picked, its books read once."""
    made = copy_of_the_demo(tmp_path_factory.mktemp("noting"))
    assert made.call("car", "green").code == 0
    return made


@pytest.fixture
def shop(whole: Shop) -> Iterator[Shop]:
    """The same, put back as it was after each test."""
    files = saved(whole)
    yield whole
    put_back(whole, files)


def books(shop: Shop) -> dict[str, bytes]:
    """Every book's bytes."""
    return {
        str(path.relative_to(shop.folder)): path.read_bytes()
        for path in sorted((shop.folder / "books").rglob("*.yaml"))
    }


def test_a_new_claim_is_written_and_shows_what_it_changes(shop: Shop) -> None:
    """The winder fits then, the job gets 7.00 cheaper, and the book grows by exactly the lines that were shown."""
    before = books(shop)
    said = shop.call(*WINDER, "--json").json
    assert said["written"]
    assert said["understood"]["instead-of"] == "KT 84 2210 R"
    assert said["plans"] == [{"job": "green-estate", "before": "538.30 GBP", "after": "531.30 GBP"}]
    assert {"place": "kestin-tolland/doors/window-winder", "part": "VP 84 310 R"}.items() <= said["changes"][
        0
    ].items()
    after = books(shop)
    assert {name for name in after if after[name] != before[name]} == {str(BOOK)}
    added = after[str(BOOK)].removeprefix(before[str(BOOK)]).decode()
    assert [line.rstrip() for line in said["text"]] == added.strip("\n").splitlines()
    fits = shop.call("fits", "window", "winder", "right", "--json").json
    (found,) = [c for c in fits["answers"][0]["candidates"] if c["part"] == "VP 84 310 R"]
    assert (found["verdict"], found["way"]) == ("fits", "claim")
    assert shop.call("plan", "--json").json["cost"] == "531.30 GBP"


def test_undo_takes_writes_back_byte_for_byte(shop: Shop) -> None:
    """Two writes, two undos: every book is as it was; a third undo finds nothing (exit 1)."""
    before = books(shop)
    assert shop.call(*WINDER).code == 0
    assert shop.call("note", "not VP 66 120 for blower resistor, hot again").code == 0
    assert books(shop) != before
    assert shop.call("undo").code == 0
    assert shop.call("undo", "--json").json["undone"][0]["book"] == "shop/crossfits.yaml"
    assert books(shop) == before
    assert shop.call("undo").code == 1


def test_undo_refuses_when_somebody_edited_since(shop: Shop) -> None:
    """Nothing of theirs is lost: exit 2, the book stays, and it is said which write is in the way and what can be done."""
    assert shop.call("note", "not VP 66 120 for blower resistor, hot again").code == 0
    assert shop.call(*WINDER).code == 0
    book = shop.folder / BOOK
    edited = book.read_bytes() + b"  note: looked at again on Sunday\n"
    book.write_bytes(edited)
    said = shop.call("undo")
    assert said.code == 2
    assert book.read_bytes() == edited
    words = " ".join(said.out.split())
    assert "write 2 (claim " in words
    assert "was edited in its lines since" in words
    assert "`fitlore undo --let-go 2`" in words
    writes = shop.call("undo", "--list", "--json").json["writes"]
    assert [(write["number"], write["back"]) for write in writes] == [(2, ""), (1, "around")]
    assert shop.call("undo", "--list").out.startswith("   2  claim ")
    assert shop.call("undo", "--let-go", "2").out.startswith("left as it is: claim ")
    assert shop.call("undo").code == 0
    assert b"hot again" not in book.read_bytes()
    assert b"looked at again on Sunday" in book.read_bytes()
    assert shop.call("undo", "2").out == "there is no write 2 to take back\n"


def test_undo_keeps_what_somebody_put_below(shop: Shop) -> None:
    """A comment below the written lines is no edit of them: the write goes, the comment stays, and that is said."""
    before = books(shop)[str(BOOK)]
    assert shop.call(*WINDER).code == 0
    book = shop.folder / BOOK
    book.write_bytes(book.read_bytes() + b"# looked at again on Sunday\n")
    said = shop.call("undo")
    assert said.code == 0
    assert "changed in the book since stays" in " ".join(said.out.split())
    assert book.read_bytes() == before + b"# looked at again on Sunday\n"


def test_the_writes_as_json_have_the_keys_of_the_page(shop: Shop) -> None:
    """`undo --list --json` and `undo NUMBER --json`: the shapes on the help page, no key more or less."""
    page = read_page((REPO / "src" / "fitlore" / "cli" / "undo.md").read_text("utf-8"))
    assert shop.call(*WINDER).code == 0
    for words, shape in ((("--list",), page.answers[1]), (("1",), page.answers[0])):
        said = shop.call("undo", *words, "--json")
        assert said.code == 0
        assert isinstance(shape, Keys)
        assert differences(page, shape, said.json) == []
    assert shop.call("undo", "--list").code == 1
    assert shop.call("undo", "1", "--count", "2").code == 2


def test_a_dry_run_writes_nothing(shop: Shop) -> None:
    """Everything is shown, no byte changes."""
    before = books(shop)
    said = shop.call(*WINDER, "--dry-run")
    assert said.code == 0
    assert "7.00 GBP cheaper" in said.out
    assert books(shop) == before


def test_a_trap_can_be_noted_only_as_what_it_is(shop: Shop) -> None:
    """A 3/8-24 UNF switch for an M10x1 port is refused whatever is said of it, --yes or not; against it is written."""
    before = books(shop)
    for more in ((), ("--yes",)):
        said = shop.call("note", "OS 7133 04 for stop lamp switch, fitted", *more)
        assert said.code == 1, said
        assert books(shop) == before
    assert shop.call("note", "not OS 7133 04 for stop lamp switch, lets go").code == 0
    assert books(shop) != before


def test_a_second_word_on_a_claim_goes_to_that_claim(shop: Shop) -> None:
    """The Ostra resistor is claimed already: its evidence grows by one line, no claim is added."""
    old = (shop.folder / BOOK).read_text("utf-8")
    said = shop.call(
        "note", "OS 6640 02 for blower resistor, fitted, by Hale", "--by", "friend Hale", "--json"
    ).json
    assert said["written"]
    new = (shop.folder / BOOK).read_text("utf-8")
    assert new.count("crossfit:") == old.count("crossfit:")
    assert new.count("friend Hale") == old.count("friend Hale") + 1
    assert [line for line in old.splitlines() if line.lstrip().startswith("#")] == [
        line for line in new.splitlines() if line.lstrip().startswith("#")
    ]


@pytest.mark.parametrize(
    ("line", "needs"),
    [
        ("VP 84 310 R for window winder right", "fitted"),
        ("VP 84 310 R", "in place of"),
        ("XX 99 999 for window winder right, fitted", "XX 99 999"),
        ("VP 84 310 R for flux capacitor, fitted", "flux capacitor"),
    ],
)
def test_a_line_that_does_not_say_enough_is_asked_back(shop: Shop, line: str, needs: str) -> None:
    """Exit 2, what is missing on standard error, nothing written."""
    before = books(shop)
    said = shop.call("note", *line.split())
    assert (said.code, said.out) == (2, "")
    assert needs in said.err
    assert books(shop) == before


def test_options_are_twins_of_the_words(shop: Shop) -> None:
    """--for, --how, --by and --note say the same as the line; the text that would go in is equal."""
    free = shop.call(*WINDER, "--dry-run", "--json").json
    twin = shop.call(
        "note", "VP 84 310 R", "--for", "window winder right", "--how", "measured", "--note", "holes agree",
        "--dry-run", "--json",
    ).json  # fmt: skip
    assert free["text"] == twin["text"]
