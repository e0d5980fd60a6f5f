"""Rules about whole categories: what a shelf that others build on says of each kind of part."""

from __future__ import annotations

from collections.abc import Iterator

from fitlore.books.faults import fault
from fitlore.books.schema import fields
from fitlore.model.category import Category
from fitlore.model.choices import UsedOnes
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.model.policy import Policy
from fitlore.model.record import Rec
from fitlore.upkeep.catalogue_shelf import (
    DEEPEST,
    LANGUAGES,
    LONGEST_CAUTION,
    LONGEST_TEST,
    MOST_CAUTIONS,
    PROMISES,
    SHARED_WORK,
)
from fitlore.upkeep.knowing import Known


def nameless(known: Known) -> Iterator[Diagnostic]:
    """Every category has a name in each language of the built-in shelf."""
    for name, category in known.categories.items():
        missing = [tag for tag in LANGUAGES if tag not in category.names]
        if missing:
            yield fault("Q39-name-missing", category.origin, category=name, languages=", ".join(missing))


def without_interface(known: Known) -> Iterator[Diagnostic]:
    """A category that none is narrower than has features, its own or from above, or says why it has none."""
    for category in known.narrowest:
        if not any(one.features or one.few_features_because for one in known.above(category.category)):
            yield fault("Q40-no-interface", category.origin, category=category.category)


def without_sides(known: Known) -> Iterator[Diagnostic]:
    """Such a category says whether left and right are one, its own or from above."""
    for category in known.narrowest:
        if all(one.sides is None for one in known.above(category.category)):
            yield fault("Q41-sides-not-said", category.origin, category=category.category)


def one_name_only(known: Known) -> Iterator[Diagnostic]:
    """Such a category has a further name in some language."""
    for category in known.narrowest:
        if not category.also:
            yield fault("Q45-no-further-name", category.origin, category=category.category)


def buying_not_said(known: Known) -> Iterator[Diagnostic]:
    """Such a category says how to buy one, its own or from above; `inspect` where used ones are taken at all."""
    for category in known.narrowest:
        chain = list(known.above(category.category))
        said = {
            "renew": any(one.renew is not None for one in chain),
            "always-new": any(one.always_new is not None for one in chain),
            "used": any(one.used is not None for one in chain),
            "inspect": any(one.inspect for one in chain) or _used(chain) is UsedOnes.NEVER,
        }
        missing = [key for key, there in said.items() if not there]
        if missing:
            yield fault(
                "Q46-buying-not-said",
                category.origin,
                category=category.category,
                missing=", ".join(missing),
            )


def _used(chain: list[Category]) -> UsedOnes | None:
    return next((one.used for one in chain if one.used is not None), None)


def new_against_used(known: Known) -> Iterator[Diagnostic]:
    """What is always bought new is never taken used, and the other way round."""
    for category in known.narrowest:
        chain = list(known.above(category.category))
        used = _used(chain)
        new = next((one.always_new for one in chain if one.always_new is not None), None)
        if used is not None and new is not None and new is not (used is UsedOnes.NEVER):
            yield fault(
                "Q47-new-against-used",
                category.origin,
                category=category.category,
                always_new="yes" if new else "no",
                used=used.value,
            )


def no_usual_fault(known: Known) -> Iterator[Diagnostic]:
    """Such a category has a usual fault of its own, and each fault a test that costs little."""
    for category in known.narrowest:
        if not category.faults:
            what = "has no usual fault"
            yield fault("Q48-no-usual-fault", category.origin, category=category.category, what=what)
        for row in category.faults:
            if not row.test or not 0 < row.minutes <= LONGEST_TEST:
                what = f"has no cheap test for `{row.fault}`"
                yield fault("Q48-no-usual-fault", row.origin, category=category.category, what=what)


def nothing_looked_at_first(known: Known) -> Iterator[Diagnostic]:
    """Such a category says what to look at first, its own or from above, and it has that feature."""
    for category in known.narrowest:
        interface = known.interface(category.category)
        if interface is None or not interface.features:
            continue
        unknown = [name for name in interface.look_first if name not in interface.features]
        what = f"has no feature `{unknown[0]}` to look at first" if unknown else ""
        what = what or ("" if interface.look_first else "says nothing of what to look at first")
        if what:
            yield fault("Q49-nothing-looked-at-first", category.origin, category=category.category, what=what)


def too_deep(known: Known) -> Iterator[Diagnostic]:
    """A category has few above it."""
    for name, category in known.categories.items():
        chain = [one.category for one in known.above(name)]
        if len(chain) > DEEPEST:
            yield fault(
                "Q54-too-deep",
                category.origin,
                category=name,
                count=str(len(chain)),
                chain=" → ".join(chain),
            )


def unknown_work(known: Known) -> Iterator[Diagnostic]:
    """A shared work is one of the built-in shelf, or one that a shop describes."""
    for name, category in known.categories.items():
        for work in category.shares:
            if work not in SHARED_WORK and known.graph.shared_work(work) is None:
                words = ", ".join(sorted(SHARED_WORK))
                yield fault("Q56-unknown-work", category.origin, category=name, work=work, known=words)


def cautions_too_long(known: Known) -> Iterator[Diagnostic]:
    """Cautions are few and short."""
    for name, category in known.categories.items():
        count = len(category.cautions)
        if count > MOST_CAUTIONS:
            yield fault("Q57-cautions-too-long", category.origin, category=name, what=f"has {count} cautions")
        for caution in category.cautions:
            if len(caution) > LONGEST_CAUTION:
                what = f"has a caution of {len(caution)} signs"
                yield fault("Q57-cautions-too-long", category.origin, category=name, what=what)


def promises(known: Known) -> Iterator[Diagnostic]:
    """No text of a category or a policy says what only local law and a qualified person decide."""
    records: list[tuple[str, Category | Policy]] = [*known.categories.items()]
    records += [(policy.policy, policy) for policy in known.graph.policies]
    for name, record in records:
        for text, origin in _texts(record, record.origin):
            found = PROMISES.search(text)
            if found:
                yield fault("Q58-promise", origin, name=name, word=found[0], text=text)


def _texts(value: object, origin: Origin) -> Iterator[tuple[str, Origin]]:
    """Every text inside, with the place of the innermost record it is in; words of closed lists (`role: safe`) are none."""
    if isinstance(value, str):
        yield value, origin
    elif isinstance(value, Rec):
        inner = [getattr(value, field.name) for field in fields(type(value))]
        yield from _texts(tuple(inner), value.origin)
    elif isinstance(value, dict | tuple):
        rows = value.values() if isinstance(value, dict) else value
        yield from (found for row in rows for found in _texts(row, origin))


def without_source(known: Known) -> Iterator[Diagnostic]:
    """A category says where its facts are from."""
    for name, category in known.categories.items():
        if not category.source:
            yield fault("Q59-no-source", category.origin, category=name)


def with_itself(known: Known) -> Iterator[Diagnostic]:
    """What is renewed with a kind of part is another kind."""
    for name, category in known.categories.items():
        if any(row.is_ == name for row in category.renew_with):
            yield fault("Q60-renewed-with-itself", category.origin, category=name)


RULES = (
    nameless,
    without_interface,
    without_sides,
    one_name_only,
    buying_not_said,
    new_against_used,
    no_usual_fault,
    nothing_looked_at_first,
    too_deep,
    unknown_work,
    cautions_too_long,
    promises,
    without_source,
    with_itself,
)
