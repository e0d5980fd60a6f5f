"""The smallest failing book of each rule, what is then said, and the page made of both."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from fitlore.books.faults import Fault, page, registered, shown
from fitlore.books.reading import read_book
from fitlore.graph.open import Graph
from fitlore.model.choices import How
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.record import Rec
from fitlore.upkeep import profile as profiles
from fitlore.upkeep import (
    rewriting,  # noqa: F401  (it registers its faults)
    rules,
)
from fitlore.upkeep.check import judged, profile_of, with_lines
from tests.upkeep import refusals
from tests.upkeep.standards import tables

FOLDER = Path(__file__).parent / "faults"
PAGE = Path(rules.__file__).parent / "errors.md"
TODAY = date(2026, 12, 3)
_NEXT = "# book: "


def rows() -> tuple[Fault, ...]:
    """Every fault that a rule can find."""
    rules.built_in()
    return registered("Q")


def refused() -> tuple[Fault, ...]:
    """Every fault that drafting, writing and taking back can find."""
    return (*registered("S"), *registered("T"), *registered("U"), *registered("A"), *registered("P"))


def books_in(text: str, shown_as: str = "shop/book.yaml") -> dict[str, str]:
    """The books of an example by their shown names: a line `# book: NAME` begins a further one."""
    first, *more = text.split(_NEXT)
    return {shown_as: first} | {one.partition("\n")[0]: _NEXT + one for one in more}


def graph_of(text: str, shown_as: str = "shop/book.yaml") -> Graph:
    """A graph of an example's books, which must be without a fault of their own; those on the shelf `friend` are not ours."""
    records: list[Rec] = []
    for shown_name, book in books_in(text, shown_as).items():
        reading = read_book(shown_name, book.encode(), f"test:{shown_name}")
        assert reading.diagnostics == (), reading.diagnostics
        records += reading.records
    graph = Graph.from_records(records, tables())
    graph.held = graph.held._replace(trust={"friend": How.TOLD})
    return graph


def found_in(text: str, asked_for: str = "") -> list[Diagnostic]:
    """What the rules find in an example as a shop sees it, and what the rule `asked_for` finds as the built-in shelf is held."""
    used = profile_of(None, profiles.find("shop", None))
    if asked_for in used.severities:
        severities = profile_of(None, profiles.find("built-in", None)).severities
        used = used._replace(severities=used.severities | {asked_for: severities[asked_for]})
    text_of = books_in(text).get
    found = judged(graph_of(text), TODAY, text_of=lambda shown: text_of(shown, ""))
    return sorted(used.applied(found), key=lambda d: (d.origin, d.code, d.message))


def diagnostics_of(code: str) -> tuple[Diagnostic, ...]:
    """What the rules say of the smallest failing book, with its lines."""
    text = (FOLDER / f"{code}.yaml").read_text("utf-8")
    return tuple(with_lines(found_in(text, code), lambda shown: books_in(text).get(shown, "")))


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
