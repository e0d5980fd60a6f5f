"""What a record says in open vocabularies, with typed values: SKOS, schema.org, PROV-O, Dublin Core, QUDT.

Stated beside our own keys in a book's derived graph, so that a SPARQL query can compare prices, dates and sizes, and so
that other programs find words they know. Answers do not rest on it. Terms are decided in `books.openly`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from typing import Any, Final, NamedTuple
from urllib.parse import quote

from fitlore.books.iris import BASE, EDTF, FEATURE, TERMS
from fitlore.books.openly import UNITS, iri
from fitlore.model.amounts import read_quantity
from fitlore.model.category import Category
from fitlore.model.choices import How, State
from fitlore.model.dates import Period
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom
from fitlore.model.record import Rec
from fitlore.model.unit_table import UCUM


class Open(NamedTuple):
    """A statement: the IRIs of subject and predicate, and a value.

    `kind` says what the value is: empty for an IRI, `@en` for a text in a language, else the datatype's IRI.
    """

    subject: str
    predicate: str
    value: str
    kind: str = ""


_XSD: Final = "http://www.w3.org/2001/XMLSchema#"
_TYPE, _LABEL = iri("rdf:type"), iri("rdfs:label")
_STRING, _DECIMAL = _XSD + "string", _XSD + "decimal"
_CONDITIONS: Final = {
    State.NEW: iri("schema:NewCondition"),
    State.OLD_STOCK: iri("schema:NewCondition"),
    State.USED: iri("schema:UsedCondition"),
    State.EXCHANGE: iri("schema:RefurbishedCondition"),
}
"""An exchange unit is a reconditioned one; old stock was never used."""
_DATES: Final = (
    (re.compile(r"\d{4}"), _XSD + "gYear"),
    (re.compile(r"\d{4}-\d{2}"), _XSD + "gYearMonth"),
    (re.compile(r"\d{4}-\d{2}-\d{2}"), _XSD + "date"),
)
"""What XML Schema has a type for; other periods stay EDTF."""


def open_statements(record: Rec, node: str) -> tuple[Open, ...]:
    """What a citable record says in open vocabularies; `node` is the IRI of its derived node."""
    make = _MAKERS.get(type(record))
    return tuple(make(record, node)) if make else ()


def named(kind: str, name: str) -> str:
    """The IRI of what several books speak of by name: a category, a supplier, somebody who knows, a source."""
    return f"{BASE}{kind}/{quote(name, safe='')}"


def _category(record: Category, node: str) -> Iterator[Open]:
    concept = named("category", record.category)
    yield Open(concept, _TYPE, iri("skos:Concept"))
    yield Open(concept, iri("rdfs:isDefinedBy"), node)
    if record.broader:
        yield Open(concept, iri("skos:broader"), named("category", record.broader))
    for language, name in record.names.items():
        yield Open(concept, iri("skos:prefLabel"), name, f"@{language}")
    for language, names in record.also.items():
        yield from (Open(concept, iri("skos:altLabel"), name, f"@{language}") for name in names)
    yield from _from_source(concept, record.source)


def _part(record: Part, node: str) -> Iterator[Open]:
    yield Open(node, _TYPE, iri("schema:Product"))
    yield Open(node, iri("schema:mpn"), record.part, _STRING)
    yield Open(node, iri("schema:category"), named("category", record.is_))
    for name, values in record.features.items():
        for value in values:
            yield from _quantity(node, FEATURE + name, value)
    for name, measured in record.measured.items():
        piece = f"{node}.measured.{quote(name, safe='')}"
        yield Open(node, TERMS + "has-measured", piece)
        yield from _quantity(piece, FEATURE + name, measured.value)
        yield from _known(piece, measured.how, measured.by, measured.date)


def _offer(record: OfferFrom, node: str) -> Iterator[Open]:
    offer = record.offer
    yield Open(node, _TYPE, iri("schema:Offer"))
    yield Open(node, iri("schema:itemCondition"), _CONDITIONS[offer.state])
    if offer.price is not None:
        yield Open(node, iri("schema:price"), f"{offer.price.amount:f}", _DECIMAL)
        yield Open(node, iri("schema:priceCurrency"), offer.price.currency, _STRING)


def _crossfit(record: CrossFit, node: str) -> Iterator[Open]:
    yield Open(node, _TYPE, iri("prov:Entity"))
    for key, pieces in (("for", record.evidence), ("against", record.against)):
        for order, evidence in enumerate(pieces):
            piece = f"{node}.{key}.{order}"
            yield Open(node, f"{TERMS}has-evidence-{key}", piece)
            yield from _known(piece, evidence.how, evidence.by, evidence.date)
            yield from _from_source(piece, evidence.source)


def _known(piece: str, how: How, by: str, date: Period | None) -> Iterator[Open]:
    """How somebody knows, who, and since when.

    PROV wants the moment at which something came to be; of a day that is its first moment, of a month or year nothing is
    said, for a day would be made up.
    """
    yield Open(piece, _TYPE, iri("prov:Entity"))
    yield Open(piece, TERMS + "known-how", how.value, _STRING)
    if by:
        agent = named("agent", by)
        yield Open(piece, iri("prov:wasAttributedTo"), agent)
        yield Open(agent, _LABEL, by, _STRING)
    if date is not None:
        kind = next((kind for shape, kind in _DATES if shape.fullmatch(date.text)), EDTF)
        yield Open(piece, iri("dcterms:date"), date.text, kind)
        if kind == _XSD + "date":
            yield Open(piece, iri("prov:generatedAtTime"), f"{date.text}T00:00:00", _XSD + "dateTime")


def _from_source(subject: str, source: str) -> Iterator[Open]:
    if source:
        found = named("source", source)
        yield Open(subject, iri("dcterms:source"), found)
        yield Open(found, _LABEL, source, _STRING)


def _quantity(subject: str, predicate: str, text: str) -> Iterator[Open]:
    """A size, as a thing of its own that all equal sizes share: how much, in which unit."""
    found = _size(text)
    if found:
        yield Open(subject, predicate, found[0].subject)
        yield from found


@cache
def _size(text: str) -> tuple[Open, ...]:
    size = read_quantity(text)
    if size is None:
        return ()
    number = f"{size.value.normalize():f}"
    thing = named("quantity", f"{number} {size.unit}")
    return (
        Open(thing, iri("qudt:numericValue"), number, _DECIMAL),
        Open(thing, iri("qudt:hasUnit"), iri(UNITS[size.unit])),
        Open(iri(UNITS[size.unit]), iri("qudt:ucumCode"), UCUM[size.unit], iri("qudt:UCUMcs")),
    )


_MAKERS: Final[dict[type[Rec], Callable[[Any, str], Iterable[Open]]]] = {
    Category: _category,
    CrossFit: _crossfit,
    OfferFrom: _offer,
    Part: _part,
}
