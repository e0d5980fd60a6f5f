"""Every fault that reading a book of RDF can find beyond those of records (B90 to B98)."""

from __future__ import annotations

from typing import Final

from fitlore.books.faults import Fault, register
from fitlore.model.diagnostic import Severity

_E: Final = Severity.ERROR

register(
    (
        Fault(
            "B90-not-rdf",
            _E,
            "A statement that cannot be read",
            "this statement cannot be read: {problem}",
            "a statement of the file's format, ended as that format ends one",
            "Look at the end of the statement before it as well: a missing dot, quote or bracket shows only here.",
        ),
        Fault(
            "B91-strange-context",
            _E,
            "A JSON-LD context that would have to be fetched",
            "the context {iri} is somewhere else, and nothing is ever fetched",
            "the context of books by its address, or a context written into the file",
            "Write the context itself into the file.",
        ),
        Fault(
            "B92-no-name",
            _E,
            "A place or assembly without its name",
            "a node under `{key}` has no `fl:named`",
            "`fl:named` with its name",
            "Add it: it is what stands before the colon in a book of YAML.",
        ),
        Fault(
            "B93-iri-for-text",
            _E,
            "An address where a text belongs",
            "`{key}` is the address {iri}, of which this book says nothing",
            "a text: names and numbers are texts in books",
            "Put the name or number in quotes.",
        ),
        Fault(
            "B94-circle",
            _E,
            "Statements that lead round in a circle",
            "`{key}` leads back to where it began, or deeper or to more than any record holds",
            "nodes that end somewhere",
            "Name things by text; only pieces of a record are nodes inside it.",
        ),
        Fault(
            "B95-empty-node",
            _E,
            "A node or list with nothing in it",
            "`{key}` is a node or list with nothing in it",
            "at least one statement about it",
            "Leave the statement out.",
        ),
        Fault(
            "B96-no-language",
            _E,
            "A name without its language",
            "a text of `{key}` has no language",
            'a language behind the text, as "..."@en-gb',
            "Write the language in small letters behind an @.",
        ),
        Fault(
            "B97-not-json",
            _E,
            "The text cannot be read as JSON",
            "the text cannot be read from here: {problem}",
            "JSON (RFC 8259)",
            "Look for a missing or extra comma just before it.",
        ),
        Fault(
            "B98-json-key-twice",
            _E,
            "A key given twice in JSON",
            "`{key}` is given twice in one object; nothing of this file was read",
            "every key once",
            "Make one list of both values.",
        ),
    )
)
