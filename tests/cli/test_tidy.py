"""`tidy` at the counter, and `check --tidy`, which is the same."""

from __future__ import annotations

import pytest

from tests.cli.shapes import Keys, differences, read_page
from tests.demo.shop import REPO, Shop

UNTIDY = b"- is: hose\n  part: KT 0  # ours\n"
TIDY = b"- part: KT 0  # ours\n  is: hose\n"


@pytest.fixture
def untidy(shop: Shop) -> Shop:
    """The demo shop, all of it tidy but for one new book."""
    shop.call("tidy")
    (shop.folder / "books" / "new.yaml").write_bytes(UNTIDY)
    return shop


@pytest.mark.parametrize("words", [("tidy",), ("check", "--tidy"), ("tidy", "shop/new.yaml")])
def test_a_book_is_tidied_said_so_and_taken_back(words: tuple[str, ...], untidy: Shop) -> None:
    """Both words do it, for the whole shop or one book; a second time there is nothing to do; undo gives the bytes back."""
    book = untidy.folder / "books" / "new.yaml"
    said = untidy.call(*words)
    assert (said.code, said.err) == (0, "")
    assert said.out.startswith("changed: shop/new.yaml")
    assert book.read_bytes() == TIDY
    again = untidy.call(*words)
    assert (again.code, again.out.startswith("0 changed, ")) == (0, True)
    assert untidy.call("undo").code == 0
    assert book.read_bytes() == UNTIDY


def test_a_dry_run_shows_the_difference_and_writes_nothing(untidy: Shop) -> None:
    """Lines that go and lines that come, exit 1; not a byte of the book and no line of the journal changes."""
    journal = untidy.folder / ".fitlore" / "journal"
    noted = journal.read_bytes() if journal.exists() else b""
    said = untidy.call("tidy", "--dry-run")
    assert said.code == 1
    assert {"-- is: hose", "+- part: KT 0  # ours", "+  is: hose"} <= set(said.out.splitlines())
    assert said.out.splitlines()[-1].startswith("1 would change, ")
    assert (untidy.folder / "books" / "new.yaml").read_bytes() == UNTIDY
    assert (journal.read_bytes() if journal.exists() else b"") == noted


def test_a_faulty_book_is_left_alone_and_the_others_go_on(untidy: Shop) -> None:
    """It is told with its place, exit 1, and the book after it is tidied all the same."""
    (untidy.folder / "books" / "faulty.yaml").write_bytes(b"- part: KT 0\n  is: [hose\n")
    said = untidy.call("tidy")
    assert said.code == 1
    assert "shop/faulty.yaml:2:7: error:" in said.out
    assert "[T01-faulty-text]" in said.out
    assert said.out.splitlines()[-1].endswith(", 1 left alone")
    assert (untidy.folder / "books" / "new.yaml").read_bytes() == TIDY


def test_a_name_that_no_book_has_says_which_there_are(untidy: Shop) -> None:
    """Exit 2, nothing written."""
    said = untidy.call("tidy", "shop/nwe.yaml")
    assert (said.code, said.out) == (2, "")
    assert "shop/new.yaml" in said.err
    assert (untidy.folder / "books" / "new.yaml").read_bytes() == UNTIDY


def test_the_json_has_exactly_the_keys_of_the_page(untidy: Shop) -> None:
    """Each book with whether it changes and was written."""
    said = untidy.call("tidy", "--json")
    page = read_page((REPO / "src" / "fitlore" / "cli" / "tidy.md").read_text("utf-8"))
    assert isinstance(page.answers[0], Keys)
    assert differences(page, page.answers[0], said.json) == []
    assert [(row["book"], row["written"]) for row in said.json["books"] if row["changes"]] == [
        ("shop/new.yaml", True)
    ]
