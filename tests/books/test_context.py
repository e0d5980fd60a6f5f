"""The JSON-LD context and the vocabulary that `kb` ships are what the Structs make them."""

from __future__ import annotations

import json

import rdflib
from rdflib.namespace import RDF, RDFS

from fitlore.books.context import codings, context, context_text, vocabulary_text
from fitlore.books.iris import EDTF, FACT, FEATURE, TERMS, XSD_INTEGER
from fitlore.books.layout import builtin_kb
from fitlore.books.schema import KINDS


def test_the_committed_files_are_current() -> None:
    """`kb/context.jsonld` and `kb/vocabulary.ttl` are generated: after a change of a Struct, write them anew."""
    assert (builtin_kb() / "context.jsonld").read_text("utf-8") == context_text()
    assert (builtin_kb() / "vocabulary.ttl").read_text("utf-8") == vocabulary_text()


def test_the_context_coerces_no_text_to_an_address() -> None:
    """A part number has spaces: as an address it would be dropped in silence by JSON-LD processors, so none is one."""
    text = json.dumps(context())
    assert '"@id"' in text
    assert '"@type": "@id"' not in text
    assert '"@type": "@vocab"' not in text


def test_keys_keep_one_meaning() -> None:
    """Counts are integers, dates EDTF, free keys have vocabularies of their own, and each key has one coding."""
    rows = codings()
    assert rows["quantity"].datatype == XSD_INTEGER
    assert rows["built"].datatype == rows["seen"].datatype == EDTF
    assert rows["features"].scope == rows["must-be"].scope == FEATURE
    assert rows["only-if"].scope == rows["facts"].scope == FACT
    assert rows["names"].shape == "language"
    assert rows["places"].shape == "index"


def test_the_vocabulary_describes_every_key() -> None:
    """The Turtle is read by rdflib: each key is a property, each kind key has the class of its record as domain."""
    graph = rdflib.Graph().parse(data=vocabulary_text(), format="turtle")
    properties = {str(subject) for subject in graph.subjects(RDF.type, RDF.Property)}
    assert properties == {TERMS + key for key in codings()}
    for kind, struct in KINDS.items():
        assert str(graph.value(rdflib.URIRef(TERMS + kind), RDFS.domain)) == TERMS + struct.__name__
    assert all(graph.value(rdflib.URIRef(TERMS + struct.__name__), RDFS.comment) for struct in KINDS.values())
