"""The rows of a price list as numbers and prices, each checked by itself; what is wrong with a row is a diagnostic of it."""

from __future__ import annotations

from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.books.faults import WIDEST, fault
from fitlore.model.amounts import Money
from fitlore.model.choices import DecimalMark
from fitlore.model.currencies import minor_units
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.upkeep.pricelist.faults import Unclear
from fitlore.upkeep.pricelist.layout import Columns
from fitlore.upkeep.pricelist.prices import Marks, Unread, Written, marks_of, take_apart
from fitlore.upkeep.pricelist.table import Row, Table, uncertain, which_encoding

_MOST: Final = Decimal(10) ** 10


class Priced(NamedTuple):
    """One row that has a number and a price."""

    origin: Origin
    number: str
    price: Money
    maker: str = ""
    pack: int = 1
    pack_said: bool = False
    stock: int | None = None


class Read(NamedTuple):
    """All rows of a list, and the decimal mark that was found or said (None: nothing hangs on it)."""

    rows: tuple[Priced, ...]
    held: tuple[Diagnostic, ...]
    decimals_after: DecimalMark | None


def lines_of(table: Table, columns: Columns, home: str) -> Read:
    """Reads every row below the headings. `home`: the currency of prices without one. Raises Unclear."""
    rows = table.rows[columns.heading + 1 :]
    taken = [(row, _cell(table, row, columns, "number_in"), _price(table, row, columns)) for row in rows]
    texts = [(text, price) for row, number, (text, price) in taken if number and not _figure(row, columns)]
    mark = columns.layout.decimals_after or _mark(table.shown, marks_of(texts))
    currency = columns.layout.currency or columns.currency or home
    found: list[Priced] = []
    held: list[Diagnostic] = []
    for row, number, (text, price) in taken:
        one = _row(table, columns, row, number, text, price, mark, str(currency))
        if isinstance(one, Priced):
            found.append(one)
        elif one is not None:
            held.append(one)
    return Read(tuple(found), tuple(held), mark if texts else None)


def _row(
    table: Table,
    columns: Columns,
    row: Row,
    number: str,
    text: str,
    price: Written | Unread,
    mark: DecimalMark | None,
    currency: str,
) -> Priced | Diagnostic | None:
    """A row as number and price, what is wrong with it, or None for one that offers nothing (a title, a sum)."""
    needs = columns.at["price_in"]
    origin, line = _place(table, row, needs)
    if not number:
        return None
    wide = len(table.rows[columns.heading].cells) if columns.heading >= 0 else len(row.cells)
    if any(cell.strip() for cell in row.cells[wide:]):
        has = str(len(row.cells))
        return fault("P28-torn-line", origin, excerpt=line, has=has, wide=str(wide))
    if needs >= len(row.cells):
        if len([cell for cell in row.cells if cell.strip()]) == 1:
            return None
        has = str(len(row.cells))
        return fault("P28-torn-line", origin, excerpt=line, has=has, wide=str(wide))
    if not text:
        return fault("P20-no-price", origin, excerpt=line, number=number)
    if isinstance(price, Unread):
        return _unread(origin, line, text, price.why)
    if price.strange and not (columns.layout.currency or columns.currency):
        return _unread(origin, line, text, f"{price.strange} is the sign of several currencies")
    code = price.currency or currency
    amount = _amount(price, DecimalMark.POINT if _figure(row, columns) else mark, code)
    if isinstance(amount, str):
        return _unread(origin, line, text, amount)
    said = _cell(table, row, columns, "pack_in")
    pack = _count(said)
    if said and not pack:
        at, line = _place(table, row, columns.at["pack_in"])
        return fault("P27-unread-count", at, excerpt=line, text=said, what="packs", least="1")
    maker, stock = _cell(table, row, columns, "maker_in"), _count(_cell(table, row, columns, "stock_in"))
    return Priced(origin, number, Money(amount, code), maker, pack or 1, pack is not None, stock)


def _count(text: str) -> int | None:
    return int(text) if text.isdecimal() and len(text) < 10 else None


def _amount(price: Written, mark: DecimalMark | None, code: str) -> Decimal | str:
    """The amount in whole coins, or why there is none."""
    amount = price.amounts.get(mark or DecimalMark.POINT)
    if amount is None:
        return f"not with a {mark.value} before the decimals" if mark else "no number"
    if abs(amount) >= _MOST:
        return "no price has so many figures"
    places = minor_units(code) or 0
    whole = amount.quantize(Decimal(1).scaleb(-places))
    if whole != amount:
        return f"{code} has {places} decimals"
    return whole


def _unread(origin: Origin, line: str, text: str, why: str) -> Diagnostic:
    return fault("P21-price-unread", origin, excerpt=line, width=len(text), text=text, why=why)


def _mark(shown: str, marks: Marks) -> DecimalMark | None:
    """The one mark that all prices allow; None where each reads the same by both. Raises Unclear."""
    if len(marks.only) == 2:
        point, comma = marks.only[DecimalMark.POINT], marks.only[DecimalMark.COMMA]
        why = f"{point!r} has its decimals after a point, {comma!r} after a comma"
    elif marks.only:
        return next(iter(marks.only))
    elif marks.either:
        why = f"{marks.either!r} can be read in two ways, and no other price of {shown} tells which"
    else:
        return None
    found = fault("P06-decimals-unclear", Origin(shown, 1, 1), why=why)
    raise Unclear(found, "decimals-after", tuple(mark.value for mark in DecimalMark))


def _price(table: Table, row: Row, columns: Columns) -> tuple[str, Written | Unread]:
    text = _cell(table, row, columns, "price_in")
    return text, take_apart(text)


def _figure(row: Row, columns: Columns) -> bool:
    return columns.at["price_in"] in row.figures


def _cell(table: Table, row: Row, columns: Columns, name: str) -> str:
    """The text in a column; empty where there is no such column. Raises Unclear where its encoding is open."""
    at = columns.at.get(name, -1)
    text = row.cells[at] if 0 <= at < len(row.cells) else ""
    if uncertain(text):
        raise which_encoding(table.shown, row.line, text)
    return " ".join(text.split())


def _place(table: Table, row: Row, at: int) -> tuple[Origin, str]:
    """Where a cell stands and the line's text; of a workbook row and column. Quotes round texts are not counted."""
    if table.divided_by is None:
        return Origin(table.shown, row.line, at + 1), ""
    sign = table.divided_by.sign
    text = sign.join(row.cells).encode("utf-8", "replace").decode()
    if "\n" in text or "\r" in text or len(text) > WIDEST:
        return Origin(table.shown, row.line, 1), ""
    return Origin(table.shown, row.line, 1 + sum(len(cell) + 1 for cell in row.cells[:at])), text
