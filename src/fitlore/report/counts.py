"""How much the books know, in words and columns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitlore.graph.asking import BUILTIN
from fitlore.report.text import Line, Tone, columns, listed, tied
from fitlore.upkeep.counts import Counts, InBook

_SYSTEMS = f"{BUILTIN}/categories/"


def counts_lines(counts: Counts) -> list[Line]:
    """What was counted first, then a line for each book, then what they say in all."""
    besides = [shelf for shelf in counts.shelves if shelf != BUILTIN]
    whose = f"the built-in shelf and {listed(besides)}" if besides else "the built-in shelf"
    records = {what: n for what, n in counts.records.items() if n}
    lines = [
        Line(whose, "head"),
        Line(
            f"  {counts.categories:,} kinds of part, {counts.narrowest:,} of them with none narrower;"
            f" at most {counts.deepest} deep",
            hang=2,
        ),
    ]
    if records:
        lines.append(Line(f"  besides: {_tally(records)}", hang=4))
    return [*lines, *_of_books(counts.books), *_of_words(counts), *_of_features(counts), *_of_leaves(counts)]


def _of_books(books: Sequence[InBook]) -> list[Line]:
    head = ("", "kinds", "narrowest", "deep", "names", "features", "faults")
    rows = [
        (_name(book.book), *(f"{figure:,}" for figure in book[1:]))
        for book in sorted(books, key=lambda b: b.book)
    ]
    return _table([head, *rows])


def _of_words(counts: Counts) -> list[Line]:
    head = ("by language", "name", "further")
    tags = sorted({*counts.names, *counts.further_names})
    rows = [(tag, f"{counts.names.get(tag, 0):,}", f"{counts.further_names.get(tag, 0):,}") for tag in tags]
    friends = Line(f"  words that say something else elsewhere: {counts.false_friends:,}", hang=4)
    return [*_table([head, *rows]), friends]


def _of_features(counts: Counts) -> list[Line]:
    used = {kind: n for kind, n in counts.families.items() if n}
    unused = sorted(kind for kind, n in counts.families.items() if not n)
    lines = [
        Line(
            f"features: {counts.features:,} written, {counts.features_with_inherited:,} with what is inherited",
            "head",
        ),
        Line(f"  role: {_tally(counts.roles)}", hang=4),
        Line(f"  as sizes: {_tally(counts.sizes)}", hang=4),
        Line(f"  as words: {_tally(counts.words)}", hang=4),
        Line(
            f"  by standards, {len(used)} families of {len(counts.families)}: {_tally(used)}",
            hang=4,
        ),
    ]
    return [*lines, Line(f"  no feature uses: {', '.join(unused)}", "dim", hang=4)] if unused else lines


def _of_leaves(counts: Counts) -> list[Line]:
    return [
        Line(f"of the {counts.narrowest:,} kinds with none narrower", "head"),
        Line(f"  safety: {_tally(counts.safety)}", hang=4),
        Line(f"  sides: {_tally(counts.sides)}", hang=4),
        Line(f"  always new: {counts.always_new:,}; used ones: {_tally(counts.used)}", hang=4),
        Line(f"  renewed: {_tally(counts.renew)}", hang=4),
        Line("written in all", "head"),
        Line(f"  {_tally(counts.texts)}", hang=4),
    ]


def _tally(found: Mapping[str, int]) -> str:
    return ", ".join(tied(f"{what} {number:,}") for what, number in found.items()) or "none"


def _table(rows: Sequence[Sequence[str]]) -> list[Line]:
    """The first row is the head; figures stand under figures."""
    tones: list[Tone] = ["plain" if number else "head" for number in range(len(rows))]
    inset = [(f"  {row[0]}" if number else row[0], *row[1:]) for number, row in enumerate(rows)]
    last = max(len(row[-1]) for row in inset)
    squared = [(*row[:-1], row[-1].rjust(last)) for row in inset]
    return columns(squared, tones, "l" + "r" * (len(rows[0]) - 2))


def _name(book: str) -> str:
    """A book of the built-in shelf by its system, another one as it is shown."""
    return book.removeprefix(_SYSTEMS).removesuffix(".yaml") if book.startswith(_SYSTEMS) else book
