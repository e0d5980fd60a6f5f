"""The books as an rdflib Dataset: what a notebook gets is what the books say."""

from __future__ import annotations

import warnings
from pathlib import Path

from fitlore.books.layout import books_of
from fitlore.upkeep.notebook import dataset

TERMS = "https://fitlore.example/terms#"


def test_the_demo_shop_can_be_asked_with_a_general_purpose_library(repo: Path) -> None:
    """One named graph per book, and SPARQL of rdflib finds the Ostra's claims with the makers of both ends."""
    folder = repo / "demo" / "lowbarn"
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # of rdflib's own
        found = dataset(folder)
        names = {str(graph.identifier) for graph in found.graphs() if len(graph)}
        rows = list(
            found.query(
                f"""PREFIX fl: <{TERMS}>
                SELECT ?claim ?maker WHERE {{
                  GRAPH ?a {{ ?c fl:crossfit ?claim ; fl:use ?number ; fl:instead-of "KT 66 4002" }}
                  GRAPH ?b {{ ?p fl:part ?number ; fl:maker ?maker }}
                }} ORDER BY ?claim"""
            )
        )
    assert names == {book.graph_name for book in books_of(folder)}
    assert {str(row.maker) for row in rows} >= {"Ostra", "Velm"}
