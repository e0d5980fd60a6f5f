"""Records of every kind, put together from the values of real ones: written, tidied and turned into RDF they say the same."""

from __future__ import annotations

import os
import random
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

import msgspec
import pytest

from fitlore.books.alike import said
from fitlore.books.amend import NewRecord, Spliced, splice, taken_back
from fitlore.books.emit import tree_of
from fitlore.books.layout import books_on, read_layout
from fitlore.books.reading import Reading, read_book
from fitlore.books.schema import KINDS
from fitlore.books.tidy import Tidied, tidy
from fitlore.model.diagnostic import Severity
from fitlore.model.record import Rec
from fitlore.upkeep.export import FORMS, in_form

REPO = Path(__file__).resolve().parents[2]
RICH = (Path(__file__).parent / "rich.yaml", Path(__file__).parent / "amend" / "rich.yaml")
SEED = os.environ.get("FITLORE_FUZZ_SEED", "20261125")
COUNT = 150 if os.environ.get("FITLORE_FUZZ") == "long" else 8
BOOKED = sorted(set(KINDS) - {"shop"})
TEXTS = (
    "no",
    "0123",
    "1e3",
    "~",
    "2026-01-02",
    "12:30",
    "a: b",
    "a # b",
    "'",
    '"',
    "[a]",
    "{a}, b",
    "- y",
    "é\\n",
    "x\ty",
    "a\nb",
)
"""Texts that a careless writer would spoil."""


@cache
def real() -> tuple[Rec, ...]:
    """The records of the built-in books, of the demo and of the books with every key."""
    paths = [book.path for book in books_on(read_layout(REPO / "demo" / "lowbarn"))]
    readings = [read_book("shop/a.yaml", path.read_bytes(), "urn:g") for path in (*paths, *RICH)]
    return tuple(record for reading in readings for record in reading.records)


def inside(value: object) -> Iterator[Rec]:
    """A record and all that is in it."""
    if isinstance(value, Rec):
        yield value
        for field in msgspec.structs.fields(type(value)):
            yield from inside(getattr(value, field.name))
    elif isinstance(value, tuple | dict):
        for one in value.values() if isinstance(value, dict) else value:
            yield from inside(one)


@cache
def pools() -> dict[tuple[type, str], list[Any]]:
    """For each field of each Struct the values that real records have there."""
    found: dict[tuple[type, str], list[Any]] = {}
    for record in real():
        for one in inside(record):
            for field in msgspec.structs.fields(type(one)):
                found.setdefault((type(one), field.name), []).append(getattr(one, field.name))
    return found


@cache
def is_text(cls: type, name: str) -> bool:
    """Whether a field may be any text at all."""
    hint = get_type_hints(cls)[name]
    return hint is str or (get_origin(hint) in (Union, UnionType) and str in get_args(hint))


def bred(chance: random.Random, one: Rec) -> Rec:
    """The record with some fields as in others of its Struct, its inner records changed in the same way."""
    changed: dict[str, Any] = {}
    every = msgspec.structs.fields(type(one))
    for field in every:
        value = getattr(one, field.name)
        if field.name != "origin" and chance.random() < min(0.25, 2 / len(every)):
            value = chance.choice(pools()[type(one), field.name])
        if isinstance(value, Rec):
            value = bred(chance, value)
        elif isinstance(value, tuple) and value and all(isinstance(each, Rec) for each in value):
            value = tuple(bred(chance, each) for each in value[: chance.randint(1, 3)])
        elif isinstance(value, str) and is_text(type(one), field.name) and chance.random() < 0.3:
            value = chance.choice(TEXTS)
        changed[field.name] = value
    return msgspec.structs.replace(one, **changed)


def sound(book: Reading) -> bool:
    """Nothing in it is an error."""
    return not any(one.severity is Severity.ERROR for one in book.diagnostics)


def written(record: Rec, kind: str, old: bytes | None) -> bytes:
    """The record put behind what a book says; what was there before comes back when it is taken out."""
    done = splice("shop/a.yaml", old, [NewRecord(tree_of(record, kind))])
    assert isinstance(done, Spliced), done
    assert taken_back(done.data, done.changes) == (old or b"")
    return done.data


@pytest.mark.parametrize("kind", BOOKED)
def test_what_is_written_is_read_again(kind: str) -> None:
    """Alone, behind other records, tidied, and in every form of RDF: the same record, and nothing is said against it.

    Records that would be refused (their fields are of different ones) are left out; a fifth at least is not.
    """
    of_kind = [record for record in real() if type(record) is KINDS[kind]]
    before = b"# first\n- part: ZZ 1   # one\n  maker: Velm\n  is: hose\n"
    tried = 0
    for number in range(COUNT):
        chance = random.Random(f"{SEED}/{kind}/{number}")
        record = bred(chance, chance.choice(of_kind))
        data = written(record, kind, None)
        book = read_book("shop/a.yaml", data, "urn:g")
        if not sound(book):
            continue
        tried += 1
        wanted = [said(record)]
        assert [said(one) for one in book.records] == wanted, data.decode()
        behind = read_book("shop/a.yaml", written(record, kind, before), "urn:g")
        assert [said(one) for one in behind.records[1:]] == wanted or kind == "part", data.decode()
        tidied = tidy("shop/a.yaml", data)
        assert isinstance(tidied, Tidied), tidied
        assert [said(one) for one in read_book("shop/a.yaml", tidied.data, "urn:g").records] == wanted
        for form, ending in FORMS.items():
            back = read_book(f"shop/a{ending}", in_form([book], form, in_order=True), "urn:g")
            assert sound(back), (form, data.decode(), back.diagnostics)
            assert [said(one) for one in back.records] == wanted, (form, data.decode())
    assert tried >= COUNT / 5


def test_many_records_are_other_than_the_real_ones() -> None:
    """The generator makes new records of every kind, not copies."""
    for kind in BOOKED:
        of_kind = [record for record in real() if type(record) is KINDS[kind]]
        known = {repr(said(record)) for record in of_kind}
        made = {repr(said(bred(random.Random(n), of_kind[n % len(of_kind)]))) for n in range(20)}
        assert len(made - known) >= 8, kind
