"""What is meant by the values of a book, as far as tidying needs it: the order of keys, and which scalars are text."""

from __future__ import annotations

from functools import cache
from types import NoneType, UnionType
from typing import Final, NamedTuple, Union, get_args, get_origin

from fitlore.books.doc import Doc, Holder, Tree
from fitlore.books.emit import READS_AS_OTHER
from fitlore.books.order import ranks
from fitlore.books.schema import KINDS, LOOKS_TYPED, SHORT, fields
from fitlore.model.platform import Cond, FactRange
from fitlore.model.record import Clock, Currency, Look, Name, Number, PlaceOrAssembly, PlacePath, Rec

_TEXTS: Final[tuple[object, ...]] = (str, Clock, Currency, Look, Name, Number, PlaceOrAssembly, PlacePath)


class Shape(NamedTuple):
    """What a value is by its key; a list is what its items are."""

    record: type[Rec] | None = None
    """The Struct that a mapping is written for."""
    free: Shape | None = None
    """What is under the keys of a mapping with free keys."""
    text: bool = False
    """Whether a scalar here is text (and no count, date, amount or yes/no)."""


UNKNOWN: Final = Shape()
_TEXT: Final = Shape(text=True)
_WORDS: Final = Shape(free=_TEXT, text=True)


def record_shape(item: Tree) -> Shape:
    """The shape of a record of a book; unknown where its kind cannot be told."""
    kinds = [key for key in item if key in KINDS] if isinstance(item, dict) else []
    return Shape(record=KINDS[kinds[0]]) if len(kinds) == 1 else UNKNOWN


def under(shape: Shape, key: str) -> Shape:
    """The shape of what stands under a key."""
    if shape.record is not None:
        return _fields(shape.record).get(key, UNKNOWN)
    return shape.free or UNKNOWN


def rank(shape: Shape, key: str) -> int:
    """The place of a key; keys that the Struct does not have come last."""
    table = ranks(shape.record) if shape.record is not None else {}
    return table.get(key, len(table))


@cache
def _fields(cls: type[Rec]) -> dict[str, Shape]:
    return {field.key: _shape(field.hint) for field in fields(cls)}


def _shape(hint: object) -> Shape:
    origin, arguments = get_origin(hint), get_args(hint)
    if origin is Union or origin is UnionType:
        return _shape(next(a for a in arguments if a is not NoneType))
    if origin is tuple:
        return _shape(arguments[0])
    if origin is dict:
        return Shape(free=_shape(arguments[1]))
    if hint in (Cond, FactRange):
        return _WORDS
    if isinstance(hint, type) and issubclass(hint, Rec):
        return Shape(record=hint, text=hint in SHORT)
    return _TEXT if hint in _TEXTS else UNKNOWN


def value_at(holder: Holder, key: str | int) -> Tree:
    """The value under a key, or at a place of a list."""
    return holder[int(key)] if isinstance(holder, list) else holder[str(key)]


def needs_quotes(doc: Doc, holder: Holder, key: str | int, shape: Shape) -> bool:
    """Whether a value is text without quotes that another reader of YAML would not read as text."""
    value = value_at(holder, key)
    return isinstance(value, str) and shape.text and doc.plain(holder, key) and typed_elsewhere(value)


def typed_elsewhere(text: str) -> bool:
    """Whether common readers of YAML take this text, without quotes, for a number, a date, yes/no or null."""
    return bool(LOOKS_TYPED.fullmatch(text) or READS_AS_OTHER.fullmatch(text))
