"""What the keys of books are in RDF, worked out from the Structs: the JSON-LD context that `kb` ships.

A book, read with every scalar as text, is a JSON-LD 1.1 document under the context. Free keys (features, facts, days,
places) become properties of vocabularies of their own; named places and assemblies are nodes with `fl:named`.
"""

from __future__ import annotations

import json
from datetime import date
from functools import cache
from typing import Any, Final, NamedTuple, TypeAlias, Union, get_args, get_origin

from fitlore.books.iris import EDTF, FACT, FEATURE, TERMS, WORD, XSD_INTEGER
from fitlore.books.schema import KINDS, Field, fields, nested
from fitlore.model.category import Feature, Work
from fitlore.model.dates import Period
from fitlore.model.part import Measured
from fitlore.model.platform import Cond, Established, FactRange, ReallyOn
from fitlore.model.record import Name, Rec

Json: TypeAlias = "str | float | list[Json] | dict[str, Json] | None"

NAMED: Final = TERMS + "named"
"""The name of a place within its assembly, and of an assembly within its platform."""
ORDERED: Final = frozenset({"look-first", "inspect", "faults", "cautions"})
"""Lists whose order means something (the first is to be done first): RDF lists. All others are sets."""
_LANGUAGES: Final = frozenset({"names", "also"})
_FEATURES: Final = frozenset({"features", "must-be", "measured"})
_INSIDE: Final[dict[str, tuple[type[Rec], ...]]] = {
    FEATURE: (Feature, Measured),
    FACT: (Cond, FactRange, Established),
    WORD: (ReallyOn,),
}
"""What may be written under a free key: its keys keep their meaning there."""


class Coding(NamedTuple):
    """How a key is written in RDF. `scope`: the vocabulary of the free keys below it; `shape`: how values are held."""

    datatype: str = ""
    shape: str = ""
    """`list`, `language` or `index`; empty: plain values and nodes."""
    scope: str = ""


@cache
def codings() -> dict[str, Coding]:
    """Every key of books with its coding. Raises ValueError where one key would have two."""
    found: dict[str, Coding] = {"named": Coding()}
    for cls in structs():
        for field in written(cls):
            coding = _coding(field)
            if found.setdefault(field.key, coding) != coding:
                raise ValueError(f"the key {field.key} is written in two ways")
    return found


def structs() -> tuple[type[Rec], ...]:
    """Every Struct that can be written in a book, by name."""
    every = {inner for struct in KINDS.values() for inner in nested(struct)}
    return tuple(sorted(every, key=lambda cls: cls.__name__))


def written(cls: type[Rec]) -> tuple[Field, ...]:
    """The fields of a Struct as keys; the ranges of a condition are free keys, written beside `not`."""
    return tuple(field for field in fields(cls) if not (cls is Cond and field.key == "series"))


def _coding(field: Field) -> Coding:
    hint = without_none(field.hint)
    if get_origin(hint) is tuple and field.key not in ORDERED:
        hint = get_args(hint)[0]
    if get_origin(hint) is dict:
        key_hint = get_args(hint)[0]
        if field.key in _LANGUAGES:
            return Coding(shape="language")
        if key_hint is Name:
            return Coding(shape="index")
        is_fact = without_none(get_args(hint)[1]) in (Cond, FactRange, Established)
        return Coding(scope=FEATURE if field.key in _FEATURES else FACT if is_fact else WORD)
    if hint is int:
        return Coding(datatype=XSD_INTEGER)
    if hint in (Period, date):
        return Coding(datatype=EDTF)
    return Coding(shape="list") if field.key in ORDERED else Coding()


def without_none(hint: object) -> Any:
    """The type without its `None`."""
    if get_origin(hint) in (Union, type(int | None)):
        return next(a for a in get_args(hint) if a is not type(None))
    return hint


@cache
def inside_free_keys() -> frozenset[str]:
    """The keys that keep their meaning where keys are free: what is called so there may also be a name somebody gave."""
    return frozenset(field.key for inside in _INSIDE.values() for cls in inside for field in written(cls))


@cache
def context() -> dict[str, Json]:
    """The JSON-LD context of books."""
    terms: dict[str, Json] = {"@version": 1.1, "@vocab": TERMS}
    for key, coding in sorted(codings().items()):
        term = _term(key, coding)
        if len(term) > 1:
            terms[key] = term
    return terms


def _term(key: str, coding: Coding) -> dict[str, Json]:
    term: dict[str, Json] = {"@id": TERMS + key}
    if coding.datatype:
        term["@type"] = coding.datatype
    if coding.shape:
        term["@container"] = f"@{coding.shape}"
    if coding.shape == "index":
        term["@index"] = NAMED
    if coding.scope:
        term["@context"] = [None, _scope(coding.scope)]
    return term


def _scope(vocabulary: str) -> dict[str, Json]:
    """The context below a key with free keys: it forgets all else, and knows what may be written under a free key."""
    inner: dict[str, Json] = {"@version": 1.1, "@vocab": vocabulary}
    for cls in _INSIDE[vocabulary]:
        for field in written(cls):
            coding = codings()[field.key]
            term = _term(field.key, coding)
            if Work in _hinted(field):
                term["@context"] = [None, {"@version": 1.1, "@vocab": TERMS, **_typed(Work)}]
            inner[field.key] = term if len(term) > 1 else TERMS + field.key
    return inner


def _typed(cls: type[Rec]) -> dict[str, Json]:
    terms = ((field.key, _term(field.key, codings()[field.key])) for field in fields(cls))
    return {key: term for key, term in terms if len(term) > 1}


def _hinted(field: Field) -> set[object]:
    return {field.hint, *get_args(field.hint)}


def context_text() -> str:
    """The committed `kb/context.jsonld`."""
    return json.dumps({"@context": context()}, indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def book_json(items: tuple[Any, ...] | list[Any]) -> str:
    """A list of records as one JSON-LD document."""
    return json.dumps({"@context": context(), "@graph": list(items)}, ensure_ascii=False)
