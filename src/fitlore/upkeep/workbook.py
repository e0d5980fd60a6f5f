"""Workbooks (XLSX, ISO/IEC 29500) read and written: the one door to openpyxl, which is imported late."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime
from decimal import Decimal
from typing import TYPE_CHECKING, Final, TypeAlias

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

Cells: TypeAlias = tuple[int, tuple[str, ...], frozenset[int]]
"""The row's number, its texts, and the columns (from 0) that are figures."""
_TITLE: Final = 31
"""Characters that the name of a sheet may have."""
_NO_TEXT: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
"""Signs that XML 1.0 cannot hold."""
_FIGURES: Final = 15
"""Decimal figures that a number of a workbook has (IEC 60559 binary64)."""


class NotAWorkbook(Exception):
    """Why the bytes cannot be read as a workbook."""


def sheets_of(data: bytes, most_bytes: int, only: str = "") -> Iterator[tuple[str, list[Cells]]]:
    """Every sheet's name and rows, empty rows left out; formulas by the values they were saved with.

    Raises NotAWorkbook, zipfile.BadZipFile.
    """
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        if sum(one.file_size for one in packed.infolist()) > most_bytes:
            raise NotAWorkbook(f"it unpacks to more than {most_bytes // 1_000_000} million bytes")
    try:
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        for sheet in book.worksheets:
            if not only or sheet.title.casefold() == only.casefold():
                yield sheet.title, list(_rows(sheet))
    except (InvalidFileException, KeyError, ValueError, SyntaxError, AttributeError, TypeError) as error:
        raise NotAWorkbook(f"it is no workbook, or a broken one ({type(error).__name__})") from error


def _rows(sheet: Worksheet) -> Iterator[Cells]:
    if hasattr(
        sheet, "reset_dimensions"
    ):  # of a read-only one; what the file says of its own size is often wrong
        sheet.reset_dimensions()
    for number, row in enumerate(sheet.iter_rows(values_only=True), 1):
        cells = tuple(map(text_of, row))
        if any(cells):
            figures = frozenset(at for at, value in enumerate(row) if isinstance(value, int | float))
            yield number, cells, figures


def text_of(value: object) -> str:
    """A cell's value as text: figures with a point and without the noise behind their fifteenth figure."""
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case float():
            return f"{Decimal(f'{value:.{_FIGURES}g}').normalize():f}" if value == value else ""
        case datetime() | date():
            return value.isoformat()
    return str(value).strip()


Rows: TypeAlias = Sequence[Sequence[str | int | Decimal]]


def workbook(sheets: Mapping[str, tuple[Sequence[str], Rows]]) -> bytes:
    """Sheets by their names, each a heading and its rows. Texts are written as texts, whatever they begin with, so that none
    becomes a formula. The same sheets give the same bytes but for the time that is kept in them.
    """
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    book = Workbook(write_only=True)
    for title, (heading, rows) in sheets.items():
        sheet = book.create_sheet(title[:_TITLE])
        for row in (heading, *rows):
            made = []
            for value in row:
                number = float(value) if isinstance(value, Decimal) else value
                cell = WriteOnlyCell(
                    sheet, value=_NO_TEXT.sub("", number) if isinstance(number, str) else number
                )
                if isinstance(value, str):
                    cell.data_type = "s"
                made.append(cell)
            sheet.append(made)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()
