"""Money, measured quantities and shares: what the user wrote, and an exact value to reckon with."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal
from enum import Enum
from typing import Final

import msgspec

from fitlore.model.currencies import minor_units
from fitlore.model.late import Late
from fitlore.model.units import UNITS, Unit

_MONEY: Final = Late(r"(-?[0-9]{1,12}(?:\.[0-9]{1,4})?) ([A-Z]{3})")
_RATE: Final = Late(r"([0-9]{1,9}(?:\.[0-9]{1,9})?) ([A-Z]{3})")
_NUMBER: Final = r"[-+]?(?:[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)"
_QUANTITY: Final = Late(rf"({_NUMBER})\s*((?:1/)?[^\s0-9.,].*)?")
_SHARE: Final = Late(r"([0-9]{1,3}(?:\.[0-9]{1,4})?) ?%")
_RANGE: Final = Late(rf"({_NUMBER})\s*(?:\.\.|-|to)\s*({_NUMBER})\s*(\S.*)")

_LONGEST: Final = 40
_FIGURES: Final = Context(prec=28, rounding=ROUND_HALF_EVEN)


class Money(msgspec.Struct, frozen=True, array_like=True):
    """An amount of one currency (ISO 4217 code)."""

    amount: Decimal
    currency: str

    def __str__(self) -> str:
        return f"{self.amount:.{minor_units(self.currency) or 0}f} {self.currency}"


class Rate(msgspec.Struct, frozen=True, array_like=True):
    """So much of a currency for one of something: of another currency (`0.8614 GBP`), or for a kilometre (`0.185 GBP`)."""

    amount: Decimal
    currency: str

    def __str__(self) -> str:
        return f"{self.amount:f} {self.currency}"


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


class MoneyFault(Enum):
    """What is wrong with a text that has the form of money."""

    UNKNOWN_CURRENCY = "unknown currency"
    TOO_MANY_DECIMALS = "too many decimals"


def read_money(text: str) -> Money | None:
    """`18.50 GBP` as money; None for anything else (no thousands separators, no signs of currencies).

    The currency is one of ISO 4217, and the amount has no more decimals than that has.
    """
    match = _MONEY.fullmatch(text)
    return Money(Decimal(match[1]), match[2]) if match and money_fault(text) is None else None


def money_fault(text: str) -> MoneyFault | None:
    """What is wrong with a text in the form of money; None where it is right, and where it has not even the form."""
    match = _MONEY.fullmatch(text)
    if not match:
        return None
    places = minor_units(match[2])
    if places is None:
        return MoneyFault.UNKNOWN_CURRENCY
    return MoneyFault.TOO_MANY_DECIMALS if len(match[1].partition(".")[2]) > places else None


def read_rate(text: str) -> Rate | None:
    """`0.8614 GBP` as a rate: more than nothing, in a currency of ISO 4217, with up to nine decimals."""
    match = _RATE.fullmatch(text)
    if not match or minor_units(match[2]) is None or not Decimal(match[1]):
        return None
    return Rate(Decimal(match[1]), match[2])


def read_share(text: str) -> Share | None:
    """`60 %` as a share; None where it is no per cent between 0 and 100."""
    match = _SHARE.fullmatch(text)
    share = Share(Decimal(match[1])) if match else None
    return share if share and share.percent <= 100 else None


def read_quantity(text: str) -> Quantity | None:
    """`11.5 mm`, `0.030 in`, `1/2"`, `25 lbf.ft` as a quantity; None where number or unit cannot be read.

    The value is reckoned in whole numbers and rounded once, to 28 figures.
    """
    match = _QUANTITY.fullmatch(text.strip())
    if not match:
        return None
    number, unit = _fraction(match[1]), _unit(match[2] or "")
    if number is None or unit is None:
        return None
    return Quantity(text, _in_base(number, unit), unit.base)


def read_span(text: str) -> Span | None:
    """`0.9..1.1 bar` as a range; a single quantity is a range of one point. None where it cannot be read."""
    match = _RANGE.fullmatch(text.strip())
    if not match:
        one = read_quantity(text)
        return Span(text, one.value, one.value, one.unit) if one else None
    low, high, unit = _fraction(match[1]), _fraction(match[2]), _unit(match[3])
    if low is None or high is None or unit is None:
        return None
    bottom, top = _in_base(low, unit), _in_base(high, unit)
    return Span(text, bottom, top, unit.base) if bottom <= top else None


def _fraction(text: str) -> tuple[int, int] | None:
    """A written number as top and bottom; None for a bottom of nothing, and for more figures than anything has."""
    if len(text) > _LONGEST:
        return None
    sign = -1 if text.startswith("-") else 1
    whole, _, rest = text.lstrip("+-").replace(",", ".").rpartition(" ")
    if "/" in rest:
        top, bottom = map(int, rest.split("/"))
        return (sign * (int(whole or 0) * bottom + top), bottom) if bottom else None
    figures, _, decimals = rest.partition(".")
    return sign * int(figures + decimals), int(10 ** len(decimals))


def _in_base(number: tuple[int, int], unit: Unit) -> Decimal:
    top, bottom = number[0] * unit.up, number[1] * unit.down
    if unit.more:
        top, bottom = top * unit.less + unit.more * bottom, bottom * unit.less
    return _FIGURES.divide(Decimal(top), Decimal(bottom))


def _unit(text: str) -> Unit | None:
    return UNITS.get(text.strip())
