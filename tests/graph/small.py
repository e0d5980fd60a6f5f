"""The small knowledge base of the tests: a shop of its own with two platforms, in `shop/` beside this file."""

from __future__ import annotations

import shutil
from pathlib import Path

from fitlore.books.reading import read_book
from fitlore.graph.open import Graph
from fitlore.model.job import Shop
from fitlore.model.record import Name, Rec

SHOP = Path(__file__).with_name("shop")
PLATFORM = "kestin-tolland"


def records() -> list[Rec]:
    """Every record of the small shop's books; a fault in them is an error of the test."""
    found: list[Rec] = []
    for shelf, folder in (("shop", "books"), ("club", "club")):
        for path in sorted((SHOP / folder).glob("*.yaml")):
            shown = f"{shelf}/{path.name}"
            reading = read_book(shown, path.read_bytes(), f"test:{shown}")
            assert reading.diagnostics == ()
            found += reading.records
    return found


def graph() -> Graph:
    """The small shop as a graph in memory, with no tables of standards."""
    return Graph.from_records(records(), shop=Shop(shop=Name("lowbarn"), country="GB"))


def copy_to(folder: Path) -> Path:
    """A copy of the small shop to change, with times long past."""
    shutil.copytree(SHOP, folder / "lowbarn")
    return folder / "lowbarn"
