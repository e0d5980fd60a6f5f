"""The value that holds all tables of published standards, and the one function that makes it from rows of text.

`books` reads `kb/standards/*.yaml` (and a shop's own rows) and calls `standards_from`; the snapshot keeps the value as
msgpack; everybody above gets it from the opened graph and passes it on. Nothing here reads a file.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache, lru_cache
from importlib import import_module
from typing import Final

import msgspec

from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.trade.registry import KINDS
from fitlore.trade.rows import BadRow, Certainty, Row
from fitlore.trade.table import Section, Table, TableRow, packed, table_row, unpacked
from fitlore.trade.thread.rows import SECTIONS as THREAD_SECTIONS
from fitlore.trade.thread.rows import Family, ThreadRow, thread_row

__all__ = ["Certainty", "Family", "Row", "Standards", "ThreadRow", "sections", "standards_from"]

_THREADS: Final = "threads"


class Standards(msgspec.Struct, frozen=True, omit_defaults=True):
    """Every table, kept packed and read when asked for: a question meets few of them."""

    kept: dict[str, bytes] = {}
    """Section to its rows as msgpack; all threads under one name."""

    @property
    def threads(self) -> tuple[ThreadRow, ...]:
        """The rows of all series of threads."""
        return _thread_rows(self.kept.get(_THREADS, b""))

    def table(self, section: str) -> Table:
        """The rows of one section; an empty table where none are known."""
        return unpacked(self.kept.get(section, b""))


@lru_cache(maxsize=8)
def _thread_rows(data: bytes) -> tuple[ThreadRow, ...]:
    return msgspec.msgpack.decode(data, type=tuple[ThreadRow, ...]) if data else ()


@cache
def sections() -> Mapping[str, Section]:
    """What every section of every family looks like, threads aside (they have rows of their own)."""
    found: dict[str, Section] = {}
    for package in sorted(set(KINDS.values()) - {"thread"}):
        found |= import_module(f"fitlore.trade.{package}.tables").SECTIONS
    return found


def standards_from(
    rows: Iterable[tuple[str, Mapping[str, str], Origin]],
) -> tuple[Standards, list[Diagnostic]]:
    """Make the tables from rows of text: (section, row, where it is written) for every row of every table file.

    The section is the top-level key the row stands under (`metric-fine`, `UNF` ...); a file name in front of it
    (`threads/UNF`) is ignored, and so is everything under `meta`. A row that cannot be used is left out and told in the
    list; a row that says again what an earlier one said is left out in silence. Nothing raises.
    """
    made: dict[tuple[object, ...], ThreadRow | TableRow] = {}
    problems: list[Diagnostic] = []
    for named, text, origin in rows:
        section = named.rpartition("/")[2]
        if section == "meta":
            continue
        try:
            identity, row = _row(section, text, origin)
            known = made.setdefault(identity, row)
            if _figures(known) != _figures(row):
                raise BadRow(
                    "table-twice",
                    f"other figures than in {known.origin}",
                    "one row per size",
                    "keep one of them",
                )
        except BadRow as fault:
            problems.append(fault.at(origin))
    return Standards(_packed(made.values())), problems


def _packed(rows: Iterable[ThreadRow | TableRow]) -> dict[str, bytes]:
    threads: list[ThreadRow] = []
    tables: dict[str, list[TableRow]] = {}
    for row in rows:
        if isinstance(row, ThreadRow):
            threads.append(row)
        else:
            tables.setdefault(row.section, []).append(row)
    kept = {section: packed(tuple(listed)) for section, listed in tables.items()}
    return kept | ({_THREADS: msgspec.msgpack.encode(threads)} if threads else {})


def _row(
    name: str, text: Mapping[str, str], origin: Origin
) -> tuple[tuple[object, ...], ThreadRow | TableRow]:
    if name in THREAD_SECTIONS:
        thread = thread_row(name, text, origin)
        return thread.identity, thread
    section = sections().get(name)
    if section is None:
        known = ", ".join(sorted([*THREAD_SECTIONS, *sections()]))
        raise BadRow("table-section", f"no family reads the section {name}", known, "use one of these")
    row = table_row(name, section, text, origin)
    return (name, *(row.cell(column) for column in section.key)), row


def _figures(row: ThreadRow | TableRow) -> tuple[object, ...]:
    if isinstance(row, TableRow):
        return row.numbers, {key: word for key, word in row.words.items() if key != "use"}
    return row.major, row.pitch, row.tpi, row.pitch_diameter, row.minor, row.length
