"""Where the facts of a book of RDF stand: by statement, by bracket, and by key where the statement says it only once."""

from __future__ import annotations

import re
from bisect import bisect_left
from typing import Final

from fitlore.books.doc import Holder, Spot, fault_at, spot_in
from fitlore.books.faults import MOST
from fitlore.books.raw import Found, line_starts
from fitlore.books.statements import DEEPEST, Bracket, Statement
from fitlore.books.tree import Forest, Text, Triple
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin

LABELLED: Final = "x"
"""How the label of a blank node begins that its book gave; those that a parser makes up are hexadecimal."""
_WORD: Final = re.compile(r'(?<=[:#"/])[\w.-]+')
_RDF: Final = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"


class RdfSource:
    """The places of a book of RDF, for the walk."""

    def __init__(self, shown: str, text: str, statements: list[Statement], triples: list[Triple]) -> None:
        self.shown = shown
        self.text = text
        self.statements = statements
        self.found: list[Diagnostic] = []
        self.more = 0
        """Faults of the text beyond those that are told."""
        self._words: dict[int, dict[str, list[int]]] = {}
        self._starts = line_starts(text)
        self._piece: dict[str, int] = {}
        self._count: dict[str, int] = {}
        """Which of its statement's nodes a node is, in the order of the text."""
        counts: dict[int, int] = {}
        for triple in triples:
            if triple.subject not in self._piece:
                self._piece[triple.subject] = triple.piece
                self._count[triple.subject] = counts[triple.piece] = counts.get(triple.piece, -1) + 1
        self._brackets = bracket_places(statements, triples)
        self._nodes: dict[int, str] = {}
        self._holders: dict[int, tuple[str, str]] = {}

    def know(self, forest: Forest) -> None:
        """Takes over which mapping was made of which node."""
        self._nodes = forest.nodes
        self._holders = forest.holders

    def place_of(self, node: str) -> int:
        """The index at which a node begins: its bracket, else its statement."""
        if node in self._brackets:
            return self._brackets[node].at
        piece = self._piece.get(node)
        return self.statements[piece].start if piece is not None else 0

    def key_of(self, node: str, key: str) -> Spot:
        """The place of a key of a node, where its bracket (or statement) has that word only once; else the node's place."""
        piece = self._piece.get(node)
        if piece is not None:
            statement, bracket = self.statements[piece], self._brackets.get(node)
            start = bracket.at if bracket else statement.start
            end = bracket.end if bracket else statement.start + len(statement.text)
            places = self._words_of(piece).get(key, ())
            first = bisect_left(places, start)
            if bisect_left(places, end) - first == 1:
                return self._spot(places[first], len(key))
        return self._spot(self.place_of(node), 1)

    def _words_of(self, piece: int) -> dict[str, list[int]]:
        """Where the words of a statement stand that can be keys."""
        if piece not in self._words:
            start = self.statements[piece].start
            words: dict[str, list[int]] = {}
            for match in _WORD.finditer(self.text, start, start + len(self.statements[piece].text)):
                words.setdefault(match[0], []).append(match.start())
            self._words[piece] = words
        return self._words[piece]

    def key(self, holder: Holder, key: str | int) -> Spot:
        """The place of a key, or of an item of a list."""
        if isinstance(key, int) or isinstance(holder, list):
            return self.value(holder, key)
        node, outer = self._owner(holder)
        return self.key_of(node, outer or key)

    def value(self, holder: Holder, key: str | int) -> Spot:
        """The place of a value: a node's own, else that of its key."""
        inner = holder[int(key)] if isinstance(holder, list) else holder[str(key)]
        if id(inner) in self._nodes:
            return self._spot(self.place_of(self._nodes[id(inner)]), 1)
        if isinstance(holder, list):
            return self.start(holder)
        return self.key(holder, key)

    def start(self, holder: Holder) -> Spot:
        """The place where a node begins, or the key of a list."""
        node, outer = self._owner(holder)
        return self.key_of(node, outer) if outer else self._spot(self.place_of(node), 1)

    def origin(self, holder: Holder, key: str | int | None = None) -> Origin:
        """The origin of a key or item, or of the collection itself.

        A node whose own place is not known (inside an item of JSON-LD) has its statement's line, and a column that
        counts on from the statement's, so that no two offers of one supplier have one origin.
        """
        spot = self.start(holder) if key is None else self.value(holder, key)
        inner = holder if key is None else holder[int(key)] if isinstance(holder, list) else holder[str(key)]
        node = self._nodes.get(id(inner), "")
        more = 0 if node in self._brackets else self._count.get(node, 0)
        return Origin(self.shown, spot.line, spot.column + more)

    def plain(self, holder: Holder, key: str | int) -> bool:
        """Texts of RDF are never taken for anything else."""
        return False

    def flow(self, holder: Holder) -> bool:
        """RDF has no braces of YAML."""
        return False

    def report(self, found: Found) -> None:
        """Adds a fault of the text at its place."""
        if len(self.found) >= MOST:
            self.more += 1
            return
        spot = self._spot(found.place, found.width)
        self.found.append(fault_at(self.shown, spot, found.code, found.values))

    def _owner(self, holder: Holder) -> tuple[str, str]:
        """The node of a mapping; or the node and key that hold a list or an inner mapping."""
        if id(holder) in self._nodes:
            return self._nodes[id(holder)], ""
        return self._holders.get(id(holder), ("", ""))

    def _spot(self, at: int, width: int) -> Spot:
        return spot_in(self.text, self._starts, at, width)


def bracket_places(statements: list[Statement], triples: list[Triple]) -> dict[str, Bracket]:
    """The `[` of each node without a name. Brackets and nodes of a statement come in one order; where their
    numbers differ, nothing is said, and the statement's own place stands."""
    found: dict[str, Bracket] = {}
    by_piece: dict[int, list[Triple]] = {}
    for triple in triples:
        by_piece.setdefault(triple.piece, []).append(triple)
    for piece, rows in by_piece.items():
        statement = statements[piece]
        if not statement.brackets:
            continue
        inside = _children(rows)
        pointed = {child for children in inside.values() for child in children}
        roots = [node for node in dict.fromkeys(row.subject for row in rows) if node not in pointed]
        if len(roots) != 1:
            continue
        brackets = list(statement.brackets)
        if statement.own_bracket:
            found[roots[0]] = Bracket(statement.start, statement.start + len(statement.text))
            brackets = [*brackets[0].inside, *brackets[1:]]
        _match(roots[0], brackets, inside, found, DEEPEST)
    return found


def _match(
    node: str, brackets: list[Bracket], inside: dict[str, list[str]], found: dict[str, Bracket], deep: int
) -> None:
    """Gives the nodes inside a node their brackets, so many levels down."""
    if not deep:
        return
    children = [child for child in inside.get(node, ()) if child not in found]
    if len(children) != len(brackets):
        return
    for child, bracket in zip(children, brackets, strict=True):
        found[child] = bracket
        _match(child, bracket.inside, inside, found, deep - 1)


def _children(rows: list[Triple]) -> dict[str, list[str]]:
    """For each node the unnamed nodes it holds, in the order of the text; those in RDF lists count as its own."""
    cells = {row.subject for row in rows if row.predicate == _RDF + "first"}
    firsts = {row.subject: row.object for row in rows if row.predicate == _RDF + "first"}
    rests = {row.subject: row.object for row in rows if row.predicate == _RDF + "rest"}
    found: dict[str, list[str]] = {}
    for row in rows:
        if row.subject in cells:
            continue
        thing: str | Text | None = row.object
        items: list[str | Text | None] = []
        while isinstance(thing, str) and thing in cells and len(items) <= len(cells):
            items.append(firsts.get(thing))
            thing = rests.get(thing)
        for item in items or [row.object]:
            if isinstance(item, str) and item.startswith("_:") and item[2] != LABELLED:
                found.setdefault(row.subject, []).append(item)
    return found
