"""A price list as rows of texts with their lines, out of CSV in any usual dress or a workbook; what is unclear is asked."""

from __future__ import annotations

import codecs
import csv
import io
import zipfile
from collections import Counter
from collections.abc import Iterator
from typing import Final, NamedTuple

from fitlore.books.faults import fault
from fitlore.model.choices import Divider
from fitlore.model.origin import Origin
from fitlore.model.supply import PriceList
from fitlore.upkeep.pricelist.faults import Unclear
from fitlore.upkeep.workbook import NotAWorkbook, sheets_of

MOST_BYTES: Final = 200_000_000
"""Of a list, and of what is packed in a workbook."""
_WIDEST_CELL: Final = 100_000
_LOOKED_AT: Final = 200
"""Rows by which a divider is judged."""
_ALIKE: Final = 0.8
"""The share of those rows that must have equally many columns."""
_BOMS: Final = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_OLD_WORKBOOK: Final = b"\xd0\xcf\x11\xe0"
_TRIED: Final = ("windows-1252", "iso-8859-15", "ibm850", "macintosh")
"""Encodings of western Europe that lists still come in (common practice)."""


class Row(NamedTuple):
    """One row: the line it begins in (of a workbook its number), its texts, and the columns (from 0) that are figures."""

    line: int
    cells: tuple[str, ...]
    figures: frozenset[int] = frozenset()


class Table(NamedTuple):
    """Rows, empty ones left out, and how they were found."""

    shown: str
    rows: tuple[Row, ...]
    divided_by: Divider | None = None
    sheet: str = ""
    encoding: str = ""
    """Empty where it is UTF-8, or where only cells that do not count are not."""


def tables(shown: str, data: bytes, layout: PriceList | None) -> list[Table]:
    """Every table the bytes may be: one for each sheet, or for each divider that gives rows of one width.

    `layout` says what is known of it. Raises Unclear.
    """
    if len(data) > MOST_BYTES:
        raise no_table(shown, f"it has more than {MOST_BYTES // 1_000_000} million bytes")
    if data.startswith(_OLD_WORKBOOK):
        raise no_table(shown, "it is a workbook of the old form (XLS)")
    if data.startswith(b"PK\x03\x04"):
        return _from_workbook(shown, data, layout)
    text, encoding = _decoded(shown, data, layout)
    if "\0" in text:
        raise no_table(shown, "it holds bytes that are no text")
    wanted = layout.divided_by if layout else None
    found, torn = [], ""
    for divider in sorted(Divider, key=lambda one: one is not wanted):
        try:
            rows = tuple(_rows(text, divider))
        except csv.Error as error:
            torn = str(error)
            continue
        if _even(rows):
            found.append(Table(shown, rows, divider, encoding=encoding))
            if divider is wanted:
                break
    if not found:
        why = torn or "no sign divides its lines into columns"
        raise no_table(shown, why if text.strip() else "it is empty")
    return found


def no_table(shown: str, why: str) -> Unclear:
    """The fault of a file that is no table."""
    return Unclear(fault("P01-no-table", Origin(shown, 1, 1), shown=shown, why=why))


def uncertain(text: str) -> bool:
    """Whether a text holds bytes whose encoding was not found."""
    return any("\udc80" <= sign <= "\udcff" for sign in text)


def which_encoding(shown: str, line: int, text: str) -> Unclear:
    """The question for the encoding, with the text as each usual one reads it."""
    raw = text.encode("utf-8", "surrogateescape")
    readings = {}
    for name in _TRIED:
        try:
            readings[name] = raw.decode(name)
        except UnicodeDecodeError:
            continue
    words = "; ".join(f"{name}: {text.strip()!r}" for name, text in readings.items())
    found = fault("P02-encoding-unclear", Origin(shown, line, 1), shown=shown, readings=words)
    return Unclear(found, "encoding", tuple(readings))


def _decoded(shown: str, data: bytes, layout: PriceList | None) -> tuple[str, str]:
    """The text, and the encoding where it has to be kept. Bytes of an unknown one stay as they are, one sign each."""
    for mark, name in _BOMS:
        if data.startswith(mark):
            try:
                return data.decode(name), ""
            except UnicodeDecodeError as error:
                raise no_table(shown, f"it says it is {name}, and byte {error.start} is not") from None
    if layout is not None and layout.encoding:
        try:
            return data.decode(layout.encoding), layout.encoding
        except LookupError:
            raise no_table(shown, f"there is no encoding {layout.encoding!r}") from None
        except UnicodeDecodeError as error:
            line = data.count(b"\n", 0, error.start) + 1
            raise no_table(shown, f"line {line} is not {layout.encoding}") from None
    return data.decode("utf-8", "surrogateescape"), ""


def _rows(text: str, divider: Divider) -> Iterator[Row]:
    """Raises csv.Error with the line where a quoted cell does not end."""
    csv.field_size_limit(_WIDEST_CELL)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=divider.sign, strict=True)
    while True:
        line = reader.line_num + 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            said = (
                "a quoted text that begins there does not end" if "end of data" in str(error) else str(error)
            )
            raise csv.Error(f"line {line}: {said}") from None
        if any(cell.strip() for cell in cells):
            yield Row(line, tuple(cells))


def _even(rows: tuple[Row, ...]) -> bool:
    """Whether most rows have one and the same width of at least two; titles on top and sums below do not matter."""
    widths = Counter(len(row.cells) for row in rows[:_LOOKED_AT])
    wide = [(count, width) for width, count in widths.items() if width > 1]
    if not wide:
        return False
    seen = sum(widths.values())
    return max(wide)[0] >= _ALIKE * seen or (seen < 10 and max(wide)[0] * 2 >= seen)


def _from_workbook(shown: str, data: bytes, layout: PriceList | None) -> list[Table]:
    try:
        found = [
            Table(shown, tuple(Row(line, cells, figures) for line, cells, figures in rows), sheet=name)
            for name, rows in sheets_of(data, MOST_BYTES, layout.sheet if layout else "")
        ]
    except NotAWorkbook as error:
        raise no_table(shown, str(error)) from None
    except zipfile.BadZipFile:
        raise no_table(shown, "it is no workbook, or a broken one") from None
    if not found:
        raise no_table(
            shown, f"it has no sheet {layout.sheet!r}" if layout and layout.sheet else "it is empty"
        )
    found = [table for table in found if table.rows]
    if not found:
        raise no_table(shown, "there is nothing in it")
    return found
