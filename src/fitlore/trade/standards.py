"""The value that holds all tables of published standards, and the one function that makes it from rows of text.

`books` reads `kb/standards/*.yaml` (and a shop's own rows) and calls `standards_from`; the snapshot keeps the value as
msgpack; everybody above gets it from the opened graph and passes it on. Nothing here reads a file.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.trade.rows import BadRow, Certainty, Row
from fitlore.trade.thread.rows import SECTIONS, Family, ThreadRow, thread_row

__all__ = ["Certainty", "Family", "Row", "Standards", "ThreadRow", "standards_from"]


class Standards(msgspec.Struct, frozen=True, omit_defaults=True):
    """Every table, one field per family of standards."""

    threads: tuple[ThreadRow, ...] = ()


def standards_from(
    sections: Iterable[tuple[str, Mapping[str, str], Origin]],
) -> tuple[Standards, list[Diagnostic]]:
    """Make the tables from rows of text: (section, row, where it is written) for every row of every table file.

    The section is the top-level key the row stands under (`metric-fine`, `UNF` ...); a file name in front of it
    (`threads/UNF`) is ignored, and so is everything under `meta`. A row that cannot be used is left out and told in the
    list; a row that says again what an earlier one said is left out in silence. Nothing raises.
    """
    threads: dict[tuple[object, ...], ThreadRow] = {}
    problems: list[Diagnostic] = []
    for named, text, origin in sections:
        section = named.rpartition("/")[2]
        if section == "meta":
            continue
        try:
            row = _row(section, text, origin)
            known = threads.setdefault(row.identity, row)
            if _figures(known) != _figures(row):
                raise BadRow(
                    "table-twice",
                    f"other figures than in {known.origin}",
                    "one row per size",
                    "keep one of them",
                )
        except BadRow as fault:
            problems.append(fault.at(origin))
    return Standards(threads=tuple(threads.values())), problems


def _row(section: str, text: Mapping[str, str], origin: Origin) -> ThreadRow:
    if section not in SECTIONS:
        raise BadRow(
            "table-section", f"no family reads the section {section}", ", ".join(SECTIONS), "use one of these"
        )
    return thread_row(section, text, origin)


def _figures(row: ThreadRow) -> tuple[object, ...]:
    return row.major, row.pitch, row.tpi, row.pitch_diameter, row.minor, row.length
