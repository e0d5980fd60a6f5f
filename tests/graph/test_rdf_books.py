"""A book in Turtle or JSON-LD on a shelf counts exactly as one in YAML does."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from fitlore.books.layout import books_on, read_layout
from fitlore.books.rdf import written_quads
from fitlore.books.reading import read_book
from fitlore.books.schema import KINDS as WRITTEN_KINDS
from fitlore.graph import derive
from fitlore.graph.open import Graph, open_graph
from fitlore.model.record import Rec
from tests.graph import small


def bare(value: object) -> object:
    """A record without its origins."""
    if isinstance(value, Rec):
        return {f: bare(getattr(value, f)) for f in value.__struct_fields__ if f != "origin"}
    if isinstance(value, dict):
        return {key: bare(item) for key, item in value.items()}
    if isinstance(value, tuple):
        return sorted((bare(item) for item in value), key=repr)
    return value


def answers(graph: Graph) -> list[object]:
    """What both forms of a book have to agree in."""
    keys = ["KT530190", "KT530206", "TC941377", "OS4021905B", "VP9210", "KT842210R", "BREDE7713300"]
    every: list[object] = [sorted((bare(p) for p in graph.places(small.PLATFORM)), key=repr)]
    for key in keys:
        every += [bare(graph.parts([key])), bare(graph.claims_from([key])), bare(graph.offers([key]))]
        every += [bare(graph.replaces([key])), bare(graph.containers([key]))]
    return every


@pytest.mark.parametrize("ending", ["ttl", "nt"])
def test_turtle_in_the_place_of_yaml_gives_the_same_answers(tmp_path: Path, ending: str) -> None:
    """Every book of the shop but its categories, turned into RDF; places, claims and offers come out alike."""
    shop = small.copy_to(tmp_path)
    before = answers(open_graph(shop, cache=tmp_path / "cache"))
    for book in books_on(read_layout(shop)):
        if book.shelf == "shop" and "categories" not in book.shown:
            reading = read_book(book.shown, book.path.read_bytes(), book.graph_name)
            text = "".join(f"{quad.triple} .\n" for quad in written_quads(reading))
            book.path.with_suffix(f".{ending}").write_text(text, "utf-8")
            book.path.unlink()
    graph = open_graph(shop, cache=tmp_path / "cache")
    assert [d for d in graph.diagnostics if d.severity.value == "error"] == []
    assert graph.place(small.PLATFORM, "brakes/stop-lamp-switch").origin.book == f"shop/tolland.{ending}"  # type: ignore[union-attr]
    assert answers(graph) == before


def test_every_kind_a_book_may_hold_is_derived() -> None:
    """The kinds of books, and beside them only what stands apart: places and offers."""
    assert {**WRITTEN_KINDS, "place": derive.PlaceOn, "offer": derive.OfferFrom} == derive.KINDS
    for kind, struct in derive.KINDS.items():
        assert msgspec.structs.fields(struct), kind
