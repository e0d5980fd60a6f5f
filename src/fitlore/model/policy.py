"""The policy as books say it, value by value, and the policy in force, in which nothing is left open."""

from __future__ import annotations

from typing import NamedTuple

from fitlore.model.amounts import Share
from fitlore.model.choices import How, SafetyClass, State
from fitlore.model.origin import Origin
from fitlore.model.record import Name, Rec
from fitlore.model.shop import Duty, Vat


class ClassPolicy(Rec, frozen=True, kw_only=True):
    """What a safety class asks for; what is left out stays as the book below says it."""

    safety: SafetyClass
    least: tuple[How, ...] = ()
    """A claim needs at least one piece of evidence of one of these kinds."""
    least_pieces: int | None = None
    no_used: bool | None = None
    no_old_stock: bool | None = None
    by_measure_may_be_bought: bool | None = None
    trap_stands: bool | None = None
    cautions: tuple[str, ...] = ()


class Policy(Rec, frozen=True, kw_only=True):
    """The policy: judgements of this project where no source is named, tunable by the shop."""

    policy: Name
    classes: tuple[ClassPolicy, ...] = ()
    chance: dict[str, Share] = {}
    """Per kind of evidence, the chance that it is right."""
    stale_after: dict[str, int] = {}
    """Days after which a price is stale, per kind of supplier."""
    tyre_age_years: int | None = None
    vat: tuple[Vat, ...] = ()
    import_duty: tuple[Duty, ...] = ()
    forbidden_states: tuple[State, ...] | None = None
    deferral: str = ""


class ClassRules(NamedTuple):
    """What a safety class asks for, with nothing left open; what nobody says is the strictest there can be."""

    safety: SafetyClass
    least: tuple[How, ...] = (How.FITTED,)
    least_pieces: int = 1
    no_used: bool = False
    no_old_stock: bool = False
    by_measure_may_be_bought: bool = False
    trap_stands: bool = True
    cautions: tuple[str, ...] = ()
    origins: dict[str, Origin] = {}
    """By the names of these fields: the row that says it."""


class InForce(NamedTuple):
    """The policy that counts: of every value the word of the nearest book that has one."""

    classes: tuple[ClassRules, ...] = ()
    """At most one a class; a class that no book speaks of is not among them."""
    chance: dict[str, Share] = {}
    stale_after: dict[str, int] = {}
    tyre_age_years: int = 10
    vat: tuple[Vat, ...] = ()
    import_duty: tuple[Duty, ...] = ()
    forbidden_states: tuple[State, ...] = ()
    deferral: str = ""
