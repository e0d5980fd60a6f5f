"""The tables of published standards, read once."""

from __future__ import annotations

import functools

from fitlore.books.standards import read_standards
from fitlore.trade.standards import Standards


@functools.cache
def tables() -> Standards:
    """The tables of published standards."""
    return read_standards()[0]
