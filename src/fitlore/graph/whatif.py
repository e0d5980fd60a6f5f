"""The graph as it would be with other texts in some books: read in memory, over the stored one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from fitlore.books.rdf import written_quads
from fitlore.books.reading import Reading, read_book
from fitlore.graph.derive import derive
from fitlore.graph.forms import Forms
from fitlore.graph.open import Graph
from fitlore.graph.trust import capped
from fitlore.graph.vocabulary import Entry, entries_of, vocabulary_of

if TYPE_CHECKING:
    from fitlore.graph.store import Quad
    from fitlore.model.record import Rec


def what_if(graph: Graph, changed: Mapping[str, bytes]) -> Graph:
    """See `Graph.what_if`. The books given need not exist yet; those of the stored graph are hidden, not changed."""
    held = graph.held
    readings = [read_book(shown, text, held.graph_name(shown)) for shown, text in sorted(changed.items())]
    books = [(reading.graph_name, _records(graph, reading)) for reading in readings]

    def written() -> Iterator[Quad]:
        for reading in readings:
            yield from written_quads(reading)

    forms = Forms(graph.standards)
    nodes = [node for name, records in books for node in derive(name, records, forms)]
    names = {name: sorted(entries_of(records)) for name, records in books}
    kept = tuple(d for d in graph.diagnostics if d.origin.book not in changed)
    new = tuple(d for reading in readings for d in reading.diagnostics)
    facts = graph.facts.over(nodes, [name for name, _ in books], written)

    def every_name() -> Mapping[str, Sequence[Entry]]:
        return {**held.names(), **names}

    new_held = held._replace(
        diagnostics=lambda: kept + new, names=every_name, vocabulary=lambda: vocabulary_of(every_name())
    )
    return Graph(facts, new_held)


def _records(graph: Graph, reading: Reading) -> list[Rec]:
    trust = graph.held.trust.get(reading.shown.partition("/")[0])
    return [capped(record, trust) for record in reading.records]
