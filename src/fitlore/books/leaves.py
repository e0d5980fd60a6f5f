"""Readers of single values: text into names, numbers, money, dates; each says what it expected."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from enum import Enum
from typing import Any, Final, get_args

from fitlore.books.doc import Holder, Spot, Tree
from fitlore.books.near import near_word
from fitlore.books.remedies import money_code, name_hint, place_hint, rate_code, remedy
from fitlore.books.schema import (
    ASSEMBLY_OR_PLACE,
    CLOCK,
    DIMENSIONS,
    EITHER_PATHS,
    FROM_ONE,
    FULL_PATHS,
    FULL_PLACE,
    LANGUAGE,
    LOOK,
    LOOKS_TYPED,
    NAME,
    PLACE,
    Field,
)
from fitlore.books.walking import BAD, Bad, Reader, Walk
from fitlore.model.amounts import (
    Money,
    Quantity,
    Rate,
    Share,
    read_money,
    read_quantity,
    read_rate,
    read_share,
)
from fitlore.model.currencies import minor_units
from fitlore.model.dates import Period, read_day, read_period
from fitlore.model.numbers import number_key
from fitlore.model.record import Clock, Currency, Look, Name, Number, PlaceOrAssembly, PlacePath, Rec

_COUNT: Final = re.compile(r"0|[1-9][0-9]{0,8}")
_SIGN: Final = re.compile(r"[A-Za-z0-9]")
_EITHER: Final = "`assembly` or `assembly/place`"


def leaf(hint: object, cls: type[Rec], field: Field) -> Reader:
    """The reader of a plain type. Raises TypeError for a type that books cannot hold."""
    if isinstance(hint, type) and issubclass(hint, Enum):
        return _choice(hint, field)
    if hint is PlacePath:
        return _place(cls, field)
    if hint is int:
        return _count(1 if field.name in FROM_ONE else 0, field)
    if hint is Quantity:
        return _quantity(field)
    if hint is str and field.name == "sides":
        return _one(field, lambda text: text if text in _SIDES else None, "B62-not-a-side")
    if hint is str and field.name == "language":
        return _matching(field, LANGUAGE, "B63-not-a-language")
    table: dict[object, Reader] = {
        str: _text(field),
        Number: _number(field),
        Name: _name(field),
        bool: _one(field, {"yes": True, "no": False}.get, "B53-not-yes-or-no"),
        date: _one(field, read_day, "B59-not-a-day"),
        Period: _one(field, read_period, "B60-not-a-date"),
        Money: _one(field, read_money, money_code),
        Share: _one(field, read_share, "B57-not-a-share"),
        Rate: _one(field, read_rate, rate_code),
        Currency: _one(field, _currency, "V01-unknown-currency"),
        Clock: _matching(field, CLOCK, "V06-not-a-time"),
        Look: _matching(field, LOOK, "V07-not-a-look"),
        PlaceOrAssembly: _matching(field, ASSEMBLY_OR_PLACE, "B61-not-a-place"),
    }
    if hint not in table:
        raise TypeError(f"{cls.__name__}.{field.name}: no reader for {hint}")
    return table[hint]


_SIDES: Final = frozenset({"left", "right", *map(str, range(1, 100))})


def as_text(value: Tree, holder: Holder, key: str | int, walk: Walk, field_key: str) -> str | Bad:
    """The value if it is a text that was not reported yet; else it is reported."""
    if type(value) is str:
        return value if value else BAD
    found = "a list" if isinstance(value, list) else "a mapping"
    return walk.add("B45-not-a-text", walk.source.value(holder, key), key=field_key, found=found)


def note_typed(text: str, holder: Holder, key: str | int, walk: Walk) -> None:
    """Notes a text that other YAML tools would not read as text."""
    if LOOKS_TYPED.fullmatch(text) and walk.source.plain(holder, key):
        walk.add("B69-looks-like-another-type", walk.source.value(holder, key), text=text)


def _one(field: Field, parse: Callable[[str], Any], code: str | Callable[[str], str]) -> Reader:
    """A reader that parses a text and reports what cannot be parsed; negative money is reported too."""

    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        text = as_text(value, holder, key, walk, field.key)
        if isinstance(text, Bad):
            return BAD
        found = parse(text)
        if found is None or (isinstance(found, Money) and found.amount < 0):
            said = code if isinstance(code, str) else code(text)
            spot = walk.source.value(holder, key)
            return walk.add(said, spot, key=field.key, found=text, remedy=remedy(said, text), shape=_EITHER)
        return found

    return read


def _matching(field: Field, pattern: re.Pattern[str], code: str) -> Reader:
    """A reader of texts that have a form; they are noted where other tools would take them for something else."""
    one = _one(field, lambda text: text if pattern.fullmatch(text) else None, code)

    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        found = one(value, holder, key, walk)
        if isinstance(found, str):
            note_typed(found, holder, key, walk)
        return found

    return read


def _currency(text: str) -> str | None:
    return text if minor_units(text) is not None else None


def _text(field: Field) -> Reader:
    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        text = as_text(value, holder, key, walk, field.key)
        if not isinstance(text, Bad):
            note_typed(text, holder, key, walk)
        return text

    return read


def _number(field: Field) -> Reader:
    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        text = as_text(value, holder, key, walk, field.key)
        if isinstance(text, Bad):
            return BAD
        if not _SIGN.search(text) and not number_key(text):
            return walk.add("B52-no-number", walk.source.value(holder, key), key=field.key, found=text)
        note_typed(text, holder, key, walk)
        return text

    return read


def _name(field: Field) -> Reader:
    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        text = as_text(value, holder, key, walk, field.key)
        if isinstance(text, Bad):
            return BAD
        if not NAME.fullmatch(text):
            spot = walk.source.value(holder, key)
            return walk.add("B50-not-a-name", spot, key=field.key, found=text, remedy=name_hint(text))
        note_typed(text, holder, key, walk)
        return text

    return read


def _choice(hint: type[Enum], field: Field) -> Reader:
    table = {str(member.value): member for member in hint}

    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        text = as_text(value, holder, key, walk, field.key)
        if isinstance(text, Bad):
            return BAD
        member = table.get(text)
        if member is None:
            return not_a_word(walk, walk.source.value(holder, key), field.key, text, tuple(table))
        return member

    return read


def not_a_word(walk: Walk, spot: Spot, key: str, found: str, words: tuple[str, ...]) -> Bad:
    """Reports a word that is not of a closed list."""
    near = near_word(found, words) if walk.may_search() else ""
    advice = f"Did you mean `{near}`?" if near else "Take one of these words."
    return walk.add("B49-not-a-word", spot, key=key, found=found, words=", ".join(words), remedy=advice)


def _count(least: int, field: Field) -> Reader:
    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        text = as_text(value, holder, key, walk, field.key)
        if isinstance(text, Bad):
            return BAD
        if not _COUNT.fullmatch(text) or int(text) < least:
            spot = walk.source.value(holder, key)
            return walk.add("B51-not-a-count", spot, key=field.key, found=text, least=str(least))
        return int(text)

    return read


def _quantity(field: Field) -> Reader:
    base, words = DIMENSIONS.get(field.name, ("", "a number and its unit, as `22 km`"))

    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        text = as_text(value, holder, key, walk, field.key)
        if isinstance(text, Bad):
            return BAD
        found = read_quantity(text)
        if found is None or (base and found.unit != base) or found.value < 0:
            spot = walk.source.value(holder, key)
            return walk.add("B58-not-a-quantity", spot, key=field.key, found=text, words=words)
        return found

    return read


def _place(cls: type[Rec], field: Field) -> Reader:
    full = (cls, field.name) in FULL_PATHS
    either = (cls, field.name) in EITHER_PATHS
    shape = "`platform/assembly/place`" if full else "`assembly/place`"

    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        text = as_text(value, holder, key, walk, field.key)
        if isinstance(text, Bad):
            return BAD
        if (FULL_PLACE if full else PLACE).fullmatch(text) or (either and FULL_PLACE.fullmatch(text)):
            return text
        spot = walk.source.value(holder, key)
        if full and PLACE.fullmatch(text):
            advice = "Put the platform in front: no car is meant here."
        elif not full and FULL_PLACE.fullmatch(text):
            advice = f"Leave the platform out: `{text.partition('/')[2]}`."
        else:
            advice = place_hint(text)
        return walk.add("B61-not-a-place", spot, key=field.key, found=text, shape=shape, remedy=advice)

    return read


def describe(field: Field) -> str:
    """What a field holds, in a few words."""
    hint: Any = field.hint
    inner = next((a for a in get_args(hint) if a is not type(None)), hint)
    if isinstance(inner, type) and issubclass(inner, Enum):
        return "one of " + ", ".join(str(member.value) for member in inner)
    return _HOLDS.get(inner, "its value")


_HOLDS: Final[dict[object, str]] = {
    str: "a text",
    Name: "a name, as `rear-brakes`",
    Number: "a part number",
    PlacePath: "a place, as `rear-brakes/wheel-cylinder`",
    Money: "an amount, as `6.50 GBP`",
    Share: "a share, as `60 %`",
    int: "a whole number",
    Rate: "a rate, as `0.8614 GBP`",
    Currency: "a currency's code (ISO 4217), as `GBP`",
    Clock: "a time of day, as `16:00`",
    Look: "what a number looks like, as `nnn nnn a`",
    PlaceOrAssembly: "a place or an assembly, as `rear-brakes`",
    date: "a day, as `2026-12-03`",
}
