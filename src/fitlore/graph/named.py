"""The named queries as text: each whole, and asked for the nodes alone."""

from __future__ import annotations

import functools
import os
import re
from collections.abc import Iterable
from typing import Final

QUERIES: Final = os.path.join(os.path.dirname(__file__), "queries")
_ROWS: Final = re.compile(r"(VALUES \(\?key\) )\{ \}")
_RECORD: Final = re.compile(r" ;\s+fl:as-kind \?kind ;\s+fl:as-read \?record \.")


@functools.cache
def query_text(name: str) -> str:
    """The text of a named query; KeyError for an unknown one."""
    try:
        with open(f"{QUERIES}/{name}.rq", encoding="utf-8") as file:
            return file.read()
    except FileNotFoundError:
        raise KeyError(name) from None


@functools.cache
def nodes_text(name: str) -> str:
    """The same query, not asked for what its nodes say; KeyError for an unknown one."""
    return _RECORD.sub(" .", query_text(name)).replace(" ?kind ?record", "", 1)


def with_rows(text: str, rows: Iterable[str]) -> str:
    """A query's text with these rows, each in brackets, in its VALUES block."""
    return _ROWS.sub(lambda match: f"{match[1]}{{ {' '.join(rows)} }}", text)
