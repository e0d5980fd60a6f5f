"""The work on one car, and the shop that does it."""

from __future__ import annotations

from datetime import date

from fitlore.model.amounts import Money, Share
from fitlore.model.choices import How, Must, RouteKind, SafetyClass, State, Sure
from fitlore.model.platform import Contained
from fitlore.model.record import Name, Number, PlacePath, Rec


class Otherwise(Rec, frozen=True, kw_only=True):
    """What follows when a route fails: further money and hands, or another route of the same finding."""

    money: Money | None = None
    minutes: int = 0
    route: RouteKind | None = None
    note: str = ""


class Route(Rec, frozen=True, kw_only=True):
    """A way to meet a finding that the books cannot work out by themselves, or a correction to one they do."""

    route: RouteKind
    do: str = ""
    use: tuple[Contained, ...] = ()
    """Parts, materials and services it takes."""
    money: Money | None = None
    minutes: int = 0
    shares: tuple[Name, ...] = ()
    succeeds: Share | None = None
    else_: Otherwise | None = None
    adds: Money | None = None
    tell_buyer: str = ""


class Finding(Rec, frozen=True, kw_only=True):
    """What is wrong at a place, and what it asks for."""

    at: PlacePath
    side: str = ""
    """`left`, `right` or `both`; empty where the place has no sides."""
    fault: str
    must: Must | None = None
    adds: Money | None = None
    """What mending it adds to the sale, for findings that may be left."""
    quantity: int | None = None
    sure: Sure = Sure.SEEN
    forbid: tuple[RouteKind, ...] = ()
    if_wrong: Otherwise | None = None
    """What a used part that turns out bad costs further."""
    routes: tuple[Route, ...] = ()
    only_these_routes: bool = False
    note: str = ""


class Purse(Rec, frozen=True, kw_only=True):
    """The money there is for a job; the reserve is not planned away."""

    cash: Money
    reserve: Money | None = None


class Hands(Rec, frozen=True, kw_only=True):
    """The hours there are, and what one is worth."""

    minutes: int | None = None
    worth: Money | None = None
    """Per hour."""


class Accepted(Rec, frozen=True, kw_only=True):
    """A forbidden route taken all the same, with the written reason that every later sheet shows."""

    at: PlacePath
    use: Number | None = None
    route: RouteKind | None = None
    reason: str
    by: str = ""
    date: date | None = None


class Job(Rec, frozen=True, kw_only=True):
    """The work on one car."""

    job: Name
    for_: Name
    name: str = ""
    today: date | None = None
    """The day to plan from; absent: the day of asking."""
    in_hand_by: date | None = None
    inspection: date | None = None
    purse: Purse | None = None
    hands: Hands | None = None
    bought: Money | None = None
    expected_sale: Money | None = None
    selling_costs: Money | None = None
    profit_wanted: Money | None = None
    findings: tuple[Finding, ...] = ()
    accepted: tuple[Accepted, ...] = ()
    note: str = ""


class Shop(Rec, frozen=True, kw_only=True):
    """The shop's own settings."""

    shop: Name
    name: str = ""
    country: str = ""
    currency: str = "GBP"
    person: str = "shop"
    fuel_per_km: Money | None = None
    hour_worth: Money | None = None


class ClassPolicy(Rec, frozen=True, kw_only=True):
    """What a safety class asks for."""

    safety: SafetyClass
    least: tuple[How, ...] = ()
    """A claim needs at least one piece of evidence of one of these kinds."""
    least_pieces: int = 1
    no_used: bool = False
    no_old_stock: bool = False
    by_measure_may_be_bought: bool = False
    trap_stands: bool = True
    cautions: tuple[str, ...] = ()


class Policy(Rec, frozen=True, kw_only=True):
    """The policy: judgements of this project where no source is named, tunable by the shop."""

    policy: Name
    classes: tuple[ClassPolicy, ...] = ()
    chance: dict[str, Share] = {}
    """Per kind of evidence, the chance that it is right."""
    stale_after: dict[str, int] = {}
    """Days after which a price is stale, per kind of supplier."""
    tyre_age_years: int = 10
    forbidden_states: tuple[State, ...] = ()
    deferral: str = ""


class Issuer(Rec, frozen=True, kw_only=True):
    """Who gives numbers, and how they are to be read."""

    issuer: str
    ignores: str = ""
    side_digit: str = ""
    revision: str = ""
    note: str = ""
