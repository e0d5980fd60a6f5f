"""Parts off a donor that no number was read on: a number of the shop's own, the donor described, written before the claim."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlore.fitting.donors_on import Vehicle, vehicle_of
from fitlore.graph.open import Graph
from fitlore.model.choices import Side
from fitlore.model.part import Part
from fitlore.upkeep.addition import NewClaim, NewRecord, own_shelf
from fitlore.upkeep.draft import draft
from fitlore.upkeep.numberless import book_of_parts, numberless, own_number
from fitlore.upkeep.record import Recorded, record
from fitlore.upkeep.undo import undo
from tests.upkeep.lowbarn import TODAY, bytes_of, claim, copy_to, graph_at, piece

DONOR = """
- donor: field-corva
  is: tarn-corva
  facts:
    built: {value: "1985", how: measured, by: shop}
"""
OWN = """
- {part: LB 009, maker: Lowbarn, is: test-lever, taken-from: {from: tarn-corva, at: doors/lever}}
- {part: LB 099, maker: Tarn, is: test-lever, taken-from: {from: tarn-corva, at: doors/lever}}
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """The small shop with a described donor."""
    made = copy_to(tmp_path)
    add(made, DONOR)
    return made


def add(shop: Path, text: str) -> None:
    """More records in the book of things."""
    book = shop / "books" / "things.yaml"
    book.write_text(book.read_text("utf-8") + text, "utf-8")


def lever(graph: Graph, marks: str = "", side: str = "", *, handed: bool = False) -> Part:
    """The lever off the donor."""
    donor, place = graph.donor("field-corva"), graph.place("tarn-corva", "doors/lever")
    assert donor is not None
    assert place is not None
    return numberless(graph, vehicle_of(graph, donor), place, side=side, marks=marks, handed=handed)


def test_the_first_number_is_of_the_shops_letters(shop: Path) -> None:
    """No part of its own yet: two letters of its name, and one; a number that is taken is passed over."""
    assert own_number(graph_at(shop)) == "LO 001"
    add(shop, "- {part: LO 001, maker: Merrow, is: test-lever}\n")
    assert own_number(graph_at(shop)) == "LO 002"


def test_numbers_go_on_as_they_were_given(shop: Path) -> None:
    """Its letters and its width are kept; another maker's part off a donor is not counted."""
    add(shop, OWN)
    assert own_number(graph_at(shop)) == "LB 010"


def test_the_donor_is_described(shop: Path) -> None:
    """Platform, place, when it was built, marks; a side only where left and right ones differ."""
    part = lever(graph_at(shop), "VP 7")
    assert (part.maker, part.is_, part.name, part.side) == (
        "Lowbarn",
        "test-lever",
        "test lever off field-corva",
        None,
    )
    assert part.taken_from is not None
    off = part.taken_from
    assert (off.from_, off.at, str(off.built), off.marks) == ("tarn-corva", "doors/lever", "1985", "VP 7")
    assert lever(graph_at(shop), side="right", handed=True).side is Side.RIGHT


def test_the_same_part_is_found_again(shop: Path) -> None:
    """Once it is in the books a second word is about it; with other marks, or off another car, it is another one."""
    text = (
        "- {part: LO 001, maker: Lowbarn, is: test-lever, name: test lever off field-corva,"
        ' taken-from: {from: tarn-corva, at: doors/lever, built: "1985", marks: green}}\n'
    )
    add(shop, text)
    graph = graph_at(shop)
    assert lever(graph).origin.book
    assert lever(graph, "green").part == "LO 001"
    assert lever(graph, "blue").part == "LO 002"
    place = graph.place("tarn-corva", "doors/lever")
    assert place is not None
    assert numberless(graph, Vehicle("tarn-corva"), place).part == "LO 002"


def test_it_goes_into_the_book_of_its_like(shop: Path) -> None:
    """Where most parts of the kind stand on the shop's own shelf; without any, into the book of parts."""
    shelf, graph = own_shelf(shop), graph_at(shop)
    assert shelf is not None
    assert book_of_parts(graph, shop, shelf, "test-lever") == "shop/things.yaml"
    assert book_of_parts(graph, shop, shelf, "horn") == "shop/parts.yaml"


@pytest.mark.parametrize("book", ["shop/things.yaml", "shop/crossfits.yaml", "shop/parts.yaml"])
def test_part_and_claim_are_two_writes_that_follow_each_other(shop: Path, book: str) -> None:
    """The claim is worked out as if the part were written, in its own book, the same one or a new one; both come back."""
    before, graph = bytes_of(shop), graph_at(shop)
    part = lever(graph)
    first = draft(graph, NewRecord(part, book), shop, today=TODAY)
    second = draft(
        graph,
        NewClaim(claim("x", "KT 1", part.part, piece(), reaches=("kestin-tolland",))),
        shop,
        today=TODAY,
        after=first,
    )
    assert first.ready
    assert second.ready
    assert second.objections == ()
    assert {(row.part.part, row.after.word.value) for row in second.changes if row.after} == {
        ("LO 001", "fits")
    }
    assert second.touched == {"green"}
    assert bytes_of(shop) == before
    for one in (first, second):
        assert isinstance(record(one, shop), Recorded)
    written = graph_at(shop)
    assert written.parts(["LO001"])
    assert written.crossfit("x") is not None
    assert len(undo(shop, 2).entries) == 2
    assert bytes_of(shop) == before
