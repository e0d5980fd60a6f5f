"""Suppliers with their terms, and what they offer."""

from __future__ import annotations

from datetime import date

from fitlore.model.amounts import Money, Quantity, Share
from fitlore.model.choices import DecimalMark, Divider, Side, SoldBy, State, TaxView, Trade
from fitlore.model.dates import Period
from fitlore.model.platform import Contained, Established
from fitlore.model.record import Clock, Currency, Name, Number, PlaceOrAssembly, PlacePath, Rec


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


class TakesBack(Rec, frozen=True, kw_only=True):
    """On which terms a supplier takes a thing back that does not fit."""

    by_days: int | None = None
    fee: Money | None = None
    """What sending it back costs."""
    refunds: Share | None = None
    """How much of the price comes back; absent: all of it."""
    note: str = ""


class FormerPrice(Rec, frozen=True, kw_only=True):
    """What was asked for it before, and when that was last seen."""

    price: Money
    seen: date | None = None


class PriceList(Rec, frozen=True, kw_only=True):
    """How a supplier's price lists are laid out: which column says what, by its heading or its number from 1."""

    number_in: str
    """The column of the parts' numbers."""
    price_in: str
    maker_in: str = ""
    stock_in: str = ""
    pack_in: str = ""
    """The column that says how many the price is for."""
    currency: Currency | None = None
    """Of prices without one; absent: the shop's own."""
    divided_by: Divider | None = None
    """What stands between two columns of text."""
    decimals_after: DecimalMark | None = None
    encoding: str = ""
    """By its name in the registry of IANA, for lists that are not UTF-8."""
    sheet: str = ""
    """Of a workbook."""
    days: int | None = None
    """Until a thing of this list is here; absent: as with most of his offers."""


class Offer(Rec, frozen=True, kw_only=True):
    """What a supplier asks for something. Exactly one of number, any_, service, whole_car says what it is."""

    number: Number | None = None
    any_: Name | None = None
    service: Name | None = None
    whole_car: str | None = None
    brings: tuple[Contained, ...] = ()
    """What one of it contains beyond or instead of the part itself (kits, sets, whole cars)."""
    side: Side | None = None
    maker: str = ""
    """Whose version of the number it is."""
    batch: str = ""
    comes_off: Name | None = None
    """The donor it is taken from, where that is described."""
    price: Money | None = None
    """What is asked for it."""
    taken: Money | None = None
    """What they took for it in the end, where they could be talked down."""
    earlier: tuple[FormerPrice, ...] = ()
    """What was asked before, oldest first."""
    state: State = State.NEW
    unit: SoldBy = SoldBy.EACH
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
    """The last day of the price."""
    held_till: date | None = None
    """They keep it for the shop until this day."""
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
    takes_back: TakesBack | None = None
    open: dict[str, str] = {}
    closed: tuple[Period, ...] = ()
    """Days and periods on which nothing is sold or sent."""
    cut_off: Clock | None = None
    """Ordered later than this, a thing comes a day later."""
    cash_only: bool = False
    joining_fee: Money | None = None
    """Paid once, before the first order (a club)."""
    tax: TaxView | None = None
    country: str = ""
    price_list: PriceList | None = None
    note: str = ""
    offers: tuple[Offer, ...] = ()


class StillOn(Rec, frozen=True, kw_only=True):
    """Something that a donor still has."""

    at: PlacePath
    number: Number | None = None
    """The number read on it."""
    quantity: int = 1
    works: Share | None = None
    """The chance that it is good."""
    marks: str = ""
    note: str = ""


class Donor(Rec, frozen=True, kw_only=True):
    """A described car to strip, or one that stands at a yard."""

    donor: Name
    is_: Name
    name: str = ""
    facts: dict[str, Established] = {}
    from_: Name | None = None
    """The supplier who sells it, or sells off it."""
    where: str = ""
    price: Money | None = None
    """Of the whole car."""
    scrap_back: Money | None = None
    """What comes back later for its remains."""
    minutes: int = 0
    """Hands needed to fetch and strip it, and to take away the remains."""
    days: int = 0
    still_has: tuple[StillOn, ...] = ()
    gone: tuple[PlaceOrAssembly, ...] = ()
    marks: tuple[str, ...] = ()
    photo: str = ""
    seen: date | None = None
    held_till: date | None = None
    country: str = ""
    note: str = ""


class Stored(Rec, frozen=True, kw_only=True):
    """Something the shop has lying there. Exactly one of number and is_ says what it is."""

    number: Number | None = None
    is_: Name | None = None
    quantity: int = 1
    state: State = State.NEW
    side: Side | None = None
    from_: Name | None = None
    """The supplier it came from."""
    batch: str = ""
    worth: Money | None = None
    """What it would bring elsewhere; a plan that uses it up counts this."""
    made: str = ""
    seen: date | None = None
    note: str = ""


class Stores(Rec, frozen=True, kw_only=True):
    """What the shop already has, shelf by shelf."""

    stores: Name
    where: str = ""
    has: tuple[Stored, ...] = ()
    note: str = ""
