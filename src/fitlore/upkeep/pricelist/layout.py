"""Which column says what: by what was said or kept, else by headings as suppliers write them in five languages."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Final, NamedTuple

import msgspec

from fitlore.books.faults import fault
from fitlore.model.choices import TaxView
from fitlore.model.origin import Origin
from fitlore.model.supply import PriceList, Supplier
from fitlore.upkeep.pricelist.faults import Unclear
from fitlore.upkeep.pricelist.prices import Written, take_apart
from fitlore.upkeep.pricelist.table import Table, uncertain, which_encoding

_TOP: Final = 40
"""Rows in which the headings are looked for; lists begin with names, dates and terms."""

_WORDS: Final[Mapping[str, tuple[str, ...]]] = {
    "number_in": (
        "part number", "part no", "part nr", "partno", "number", "item number", "item no", "item", "code", "part code",
        "product code", "stock code", "reference", "ref", "part",
        "teilenummer", "teile nr", "artikelnummer", "artikel nr", "art nr", "bestellnummer", "bestell nr", "nummer",
        "référence", "réf", "numéro", "code article", "numéro de pièce",
        "referencia", "número", "código", "número de pieza",
    ),
    "price_in": (
        "price", "unit price", "net price", "net", "nett", "trade price", "trade", "your price", "price each", "each",
        "retail", "retail price", "list price", "gross price", "gross", "price ex vat", "price inc vat", "ex vat", "inc vat",
        "preis", "einzelpreis", "netto", "nettopreis", "brutto", "bruttopreis", "stückpreis",
        "prix", "prix unitaire", "prix net", "prix ht", "prix ttc", "tarif",
        "precio", "precio unitario", "precio neto", "precio sin iva", "precio con iva", "pvp",
    ),
    "maker_in": (
        "make", "maker", "brand", "manufacturer", "hersteller", "marke", "marque", "fabricant", "marca", "fabricante",
    ),
    "stock_in": ("stock", "in stock", "qty in stock", "bestand", "lagerbestand", "en stock", "existencias"),
    "pack_in": (
        "pack", "pack size", "pack qty", "sold in", "per", "verpackungseinheit", "ve", "packung", "conditionnement",
        "unité de vente", "envase", "unidad de venta",
    ),
}  # fmt: skip
"""Headings by what they say, in small letters without points and dashes (common practice)."""
_SAID: Final = {
    "number_in": "number",
    "price_in": "price",
    "maker_in": "maker",
    "stock_in": "stock",
    "pack_in": "pack",
}
_TAX: Final = r"(?:vat|tax|m\.?w\.?st\.?|ust|tva|iva)"
_WITHOUT_TAX: Final = re.compile(
    r"\b(?:net|nett|netto|nettopreise?|neto|ht)\b"
    rf"|(?:\b(?:ex|exc|excl|exclude|excluding|without|plus|zzgl|hors|sin)\b\.?|\+)\W*{_TAX}\b"
)
_WITH_TAX: Final = re.compile(
    r"\b(?:gross|brutto|bruttopreise?|ttc|retail|pvp)\b"
    rf"|\b(?:inc|incl|include|including|with|inkl|mit|con|avec)\b\.?\W*{_TAX}\b"
)
"""How lists say that prices are without or with value added tax (common practice)."""


class Columns(NamedTuple):
    """Where a table says what: the place of the row with headings (-1: none), and columns from 0."""

    heading: int
    at: Mapping[str, int]
    """By the key of the layout: `number_in`, `price_in`, and those of the others that there are."""
    layout: PriceList
    """As it is to be kept."""
    currency: str = ""
    """Said in the heading of the price."""


def asked_first(kept: PriceList | None, asked: PriceList) -> PriceList:
    """The layout as it is kept for the supplier, with what was asked for this time put over it."""
    if kept is None:
        return asked
    said = {
        name: value for name in asked.__struct_fields__ if (value := getattr(asked, name)) not in ("", None)
    }
    return msgspec.structs.replace(kept, **{name: said[name] for name in said if name != "origin"})


def chosen(found: Sequence[Table], layout: PriceList) -> tuple[Table, Columns]:
    """The one table that has a number's and a price's column, and where. Raises Unclear."""
    fits: list[tuple[Table, Columns]] = []
    faults: list[Unclear] = []
    for table in found:
        try:
            fits.append((table, columns_of(table, layout)))
        except Unclear as unclear:
            faults.append(unclear)
    if len(fits) == 1:
        return fits[0]
    if not fits:
        raise max(faults, key=lambda one: (one.found.code != "P04-no-such-column", len(one.found.message)))
    shown = fits[0][0].shown
    sheets = tuple(table.sheet for table, _ in fits if table.sheet)
    if sheets:
        raise _several(shown, "prices", "--sheet", sheets, 1)
    dividers = tuple(table.divided_by.value for table, _ in fits if table.divided_by)
    found_fault = fault(
        "P03-divider-unclear", Origin(shown, 1, 1), shown=shown, choices=" or ".join(dividers)
    )
    raise Unclear(found_fault, "divided-by", dividers)


def columns_of(table: Table, layout: PriceList) -> Columns:
    """The columns of a table, by a layout whose empty fields are found by the words of the headings. Raises Unclear."""
    if layout.number_in.isdigit() and layout.price_in.isdigit():
        return _by_number(table, layout)
    best: Unclear | None = None
    for place in range(min(_TOP, len(table.rows))):
        try:
            at = dict(_in_row(table, place, layout))
        except Unclear as unclear:
            best = best or unclear
            continue
        if "number_in" in at and "price_in" in at:
            return _columns(table, place, at, layout)
    if best is not None:
        raise best
    for row in table.rows[:_TOP]:
        for cell in filter(uncertain, row.cells):
            raise which_encoding(table.shown, row.line, cell)
    wanted = " and ".join(repr(one) for one in (layout.number_in, layout.price_in) if one)
    widest = max(table.rows[:_TOP], key=lambda row: sum(bool(cell.strip()) for cell in row.cells))
    headings = ", ".join(repr(cell.strip()) for cell in widest.cells if cell.strip())
    raise Unclear(
        fault(
            "P04-no-such-column",
            Origin(table.shown, widest.line, 1),
            shown=table.shown,
            wanted=wanted or "a number's and a price's heading",
            headings=headings,
        )
    )


def tax_differs(table: Table, columns: Columns, supplier: Supplier) -> Unclear | None:
    """What speaks against the list where the price's heading, or a line above it, says net or gross, and the supplier's
    prices are kept the other way.
    """
    row = table.rows[columns.heading] if columns.heading >= 0 else None
    price = columns.at["price_in"]
    heading = row.cells[price] if row is not None and price < len(row.cells) else columns.layout.price_in
    above = [cell for one in table.rows[: max(0, columns.heading)] for cell in one.cells]
    kept = {TaxView.IN_THE_PRICE: "with tax", TaxView.ON_TOP: "without tax"}.get(supplier.tax or TaxView.NONE)
    gross = supplier.tax is TaxView.IN_THE_PRICE
    other, same = (_WITHOUT_TAX, _WITH_TAX) if gross else (_WITH_TAX, _WITHOUT_TAX)
    if kept is None or same.search(heading.casefold()):
        return None
    said = next((text for text in (heading, *above) if other.search(text.casefold())), "")
    if not said:
        return None
    name, origin = str(supplier.supplier), supplier.origin
    return Unclear(fault("P08-tax-differs", origin, heading=" ".join(said.split()), supplier=name, kept=kept))


def _by_number(table: Table, layout: PriceList) -> Columns:
    """Columns by their number: the rows on top whose price is none are headings and titles."""
    at = {name: int(getattr(layout, name)) - 1 for name in _SAID if getattr(layout, name).isdigit()}
    price = at["price_in"]
    if all(price >= len(row.cells) for row in table.rows):
        widest = str(max(len(row.cells) for row in table.rows))
        wanted = f"a column {price + 1}"
        origin = Origin(table.shown, table.rows[0].line, 1)
        raise Unclear(
            fault(
                "P04-no-such-column", origin, shown=table.shown, wanted=wanted, headings=f"{widest} columns"
            )
        )
    first = next(
        (
            place
            for place, row in enumerate(table.rows[:_TOP])
            if price < len(row.cells) and isinstance(take_apart(row.cells[price]), Written)
        ),
        0,
    )
    return Columns(first - 1, at, layout)


def _in_row(table: Table, place: int, layout: PriceList) -> Iterator[tuple[str, int]]:
    """Which columns a row names as a heading. Raises Unclear where one is named twice."""
    row = table.rows[place]
    heads = [_folded(cell) for cell in row.cells]
    for name, what in _SAID.items():
        said = getattr(layout, name)
        if said.isdigit():
            yield name, int(said) - 1
            continue
        wanted = (_folded(said),) if said else _WORDS[name]
        found = [at for at, head in enumerate(heads) if head and head in wanted]
        if len(found) > 1 and (said or name in ("number_in", "price_in", "pack_in")):
            choices = tuple(row.cells[at].strip() for at in found)
            raise _several(table.shown, what, f"--{name.replace('_', '-')}", choices, row.line)
        if found:
            yield name, found[0]


def _columns(table: Table, place: int, at: Mapping[str, int], layout: PriceList) -> Columns:
    row = table.rows[place]
    kept = {}
    for name, column in at.items():
        cell = row.cells[column] if column < len(row.cells) else ""
        if uncertain(cell):
            raise which_encoding(table.shown, row.line, cell)
        kept[name] = getattr(layout, name) if getattr(layout, name).isdigit() else " ".join(cell.split())
    currency = re.search(r"\b([A-Z]{3})\b|[£€]", row.cells[at["price_in"]])
    parted = take_apart(f"1 {currency[0]}") if currency else None
    code = parted.currency if isinstance(parted, Written) else ""
    return Columns(place, at, msgspec.structs.replace(layout, **kept), code)


def _several(shown: str, what: str, option: str, choices: tuple[str, ...], line: int) -> Unclear:
    said = " or ".join(map(repr, choices))
    found = fault("P05-column-unclear", Origin(shown, line, 1), what=what, choices=said, option=option)
    return Unclear(found, option.removeprefix("--"), choices)


def _folded(heading: str) -> str:
    """A heading without its currency, brackets, points and dashes, in small letters."""
    bare = re.sub(r"\(([^)]*)\)", r" \1 ", heading)
    bare = re.sub(r"\b(?:GBP|EUR|USD|CHF)\b|[£€$]", " ", bare)
    return " ".join(re.sub(r"[._:*#/\-]+", " ", bare).casefold().split())
