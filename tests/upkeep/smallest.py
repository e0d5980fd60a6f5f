"""The smallest failing book of each rule, what is then said, and the page made of both."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from fitlore.books.faults import Fault, page, registered, shown
from fitlore.books.reading import read_book
from fitlore.graph.open import Graph
from fitlore.model.diagnostic import Diagnostic
from fitlore.upkeep import rules
from fitlore.upkeep.check import judged, with_lines
from tests.upkeep import refusals
from tests.upkeep.standards import tables

FOLDER = Path(__file__).parent / "faults"
PAGE = Path(rules.__file__).parent / "errors.md"
TODAY = date(2026, 12, 3)


def rows() -> tuple[Fault, ...]:
    """Every fault that a rule can find."""
    rules.built_in()
    return registered("Q")


def refused() -> tuple[Fault, ...]:
    """Every fault that drafting, writing and taking back can find."""
    return (*registered("U"), *registered("A"))


def graph_of(text: str, shown_as: str = "shop/book.yaml") -> Graph:
    """A graph of one book, which must be without a fault of its own, and of nothing else."""
    reading = read_book(shown_as, text.encode(), "test:book")
    assert reading.diagnostics == (), reading.diagnostics
    return Graph.from_records(reading.records, tables())


def diagnostics_of(code: str) -> tuple[Diagnostic, ...]:
    """What the rules say of the smallest failing book, with its lines."""
    text = (FOLDER / f"{code}.yaml").read_text("utf-8")
    found = sorted(judged(graph_of(text), TODAY), key=lambda d: (d.origin, d.code, d.message))
    return tuple(with_lines(found, lambda _: text))


def said_of(code: str) -> str:
    """The golden text of a fault."""
    found = refusals.diagnostics_of(code) if code in refusals.ATTEMPTS else diagnostics_of(code)
    return "\n".join(map(shown, found)) + "\n"


def example_of(code: str) -> str:
    """The smallest failing book, or attempt."""
    if code in refusals.ATTEMPTS:
        return refusals.example_of(code)
    return (FOLDER / f"{code}.yaml").read_text("utf-8")


def page_text() -> str:
    """The page as it must be committed."""
    every = (*rows(), *refused())
    return page(every, {row.code: (example_of(row.code), said_of(row.code)) for row in every})


def renew() -> None:
    """Writes all golden texts and the page anew; look at the difference before you commit it."""
    for row in (*rows(), *refused()):
        (FOLDER / f"{row.code}.txt").write_text(said_of(row.code), "utf-8")
    PAGE.write_text(page_text(), "utf-8")


if __name__ == "__main__":
    renew()
