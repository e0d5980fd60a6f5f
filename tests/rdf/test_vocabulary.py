"""The vocabulary that `kb` ships, and every open term that is used, against the vocabularies as rdflib and QUDT publish them."""

from __future__ import annotations

import csv
from pathlib import Path

import pint
import pytest
import rdflib
from rdflib.namespace import DC, DCTERMS, OWL, PROV, RDF, RDFS, SDO, SH, SKOS, XSD, DefinedNamespace

from fitlore.books.context import codings, inside_free_keys, structs
from fitlore.books.iris import TERMS
from fitlore.books.layout import builtin_kb
from fitlore.books.openly import BECOMES, CLASSES, KEYS, NEAR_CLASSES, NEAR_KEYS, PREFIXES, UNITS, iri
from fitlore.books.schema import KINDS
from fitlore.books.shapes import shapes_text
from fitlore.books.vocabulary import field_docs, owners_of, vocabulary_text
from fitlore.graph import derive
from fitlore.model import supply
from fitlore.model.units import UNITS as MEASURED_IN

CLOSED: dict[str, type[DefinedNamespace]] = {
    "dc": DC,
    "dcterms": DCTERMS,
    "owl": OWL,
    "prov": PROV,
    "rdf": RDF,
    "rdfs": RDFS,
    "schema": SDO,
    "sh": SH,
    "skos": SKOS,
    "xsd": XSD,
}
"""Closed lists of terms that ship with rdflib (`rdflib.namespace`), made from the published vocabularies."""
QUDT = {"numericValue", "hasUnit", "ucumCode", "UCUMcs"}
"""QUDT Schema 3.3 (`SCHEMA_QUDT.ttl` of its public repository): `qudt:numericValue`, `qudt:hasUnit` with range `qudt:Unit`,
`qudt:ucumCode`, and the datatype of case-sensitive codes, `qudt:UCUMcs`."""
ROWS = list(
    csv.DictReader((Path(__file__).parent / "data" / "qudt_units.csv").read_text("utf-8").splitlines())
)
IN_PINT = {
    "1": "1",
    "%": "percent",
    "degC": "delta_degC",
    "tpi": "1/inch",
    "N.m": "N*m",
    "mm2": "mm^2",
    "Ah": "A*h",
}
"""Our symbols where pint has another one."""


@pytest.fixture(scope="module")
def graph() -> rdflib.Graph:
    """The vocabulary, read by rdflib."""
    return rdflib.Graph().parse(data=vocabulary_text(derive.TERMS), format="turtle")


def known(term: str) -> bool:
    """Whether a term of a closed vocabulary exists; terms of our own and of EDTF are not asked about."""
    for prefix, base in PREFIXES.items():
        if term.startswith(base):
            name = term.removeprefix(base)
            if prefix == "unit":
                return name in {row["unit"] for row in ROWS}
            return name in QUDT if prefix == "qudt" else name in CLOSED[prefix] or not name
    return True


def test_the_committed_vocabulary_is_current() -> None:
    """`kb/vocabulary.ttl` is generated: after a change of a Struct, write it anew (`python -m tests.rdf.shared_books`)."""
    assert (builtin_kb() / "vocabulary.ttl").read_text("utf-8") == vocabulary_text(derive.TERMS)


def test_our_prefixes_are_those_of_rdflib() -> None:
    """Each closed vocabulary has the very namespace that rdflib has for it."""
    for prefix, namespace in CLOSED.items():
        assert str(namespace) == PREFIXES[prefix]
    assert set(PREFIXES) - set(CLOSED) == {"qudt", "unit"}


def test_the_asking_can_say_no() -> None:
    """A term that a closed vocabulary does not have is found out."""
    for made_up in (
        "skos:narowMatch",
        "schema:Prise",
        "prov:wasAtributedTo",
        "dcterms:sauce",
        "qudt:unitOf",
        "unit:INCHES",
    ):
        assert not known(iri(made_up))


def test_every_open_term_exists(graph: rdflib.Graph) -> None:
    """In the tables of open terms, in the vocabulary and in the shapes: no term is made up or misspelt."""
    tables = (CLASSES, NEAR_CLASSES, KEYS, NEAR_KEYS, BECOMES)
    terms = {iri(term) for table in tables for listed in table.values() for term in listed}
    terms |= {iri(term) for term in UNITS.values()}
    shapes = rdflib.Graph().parse(data=shapes_text(), format="turtle")
    for made in (graph, shapes):
        terms |= {str(term) for triple in made for term in triple if isinstance(term, rdflib.URIRef)}
        terms |= {str(o.datatype) for o in made.objects() if isinstance(o, rdflib.Literal) and o.datatype}
    assert len(terms) > 300
    assert sorted(term for term in terms if not known(term)) == []


def test_every_key_and_kind_is_declared(graph: rdflib.Graph) -> None:
    """Each key is a property and each Struct a class, with a label and a comment; so is each term of derived graphs."""
    properties = {str(subject) for subject in graph.subjects(RDF.type, RDF.Property)}
    assert properties == {TERMS + key for key in [*codings(), *derive.TERMS]}
    classes = {str(subject) for subject in graph.subjects(RDF.type, RDFS.Class)}
    assert classes == {TERMS + cls.__name__ for cls in structs()}
    for term in properties | classes:
        assert graph.value(rdflib.URIRef(term), RDFS.label), term
        assert len(str(graph.value(rdflib.URIRef(term), RDFS.comment))) > 5, term
    assert not set(codings()) & set(derive.TERMS)


def test_a_key_of_one_class_has_it_as_domain(graph: rdflib.Graph) -> None:
    """But for keys that may also be names somebody gave (a feature called `end`): of those nothing follows."""
    for key in codings():
        owners = owners_of(key)
        domain = graph.value(rdflib.URIRef(TERMS + key), RDFS.domain)
        if len(owners) == 1 and key not in inside_free_keys():
            assert str(domain) == TERMS + owners[0].__name__
        else:
            assert domain is None
            included = {str(o) for o in graph.objects(rdflib.URIRef(TERMS + key), SDO.domainIncludes)}
            assert included == {TERMS + cls.__name__ for cls in owners}
    for kind, struct in KINDS.items():
        assert str(graph.value(rdflib.URIRef(TERMS + kind), RDFS.domain)) == TERMS + struct.__name__


def test_comments_are_the_docstrings(graph: rdflib.Graph) -> None:
    """A field's docstring is what the vocabulary says of its key, with keys as people write them."""
    docs = field_docs(supply.Offer)
    assert docs["brings"].startswith("What one of it contains")
    assert set(docs) == {
        "brings", "comes_off", "earlier", "held_till", "maker", "minutes", "price", "said", "scrap_back", "taken", "until",
        "works",
    }  # fmt: skip
    said = str(graph.value(rdflib.URIRef(TERMS + "scrap-back"), RDFS.comment))
    assert said == (
        "Of a donor: what comes back later for its remains. "
        "Of an offer: what comes back later for the remains of a whole car."
    )
    assert str(graph.value(rdflib.URIRef(TERMS + "Offer"), RDFS.comment)).endswith(
        "any, service, whole-car says what it is."
    )
    assert not [o for o in graph.objects(None, RDFS.comment) if "any_" in o or "must_be" in o]


def test_labels_of_categories_are_labels_of_skos(graph: rdflib.Graph) -> None:
    """What `names` and `also` say is said in SKOS at the same time; `price` is not (schema.org wants a number there)."""
    names, also, price = (rdflib.URIRef(TERMS + key) for key in ("names", "also", "price"))
    assert (names, RDFS.subPropertyOf, SKOS.prefLabel) in graph
    assert (also, RDFS.subPropertyOf, SKOS.altLabel) in graph
    assert graph.value(price, RDFS.subPropertyOf) is None
    assert set(graph.objects(price, rdflib.URIRef(TERMS + "becomes"))) == {SDO.price, SDO.priceCurrency}
    assert (rdflib.URIRef(TERMS + "Category"), RDFS.subClassOf, SKOS.Concept) in graph


def test_every_base_unit_has_its_unit_of_qudt() -> None:
    """Name by name as QUDT 3.3 publishes them, and of the size that pint gives the unit we mean."""
    assert {row["ours"]: f"unit:{row['unit']}" for row in ROWS} == UNITS
    assert set(UNITS) == {unit.base for unit in MEASURED_IN.values()}
    registry = pint.UnitRegistry()
    for row in ROWS:
        size = registry.Quantity(1, IN_PINT.get(row["ours"], row["ours"])).to_base_units()
        in_si = float(size.magnitude) * (
            0.001 if "gram" in str(size.units) and "kilo" not in str(size.units) else 1
        )
        assert in_si == pytest.approx(float(row["multiplier"]), rel=1e-12), row["ours"]
