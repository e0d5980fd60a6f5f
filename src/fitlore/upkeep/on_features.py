"""Rules about the features of categories: each can decide something, says all it needs, and is only tightened downwards."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitlore.books.faults import Fault, fault, register
from fitlore.fitting.interface import WORDS, read_tolerance, wear_limits
from fitlore.model.category import Category, Feature
from fitlore.model.choices import Role, Rule
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.trade.family import FAMILIES
from fitlore.upkeep.knowing import Known

BASE: Final = {
    "length": "mm", "angle": "deg", "area": "mm2", "current": "A", "voltage": "V", "power": "W", "resistance": "ohm",
    "pressure": "bar", "temperature": "degC", "force": "N", "torque": "N.m", "mass": "g", "volume": "l", "count": "1",
}  # fmt: skip
"""The dimensions a feature may have, each with its base unit (`model.units`)."""
_FIGURES: Final = frozenset({Rule.WITHIN, Rule.AT_LEAST, Rule.AT_MOST, Rule.RANGE_HOLDS})
"""Rules that only mean something for sizes."""
FEWEST: Final = 3
"""Features that mate or work, of a category that does not say why it has fewer."""

register(
    [
        Fault(
            "Q51-feature-decides-nothing",
            Severity.WARNING,
            "A feature that can never change a verdict",
            "`{feature}` of {category} decides nothing: {why}",
            "a feature that says yes of some parts and no of others",
            "say what is compared and how, or take the feature out",
        ),
        Fault(
            "Q52-feature-half-said",
            Severity.WARNING,
            "A feature that does not say all it needs",
            "`{feature}` of {category}: {why}",
            "what its kind, its rule and its role ask for, and nothing that they do not use",
            "add what is missing, or take out what has no use there",
        ),
        Fault(
            "Q53-feature-loosened",
            Severity.WARNING,
            "A feature that is looser than above",
            "`{feature}` of {category} is looser than that of {broader}: {why}",
            "what the broader category says, or something tighter: who looks there relies on it",
            "tighten it, or give the category another broader one",
        ),
        Fault(
            "Q50-few-features",
            Severity.NOTE,
            "A category with few features",
            "{category} has {count} that mate or work: {features}",
            f"at least {FEWEST} by which parts of it are held against each other, or `few-features-because:`",
            "add what else has to agree, or say why nothing else has to",
        ),
        Fault(
            "Q55-half-not-said",
            Severity.NOTE,
            "A joint of which no half is said",
            "`{feature}` of {category} does not say which half the part has",
            "`end: male` or `end: female`: which way a near miss fails follows from it",
            "add `end:` to the feature, here or above",
        ),
    ]
)


def decides_nothing(known: Known) -> Iterator[Diagnostic]:
    """Every feature can say yes and no."""
    for category, name, feature in _written(known):
        for why in _never(feature):
            yield fault(
                "Q51-feature-decides-nothing",
                feature.origin,
                category=category.category,
                feature=name,
                why=why,
            )


def _never(feature: Feature) -> Iterator[str]:
    if feature.kind not in BASE and feature.kind not in FAMILIES and feature.kind not in WORDS:
        yield f"`{feature.kind}` is neither a dimension nor a family of standards nor a word, so nothing can be compared"
    elif feature.kind == "choice" and len({choice.casefold() for choice in feature.choices}) < 2:
        yield "there is only one choice"
    elif feature.tolerance:
        limits = read_tolerance(feature.tolerance)
        if limits is None or limits[2] != BASE.get(feature.kind):
            yield f"the tolerance {feature.tolerance} is no {feature.kind}, so nothing can be compared"


def half_said(known: Known) -> Iterator[Diagnostic]:
    """What joins says with what work, a choice differs in more than capitals, wear has a direction and a size."""
    for category, name, feature in _written(known):
        for why in _lacks(feature):
            yield fault(
                "Q52-feature-half-said",
                feature.origin,
                category=category.category,
                feature=name,
                why=why,
            )


def _lacks(feature: Feature) -> Iterator[str]:
    work = feature.work
    if feature.role is Role.JOINS and (work is None or not work.do or not work.minutes):
        yield "what joins with work says which (`work:` with `do:` and `minutes:`)"
    if feature.role is not Role.JOINS and work is not None:
        yield f"a feature that {feature.role.value} has no `work:`; that is for `role: joins`"
    if feature.rule in _FIGURES and feature.kind not in BASE:
        yield f"`rule: {feature.rule.value}` is for sizes, and this is a {feature.kind}"
    if feature.tolerance and feature.rule is not Rule.WITHIN:
        yield f"a tolerance is for `rule: within`, and this is `{feature.rule.value}`"
    if len({choice.casefold() for choice in feature.choices}) != len(feature.choices):
        yield "two choices differ in capitals only"
    if feature.wears:
        limits = wear_limits(feature, ())
        if limits is None or limits[3] != {BASE.get(feature.kind)} or not any(limits[:2]):
            yield f"`wears: {feature.wears}` is no {feature.kind} of more than nothing"


def loosened(known: Known) -> Iterator[Diagnostic]:
    """A narrower category keeps kind, role and rule of a feature, and loosens neither tolerance, choices nor necessity."""
    for category, name, feature in _written(known):
        above = known.interface(category.broader) if category.broader else None
        was = above.features.get(name) if above is not None else None
        for why in _looser(feature, was) if was is not None else ():
            yield fault(
                "Q53-feature-loosened",
                feature.origin,
                category=category.category,
                feature=name,
                broader=str(category.broader),
                why=why,
            )


def _looser(feature: Feature, was: Feature) -> Iterator[str]:
    for key, new, old in (
        ("kind", feature.kind, was.kind),
        ("role", feature.role.value, was.role.value),
        ("rule", feature.rule.value, was.rule.value),
    ):
        if new != old:
            yield f"`{key}` is {new} and was {old}"
    if feature.optional and not was.optional:
        yield "it is optional here"
    if was.choices and set(feature.choices) - set(was.choices):
        yield f"{', '.join(sorted(set(feature.choices) - set(was.choices)))} is no choice there"
    if was.end is not None and feature.end is not was.end:
        yield f"it was the {was.end.value} half"
    new_limits, old_limits = read_tolerance(feature.tolerance), read_tolerance(was.tolerance)
    if old_limits and (not new_limits or new_limits[0] > old_limits[0] or new_limits[1] > old_limits[1]):
        yield f"the tolerance was {was.tolerance}"


def few_features(known: Known) -> Iterator[Diagnostic]:
    """A category that none is narrower than has three features that mate or work, or says why it has fewer."""
    for category in known.narrowest:
        interface = known.interface(category.category)
        if interface is None or not interface.features or category.few_features_because:
            continue  # none at all is another fault
        hard = [n for n, f in interface.features.items() if f.role in (Role.MATES, Role.WORKS)]
        if len(hard) < FEWEST:
            yield fault(
                "Q50-few-features",
                category.origin,
                category=category.category,
                count=str(len(hard) or "none"),
                features=", ".join(hard) or "there is nothing that mates or works",
            )


def half_not_said(known: Known) -> Iterator[Diagnostic]:
    """Every joint of such a category says whether the part has the male or the female half."""
    for category in known.narrowest:
        interface = known.interface(category.category)
        for name, feature in interface.features.items() if interface is not None else ():
            if feature.end is None and feature.kind in FAMILIES and FAMILIES[feature.kind].about.ended:
                yield fault("Q55-half-not-said", category.origin, category=category.category, feature=name)


def _written(known: Known) -> Iterator[tuple[Category, str, Feature]]:
    """Every feature as it is written, with its category."""
    for category in known.categories.values():
        yield from ((category, name, feature) for name, feature in category.features.items())


RULES = (decides_nothing, half_said, loosened, few_features, half_not_said)
