"""The neighbourhood of a part as a network."""

from __future__ import annotations

from fitlore.graph.open import Graph
from fitlore.graph.view import view
from fitlore.model.supply import Supplier


def edges(graph: Graph, key: str, hops: int = 1) -> set[tuple[str, str, str]]:
    """What is linked with what, and how."""
    return {(tail, head, data["says"]) for tail, head, data in view(graph, [key], hops).edges(data=True)}


def test_a_part_stands_among_its_claims_offers_and_suppliers(small_graph: Graph) -> None:
    """A claim that goes both ways is two edges, one of one shelf more beside it; whole cars bring parts."""
    winder, other = "part KESTINKT842210R", "part TARNTC842114R"
    net = view(small_graph, ["KT842210R"])
    assert sorted((t, h, d["says"], d["record"].origin.book) for t, h, d in net.edges(data=True)) == [
        (next(n for n in net if n.startswith("offer ")), other, "brings", "shop/suppliers.yaml"),
        (winder, other, "claim", "club/newsletter.yaml"),
        (winder, other, "claim", "shop/crossfits.yaml"),
        (other, winder, "claim", "shop/crossfits.yaml"),
        (
            "supplier northgate",
            next(n for n in net if n.startswith("offer ")),
            "offers",
            "shop/suppliers.yaml",
        ),
    ]
    assert isinstance(net.nodes["supplier northgate"]["record"], Supplier)
    assert {net.nodes[node]["kind"] for node in net} == {"part", "offer", "supplier"}


def test_a_part_named_with_and_without_its_maker_is_one_node(small_graph: Graph) -> None:
    """`Tarn TC 941 377` in a claim and `TC 941 377` asked for are one part; a chain is followed hop by hop."""
    start, switch, same = "part TARNTC941377", "part OSTRAOS4021905B", "part VELMVP9210"
    assert edges(small_graph, "TC941377") == {(start, switch, "claim")}
    assert edges(small_graph, "TC941377", 2) == {(start, switch, "claim"), (switch, same, "same-as")}
    assert edges(small_graph, "VP9210") == {(switch, same, "same-as")}


def test_replacements_and_sets_are_linked_from_either_end(small_graph: Graph) -> None:
    """The older points at the newer, the set at what it contains; offers of a set sell it and bring the rest."""
    old, new, kit = "part KESTINKT530190", "part KESTINKT530206", "part KESTINKT530222SET"
    around = edges(small_graph, "KT530206")
    assert {(old, new, "replaced-by"), (kit, new, "contains")} <= around
    assert {says for _, head, says in around if head == new} == {"replaced-by", "contains", "brings"}
    assert {says for _, head, says in around if head == kit} == {"contains", "sells"} - {"contains"}
    assert edges(small_graph, "KT530190") <= edges(small_graph, "KT530206", 2)


def test_a_number_of_two_makers_or_of_nobody_is_a_node_of_its_own(small_graph: Graph) -> None:
    """What is said of a bare number that two makers give is about neither of them; an unknown number is still there."""
    net = view(small_graph, ["7713300", "NOSUCH"])
    assert net.nodes["part 7713300"]["record"] is None
    assert net.nodes["part NOSUCH"]["record"] is None
    claimed = view(small_graph, ["BREDE7713300"])
    assert ("place kestin-tolland/brakes/stop-lamp-switch", "part BREDE7713300") in set(claimed.edges())
