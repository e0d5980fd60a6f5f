"""What a value was perhaps meant to be: the codes of values that cannot be read, and their remedies."""

from __future__ import annotations

import re
import unicodedata
from typing import Final

from fitlore.books.schema import FULL_PLACE, NAME, PLACE
from fitlore.model.amounts import MoneyFault, money_fault, read_money
from fitlore.model.currencies import minor_units, near_codes

_AMOUNT: Final = re.compile(r"[-+]?[0-9]+(?:[.,][0-9]+)*")


def rate_code(text: str) -> str:
    """An unknown currency, or no rate."""
    code = text.rpartition(" ")[2]
    known = not re.fullmatch(r"[0-9.]+ [A-Z]{3}", text) or minor_units(code) is not None
    return "V03-not-a-rate" if known else "V01-unknown-currency"


def money_code(text: str) -> str:
    """What is wrong with a text where money belongs."""
    if read_money(text) is not None:
        return "B56-negative-money"
    wrong = money_fault(text)
    if wrong is not None:
        return _MONEY_CODES[wrong]
    return "B55-money-without-currency" if _AMOUNT.fullmatch(text) else "B54-not-money"


_MONEY_CODES: Final = {
    MoneyFault.UNKNOWN_CURRENCY: "V01-unknown-currency",
    MoneyFault.TOO_MANY_DECIMALS: "V02-too-many-decimals",
}


def _currency_remedy(text: str) -> str:
    """The codes that are nearest to the one written."""
    amount, _, code = text.rpartition(" ")
    near = [f"`{amount} {one}`" if amount else f"`{one}`" for one in near_codes(code)]
    return f"Did you mean {' or '.join(near)}?" if near else "Look the code up in ISO 4217."


def remedy(code: str, text: str) -> str:
    """The value as it was perhaps meant, where that can be guessed."""
    if code == "V01-unknown-currency":
        return _currency_remedy(text)
    if code == "V02-too-many-decimals":
        return f"Round it yourself: {text[-3:]} has {minor_units(text[-3:]) or 'no'} decimals."
    if code == "B63-not-a-language":
        return language_hint(text)
    if code == "B61-not-a-place":
        return place_hint(text)
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
