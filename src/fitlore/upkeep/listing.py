"""The shop's own records as plain tables, for whoever wants to sort and sum them elsewhere."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Mapping, Sequence
from decimal import Decimal
from pathlib import Path
from typing import Final, NamedTuple, TypeAlias

from fitlore.books.layout import BUILT_IN, books_on, read_layout
from fitlore.books.reading import read_book
from fitlore.graph.derive import citable
from fitlore.model.amounts import Money
from fitlore.model.diagnostic import Severity
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.record import Rec
from fitlore.upkeep.export import NotExported

Cell: TypeAlias = "str | int | Decimal"
_STARTS: Final = ("=", "+", "-", "@", "\t", "\r")
"""What spreadsheets take for the start of a formula when they open a text file (OWASP, CSV injection)."""


class Listing(NamedTuple):
    """One table: its heading and its rows, in the order of the books."""

    heading: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def listings(folder: Path) -> dict[str, Listing]:
    """Parts, places, cross-fits and offers of every shelf but the built-in one.

    Raises NotExported where fitlore.yaml or a book has an error, OSError where one cannot be read.
    """
    layout = read_layout(folder)
    own = [book for book in books_on(layout) if book.shelf != BUILT_IN]
    readings = [read_book(book.shown, book.path.read_bytes(), book.graph_name) for book in own]
    found = (*layout.diagnostics, *(one for reading in readings for one in reading.diagnostics))
    wrong = tuple(one for one in found if one.severity is Severity.ERROR)
    if wrong:
        raise NotExported(wrong)
    return listed(citable(record for reading in readings for record in reading.records))


def listed(records: Iterable[Rec]) -> dict[str, Listing]:
    """The same of records that were read."""
    rows: dict[str, list[tuple[Cell, ...]]] = {name: [] for name in _COLUMNS}
    for record in records:
        for name, (kind, _, row) in _COLUMNS.items():
            if isinstance(record, kind):
                rows[name].append((*row(record), str(record.origin)))
    return {
        name: Listing((*heading, "stands at"), tuple(rows[name]))
        for name, (_, heading, _) in _COLUMNS.items()
    }


def as_csv(listing: Listing) -> bytes:
    """CSV as RFC 4180 has it, UTF-8. A text that a spreadsheet would take for a formula gets an apostrophe in front."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(listing.heading)
    writer.writerows([[harmless(cell) for cell in row] for row in listing.rows])
    return out.getvalue().encode()


def harmless(cell: Cell) -> Cell:
    """The cell, so that no spreadsheet reckons with it."""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(_STARTS) else cell


def _part(part: Rec) -> tuple[Cell, ...]:
    assert isinstance(part, Part)
    newer = ", ".join(str(one.number) for one in part.replaced_by)
    side = part.side.value if part.side else ""
    return part.part, part.maker, part.is_, part.name, side, newer, _said(part.features), part.note


def _place(place: Rec) -> tuple[Cell, ...]:
    assert isinstance(place, PlaceOn)
    originals = ", ".join(str(one.number) for one in place.place.original)
    sides = ", ".join(place.sides)
    must = _said(place.place.must_be)
    return place.on, place.path, place.place.is_, sides, place.place.quantity, originals, must


def _crossfit(claim: Rec) -> tuple[Cell, ...]:
    assert isinstance(claim, CrossFit)
    minutes = claim.work.minutes if claim.work and claim.work.minutes else 0
    return (
        claim.crossfit,
        claim.use,
        claim.instead_of or "",
        claim.at or "",
        claim.goes.value,
        ", ".join(claim.reaches),
        minutes,
        ", ".join(one.how.value for one in claim.evidence),
        ", ".join(one.how.value for one in claim.against),
    )


def _offer(offer: Rec) -> tuple[Cell, ...]:
    assert isinstance(offer, OfferFrom)
    of = offer.offer
    what = of.number or of.any_ or of.service or of.whole_car or ""
    kind = "number" if of.number else "any" if of.any_ else "service" if of.service else "whole car"
    return (
        offer.supplier,
        kind,
        what,
        of.state.value,
        *_money(of.price),
        of.pack,
        "" if of.stock is None else of.stock,
        of.days,
        str(of.seen or ""),
        of.note,
    )


def _money(money: Money | None) -> tuple[Cell, Cell]:
    return (money.amount, money.currency) if money else ("", "")


def _said(features: Mapping[str, Sequence[str]]) -> str:
    return "; ".join(f"{name}: {' or '.join(values)}" for name, values in features.items())


_COLUMNS: Final[dict[str, tuple[type[Rec], tuple[str, ...], Callable[[Rec], tuple[Cell, ...]]]]] = {
    "parts": (Part, ("number", "maker", "is", "name", "side", "replaced by", "features", "note"), _part),
    "places": (PlaceOn, ("platform", "place", "is", "sides", "quantity", "originals", "must be"), _place),
    "cross-fits": (
        CrossFit,
        (
            "name", "use", "instead of", "at", "goes", "reaches", "minutes of work", "evidence for", "evidence against",
        ),
        _crossfit,
    ),
    "offers": (
        OfferFrom,
        (
            "supplier", "what it names", "what", "state", "price", "currency", "pack", "stock", "days", "seen", "note",
        ),
        _offer,
    ),
}  # fmt: skip
LISTINGS: Final = tuple(_COLUMNS)
