"""Money of the books in whole smallest coins of the home currency, and back."""

from __future__ import annotations

from decimal import Decimal

from fitlore.model.amounts import Money, Rate, Share
from fitlore.model.currencies import minor_units
from fitlore.sourcing.problem import CERTAIN


class OtherCurrency(ValueError):
    """The amount is not in the home currency; its text says which it is."""


def digits(currency: str) -> int:
    """How many decimal digits a currency has (ISO 4217)."""
    return minor_units(currency) or 0


def coins(money: Money | None, home: str) -> int:
    """The amount in smallest coins; nothing is 0. Raises OtherCurrency for another currency or a part of a coin."""
    if money is None:
        return 0
    if money.currency != home:
        raise OtherCurrency(money.currency)
    scaled = money.amount.scaleb(digits(home))
    if scaled != scaled.to_integral_value():
        raise OtherCurrency(f"a part of the smallest coin: {money.amount} {money.currency}")
    return int(scaled)


def finely(rate: Rate, home: str) -> Decimal:
    """A rate in smallest coins, parts of a coin kept. Raises OtherCurrency for another currency."""
    if rate.currency != home:
        raise OtherCurrency(rate.currency)
    return rate.amount.scaleb(digits(home))


def amount(whole: int, home: str) -> Money:
    """Smallest coins as money."""
    return Money(Decimal(whole).scaleb(-digits(home)), home)


def chance(share: Share | None) -> int:
    """A share as a chance in ten-thousandths; nothing said is certain."""
    return CERTAIN if share is None else int((share.percent * CERTAIN / 100).to_integral_value())
