"""Currencies: the closed list of ISO 4217 with the decimals of each, and the codes somebody may have meant."""

from __future__ import annotations

from typing import Final

from fitlore.model.currency_table import CURRENCIES

_SAID: Final = {
    "$": ("USD", "CAD", "AUD"),
    "£": ("GBP",),
    "€": ("EUR",),
    "¥": ("JPY", "CNY"),
    "DEM": ("EUR",),
    "ESP": ("EUR",),
    "EURO": ("EUR",),
    "EUROS": ("EUR",),
    "FR": ("CHF", "EUR"),
    "FRF": ("EUR",),
    "ITL": ("EUR",),
    "PND": ("GBP",),
    "POUND": ("GBP",),
    "POUNDS": ("GBP",),
    "RMB": ("CNY",),
    "SFR": ("CHF",),
    "STG": ("GBP",),
    "UKP": ("GBP",),
    "YEN": ("JPY",),
}
"""Signs, names and withdrawn codes that people write, and the codes they may mean (common practice)."""


def minor_units(code: str) -> int | None:
    """How many decimals amounts of a currency have (ISO 4217); None where there is no such currency."""
    return CURRENCIES.get(code)


def near_codes(written: str, most: int = 3) -> tuple[str, ...]:
    """The codes that a code or sign may have been meant for, the likeliest first; none where nothing is near."""
    from difflib import get_close_matches

    word = written.strip().upper()
    if word in CURRENCIES:
        return (word,)
    if word in _SAID:
        return _SAID[word][:most]
    turned = [code for code in CURRENCIES if sorted(code) == sorted(word)]
    near = [
        code for code in get_close_matches(word, CURRENCIES, n=most * 2, cutoff=0.6) if code not in turned
    ]
    return (*turned, *sorted(near, key=lambda code: (code[:2] != word[:2], near.index(code))))[:most]
