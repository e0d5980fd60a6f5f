"""Where a fact was written."""

from __future__ import annotations

import msgspec


class Origin(msgspec.Struct, frozen=True, order=True, array_like=True):
    """A place in a book: its shown name (`shop/parts.yaml`, `kb/categories/brakes.yaml`), line and column, both from 1.

    Line 0 means that the source has no lines (an endpoint, a JSON-LD document read by a generic reader).
    """

    book: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        if not self.line:
            return self.book
        return f"{self.book}:{self.line}:{self.column}" if self.column else f"{self.book}:{self.line}"
