"""What our classes and keys are in open vocabularies, decided once; the vocabulary that `kb` ships is written from it.

Sources: SKOS Reference (W3C 2009), PROV-O (W3C 2013), DCMI Metadata Terms and Elements 1.1, schema.org, QUDT Schema 3.3.
"""

from __future__ import annotations

from typing import Final

PREFIXES: Final = {
    "dc": "http://purl.org/dc/elements/1.1/",
    "dcterms": "http://purl.org/dc/terms/",
    "owl": "http://www.w3.org/2002/07/owl#",
    "prov": "http://www.w3.org/ns/prov#",
    "qudt": "http://qudt.org/schema/qudt/",
    "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
    "rdfs": "http://www.w3.org/2000/01/rdf-schema#",
    "schema": "https://schema.org/",
    "sh": "http://www.w3.org/ns/shacl#",
    "skos": "http://www.w3.org/2004/02/skos/core#",
    "unit": "http://qudt.org/vocab/unit/",
    "xsd": "http://www.w3.org/2001/XMLSchema#",
}


def iri(term: str) -> str:
    """The IRI of `skos:broader`. Raises KeyError for a prefix that is not ours to use."""
    prefix, _, name = term.partition(":")
    return PREFIXES[prefix] + name


CLASSES: Final[dict[str, tuple[str, ...]]] = {
    "Car": ("schema:Car",),
    "Category": ("skos:Concept",),
    "CrossFit": ("prov:Entity",),
    "Donor": ("schema:Car",),
    "Evidence": ("prov:Entity",),
    "Issuer": ("schema:Organization",),
    "Offer": ("schema:Offer",),
    "Part": ("schema:Product",),
    "Quality": ("prov:Entity",),
    "Supplier": ("prov:Agent",),
}
"""Classes of ours (by the Struct's name) that are narrower than an open one."""

NEAR_CLASSES: Final[dict[str, tuple[str, ...]]] = {
    "Carriage": ("schema:DeliveryChargeSpecification",),
    "Contained": ("schema:TypeAndQuantityNode",),
    "ExchangeRate": ("schema:ExchangeRateSpecification",),
    "Law": ("schema:Legislation",),
    "Measured": ("schema:PropertyValue",),
    "Platform": ("schema:ProductGroup",),
    "Shop": ("schema:Organization",),
    "Supplier": ("schema:Organization", "schema:Person"),
}
"""Open classes that are near, but not broader: a private supplier is a person, a shop's record is its settings."""

KEYS: Final[dict[str, tuple[str, ...]]] = {
    "about": ("dcterms:description",),
    "also": ("skos:altLabel",),
    "called": ("skos:altLabel",),
    "car": ("dcterms:identifier",),
    "category": ("dcterms:identifier",),
    "crossfit": ("dcterms:identifier",),
    "date": ("dcterms:date",),
    "donor": ("dcterms:identifier",),
    "issuer": ("schema:name",),
    "job": ("dcterms:identifier",),
    "name": ("schema:name",),
    "names": ("skos:prefLabel",),
    "note": ("skos:note",),
    "offers": ("schema:makesOffer",),
    "part": ("schema:mpn",),
    "platform": ("dcterms:identifier",),
    "policy": ("dcterms:identifier",),
    "quality": ("dcterms:identifier",),
    "read": ("dcterms:date",),
    "seen": ("dcterms:date",),
    "shared-work": ("dcterms:identifier",),
    "shop": ("dcterms:identifier",),
    "sides-note": ("skos:note",),
    "source": ("dc:source",),
    "stores": ("dcterms:identifier",),
    "supplier": ("dcterms:identifier",),
}
"""Keys that are narrower than an open property, with the very value they have as text in a book."""

NEAR_KEYS: Final[dict[str, tuple[str, ...]]] = {
    "brings": ("schema:includesObject",),
    "built": ("schema:productionDate",),
    "country": ("schema:addressCountry",),
    "currency": ("schema:currency",),
    "days": ("schema:deliveryLeadTime",),
    "distance": ("schema:distance",),
    "is": ("schema:category",),
    "maker": ("schema:manufacturer",),
    "minutes": ("schema:timeRequired",),
    "number": ("schema:mpn",),
    "open": ("schema:openingHours",),
    "replaced-by": ("schema:predecessorOf",),
    "same-as": ("schema:isSimilarTo",),
    "service": ("schema:serviceType",),
    "stock": ("schema:inventoryLevel",),
    "tax": ("schema:valueAddedTaxIncluded",),
    "until": ("schema:priceValidUntil",),
    "warranty": ("schema:warranty",),
    "weight": ("schema:weight",),
}
"""Open properties about the same thing, whose values are of another kind: stated of nothing, only pointed to."""

BECOMES: Final[dict[str, tuple[str, ...]]] = {
    "also": ("skos:altLabel",),
    "broader": ("skos:broader",),
    "by": ("prov:wasAttributedTo",),
    "date": ("dcterms:date", "prov:generatedAtTime"),
    "features": ("qudt:numericValue", "qudt:hasUnit", "qudt:ucumCode"),
    "is": ("schema:category",),
    "measured": ("qudt:numericValue", "qudt:hasUnit", "qudt:ucumCode"),
    "names": ("skos:prefLabel",),
    "part": ("schema:mpn",),
    "price": ("schema:price", "schema:priceCurrency"),
    "source": ("dcterms:source",),
    "state": ("schema:itemCondition",),
}
"""Keys whose typed values the derived graph states under open properties."""

UNITS: Final[dict[str, str]] = {
    "1": "unit:UNITLESS",
    "mm": "unit:MilliM",
    "A": "unit:A",
    "Ah": "unit:A-HR",
    "V": "unit:V",
    "W": "unit:W",
    "ohm": "unit:OHM",
    "N": "unit:N",
    "N.m": "unit:N-M",
    "bar": "unit:BAR",
    "g": "unit:GM",
    "l": "unit:L",
    "min": "unit:MIN",
    "deg": "unit:DEG",
    "%": "unit:PERCENT",
    "degC": "unit:DEG_C",
    "mm2": "unit:MilliM2",
    "cd": "unit:CD",
    "lm": "unit:LM",
    "Hz": "unit:HZ",
    "1/min": "unit:PER-MIN",
    "tpi": "unit:PER-IN",
    "N/mm": "unit:N-PER-MilliM",
}
"""Base units (`model.units`) in the unit vocabulary of QUDT."""
