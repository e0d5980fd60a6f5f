"""Money in words."""

from __future__ import annotations

from fitlore.sourcing.coins import digits


def said(coins: int, currency: str, *, sign: bool = False) -> str:
    """Smallest coins as `538.30 GBP`; with `sign`, a plus in front of what is not negative."""
    places = digits(currency)
    whole, rest = divmod(abs(coins), 10**places)
    text = f"{whole}.{rest:0{places}}" if places else str(whole)
    lead = "-" if coins < 0 else "+" if sign else ""
    return f"{lead}{text} {currency}"


def bare(coins: int, currency: str) -> str:
    """The same without the currency, for columns that name it once."""
    return said(coins, currency).rpartition(" ")[0]
