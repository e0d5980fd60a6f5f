"""The built-in thread tables, read with a plain loader, so that these tests need no other room."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

import yaml

from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.trade.standards import Standards, standards_from
from fitlore.trade.threads import Thread, Unreadable, read

TABLE = Path(__file__).resolve().parents[2] / "kb/standards/threads.yaml"
DATA = Path(__file__).parent / "data"


def rows(text: str, book: str = "kb/standards/threads.yaml") -> Iterator[tuple[str, dict[str, str], Origin]]:
    """Every row of a table file as text, with its section and place; every scalar is text."""
    tree = yaml.compose(text, Loader=yaml.BaseLoader)
    for section, listed in tree.value:
        for row in listed.value if isinstance(listed, yaml.SequenceNode) else ():
            mark = row.start_mark
            fields = {key.value: value.value for key, value in row.value}
            yield section.value, fields, Origin(book, mark.line + 1, mark.column + 1)


def load() -> tuple[Standards, list[Diagnostic]]:
    """The built-in tables and what is wrong with them."""
    return standards_from(rows(TABLE.read_text(encoding="utf-8")))


def load_every() -> tuple[Standards, list[Diagnostic]]:
    """All built-in tables of standards and what is wrong with them."""
    files = sorted(TABLE.parent.glob("*.yaml"))
    return standards_from(
        row for file in files for row in rows(file.read_text(encoding="utf-8"), f"kb/standards/{file.name}")
    )


STANDARDS, PROBLEMS = load()


def thread(text: str) -> Thread:
    """A designation that has to be readable."""
    found = read(text, STANDARDS)
    assert isinstance(found, Thread), found
    return found


def refused(text: str) -> Unreadable:
    """A designation that has to be refused."""
    found = read(text, STANDARDS)
    assert isinstance(found, Unreadable), found
    return found


def table(name: str) -> list[dict[str, str]]:
    """A data file of these tests, a dictionary a line."""
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))
