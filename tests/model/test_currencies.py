"""The closed list of currencies and amounts in them, held against two registry libraries."""

from __future__ import annotations

import babel.numbers
import pycountry
import pytest

from fitlore.model.amounts import MoneyFault, money_fault, read_money, read_rate
from fitlore.model.currencies import minor_units, near_codes
from fitlore.model.currency_table import CURRENCIES

NO_MONEY = {
    "XAG", "XAU", "XBA", "XBB", "XBC", "XBD", "XDR", "XPD", "XPT", "XSU", "XTS", "XUA", "XXX",
}  # fmt: skip
"""Codes of ISO 4217 list one with `N.A.` for minor units: metals, units of account, testing, none."""

COINS_OUT_OF_USE = {
    "AFN", "ALL", "IQD", "IRR", "KPW", "LAK", "LBP", "MGA", "MMK", "RSD", "SOS", "SYP", "YER",
}  # fmt: skip
"""Where babel (Unicode CLDR) gives no decimals because the small coins are gone; ISO 4217 keeps its exponent."""


def test_the_codes_are_those_of_the_standard() -> None:
    """Every code that pycountry has from ISO 4217, but those that are no money; and none beside."""
    listed = {currency.alpha_3 for currency in pycountry.currencies}
    assert listed >= NO_MONEY
    assert set(CURRENCIES) == listed - NO_MONEY
    assert len(CURRENCIES) > 150


def test_the_decimals_are_those_of_the_standard() -> None:
    """Babel has the same number of decimals for each, but where CLDR counts only the coins that are still in use."""
    other = {
        code for code, places in CURRENCIES.items() if babel.numbers.get_currency_precision(code) != places
    }
    assert other == COINS_OUT_OF_USE
    assert all(babel.numbers.get_currency_precision(code) == 0 for code in COINS_OUT_OF_USE)
    assert {minor_units(code) for code in ("JPY", "ISK", "KRW")} == {0}
    assert {minor_units(code) for code in ("BHD", "KWD", "TND")} == {3}
    assert minor_units("XAU") is None


@pytest.mark.parametrize("code", sorted(CURRENCIES))
def test_an_amount_has_no_more_decimals_than_its_currency(code: str) -> None:
    """With as many as ISO 4217 gives it is read, and written with just as many; with one more it is a fault."""
    places = CURRENCIES[code]
    right = "12" + ("." + "5" * places if places else "")
    money = read_money(f"{right} {code}")
    assert str(money) == f"{right} {code}"
    too_many = f"12.{'5' * (places + 1)} {code}"
    if places < 4:
        assert read_money(too_many) is None
        assert money_fault(too_many) is MoneyFault.TOO_MANY_DECIMALS


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("£", ("GBP",)),
        ("UKP", ("GBP",)),
        ("gbp", ("GBP",)),
        ("€", ("EUR",)),
        ("DEM", ("EUR",)),
        ("YEN", ("JPY",)),
        ("???", ()),
    ],
)
def test_the_nearest_codes_are_offered(written: str, meant: tuple[str, ...]) -> None:
    """Signs, names and withdrawn codes lead to the codes they stood for; what is like nothing leads nowhere."""
    assert near_codes(written) == meant
    if not meant:
        assert read_money(f"5 {written}") is None


def test_a_slip_leads_to_codes_near_it() -> None:
    """Two letters changed round: the right one is among the first three."""
    assert "GBP" in near_codes("GPB")
    assert "EUR" in near_codes("ERU")
    assert money_fault("5.00 GPB") is MoneyFault.UNKNOWN_CURRENCY


@pytest.mark.parametrize(
    "text",
    ["5", "5 GBP.", "5,00 GBP", "1,000.00 GBP", "£5", "5GBP", "5  GBP", "1e3 GBP", "0x5 GBP", "1_000 GBP", "٥ GBP", "５ GBP",
     "5 gbp", ".5 GBP", "5. GBP", "NaN GBP", "inf GBP", "5 XAU", "5 XXX", "", "GBP"],
)  # fmt: skip
def test_nothing_else_is_money(text: str) -> None:
    """No signs, no thousands, no digits but 0 to 9, no exponents: what is not plainly an amount is none."""
    assert read_money(text) is None


def test_a_rate_is_more_than_nothing() -> None:
    """A rate may have nine decimals, whatever the currency has; nothing, and no currency, are no rates."""
    assert str(read_rate("0.004913 GBP")) == "0.004913 GBP"
    assert str(read_rate("161.25 JPY")) == "161.25 JPY"
    for text in ("0 GBP", "0.000 GBP", "-1 GBP", "1 GPB", "1", "1.0000000001 GBP", "１ GBP"):
        assert read_rate(text) is None, text
