"""Shelves: added after a look, with what they say otherwise listed; refused where dangerous; every change can be taken back."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlore.books.layout import books_of, read_layout
from fitlore.graph.open import open_graph
from fitlore.model.choices import How
from fitlore.model.diagnostic import Diagnostic
from fitlore.upkeep.shelves import Done, Draft, NotAShelf, add, drafted, listed, remove, trust
from fitlore.upkeep.undo import undo
from tests.upkeep.lowbarn import TODAY, graph_at
from tests.upkeep.shelf_attempts import KINDS, OURS, looked_at

THEIRS = """\
- part: VP 9
  maker: Velm
  is: hose
  features: {bore: 32 mm}
- crossfit: theirs
  instead-of: KT 1
  use: VP 9
  evidence: [{how: fitted, by: Hale, date: 2026-05}]
"""
FORMS = {
    "in braces": "shop: barn\nshelves:\n  - {shelf: shop, folder: books}\n",
    "in block": "# ours\nshop: barn\nshelves:\n- shelf: shop\n  folder: books # mine\n# end\n",
    "a key behind": "shelves:\n  - {shelf: shop, folder: books}\n\n# money\ncurrency: GBP\nshop: barn\n",
    "line ends of Windows": "shop: barn\r\nshelves:\r\n  - {shelf: shop, folder: books}\r\n",
    "byte order mark": "\ufeffshop: barn\nshelves:\n  - {shelf: shop, folder: books}\n",
    "no end of line": "shop: barn\nshelves:\n  - {shelf: shop, folder: books}",
    "none yet": "# ours\nshop: barn\ncurrency: GBP\n",
    "in brackets": "shop: barn\nshelves: [{shelf: shop, folder: books}]\n",
    "one alone": "shop: barn\nshelves: {shelf: shop, folder: books}\n",
}
"""Ways in which people write fitlore.yaml."""


@pytest.fixture
def barn(tmp_path: Path) -> Path:
    """A shop with one book, and beside it another shop with one."""
    shop = tmp_path / "barn"
    written(shop, FORMS["in braces"], OURS)
    written(tmp_path / "highfield", "shop: highfield\nshelves: [{shelf: ours, folder: books}]\n", THEIRS)
    return shop


def written(folder: Path, layout: str, book: str) -> Path:
    """A shop."""
    (folder / "books").mkdir(parents=True)
    (folder / "fitlore.yaml").write_bytes(layout.encode())
    (folder / "books" / "book.yaml").write_text(book, "utf-8")
    return folder


def seen(shop: Path, path: Path | None = None, **more: object) -> Draft:
    """The shelf of the other shop, or of a folder, as looked at."""
    return drafted(graph_at(shop), shop, path or shop.parent / "highfield", today=TODAY, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("form", FORMS)
def test_a_shelf_is_put_in_and_taken_back_byte_for_byte(form: str, barn: Path) -> None:
    """However fitlore.yaml is written: it has one shelf more, the last, every line of before is in it, and undo restores it."""
    file = barn / "fitlore.yaml"
    file.write_bytes(FORMS[form].encode())
    before = read_layout(barn).shelves
    done = add(seen(barn), barn)
    assert isinstance(done, Done), done
    text = file.read_bytes().decode()
    *old, new = read_layout(barn).shelves
    assert read_layout(barn).diagnostics == ()
    assert [(one.shelf, one.folder) for one in old] == [(one.shelf, one.folder) for one in before]
    assert (new.shelf, new.folder, new.owner, new.trust) == (
        "highfield",
        "../highfield/books",
        "highfield",
        How.TOLD,
    )
    if form not in ("in brackets", "one alone"):
        assert set(FORMS[form].splitlines()) <= set(text.splitlines())
    assert ("\r\n" in text) == (form == "line ends of Windows")
    assert undo(barn).refused is None
    assert file.read_bytes() == FORMS[form].encode()


@pytest.mark.parametrize(
    "form", [form for form in FORMS if form not in ("none yet", "in brackets", "one alone")]
)
def test_a_shelf_is_taken_away_as_if_it_had_not_been_there(form: str, barn: Path) -> None:
    """The very text of before (a last line without an end gets one); the books stay."""
    file = barn / "fitlore.yaml"
    file.write_bytes(FORMS[form].encode())
    assert isinstance(add(seen(barn), barn), Done)
    done = remove(barn, "highfield")
    assert isinstance(done, Done), done
    assert file.read_bytes().decode().rstrip("\r\n") == FORMS[form].rstrip("\r\n")
    assert (barn.parent / "highfield" / "books" / "book.yaml").read_text("utf-8") == THEIRS
    assert len(undo(barn, 2).entries) == 2
    assert file.read_bytes() == FORMS[form].encode()


def test_trust_is_set_and_set_again(barn: Path) -> None:
    """One value in one line; the same again writes nothing."""
    add(seen(barn), barn)
    before = (barn / "fitlore.yaml").read_text("utf-8")
    assert isinstance(trust(barn, "highfield", How.MEASURED), Done)
    after = (barn / "fitlore.yaml").read_text("utf-8")
    assert after == before.replace("trust: told", "trust: measured")
    again = trust(barn, "highfield", How.MEASURED)
    assert again == Done("highfield", 0)
    assert [(one.shelf.shelf, one.shelf.cap, one.books) for one in listed(barn)] == [
        ("shop", None, 1),
        ("highfield", How.MEASURED, 1),
    ]


@pytest.mark.parametrize("how", list(How))
def test_what_is_on_it_keeps_its_place_and_counts_as_it_is_trusted(how: How, barn: Path) -> None:
    """Its claim names its book and line; its evidence is never better than the cap, nor better than it is said."""
    add(seen(barn, trust=how), barn)
    claim = open_graph(barn, cache=barn / "cache").crossfit("theirs")
    assert claim is not None
    assert str(claim.origin) == "highfield/book.yaml:5:3"
    assert [piece.how for piece in claim.evidence] == [how]
    assert [piece.by for piece in claim.evidence] == ["Hale"]


def test_another_ones_shelf_comes_after_ours(barn: Path) -> None:
    """What we say of a part counts; theirs is the second."""
    other = barn.parent / "highfield" / "books" / "book.yaml"
    other.write_text("- {part: KT 1, maker: Kestin, is: hose, features: {bore: 30 mm}}\n", "utf-8")
    draft = seen(barn)
    assert [one.code for one in draft.conflicts] == ["U45-said-otherwise"]
    add(draft, barn)
    found = open_graph(barn, cache=barn / "cache").parts(["KT1"])
    assert [one.origin.book for one in found] == ["shop/book.yaml", "highfield/book.yaml"]


def test_a_shelf_that_says_the_same_has_no_conflicts(barn: Path) -> None:
    """Word for word our own book: names, numbers and claims are known, and none is said otherwise."""
    (barn.parent / "highfield" / "books" / "book.yaml").write_text(OURS, "utf-8")
    draft = seen(barn)
    assert (draft.refused, draft.conflicts) == ((), ())
    assert dict(draft.kinds) == {"category": 1, "part": 3, "crossfit": 1}


CONFLICTS = [
    ("- category: hose\n  safety: braking\n", ["U45-said-otherwise"]),
    (
        "- {part: kt-1, maker: KESTIN, is: hose, features: {bore: 32 mm, bolt: 7/16-20 UNF}}\n",
        ["U45-said-otherwise"],
    ),
    ("- {part: KT 1, is: hose}\n", ["U46-same-number"]),
    (
        "- crossfit: ours\n  instead-of: KT 1\n  use: OS 8\n  evidence: [{how: told, by: Hale}]\n",
        ["U45-said-otherwise", "U49-contradicts"],
    ),
    (
        "- crossfit: back\n  instead-of: OS 8\n  use: KT 1\n  evidence: [{how: told, by: Hale}]\n",
        [],
    ),
    (
        (
            "- {part: VP 9, maker: Velm, is: hose, features: {bore: 20 mm}}\n"
            "- crossfit: theirs\n  instead-of: KT 1\n  use: VP 9\n  evidence: [{how: fitted, by: Hale}]\n"
        ),
        ["U04-measures-say-no"],
    ),
    (
        (
            "- crossfit: theirs\n  instead-of: KT 1\n  use: OS 7\n"
            "  evidence: [{how: told, by: Hale}]\n  against: [{how: fitted, by: Hale}]\n"
        ),
        [],
    ),
    ("- supplier: corner\n  trade: factor\n  offers: [{number: KT 1, price: 3 GBP, days: 1}]\n", []),
]


@pytest.mark.parametrize(("book", "codes"), CONFLICTS)
def test_what_says_otherwise_is_listed_with_its_line(book: str, codes: list[str], barn: Path) -> None:
    """Each with a place on the shelf; what is only more, a claim the other way, or a trap noted as one is no conflict."""
    (barn.parent / "highfield" / "books" / "book.yaml").write_text(book, "utf-8")
    found = looked_at(barn, barn.parent / "highfield")
    assert [one.code for one in found] == codes
    assert all(one.origin.book == "highfield/book.yaml" and one.origin.line > 0 for one in found)


@pytest.mark.parametrize(
    ("book", "code", "line"),
    [
        ("- part: KT 2\n  iz: hose\n", "B42-unknown-key", 2),
        ("- part: [\n  KT 2\n", "B19", 1),
        (
            (
                "- {part: KT 3, maker: Kestin, is: hose}\n- crossfit: theirs\n  instead-of: KT 1\n  use: OS 7\n"
                "  evidence: [{how: fitted, by: Hale}]\n"
            ),
            "U48-trap-said-to-fit",
            2,
        ),
    ],
)
def test_a_broken_or_dangerous_shelf_is_refused(book: str, code: str, line: int, barn: Path) -> None:
    """With file and line; and it cannot be added all the same."""
    (barn.parent / "highfield" / "books" / "book.yaml").write_text(book, "utf-8")
    draft = seen(barn)
    assert any(
        one.code.startswith(code) and one.origin.book == "highfield/book.yaml" and one.origin.line == line
        for one in draft.refused
    ), draft.refused
    with pytest.raises(ValueError, match="refused"):
        add(draft, barn)


def test_a_looser_kind_is_refused_only_where_it_would_count(barn: Path) -> None:
    """Ours goes before theirs: a looser `hose` over there is a conflict; over a kind of the built-in shelf it is a danger."""
    book = barn.parent / "highfield" / "books" / "book.yaml"
    book.write_text("- category: hose\n  safety: none\n", "utf-8")
    assert [one.code for one in looked_at(barn, barn.parent / "highfield")] == ["U45-said-otherwise"]
    book.write_text("- category: radiator\n  safety: none\n", "utf-8")
    graph = open_graph(barn, cache=barn / "cache")
    draft = drafted(graph, barn, barn.parent / "highfield", today=TODAY)
    assert [one.code for one in draft.refused] == ["U47-looser-kind"]
    book.write_text("- category: radiator-of-ours\n  broader: radiator\n", "utf-8")
    assert drafted(graph, barn, barn.parent / "highfield", today=TODAY).refused == ()


@pytest.mark.parametrize(
    ("path", "why"),
    [
        ("books", "in common with the shelf `shop`"),
        ("books/below", "in common with the shelf `shop`"),
        (".", "in common with the shelf `shop`"),
        ("..", "in common with the shelf `shop`"),
        ("nowhere", "no such folder"),
        ("empty", "no book is in it"),
        ("link", "in common with the shelf `shop`"),
        ("two", "its own are: a, b"),
    ],
)
def test_what_cannot_be_a_shelf_says_why(path: str, why: str, barn: Path) -> None:
    """Books would be read twice, or there are none."""
    (barn / "books" / "below").mkdir()
    (barn / "empty").mkdir()
    (barn / "link").symlink_to(barn / "books")
    for name in ("two", "two/a", "two/b"):
        (barn / name).mkdir()
    (barn / "two" / "fitlore.yaml").write_text(
        "shop: two\nshelves: [{shelf: a, folder: a}, {shelf: b, folder: b}]\n", "utf-8"
    )
    with pytest.raises(NotAShelf, match=why):
        seen(barn, barn / path)


@pytest.mark.parametrize("name", ["shop", "kb", "High Field", "a/b", "-", "ä"])
def test_a_shelf_has_a_name_of_its_own(name: str, barn: Path) -> None:
    """Free, and of signs that a path has."""
    with pytest.raises(NotAShelf, match=r"cannot be the name"):
        seen(barn, name=name)


def test_the_built_in_books_are_no_further_shelf(barn: Path, repo: Path) -> None:
    """They are asked anyway."""
    with pytest.raises(NotAShelf, match="`kb`"):
        seen(barn, repo / "kb")


def test_one_shelf_of_ones_own_is_left(barn: Path) -> None:
    """The last one is neither taken away nor capped; with a second one it may be."""
    for done in (remove(barn, "shop"), trust(barn, "shop", How.TOLD)):
        assert isinstance(done, Diagnostic)
        assert done.code == "U43-last-own-shelf"
    assert isinstance(add(seen(barn, trust=None), barn), Done)
    assert "trust" not in (barn / "fitlore.yaml").read_text("utf-8")
    assert isinstance(remove(barn, "shop"), Done)
    assert [one.shelf.shelf for one in listed(barn)] == ["highfield"]


def test_an_edit_in_between_is_not_written_over(barn: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Somebody saves fitlore.yaml after it was read: nothing is written, and that is said."""
    draft = seen(barn)
    file = barn / "fitlore.yaml"
    from fitlore.upkeep.shelves import writing

    made = writing.changed_together

    def slow(*words: object) -> object:
        done = made(*words)  # type: ignore[arg-type]
        file.write_text("shop: barn # mine\nshelves: [{shelf: shop, folder: books}]\n", "utf-8")
        return done

    monkeypatch.setattr(writing, "changed_together", slow)
    done = add(draft, barn)
    assert isinstance(done, Diagnostic)
    assert "changed it in between" in done.message
    assert "# mine" in file.read_text("utf-8")


def test_the_shelf_is_named_from_the_shop_on(barn: Path) -> None:
    """Both may be moved together."""
    add(seen(barn), barn)
    moved = barn.parent.parent / f"{barn.parent.name}-moved"
    barn.parent.rename(moved)
    assert "highfield/book.yaml" in {one.shown for one in books_of(moved / "barn")}


def test_kinds_are_those_of_the_small_shop() -> None:
    """The class of `hose` here is fuel: what the tests of looser kinds rest on."""
    assert "safety: fuel" in KINDS
