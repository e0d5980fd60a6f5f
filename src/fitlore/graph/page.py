"""One named graph as statements of N-Triples: how a book's two graphs come to the store."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from fitlore.graph.derive import Node


class Page(NamedTuple):
    """What one named graph says."""

    graph: str
    statements: Collection[str]
    """`subject predicate object` of N-Triples each, without dot."""
    touched: frozenset[str] | None = None
    """Where it is known which these are: the subjects of which the stored graph says something else."""


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
