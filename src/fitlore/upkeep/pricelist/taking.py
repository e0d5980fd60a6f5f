"""A price list taken into the supplier's book: one guarded write, which `undo` takes back whole."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Final, NamedTuple

from fitlore.books.doc import Doc
from fitlore.books.edits import NewItem, NewText
from fitlore.books.emit import item_of, tree_of
from fitlore.books.faults import fault
from fitlore.books.layout import graph_name
from fitlore.books.reading import read_book
from fitlore.books.together import Many, NewKey, changed_together
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.model.record import Number
from fitlore.model.supply import FormerPrice, Offer, Supplier
from fitlore.upkeep.placing import locate
from fitlore.upkeep.pricelist.draft import Draft, Taken
from fitlore.upkeep.rewriting import Made, NoSuchBook, own_books, write

WHAT: Final = "prices of {supplier}"


class Written(NamedTuple):
    """What was written: the book, and the number for `undo` (0: the book says all of it already)."""

    book: str
    number: int


def written(draft: Draft, folder: Path, seen: date) -> Written | Diagnostic:
    """Writes new and changed prices, the day they were seen, former prices and the list's layout; or says why not.

    Raises OSError where the book cannot be read.
    """
    shown = draft.supplier.origin.book
    try:
        ((book, shelf),) = own_books(folder, [shown])
    except NoSuchBook as error:
        return _left(shown, str(error))
    before = book.path.read_bytes()
    edits = _edits(draft, shown, before, seen)
    if isinstance(edits, str):
        return _left(shown, edits)
    after = changed_together(shown, before, edits)
    if isinstance(after, str):
        return _left(shown, after)
    if after == before:
        return Written(shown, 0)
    worse = _worse(shown, before, after)
    if worse:
        return _left(shown, f"it would then hold faults: {worse}")
    name = draft.supplier.name or str(draft.supplier.supplier)
    done = write(folder, Made(book, shelf, before, after), WHAT.format(supplier=name))
    return done if isinstance(done, Diagnostic) else Written(shown, done)


def _edits(draft: Draft, shown: str, data: bytes, seen: date) -> list[Many] | str:
    reading = read_book(shown, data, graph_name(shown))
    at = locate(reading, draft.supplier)
    record = next(
        (
            one
            for one in reading.records
            if isinstance(one, Supplier) and one.supplier == draft.supplier.supplier
        ),
        None,
    )
    if at is None or record is None or not isinstance(reading.source, Doc):
        return "the supplier is no longer in it"
    places = _places(reading.source, at)
    if isinstance(places, str):
        return places
    edits: list[Many] = []
    for taken in (*draft.changed, *draft.same):
        assert taken.offer is not None
        line = places.get(taken.offer.origin)
        if line is None:
            return "it was changed since it was read"
        edits += _renewed(taken, taken.offer, (*at, "offers", line), seen)
    edits += [NewItem((*at, "offers"), item_of(_offer(taken, draft.days, seen))) for taken in draft.new]
    return [*edits, *_layout(draft, record, at)]


def _places(doc: Doc, at: tuple[str | int, ...]) -> dict[Origin, int] | str:
    """Where in the list each offer stands, by its line and column."""
    holder = doc.root
    for key in at:
        assert not isinstance(holder, str)
        assert holder is not None
        holder = holder[key]  # type: ignore[index]
    assert isinstance(holder, dict)
    offers = holder.get("offers")
    if offers is None:
        return {}
    if not isinstance(offers, list):
        return "its one offer is not written as a list"
    return {doc.origin(offers, place): place for place in range(len(offers))}


def _renewed(taken: Taken, offer: Offer, at: tuple[str | int, ...], seen: date) -> Iterator[Many]:
    """The price where it is another one, with the former kept; the day; and the stock where the list says one."""
    price = taken.row.price
    if offer.price != price:
        yield NewText((*at, "price"), str(price))
    if offer.seen != seen:
        yield NewText((*at, "seen"), seen)
    if taken.row.stock is not None and offer.stock != taken.row.stock:
        yield NewText((*at, "stock"), taken.row.stock)
    if offer.price is not None and offer.price != price:
        yield NewItem((*at, "earlier"), item_of(FormerPrice(price=offer.price, seen=offer.seen)))


def _offer(taken: Taken, days: int, seen: date) -> Offer:
    row = taken.row
    return Offer(
        number=Number(taken.number),
        price=row.price,
        pack=row.pack,
        stock=row.stock,
        days=days,
        seen=seen,
    )


def _layout(draft: Draft, record: Supplier, at: tuple[str | int, ...]) -> Iterator[Many]:
    """The layout is kept as it was found; of one that is there only what differs is changed."""
    said = tree_of(draft.layout)
    if record.price_list is None:
        yield NewKey((*at, "price-list"), said, Supplier)
        return
    before = tree_of(record.price_list)
    yield from (
        NewText((*at, "price-list", key), value) for key, value in said.items() if before.get(key) != value
    )


def _worse(shown: str, before: bytes, after: bytes) -> str:
    """Codes of faults that the new text has and the old one has not."""
    old = [one.code for one in read_book(shown, before, graph_name(shown)).diagnostics]
    new = [one.code for one in read_book(shown, after, graph_name(shown)).diagnostics]
    return ", ".join(sorted({code for code in new if new.count(code) > old.count(code)}))


def _left(shown: str, why: str) -> Diagnostic:
    return fault("P09-book-of-another-form", Origin(shown, 1, 1), book=shown, why=why)
