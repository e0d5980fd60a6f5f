"""Platforms with their places, and the individual cars built on them."""

from __future__ import annotations

from fitlore.model.category import Work
from fitlore.model.choices import How, SafetyClass
from fitlore.model.dates import Period
from fitlore.model.record import Name, Number, PlacePath, Rec


class Cond(Rec, frozen=True, kw_only=True):
    """What one fact of a car must be: one of these values, none of those, or in a range of a chassis series.

    Written as a value, a list, `{not: ...}` or `{SERIES: ../40094, ...}`; periods (EDTF) where the fact is a date.
    """

    any_: tuple[str, ...] = ()
    not_: tuple[str, ...] = ()
    series: dict[str, str] = {}


Condition = dict[str, Cond]
"""Fact name to what it must be; all of them must hold."""


class FactRange(Rec, frozen=True, kw_only=True):
    """Which values a fact of a platform can have: a list of words, or serial numbers of named series."""

    any_: tuple[str, ...] = ()
    series: tuple[str, ...] = ()


class WeakPoint(Rec, frozen=True, kw_only=True):
    """Where this platform is known to fail."""

    at: PlacePath
    look: str
    how_often: str = ""


class Original(Rec, frozen=True, kw_only=True):
    """A part the maker put here, for the cars that meet the condition."""

    number: Number
    only_if: Condition = {}


class Place(Rec, frozen=True, kw_only=True):
    """Where a part sits. `must_be` is what it demands; without it, its originals' features say."""

    is_: Name
    original: tuple[Original, ...] = ()
    quantity: int = 1
    """How many are needed, per side where the assembly has sides."""
    sides: tuple[str, ...] | None = None
    safety: SafetyClass | None = None
    """Where this place is stricter than its category."""
    must_be: dict[str, tuple[str, ...]] = {}
    only_if: Condition = {}
    minutes: int | None = None
    """Hands needed to change it, each."""
    shares: tuple[Name, ...] | None = None
    note: str = ""


class Assembly(Rec, frozen=True, kw_only=True):
    """Places that come off together, on one or several sides."""

    sides: tuple[str, ...] = ()
    called: tuple[str, ...] = ()
    places: dict[Name, Place] = {}


class Platform(Rec, frozen=True, kw_only=True):
    """A family of vehicles built on the same parts."""

    platform: Name
    name: str = ""
    maker: str = ""
    """The default issuer of its originals' numbers."""
    built: Period | None = None
    facts: dict[str, FactRange] = {}
    weak_points: tuple[WeakPoint, ...] = ()
    assemblies: dict[Name, Assembly] = {}


class Established(Rec, frozen=True, kw_only=True):
    """A fact about a car, and how it was established."""

    value: tuple[str, ...]
    """Several values: one of these, not known which."""
    how: How | None = None
    by: str = ""
    date: Period | None = None
    note: str = ""


class ReallyOn(Rec, frozen=True, kw_only=True):
    """What is really on a car at a place, or for a whole assembly, where it differs from the book."""

    from_: Name | None = None
    """An assembly of another platform: its places then come from there."""
    number: Number | None = None
    how: How | None = None
    by: str = ""
    date: Period | None = None
    note: str = ""


class Car(Rec, frozen=True, kw_only=True):
    """One individual vehicle."""

    car: Name
    is_: Name
    name: str = ""
    facts: dict[str, Established] = {}
    really_on_it: dict[str, ReallyOn] = {}
    not_looked_at: tuple[str, ...] = ()
    country: str = ""
    note: str = ""


class Contained(Rec, frozen=True, kw_only=True):
    """Something with a quantity: a part by number, a service, or any part of a category."""

    number: Number | None = None
    is_: Name | None = None
    service: Name | None = None
    quantity: int = 1


class SharedWork(Rec, frozen=True, kw_only=True):
    """Work done once on a car however many needs want it (drain once, bleed once)."""

    shared_work: Name
    do: str = ""
    minutes: int = 0
    wants: tuple[Contained, ...] = ()


__all__ = [
    "Assembly",
    "Car",
    "Cond",
    "Condition",
    "Contained",
    "Established",
    "FactRange",
    "Original",
    "Place",
    "Platform",
    "ReallyOn",
    "SharedWork",
    "WeakPoint",
    "Work",
]
