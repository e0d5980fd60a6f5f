"""A written graph as a text of RDF that people can read: sorted, so always the same for the same statements, or in their order.

Nodes without a name stand in brackets where they belong (`[ fl:number "A" ; fl:price "1.00 GBP" ]`), one record after the
other. Sources: RDF 1.1 Turtle, TriG, N-Triples and N-Quads (W3C 2014).
"""

from __future__ import annotations

import json
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Final, TypeAlias

from fitlore.books.iris import EDTF, FACT, FEATURE, TERMS, WORD, XSD_INTEGER
from fitlore.books.schema import KINDS
from fitlore.books.tree import Text, Triple

_RDF: Final = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
_FIRST, _REST, _NIL = _RDF + "first", _RDF + "rest", f"<{_RDF}nil>"
_STRING: Final = "http://www.w3.org/2001/XMLSchema#string"
_PREFIXES: Final = {
    "fl": TERMS,
    "feature": FEATURE,
    "fact": FACT,
    "word": WORD,
    "edtf": EDTF.removesuffix("EDTF"),
    "xsd": _STRING.removesuffix("string"),
}
_LOCAL: Final = re.compile(r"[A-Za-z](?:[A-Za-z0-9-]*[A-Za-z0-9])?")
_WIDE: Final = 110
_Pair: TypeAlias = "tuple[str, str | Text]"


def as_turtle(triples: Iterable[Triple], *, in_order: bool = False) -> str:
    """A graph as Turtle; `in_order`: in the order of the statements, else sorted."""
    return "\n".join([_head(), *(f"\n{text} ." for text in _Graph(triples, in_order).blocks()), ""])


def as_trig(graphs: Mapping[str, Iterable[Triple]], *, in_order: bool = False) -> str:
    """Named graphs as TriG, sorted by name."""
    parts = [_head()]
    for name, triples in sorted(graphs.items()):
        blocks = "\n".join(f"{text} ." for text in _Graph(triples, in_order).blocks())
        parts.append(f"\n<{name}> {{\n{blocks}\n}}")
    return "\n".join([*parts, ""])


def as_lines(graphs: Mapping[str, Iterable[Triple]], *, in_order: bool = False) -> str:
    """Graphs as N-Quads; the graph named with an empty text as N-Triples. Labels of blank nodes count through."""
    lines: list[str] = []
    count = 0
    for name, triples in sorted(graphs.items()):
        graph = _Graph(triples, in_order)
        labels = {node: f"_:b{count + number}" for number, node in enumerate(graph.blank_nodes())}
        count += len(labels)
        end = f" <{name}> ." if name else " ."
        lines += [line + end for line in graph.statements(labels)]
    return "".join(f"{line}\n" for line in (lines if in_order else sorted(lines)))


def _head() -> str:
    return "\n".join(f"@prefix {prefix}: <{iri}> ." for prefix, iri in _PREFIXES.items())


class _Graph:
    """A graph with its nodes in one order: that of the statements, or one that depends on nothing but what is said."""

    def __init__(self, triples: Iterable[Triple], in_order: bool) -> None:
        self.about: dict[str, list[_Pair]] = defaultdict(list)
        held: dict[str, int] = defaultdict(int)
        for triple in dict.fromkeys(triples):
            self.about[triple.subject].append((triple.predicate, triple.object))
            if isinstance(triple.object, str):
                held[triple.object] += 1
        for node in [thing for thing in held if thing.startswith("_:")]:
            self.about.setdefault(node, [])
        self._inside = {node for node in self.about if node.startswith("_:") and held[node] == 1}
        self._break_circles()
        self._named = [n for n in self.about if n.startswith("_:") and n not in self._inside and held[n]]
        self._flat: dict[str, str] = {}
        self.roots = [node for node in self.about if node not in self._inside]
        if not in_order:
            for pairs in self.about.values():
                pairs.sort(key=lambda pair: (_first_kind(pair[0]), pair[0], self._key(pair[1])))
            self._named.sort(key=self._said)
        self._labels = {node: f"_:n{number}" for number, node in enumerate(self._named, 1)}
        if not in_order:
            self.roots.sort(key=lambda node: (self._name(node), self._said(node)))

    def blocks(self) -> list[str]:
        """Each node that stands by itself with all that is said of it, as Turtle without the dot."""
        return [f"{self._name(node)} {self._pairs(node, 1)}" for node in self.roots if self.about[node]]

    def blank_nodes(self) -> Iterator[str]:
        """Every node without a name, in order."""
        todo = self.roots[::-1]
        while todo:
            node = todo.pop()
            if node.startswith("_:"):
                yield node
            inner = [o for _, o in self.about[node] if isinstance(o, str) and o in self._inside]
            todo += reversed(inner)

    def statements(self, labels: Mapping[str, str]) -> Iterator[str]:
        """Every statement as N-Triples, without the dot."""
        for subject, pairs in self.about.items():
            for predicate, thing in pairs:
                shown = labels.get(thing, thing) if isinstance(thing, str) else _literal(thing, short=False)
                yield f"{labels.get(subject, subject)} <{predicate}> {shown}"

    def _break_circles(self) -> None:
        """Of nodes that hold one another in a circle, one stands by itself."""
        reached: set[str] = set()
        for start in [*(node for node in self.about if node not in self._inside), *sorted(self._inside)]:
            if start in reached:
                continue
            self._inside.discard(start)
            todo = [start]
            while todo:
                node = todo.pop()
                reached.add(node)
                todo += [
                    o
                    for _, o in self.about[node]
                    if isinstance(o, str) and o in self._inside and o not in reached
                ]

    def _name(self, node: str) -> str:
        return node if node.startswith("<") else self._labels.get(node, "[]")

    def _key(self, thing: str | Text) -> str:
        """What a thing is sorted by: a node without a name by what it says."""
        if isinstance(thing, Text):
            return _literal(thing)
        return f"[{self._said(thing)}]" if thing in self._inside else thing if thing.startswith("<") else "_:"

    def _said(self, node: str) -> str:
        if node not in self._flat:
            pairs = ((_first_kind(p), p, self._key(o)) for p, o in self.about[node])
            self._flat[node] = " ; ".join(f"{predicate} {key}" for _, predicate, key in sorted(pairs))
        return self._flat[node]

    def _pairs(self, node: str, depth: int) -> str:
        """What is said of a node: in one line where that is short, else a key a line."""
        keys: dict[str, list[str]] = {}
        for predicate, thing in self.about[node]:
            keys.setdefault(_short(predicate), []).append(self._thing(thing, depth + 1))
        lead = "    " * depth
        rows = []
        for key, things in keys.items():
            one = f"{key} {' , '.join(things)}"
            if len(one) > _WIDE and len(things) > 1:
                further = [thing.replace("\n", "\n    ") for thing in things]
                one = f"{key}\n{lead}    " + f" ,\n{lead}    ".join(further)
            rows.append(one)
        whole = " ; ".join(rows)
        if depth > 1 and len(whole) <= _WIDE and "\n" not in whole:
            return whole
        return f" ;\n{lead}".join(rows)

    def _thing(self, thing: str | Text, depth: int) -> str:
        if isinstance(thing, Text):
            return _literal(thing)
        if thing not in self._inside:
            return thing if thing.startswith("<") else self._labels.get(thing, thing)
        items = self._list(thing)
        if items is not None:
            return f"( {' '.join(self._thing(item, depth) for item in items)} )"
        said = self._pairs(thing, depth) if self.about[thing] else ""
        return f"[ {said} ]" if said else "[]"

    def _list(self, node: str) -> list[str | Text] | None:
        """The items of an RDF list whose cells are written nowhere else."""
        found: list[str | Text] = []
        at: str | Text = node
        while at != _NIL:
            cell = dict(self.about.get(at, ())) if isinstance(at, str) and at in self._inside else {}
            if len(cell) != 2 or set(cell) != {_FIRST, _REST} or len(self.about[str(at)]) != 2:
                return None
            found.append(cell[_FIRST])
            at = cell[_REST]
        return found


def _first_kind(predicate: str) -> bool:
    """Sorts the kind of a record before all else that is said of it."""
    return not (predicate.startswith(TERMS) and predicate[len(TERMS) :] in KINDS)


def _short(predicate: str) -> str:
    if predicate == _RDF + "type":
        return "a"
    for prefix, iri in _PREFIXES.items():
        if predicate.startswith(iri) and _LOCAL.fullmatch(predicate[len(iri) :]):
            return f"{prefix}:{predicate[len(iri) :]}"
    return f"<{predicate}>"


def _literal(text: Text, *, short: bool = True) -> str:
    """A literal; JSON's escapes are among Turtle's and N-Triples' (2.5.1 and 6.4 of Turtle)."""
    quoted = json.dumps(text.value, ensure_ascii=False)
    if text.language:
        return f"{quoted}@{text.language}"
    if text.datatype == _STRING:
        return quoted
    if short and text.datatype == XSD_INTEGER and re.fullmatch(r"0|[1-9][0-9]*", text.value):
        return text.value
    return f"{quoted}^^{_short(text.datatype) if short else f'<{text.datatype}>'}"
