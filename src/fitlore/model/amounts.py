"""Money, measured quantities and shares: what the user wrote, and an exact value to reckon with."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final

import msgspec

from fitlore.model.units import UNITS, Unit

_MONEY: Final = re.compile(r"(-?\d{1,12}(?:\.\d{1,4})?) ([A-Z]{3})")
_NUMBER: Final = r"[-+]?(?:\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?|[.,]\d+)"
_QUANTITY: Final = re.compile(rf"({_NUMBER})\s*([^\s\d.,].*)?")
_SHARE: Final = re.compile(r"(\d{1,3}(?:\.\d{1,4})?) ?%")
_RANGE: Final = re.compile(rf"({_NUMBER})\s*(?:\.\.|-|to)\s*({_NUMBER})\s*(\S.*)")


class Money(msgspec.Struct, frozen=True, array_like=True):
    """An amount of one currency (ISO 4217 code)."""

    amount: Decimal
    currency: str

    def __str__(self) -> str:
        return f"{self.amount:.2f} {self.currency}"


class Share(msgspec.Struct, frozen=True, array_like=True):
    """A share of a whole, written in per cent (`60 %`)."""

    percent: Decimal

    def __str__(self) -> str:
        return f"{self.percent.normalize():f} %"


class Quantity(msgspec.Struct, frozen=True, array_like=True):
    """A measured value: the text as written, and the same in the base unit of its dimension (mm, V, A, min ...)."""

    text: str
    value: Decimal
    unit: str
    """The base unit's symbol (`mm`, `A`, `W`, `degC`, `1` for a bare number)."""

    def __str__(self) -> str:
        return self.text


class Span(msgspec.Struct, frozen=True, array_like=True):
    """A range of a measured value, both ends included, in the base unit of its dimension."""

    text: str
    low: Decimal
    high: Decimal
    unit: str


def read_money(text: str) -> Money | None:
    """`18.50 GBP` as money; None for anything else (no thousands separators, no signs of currencies)."""
    match = _MONEY.fullmatch(text)
    return Money(Decimal(match[1]), match[2]) if match else None


def read_share(text: str) -> Share | None:
    """`60 %` as a share; None where it is no per cent between 0 and 100."""
    match = _SHARE.fullmatch(text)
    share = Share(Decimal(match[1])) if match else None
    return share if share and share.percent <= 100 else None


def read_quantity(text: str) -> Quantity | None:
    """`11.5 mm`, `0.030 in`, `1/2"`, `25 lbf.ft` as a quantity; None where number or unit cannot be read."""
    match = _QUANTITY.fullmatch(text.strip())
    if not match:
        return None
    number, unit = _decimal(match[1]), _unit(match[2] or "")
    if number is None or unit is None:
        return None
    return Quantity(text, number * unit.factor + unit.offset, unit.base)


def read_span(text: str) -> Span | None:
    """`0.9..1.1 bar` as a range; a single quantity is a range of one point. None where it cannot be read."""
    match = _RANGE.fullmatch(text.strip())
    if not match:
        one = read_quantity(text)
        return Span(text, one.value, one.value, one.unit) if one else None
    low, high, unit = _decimal(match[1]), _decimal(match[2]), _unit(match[3])
    if low is None or high is None or unit is None or low > high:
        return None
    return Span(text, low * unit.factor + unit.offset, high * unit.factor + unit.offset, unit.base)


def _decimal(text: str) -> Decimal | None:
    sign = -1 if text.startswith("-") else 1
    whole, _, fraction = text.lstrip("+-").replace(",", ".").rpartition(" ")
    if "/" not in fraction:
        return sign * Decimal(fraction)
    top, bottom = fraction.split("/")
    if int(bottom) == 0:
        return None
    return sign * (Decimal(whole or 0) + Decimal(top) / Decimal(bottom))


def _unit(text: str) -> Unit | None:
    return UNITS.get(text.strip())
