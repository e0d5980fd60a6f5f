"""Are the books sound: what reading found, and what the rules find, in the order of the books."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.books.faults import Fault, fault, registered, stretch
from fitlore.books.layout import books_of
from fitlore.books.pinpoint import TextOf, no_text, texts_of
from fitlore.books.reading import YAML_ENDINGS, Reading, read_book
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.upkeep import (
    catalogue,  # noqa: F401  (it registers the faults)
    on_categories,
    on_claims,
    on_features,
    on_order,
    on_policy,
    on_sizes,
    on_words,
    profile,
    rules,
    shapes,
)
from fitlore.upkeep.knowing import Known

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

REASONED = (
    *on_claims.RULES,
    *on_words.RULES,
    *on_order.RULES,
    *on_sizes.RULES,
    *on_categories.RULES,
    *on_features.RULES,
    *on_policy.RULES,
)
"""The rules that are written in Python."""


def _silent(text: str) -> None:
    """Tells nobody."""


class Ask(NamedTuple):
    """What else may be said of a check."""

    profile: Path | None = None
    """The file of the profile; None: the shop's own, or the usual one."""
    shapes: bool = False
    """Whether books of YAML are held against the shapes too."""
    tell: Callable[[str], None] = _silent
    """Told what is being done, for who waits."""


def check(
    graph: Graph, today: date, folder: Path | None = None, ask: Ask | None = None
) -> tuple[Diagnostic, ...]:
    """Everything that is wrong with a knowledge base, as of a day; sorted by book, line, column, code.

    With the shop's `folder` its own rules (`rules/*.rq`) and its own profile run too, and every finding shows the line it is
    about. Raises OSError where a profile cannot be read.
    """
    ask = ask or Ask()
    ask.tell("asking the rules ...")
    used = profile_of(folder, ask.profile)
    text_of = texts_of(folder)
    judgements = list(judged(graph, today, folder, text_of))
    readings = _for_shapes(folder, everything=ask.shapes)
    if readings:
        ask.tell(f"holding {len(readings)} books against the shapes ...")
        judgements += shapes.validate(readings)
    found = {*graph.diagnostics, *used.diagnostics, *used.applied(judgements)}
    kept = sorted(found, key=lambda d: (d.origin, d.code, d.message))
    return tuple(with_lines(kept, text_of))


def profile_of(folder: Path | None, path: Path | None) -> profile.Profile:
    """The profile in a file, or the one that holds where none is named. Raises OSError."""
    path = path or profile.find("", folder)
    assert path is not None
    own = folder is not None and path == folder / profile.OWN
    return profile.read(path, profile.OWN if own else path.name, [row.code for row in every(folder)])


def every(folder: Path | None = None) -> tuple[Fault, ...]:
    """Every rule there is, by name: those in SPARQL, those in Python, those of the shapes, and the shop's own."""
    rules.built_in()
    own = []
    for path in rules.own_files(folder) if folder else ():
        with contextlib.suppress(rules.BadRule):  # told when it is run
            own.append(rules.read_rule(path).fault)
    return (*registered("Q"), *registered("S"), *own)


def _for_shapes(folder: Path | None, *, everything: bool) -> list[Reading]:
    """The books that are held against the shapes: those of RDF, or all. One that cannot be read is told already."""
    found = []
    for book in books_of(folder):
        if everything or book.path.suffix.lower() not in YAML_ENDINGS:
            with contextlib.suppress(OSError):
                found.append(read_book(book.shown, book.path.read_bytes(), book.graph_name))
    return found


def judged(
    graph: Graph, today: date, folder: Path | None = None, text_of: TextOf = no_text
) -> Iterator[Diagnostic]:
    """What the rules find, each as bad as it was written; `text_of` gives the books' texts, for the lines of single values."""
    for rule in rules.built_in():
        yield from rules.run(graph, rule)
    for path in rules.own_files(folder) if folder else ():
        yield from _own(graph, path)
    known = Known(graph, today, text_of)
    for reasoned in REASONED:
        yield from reasoned(known)


def _own(graph: Graph, path: Path) -> list[Diagnostic]:
    """What a rule of the shop's own finds, or that it is none."""
    try:
        return list(rules.run(graph, rules.read_rule(path)))
    except rules.BadRule as error:
        return [fault("U14-not-a-rule", Origin(f"{rules.OWN}/{path.name}"), why=str(error))]


def with_lines(found: Iterable[Diagnostic], text_of: TextOf) -> Iterator[Diagnostic]:
    """The same, each with the text of its line; `text_of` gives a shown book's text, empty where it cannot be had."""
    lines: dict[str, list[str]] = {}
    for one in found:
        book = one.origin.book
        if book not in lines:
            lines[book] = text_of(book).replace("\r\n", "\n").replace("\r", "\n").split("\n")
        if not one.excerpt and 0 < one.origin.line <= len(lines[book]):
            text = lines[book][one.origin.line - 1]
            first, last = stretch(0, len(text), max(0, one.origin.column - 1))
            width = max(1, last - max(0, one.origin.column - 1))
            one = msgspec.structs.replace(one, excerpt=text[first:last], width=width, cut=first)
        yield one
