"""The work on one car, and the shop that does it."""

from __future__ import annotations

from datetime import date

from fitlore.model.amounts import Money, Share
from fitlore.model.choices import Must, Progress, RouteKind, State, Sure
from fitlore.model.issuer import Issuer
from fitlore.model.platform import Contained
from fitlore.model.policy import ClassPolicy, Policy
from fitlore.model.record import Name, Number, PlacePath, Rec
from fitlore.model.shop import Shop


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
    """Parts and services it takes."""
    kit: Number | None = None
    materials: tuple[Contained, ...] = ()
    money: Money | None = None
    minutes: int = 0
    shares: tuple[Name, ...] = ()
    succeeds: Share | None = None
    else_: Otherwise | None = None
    adds: Money | None = None
    tell_buyer: str = ""

    @property
    def takes(self) -> tuple[Contained, ...]:
        """Everything it uses up: parts, services, the kit, materials."""
        kit = () if self.kit is None else (Contained(origin=self.origin, number=self.kit),)
        return (*self.use, *kit, *self.materials)


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


class Cause(Rec, frozen=True, kw_only=True):
    """What may be behind a symptom, and the test that tells it."""

    at: PlacePath
    side: str = ""
    """`left`, `right` or `both`; empty where the place has no sides."""
    fault: str = ""
    test: str = ""
    minutes: int = 0
    """Hands needed for the test; the test that costs least comes first."""
    odds: Share | None = None


class Symptom(Rec, frozen=True, kw_only=True):
    """Something that is not as it should be, before anybody knows why."""

    symptom: str
    must: Must | None = None
    could_be: tuple[Cause, ...] = ()
    note: str = ""


class Purchase(Rec, frozen=True, kw_only=True):
    """Something bought for a job. Exactly one of number, is_, service says what it is."""

    number: Number | None = None
    is_: Name | None = None
    service: Name | None = None
    at: PlacePath | None = None
    """What it is for."""
    quantity: int = 1
    from_: Name | None = None
    price: Money | None = None
    surcharge: Money | None = None
    state: State = State.NEW
    batch: str = ""
    now: Progress
    ordered: date | None = None
    due: date | None = None
    return_by: date | None = None
    """The last day on which it can go back."""
    old_unit_back_by: date | None = None
    """The last day on which the old one can be handed in for the surcharge."""
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
    symptoms: tuple[Symptom, ...] = ()
    purchases: tuple[Purchase, ...] = ()
    accepted: tuple[Accepted, ...] = ()
    note: str = ""


__all__ = [
    "Accepted",
    "Cause",
    "ClassPolicy",
    "Finding",
    "Hands",
    "Issuer",
    "Job",
    "Otherwise",
    "Policy",
    "Purchase",
    "Purse",
    "Route",
    "Shop",
    "Symptom",
]
