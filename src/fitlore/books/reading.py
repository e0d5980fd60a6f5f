"""A book's text into records and diagnostics. Nothing raises for what somebody wrote."""

from __future__ import annotations

from functools import cache
from typing import Final, NamedTuple

import msgspec

from fitlore.books import catalogue  # noqa: F401  (registers its faults)
from fitlore.books.doc import Tree
from fitlore.books.faults import MOST
from fitlore.books.nodes import read_nodes, uncollected
from fitlore.books.schema import KINDS
from fitlore.books.walk import read_record
from fitlore.books.walking import Source, Walk
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.numbers import number_key
from fitlore.model.part import Part
from fitlore.model.record import Rec

YAML_ENDINGS: Final = (".yaml", ".yml")
_KIND_OF: Final = {struct: kind for kind, struct in KINDS.items()}


class Reading(NamedTuple):
    """What a book says. `items` are the pieces of the tree that the records were made of, in the same order."""

    shown: str
    graph_name: str
    records: tuple[Rec, ...]
    diagnostics: tuple[Diagnostic, ...]
    items: tuple[Tree, ...]
    source: Source


def read_book(shown: str, text: bytes, graph_name: str) -> Reading:
    """Reads a book of either form, by the ending of its name: YAML (`.yaml`, `.yml`) or RDF. The text is the whole file."""
    if shown.lower().endswith(YAML_ENDINGS):
        return read_yaml(shown, text, graph_name)
    from fitlore.books.rdf import read_rdf

    return read_rdf(shown, text, graph_name)


def read_yaml(shown: str, text: bytes, graph_name: str) -> Reading:
    """Reads a book of YAML."""
    doc = read_nodes(shown, text)
    walk = Walk(doc)
    with uncollected():
        if isinstance(doc.root, list):
            kept = read_items(walk, doc.root, doc.spoilt)
        else:
            kept = []
            if doc.root and not doc.found:
                spot = doc.start(doc.root) if isinstance(doc.root, dict) else doc.spot(*_first_word(doc.text))
                walk.add("B26-not-a-list", spot)
    return reading(shown, graph_name, kept, [*doc.found, *walk.diagnostics], doc, doc.more + walk.more)


def read_items(walk: Walk, items: list[Tree], spoilt: set[int]) -> list[tuple[Tree, Rec]]:
    """Each item of a book with its record; without those that have a fault, and without a second one of one name."""
    kept: list[tuple[Tree, Rec]] = []
    names: dict[tuple[type[Rec], str], Rec] = {}
    for place, item in enumerate(items):
        record = read_record(walk, item, items, place)
        if record is None or place in spoilt:
            continue
        first = names.setdefault((type(record), identity(record)), record)
        if first is record:
            kept.append((item, record))
            continue
        kind = _KIND_OF[type(record)]
        spot = walk.source.value(item, kind) if isinstance(item, dict) else walk.source.key(items, place)
        walk.add("B89-record-twice", spot, name=name_of(record), first=str(first.origin), kind=kind)
    return kept


def reading(
    shown: str,
    graph_name: str,
    kept: list[tuple[Tree, Rec]],
    diagnostics: list[Diagnostic],
    source: Source,
    more: int,
) -> Reading:
    """Puts a reading together; its diagnostics in the order of the text. `more` were found and are not among them."""
    return Reading(
        shown,
        graph_name,
        tuple(record for _, record in kept),
        _told(diagnostics, more),
        tuple(item for item, _ in kept),
        source,
    )


def _told(diagnostics: list[Diagnostic], more: int) -> tuple[Diagnostic, ...]:
    """The diagnostics in the order of the text; where there are too many, the last one tells of those left out.

    Errors are the last to be left out: whoever asks whether a book has one must not be told that it has none.
    """

    def place(one: Diagnostic) -> tuple[int, int, str]:
        return one.origin.line, one.origin.column, one.code

    found = sorted(diagnostics, key=place)
    more += max(0, len(found) - MOST)
    if more:
        found.sort(key=lambda one: one.severity is not Severity.ERROR)
        found = sorted(found[:MOST], key=place)
        rest = f"{found[-1].message} (and {more} further faults, told when these are put right)"
        found[-1] = msgspec.structs.replace(found[-1], message=rest)
    return tuple(found)


def name_of(record: Rec) -> str:
    """What a record of a book is called: the value of its kind key."""
    return str(getattr(record, _kind_field(type(record))))


@cache
def _kind_field(struct: type[Rec]) -> str:
    kind = _KIND_OF[struct]
    return next(f.name for f in msgspec.structs.fields(struct) if f.encode_name == kind)


def identity(record: Rec) -> str:
    """What makes two records of one kind the same: the name; of a part, issuer and number without separators."""
    if isinstance(record, Part):
        return f"{number_key(record.issuer)} {number_key(record.part)}"
    return name_of(record)


def _first_word(text: str) -> tuple[int, int]:
    start = len(text) - len(text.lstrip())
    return start, start + len(text[start:].split("\n", 1)[0].rstrip())
