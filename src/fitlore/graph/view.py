"""The neighbourhood of some parts as a network, for whoever looks for paths or wants to draw it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from fitlore.graph.derive import base_path
from fitlore.model.choices import Goes
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom
from fitlore.model.record import Rec

if TYPE_CHECKING:
    import networkx

    from fitlore.graph.open import Graph


class Link(NamedTuple):
    """An edge: from node, to node, what it says, and the record that says it."""

    tail: str
    head: str
    says: str
    """`claim`, `replaced-by`, `same-as`, `contains`, `offers`, `sells`, `brings`."""
    record: Rec


def view(graph: Graph, keys: Iterable[str], hops: int = 1) -> networkx.MultiDiGraph:
    """Parts within `hops` claims, replacements or containments of these number keys, with the offers and suppliers of all.

    Nodes are `part KEY` (maker and number where one part is meant, else the number as written), `place PATH`,
    `offer ID` and `supplier NAME`, with `kind` and, where the books describe it, `record`. Edges run in the direction in which
    the record holds (a claim that goes both ways is two edges), with `says` and `record`.
    """
    import networkx

    net = networkx.MultiDiGraph()
    frontier = {_identity(graph, key) for key in keys}
    reached: set[str] = set()
    for _ in range(hops):
        links = [link for key in sorted(frontier) for link in _links(graph, key)]
        reached |= frontier
        frontier = {_key(end) for link in links for end in link[:2] if end.startswith("part ")} - reached
        _add(net, links)
    reached |= frontier
    for key in sorted(reached):
        found = graph.parts([key])
        net.add_node(f"part {key}", kind="part", record=found[0] if len(found) == 1 else None)
        _add(net, _offers(graph, key))
    for name in sorted(_key(node) for node in net if node.startswith("supplier ")):
        net.add_node(f"supplier {name}", kind="supplier", record=graph.supplier(name))
    return net


def _add(net: networkx.MultiDiGraph, links: Iterable[Link]) -> None:
    """Edges told from both ends are added once."""
    for link in links:
        for end in (link.tail, link.head):
            net.add_node(end, kind=end.partition(" ")[0])
        net.add_edge(
            link.tail, link.head, key=f"{link.says} {link.record.origin}", says=link.says, record=link.record
        )
        if isinstance(link.record, OfferFrom):
            net.add_node(f"offer {link.record.id}", record=link.record)


def _links(graph: Graph, key: str) -> Iterator[Link]:
    """What is said of a part in relation to others."""
    for claim in (*graph.claims_from([key]), *graph.claims_to([key])):
        yield from _claimed(graph, claim)
    for part in graph.parts([key]):
        yield from _of_part(graph, part)
    for part in (*graph.replaces([key]), *graph.containers([key])):
        yield from (link for link in _of_part(graph, part) if link.head == f"part {key}")


def _claimed(graph: Graph, claim: CrossFit) -> Iterator[Link]:
    use = _part(graph, claim.use)
    if claim.instead_of:
        instead = _part(graph, claim.instead_of)
        yield Link(instead, use, "claim", claim)
        if claim.goes is Goes.BOTH_WAYS:
            yield Link(use, instead, "claim", claim)
    if claim.at:
        yield Link(f"place {base_path(claim.at)}", use, "claim", claim)


def _of_part(graph: Graph, part: Part) -> Iterator[Link]:
    itself = _part(graph, f"{part.maker} {part.part}")
    for newer in part.replaced_by:
        yield Link(itself, _part(graph, newer.number), "replaced-by", part)
    for number in part.same_as:
        yield Link(itself, _part(graph, number), "same-as", part)
    for inside in part.contains:
        if inside.number:
            yield Link(itself, _part(graph, inside.number), "contains", part)


def _offers(graph: Graph, key: str) -> Iterator[Link]:
    for offer in graph.offers([key]):
        node = f"offer {offer.id}"
        yield Link(f"supplier {offer.supplier}", node, "offers", offer)
        if offer.offer.number and _part(graph, offer.offer.number) == f"part {key}":
            yield Link(node, f"part {key}", "sells", offer)
        if any(b.number and _part(graph, b.number) == f"part {key}" for b in offer.offer.brings):
            yield Link(node, f"part {key}", "brings", offer)


def _part(graph: Graph, number: str) -> str:
    return f"part {_identity(graph, number_key(number))}"


def _identity(graph: Graph, key: str) -> str:
    """One key for a part however it is named: maker and number, where the key means one part."""
    found = graph.parts([key])
    return number_key(f"{found[0].maker} {found[0].part}") if len(found) == 1 else key


def _key(node: str) -> str:
    return node.partition(" ")[2]


def whole(graph: Graph, keys: Iterable[str]) -> bytes:
    """The neighbourhood of these parts as GraphML, which other programs draw: UTF-8, the same bytes for the same books.

    Nodes have `kind`, `name` and `stands_at`; edges `says`, `claim`, `goes`, `minutes`, `evidence`, `against`.
    """
    import io

    import networkx

    net = view(graph, keys)
    drawn = networkx.MultiDiGraph()
    for node, data in sorted(net.nodes(data=True)):
        drawn.add_node(node, **_node(node, data.get("record")), kind=data.get("kind", ""))
    for tail, head, key, data in sorted(net.edges(keys=True, data=True), key=lambda edge: edge[:3]):
        drawn.add_edge(tail, head, key=key, says=data["says"], **_edge(data["record"]))
    out = io.BytesIO()
    networkx.write_graphml(drawn, out, named_key_ids=True)
    return out.getvalue()


def _node(node: str, record: Rec | None) -> dict[str, str]:
    name = getattr(record, "name", "") or _key(node)
    return {"name": str(name), "stands_at": str(record.origin) if record else ""}


def _edge(record: Rec) -> dict[str, str | int]:
    told: dict[str, str | int] = {"stands_at": str(record.origin)}
    if isinstance(record, CrossFit):
        told |= {
            "claim": str(record.crossfit),
            "goes": record.goes.value,
            "minutes": record.work.minutes or 0 if record.work else 0,
            "evidence": ", ".join(one.how.value for one in record.evidence),
            "against": ", ".join(one.how.value for one in record.against),
        }
    return told
