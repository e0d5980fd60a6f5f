"""The derived graph says typed things in open vocabularies, so that SPARQL can compare prices, dates and sizes."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import pytest
import rdflib
from rdflib.namespace import DCTERMS, PROV, RDF, SDO, SKOS, XSD

from fitlore.books.iris import BASE, TERMS
from fitlore.books.openly import BECOMES, PREFIXES, iri
from fitlore.books.reading import read_book
from fitlore.graph import derive
from fitlore.graph.open import Graph, open_graph
from fitlore.graph.store import quads
from tests.rdf.test_vocabulary import known

RICH = Path(__file__).parent.parent / "books" / "rich.yaml"
DEMO = Path(__file__).parents[2] / "demo" / "lowbarn"
ASK = "".join(f"PREFIX {prefix}: <{base}> " for prefix, base in PREFIXES.items())
ASK += f"PREFIX fl: <{TERMS}> PREFIX feature: <{BASE}feature#> "


@pytest.fixture(scope="module")
def rich() -> rdflib.Graph:
    """The derived graph of the book with every key, in rdflib."""
    reading = read_book("shop/rich.yaml", RICH.read_bytes(), "https://fitlore.example/book/shop/rich.yaml")
    made = quads(derive.derive(reading.graph_name, reading.records))
    return rdflib.Graph().parse(data="".join(f"{quad.triple} .\n" for quad in made), format="nt")


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Graph:
    """The demo shop."""
    return open_graph(DEMO, cache=tmp_path_factory.mktemp("cache"))


def rows(graph: Graph, where: str, *names: str) -> Iterator[tuple[str | None, ...]]:
    """The rows of a query over all named graphs."""
    return graph.facts.select(f"{ASK} SELECT {' '.join(names)} WHERE {{ GRAPH ?g {{ {where} }} }}")


def test_every_open_term_of_a_derived_graph_exists(rich: rdflib.Graph) -> None:
    """Predicates, classes, conditions, units and datatypes are those of the published vocabularies."""
    terms = {str(term) for triple in rich for term in triple if isinstance(term, rdflib.URIRef)}
    terms |= {str(o.datatype) for o in rich.objects() if isinstance(o, rdflib.Literal) and o.datatype}
    assert sorted(term for term in terms if not known(term)) == []
    assert {str(o) for o in rich.objects(None, RDF.type)} == {
        str(term) for term in (SKOS.Concept, SDO.Product, SDO.Offer, PROV.Entity)
    }
    assert not [o for o in rich.objects() if isinstance(o, rdflib.Literal) and o.ill_typed]


def test_what_the_vocabulary_promises_is_stated(rich: rdflib.Graph) -> None:
    """Each open property that a key becomes is there; and each term of derived graphs that the book has occasion for."""
    stated = {str(predicate) for predicate in rich.predicates()}
    assert {iri(term) for terms in BECOMES.values() for term in terms} <= stated
    ours = {term.removeprefix(TERMS) for term in stated if term.startswith(TERMS)}
    assert ours <= set(derive.TERMS)
    assert {"has-evidence-for", "has-evidence-against", "has-measured", "known-how"} <= ours


def test_categories_are_concepts_with_labels_and_broader_ones(rich: rdflib.Graph) -> None:
    """By the name of the category, so that books speak of one concept: SKOS labels in their languages."""
    switch = rdflib.URIRef(BASE + "category/reversing-lamp-switch")
    assert rich.value(switch, SKOS.broader) == rdflib.URIRef(BASE + "category/plunger-switch")
    assert rdflib.Literal("Rückfahrschalter", lang="de") in set(rich.objects(switch, SKOS.prefLabel))
    assert len(set(rich.objects(switch, SKOS.prefLabel))) == 4
    also = {str(o) for o in rich.objects(switch, SKOS.altLabel) if isinstance(o, rdflib.Literal)}
    assert also == {"reversing switch", "reverse light switch", "Rückfahrlichtschalter"}
    assert rich.value(rich.value(switch, DCTERMS.source), rdflib.RDFS.label) == rdflib.Literal(
        "common practice"
    )


def test_prices_are_numbers_with_their_currency(rich: rdflib.Graph) -> None:
    """schema.org wants a number and an ISO 4217 code apart; the state is one of its conditions."""
    found = set()
    for offer in rich.subjects(RDF.type, SDO.Offer):
        price, currency = rich.value(offer, SDO.price), rich.value(offer, SDO.priceCurrency)
        assert price is None or (isinstance(price, rdflib.Literal) and price.datatype == XSD.decimal)
        amount = price.toPython() if isinstance(price, rdflib.Literal) else None
        found.add((amount, str(currency) if currency else "", rich.value(offer, SDO.itemCondition)))
    assert (Decimal("2.50"), "GBP", SDO.UsedCondition) in found
    assert (Decimal("52.00"), "GBP", SDO.RefurbishedCondition) in found
    assert (None, "", SDO.NewCondition) in found, "they were asked and had none: that has no price"


def test_evidence_is_attributed_and_dated(rich: rdflib.Graph) -> None:
    """Of a day PROV is given its first moment; of a month only the month is said, for a day would be made up."""
    said = {}
    for piece in {
        *rich.objects(None, rdflib.URIRef(TERMS + "has-evidence-for")),
        *rich.objects(None, rdflib.URIRef(TERMS + "has-measured")),
    }:
        how = str(rich.value(piece, rdflib.URIRef(TERMS + "known-how")))
        said[how, str(rich.value(piece, DCTERMS.date))] = rich.value(piece, PROV.generatedAtTime)
        assert (piece, RDF.type, PROV.Entity) in rich
    moment = said["fitted", "2026-03-02"]
    assert isinstance(moment, rdflib.Literal)
    assert (str(moment), moment.datatype) == ("2026-03-02T00:00:00", XSD.dateTime)
    assert said["measured", "2026-03"] is None
    (told,) = rich.subjects(DCTERMS.source, rdflib.URIRef(BASE + "source/club-newsletter-41"))
    assert rich.value(told, PROV.wasAttributedTo) == rdflib.URIRef(BASE + "agent/club-newsletter-41")
    days = {o.datatype for o in rich.objects(None, DCTERMS.date) if isinstance(o, rdflib.Literal)}
    assert {XSD.date, XSD.gYearMonth} <= days


def test_sizes_compare_whatever_their_units(demo: Graph) -> None:
    """Wheel cylinders by the size of the bore in mm: seven eighths of an inch is among those over 22 mm."""
    where = "?part schema:category <https://fitlore.example/category/wheel-cylinder> ; schema:mpn ?number ; feature:bore ?bore . "
    where += "?bore qudt:numericValue ?mm ; qudt:hasUnit unit:MilliM . FILTER(?mm > 22.0 && ?mm < 23.0)"
    found = dict(rows(demo, where, "?number", "?mm"))
    assert found
    by_records = {
        part.part
        for part in demo.parts_of(["wheel-cylinder"])
        if part.features.get("bore", ("",))[0].startswith("22.2")
    }
    assert set(found) == by_records


def test_prices_compare_in_a_query(demo: Graph) -> None:
    """All used things under five pounds, as the records say too."""
    where = "?offer schema:itemCondition schema:UsedCondition ; schema:price ?price ; schema:priceCurrency 'GBP' ; "
    where += "fl:sold-by ?supplier . FILTER(?price < 5)"
    found = sorted(
        (str(supplier), Decimal(str(price))) for supplier, price in rows(demo, where, "?supplier", "?price")
    )
    offers = [(s.supplier, o.offer) for s in demo.suppliers() for o in demo.offers_by(s.supplier)]
    cheap = [
        (name, o.price.amount)
        for name, o in offers
        if o.state.value == "used" and o.price and o.price.amount < 5
    ]
    assert found == sorted(cheap)
    assert len(found) >= 3


def test_concepts_of_two_books_meet(demo: Graph) -> None:
    """The label of a broader category stands in another book, and one query with two graphs finds both."""
    query = (
        f"{ASK} SELECT ?narrow ?label WHERE {{ GRAPH ?g {{ ?narrow skos:broader ?broad }} "
        "GRAPH ?h { ?broad skos:prefLabel ?label } FILTER(LANG(?label) = 'en-gb') }"
    )
    found = dict(demo.facts.select(query))
    categories = {c.category: c for c in demo.categories()}
    for category in categories.values():
        if category.broader and "en-gb" in categories[category.broader].names:
            label = found[f"{BASE}category/{category.category}"]
            assert label == categories[category.broader].names["en-gb"]
    assert len(found) > 200


def test_a_record_is_read_from_its_own_json_and_not_from_open_terms(demo: Graph) -> None:
    """`18.50` stays `18.50` in a record, though stores write the decimal 18.5."""
    prices = [o.offer.price for s in demo.suppliers() for o in demo.offers_by(s.supplier) if o.offer.price]
    assert {str(price).rpartition(" ")[0][-3] for price in prices} == {"."}
    assert any(str(price.amount).endswith("0") for price in prices)
