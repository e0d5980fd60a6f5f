"""Records as text a person could have written: any reader of YAML takes every value for what it is meant to be."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from enum import Enum
from functools import cache
from typing import Final, NamedTuple, TypeAlias

import msgspec

from fitlore.books.order import ranks
from fitlore.books.schema import LOOKS_TYPED, SHORT
from fitlore.model.amounts import Money, Quantity, Rate, Share, Span
from fitlore.model.currencies import minor_units
from fitlore.model.dates import Period, read_day
from fitlore.model.platform import Cond, FactRange
from fitlore.model.record import Rec, as_written

Said: TypeAlias = "str | int | date | list[Said] | dict[str, Said]"
"""What a book is to say, before it is text: text is `str` and quoted where needed; counts, yes/no and days are written bare."""

WIDEST: Final = 88
"""A mapping in braces or a list in brackets that would be wider than this is written over several lines."""

READS_AS_OTHER: Final = re.compile(
    r"[-+]?0[xob]?[0-9a-fA-F_]+|[-+]?[0-9][0-9_]*(?::[0-5]?[0-9])+(?:\.[0-9_]*)?|=|<<"
    r"|[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}(?:[Tt]|[ \t]+)[0-9].*|[-+]?\.(?i:inf)|\.(?i:nan)"
)
"""Beside `schema.LOOKS_TYPED`: further texts that older tools (YAML 1.1 types) would not read as text."""

_PLAIN: Final = re.compile(
    r"[^\W_](?:[^\x00-\x1f\x7f-\xa0\u2028\u2029\ufeff\ud800-\udfff]*\S)?|\.\.?/?[\w./-]*"
)
_FLOW_MARKS: Final = frozenset(",[]{}?:")
_ESCAPES: Final = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}


class Style(NamedTuple):
    """How the neighbours are written."""

    step: int = 2
    """Columns by which a nested mapping is indented."""
    dash: str = "- "
    """A list's mark with the gap after it."""
    inset: int = 2
    """Columns by which a list is indented under its key; 0 is common too."""
    braces: bool = False
    """Whether items of nested lists are mappings in braces."""
    eol: str = "\n"
    blank_lines: int = 0
    """Empty lines between records."""


_fields = cache(msgspec.structs.fields)


def tree_of(record: Rec, kind: str = "") -> dict[str, Said]:
    """The mapping that says a record: fields other than their default, in the order of `books.order`, `origin` left out."""
    row: dict[str, Said] = {}
    for field in _fields(type(record)):
        value = getattr(record, field.name)
        if field.name == "origin" or (not field.required and value == field.default):
            continue
        if field.default_factory is not msgspec.NODEFAULT and value == field.default_factory():
            continue
        if value is not None:
            empty = value == ()  # said to be empty, where the default is that nothing is said
            row[as_written(field.name)] = "none" if empty else _value(value, many=isinstance(value, tuple))
    order = ranks(type(record))
    row = {key: row[key] for key in sorted(row, key=lambda key: order.get(key, len(order)))}
    return {kind: row.pop(kind), **row} if kind in row else row


def item_of(record: Rec) -> Said:
    """A nested record as it is written in a list: its short form where it has one and says no more than that."""
    if isinstance(record, Cond):
        return _cond(record)
    if isinstance(record, FactRange):
        return {"series": _texts(record.series)} if record.series else list(record.any_)
    row = tree_of(record)
    short = SHORT.get(type(record))
    return row[short] if short is not None and list(row) == [short] else row


def _cond(cond: Cond) -> Said:
    """Raises ValueError for a condition that no book can say (more than one of any, not, series)."""
    if sum(map(bool, (cond.any_, cond.not_, cond.series))) != 1:
        raise ValueError(
            "a condition is written as values, as `not`, or as ranges of series: exactly one of them"
        )
    if cond.series:
        return dict(cond.series.items())
    return {"not": _texts(cond.not_)} if cond.not_ else _texts(cond.any_)


def _texts(values: tuple[str, ...]) -> Said:
    return values[0] if len(values) == 1 else list(values)


def _value(value: object, *, many: bool = False) -> Said:
    """One value of a Struct as a tree. Lists of records stay lists even of one, so that the next one has a place."""
    match value:
        case bool() | int() | date():
            return value
        case Rec():
            return item_of(value)
        case Enum():
            return str(value.value)
        case Period():
            return read_day(value.text) or value.text
        case Quantity() | Span():
            return value.text
        case Money():
            places = max(minor_units(value.currency) or 0, -int(value.amount.as_tuple().exponent))
            return f"{value.amount:.{places}f} {value.currency}"
        case Rate() | Share() | str() | Decimal():
            return str(value)
        case tuple() if many and all(isinstance(one, str) for one in value):
            return _texts(value)
        case tuple():
            return [_value(one) for one in value]
        case dict():
            return {str(key): _value(one, many=isinstance(one, tuple)) for key, one in value.items()}
    raise TypeError(f"no book can say a {type(value).__name__}")


def leaf(value: Said, *, flow: bool) -> str:
    """A scalar as it is written: bare where every reader takes it for this very text, in double quotes otherwise."""
    match value:
        case bool():
            return "yes" if value else "no"
        case int():
            return str(value)
        case date():
            return value.isoformat()
        case str():
            return value if stays_text(value, flow=flow) else quoted(value)
    raise TypeError("not a scalar")


def stays_text(text: str, *, flow: bool) -> bool:
    """Whether a scalar written bare is read back as exactly this text, by us and by the common schemas of YAML."""
    if not _PLAIN.fullmatch(text) or LOOKS_TYPED.fullmatch(text) or READS_AS_OTHER.fullmatch(text):
        return False
    if ": " in text or " #" in text or text.endswith(":") or "\t" in text:
        return False
    return not (flow and _FLOW_MARKS & set(text))


def quoted(text: str) -> str:
    """Text in double quotes on one line, escaped where it must be. Raises ValueError for half a surrogate pair."""
    out = []
    for char in text:
        code = ord(char)
        if 0xD800 <= code <= 0xDFFF:
            raise ValueError("half a surrogate pair is no character")
        if char in _ESCAPES:
            out.append(_ESCAPES[char])
        elif code < 0x20 or 0x7F <= code <= 0xA0:
            out.append(f"\\x{code:02x}")
        elif code in (0x2028, 0x2029, 0xFEFF, 0xFFFE, 0xFFFF):
            out.append(f"\\u{code:04x}")
        else:
            out.append(char)
    return '"' + "".join(out) + '"'


def flow(value: Said) -> str:
    """A value on one line: mappings in braces, lists in brackets."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{leaf(key, flow=True)}: {flow(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    return leaf(value, flow=True)


def item_lines(item: Said, indent: int, style: Style, *, braces: bool) -> list[str]:
    """The lines of one item of a block list, its dash at column `indent` (from 0), without ends of line."""
    margin = " " * indent
    if isinstance(item, dict) and item and not braces:
        inner = indent + len(style.dash)
        rows = mapping_lines(item, inner, style)
        return [margin + style.dash + rows[0][inner:], *rows[1:]]
    return [margin + style.dash + (flow(item) if isinstance(item, list | dict) else leaf(item, flow=False))]


def mapping_lines(mapping: dict[str, Said], indent: int, style: Style) -> list[str]:
    """The lines of a block mapping whose keys stand at column `indent`."""
    rows: list[str] = []
    for key, value in mapping.items():
        rows += pair_lines(key, value, indent, style)
    return rows


def pair_lines(key: str, value: Said, indent: int, style: Style) -> list[str]:
    """The lines of one key with its value: nested lists of mappings as block lists, what is short and flat on one line."""
    head = " " * indent + leaf(key, flow=False) + ":"
    if not isinstance(value, list | dict):
        return [f"{head} {leaf(value, flow=False)}"]
    nested = isinstance(value, list) and any(isinstance(one, dict) for one in value)
    line = f"{head} {flow(value)}"
    if not value or (not nested and len(line) <= WIDEST):
        return [line]
    if isinstance(value, dict):
        return [head, *mapping_lines(value, indent + style.step, style)]
    inset = indent + style.inset
    return [
        head,
        *(row for one in value for row in item_lines(one, inset, style, braces=style.braces)),
    ]
