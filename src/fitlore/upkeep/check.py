"""Are the books sound: what reading found, and what the rules find, in the order of the books."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from fitlore.books.faults import fault
from fitlore.books.layout import books_of
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.upkeep import catalogue, on_claims, on_order, on_words, rules  # noqa: F401  (the catalogue registers faults)
from fitlore.upkeep.knowing import Known

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

REASONED = (*on_claims.RULES, *on_words.RULES, *on_order.RULES)
"""The rules that are written in Python."""


def check(graph: Graph, today: date, folder: Path | None = None) -> tuple[Diagnostic, ...]:
    """Everything that is wrong with a knowledge base, as of a day; sorted by book, line, column, code.

    With the shop's `folder` its own rules (`rules/*.rq`) run too, and every finding shows the line it is about.
    """
    found = {*graph.diagnostics, *judged(graph, today, folder)}
    kept = sorted(found, key=lambda d: (d.origin, d.code, d.message))
    return tuple(with_lines(kept, _on_disk(folder)) if folder else kept)


def judged(graph: Graph, today: date, folder: Path | None = None) -> Iterator[Diagnostic]:
    """What the rules find."""
    for rule in rules.built_in():
        yield from rules.run(graph, rule)
    for path in rules.own_files(folder) if folder else ():
        yield from _own(graph, path)
    known = Known(graph, today)
    for reasoned in REASONED:
        yield from reasoned(known)


def _own(graph: Graph, path: Path) -> list[Diagnostic]:
    """What a rule of the shop's own finds, or that it is none."""
    try:
        return list(rules.run(graph, rules.read_rule(path)))
    except rules.BadRule as error:
        return [fault("U14-not-a-rule", Origin(f"{rules.OWN}/{path.name}"), why=str(error))]


def with_lines(found: Iterable[Diagnostic], text_of: Callable[[str], str]) -> Iterator[Diagnostic]:
    """The same, each with the text of its line; `text_of` gives a shown book's text, empty where it cannot be had."""
    lines: dict[str, list[str]] = {}
    for one in found:
        book = one.origin.book
        if book not in lines:
            lines[book] = text_of(book).replace("\r\n", "\n").replace("\r", "\n").split("\n")
        if not one.excerpt and 0 < one.origin.line <= len(lines[book]):
            text = lines[book][one.origin.line - 1]
            width = max(1, len(text) - max(0, one.origin.column - 1))
            one = msgspec.structs.replace(one, excerpt=text, width=width)
        yield one


def _on_disk(folder: Path) -> Callable[[str], str]:
    paths = {book.shown: book.path for book in books_of(folder)}

    def text_of(shown: str) -> str:
        try:
            return paths[shown].read_text("utf-8-sig", errors="replace") if shown in paths else ""
        except OSError:
            return ""

    return text_of
