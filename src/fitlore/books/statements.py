"""Texts of RDF cut into statements, so that each keeps its line, and a fault in one costs only that one.

No RDF reader gives the place of a statement. The cutting here needs only where strings, IRIs and comments end; what is
between is judged by the reader proper.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, Final, NamedTuple

# Nothing is given back (`++`, `*+`): a text of many megabytes is cut in one pass, with nothing remembered on the way.
_TOKEN: Final = re.compile(
    r"""(?P<skip>\s+|\#[^\n\r]*)
    |(?P<text>\"{3}(?:[^"\\]++|\\.|"(?!""))*+\"{3}|'{3}(?:[^'\\]++|\\.|'(?!''))*+'{3}
        |"(?:[^"\\\n\r]++|\\.)*+"|'(?:[^'\\\n\r]++|\\.)*+')
    |(?P<iri><[^<>"{}|^`\\\s]*+>)
    |(?P<word>(?:[^\s<>"'\[\](){};,.\#\\]++|\\.|\.(?=[0-9]))
        (?:[^\s<>"'\[\](){};,.\#\\]++|\\.|\.++(?=[^\s<>"'\[\](){};,.\#]))*+)
    |(?P<mark>.)""",
    re.VERBOSE | re.DOTALL,
)
_DIGITS: Final = re.compile(r"[0-9]+")
_MOST_TWICE: Final = 50
"""Keys given twice that are told; looking for each takes a pass over the text."""
_ABSOLUTE: Final = re.compile(r"<[A-Za-z][A-Za-z0-9+.-]*:")
_LONGEST_BASE: Final = 4000
"""Characters of addresses that stand on one another; whoever writes more of them gets a fault."""
DEEPEST: Final = 16
"""How deep nodes may stand inside one another; no record is deeper than eight."""


@dataclass(slots=True)
class Bracket:
    """A `[` of a statement: its index in the book, that after its `]`, and the brackets inside it."""

    at: int
    end: int
    inside: list[Bracket] = field(default_factory=list)


class Statement(NamedTuple):
    """A piece of a book that can be read by itself, after its prefixes (one line, with its end of line)."""

    text: str
    start: int
    """Index in the book."""
    prefixes: str = ""
    brackets: tuple[Bracket, ...] = ()
    own_bracket: bool = False
    """The subject is itself a `[`, the first of the brackets."""


class _Cutter:
    """One pass over a text of Turtle or TriG."""

    def __init__(self, text: str, *, graphs: bool) -> None:
        self.text, self.graphs = text, graphs
        self.prefixes: dict[str, tuple[int, str]] = {}
        """Each with its number, so that those a statement needs come in the order in which they were given."""
        self.base, self.count = "", 0
        self.used: set[str] = set()
        self.start = -1
        self.first = ""
        self.brackets: list[Bracket] = []
        self.open: list[Bracket] = []

    def cut(self) -> Iterator[Statement]:
        depth = 0
        words = 0
        for match in _TOKEN.finditer(self.text):
            kind, token = match.lastgroup, match[0]
            if kind == "skip":
                continue
            if self.start < 0:
                self.start, self.first, self.brackets, self.open, words = match.start(), token, [], [], 0
                self.used = set()
            words += 1
            if kind == "word" and ":" in token:
                self.used.add(token.lstrip("^").partition(":")[0] + ":")
            if kind == "mark" and token in "[(":
                depth += 1
                if token == "[":
                    self._opened(match.start())
            elif kind == "mark" and token in "])":
                depth = max(0, depth - 1)
                if token == "]" and self.open:
                    self.open.pop().end = match.end()
            elif kind == "mark" and token in "{}" and self.graphs:
                yield from self._graph_edge(token, match.start())
                depth = 0
            elif (kind == "mark" and token == "." and depth == 0) or self._plain_prefix(words):
                yield from self._end(match.end())
        if self.start >= 0:
            yield from self._end(len(self.text))

    def _opened(self, at: int) -> None:
        bracket = Bracket(at, len(self.text))
        (self.open[-1].inside if self.open else self.brackets).append(bracket)
        self.open.append(bracket)

    def _plain_prefix(self, words: int) -> bool:
        """Is this the last word of `PREFIX a: <...>` or `BASE <...>`, which end without a dot?"""
        word = self.first.upper()
        return (word == "PREFIX" and words == 3) or (word == "BASE" and words == 2)

    def _graph_edge(self, token: str, at: int) -> Iterator[Statement]:
        """A graph's brace: what stands before `{` names the graph, what stands before `}` needs no dot."""
        if token == "}" and self.text[self.start : at].strip():
            yield from self._end(at, dot=" .")
        self.start = -1

    def _end(self, end: int, dot: str = "") -> Iterator[Statement]:
        text = self.text[self.start : end]
        if self.first.upper() in ("PREFIX", "@PREFIX", "BASE", "@BASE"):
            yield Statement(text, self.start, f"{self.base}\n")
            self._declared(" ".join(text.split()))
        elif text.strip():
            prefixes = self._prefixes()
            yield Statement(text + dot, self.start, prefixes, tuple(self.brackets), self.first == "[")
        self.start = -1

    def _declared(self, text: str) -> None:
        """Keeps a prefix or the base; with the base it stands on, where it stands on one."""
        words = text.split(None, 2)
        whole = text if _ABSOLUTE.search(text) else f"{self.base} {text}"[-_LONGEST_BASE:]
        if "PREFIX" not in words[0].upper():
            self.base = whole
        elif len(words) > 1:
            self.prefixes.pop(words[1], None)
            self.prefixes[words[1]] = self.count, whole
            self.count += 1

    def _prefixes(self) -> str:
        """The prefixes that the statement uses, and the base: with all of them many statements would be read in vain."""
        chosen = sorted(self.prefixes[name] for name in self.used if name in self.prefixes)
        return " ".join([*(text for _, text in chosen), self.base]) + "\n"


def turtle_statements(text: str, *, graphs: bool = False) -> Iterator[Statement]:
    """Cuts Turtle at the dots that end statements; `graphs`: TriG, whose graphs are taken apart and their names dropped."""
    return _Cutter(text, graphs=graphs).cut()


def line_statements(text: str) -> Iterator[Statement]:
    """Cuts N-Triples or N-Quads: every line is a statement."""
    at = 0
    for line in re.split(r"(?<=\n)|(?<=\r)(?!\n)", text):
        if line.strip() and not line.lstrip().startswith("#"):
            lead = len(line) - len(line.lstrip())
            yield Statement(line.strip(), at + lead)
        at += len(line)


class JsonTrouble(NamedTuple):
    """Why a text is no JSON that can be read: a fault's code, its index, its words."""

    code: str
    at: int
    values: dict[str, str]


class JsonItems(NamedTuple):
    """The top-level items of a JSON-LD text as (value, index), the context they share, and what was found."""

    items: list[tuple[Any, int]]
    context: Any
    found: list[JsonTrouble]


def json_items(text: str) -> JsonItems:
    """Cuts JSON-LD into its top-level items: of a list, of `@graph`, or the one object."""
    twice: list[str] = []

    def pairs(listed: list[tuple[str, Any]]) -> dict[str, Any]:
        made = dict(listed)
        if len(made) < len(listed):
            twice.extend(key for key, times in Counter(key for key, _ in listed).items() if times > 1)
        return made

    try:
        whole = json.loads(text, object_pairs_hook=pairs, parse_constant=str)
    except json.JSONDecodeError as error:
        return JsonItems([], None, [JsonTrouble("B97-not-json", error.pos, {"problem": error.msg})])
    except RecursionError:
        return JsonItems([], None, [JsonTrouble("B97-not-json", 0, {"problem": "it is nested too deep"})])
    except ValueError:  # Python makes no number of more digits than it is told to
        longest = max(_DIGITS.finditer(text), key=lambda match: match.end() - match.start())
        trouble = JsonTrouble("B97-not-json", longest.start(), {"problem": "a number has too many digits"})
        return JsonItems([], None, [trouble])
    keys = list(dict.fromkeys(twice))[:_MOST_TWICE]
    if keys:
        return JsonItems(
            [], None, [JsonTrouble("B98-json-key-twice", _second(text, key), {"key": key}) for key in keys]
        )
    context = whole.get("@context") if isinstance(whole, dict) else None
    listed = whole.get("@graph") if isinstance(whole, dict) else whole
    if not isinstance(listed, list):
        return JsonItems([(whole, len(text) - len(text.lstrip()))], context, [])
    start = text.index("[") if isinstance(whole, list) else _graph_start(text)
    return JsonItems(list(zip(listed, _item_places(text, start), strict=True)), context, [])


def _graph_start(text: str) -> int:
    """The index of the list that the outermost `@graph` holds."""
    decoder = json.JSONDecoder()
    at = text.index("{") + 1
    while True:
        at = text.index('"', at)
        key, at = decoder.raw_decode(text, at)
        at = _blank(text, text.index(":", at) + 1)
        if key == "@graph":
            return at
        at = decoder.raw_decode(text, at)[1]


def _item_places(text: str, start: int) -> Iterator[int]:
    decoder = json.JSONDecoder()
    at = _blank(text, start + 1)
    while text[at] != "]":
        yield at
        at = _blank(text, decoder.raw_decode(text, at)[1])
        if text[at] == ",":
            at = _blank(text, at + 1)


def _blank(text: str, at: int) -> int:
    while text[at] in " \t\r\n":
        at += 1
    return at


def _second(text: str, key: str) -> int:
    written = json.dumps(key, ensure_ascii=False)
    first = text.find(written)
    second = text.find(written, first + 1)
    return second if second >= 0 else max(0, first)
