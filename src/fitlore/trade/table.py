"""Tables of standards by declaration: a family says which columns its sections have, and gets checked rows.

A family that needs more (figures that follow from each other, a size written as a fraction) reads the words itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple, TypeVar

import msgspec

from fitlore.model.origin import Origin
from fitlore.trade.rows import COMMON, BadRow, Certainty, Row, certainty, signed

_T = TypeVar("_T")


class TableRow(Row, frozen=True, kw_only=True):
    """One row: its numbers, each in the unit its section declares for the column, and its words as written."""

    section: str
    numbers: dict[str, Decimal] = {}
    words: dict[str, str] = {}

    def number(self, column: str) -> Decimal:
        """The number in a column that the section demands. KeyError where it may be left out and is."""
        return self.numbers[column]

    def word(self, column: str) -> str:
        """The word in a column; empty where it may be left out and is."""
        return self.words.get(column, "")

    def cell(self, column: str) -> str:
        """The cell as a plain text, whatever its column is: `12.50` is `12.5`; empty where there is none."""
        value = self.numbers.get(column)
        return self.word(column) if value is None else plain(value)


def anything_goes(row: TableRow) -> str:
    """For sections whose rows need no check of their own."""
    return ""


class Section(NamedTuple):
    """What the rows of one section look like.

    `key` names the columns in which no two rows agree; `numbers` maps a column to its unit; `words` maps a column to the
    words allowed there (none listed: any). Columns not in `optional` must be there. `implausible` says what is wrong with
    a row whose cells are each all right, and nothing where it is sound: a slip of the pen is caught by the figures.
    """

    family: str
    key: tuple[str, ...]
    numbers: Mapping[str, str] = {}
    words: Mapping[str, tuple[str, ...]] = {}
    optional: frozenset[str] = frozenset()
    implausible: Callable[[TableRow], str] = anything_goes


class Table:
    """The rows of one section, and indexes of them, each made when first asked for."""

    def __init__(self, rows: tuple[TableRow, ...]) -> None:
        self.rows = rows
        self._by: dict[tuple[str, ...], dict[tuple[str, ...], tuple[TableRow, ...]]] = {}

    def find(self, **cells: str) -> tuple[TableRow, ...]:
        """The rows that have these cells, as plain texts (a column's `-` is written `_`), in the table's order."""
        columns = tuple(cells)
        if columns not in self._by:
            made: dict[tuple[str, ...], tuple[TableRow, ...]] = {}
            for row in self.rows:
                key = tuple(row.cell(column.replace("_", "-")) for column in columns)
                made[key] = (*made.get(key, ()), row)
            self._by[columns] = made
        return self._by[columns].get(tuple(cells.values()), ())


def table_row(name: str, section: Section, text: Mapping[str, str], origin: Origin) -> TableRow:
    """One row of a section as a value. `BadRow` says what is wrong with it."""
    known = section.numbers.keys() | section.words.keys()
    missing = sorted((known - section.optional | {"source", "certainty"}) - text.keys())
    if missing:
        raise BadRow("table-key-missing", f"no {missing[0]}", ", ".join(missing), "add it to the row")
    unknown = sorted(text.keys() - known - COMMON)
    if unknown:
        expected = ", ".join(sorted(known | COMMON))
        raise BadRow("table-key-unknown", f"unknown key {unknown[0]}", expected, "remove or rename it")
    words = {column: _word(column, text[column], allowed) for column, allowed in _there(section.words, text)}
    row = TableRow(
        origin=origin,
        source=text["source"],
        certainty=certainty(text),
        section=name,
        numbers={column: signed(text, column) for column, _ in _there(section.numbers, text)},
        words=words | ({"use": text["use"]} if "use" in text else {}),
    )
    if wrong := section.implausible(row):
        raise BadRow("table-implausible", wrong, "figures that can be true together", "look again")
    return row


def plain(value: Decimal) -> str:
    """A number without trailing zeros or exponent: `1.50` is `1.5`, `10.0` is `10`."""
    return f"{value.normalize():f}"


def packed(rows: tuple[TableRow, ...]) -> bytes:
    """Rows as they are kept."""
    return msgspec.msgpack.encode(rows)


@lru_cache(maxsize=256)
def unpacked(data: bytes) -> Table:
    """The table of kept rows; the same bytes give the same table, so that its indexes are made once."""
    return Table(msgspec.msgpack.decode(data, type=tuple[TableRow, ...]) if data else ())


def weakest(rows: tuple[Row, ...]) -> Certainty:
    """How sure the least sure of these rows is; published where there is none, for then no row is relied on."""
    order = list(Certainty)
    return max((row.certainty for row in rows), key=order.index, default=Certainty.PUBLISHED)


def _there(columns: Mapping[str, _T], text: Mapping[str, str]) -> list[tuple[str, _T]]:
    return [(column, what) for column, what in columns.items() if column in text]


def _word(column: str, text: str, allowed: tuple[str, ...]) -> str:
    if not text.strip() or (allowed and text not in allowed):
        raise BadRow(
            "table-word", f"{column}: {text!r}", ", ".join(allowed) or "some words", "use one of these"
        )
    return text
