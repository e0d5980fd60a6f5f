"""Categories: kinds of part, how they mate and work, and what the trade knows about them."""

from __future__ import annotations

from fitlore.model.amounts import Share
from fitlore.model.choices import End, LawSays, Renew, Role, Rule, SafetyClass, Sides, UsedOnes
from fitlore.model.dates import Period
from fitlore.model.record import Name, Number, Rec


class Work(Rec, frozen=True, kw_only=True):
    """What has to be done, and how long it takes."""

    do: str = ""
    minutes: int = 0


class Feature(Rec, frozen=True, kw_only=True):
    """One way in which parts of a category mate or work, and the rule that compares it.

    `kind` is `thread` or another family of the trade room, a dimension (`length`, `current`, `voltage` ...), `choice` or `text`.
    """

    kind: str
    role: Role
    rule: Rule = Rule.SAME
    tolerance: str = ""
    """`0.5 mm` (both ways, limits included) or `-0.2/+0 mm`."""
    choices: tuple[str, ...] = ()
    end: End | None = None
    with_: str = ""
    """For `agrees-with`: `other-side`, or a place on the same car."""
    optional: bool = False
    """An optional feature is compared where both sides are known and missed where they are not."""
    wears: str = ""
    """`down 1 mm` or `up 0.3 mm`: how far and which way a used one may differ from its nominal size."""
    work: Work | None = None
    """For `joins`: what makes it go all the same."""
    look: str = ""
    """Where to look or how to measure it, in a few words."""


class RenewWith(Rec, frozen=True, kw_only=True):
    """Something renewed together with a part of this category."""

    is_: Name | None = None
    number: Number | None = None
    quantity: int = 1
    one_use: bool = False
    note: str = ""


class Fault(Rec, frozen=True, kw_only=True):
    """A usual fault, and the cheapest test that tells it."""

    fault: str
    test: str = ""
    minutes: int = 0


class Refurbish(Rec, frozen=True, kw_only=True):
    """A way to make a worn part of this category good again."""

    do: str
    materials: tuple[RenewWith, ...] = ()
    minutes: int = 0
    succeeds: Share | None = None
    shares: tuple[Name, ...] = ()
    look: str = ""
    """How to see beforehand whether it is worth doing."""
    test: str = ""
    """How to see afterwards whether it is good."""
    note: str = ""


class FalseFriend(Rec, frozen=True, kw_only=True):
    """A name that says this category in one place and another one elsewhere."""

    word: str
    language: str = ""
    """The language in which it says the other thing, as a language tag (`en-us`); absent: in the same one."""
    means: Name
    """The category it says there."""
    note: str = ""


class Law(Rec, frozen=True, kw_only=True):
    """What the law of a country asks on an occasion, and the day somebody read it."""

    country: str
    occasion: str
    does: LawSays | None = None
    says: str
    read: Period | None = None
    source: str = ""


class Category(Rec, frozen=True, kw_only=True):
    """A kind of part, in a hierarchy; features are inherited from `broader` and may be tightened."""

    category: Name
    broader: Name | None = None
    names: dict[str, str] = {}
    """Language tag (lower case: `en-gb`) to name."""
    also: dict[str, tuple[str, ...]] = {}
    false_friends: tuple[FalseFriend, ...] = ()
    about: str = ""
    safety: SafetyClass | None = None
    sides: Sides | None = None
    sides_note: str = ""
    sides_work: Work | None = None
    """Where sides are changeable: the work that changes one over."""
    look_first: tuple[str, ...] = ()
    features: dict[str, Feature] = {}
    few_features_because: str = ""
    always_new: bool | None = None
    renew: Renew | None = None
    renew_with: tuple[RenewWith, ...] = ()
    used: UsedOnes | None = None
    refurbish: tuple[Refurbish, ...] = ()
    inspect: tuple[str, ...] = ()
    shares: tuple[Name, ...] = ()
    keep: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()
    cautions: tuple[str, ...] = ()
    law: tuple[Law, ...] = ()
    source: str = ""
