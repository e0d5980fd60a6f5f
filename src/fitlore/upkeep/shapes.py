"""Whether written graphs have the shapes that `kb/shapes.ttl` asks for, by pySHACL: a second opinion beside the typed walk.

The one door to rdflib and pySHACL, so that the books as an rdflib Dataset are made here too (`notebook` hands it on). They
are imported late: only who asks for shapes pays for them.
"""

from __future__ import annotations

import logging
from collections import defaultdict
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple
from urllib.parse import unquote

from fitlore.books.faults import Fault, fault, register
from fitlore.books.iris import BASE, BOOKS, SHAPES, TERMS
from fitlore.books.layout import books_of, builtin_kb
from fitlore.books.rdf import Quad, plain_triples, written_quads
from fitlore.books.reading import Reading, name_of, read_book
from fitlore.books.schema import KINDS
from fitlore.books.tree import Text, Triple
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin

if TYPE_CHECKING:
    import rdflib

register(
    [
        Fault(
            "S01-against-a-shape",
            Severity.ERROR,
            "A statement that goes against the shape of its record",
            "{record}: {found}",
            "{expected}",
            "write it as the shape `{shape}` of kb/shapes.ttl asks; the same fact in YAML is read with the exact place",
        ),
        Fault(
            "S02-in-other-words",
            Severity.NOTE,
            "A statement in the words of another vocabulary",
            "{record}: <{predicate}> is no key of books",
            "statements in the words of kb/vocabulary.ttl",
            "leave it where other programs want it; no answer uses it",
        ),
    ]
)

_RDF: Final = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
_ALWAYS: Final = frozenset({_RDF + "first", _RDF + "rest", _RDF + "type"})
_STRING: Final = "http://www.w3.org/2001/XMLSchema#string"
_NIL: Final = f"<{_RDF}nil>"
_HELD: Final = "urn:x-held:"
"""In front of the names of nodes, so that those of two books are never one."""
_KIND_OF: Final = {TERMS + kind: kind for kind in KINDS}
_STRUCT_KIND: Final = {struct: kind for kind, struct in KINDS.items()}


def dataset(folder: Path | None) -> rdflib.Dataset:
    """Every book of a knowledge base (None: the built-in shelf) as an rdflib Dataset: one named graph per book.

    The graphs hold what the books say and nothing else: the written statements, under the terms of `kb/vocabulary.ttl`.
    Records with faults are left out. Raises OSError where a book cannot be read.
    """
    import rdflib

    found = rdflib.Dataset()
    for book in books_of(folder):
        reading = read_book(book.shown, book.path.read_bytes(), book.graph_name)
        lines = "".join(f"{quad} .\n" for quad in written_quads(reading))
        found.parse(data=lines, format="nquads")
    return found


def holds_in_sparql(query: str, kind: str) -> bool | None:
    """Whether a query of SPARQL 1.1 holds a node of a kind (`ServiceGraphPattern`) at any depth; None where it is none.

    Escapes for characters are not resolved.
    """
    from rdflib.plugins.sparql.parser import QueryUnit
    from rdflib.plugins.sparql.parserutils import CompValue

    try:
        stack: list[object] = (
            list(QueryUnit.parse_string(query, parse_all=True)) if QueryUnit.matches(query) else []
        )
    except RecursionError:
        return None
    if not stack:
        return None
    while stack:
        one = stack.pop()
        if isinstance(one, CompValue):
            if one.name == kind:
                return True
            stack.extend(one.values())
        elif isinstance(one, Iterable) and not isinstance(one, str):
            stack.extend(one)
    return False


class _Book(NamedTuple):
    """A book's statements, and where its records stand, by kind and name."""

    shown: str
    triples: tuple[Triple, ...]
    origins: dict[tuple[str, str], Origin]


def validate(given: Iterable[Reading | Quad]) -> tuple[Diagnostic, ...]:
    """What goes against the shapes in the written graphs of books that were read, or in quads (a graph is a book).

    Each finding has the place of its record where that is known, else the book's name. Sorted by place.
    """
    books = list(_books(given))
    if not any(book.triples for book in books):
        return ()
    found = [one for book in books for one in _in_other_words(book)]
    found += _against(books)
    return tuple(sorted(set(found), key=lambda d: (d.origin, d.code, d.message, d.expected)))


def _books(given: Iterable[Reading | Quad]) -> Iterator[_Book]:
    graphs: dict[str, list[Quad]] = defaultdict(list)
    for one in given:
        if isinstance(one, Reading):
            places = {(_STRUCT_KIND[type(r)], name_of(r)): r.origin for r in reversed(one.records)}
            yield _Book(one.shown, tuple(plain_triples(written_quads(one))), places)
        else:
            graphs[getattr(one.graph_name, "value", "")].append(one)
    for name, quads in graphs.items():
        yield _Book(unquote(name.removeprefix(BOOKS)), tuple(plain_triples(quads)), {})


def _ours(predicate: str) -> bool:
    return predicate.startswith(BASE) or predicate in _ALWAYS


class _Records:
    """Which record a node of a book belongs to."""

    def __init__(self, book: _Book) -> None:
        self.book = book
        self.kinds = {
            t.subject: (_KIND_OF[t.predicate], t.object.value if isinstance(t.object, Text) else t.object)
            for t in book.triples
            if t.predicate in _KIND_OF
        }
        self.above = {
            t.object: t.subject for t in book.triples if isinstance(t.object, str) and _ours(t.predicate)
        }

    def record_of(self, node: str) -> tuple[str, Origin]:
        """What the record is called, and where it stands."""
        seen: set[str] = set()
        while node not in self.kinds and node in self.above and node not in seen:
            seen.add(node)
            node = self.above[node]
        if node not in self.kinds:
            return "a record without a kind", Origin(self.book.shown)
        kind, name = self.kinds[node]
        return f"the {kind} `{name}`", self.book.origins.get((kind, name), Origin(self.book.shown))


def _in_other_words(book: _Book) -> Iterator[Diagnostic]:
    """Foreign statements about our nodes."""
    ours = {t.subject for t in book.triples if t.predicate.startswith(BASE)}
    records = _Records(book)
    for triple in book.triples:
        if triple.subject in ours and not _ours(triple.predicate):
            record, origin = records.record_of(triple.subject)
            yield fault("S02-in-other-words", origin, record=record, predicate=triple.predicate)


def _against(books: list[_Book]) -> Iterator[Diagnostic]:
    """What pySHACL says of all books, held apart in one graph, so that the shapes are read once."""
    import pyshacl
    import rdflib

    with _quiet("rdflib.term"):
        data = _held(books)
        _, report, _ = pyshacl.validate(data, shacl_graph=_shapes(), advanced=True, inplace=True)
    if not isinstance(report, rdflib.Graph):
        raise TypeError(f"pySHACL gave no report: {report!r}")
    records = [_Records(book) for book in books]
    for result, about in _leaves(report):
        number, node = _own(about)
        yield _finding(report, result, records[number], node)


def _held(books: list[_Book]) -> rdflib.Graph:
    """All our statements in one graph, each record with its book's number."""
    import rdflib

    data = rdflib.Graph()
    for number, book in enumerate(books):
        for triple in filter(lambda one: _ours(one.predicate), book.triples):
            key = rdflib.URIRef(triple.predicate)
            data.add((_node(number, triple.subject), key, _thing(number, triple)))
        for node in _Records(book).kinds:
            data.add((_node(number, node), rdflib.URIRef(SHAPES + "book"), rdflib.Literal(str(number))))
    return data


@contextmanager
def _quiet(name: str) -> Iterator[None]:
    """Without the warnings of a library about values that the shapes are there to find."""
    logger = logging.getLogger(name)
    level = logger.level
    logger.setLevel(logging.ERROR)
    try:
        yield
    finally:
        logger.setLevel(level)


@cache
def _shapes() -> rdflib.Graph:
    import rdflib

    return rdflib.Graph().parse(builtin_kb() / "shapes.ttl", format="turtle")


def _node(number: int, node: str) -> rdflib.URIRef:
    """A node of a book under a name of its own; the end of a list is the same everywhere."""
    import rdflib

    return rdflib.URIRef(_NIL[1:-1] if node == _NIL else f"{_HELD}{number}:{node.strip('<>')}")


def _own(name: str) -> tuple[int, str]:
    """The book's number and the node of a name; a node has the brackets that it has in plain statements."""
    number, _, node = name.removeprefix(_HELD).partition(":")
    return int(number), node if node.startswith("_:") else f"<{node}>"


def _thing(number: int, triple: Triple) -> rdflib.URIRef | rdflib.Literal:
    import rdflib

    thing = triple.object
    if isinstance(thing, str):
        return _node(number, thing)
    if thing.language:
        return rdflib.Literal(thing.value, lang=thing.language)
    if thing.datatype == _STRING:
        return rdflib.Literal(thing.value)
    return rdflib.Literal(thing.value, datatype=rdflib.URIRef(thing.datatype), normalize=False)


def _leaves(report: rdflib.Graph) -> Iterator[tuple[rdflib.term.Node, str]]:
    """The results that have no more precise ones under them, each with the node it is about.

    The focus of an inner result may be a text; it is about the node that the outer one has.
    """
    import rdflib

    todo = [(result, "") for result in report.objects(None, rdflib.SH.result)]
    while todo:
        result, about = todo.pop()
        focus = str(report.value(result, rdflib.SH.focusNode))
        about = focus if focus.startswith(_HELD) else about
        inner = [(one, about) for one in report.objects(result, rdflib.SH.detail)]
        todo += inner
        if not inner:
            yield result, about


def _finding(report: rdflib.Graph, result: rdflib.term.Node, records: _Records, node: str) -> Diagnostic:
    import rdflib

    record, origin = records.record_of(node)
    path, value = report.value(result, rdflib.SH.resultPath), report.value(result, rdflib.SH.value)
    shape = report.value(result, rdflib.SH.sourceShape)
    component = str(report.value(result, rdflib.SH.sourceConstraintComponent)).removeprefix(str(rdflib.SH))
    key = str(path).rpartition("#")[2] if isinstance(path, rdflib.URIRef) else ""
    text = str(value) if isinstance(value, rdflib.Literal) else ""
    asked = _shapes().value(shape, rdflib.SH.message)
    return fault(
        "S01-against-a-shape",
        origin,
        record=record,
        found=_found(component, key, text),
        expected=str(asked) if asked else f"what the shape `{_name_of(shape)}` asks",
        shape=_name_of(shape),
    )


def _found(component: str, key: str, text: str) -> str:
    """What is wrong, by the constraint that is broken, the key and the text there (both may be unknown)."""
    by_count = {
        "MinCountConstraintComponent": f"`{key}` is missing",
        "MaxCountConstraintComponent": f"`{key}` is there more than once",
        "ClosedConstraintComponent": f"`{key}` is no key of it",
    }
    if key and component in by_count:
        return by_count[component]
    if text:
        return f"under `{key}` stands `{text}`" if key else f"`{text}` stands in it"
    return f"what stands under `{key}` is of another form" if key else "what it says does not go together"


def _name_of(shape: rdflib.term.Node | None) -> str:
    """The name of a shape, or of the one that a nameless one is in."""
    import rdflib

    todo, seen = [shape], set[object]()
    while todo:
        at = todo.pop(0)
        if isinstance(at, rdflib.URIRef):
            return str(at).removeprefix(SHAPES)
        if at is not None and at not in seen:
            seen.add(at)
            todo += list(_shapes().subjects(None, at))
    return ""
