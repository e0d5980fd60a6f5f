"""The small shop of the tests, to be copied and changed; it stands without the built-in shelf."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

from fitlore.books.layout import BUILT_IN, books_of, read_layout
from fitlore.books.reading import read_book
from fitlore.graph.open import Graph
from fitlore.graph.trust import capped
from fitlore.model.choices import How
from fitlore.model.dates import read_period
from fitlore.model.part import CrossFit, Evidence
from fitlore.model.record import Name, Number, Rec
from fitlore.upkeep.addition import Addition
from fitlore.upkeep.draft import Draft, draft
from tests.upkeep.standards import tables

SHOP = Path(__file__).with_name("shop")
TODAY = date(2026, 12, 3)


def copy_to(folder: Path) -> Path:
    """A copy of the shop."""
    return Path(shutil.copytree(SHOP, folder / "lowbarn"))


def graph_at(folder: Path) -> Graph:
    """The shop's books as a graph in memory; a fault in them is an error of the test."""
    records: list[Rec] = []
    for book in books_of(folder):
        if book.shelf != BUILT_IN:
            reading = read_book(book.shown, book.path.read_bytes(), book.graph_name)
            assert reading.diagnostics == (), reading.diagnostics
            records += [capped(record, book.trust) for record in reading.records]
    layout = read_layout(folder)
    graph = Graph.from_records(records, tables(), layout.shop)
    trust = {shelf.shelf: shelf.trust for shelf in layout.shelves if shelf.trust}
    shelves = tuple(str(shelf.shelf) for shelf in layout.shelves)
    return Graph(graph.facts, graph.held._replace(shelves=shelves, trust=trust))


def draft_at(folder: Path, addition: Addition) -> Draft:
    """An addition worked out against the shop as it is."""
    return draft(graph_at(folder), addition, folder, today=TODAY)


def piece(how: How = How.FITTED, by: str = "shop", day: str = "2026-12-02", note: str = "") -> Evidence:
    """A piece of evidence."""
    return Evidence(how=how, by=by, date=read_period(day), note=note)


def claim(name: str, for_: str, use: str, *evidence: Evidence, **more: object) -> CrossFit:
    """A claim of one part for another."""
    return CrossFit(
        crossfit=Name(name),
        instead_of=Number(for_),
        use=Number(use),
        evidence=evidence,
        **more,  # type: ignore[arg-type]
    )


def bytes_of(folder: Path) -> dict[str, bytes]:
    """Every file of the shop but lock files and the journal."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not any(part.startswith(".") for part in path.relative_to(folder).parts)
    }
