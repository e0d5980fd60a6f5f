"""The only door to the triple store: embedded stores with layers over them, asked by named queries, and their writer."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Collection, Iterable, Iterator
from pathlib import Path
from typing import Final, NamedTuple, TypeAlias

import pyoxigraph as ox

from fitlore.graph.derive import DERIVED, Node

SPARE: Final = ".w"
"""Beginning of the names of folders for copies that live as long as a process."""
QUERIES: Final = Path(__file__).with_name("queries")
MOST_ROWS: Final = 500
"""Rows of a VALUES block; more are asked in several queries."""
_ROWS: Final = re.compile(r"(VALUES \(\?key\) )\{ \}")


VERSION: Final = ox.__version__
"""The store's version; another one may not read what this one wrote."""
Quad: TypeAlias = ox.Quad
_FEW: Final = 1000
"""Statements that may always be taken out one by one; more only where three in four of their graph stay."""


class Page(NamedTuple):
    """What one named graph says."""

    graph: str
    statements: Collection[str]
    """`subject predicate object` of N-Triples each, without dot."""


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
    folder: Path | None = None
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
        width = len(found.variables)
        for solution in found:
            yield tuple(_text(solution[i]) for i in range(width))

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
    if base.folder is None:
        return None
    import shutil
    import tempfile
    import weakref

    try:
        place = tempfile.mkdtemp(prefix=SPARE, dir=base.folder.parent.parent)
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
            self._fill(quad for page in pages for quad in _parsed(page.graph, page.statements))

    def take_out(self, graphs: Iterable[str]) -> None:
        """Takes out books' graphs with their derived ones."""
        for graph in graphs:
            self._store.remove_graph(ox.NamedNode(graph))
            self._store.remove_graph(ox.NamedNode(graph + DERIVED))

    def _replace(self, page: Page) -> None:
        graph, now = ox.NamedNode(page.graph), set(page.statements)
        dump = self._store.dump(format=ox.RdfFormat.N_TRIPLES, from_graph=graph)
        assert dump is not None
        before = {line.removesuffix(" .") for line in dump.decode().split("\n") if line}
        gone = before - now
        if len(gone) > _FEW and len(gone) > len(before) // 4:
            self._store.remove_graph(graph)
            before = set()
        else:
            for quad in _parsed(page.graph, gone):
                self._store.remove(quad)
        self._store.extend(_parsed(page.graph, now - before))

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


def open_facts(folder: Path) -> Facts:
    """The published store of a snapshot, read-only. OSError where there is none or it is damaged."""
    return Facts([Layer(ox.Store.read_only(str(folder)), folder=folder)])


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


def page_of(graph: str, nodes: Iterable[Node]) -> Page:
    """The nodes of one derived graph as a page: the same statements as `quads`."""
    from fitlore.books.iris import TERMS
    from fitlore.books.written import literal

    found = []
    for node in nodes:
        found += [f"<{node.iri}> <{TERMS}{term}> {literal(value)}" for term, value in node.facts]
        for one in node.openly:
            value = literal(one.value) if one.kind else f"<{one.value}>"
            kind = one.kind if one.kind.startswith("@") or not one.kind else f"^^<{one.kind}>"
            found.append(f"<{one.subject}> <{one.predicate}> {value}{kind}")
    return Page(graph, found)


def _parsed(graph: str, statements: Collection[str]) -> Iterator[ox.Quad]:
    """Statements as quads; nodes keep their names."""
    if not statements:
        return iter(())
    end = f" <{graph}> .\n"
    return iter(ox.parse(end.join((*statements, "")), ox.RdfFormat.N_QUADS))


@functools.cache
def query_text(name: str) -> str:
    """The text of a named query; KeyError for an unknown one."""
    try:
        return QUERIES.joinpath(f"{name}.rq").read_text(encoding="utf-8")
    except FileNotFoundError:
        raise KeyError(name) from None


def _ask(layer: Layer, name: str, keys: list[str]) -> Iterator[Row]:
    rows = " ".join(f"({ox.Literal(key)})" for key in keys)
    query = _ROWS.sub(lambda match: f"{match[1]}{{ {rows} }}", query_text(name))
    found = layer.store.query(query)
    assert isinstance(found, ox.QuerySolutions)
    for solution in found:
        key, node, kind, record = (solution[i].value for i in range(4))
        if not layer.hidden or node.rpartition("#")[0] not in layer.hidden:
            yield Row(key, node, kind, record)


@functools.cache
def _term(name: str) -> ox.NamedNode:
    from fitlore.books.iris import TERMS

    return ox.NamedNode(TERMS + name)


def _iri(graph: ox.NamedNode | ox.BlankNode | ox.DefaultGraph) -> str:
    return graph.value if isinstance(graph, ox.NamedNode) else ""


def _text(term: object) -> str | None:
    return getattr(term, "value", None)
