"""The shop that does the work, and the dated rates it reckons with."""

from __future__ import annotations

from datetime import date

from fitlore.model.amounts import Money, Rate, Share
from fitlore.model.choices import How
from fitlore.model.record import Currency, Name, Rec


class ExchangeRate(Rec, frozen=True, kw_only=True):
    """What one of a currency was worth in another on a day."""

    currency: Currency
    rate: Rate
    """So much for one of it: `0.8614 GBP`."""
    date: date
    source: str = ""


class Vat(Rec, frozen=True, kw_only=True):
    """The value added tax of a country from a day on, until a later line says otherwise."""

    country: str
    charge: Share
    since: date
    source: str = ""


class Duty(Rec, frozen=True, kw_only=True):
    """What a country takes on goods from abroad, from a day on, until a later line says otherwise."""

    country: str
    coming_from: tuple[str, ...] = ()
    """Countries of origin; absent: any."""
    is_: Name | None = None
    """A category it is limited to; absent: all."""
    charge: Share
    since: date
    source: str = ""


class Shop(Rec, frozen=True, kw_only=True):
    """The shop's own settings."""

    shop: Name
    name: str = ""
    country: str = ""
    currency: Currency = Currency("GBP")
    person: str = "shop"
    fuel_per_km: Rate | None = None
    """May have parts of the smallest coin: `0.185 GBP`."""
    hour_worth: Money | None = None
    reclaims_vat: bool | None = None
    """Whether the value added tax in its purchases comes back to it."""
    rates: tuple[ExchangeRate, ...] = ()


class Shelf(Rec, frozen=True, kw_only=True):
    """Books with one owner: a folder, or a SPARQL endpoint. `trust` is the best `how` that evidence on it may count as."""

    shelf: Name
    folder: str = ""
    """Relative to the folder of fitlore.yaml."""
    endpoint: str = ""
    """The address of a SPARQL 1.1 endpoint."""
    owner: str = ""
    trust: How | None = None
    """Absent: any for a folder, `told` for an endpoint."""
    note: str = ""

    @property
    def cap(self) -> How | None:
        """The best that evidence on it counts as (None: any)."""
        return self.trust or (How.TOLD if self.endpoint else None)
