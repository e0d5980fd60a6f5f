"""The schemas of plain values: patterns of words, amounts, dates and places, in the regular expressions that all editors know.

A pattern may let through what reading refuses (a 31st of February), never the other way round.
"""

from __future__ import annotations

import re
from typing import Final, TypeAlias

from fitlore.books.context import Json
from fitlore.books.schema import (
    ASSEMBLY_OR_PLACE,
    CLOCK,
    CODES,
    DIMENSIONS,
    FULL_PLACE,
    LOOK,
    NAME,
    PLACE,
    RATE,
    SERIAL,
    SERIES,
    money_form,
)
from fitlore.model.units import UNITS

Schema: TypeAlias = dict[str, Json]


def whole(pattern: str) -> str:
    """A pattern that must cover the whole text."""
    return f"^(?:{pattern})$"


def one_or_list(schema: Schema, *, unique: bool = False) -> Schema:
    """One value, or a list of at least one; `unique`: no two equal ones."""
    many: Schema = {"type": "array", "items": schema, "minItems": 1}
    if unique:
        many["uniqueItems"] = True
    return {"anyOf": [schema, many]}


def condition(word: Schema, bounds: Schema) -> Schema:
    """What one fact must be: a value, a list, `{not: ...}`, or ranges of series."""
    values = one_or_list(word, unique=True)
    listed: Schema = {
        "type": "object",
        "properties": {"any": values, "not": values},
        "minProperties": 1,
        "additionalProperties": False,
    }
    ranges: Schema = {
        "type": "object",
        "propertyNames": {"pattern": whole(SERIES.pattern)},
        "minProperties": 1,
        "additionalProperties": bounds,
    }
    return {"anyOf": [values, listed, ranges]}


def fact_range(word: Schema, series: Schema) -> Schema:
    """Which values a fact can have: a list of words, or `{series: [KT]}`."""
    named: Schema = {
        "type": "object",
        "properties": {"series": one_or_list(series, unique=True)},
        "required": ["series"],
        "additionalProperties": False,
    }
    return {"anyOf": [one_or_list(word, unique=True), named]}


def dimension(field: str) -> str:
    """The name of the schema of a quantity, by its field. Raises KeyError for a field without a dimension."""
    return {"mm": "distance", "g": "weight"}[DIMENSIONS[field][0]]


def _text(pattern: str, about: str) -> Schema:
    return {"description": about, "type": "string", "pattern": whole(pattern)}


def _figure(pattern: str, least: int, most: int, about: str) -> Schema:
    """A whole number, as text or as the number that an editor takes it for."""
    return {
        "description": about,
        "type": ["string", "integer"],
        "pattern": whole(pattern),
        "minimum": least,
        "maximum": most,
    }


_NUMBER: Final = r"[+]?(?:[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)"
_POINT: Final = (
    r"(?:[0-9]{4}|[0-9]{3}X|[0-9]{2}XX)"
    r"(?:-(?:0[1-9]|1[0-2]|XX)(?:-(?:0[1-9]|[12][0-9]|3[01]|XX))?)?[?~%]?"
)
_PERIOD: Final = rf"{_POINT}|(?:{_POINT}|\.\.)?/{_POINT}|{_POINT}/(?:\.\.)?"
_RANGE: Final = (
    r"\s*(?:[0-9]{1,12}|[0-9]{1,12}(?:\.\.)?/(?:\.\.)?[0-9]{0,12}|(?:\.\.)?/(?:\.\.)?[0-9]{1,12})\s*"
)


def _measure(base: str) -> str:
    """A number with one of the units of a dimension."""
    units = sorted(symbol for symbol, unit in UNITS.items() if unit.base == base and symbol)
    escaped = "|".join(re.sub(r"([\\^$.*+?()\[\]{}|])", r"\\\1", symbol) for symbol in units)
    return rf"\s*{_NUMBER}\s*(?:{escaped})\s*"


LEAVES: Final[dict[str, Schema]] = {
    "text": {"type": "string", "minLength": 1},
    "name": _text(NAME.pattern, "lower-case words of a to z and figures, joined by hyphens"),
    "number": {
        "description": "a part number as it stands on the part",
        "type": "string",
        "pattern": r"[^\s._/‐‑‒–—−∕·-]",
    },
    "yes-or-no": {"enum": ["yes", "no"]},
    "count": _figure("0|[1-9][0-9]{0,8}", 0, 999_999_999, "a whole number"),
    "count-from-one": _figure("[1-9][0-9]{0,8}", 1, 999_999_999, "a whole number from 1 on"),
    "money": _text(money_form(), "an amount with its currency (ISO 4217), as 6.50 GBP"),
    "rate": _text(RATE, "a rate, as 0.8614 GBP"),
    "currency": _text(CODES, "a currency's code (ISO 4217), as GBP"),
    "clock": _text(CLOCK.pattern, 'a time of day in quotes, as "16:00"'),
    "look": _text(LOOK.pattern, "what a number looks like, as nnn nnn a"),
    "serial-number": _text(SERIAL.pattern, "a series and a number in it, as KT 118430"),
    "place-or-assembly": _text(ASSEMBLY_OR_PLACE.pattern, "assembly, or assembly/place"),
    "share": _text(r"(?:100(?:\.0{1,4})?|0?[0-9]{1,2}(?:\.[0-9]{1,4})?) ?%", "per cent, as 60 %"),
    "distance": _text(_measure("mm"), "a distance, as 22 km"),
    "weight": _text(_measure("g"), "a weight, as 4.5 kg"),
    "day": _text("[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])", "a day, as 2026-12-03"),
    "period": _figure(
        _PERIOD, 1000, 9999, "a date or period, as 1986, 1986-08, 1983-03/1991-10 or ../1986-07"
    ),
    "period-text": _text(
        _PERIOD, 'a date or period in quotes where it is a bare year, as "1986" or ../1986-07'
    ),
    "place": _text(PLACE.pattern, "assembly/place, with @left, @right or a figure for a side"),
    "full-place": _text(FULL_PLACE.pattern, "platform/assembly/place"),
    "place-or-full-place": _text(
        f"{PLACE.pattern}|{FULL_PLACE.pattern}", "assembly/place, or platform/assembly/place"
    ),
    "side-of-place": _figure("left|right|[1-9][0-9]?", 1, 99, "left, right, or a figure"),
    "series": _text(SERIES.pattern, "the letters before a serial number, as KT"),
    "serial-range": _figure(_RANGE, 0, 999_999_999_999, "serial numbers, as ../118000, 120001/.. or 1/500"),
}
"""The plain values by name."""
