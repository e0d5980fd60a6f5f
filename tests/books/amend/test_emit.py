"""Records written as text read back as the same records: of every kind, and all of the built-in ones."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any

import msgspec
import pytest

from fitlore.books.amend import NewRecord, Spliced, splice
from fitlore.books.emit import item_of, tree_of
from fitlore.books.layout import books_of
from fitlore.books.reading import read_book
from fitlore.books.schema import KINDS
from fitlore.model.amounts import Money
from fitlore.model.job import Shop
from fitlore.model.platform import Cond
from fitlore.model.record import Name, Rec

RICH = Path(__file__).with_name("rich.yaml")


def without_origins(value: Any) -> Any:
    """A record as plain data, without where it was written."""
    if isinstance(value, dict):
        return {key: without_origins(one) for key, one in value.items() if key != "@origin"}
    if isinstance(value, list | tuple):
        return [without_origins(one) for one in value]
    return value


def plain(record: Rec) -> Any:
    """A record as JSON data, without where it was written."""
    return without_origins(msgspec.to_builtins(record))


def kind_of(record: Rec) -> str:
    """The kind key of a record."""
    return next(kind for kind, struct in KINDS.items() if struct is type(record))


def records() -> Iterator[Rec]:
    """The records of the rich book, then all that are built in."""
    reading = read_book("shop/rich.yaml", RICH.read_bytes(), "g")
    assert [d for d in reading.diagnostics if d.severity.value != "note"] == []
    yield from reading.records
    for book in books_of(None):
        yield from read_book(book.shown, book.path.read_bytes(), book.graph_name).records


def test_every_record_reads_back_as_itself() -> None:
    """One book written record by record holds exactly the records it was written from."""
    every = list(records())
    assert {kind_of(record) for record in every} == set(KINDS) - {"shop"}
    for record in every:
        found = splice("shop/x.yaml", None, [NewRecord(tree_of(record, kind_of(record)))])
        assert isinstance(found, Spliced), (record, found)
        again = read_book("shop/x.yaml", found.data, "g")
        assert again.diagnostics == (), found.data.decode()
        assert [plain(one) for one in again.records] == [plain(record)]
        assert found.data.startswith(f"- {kind_of(record)}: ".encode())


@pytest.mark.parametrize(
    ("amount", "currency", "written"),
    [
        ("2", "GBP", "2.00 GBP"),
        ("1200", "JPY", "1200 JPY"),
        ("1.5", "KWD", "1.500 KWD"),
        ("0.185", "GBP", "0.185 GBP"),
    ],
)
def test_amounts_are_written_with_the_decimals_of_their_currency(
    amount: str, currency: str, written: str
) -> None:
    """As many as ISO 4217 gives it; parts of the smallest coin are not rounded away in silence, but refused when read."""
    shop = Shop(shop=Name("x"), hour_worth=Money(Decimal(amount), currency))
    assert tree_of(shop)["hour-worth"] == written
    found = splice("shop/x.yaml", None, [NewRecord(tree_of(shop))])
    assert isinstance(found, Spliced)
    again = read_book("shop/x.yaml", found.data, "g")
    refused = ["V02-too-many-decimals"] if amount == "0.185" else []
    assert [one.code for one in again.diagnostics] == refused


def test_a_condition_nobody_can_write_is_an_error() -> None:
    """`not` beside a range of a series has no written form."""
    with pytest.raises(ValueError, match="exactly one"):
        item_of(Cond(not_=("left",), series={"KT": "../5"}))
