"""The faults of categories on a shelf that others build on, and the measures such a shelf keeps to."""

from __future__ import annotations

import re
from typing import Final

from fitlore.books.faults import Fault, register
from fitlore.model.diagnostic import Severity

LANGUAGES: Final = ("de", "en-gb", "en-us", "es", "fr")
"""Those of the built-in shelf."""
DEEPEST: Final = 5
"""Categories in a chain upwards, itself counted."""
MOST_CAUTIONS: Final = 2
LONGEST_CAUTION: Final = 150
"""Signs: two lines of a narrow screen."""
LONGEST_TEST: Final = 30
"""Minutes: the test of a usual fault is cheap."""
SHARED_WORK: Final = frozenset(
    {"arms-off", "belt-off", "bleed", "coolant-out", "dash-out", "gearbox-out", "oil-out", "tracking"}
)
"""Work done once on a car that the built-in shelf names; a shop describes those that it wants reckoned with."""
PROMISES: Final = re.compile(
    r"\b(safe|safely|legal|legally|approved|guarantee[ds]?|will pass)\b", re.IGNORECASE
)
"""What only local law and a qualified person decide."""

_N: Final = Severity.NOTE

register(
    [
        Fault(
            "Q39-name-missing",
            _N,
            "A category without a name in some language",
            "`{category}` has no name in: {languages}",
            "a name in each language of the built-in shelf, so that every reader finds it",
            "add the names under `names:`",
        ),
        Fault(
            "Q40-no-interface",
            _N,
            "A category without an interface",
            "neither `{category}` nor a broader category has a feature or says why it has none",
            "`features:` by which parts of it are held against each other, or `few-features-because:`",
            "add what mates and what works; without it nothing of it is ever a yes by measure",
        ),
        Fault(
            "Q41-sides-not-said",
            _N,
            "A category that says nothing of sides",
            "neither `{category}` nor a broader category says whether left and right are one",
            "`sides:` in it or above it",
            "add `sides:`; see a category of the built-in shelf for the words",
        ),
        Fault(
            "Q45-no-further-name",
            _N,
            "A category that people know by one name only",
            "`{category}` has no further name in any language",
            "`also:` with what people say at the counter and in the yard",
            "add the other names it goes by, or leave it: some things have but one",
        ),
        Fault(
            "Q46-buying-not-said",
            _N,
            "A category that does not say how to buy one",
            "neither `{category}` nor a broader category says: {missing}",
            "`renew:`, `always-new:`, `used:` and, where used ones are bought, `inspect:`",
            "add them, in it or above it",
        ),
        Fault(
            "Q47-new-against-used",
            _N,
            "A category whose words on used ones do not go together",
            "`{category}` says always-new: {always_new} and used: {used}",
            "what is always bought new is never taken used, and the other way round",
            "write `used: never` and `always-new: yes`, or neither",
        ),
        Fault(
            "Q48-no-usual-fault",
            _N,
            "A category without a usual fault and its cheap test",
            "`{category}` {what}",
            f"`faults:`, each with `test:` and `minutes:` (up to {LONGEST_TEST})",
            "add how it usually goes wrong, and the cheapest test that tells it",
        ),
        Fault(
            "Q49-nothing-looked-at-first",
            _N,
            "A category that does not say what to look at first",
            "`{category}` {what}",
            "`look-first:` with features of it, in it or above it: where books lie about this kind of part",
            "add the feature that is looked at before anything is believed",
        ),
        Fault(
            "Q54-too-deep",
            _N,
            "A category far down",
            "`{category}` is {count} categories deep: {chain}",
            f"at most {DEEPEST}, so that a reader sees what is inherited",
            "give it a broader category nearer to the top",
        ),
        Fault(
            "Q56-unknown-work",
            _N,
            "A shared work that nobody knows",
            "`{category}` shares `{work}`, which is no work of the built-in shelf and no shop describes",
            "one of: {known}",
            "take one of these, or describe it: `- shared-work: {work}`",
        ),
        Fault(
            "Q57-cautions-too-long",
            _N,
            "Cautions that nobody reads",
            "`{category}` {what}",
            f"at most {MOST_CAUTIONS}, each of at most {LONGEST_CAUTION} signs",
            "keep what hurts somebody who does not know it",
        ),
        Fault(
            "Q58-promise",
            _N,
            "A word that promises what others decide",
            "`{name}` says `{word}`: {text}",
            "what was seen, measured or read, without a word on what law and a qualified person decide",
            "say what it does instead",
        ),
        Fault(
            "Q59-no-source",
            _N,
            "A category that does not say where its facts are from",
            "`{category}` has no `source:`",
            "a published source, or `common practice`, or `memory`",
            "add `source:`",
        ),
        Fault(
            "Q60-renewed-with-itself",
            _N,
            "A category that is renewed with itself",
            "`{category}` is renewed with another of its own kind",
            "`renew: across-axle` where both sides are renewed together; other kinds under `renew-with:`",
            "take it out of `renew-with:`",
        ),
    ]
)
