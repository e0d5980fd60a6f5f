"""Inputs made to hurt: each a name, the ending of the book, and its bytes, larger or smaller by a scale."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, TypeAlias

from fitlore.books.iris import CONTEXT, TERMS

Input: TypeAlias = "tuple[str, Callable[[int], bytes]]"

_FL: Final = f"@prefix fl: <{TERMS}> .\n".encode()
_RDF: Final = b"http://www.w3.org/1999/02/22-rdf-syntax-ns#"
_PART: Final = b"- part: A 1\n  maker: Velm\n  is: gas-strut\n"
_NODE: Final = b'[] fl:part "A 1" ; fl:maker "Velm" ; fl:is "gas-strut"'
_JSON: Final = f'{{"@context": "{CONTEXT}", "@graph": ['.encode()
_PLAIN: Final = b'{"part": "A 1", "maker": "Velm", "is": "gas-strut"'


def _lines(made: Callable[[int], bytes], count: int) -> bytes:
    return b"".join(made(number) for number in range(count))


def _doubling(levels: int) -> bytes:
    """Each node is held twice by the one above it."""
    rows = _lines(lambda i: b"_:n%d fl:contains _:n%d ; fl:brings _:n%d .\n" % (i, i + 1, i + 1), levels)
    return _FL + b'_:n0 fl:part "A 1" ; fl:is "gas-strut" .\n' + rows + b'_:n%d fl:number "B 1" .\n' % levels


def _many_in_many(count: int) -> bytes:
    """Many records hold one list of many items."""
    cell = b"_:c%d <" + _RDF + b'first> "x%d" .\n_:c%d <' + _RDF + b"rest> _:c%d .\n"
    cells = _lines(lambda i: cell % (i, i, i, i + 1), count)
    records = _lines(lambda i: b'_:r%d fl:part "A %d" ; fl:is "hose" ; fl:contains _:c0 .\n' % (i, i), count)
    return _FL + cells + records


YAML: Final[dict[str, Input]] = {
    "brackets": (".yaml", lambda n: _PART + b"  note: " + b"[" * (n * 1000)),
    "closed brackets": (".yaml",
        lambda n: _PART + b"  note: " + b"[" * 900 + b"]" * 900 + b"\n" + _lines(lambda i: b"- part: B%d\n" % i, n)),
    "braces": (".yaml", lambda n: b"- " + b"{a: " * (n * 1000)),
    "dashes": (".yaml", lambda n: b"- " * (n * 1000) + b"a"),
    "question marks": (".yaml", lambda n: b"? " * (n * 1000) + b"a"),
    "ever deeper": (".yaml", lambda n: _lines(lambda i: b" " * i + b"a:\n", min(n * 30, 3000))),
    "aliases": (".yaml", lambda n: b"- a: &a [x, x]\n" + _lines(lambda i: b"- b%d: &b%d [*a, *a, *a]\n" % (i, i), n * 100)),
    "tags": (".yaml", lambda n: b"- part: !!python/object/apply:os.system x\n" * (n * 200)),
    "merge keys": (".yaml", lambda n: b"- part: A\n  <<: {a: b}\n" * (n * 200)),
    "documents": (".yaml", lambda n: _PART + b"---\n- part: B\n" * (n * 200)),
    "directives": (".yaml", lambda n: b"%TAG ! tag:a,2000:\n" * (n * 200) + b"---\n" + _PART),
    "unknown keys": (".yaml", lambda n: _PART + _lines(lambda i: b"  k%d: x\n" % i, n * 200)),
    "unknown keys, one line": (".yaml", lambda n: b"- {part: A, " + _lines(lambda i: b"k%d: x, " % i, n * 200) + b"is: b}\n"),
    "faults, one line": (".yaml", lambda n: b"[" + _lines(lambda i: b"{part: A%d, iss: b}, " % i, n * 200) + b"]\n"),
    "no values, one line": (".yaml", lambda n: b"- {part: A, " + _lines(lambda i: b"k%d, " % i, n * 200) + b"is: b}\n"),
    "no spaces, one line": (".yaml", lambda n: b"- {part: A, " + _lines(lambda i: b"k%d:x, " % i, n * 200) + b"is: b}\n"),
    "no kind": (".yaml", lambda n: b"- " + _lines(lambda i: b"  k%d: x\n" % i, n * 200).lstrip()),
    "huge text": (".yaml", lambda n: _PART + b"  note: " + b"x" * (n * 1_000_000) + b"\n"),
    "huge text, folded": (".yaml", lambda n: _PART + b"  note: >-\n" + b"    x x x x x x x x x x\n" * (n * 10_000)),
    "huge number": (".yaml", lambda n: b"- part: " + b"9" * (n * 50_000) + b"\n  is: b\n"),
    "huge key": (".yaml", lambda n: _PART + b"  " + b"k" * (n * 50_000) + b": x\n"),
    "huge key, quoted": (".yaml", lambda n: _PART + b"  ? " + b"k" * (n * 50_000) + b"\n  : x\n"),
    "huge name": (".yaml", lambda n: b"- part: A\n  is: " + b"k-" * (n * 25_000) + b"k\n"),
    "huge amounts": (".yaml", lambda n: _PART + b"  measured: {length: {value: " + b"1" * (n * 20_000) + b" mm}}\n"),
    "quotes": (".yaml", lambda n: b'"' * (n * 10_000 + 1)),
    "colons": (".yaml", lambda n: b"- part: " + b"a:" * (n * 10_000)),
    "half of every record": (".yaml", lambda n: b"- part: 'A\n- part: B\n" * (n * 100)),
    "control characters": (".yaml", lambda n: b"- part: \x01\n" * (n * 1000)),
    "no text at all": (".yaml", lambda n: bytes(range(256)) * (n * 40)),
    "Latin-1": (".yaml", lambda n: "- part: gr\u00fcn\n".encode("latin-1") * (n * 200)),
    "NUL": (".yaml", lambda n: b"- part: A\0\n" * (n * 200)),
    "UTF-16": (".yaml", lambda n: ("- part: A\n" * (n * 200)).encode("utf-16")),
    "UTF-32": (".yaml", lambda n: ("- part: A\n" * (n * 200)).encode("utf-32")),
    "UTF-32 without a mark": (".yaml", lambda n: ("- part: A\n" * (n * 200)).encode("utf-32-be")),
    "halves of characters": (".yaml", lambda n: b"- part: \xed\xa0\x80\n" * (n * 200)),
    "strange ends of line": (".yaml", lambda n: "- part: A\u0085  is: b\u2028\u2029- part: B\n".encode() * (n * 100)),
    "CR only": (".yaml", lambda n: b"- part: A 1\r  is: gas-strut\r" * (n * 100)),
    "tabs": (".yaml", lambda n: b"-\tpart:\tA\n\tis:\tb\n" * (n * 100)),
}  # fmt: skip

RDF: Final[dict[str, Input]] = {
    "quotes": (".ttl", lambda n: b'"' * (n * 10_000 + 1)),
    "long text": (".ttl", lambda n: _FL + _NODE + b' ; fl:note """' + b"x " * (n * 100_000) + b'""" .\n'),
    "open text": (".ttl", lambda n: _FL + _NODE + b' ; fl:note """' + b"x " * (n * 100_000)),
    "brackets": (".ttl",
        lambda n: _FL + _NODE + b" ; fl:contains " + b"[ fl:contains " * (n * 1000) + b'"x"' + b" ]" * (n * 1000) + b" .\n"),
    "open brackets": (".ttl", lambda n: _FL + _NODE + b" ; fl:contains " + b"[ fl:contains " * (n * 1000)),
    "lists in lists": (".ttl",
        lambda n: _FL + _NODE + b" ; fl:contains " + b"( " * (n * 1000) + b'"x"' + b" )" * (n * 1000) + b" .\n"),
    "prefixes": (".ttl", lambda n: _lines(lambda i: b'@prefix p%d: <urn:%d:> .\np%d:a p%d:b "c" .\n' % (i, i, i, i), n * 100)),
    "bases": (".ttl", lambda n: _lines(lambda i: b'@base <a%d/> .\n<x> <y> "c" .\n' % i, n * 20)),
    "unknown keys": (".ttl", lambda n: _FL + _NODE + _lines(lambda i: b' ; fl:k%d "x"' % i, n * 200) + b" .\n"),
    "many objects": (".ttl",
        lambda n: _FL + _NODE + b" ; fl:replaced-by " + _lines(lambda i: b'"x%d", ' % i, n * 500) + b'"y" .\n'),
    "faults, one line": (".ttl", lambda n: _FL + _lines(lambda i: b'[] fl:part "A%d" ; fl:iss "b" . ' % i, n * 100)),
    "dots": (".ttl", lambda n: b"a" + b"." * (n * 2000)),
    "a long word": (".ttl", lambda n: b"a" * (n * 100_000)),
    "a long IRI": (".ttl", lambda n: b"<http://a.example/" + b"a" * (n * 200_000) + b'> <urn:p> "x" .\n'),
    "a long path": (".ttl", lambda n: b"@base <http://a.example/> .\n<" + b"../" * (n * 10_000) + b'x> <urn:p> "x" .\n'),
    "a chain of nodes": (".nt", lambda n: _lines(lambda i: b"_:b%d <%bpart> _:b%d .\n" % (i, TERMS.encode(), i + 1), n * 200)),
    "nodes": (".nt", lambda n: _lines(lambda i: b'_:b%d <%bpart> "A %d" .\n' % (i, TERMS.encode(), i), n * 200)),
    "strange nodes": (".nt", lambda n: _lines(lambda i: b"_:b%d <urn:p> _:c%d .\n" % (i, i), n * 500)),
    "doubling": (".ttl", lambda n: _doubling(15)),
    "doubling without end": (".ttl", lambda n: _doubling(n * 50)),
    "one list in many": (".ttl", lambda n: _many_in_many(n * 30)),
    "a list in itself": (".ttl",
        lambda n: _FL + _NODE + b' ; fl:contains _:l .\n_:l <' + _RDF + b'first> "B 1" ; <' + _RDF + b"rest> _:l .\n"),
    "a node in itself": (".ttl", lambda n: _FL + b'_:a fl:part "A 1" ; fl:is "gas-strut" ; fl:contains _:a .\n'),
    "statements about statements": (".ttl", lambda n: _FL + b'<< <urn:a> <urn:b> "c" >> fl:part "A" .\n' * n),
    "JSON brackets": (".jsonld", lambda n: b"[" * (n * 1000)),
    "closed JSON brackets": (".jsonld", lambda n: b"[" * (n * 1000) + b"]" * (n * 1000)),
    "JSON in JSON": (".jsonld",
        lambda n: _JSON + _PLAIN + b', "contains": ' + b'{"contains": ' * 900 + b'"x"' + b"}" * 900 + b"}]}"),
    "JSON keys": (".jsonld", lambda n: _JSON + _PLAIN + _lines(lambda i: b', "k%d": "x"' % i, n * 200) + b"}]}"),
    "JSON keys twice": (".jsonld",
        lambda n: _JSON + _PLAIN + _lines(lambda i: b', "k%d": "x", "k%d": "y"' % (i, i), n * 100) + b"}]}"),
    "JSON records": (".jsonld",
        lambda n: _JSON + _lines(lambda i: b'{"part": "A %d", "iss": "b"}, ' % i, n * 50) + _PLAIN + b"}]}"),
    "a JSON number": (".jsonld", lambda n: _JSON + _PLAIN + b', "quantity": ' + b"9" * (n * 1000 + 5000) + b"}]}"),
    "JSON halves of characters": (".jsonld", lambda n: b'{"\\ud800": 1, "\\ud800": 2, "@context": "\\udc00"}'),
    "two graphs in JSON": (".jsonld", lambda n: b'{"@graph": {"a": 1}, "@graph": [1, 2]}'),
}  # fmt: skip

ALL: Final = {f"{name} ({row[0]})": row for name, row in [*YAML.items(), *RDF.items()]}
