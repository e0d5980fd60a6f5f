"""Statements of RDF back into the tree that the same facts have in YAML, so that one typed walk reads both.

Keys and values come in the order of the text, as they do in YAML. No meaning may hang on it: a graph has no order.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import Final, NamedTuple

from fitlore.books.context import Coding, codings
from fitlore.books.doc import Tree
from fitlore.books.iris import BASE, TERMS
from fitlore.books.raw import CONTROL
from fitlore.books.schema import KINDS
from fitlore.books.statements import DEEPEST

_RDF: Final = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
_FIRST, _REST, _NIL = _RDF + "first", _RDF + "rest", _RDF + "nil"
_BOOLEAN: Final = "http://www.w3.org/2001/XMLSchema#boolean"
_PLAIN: Final = Coding()
_REPEATS: Final = 1000
_REPEATS_EACH: Final = 20
"""Pieces that several records share are read for each: so many times in a book, and so many more for each statement."""


class Text(NamedTuple):
    """A literal."""

    value: str
    language: str
    datatype: str


class Triple(NamedTuple):
    """One statement: nodes are `<iri>` or `_:label`, the predicate is a bare IRI; `piece` counts the book's statements."""

    subject: str
    predicate: str
    object: str | Text
    piece: int


class TreeFault(NamedTuple):
    """What cannot be said in a book: a code, the node, the key, the words."""

    code: str
    node: str
    key: str
    values: dict[str, str]


class Forest:
    """The records of a book of RDF as trees. `nodes` says which node each mapping was made of (by its id)."""

    def __init__(self, triples: Iterable[Triple]) -> None:
        self.about: dict[str, list[Triple]] = defaultdict(list)
        self.pointed: set[str] = set()
        self._seen: set[str] = set()
        self._again = _REPEATS
        """How often nodes may still be gone into again: pieces that share pieces that share pieces have no end."""
        self.found: list[TreeFault] = []
        self.nodes: dict[int, str] = {}
        self.holders: dict[int, tuple[str, str]] = {}
        """Lists and inner mappings: the node whose key holds them, and that key."""
        for triple in triples:
            self.about[triple.subject].append(triple)
            self._again += _REPEATS_EACH
            if isinstance(triple.object, str) and (
                _ours(triple.predicate) or triple.predicate in (_FIRST, _REST)
            ):
                self.pointed.add(triple.object)

    def roots(self) -> list[str]:
        """The nodes that are records: those with a kind, and those that say something of ours and that no other names."""
        kinds = {TERMS + kind for kind in KINDS}
        found = []
        for node, triples in self.about.items():
            is_record = any(t.predicate in kinds for t in triples)
            loose = node not in self.pointed and any(_ours(t.predicate) for t in triples)
            if is_record or loose:
                found.append(node)
        return found

    def tree(self, node: str) -> dict[str, Tree]:
        """The mapping that a node is in a book."""
        return self._mapping(node, "", (node,))

    def _mapping(self, node: str, scope: str, above: tuple[str, ...]) -> dict[str, Tree]:
        values: dict[str, list[str | Text]] = defaultdict(list)
        keys: dict[str, Coding] = {}
        for triple in self.about[node]:
            named = self._key(triple.predicate, scope)
            if named is not None:
                key, keys[key] = named[0], named[1]
                values[key].append(triple.object)
        made: dict[str, Tree] = {}
        self.nodes[id(made)] = node
        for key, things in values.items():
            made[key] = self._values(node, key, keys[key], list(dict.fromkeys(things)), scope, above)
        return made

    def _key(self, predicate: str, scope: str) -> tuple[str, Coding] | None:
        """The key of a predicate; None where it is not ours. Below free keys nothing has a scope of its own."""
        if predicate.startswith(TERMS):
            key = predicate[len(TERMS) :]
            return key, codings().get(key, _PLAIN)
        if scope and predicate.startswith(scope):
            return predicate[len(scope) :], Coding(scope=scope)
        return (predicate[len(BASE) :], _PLAIN) if _ours(predicate) else None

    def _values(
        self,
        node: str,
        key: str,
        coding: Coding,
        objects: list[str | Text],
        scope: str,
        above: tuple[str, ...],
    ) -> Tree:
        if coding.shape == "language":
            return self._languages(node, key, objects)
        inner = coding.scope or ("" if coding.shape == "index" else scope)
        flat = [item for one in objects for item in self._items(node, key, one)]
        made = [self._one(node, key, item, inner, above) for item in flat]
        if coding.shape == "index":
            return self._by_name(node, key, made)
        if len(made) == 1:
            return made[0]
        self.holders[id(made)] = (node, key)
        return made

    def _one(self, node: str, key: str, item: str | Text, scope: str, above: tuple[str, ...]) -> Tree:
        if isinstance(item, Text):
            if item.datatype == _BOOLEAN:
                return {"true": "yes", "1": "yes", "false": "no", "0": "no"}.get(item.value, item.value)
            if not item.value:
                self.found.append(TreeFault("B30-empty-value", node, key, {"key": key}))
            hidden = CONTROL.search(item.value)
            if hidden:
                values = {"char": f"U+{ord(hidden[0]):04X}"}
                self.found.append(TreeFault("B04-control-character", node, key, values))
            return item.value
        if item in above or len(above) > DEEPEST or self._too_often(item):
            self.found.append(TreeFault("B94-circle", node, key, {"key": key}))
            return ""
        if item not in self.about:
            if item.startswith("_:"):
                self.found.append(TreeFault("B95-empty-node", node, key, {"key": key}))
            else:
                self.found.append(TreeFault("B93-iri-for-text", node, key, {"key": key, "iri": item}))
            return ""
        return self._mapping(item, scope, (*above, item))

    def _too_often(self, node: str) -> bool:
        """Notes that a node is gone into, and says whether that was once too often."""
        self._again -= node in self._seen
        self._seen.add(node)
        return self._again < 0

    def _items(self, node: str, key: str, item: str | Text) -> list[str | Text]:
        """The items of an RDF list; any other object alone."""
        if item == f"<{_NIL}>":
            self.found.append(TreeFault("B95-empty-node", node, key, {"key": key}))
            return [Text("", "", "")]
        found: list[str | Text] = []
        seen: set[str | Text] = set()
        rest: str | Text = item
        while isinstance(rest, str) and any(t.predicate == _FIRST for t in self.about.get(rest, ())):
            if rest in seen or self._too_often(rest):
                self.found.append(TreeFault("B94-circle", node, key, {"key": key}))
                return found
            seen.add(rest)
            cell = self.about[rest]
            found += [t.object for t in cell if t.predicate == _FIRST]
            rest = next((t.object for t in cell if t.predicate == _REST), f"<{_NIL}>")
        return found or [item]

    def _languages(self, node: str, key: str, objects: list[str | Text]) -> Tree:
        made: dict[str, Tree] = {}
        lists: dict[str, list[str]] = defaultdict(list)
        for one in objects:
            if isinstance(one, Text) and one.language and one.value:
                lists[one.language.lower()].append(one.value)
            else:
                self.found.append(TreeFault("B96-no-language", node, key, {"key": key}))
        for language, texts in lists.items():
            listed: list[Tree] = [*texts]
            self.holders[id(listed)] = (node, key)
            made[language] = listed[0] if len(listed) == 1 else listed
        self.holders[id(made)] = (node, key)
        return made or ""

    def _by_name(self, node: str, key: str, made: list[Tree]) -> Tree:
        """Nodes with `fl:named` as a mapping from that name."""
        found: dict[str, Tree] = {}
        self.holders[id(found)] = (node, key)
        for one in made:
            name = one.pop("named", "") if isinstance(one, dict) else ""
            if not isinstance(name, str) or not name or name in found:
                code = "B37-key-twice" if isinstance(name, str) and name else "B92-no-name"
                self.found.append(TreeFault(code, node, key, {"key": str(name) if name else key}))
                continue
            found[name] = one
        return found or ""


def _ours(predicate: str) -> bool:
    return predicate.startswith(BASE)
