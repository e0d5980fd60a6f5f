"""Taking a write back out of a book that was edited since: around the edit, or not at all; by number; or let go."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from fitlore.books.amend import Change, redo
from fitlore.books.nodes import read_nodes
from fitlore.model.part import Part
from fitlore.model.record import Name, Number
from fitlore.upkeep import left
from fitlore.upkeep.addition import NewClaim, NewRecord
from fitlore.upkeep.around_edits import taken_out
from fitlore.upkeep.record import record
from fitlore.upkeep.rewriting import own_books, tidied, write
from fitlore.upkeep.undo import let_go, listed, undo
from tests.upkeep.lowbarn import bytes_of, claim, copy_to, draft_at, piece

PARTS = "books/parts.yaml"
UNTIDY = b"""\
- part: BR 1
  is: test-lever
  maker: Brede

- part: BR 2
  maker: Brede
  is: test-lever
  # the good one

- part: BR 3
  is: test-lever
  maker: Brede
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A copy of the small shop, with a book of parts whose keys are out of order."""
    made = copy_to(tmp_path)
    (made / PARTS).write_bytes(UNTIDY)
    return made


def tidy(shop: Path) -> None:
    """Tidies the book of parts."""
    (made,) = tidied(own_books(shop, ["shop/parts.yaml"]))
    assert made.changes
    assert isinstance(write(shop, made, "put in order"), int)


def note(shop: Path, name: str) -> None:
    """Writes a claim into the shop's book of cross-fits."""
    record(draft_at(shop, NewClaim(claim(name, f"KT {name}", "TC 1", piece()))), shop)


def edit(shop: Path, book: str, old: bytes, new: bytes) -> None:
    """What somebody does in an editor."""
    path = shop / book
    assert path.read_bytes().count(old) == 1
    path.write_bytes(path.read_bytes().replace(old, new))


def numbers(shop: Path) -> list[tuple[int, str]]:
    """The writes that can be asked back, and how."""
    return [(one.entry.number, one.back) for one in listed(shop)]


def test_a_tidied_book_goes_back_around_an_edit(shop: Path) -> None:
    """A record changed by hand where nothing was put in order stays as it is; all the rest is as before the tidying."""
    tidy(shop)
    edit(shop, PARTS, b"# the good one", b"# the best one")
    assert numbers(shop) == [(1, "around")]
    done = undo(shop)
    assert (len(done.entries), done.refused, set(done.around)) == (1, None, {1})
    assert (shop / PARTS).read_bytes() == UNTIDY.replace(b"good", b"best")
    assert undo(shop).entries == ()


def test_an_edit_in_tidied_lines_stops_that_write_and_no_other_book(shop: Path) -> None:
    """The write is named and stays; an older one into another book is taken back by number; let go, it is out of the way."""
    start = bytes_of(shop)
    note(shop, "x")
    tidy(shop)
    tidied_parts = (shop / PARTS).read_bytes()
    edit(shop, PARTS, b"- part: BR 1\n  maker: Brede", b"- part: BR 1\n  maker: Velm")
    edited = (shop / PARTS).read_bytes()
    done = undo(shop, 2)
    assert done.entries == ()
    assert done.refused is not None
    assert done.refused.code == "U11-edited-since"
    assert "write 2 (put in order)" in done.refused.message
    assert "`fitlore undo --let-go 2`" in done.refused.remedy
    assert numbers(shop) == [(2, ""), (1, "whole")]
    assert [entry.number for entry in undo(shop, number=1).entries] == [1]
    assert bytes_of(shop) == start | {PARTS: edited}
    assert undo(shop, number=1).entries == ()
    assert [entry.number for entry in let_go(shop, 2).entries] == [2]
    assert numbers(shop) == []
    (shop / PARTS).write_bytes(tidied_parts)
    assert undo(shop).entries == ()


def test_a_write_let_go_leaves_the_older_ones_of_its_book(shop: Path) -> None:
    """The older one is taken out from under the one that stays, and its lines are gone, no others."""
    start = bytes_of(shop)
    note(shop, "x")
    with_x = bytes_of(shop)["books/crossfits.yaml"]
    note(shop, "y")
    with_y = bytes_of(shop)["books/crossfits.yaml"]
    assert len(let_go(shop, 2).entries) == 1
    assert numbers(shop) == [(1, "around")]
    assert undo(shop).around == {1}
    assert bytes_of(shop)["books/crossfits.yaml"] == start["books/crossfits.yaml"] + with_y[len(with_x) :]


def test_any_write_goes_by_its_number(shop: Path) -> None:
    """Five claims in one book and three parts: taken back in every order they leave what was there before them."""
    start = bytes_of(shop)
    chance = random.Random(3)
    for _ in range(4):
        for name in ("v", "w", "x", "y", "z"):
            note(shop, name)
        for name in ("BR 7", "BR 8", "BR 9"):
            record(
                draft_at(shop, NewRecord(Part(part=Number(name), maker="Brede", is_=Name("test-lever")))),
                shop,
            )
        order = [number for number, _ in numbers(shop)]
        chance.shuffle(order)
        for number in order:
            assert [entry.number for entry in undo(shop, number=number).entries] == [number]
        assert bytes_of(shop) == start
        assert list((shop / ".fitlore" / left.NAME).iterdir()) == []


def test_without_the_text_that_was_left_an_edited_book_is_left_alone(shop: Path) -> None:
    """Nothing is guessed: with the kept texts gone, an edit anywhere in the book stops the write, and no edit stops none."""
    note(shop, "x")
    book = shop / "books" / "crossfits.yaml"
    whole = book.read_bytes()
    for text in (shop / ".fitlore" / left.NAME).iterdir():
        text.unlink()
    book.write_bytes(b"# on top\n" + whole)
    assert undo(shop).refused is not None
    book.write_bytes(whole)
    assert len(undo(shop).entries) == 1


def test_a_text_that_comes_back_is_kept_as_often_as_it_is_needed(shop: Path) -> None:
    """A book tidied, and written as it had been: the second write too is taken back around an edit."""
    tidy(shop)
    in_order = (shop / PARTS).read_bytes()
    (made,) = tidied(own_books(shop, ["shop/parts.yaml"]))
    assert isinstance(write(shop, made._replace(before=in_order, after=UNTIDY), "as it was"), int)
    assert (shop / PARTS).read_bytes() == UNTIDY
    edit(shop, PARTS, b"# the good one", b"# the best one")
    assert numbers(shop) == [(2, "around"), (1, "")]
    assert undo(shop).around == {2}
    assert numbers(shop) == [(1, "around")]
    assert (shop / PARTS).read_bytes() == in_order.replace(b"good", b"best")


def test_an_undoing_around_an_edit_that_was_cut_off_is_finished(shop: Path) -> None:
    """Where only the journal's last line is missing the book is not touched again."""
    note(shop, "x")
    book = shop / "books" / "crossfits.yaml"
    book.write_bytes(b"# on top\n" + book.read_bytes())
    assert len(undo(shop).entries) == 1
    after = book.read_bytes()
    path = shop / ".fitlore" / "journal"
    path.write_bytes(b"".join(path.read_bytes().splitlines(keepends=True)[:-1]))
    assert len(undo(shop).entries) == 1
    assert book.read_bytes() == after
    assert undo(shop).entries == ()


def test_around_random_edits_nothing_is_lost_or_brought_back(shop: Path) -> None:
    """400 books of records in which a write and a hand changed random ones.

    Either it is refused, or each record is as the hand left it, or where only the write had been, as it was before: told by
    records, which know nothing of lines. Records that both changed are refused, or were changed in lines apart.
    """
    chance = random.Random(11)
    done = refused = 0
    for _ in range(400):
        before = {
            f"R {n}": ["maker: Brede", f"note: n{n}", "is: test-lever"] for n in range(chance.randint(2, 9))
        }
        written, by_write = _changed(chance, before, "w")
        hand, by_hand = _changed(chance, written, "h")
        texts = [_text(records) for records in (before, written, hand)]
        changes = tuple(
            Change(low, texts[0][low:high], texts[1][start:end])
            for low, high, start, end in reversed(left.stretches(texts[0], texts[1]))
        )
        assert redo(texts[0], changes) == texts[1]
        out = taken_out("shop/b.yaml", texts[1], texts[2], changes)
        if out is None:
            refused += 1
            continue
        done += 1
        meant = {name: lines for name, lines in hand.items() if name in before or name not in written}
        meant |= {name: before[name] for name in by_write - by_hand if name in before}
        both = by_write & by_hand
        found = _records(out)
        assert {n: r for n, r in found.items() if n not in both} == {
            n: r for n, r in _records(_text(meant)).items() if n not in both
        }
    assert done > 100
    assert refused > 50


def _changed(
    chance: random.Random, records: dict[str, list[str]], mark: str
) -> tuple[dict[str, list[str]], set[str]]:
    """Some records changed in one line, left out or added; and which."""
    names = list(records)
    touched = set(chance.sample(names, min(len(names), chance.randint(1, 2))))
    made = {}
    for name in names:
        if name not in touched:
            made[name] = records[name]
        elif chance.random() < 0.8:
            at = chance.randrange(3)
            made[name] = [line + mark if number == at else line for number, line in enumerate(records[name])]
    if chance.random() < 0.3:
        made[f"{mark} 1"] = ["maker: Velm", f"note: {mark}", "is: test-lever"]
        touched.add(f"{mark} 1")
    return made, touched


def _text(records: dict[str, list[str]]) -> bytes:
    return "\n".join(
        f"- part: {name}\n" + "".join(f"  {line}\n" for line in lines) for name, lines in records.items()
    ).encode()


def _records(text: bytes) -> dict[str, object]:
    root = read_nodes("shop/b.yaml", text).root
    assert root is None or isinstance(root, list)
    found: dict[str, object] = {}
    for one in root or []:
        assert isinstance(one, dict)
        found[str(one["part"])] = one
    return found
