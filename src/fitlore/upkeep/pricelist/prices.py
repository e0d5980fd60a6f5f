"""Prices as suppliers write them: signs and codes of currencies, decimal marks, groups of thousands. Nothing is guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.model.choices import DecimalMark
from fitlore.model.currencies import minor_units

_SIGNS: Final = {"£": "GBP", "€": "EUR", "¥": "JPY", "zł": "PLN", "Kč": "CZK"}
"""Signs that are one currency's in a price list (common practice); a dollar or a krone is not."""
_OTHER_SIGNS: Final = ("$", "kr.", "kr", "Fr.", "SFr.")
_BLANKS: Final = "\u00a0\u202f\u2009 '\u2019"
_BODY: Final = re.compile(rf"[0-9](?:[0-9.,{_BLANKS}]*[0-9])?")
_NO_DECIMALS: Final = re.compile(r"[.,]\s?[-–—]{1,2}$")
_MARKS: Final = (DecimalMark.POINT, DecimalMark.COMMA)


class Written(NamedTuple):
    """A price taken apart: the amount by each decimal mark under which it can be read, and its currency where it says one."""

    amounts: dict[DecimalMark, Decimal]
    currency: str = ""
    strange: str = ""
    """A sign that stands for several currencies."""


class Unread(NamedTuple):
    """Why a text is no price."""

    why: str


def take_apart(text: str) -> Written | Unread:
    """Reads `£1,234.50`, `12,50 EUR`, `1'234.-`, `EUR 7`: every reading that it has."""
    body, currency, strange = _without_currency(text.strip())
    sign = -1 if body[:1] in "-−" and body[:1] else 1
    body = body[1:].strip() if sign < 0 else body
    whole = _NO_DECIMALS.sub("", body)
    if not _BODY.fullmatch(whole):
        return Unread("no number" if not re.search("[0-9]", text) else "more than a number")
    amounts = {mark: amount for mark in _MARKS if (amount := _by(whole, mark)) is not None}
    if not amounts:
        return Unread("its groups of figures fit no way of writing numbers")
    return Written({mark: sign * amount for mark, amount in amounts.items()}, currency, strange)


def _without_currency(text: str) -> tuple[str, str, str]:
    """The number alone, the code of its currency, and a sign that is not one currency's."""
    code = re.match(r"([A-Z]{3})\b\s*", text) or re.search(r"\s*\b([A-Z]{3})$", text)
    if code and minor_units(code[1]) is not None:
        return (text[: code.start()] + text[code.end() :]).strip(), code[1], ""
    for sign in sorted((*_SIGNS, *_OTHER_SIGNS), key=len, reverse=True):
        rest = text.removeprefix(sign) if text.startswith(sign) else text.removesuffix(sign)
        if rest != text:
            known = _SIGNS.get(sign, "")
            return rest.strip(), known, "" if known else sign
    return text, "", ""


def _by(body: str, mark: DecimalMark) -> Decimal | None:
    """The amount where this is the sign before the decimals; None where the text cannot be read so."""
    head, found, tail = body.rpartition(mark.sign)
    whole, decimals = (head, tail) if found else (body, "")
    if mark.sign in whole or not re.fullmatch("[0-9]*", decimals) or (found and not decimals):
        return None
    other = "," if mark is DecimalMark.POINT else "."
    used = {sign for sign in whole if not sign.isdigit()}
    if len(used) > 1 or not used <= {other, *_BLANKS}:
        return None
    groups = re.split(f"[{re.escape(other)}{_BLANKS}]", whole)
    grouped = len(groups) > 1
    if grouped and (len(groups[0]) not in (1, 2, 3) or any(len(one) != 3 for one in groups[1:])):
        return None
    if grouped and groups[0].startswith("0"):
        return None
    return Decimal("".join(groups) + (f".{decimals}" if decimals else ""))


class Marks(NamedTuple):
    """What the prices of a list say about its decimal mark: the first text that can be read by one only, for each."""

    only: dict[DecimalMark, str]
    either: str = ""
    """The first text with two different readings."""


def marks_of(prices: Iterable[tuple[str, Written | Unread]]) -> Marks:
    """Looks through all prices of a list, each with its text."""
    only: dict[DecimalMark, str] = {}
    either = ""
    for text, price in prices:
        if isinstance(price, Unread):
            continue
        if len(price.amounts) == 1:
            only.setdefault(next(iter(price.amounts)), text)
        elif len(set(price.amounts.values())) > 1:
            either = either or text
    return Marks(only, either)
