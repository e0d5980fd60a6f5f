"""When two readings say the same: records without their origins, and without the order of lists that have none."""

from __future__ import annotations

from typing import TypeAlias

from fitlore.books.context import ORDERED
from fitlore.books.schema import fields
from fitlore.model.record import Rec

Said: TypeAlias = "tuple[str, tuple[tuple[str, object], ...]]"


def said(record: Rec) -> Said:
    """What a record says, in a form that is equal where two say the same, whichever form of book they were read from.

    Order counts only in the lists of `context.ORDERED`; elsewhere RDF has none, so it may never carry meaning.
    """
    cls = type(record)
    return cls.__name__, tuple((f.key, _plain(getattr(record, f.name), f.key)) for f in fields(cls))


def _plain(value: object, key: str) -> object:
    if isinstance(value, Rec):
        return said(value)
    if isinstance(value, dict):
        return tuple(sorted((name, _plain(inner, key)) for name, inner in value.items()))
    if type(value) is tuple:
        items = [_plain(inner, key) for inner in value]
        return tuple(items if key in ORDERED else sorted(items, key=repr))
    return value
