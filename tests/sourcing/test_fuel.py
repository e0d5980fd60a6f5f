"""What a kilometre costs is a rate: it may have parts of the smallest coin, and the sum of a trip is rounded once."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from fitlore.books.layout import read_layout
from fitlore.model.amounts import Rate
from fitlore.sourcing.coins import OtherCurrency, finely
from tests.demo.shop import copy_of_the_demo

FUEL = "fuel-per-km: 0.18 GBP"


def test_the_shops_own_file_takes_parts_of_a_penny(tmp_path: Path) -> None:
    """18.5 pence a kilometre are read as they are written; no currency and nothing at all are refused, with the place."""
    for said, code in (("0.185 GBP", ""), ("0.185", "V03-not-a-rate"), ("0 GBP", "V03-not-a-rate")):
        (tmp_path / "fitlore.yaml").write_text(f"shop: small\nfuel-per-km: {said}\n", "utf-8")
        layout = read_layout(tmp_path)
        assert [(one.code, one.origin.line) for one in layout.diagnostics] == ([(code, 2)] if code else [])
        if not code:
            assert layout.shop is not None
            assert layout.shop.fuel_per_km == Rate(Decimal("0.185"), "GBP")


def test_a_rate_in_coins_keeps_its_parts_and_its_currency() -> None:
    """ISO 4217: a pound has 100 pence, a yen none."""
    assert finely(Rate(Decimal("0.185"), "GBP"), "GBP") == Decimal("18.5")
    assert finely(Rate(Decimal("21.4"), "JPY"), "JPY") == Decimal("21.4")
    with pytest.raises(OtherCurrency):
        finely(Rate(Decimal("0.185"), "GBP"), "EUR")


def test_a_plan_pays_the_rate_for_every_kilometre_of_its_trips(tmp_path: Path) -> None:
    """The demo's cheapest plan drives 150 km (27.00 at 18 pence): half a penny more makes it 75 pence dearer."""
    shop = copy_of_the_demo(tmp_path)
    assert shop.call("car", "green").code == 0
    before = Decimal(shop.call("plan", "--json").json["cost"].removesuffix(" GBP"))
    book = shop.folder / "fitlore.yaml"
    text = book.read_text("utf-8")
    assert FUEL in text
    book.write_text(text.replace(FUEL, "fuel-per-km: 0.185 GBP"), "utf-8")
    after = Decimal(shop.call("plan", "--json").json["cost"].removesuffix(" GBP"))
    assert after - before == Decimal("0.75")
