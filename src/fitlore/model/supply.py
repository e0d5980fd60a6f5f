"""Suppliers with their terms, and what they offer."""

from __future__ import annotations

from datetime import date

from fitlore.model.amounts import Money, Quantity, Share
from fitlore.model.choices import Side, State, Trade
from fitlore.model.platform import Contained
from fitlore.model.record import Name, Number, Rec


class Step(Rec, frozen=True, kw_only=True):
    """One step of a carriage tariff: this fee from this spend on, or up to this weight (limits included)."""

    fee: Money
    from_spend: Money | None = None
    up_to_weight: Quantity | None = None


class Carriage(Rec, frozen=True, kw_only=True):
    """What bringing an order costs."""

    fixed: Money | None = None
    free_from: Money | None = None
    """The limit is included: an order of exactly this is carried free."""
    minimum_order: Money | None = None
    steps: tuple[Step, ...] = ()


class Trip(Rec, frozen=True, kw_only=True):
    """Fetching it oneself: once per supplier, or once for all that join."""

    distance: Quantity | None = None
    minutes: int = 0
    cost: Money | None = None
    joins: Name | None = None


class OldUnit(Rec, frozen=True, kw_only=True):
    """The terms on which the surcharge of an exchange unit comes back."""

    accepted: Share
    return_: Money | None = None
    by_days: int | None = None


class Offer(Rec, frozen=True, kw_only=True):
    """What a supplier asks for something. Exactly one of number, any_, service, whole_car says what it is."""

    number: Number | None = None
    any_: Name | None = None
    service: Name | None = None
    whole_car: str | None = None
    brings: tuple[Contained, ...] = ()
    """What one of it contains beyond or instead of the part itself (kits, sets, whole cars)."""
    side: Side | None = None
    price: Money | None = None
    state: State = State.NEW
    pack: int = 1
    enough_for: int = 1
    stock: int | None = None
    days: int = 0
    minutes: int = 0
    """Hands needed to pull or fetch one."""
    surcharge: Money | None = None
    old_unit: OldUnit | None = None
    scrap_back: Money | None = None
    """What comes back later for the remains of a whole car."""
    works: Share | None = None
    """The chance that a used one turns out good."""
    weight: Quantity | None = None
    warranty: str = ""
    made: str = ""
    seen: date | None = None
    until: date | None = None
    said: str = ""
    """`none`: they were asked and had none."""
    note: str = ""


class Supplier(Rec, frozen=True, kw_only=True):
    """Who sells, on which terms."""

    supplier: Name
    name: str = ""
    trade: Trade
    carriage: Carriage | None = None
    trip: Trip | None = None
    open: dict[str, str] = {}
    tax: str = ""
    country: str = ""
    note: str = ""
    offers: tuple[Offer, ...] = ()
