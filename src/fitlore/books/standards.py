"""Reads the tables of published standards (`kb/standards/*.yaml`) into the value that the trade room works with.

A table file is one mapping: each top-level key is a section, a list of rows; a row is one flat mapping of texts. What
stands under `meta` is for people.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Final, NamedTuple

from fitlore.books import catalogue, catalogue_layout  # noqa: F401  (they register faults)
from fitlore.books.doc import Doc, Tree
from fitlore.books.layout import BUILT_IN, builtin_kb
from fitlore.books.nodes import read_nodes
from fitlore.books.raw import Found
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.trade.standards import Standards, standards_from

FOLDER: Final = "standards"
_FOR_PEOPLE: Final = "meta"


class Row(NamedTuple):
    """One row of a table: its section, its cells as texts, and its line."""

    section: str
    cells: dict[str, str]
    origin: Origin


def read_standards(kb: Path | None = None) -> tuple[Standards, tuple[Diagnostic, ...]]:
    """Every table of the built-in knowledge, or of the `kb` given. Raises OSError only where a file cannot be opened."""
    rows: list[Row] = []
    found: list[Diagnostic] = []
    for path in table_files(kb or builtin_kb()):
        read, faults = table_rows(f"{BUILT_IN}/{FOLDER}/{path.name}", path.read_bytes())
        rows += read
        found += faults
    standards, problems = standards_from(rows)
    return standards, (*found, *problems)


def table_files(kb: Path) -> list[Path]:
    """The table files of a built-in knowledge folder, in the order of their names."""
    return sorted((kb / FOLDER).glob("*.yaml"))


def table_rows(shown: str, data: bytes) -> tuple[list[Row], list[Diagnostic]]:
    """The rows of one table file; what is no row is reported and left out. Nothing raises."""
    doc = read_nodes(shown, data)
    rows = []
    if isinstance(doc.root, dict):
        rows = [row for section, listed in doc.root.items() for row in _section(doc, section, listed)]
    elif doc.root and not doc.found:
        doc.report(Found("L05-not-a-table", 0, 1, {"what": "a table file"}))
    return rows, doc.found


def _section(doc: Doc, section: str, listed: Tree) -> Iterator[Row]:
    """The sound rows of one section; those with a fault anywhere in their lines are left out."""
    if section == _FOR_PEOPLE:
        return
    if not isinstance(listed, list):
        if isinstance(doc.root, dict) and listed != "":
            start = doc.key_span(doc.root, section)[0]
            doc.report(Found("L05-not-a-table", start, len(section), {"what": f"the section `{section}`"}))
        return
    for place, row in enumerate(listed):
        start, end = doc.value_span(listed, place)
        lines = range(doc.at(start)[0], doc.at(end)[0] + 1)
        cells = (
            {key: cell for key, cell in row.items() if isinstance(cell, str)} if isinstance(row, dict) else {}
        )
        if not isinstance(row, dict) or len(cells) != len(row):
            doc.report(Found("L06-not-a-row", start, end - start, {"section": section}))
        elif not any(fault.origin.line in lines for fault in doc.found):
            yield Row(section, cells, doc.origin(listed, place))
