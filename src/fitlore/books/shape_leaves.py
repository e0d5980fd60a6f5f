"""The shapes of plain values: what a text, name, amount, date or place is, in SHACL.

Patterns keep to what XPath's and Python's regular expressions both know (no look-ahead, no unnamed groups), since SHACL's
`sh:pattern` is SPARQL's REGEX. They let through what only a calendar or a sum can refuse (a 31st of February).
"""

from __future__ import annotations

import json
import re
from datetime import date
from enum import Enum
from typing import Any, Final, get_args, get_origin

from fitlore.books import schema
from fitlore.books.context import without_none
from fitlore.books.near import what
from fitlore.books.openly import PREFIXES
from fitlore.books.schema import CODES, DIMENSIONS, EITHER_PATHS, FROM_ONE, FULL_PATHS, Field, money_form
from fitlore.model.amounts import Money, Quantity, Rate, Share
from fitlore.model.dates import Period
from fitlore.model.record import Clock, Currency, Look, Name, Number, PlaceOrAssembly, PlacePath, Rec
from fitlore.model.units import UNITS

_WORDS: Final = "([0-9]+-)*[0-9]*[a-z][a-z0-9]*(-[a-z0-9]+)*"
_AT: Final = "(@(left|right|[1-9][0-9]?))?"
_D: Final = "[0-9]"
_FIGURE: Final = rf"({_D}+ {_D}+/0*[1-9]{_D}*|{_D}+/0*[1-9]{_D}*|{_D}+([.,]{_D}+)?|[.,]{_D}+)"
_POINT: Final = (
    rf"({_D}{{4}}(-(0[1-9]|1[0-2])(-(0[1-9]|[12]{_D}|3[01]|XX))?|-XX(-XX)?)?|{_D}{{3}}X|{_D}{{2}}XX)[?~%]?"
)
NAME: Final = f"^{_WORDS}$"
NUMBER: Final = r"[^\s._/‐‑‒–—−∕·-]"
SERIES: Final = "^[A-Z][A-Z0-9]*$"
LANGUAGE: Final = "^[a-z]{2,3}(-[a-z]{4})?(-([a-z]{2}|[0-9]{3}))?(-([a-z0-9]{5,8}|[0-9][a-z0-9]{3}))?$"
PLACE: Final = f"^{_WORDS}/{_WORDS}{_AT}$"
FULL_PLACE: Final = f"^{_WORDS}/{_WORDS}/{_WORDS}{_AT}$"
EITHER_PLACE: Final = f"^({_WORDS}/)?{_WORDS}/{_WORDS}{_AT}$"
ASSEMBLY_OR_PLACE: Final = f"^{_WORDS}(/{_WORDS}{_AT})?$"
SERIAL: Final = "^[A-Z][A-Z0-9]* [0-9]{1,12}$"
SIDE: Final = "^(left|right|[1-9][0-9]?)$"
COUNT: Final = "^(0|[1-9][0-9]{0,8})$"
COUNT_FROM_ONE: Final = "^[1-9][0-9]{0,8}$"
MONEY: Final = f"^({money_form()})$"
RATE: Final = f"^{schema.RATE.replace('(?:', '(')}$"
CURRENCY: Final = f"^({CODES})$"
CLOCK: Final = "^([01][0-9]|2[0-3]):[0-5][0-9]$"
LOOK: Final = f"^{schema.LOOK.pattern}$"
SHARE: Final = r"^(100(\.0{1,4})?|0?[0-9]{1,2}(\.[0-9]{1,4})?) ?%$"
DAY: Final = r"^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"
PERIOD: Final = rf"^({_POINT}|{_POINT}/({_POINT}|\.\.)?|(\.\.)?/{_POINT})$"
SERIAL_RANGE: Final = (
    r"^\s*([0-9]{1,12}|[0-9]{1,12}(\.\.)?/(\.\.)?[0-9]{0,12}|(\.\.)?/(\.\.)?[0-9]{1,12})\s*$"
)


def measure(base: str = "") -> str:
    """A number that is not negative, with a unit of a dimension (by its base unit; empty: with any unit or none)."""
    symbols = sorted(symbol for symbol, unit in UNITS.items() if symbol and base in ("", unit.base))
    escaped = "|".join(re.sub(r"([.*+?(){}^$|\[\]])", r"\\\1", symbol) for symbol in symbols)
    return rf"\s*\+?{_FIGURE}\s*({escaped}){'' if base else '?'}\s*"


TOLERANCE: Final = rf"^({measure()}|-\s*{_FIGURE}\s*/\s*\+\s*{measure()})$"
WEAR: Final = rf"^(up|down) {measure()}$"


def quoted(text: str) -> str:
    """A text as a Turtle literal. JSON's escapes are among Turtle's (W3C Turtle, 2.5.1 and 6.4)."""
    return json.dumps(text, ensure_ascii=False)


def text_of(pattern: str = "") -> str:
    """A text that is not empty; with a pattern, one that it matches."""
    return (
        f"sh:datatype xsd:string ; sh:pattern {quoted(pattern)}"
        if pattern
        else "sh:datatype xsd:string ; sh:minLength 1"
    )


def one_of(words: tuple[str, ...]) -> str:
    """One of a closed list of words."""
    return f"sh:in ( {' '.join(map(quoted, words))} )"


_EDTF: Final = "sh:datatype <http://id.loc.gov/datatypes/edtf/EDTF>"
_PLAIN: Final[dict[object, tuple[str, str]]] = {
    str: (text_of(), "a text"),
    Name: (text_of(NAME), "a name, as `rear-brakes`"),
    Number: (text_of(NUMBER), "a part number"),
    bool: ('sh:in ( "yes" "no" true false )', "`yes` or `no`"),
    date: (f"{_EDTF} ; sh:pattern {quoted(DAY)}", "a day, as `2026-12-03`"),
    Period: (f"{_EDTF} ; sh:pattern {quoted(PERIOD)}", "a date or period, as `1986-08` or `1983-03/1991-10`"),
    Money: (text_of(MONEY), "an amount, as `6.50 GBP`"),
    Share: (text_of(SHARE), "a share, as `60 %`"),
    Rate: (text_of(RATE), "a rate, as `0.8614 GBP`"),
    Currency: (text_of(CURRENCY), "a currency's code (ISO 4217), as `GBP`"),
    Clock: (text_of(CLOCK), "a time of day, as `16:00`"),
    Look: (text_of(LOOK), "what a number looks like, as `nnn nnn a`"),
    PlaceOrAssembly: (text_of(ASSEMBLY_OR_PLACE), "`assembly` or `assembly/place`"),
}
_SAID: Final[dict[str, tuple[str, str]]] = {
    "language": (text_of(LANGUAGE), "a language tag, as `en-us`"),
    "side": (one_of(("left", "right", "both")), "`left`, `right` or `both`"),
    "sides": (text_of(SIDE), "`left`, `right` or a number"),
    "tolerance": (text_of(TOLERANCE), "a tolerance, as `0.5 mm` or `-0.2/+0 mm`"),
    "wears": (text_of(WEAR), "a direction and a size, as `down 1 mm`"),
}
"""Keys whose texts have a form that their type does not say."""


def leaf(hint: object, cls: type[Rec], field: Field) -> str:
    """The constraints on one plain value, in Turtle. Raises KeyError for a type that has no shape."""
    if isinstance(hint, type) and issubclass(hint, Enum):
        return one_of(tuple(str(member.value) for member in hint))
    if hint is PlacePath:
        return text_of(_path(cls, field))
    if hint is int:
        least = COUNT_FROM_ONE if field.name in FROM_ONE else COUNT
        return f"sh:datatype xsd:integer ; sh:pattern {quoted(least)}"
    if hint is Quantity:
        return text_of(f"^{measure(DIMENSIONS[field.name][0])}$")
    if hint is str and field.key in _SAID:
        return _SAID[field.key][0]
    return _PLAIN[hint][0]


def holds(hint: object, cls: type[Rec], field: Field) -> str:
    """What one value of a type is, in a few words."""
    inner: Any = without_none(hint)
    if isinstance(inner, type) and get_origin(inner) is None:
        if issubclass(inner, Rec):
            return what(inner)
        if issubclass(inner, Enum):
            return "one of " + ", ".join(str(member.value) for member in inner)
    if get_origin(inner) is tuple:
        return f"{holds(get_args(inner)[0], cls, field)}, or several"
    if get_origin(inner) is dict:
        return f"names, each with {holds(get_args(inner)[1], cls, field)}"
    if inner is str and field.key in _SAID:
        return _SAID[field.key][1]
    if inner is PlacePath:
        shown = "platform/assembly/place" if _path(cls, field) == FULL_PLACE else "assembly/place"
        return f"a place, as `{shown}`"
    if inner is int:
        return "a whole number from 1 on" if field.name in FROM_ONE else "a whole number"
    if inner is Quantity:
        return DIMENSIONS[field.name][1]
    return _PLAIN[inner][1]


def _path(cls: type[Rec], field: Field) -> str:
    if (cls, field.name) in FULL_PATHS:
        return FULL_PLACE
    return EITHER_PLACE if (cls, field.name) in EITHER_PATHS else PLACE


def expanded(term: str) -> str:
    """The IRI of a prefixed term, in brackets."""
    prefix, _, name = term.partition(":")
    return f"<{PREFIXES[prefix]}{name}>"
