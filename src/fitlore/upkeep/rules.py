"""Quality rules written as SPARQL: a file per rule, its header says the problem, why it is one, the remedy and how bad it is.

A rule's query selects `?where` (the shown place) and whatever its texts name in braces. `?key` with `?record` is a number's
look-up key and the record it stands in: the number is then shown as written, at its own line, and a key that no number of
the record has as written (the maker's name may have been put in front) is passed over. `?named` is `kind name`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.books.faults import Fault, register
from fitlore.books.iris import TERMS
from fitlore.books.near import near_word
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.numbers import number_key
from fitlore.model.origin import Origin

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

QUERIES: Final = Path(__file__).with_name("queries")
OWN: Final = "rules"
"""Folder of a shop's own rules, beside fitlore.yaml."""
_HEADER: Final = re.compile(r"^# (title|problem|why|remedy|severity|near): (.+)$", re.MULTILINE)
_SELECT: Final = re.compile(r"\bSELECT\s+(?:DISTINCT\s+)?((?:\?\w+\s+)+)WHERE\b")
_SHOWN: Final = re.compile(r"(.*?)(?::(\d+))?(?::(\d+))?")
_NEEDED: Final = ("title", "problem", "why", "remedy", "severity")


class Rule(NamedTuple):
    """A rule as its file says it."""

    fault: Fault
    query: str
    columns: tuple[str, ...]
    near: str
    """The column for which a near word is looked up among the names of records of that kind; empty for none."""


class BadRule(Exception):
    """A rule file without one of the header's lines, or whose query selects no place."""


def read_rule(path: Path) -> Rule:
    """Reads a rule; its code is the file's name. Raises BadRule."""
    try:
        text = path.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise BadRule(f"{path.name}: {error}") from error
    header = dict(_HEADER.findall(text))
    missing = [name for name in _NEEDED if name not in header]
    if missing:
        raise BadRule(f"{path.name}: no line `# {missing[0]}: ...`")
    if header["severity"] not in {severity.value for severity in Severity}:
        raise BadRule(f"{path.name}: severity is error, warning or note")
    select = _SELECT.search(text)
    columns = tuple(name.lstrip("?") for name in select[1].split()) if select else ()
    if "where" not in columns or ("key" in columns) != ("record" in columns):
        raise BadRule(
            f"{path.name}: the query must be SELECT ... ?where ... WHERE, ?key and ?record together"
        )
    row = Fault(
        path.stem,
        Severity(header["severity"]),
        header["title"],
        header["problem"],
        header["why"],
        header["remedy"],
    )
    return Rule(row, text, columns, header.get("near", ""))


@cache
def built_in() -> tuple[Rule, ...]:
    """The rules that come with the program, registered with the other faults."""
    rules = tuple(read_rule(path) for path in sorted(QUERIES.glob("*.rq")))
    register(rule.fault for rule in rules)
    return rules


def own_files(folder: Path) -> list[Path]:
    """The files of a shop's own rules."""
    return sorted((folder / OWN).glob("*.rq"))


def run(graph: Graph, rule: Rule) -> Iterator[Diagnostic]:
    """What a rule finds. Raises BadRule where its query is no SPARQL, or a text names a column it does not select."""
    try:
        rows = list(graph.facts.select(rule.query))
    except (SyntaxError, ValueError) as error:
        raise BadRule(f"{rule.fault.code}: {error}") from error
    names = _Names(graph)
    for row in rows:
        values = {name: value or "" for name, value in zip(rule.columns, row, strict=True)}
        origin = read_origin(values["where"])
        if values.get("named"):
            values["name"] = values["named"].partition(" ")[2]
        if "key" in values:
            pin = pinned(values["record"], values["key"], origin)
            if pin is None:
                continue
            origin, values["number"] = pin
        if rule.near:
            values["near"] = names.near(rule.near, values.get(rule.near, ""))
        yield _diagnostic(rule, origin, values)


def _diagnostic(rule: Rule, origin: Origin, values: Mapping[str, str]) -> Diagnostic:
    row = rule.fault
    try:
        message, expected, remedy = (
            text.format_map(values) for text in (row.message, row.expected, row.remedy)
        )
    except (KeyError, ValueError, IndexError) as error:
        raise BadRule(f"{row.code}: its texts name {error}, which the query does not select") from error
    return Diagnostic(row.code, row.severity, origin, message, expected, remedy)


def read_origin(shown: str) -> Origin:
    """`shop/parts.yaml:3:5` as an origin."""
    match = _SHOWN.fullmatch(shown)
    assert match is not None
    return Origin(match[1], int(match[2] or 0), int(match[3] or 0))


def pinned(record: str, key: str, fallback: Origin) -> tuple[Origin, str] | None:
    """The innermost line of a record (as JSON) at which a number of this key is written, and the number as written."""
    return _search(msgspec.json.decode(record), key, fallback)


def _search(value: object, key: str, at: Origin) -> tuple[Origin, str] | None:
    if isinstance(value, str):
        return (at, value) if number_key(value) == key else None
    if isinstance(value, dict):
        place = value.get("@origin")
        at = Origin(*place) if isinstance(place, list) and place and place[0] else at
        inner = [one for name, one in value.items() if name != "@origin"]
    else:
        inner = list(value) if isinstance(value, list) else []
    return next((found for one in inner if (found := _search(one, key, at))), None)


class _Names:
    """Near words among the names of records; each kind's names are fetched once."""

    def __init__(self, graph: Graph) -> None:
        self._graph, self._known = graph, dict[str, tuple[str, ...]]()

    def near(self, kind: str, word: str) -> str:
        """`did you mean ...` in a few words."""
        if kind not in self._known:
            query = f'SELECT ?name WHERE {{ GRAPH ?g {{ ?n <{_AS_NAMED}> ?name FILTER(STRSTARTS(?name, "{kind} ")) }} }}'
            rows = self._graph.facts.select(query)
            self._known[kind] = tuple(sorted({(row[0] or "").partition(" ")[2] for row in rows}))
        found = near_word(word, self._known[kind])
        return f"did you mean `{found}`?" if found else "none is near in name"


_AS_NAMED: Final = TERMS + "as-named"
