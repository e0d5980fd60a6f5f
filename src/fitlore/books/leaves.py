"""Readers of single values: text into names, numbers, money, dates; each says what it expected."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from datetime import date
from enum import Enum
from typing import Any, Final, get_args

from fitlore.books.doc import Holder, Spot, Tree
from fitlore.books.near import near_word
from fitlore.books.schema import (
    DIMENSIONS,
    EITHER_PATHS,
    FROM_ONE,
    FULL_PATHS,
    FULL_PLACE,
    LOOKS_TYPED,
    NAME,
    PLACE,
    Field,
)
from fitlore.books.walking import BAD, Bad, Reader, Walk
from fitlore.model.amounts import Money, Quantity, Share, read_money, read_quantity, read_share
from fitlore.model.dates import Period, read_day, read_period
from fitlore.model.numbers import number_key
from fitlore.model.record import Name, Number, PlacePath, Rec

_COUNT: Final = re.compile(r"0|[1-9][0-9]{0,8}")
_SIGN: Final = re.compile(r"[A-Za-z0-9]")
_AMOUNT: Final = re.compile(r"[-+]?[0-9]+(?:[.,][0-9]+)*")


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
    table: dict[object, Reader] = {
        str: _text(field),
        Number: _number(field),
        Name: _name(field),
        bool: _one(field, {"yes": True, "no": False}.get, "B53-not-yes-or-no"),
        date: _one(field, read_day, "B59-not-a-day"),
        Period: _one(field, read_period, "B60-not-a-date"),
        Money: _one(field, read_money, _money_code),
        Share: _one(field, read_share, "B57-not-a-share"),
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
            return walk.add(said, spot, key=field.key, found=text, remedy=_remedy(said, text))
        return found

    return read


def _money_code(text: str) -> str:
    if read_money(text) is not None:
        return "B56-negative-money"
    return "B55-money-without-currency" if _AMOUNT.fullmatch(text) else "B54-not-money"


def _remedy(code: str, text: str) -> str:
    """The value as it was perhaps meant, where that can be guessed."""
    if code == "B53-not-yes-or-no":
        low = text.casefold()
        word = "yes" if low in ("true", "y", "on", "1") else "no" if low in ("false", "n", "off", "0") else ""
        return f"Write `{word}`." if word else "Write `yes` or `no`."
    if code == "B57-not-a-share" and re.fullmatch(r"[0-9]{1,3}(?:\.[0-9]+)?", text):
        number = float(text)
        return f"Write `{number * 100:g} %`." if number <= 1 else f"Write `{text} %`."
    day = re.fullmatch(r"([0-9]{1,2})[./-]([0-9]{1,2})[./-]([0-9]{4})", text)
    if code in ("B59-not-a-day", "B60-not-a-date") and day:
        return f"Write the year first: `{day[3]}-{day[2]:0>2}-{day[1]:0>2}` if {day[1]} is the day."
    return _REMEDIES.get(code, "")


_REMEDIES: Final = {
    "B57-not-a-share": "Write per cent: `60 %`.",
    "B59-not-a-day": "Write year, month and day: `2026-12-03`.",
    "B60-not-a-date": "Write what is known of it: `1986`, `1986-08`, `198X`, or a period with a slash: `1986-08/..`.",
    "B62-not-a-side": "Seen from the driver's seat facing forwards: `left` or `right`.",
}


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
    near = near_word(found, words)
    remedy = f"Did you mean `{near}`?" if near else "Take one of these words."
    return walk.add("B49-not-a-word", spot, key=key, found=found, words=", ".join(words), remedy=remedy)


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
            remedy = "Put the platform in front: no car is meant here."
        elif not full and FULL_PLACE.fullmatch(text):
            remedy = f"Leave the platform out: `{text.partition('/')[2]}`."
        else:
            remedy = place_hint(text)
        return walk.add("B61-not-a-place", spot, key=field.key, found=text, shape=shape, remedy=remedy)

    return read


def name_hint(text: str) -> str:
    """What a text would be as a name."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    name = "-".join(re.findall(r"[a-z0-9]+", plain))
    if name and not NAME.fullmatch(name):
        return f"Put a letter in front: `t{name}`."
    return f"Write `{name}`." if name else "Write words of the letters a to z, joined by hyphens."


def place_hint(text: str) -> str:
    """What a text would be as a place."""
    steps = [re.sub(r"[^a-z0-9@]+", "-", step.lower()).strip("-") for step in text.split("/") if step.strip()]
    meant = "/".join(steps)
    if PLACE.fullmatch(meant) or FULL_PLACE.fullmatch(meant):
        return f"Write `{meant}`."
    return (
        "A side is written behind it: `@left`, `@right`, `@2`; names are lower-case words joined by hyphens."
    )


def language_hint(text: str) -> str:
    """What a text would be as a language."""
    return f"Write `{text.lower().replace('_', '-')}`."


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
}
