"""The door to RDF: the written graph of a book, and books of Turtle, TriG, N-Triples, N-Quads and JSON-LD.

Nothing is ever fetched. A book of RDF goes through the same typed walk as YAML, so the same facts give the same records.
A graph has no order: what it cannot order is read in the order of the text, and no meaning hangs on that; the lists named
in `context.ORDERED` are lists of RDF.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os.path
import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from typing import Any, Final, TypeAlias

import pyoxigraph as ox

from fitlore.books import catalogue_rdf  # noqa: F401  (registers its faults)
from fitlore.books.context import book_json, context
from fitlore.books.doc import Tree
from fitlore.books.iris import CONTEXT
from fitlore.books.nodes import uncollected
from fitlore.books.raw import LONGEST_TEXT, TOO_LONG, Found, decode
from fitlore.books.reading import Reading, read_items, reading
from fitlore.books.spots import LABELLED, RdfSource
from fitlore.books.statements import Statement, json_items, line_statements, turtle_statements
from fitlore.books.tree import Forest, Text, Triple
from fitlore.books.walking import Walk

_FORMATS: Final = {
    ".ttl": ox.RdfFormat.TURTLE,
    ".trig": ox.RdfFormat.TURTLE,
    ".nt": ox.RdfFormat.N_TRIPLES,
    ".nq": ox.RdfFormat.N_QUADS,
    ".jsonld": ox.RdfFormat.JSON_LD,
}

Quad: TypeAlias = ox.Quad

_LABEL: Final = re.compile(r"_:([\w.\-\u00b7\u0300-\u036f\u203f\u2040]+)")


class _Parsed:
    """The statements of a book as they are parsed: quads in the book's graph, and the same as plain triples."""

    def __init__(self, graph_name: str, text: str) -> None:
        self.graph = ox.NamedNode(graph_name)
        self.mark = LABELLED + hashlib.sha256(graph_name.encode()).hexdigest()[:10]
        self.labels = {label.rstrip(".") for label in _LABEL.findall(text)}
        self.quads: list[ox.Quad] = []
        self.triples: list[Triple] = []
        self.found: list[Found] = []

    def add(self, quad: ox.Quad, piece: int) -> None:
        """Adds one statement; labels of blank nodes are made the book's own, whatever graph it named is dropped."""
        subject, thing = self._own(quad.subject), self._own(quad.object)
        self.quads.append(ox.Quad(subject, quad.predicate, thing, self.graph))
        self.triples.append(Triple(str(subject), quad.predicate.value, _plain(thing), piece))

    def _own(self, term: Any) -> Any:
        if isinstance(term, ox.BlankNode) and term.value in self.labels:
            return ox.BlankNode(f"{self.mark}{term.value}")
        return term


class RdfBook(RdfSource):
    """The places of a book of RDF, and its written graph."""

    quads: list[ox.Quad]


def read_rdf(shown: str, data: bytes, graph_name: str) -> Reading:
    """Reads a book of RDF by the ending of its name. Never raises for any bytes; an unknown ending raises KeyError."""
    ending = os.path.splitext(shown)[1].lower()  # noqa: PTH122  (a shown name is no path)
    raw = decode(data)
    parsed = _Parsed(graph_name, raw.text)
    with uncollected():
        statements = list(_statements(ending, raw.text, parsed))
        starts = [statement.start for statement in statements]
        spoilt = {bisect_right(starts, one.place) - 1 for one in raw.found}
        for piece, statement in enumerate(statements):
            if piece not in spoilt:
                _parse(statement, piece, _FORMATS[ending], parsed)
        source = RdfBook(shown, raw.text, statements, parsed.triples)
        for one in [*raw.found, *parsed.found]:
            source.report(one)
        return _read(source, parsed, graph_name)


def _read(source: RdfBook, parsed: _Parsed, graph_name: str) -> Reading:
    forest = Forest(parsed.triples)
    roots = sorted(forest.roots(), key=source.place_of)
    items: list[Tree] = []
    spoilt: set[int] = set()
    for place, root in enumerate(roots):
        before = len(forest.found)
        items.append(forest.tree(root))
        if len(forest.found) > before:
            spoilt.add(place)
    source.know(forest)
    walk = Walk(source)
    for one in forest.found:
        walk.add(one.code, source.key_of(one.node, one.key), **one.values)
    kept = read_items(walk, items, spoilt)
    good = {id(item) for item, _ in kept}
    left_out = [root for item, root in zip(items, roots, strict=True) if id(item) not in good]
    good_roots = [root for item, root in zip(items, roots, strict=True) if id(item) in good]
    source.quads = list(_without(parsed, left_out, good_roots))
    return reading(
        source.shown, graph_name, kept, [*source.found, *walk.diagnostics], source, source.more + walk.more
    )


def written_quads(book: Reading) -> list[ox.Quad]:
    """The written graph of a book: what the context makes of the records that were read, in the book's named graph.

    Of a book of RDF these are its own statements, without those of records that have faults.
    """
    if isinstance(book.source, RdfBook):
        return book.source.quads
    graph = ox.NamedNode(book.graph_name)
    if not book.items:
        return []
    parsed = ox.parse(book_json(book.items), ox.RdfFormat.JSON_LD)
    return [ox.Quad(quad.subject, quad.predicate, quad.object, graph) for quad in parsed]


def written_statements(book: Reading) -> list[str]:
    """The written graph of a book as `subject predicate object` of N-Triples each, without dot; the graph is not named."""
    if not isinstance(book.source, RdfBook):
        from fitlore.books.written import Unusual, statements

        with contextlib.suppress(Unusual):
            return statements(book.items, book.graph_name)
    return [str(quad.triple) for quad in written_quads(book)]


def plain_triples(quads: Iterable[Quad]) -> Iterator[Triple]:
    """Quads as plain statements, for rooms that know no library of RDF; which graph they were in is dropped."""
    return (Triple(str(quad.subject), quad.predicate.value, _plain(quad.object), 0) for quad in quads)


def _longest(quad: ox.Quad) -> int:
    """Characters of the longest text or address in a statement, as the reader of YAML counts them."""
    return max(len(getattr(term, "value", "")) for term in (quad.subject, quad.predicate, quad.object))


def _without(parsed: _Parsed, left_out: list[str], kept: list[str]) -> Iterator[ox.Quad]:
    """The quads without those that only records with faults lead to."""
    inside: dict[str, list[str]] = {}
    for triple in parsed.triples:
        if isinstance(triple.object, str):
            inside.setdefault(triple.subject, []).append(triple.object)
    good = _reached(kept, inside)
    bad = _reached(left_out, inside) - good
    for quad, triple in zip(parsed.quads, parsed.triples, strict=True):
        if triple.subject not in bad:
            yield quad


def _reached(roots: Iterable[str], inside: dict[str, list[str]]) -> set[str]:
    todo, seen = list(roots), set[str]()
    while todo:
        node = todo.pop()
        if node not in seen:
            seen.add(node)
            todo += inside.get(node, ())
    return seen


def _statements(ending: str, text: str, parsed: _Parsed) -> Iterable[Statement]:
    if ending == ".jsonld":
        return _json_statements(text, parsed)
    if ending in (".nt", ".nq"):
        return line_statements(text)
    return turtle_statements(text, graphs=ending == ".trig")


def _json_statements(text: str, parsed: _Parsed) -> Iterator[Statement]:
    """Every top-level item with the context it stands under; our own context is put in, no other is fetched."""
    cut = json_items(text)
    parsed.found += [Found(one.code, one.at, 1, one.values) for one in cut.found]
    if any(one.code == "B98-json-key-twice" for one in cut.found):
        return
    shared, strange = _known_context(cut.context)
    heads: dict[tuple[int, ...], str] = {}
    for item, at in cut.items:
        own: Any = None
        if isinstance(item, dict) and "@context" in item:
            own, more = _known_context(item["@context"])
            strange = [*strange, *more]
            item = {key: value for key, value in item.items() if key != "@context"}
        both = [one for one in (shared, own if own is not shared else None) if one is not None]
        if not strange:
            key = tuple(map(id, both))
            heads[key] = heads.get(key) or f'{{"@context": {json.dumps(both)}, "@graph": ['
            yield Statement(json.dumps(item), at, heads[key])
    for iri in dict.fromkeys(strange):
        parsed.found.append(Found("B91-strange-context", max(0, text.find(iri)), len(iri), {"iri": iri}))


def _known_context(given: Any) -> tuple[Any, list[str]]:
    """A context with ours put in for its address, and the addresses of others."""
    if given == CONTEXT:
        return context(), []
    if isinstance(given, str):
        return None, [given]
    if isinstance(given, list):
        rows = [_known_context(one) for one in given]
        return [row[0] for row in rows], [iri for row in rows for iri in row[1]]
    return given, []


def _parse(statement: Statement, piece: int, form: ox.RdfFormat, parsed: _Parsed) -> None:
    """Parses one statement. A fault is reported at its place, and what stood before it in the statement is dropped."""
    end = "]}" if form == ox.RdfFormat.JSON_LD else ""
    try:
        quads = list(ox.parse(statement.prefixes + statement.text + end, form))
    except MemoryError:  # the reader's own limit for one word
        parsed.found.append(Found("B90-not-rdf", statement.start, 1, {"problem": TOO_LONG}))
        return
    except SyntaxError as error:
        place, width = _error_place(error, statement)
        problem = str(error.args[0]).partition(": ")[2] or str(error.args[0])
        if form == ox.RdfFormat.JSON_LD:
            place, width = statement.start, 1
        parsed.found.append(Found("B90-not-rdf", place, width, {"problem": problem}))
        return
    problem = ""
    if any(isinstance(quad.object, ox.Triple) for quad in quads):
        problem = "a statement about a statement has no place in a book"
    elif len(statement.text) > LONGEST_TEXT and any(_longest(quad) > LONGEST_TEXT for quad in quads):
        problem = TOO_LONG
    if problem:
        parsed.found.append(Found("B90-not-rdf", statement.start, 1, {"problem": problem}))
        return
    for quad in quads:
        parsed.add(quad, piece)


def _error_place(error: SyntaxError, statement: Statement) -> tuple[int, int]:
    """The index in the book of a parser's line and column, which count from the prefixes put in front."""
    details: tuple[Any, ...] = next(iter(error.args[1:]), ())
    line, column, last = (details[1], details[2], details[5]) if len(details) == 6 else (None, None, None)
    if not isinstance(line, int) or not isinstance(column, int):
        return statement.start, 1
    whole = statement.prefixes + statement.text
    lines = whole.split("\n")
    at = sum(len(one) + 1 for one in lines[: line - 1]) + column - 1 - len(statement.prefixes)
    width = last - column if isinstance(last, int) and details[4] == line else 1
    return statement.start + min(max(0, at), max(0, len(statement.text) - 1)), max(1, width)


def _plain(term: Any) -> str | Text:
    if isinstance(term, ox.Literal):
        return Text(term.value, term.language or "", term.datatype.value)
    return str(term)
