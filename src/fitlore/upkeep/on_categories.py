"""Rules about whole categories: names in every language, an interface, and what becomes of sides."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitlore.books.faults import Fault, fault, register
from fitlore.model.category import Category
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.upkeep.knowing import Known

LANGUAGES: Final = ("de", "en-gb", "en-us", "es", "fr")
"""Those of the built-in shelf."""


register(
    [
        Fault(
            "Q39-name-missing",
            Severity.NOTE,
            "A category without a name in some language",
            "`{category}` has no name in: {languages}",
            "a name in each language of the built-in shelf, so that every reader finds it",
            "add the names under `names:`",
        ),
        Fault(
            "Q40-no-interface",
            Severity.NOTE,
            "A category without an interface",
            "neither `{category}` nor a broader category has a feature or says why it has none",
            "`features:` by which parts of it are held against each other, or `few-features-because:`",
            "add what mates and what works; without it nothing of it is ever a yes by measure",
        ),
        Fault(
            "Q41-sides-not-said",
            Severity.NOTE,
            "A category that says nothing of sides",
            "neither `{category}` nor a broader category says whether left and right are one",
            "`sides:` in it or above it",
            "add `sides:`; see a category of the built-in shelf for the words",
        ),
    ]
)


def nameless(known: Known) -> Iterator[Diagnostic]:
    """Every category has a name in each language of the built-in shelf."""
    for name, category in known.categories.items():
        missing = [tag for tag in LANGUAGES if tag not in category.names]
        if missing:
            yield fault("Q39-name-missing", category.origin, category=name, languages=", ".join(missing))


def without_interface(known: Known) -> Iterator[Diagnostic]:
    """A category that none is narrower than has features, its own or from above, or says why it has none."""
    for category in _narrowest(known):
        chain = list(known.above(category.category))
        if not any(one.features or one.few_features_because for one in chain):
            yield fault("Q40-no-interface", category.origin, category=category.category)


def without_sides(known: Known) -> Iterator[Diagnostic]:
    """Such a category says whether left and right are one, its own or from above."""
    for category in _narrowest(known):
        if all(one.sides is None for one in known.above(category.category)):
            yield fault("Q41-sides-not-said", category.origin, category=category.category)


def _narrowest(known: Known) -> Iterator[Category]:
    broader = {category.broader for category in known.categories.values()}
    return (category for name, category in known.categories.items() if name not in broader)


RULES = (nameless, without_interface, without_sides)
