"""The names of things in RDF, decided once. Nobody owns a domain for this project: `.example` is reserved (RFC 2606)."""

from __future__ import annotations

from typing import Final

BASE: Final = "https://fitlore.example/"
TERMS: Final = BASE + "terms#"
"""`fl:` the vocabulary: the keys of books."""
FEATURE: Final = BASE + "feature#"
"""Free keys of `features`, `must-be` and `measured`."""
FACT: Final = BASE + "fact#"
"""Free keys of `facts`, `only-if`, `changed-at`, `seen-on`, and names of number series."""
WORD: Final = BASE + "word#"
"""Other free keys: days of `open`, places of `really-on-it`, kinds in a policy."""
SHAPES: Final = BASE + "shapes#"
"""`fls:` the shapes of the written graph, and what they state for their own use."""
BOOKS: Final = BASE + "book/"
"""The named graph of a book is this, its shelf's name and its path inside the shelf, percent-encoded."""
CONTEXT: Final = BASE + "context.jsonld"
EDTF: Final = "http://id.loc.gov/datatypes/edtf/EDTF"
XSD_INTEGER: Final = "http://www.w3.org/2001/XMLSchema#integer"
