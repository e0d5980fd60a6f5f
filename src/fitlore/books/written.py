"""The written graph of a book of YAML as lines, without a JSON-LD processor: the same statements, many times as fast.

`kb/context.jsonld` stays the definition. It is compiled here into tables of terms, as far as our own context goes; what
goes further (a key that is no plain word) is `Unusual`, and a JSON-LD processor has to be asked.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable
from functools import cache
from typing import Any, Final, NamedTuple

from fitlore.books.context import NAMED, context
from fitlore.books.doc import Tree
from fitlore.books.schema import KINDS

_RDF: Final = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
_FIRST, _REST, _NIL = f"<{_RDF}first>", f"<{_RDF}rest>", f"<{_RDF}nil>"
_KEY: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9@/_.-]*")
"""Keys that are put behind a vocabulary as they stand (JSON-LD 1.1 API, 5.2: no colon, no keyword)."""
_ESCAPED: Final = re.compile(r'["\\\x00-\x1f\x7f]')
_ESCAPES: Final = {'"': '\\"', "\\": "\\\\", "\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r"}


class Unusual(Exception):
    """Something that the tables do not cover."""


def literal(text: str) -> str:
    """A text in quotes, as N-Triples in its canonical form has it (RDF 1.2 N-Triples, section 4)."""
    if _ESCAPED.search(text) is None:
        return f'"{text}"'
    escaped = _ESCAPED.sub(lambda match: _ESCAPES.get(match[0]) or f"\\u{ord(match[0]):04X}", text)
    return f'"{escaped}"'


def statements(items: Iterable[Tree], graph_name: str) -> list[str]:
    """What these records say: `subject predicate object` of N-Triples, without the dot. Raises Unusual.

    A record's nodes are named after the graph and the record's name: as long as a record is not changed, its statements
    are not either, wherever it stands in the book.
    """
    found: list[str] = []
    scope, names = _scopes(), dict[str, int]()
    for item in items:
        if not isinstance(item, dict):
            raise Unusual
        kind = next(key for key in item if key in KINDS)
        name = f"{kind} {item[kind]}"
        times = names[name] = names.get(name, 0) + 1
        _Record(f"{graph_name}\n{name}\n{times}", found).node(item, scope)
    return found


class _Term(NamedTuple):
    """How a key is written: its property, what stands behind its texts, how it holds values, and the terms below it."""

    property: str
    after: str
    shape: str
    inside: _Scope | None


class _Scope(dict[str, _Term]):
    """The terms that hold somewhere; others are put behind the vocabulary."""

    def __init__(self, terms: dict[str, Any]) -> None:
        super().__init__()
        self.vocabulary = terms["@vocab"]
        for key, term in terms.items():
            if not key.startswith("@"):
                self[key] = _term({"@id": term} if isinstance(term, str) else term)

    def __missing__(self, key: str) -> _Term:
        if _KEY.fullmatch(key) is None:
            raise Unusual
        term = self[key] = _Term(f"<{self.vocabulary}{key}>", "", "", None)
        return term


def _term(term: dict[str, Any]) -> _Term:
    after = f"^^<{term['@type']}>" if "@type" in term else ""
    inside = None
    if "@context" in term:
        nothing, terms = term["@context"]
        assert nothing is None, "a context in ours forgets what is around it"
        inside = _Scope({"@vocab": "", **terms})
    return _Term(f"<{term['@id']}>", after, term.get("@container", ""), inside)


@cache
def _scopes() -> _Scope:
    terms: Any = context()
    return _Scope(terms)


class _Record:
    """Writes one record; `name` is what its nodes are named after."""

    def __init__(self, name: str, found: list[str]) -> None:
        self.found = found
        digest = hashlib.blake2b(name.encode(), digest_size=16).digest()
        self.next = int.from_bytes(digest, "big") & ((1 << 123) - 1) | 0xB << 124

    def node(self, tree: dict[str, Tree], scope: _Scope, called: str | None = None) -> str:
        """A node with all that is said about it; its name in N-Triples."""
        subject = self._new()
        if called is not None:
            self.found.append(f"{subject} <{NAMED}> {literal(called)}")
        for key, value in tree.items():
            term = scope[key]
            inside = scope if term.inside is None else term.inside
            if term.shape == "@list":
                self.found.append(f"{subject} {term.property} {self._list(value, term, inside)}")
            elif not term.shape:
                for one in value if isinstance(value, list) else (value,):
                    self.found.append(f"{subject} {term.property} {self._object(one, term, inside)}")
            elif isinstance(value, dict):
                for name, inner in value.items():
                    self._named(subject, term, name, inner, inside)
            else:
                raise Unusual
        return subject

    def _named(self, subject: str, term: _Term, name: str, value: Tree, scope: _Scope) -> None:
        """An entry of a mapping by language or by name."""
        if _KEY.fullmatch(name) is None:
            raise Unusual
        for one in value if isinstance(value, list) else (value,):
            if term.shape == "@language" and isinstance(one, str):
                self.found.append(f"{subject} {term.property} {literal(one)}@{name.lower()}")
            elif term.shape == "@index" and isinstance(one, dict):
                self.found.append(f"{subject} {term.property} {self.node(one, scope, name)}")
            else:
                raise Unusual

    def _object(self, value: Tree, term: _Term, scope: _Scope) -> str:
        if isinstance(value, str):
            return literal(value) + term.after
        if isinstance(value, list):
            raise Unusual
        return self.node(value, scope)

    def _list(self, value: Tree, term: _Term, scope: _Scope) -> str:
        rest = _NIL
        for one in reversed(value if isinstance(value, list) else [value]):
            cell = self._new()
            self.found.append(f"{cell} {_FIRST} {self._object(one, term, scope)}")
            self.found.append(f"{cell} {_REST} {rest}")
            rest = cell
        return rest

    def _new(self) -> str:
        self.next += 1
        return f"_:{self.next:x}"
