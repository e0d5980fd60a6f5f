"""The only door to the triple store: embedded stores with layers over them, asked by named queries, and their writer."""

from __future__ import annotations

import functools
import itertools
import os
import re
from collections.abc import Callable, Collection, Iterable, Iterator
from typing import TYPE_CHECKING, Final, NamedTuple, TypeAlias

import pyoxigraph as ox

from fitlore.graph.named import nodes_text, query_text, with_rows
from fitlore.graph.page import Page

if TYPE_CHECKING:
    from pathlib import Path

    from fitlore.graph.derive import Node

DERIVED: Final = "#derived"
"""A book's derived graph is named after the book's own graph, with this behind it."""
SPARE: Final = ".w"
"""Beginning of the names of folders for copies that live as long as a process."""
MOST_ROWS: Final = 500
"""Rows of a VALUES block; more are asked in several queries."""

VERSION: Final = ox.__version__
"""The store's version; another one may not read what this one wrote."""
Quad: TypeAlias = ox.Quad
_LONG: Final = 2_000_000
"""Characters of one statement; the parser takes no more than some sixteen million bytes."""
_FEW: Final = 1000
"""Statements that may always be taken out one by one (more only where three in four of their graph stay), and subjects."""
PIECE: Final = 500_000
"""Statements that are loaded at one go: all that are is held in memory until it is written."""


class Row(NamedTuple):
    """One answer to a named query: the key it answers, the node, its kind, and its record as JSON."""

    key: str
    node: str
    kind: str
    record: str


class Layer(NamedTuple):
    """A store, and the graphs of it that a layer over it has replaced."""

    store: ox.Store
    hidden: frozenset[str] = frozenset()
    folder: str = ""
    """Where it is, if it is on disk."""


class Facts:
    """All layers, asked as one."""

    def __init__(self, layers: Iterable[Layer], written: Callable[[], Iterable[ox.Quad]] = tuple) -> None:
        self.layers = tuple(layers)
        self._written = written
        """What the books of the upper layers say themselves; only `select` wants it."""

    def run(self, name: str, keys: Iterable[str]) -> list[Row]:
        """The rows of the named query for these keys, in no particular order.

        A query is asked again for every 500 keys; an unknown name is a KeyError (a fault of the program).
        """
        wanted = sorted(set(keys))
        chunks = [wanted[i : i + MOST_ROWS] for i in range(0, len(wanted), MOST_ROWS)]
        return [row for layer in self.layers for chunk in chunks for row in _ask(layer, name, chunk)]

    def nodes(self, name: str, keys: Iterable[str]) -> list[tuple[str, str]]:
        """The same rows without what they say: each key with a node that it finds. A third of the cost of `run`."""
        wanted = sorted(set(keys))
        chunks = [wanted[i : i + MOST_ROWS] for i in range(0, len(wanted), MOST_ROWS)]
        return [row for layer in self.layers for chunk in chunks for row in _ask_nodes(layer, name, chunk)]

    def said(self, node: str) -> str:
        """The record of a derived node, as JSON. KeyError for a node that is not there."""
        graph = node.rpartition("#")[0]
        subject, derived = ox.NamedNode(node), ox.NamedNode(graph + DERIVED)
        for layer in self.layers:
            if graph not in layer.hidden:
                for quad in layer.store.quads_for_pattern(subject, _term("as-read"), None, derived):
                    assert isinstance(quad.object, ox.Literal)
                    return quad.object.value
        raise KeyError(node)

    def over(
        self, nodes: Iterable[Node], hidden: Iterable[str], written: Callable[[], Iterable[ox.Quad]]
    ) -> Facts:
        """The same facts with an in-memory layer of these nodes on top and these books' graphs hidden below it.

        `written` gives the quads of the new books' own graphs.
        """
        gone = frozenset(graph + end for graph in hidden for end in ("", DERIVED))
        below = [layer._replace(hidden=layer.hidden | gone) for layer in self.layers]

        def every() -> Iterator[ox.Quad]:
            yield from (quad for quad in self._written() if _iri(quad.graph_name) not in gone)
            yield from written()

        return Facts([Layer(in_memory(nodes)), *below], every)

    def select(self, query: str) -> Iterator[tuple[str | None, ...]]:
        """The rows of any SELECT query over all graphs, values as plain text and None where unbound.

        Layers are joined into one store first. SyntaxError where the text is no SPARQL, ValueError where it is no SELECT.
        """
        found = self._joined.query(query)
        if not isinstance(found, ox.QuerySolutions):
            raise ValueError("not a SELECT query")
        return (tuple(getattr(term, "value", None) for term in row) for row in found)

    def answer(self, query: str) -> tuple[list[str], Iterator[list[str]]] | bool:
        """Names and rows (N-Triples terms, empty: unbound) over what books say; derived graphs by GRAPH. Raises as `select`."""
        named = (graph for graph in self._joined.named_graphs() if not _iri(graph).endswith(DERIVED))
        found = self._joined.query(query, default_graph=[*named])
        if isinstance(found, ox.QueryBoolean):
            return bool(found)
        if not isinstance(found, ox.QuerySolutions):
            raise ValueError("not a SELECT or ASK query")
        return [v.value for v in found.variables], ([str(t or "") for t in row] for row in found)

    @functools.cached_property
    def _joined(self) -> ox.Store:
        """All layers as one store, without what is hidden: over a copy of the lowest one, on disk where that is."""
        *upper, base = self.layers
        if not upper:
            return base.store
        store = _copied(self, base) or _without(base, ox.Store())
        for layer in upper:
            _without(layer, store)
        store.extend(self._written())
        return store


def _copied(holder: object, base: Layer) -> ox.Store | None:
    """A copy by links of a store on disk, without what is hidden, that goes with its holder; None where none can be made."""
    if not base.folder:
        return None
    import shutil
    import tempfile
    import weakref

    try:
        place = tempfile.mkdtemp(prefix=SPARE, dir=os.path.dirname(os.path.dirname(base.folder)))
        weakref.finalize(holder, shutil.rmtree, place, True)
        base.store.backup(f"{place}/store")
        store = ox.Store(f"{place}/store")
    except OSError:
        return None
    for graph in base.hidden:
        store.remove_graph(ox.NamedNode(graph))
    return store


def _without(layer: Layer, into: ox.Store) -> ox.Store:
    """Puts a layer's quads, but those hidden, into a store."""
    for graph in layer.store.named_graphs():
        if _iri(graph) not in layer.hidden:
            into.extend(layer.store.quads_for_pattern(None, None, None, graph))
    return into


class Writer:
    """A store being filled: on disk, to be published after `close`, or in memory."""

    def __init__(self, folder: Path | None, copy_of: Facts | None = None) -> None:
        """In `folder`, which must not exist (None: in memory); empty, or as the stored facts `copy_of` are (by hard links).

        OSError where that cannot be: there is no room, no right, or the file system has no links.
        """
        if folder is not None and copy_of is not None:
            copy_of.layers[-1].store.backup(str(folder))
        self._store = ox.Store(str(folder)) if folder else ox.Store()
        self._over = copy_of is not None
        self._fill = self._store.bulk_extend if folder else self._store.extend

    def put(self, pages: Iterable[Page]) -> None:
        """Puts graphs in. Over stored facts each replaces the one of its name: only what is other than there is written."""
        if self._over:
            for page in pages:
                self._replace(page)
        else:
            every = (quad for page in pages for quad in _parsed(page.graph, page.statements))
            for first in every:
                self._fill(itertools.chain((first,), itertools.islice(every, PIECE - 1)))

    def take_out(self, graphs: Iterable[str]) -> None:
        """Takes out books' graphs with their derived ones."""
        for graph in graphs:
            self._store.remove_graph(ox.NamedNode(graph))
            self._store.remove_graph(ox.NamedNode(graph + DERIVED))

    def _replace(self, page: Page) -> None:
        from fitlore.graph.past import subject_of

        few = page.touched is not None and len(page.touched) <= _FEW
        graph, touched = ox.NamedNode(page.graph), page.touched if few else None
        now = {one for one in page.statements if touched is None or subject_of(one) in touched}
        before = set(self._stored(graph, touched))
        gone = before - now
        if not page.statements:
            self._store.remove_graph(graph)
        elif touched is None and len(gone) > _FEW and len(gone) > len(before) // 4:
            self._store.remove_graph(graph)
            before = set()
        else:
            for quad in _parsed(page.graph, gone):
                self._store.remove(quad)
        self._store.extend(_parsed(page.graph, now - before))

    def _stored(self, graph: ox.NamedNode, touched: Iterable[str] | None) -> Iterator[str]:
        if touched is None:
            dump = self._store.dump(format=ox.RdfFormat.N_TRIPLES, from_graph=graph) or b""
            yield from (line.removesuffix(" .") for line in dump.decode().split("\n") if line)
        for one in touched or ():
            subject = ox.BlankNode(one[2:]) if one.startswith("_:") else ox.NamedNode(one[1:-1])
            yield from (
                str(quad.triple) for quad in self._store.quads_for_pattern(subject, None, None, graph)
            )

    def close(self) -> Facts:
        """Everything on disk (else the next opening would replay a long log); the facts, to be asked from memory."""
        self._store.flush()
        return Facts([Layer(self._store)])


def in_memory(nodes: Iterable[Node], written: Iterable[ox.Quad] = ()) -> ox.Store:
    """A store in memory that holds these nodes, and these quads beside them."""
    store = ox.Store()
    store.extend(quads(nodes))
    store.extend(written)
    return store


def open_facts(folder: str) -> Facts:
    """The published store of a snapshot, read-only. OSError where there is none or it is damaged."""
    return Facts([Layer(ox.Store.read_only(folder), folder=folder)])


def quads(nodes: Iterable[Node]) -> Iterator[ox.Quad]:
    """The nodes as quads."""
    for node in nodes:
        subject, graph = ox.NamedNode(node.iri), ox.NamedNode(node.graph)
        for term, value in node.facts:
            yield ox.Quad(subject, _term(term), ox.Literal(value), graph)
        for one in node.openly:
            yield ox.Quad(_named(one.subject), _named(one.predicate), _object(one.value, one.kind), graph)


def _object(value: str, kind: str) -> ox.NamedNode | ox.Literal:
    """The value of an open statement: `kind` is empty for an IRI, `@en` for a language, else a datatype."""
    if not kind:
        return _named(value)
    if kind.startswith("@"):
        return ox.Literal(value, language=kind[1:])
    return ox.Literal(value, datatype=_named(kind))


@functools.lru_cache(4096)
def _named(iri: str) -> ox.NamedNode:
    return ox.NamedNode(iri)


def _parsed(graph: str, statements: Collection[str]) -> Iterator[ox.Quad]:
    """Statements as quads; nodes keep their names."""
    if not statements:
        return iter(())
    if max(map(len, statements)) > _LONG:
        return _one_by_one(graph, statements)
    end = f" <{graph}> .\n"
    return iter(ox.parse(end.join((*statements, "")), ox.RdfFormat.N_QUADS))


def _one_by_one(graph: str, statements: Collection[str]) -> Iterator[ox.Quad]:
    """As `_parsed`, where a statement is longer than the parser takes: a record with hundreds of long texts.

    The object of such a one is a text in quotes; the escapes of N-Triples in its canonical form are JSON's too.
    """
    import json

    with_text = re.compile(
        r'(<[^>]*>|_:\S+) <([^>]*)> ("(?:[^"\\]++|\\.)*+")(?:@([\w-]+)|\^\^<([^>]*)>)?', re.DOTALL
    )
    for one in statements:
        match = with_text.fullmatch(one) if len(one) > _LONG else None
        if match is None:
            yield from ox.parse(f"{one} <{graph}> .\n", ox.RdfFormat.N_QUADS)
            continue
        value, language, kind = json.loads(match[3], strict=False), match[4], match[5]
        subject = ox.BlankNode(match[1][2:]) if match[1].startswith("_:") else ox.NamedNode(match[1][1:-1])
        datatype = ox.NamedNode(kind) if kind else None
        literal = ox.Literal(value, language=language) if language else ox.Literal(value, datatype=datatype)
        yield ox.Quad(subject, ox.NamedNode(match[2]), literal, ox.NamedNode(graph))


def _solutions(layer: Layer, text: str, keys: list[str]) -> ox.QuerySolutions:
    found = layer.store.query(with_rows(text, [f"({ox.Literal(key)})" for key in keys]))
    assert isinstance(found, ox.QuerySolutions)
    return found


def _ask_nodes(layer: Layer, name: str, keys: list[str]) -> Iterator[tuple[str, str]]:
    for solution in _solutions(layer, nodes_text(name), keys):
        key, node = solution[0].value, solution[1].value
        if not layer.hidden or node.rpartition("#")[0] not in layer.hidden:
            yield key, node


def _ask(layer: Layer, name: str, keys: list[str]) -> Iterator[Row]:
    for solution in _solutions(layer, query_text(name), keys):
        key, node, kind, record = (solution[i].value for i in range(4))
        if not layer.hidden or node.rpartition("#")[0] not in layer.hidden:
            yield Row(key, node, kind, record)


@functools.cache
def _term(name: str) -> ox.NamedNode:
    from fitlore.books.iris import TERMS

    return ox.NamedNode(TERMS + name)


def _iri(graph: ox.NamedNode | ox.BlankNode | ox.DefaultGraph) -> str:
    return graph.value if isinstance(graph, ox.NamedNode) else ""
