"""The JSON Schema of books and of fitlore.yaml, for people's editors; worked out from the Structs.

Only words that mean the same in draft 7 and in 2020-12 are used, and no `$ref` has a neighbour: several editors still read
draft 7. Editors type scalars (YAML's Core Schema), reading does not, so a count may be a number and a text may not.
"""

from __future__ import annotations

import ast
import inspect
import json
import textwrap
from datetime import date
from enum import Enum
from functools import cache
from itertools import pairwise
from pathlib import PurePath
from types import NoneType, UnionType
from typing import Any, Final, Union, get_args, get_origin
from urllib.parse import quote

from fitlore.books import jsonschema_words as words
from fitlore.books.context import Json
from fitlore.books.jsonschema_sense import EXTRA, RULES
from fitlore.books.jsonschema_words import Schema, one_or_list
from fitlore.books.schema import (
    ASSEMBLY_OR_PLACE,
    DATE_FACTS,
    EITHER_PATHS,
    FREE_WORDS,
    FROM_ONE,
    FULL_PATHS,
    KINDS,
    LANGUAGE,
    NAME,
    SERIAL_FACTS,
    SHORT,
    Field,
    fields,
)
from fitlore.model.amounts import Money, Quantity, Rate, Share
from fitlore.model.category import Category
from fitlore.model.dates import Period
from fitlore.model.platform import Car, Cond, Established, FactRange
from fitlore.model.record import Clock, Currency, Look, Name, Number, PlaceOrAssembly, PlacePath, Rec
from fitlore.model.shop import Shelf, Shop
from fitlore.model.supply import Donor

_DRAFT: Final = "https://json-schema.org/draft/2020-12/schema"
_MADE: Final = "Generated from the Structs (fitlore.books.jsonschema); do not edit."
_PLAIN: Final[dict[object, str]] = {
    str: "text",
    Name: "name",
    Number: "number",
    bool: "yes-or-no",
    date: "day",
    Period: "period",
    Money: "money",
    Share: "share",
    Rate: "rate",
    Currency: "currency",
    Clock: "clock",
    Look: "look",
    PlaceOrAssembly: "place-or-assembly",
}
"""Plain types and the names of their schemas in `jsonschema_words.LEAVES`."""
_OF: Final = {"text": "", "period-text": "OfDates", "serial-number": "OfSerialNumbers"}
"""Structs of words, and what is put behind their name where the words are of a sort."""


def book_schema() -> dict[str, Json]:
    """The schema of a book: a list of records of all kinds."""
    made = _Maker()
    record: Schema = {
        "type": "object",
        "properties": {kind: {"description": _doc(struct)} for kind, struct in KINDS.items()},
        "anyOf": [{"required": [kind]} for kind in KINDS],
        "allOf": [
            {"if": {"required": [kind]}, "then": made.struct(struct)} for kind, struct in KINDS.items()
        ],
    }
    return {
        "$schema": _DRAFT,
        "$comment": _MADE,
        "title": "A book: a list of records",
        "type": ["array", "null"],
        "items": record,
        "$defs": made.defs,
    }


def shop_schema() -> dict[str, Json]:
    """The schema of fitlore.yaml: one mapping, the shop's settings and its shelves."""
    made = _Maker()
    shop = made.object_of(Shop)
    properties = shop["properties"]
    assert isinstance(properties, dict)
    properties["shelves"] = one_or_list(made.struct(Shelf))
    return {
        "$schema": _DRAFT,
        "$comment": _MADE,
        "title": "fitlore.yaml: the shop's settings and its shelves",
        **shop,
        "$defs": made.defs,
    }


def book_schema_text() -> str:
    """The committed `kb/book.schema.json`."""
    return json.dumps(book_schema(), indent=1, ensure_ascii=False) + "\n"


def header_line(path: str | PurePath) -> str:
    """The first line of a book by which editors find the schema at `path`, without an end of line.

    The path is written as an address, so that one with blanks stays one word; a relative one is seen from the book.
    """
    where = path if isinstance(path, PurePath) else PurePath(path)
    address = where.as_uri() if where.is_absolute() else quote(where.as_posix(), safe="/@:!$&'()*+,;=~")
    return f"# yaml-language-server: $schema={address}"


class _Maker:
    """Collects the definitions that one schema refers to."""

    def __init__(self) -> None:
        self.defs: dict[str, Json] = {}

    def struct(self, cls: type[Rec], word: str = "text") -> Schema:
        """A reference to a Struct; `word`: what its words are (dates and periods, serial numbers)."""
        name = cls.__name__ + _OF[word]
        if name not in self.defs:
            self.defs[name] = {}
            self.defs[name] = self._definition(cls, word)
        return {"$ref": f"#/$defs/{name}"}

    def _definition(self, cls: type[Rec], kind: str) -> Schema:
        about: Schema = {"description": _doc(cls)}
        word = self.leaf(kind)
        if cls is Cond:
            return {**about, **words.condition(word, self.leaf("serial-range"))}
        if cls is FactRange:
            return {**about, **words.fact_range(word, self.leaf("series"))}
        body = self.object_of(cls)
        if kind != "text":
            properties = body["properties"]
            assert isinstance(properties, dict)
            properties["value"] = one_or_list(word, unique=True)
        short = SHORT.get(cls)
        if short is None:
            return body
        field = next(field for field in fields(cls) if field.key == short)
        alone = one_or_list(word, unique=True) if cls is Established else self.field(cls, field)
        del body["description"]
        return {**about, "anyOf": [body, alone]}

    def object_of(self, cls: type[Rec]) -> Schema:
        """A Struct written with its keys."""
        properties: dict[str, Json] = {field.key: self._property(cls, field) for field in fields(cls)}
        required: list[Json] = [field.key for field in fields(cls) if field.required]
        body: Schema = {
            "description": _doc(cls),
            "type": "object",
            "properties": properties,
            "additionalProperties": False,
        }
        if required:
            body["required"] = required
        if cls in RULES:
            body["allOf"] = [*RULES[cls]]
        return body

    def _property(self, cls: type[Rec], field: Field) -> Schema:
        schema = self.field(cls, field)
        about = _field_docs(cls).get(field.name)
        if about is None:
            return schema
        return {"description": about, **({"allOf": [schema]} if "$ref" in schema else schema)}

    def field(self, cls: type[Rec], field: Field) -> Schema:
        """The schema of what may stand under a key."""
        if (cls, field.name) in EXTRA:
            return {**EXTRA[cls, field.name]}
        return self._hint(field.hint, cls, field)

    def _hint(self, hint: object, cls: type[Rec], field: Field) -> Schema:
        origin, arguments = get_origin(hint), get_args(hint)
        if origin is Union or origin is UnionType:
            inner = next(a for a in arguments if a is not NoneType)
            schema = self._hint(inner, cls, field)
            if get_origin(inner) is tuple:
                return {"anyOf": [schema, {"const": "none"}]}
            return schema
        if origin is tuple:
            plain = not (isinstance(arguments[0], type) and issubclass(arguments[0], Rec))
            return one_or_list(self._hint(arguments[0], cls, field), unique=plain)
        if origin is dict:
            return self._mapping(arguments[1], cls, field)
        if isinstance(hint, type) and issubclass(hint, Rec):
            return self.struct(hint)
        return self._plain(hint, cls, field)

    def _mapping(self, hint: Any, cls: type[Rec], field: Field) -> Schema:
        """Free keys; of facts some are dates."""
        body: Schema = {"type": "object", "minProperties": 1}
        if (cls, field.name) in FREE_WORDS:
            known = FREE_WORDS[cls, field.name]
            body["properties"] = {word: self._hint(hint, cls, field) for word in known}
            return {**body, "additionalProperties": False}
        facts = dict.fromkeys(sorted(DATE_FACTS), "period-text")
        if cls in (Car, Donor) and hint is Established:
            facts |= dict.fromkeys(sorted(SERIAL_FACTS), "serial-number")
        if hint in (Cond, FactRange, Established):
            body["properties"] = {fact: self.struct(hint, word) for fact, word in facts.items()}
        body["propertyNames"] = {"pattern": words.whole(_free_keys(cls, field))}
        return {**body, "additionalProperties": self._hint(hint, cls, field)}

    def _plain(self, hint: Any, cls: type[Rec], field: Field) -> Schema:
        if hint is PlacePath:
            full, either = (cls, field.name) in FULL_PATHS, (cls, field.name) in EITHER_PATHS
            return self.leaf("full-place" if full else "place-or-full-place" if either else "place")
        if hint is int:
            return self.leaf("count-from-one" if field.name in FROM_ONE else "count")
        if hint is Quantity:
            return self.leaf(words.dimension(field.name))
        if hint is str and field.name == "sides":
            return self.leaf("side-of-place")
        if isinstance(hint, type) and issubclass(hint, Enum):
            self.defs[hint.__name__] = {"description": _doc(hint), "enum": [one.value for one in hint]}
            return {"$ref": f"#/$defs/{hint.__name__}"}
        return self.leaf(_PLAIN[hint])

    def leaf(self, name: str) -> Schema:
        """A reference to the schema of a plain value."""
        self.defs[name] = words.LEAVES[name]
        return {"$ref": f"#/$defs/{name}"}


def _free_keys(cls: type[Rec], field: Field) -> str:
    if cls is Category and field.name in ("names", "also"):
        return LANGUAGE.pattern
    return (ASSEMBLY_OR_PLACE if cls is Car and field.name == "really_on_it" else NAME).pattern


def _doc(cls: type) -> str:
    return " ".join((cls.__doc__ or "").split())


@cache
def _field_docs(cls: type[Rec]) -> dict[str, str]:
    """What the Struct's source says under its fields. Raises OSError where there is no source."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(cls))).body[0]
    assert isinstance(tree, ast.ClassDef)
    found = {}
    for line, below in pairwise(tree.body):
        if isinstance(line, ast.AnnAssign) and isinstance(line.target, ast.Name):
            if not isinstance(below, ast.Expr) or not isinstance(below.value, ast.Constant):
                continue
            if isinstance(below.value.value, str):
                found[line.target.id] = " ".join(below.value.value.split())
    return found
