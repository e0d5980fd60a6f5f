"""The shop's books in forms of RDF: what the context makes of their text, statement for statement, always in one order."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from fitlore.books.context import ORDERED, context
from fitlore.books.doc import Tree
from fitlore.books.layout import BUILT_IN, ENDINGS, books_on, graph_name, read_layout
from fitlore.books.rdf import plain_triples, written_quads
from fitlore.books.reading import Reading, read_book
from fitlore.books.tree import Triple
from fitlore.books.turtle import as_lines, as_trig, as_turtle
from fitlore.model.diagnostic import Diagnostic, Severity

FORMS: Final = {
    "turtle": ".ttl",
    "trig": ".trig",
    "n-triples": ".nt",
    "n-quads": ".nq",
    "json-ld": ".jsonld",
}
"""The forms of RDF by name, and how the names of books of each end."""


class NotExported(Exception):
    """Books with errors are not exported: what is wrong in them would be missing from the export without a word."""

    def __init__(self, diagnostics: tuple[Diagnostic, ...]) -> None:
        super().__init__(f"{len(diagnostics)} errors, the first at {diagnostics[0].origin}")
        self.diagnostics = diagnostics


def export(folder: Path, form: str) -> bytes:
    """The shop's own books (`folder` is where fitlore.yaml is) as one document: UTF-8, the same bytes for the same facts.

    TriG and N-Quads keep each book as the named graph it has in fitlore's own store; in the other forms all books are one
    graph. Raises KeyError for a form that is none of `FORMS`, NotExported where fitlore.yaml or a book has an error, OSError
    where one cannot be read.
    """
    _known(form)
    layout = read_layout(folder)
    _refuse(layout.diagnostics)
    own = [book for book in books_on(layout) if book.shelf != BUILT_IN]
    readings = [read_book(book.shown, book.path.read_bytes(), book.graph_name) for book in own]
    return in_form(readings, form)


def export_shelf(folder: Path, target_folder: Path, form: str) -> tuple[Path, ...]:
    """Writes each book below a shelf's folder anew below another folder: same name, the form's ending, same order.

    Comments and quotes are lost; no fact is. Nothing that exists is overwritten. Raises KeyError for an
    unknown form, NotExported where a book has an error, FileExistsError where two books would have one name or the
    target has such a file already; then nothing is written. OSError where a file cannot be read or written.
    """
    ending = _known(form)
    written: dict[Path, bytes] = {}
    for path in _books_below(folder):
        inside = path.relative_to(folder)
        reading = read_book(
            inside.as_posix(), path.read_bytes(), graph_name(inside.with_suffix("").as_posix())
        )
        target = target_folder / inside.with_suffix(ending)
        if target in written or target.exists():
            raise FileExistsError(f"there is a {target} already")
        written[target] = in_form([reading], form, in_order=True)
    for target, data in written.items():
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    return tuple(written)


def in_form(readings: Iterable[Reading], form: str, *, in_order: bool = False) -> bytes:
    """Books that were read, as one document, sorted or in the order of their texts.

    Raises KeyError for an unknown form, NotExported where a book has an error.
    """
    _known(form)
    books = tuple(readings)
    _refuse(d for book in books for d in book.diagnostics)
    if form == "json-ld":
        return _json(books, in_order).encode()
    whole: list[Triple] = []
    graphs: dict[str, list[Triple]] = defaultdict(list)
    for book in books:
        triples = list(plain_triples(written_quads(book)))
        whole += triples
        graphs[book.graph_name] += triples
    if form == "trig":
        return as_trig(graphs, in_order=in_order).encode()
    if form == "n-quads":
        return as_lines(graphs, in_order=in_order).encode()
    if form == "turtle":
        return as_turtle(whole, in_order=in_order).encode()
    return as_lines({"": whole}, in_order=in_order).encode()


def _refuse(diagnostics: Iterable[Diagnostic]) -> None:
    wrong = tuple(d for d in diagnostics if d.severity is Severity.ERROR)
    if wrong:
        raise NotExported(wrong)


def _json(books: tuple[Reading, ...], in_order: bool) -> str:
    """All records as one JSON-LD document with its context inside, a record a line; statements of others are left out."""
    items = [item for book in books for item in book.items]
    if in_order:
        lines = [json.dumps(item, ensure_ascii=False) for item in items]
    else:
        lines = sorted(json.dumps(_sorted(item), ensure_ascii=False, sort_keys=True) for item in items)
    head = json.dumps(context(), ensure_ascii=False, sort_keys=True)
    records = ",\n".join(lines)
    return f'{{"@context": {head},\n"@graph": [\n{records}\n]}}\n'


def _sorted(tree: Tree, key: str = "") -> Tree:
    """The same tree with its lists in one order, but for those whose order means something."""
    if isinstance(tree, dict):
        return {name: _sorted(inner, name) for name, inner in tree.items()}
    if isinstance(tree, list):
        items = [_sorted(inner) for inner in tree]
        return items if key in ORDERED else sorted(items, key=lambda one: json.dumps(one, sort_keys=True))
    return tree


def _known(form: str) -> str:
    """The ending of a form. Raises KeyError with the forms there are."""
    if form not in FORMS:
        raise KeyError(f"no form {form!r}; there are {', '.join(FORMS)}")
    return FORMS[form]


def _books_below(folder: Path) -> list[Path]:
    """The books of a shelf's folder, as `books.layout` finds them: what begins with a dot is none."""
    return sorted(
        path
        for path in folder.rglob("*")
        if path.suffix.lower() in ENDINGS
        and not any(part.startswith(".") for part in path.relative_to(folder).parts)
        and path.is_file()
    )
