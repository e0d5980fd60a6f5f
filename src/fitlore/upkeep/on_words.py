"""Rules about words that must be known elsewhere: places, facts of platforms, features and choices of categories."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from fitlore.books.faults import fault
from fitlore.books.near import near_word
from fitlore.fitting.conditions import DATES
from fitlore.fitting.interface import compare
from fitlore.fitting.shape import Interface, State
from fitlore.graph.derive import base_path
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car, Cond, Condition, FactRange
from fitlore.model.record import Rec
from fitlore.upkeep.knowing import Known, named

_ANY_CAR = frozenset({*DATES, "side"})
"""Facts that every car has, whatever its platform lists."""


class _Spoken(NamedTuple):
    """A place somebody speaks of: who, in which line, the place, and the platforms it may be on (none: on any)."""

    what: str
    origin: Origin
    place: str
    platforms: tuple[str, ...]


def unknown_place(known: Known) -> Iterator[Diagnostic]:
    """Every place that is spoken of is a place of its platform."""
    for one in _spoken_of(known):
        wanted = base_path(one.place)
        platforms = one.platforms or tuple(known.places)
        platform, _, rest = wanted.partition("/")
        if rest.count("/"):
            platforms, wanted = (platform,), rest
        there = [places for name in platforms if (places := known.places.get(name)) is not None]
        if any(_has(places, wanted) for places in there) or (not there and platform not in platforms):
            continue
        near = near_word(wanted, {path for places in there for path in places})
        whose = " and ".join(platforms) if one.platforms or rest.count("/") else "no platform"
        yield fault(
            "Q10-unknown-place", one.origin, what=one.what, place=one.place, whose=whose, near=_near(near)
        )


def _has(places: Mapping[str, PlaceOn], wanted: str) -> bool:
    """Whether a platform has this place, or this assembly."""
    return wanted in places if "/" in wanted else any(one.assembly == wanted for one in places.values())


def _spoken_of(known: Known) -> Iterator[_Spoken]:
    for claim in known.claims:
        what = f"the claim `{claim.crossfit}`"
        if claim.at:
            yield _Spoken(what, claim.origin, claim.at, ())
        beside = [(one, one.at) for one in claim.with_] + [
            (one, one.at) for one in claim.never_with if one.at
        ]
        for one, at in beside:
            yield _Spoken(what, _first(one, claim), at or "", known.reached(claim))
    for platform in known.platforms.values():
        for point in platform.weak_points:
            what = f"a weak point of `{platform.platform}`"
            yield _Spoken(what, _first(point, platform), point.at, (platform.platform,))
    yield from _of_cars(known)
    for part in known.parts:
        if part.taken_from is not None:
            donor = part.taken_from
            yield _Spoken(f"the part {part.part}", _first(donor, part), donor.at, (donor.from_,))


def _of_cars(known: Known) -> Iterator[_Spoken]:
    cars = {car.car: car for car in known.graph.cars()}
    for car in cars.values():
        for at, really in car.really_on_it.items():
            yield _Spoken(f"the car `{car.car}`", _first(really, car), at, (car.is_,))
    for job in known.graph.jobs():
        at_car = cars.get(job.for_)
        for finding in job.findings:
            if at_car is not None:
                what = f"the job `{job.job}`"
                yield _Spoken(what, _first(finding, job), finding.at, _platforms_of(at_car))


def _platforms_of(car: Car) -> tuple[str, ...]:
    """The car's own platform, and those that assemblies of it come from."""
    return tuple(
        dict.fromkeys([car.is_, *(really.from_ for really in car.really_on_it.values() if really.from_)])
    )


def _first(one: Rec, whole: Rec) -> Origin:
    return one.origin if one.origin.book else whole.origin


def _near(word: str) -> str:
    return f"did you mean `{word}`?" if word else "none is near in name"


def outside_facts(known: Known) -> Iterator[Diagnostic]:
    """Facts are closed: what a car or a condition says is among the values its platform lists."""
    for car in known.graph.cars():
        platform = known.platforms.get(car.is_)
        for name, fact in car.facts.items() if platform else ():
            limits = platform.facts.get(name) if platform else None
            wrong = [value for value in fact.value if limits and not _car_value(limits, value)]
            if wrong and limits:
                yield _outside(
                    f"the car `{car.car}`", _first(fact, car), name, wrong[0], limits, f"`{car.is_}`"
                )
    for what, origin, condition, platforms in _conditions(known):
        for name, cond in condition.items():
            where = cond.origin if cond.origin.book else origin
            yield from _condition_fact(known, what, where, name, cond, platforms)


def _condition_fact(
    known: Known, what: str, origin: Origin, name: str, cond: Cond, platforms: tuple[str, ...]
) -> Iterator[Diagnostic]:
    there = [known.platforms[one] for one in platforms if one in known.platforms]
    if name in _ANY_CAR or not there:
        return
    limits = [platform.facts[name] for platform in there if name in platform.facts]
    whose = " and ".join(f"`{platform.platform}`" for platform in there)
    if not limits:
        listed = sorted({fact for platform in there for fact in platform.facts})
        near = _near(near_word(name, listed))
        yield fault(
            "Q27-condition-on-unknown-fact",
            origin,
            what=what,
            fact=name,
            platform=whose,
            known=", ".join(listed) or "none",
            near=near,
        )
        return
    for value in (*cond.any_, *cond.not_, *cond.series):
        if not any(_cond_value(one, value) for one in limits):
            yield _outside(what, origin, name, value, limits[0], whose)


def _outside(what: str, origin: Origin, name: str, value: str, limits: FactRange, whose: str) -> Diagnostic:
    words = ", ".join(limits.any_) if limits.any_ else f"numbers of {', '.join(limits.series)}"
    return fault(
        "Q21-fact-outside-platform", origin, what=what, fact=name, value=value, platform=whose, known=words
    )


def _car_value(limits: FactRange, value: str) -> bool:
    """Whether a car of the platform can have this value; serial numbers are `SERIES DIGITS`."""
    if limits.series:
        return _fold(value.rsplit(" ", 1)[0]) in map(_fold, limits.series)
    return not limits.any_ or _fold(value) in map(_fold, limits.any_)


def _cond_value(limits: FactRange, value: str) -> bool:
    """Whether a condition's value is one the platform knows: a word, or the name of a series."""
    return _fold(value) in map(_fold, (*limits.any_, *limits.series))


def _fold(text: str) -> str:
    return text.strip().casefold()


def _conditions(known: Known) -> Iterator[tuple[str, Origin, Condition, tuple[str, ...]]]:
    for claim in known.claims:
        for condition in (claim.only_if, claim.changed_at, claim.seen_on):
            if condition:
                yield f"the claim `{claim.crossfit}`", claim.origin, condition, known.reached(claim)
    for name, places in known.places.items():
        for place in places.values():
            yield f"the place {place.full_path}", place.origin, place.place.only_if, (name,)
            for original in place.place.original:
                what = f"the original {original.number} at {place.full_path}"
                yield what, _first(original, place), original.only_if, (name,)


def unknown_feature(known: Known) -> Iterator[Diagnostic]:
    """What parts, places and claims state are features of their category."""
    for what, origin, category, stated in _stated(known):
        interface = known.interface(category)
        for name in stated if interface else ():
            if interface is not None and name not in interface.features:
                listed = ", ".join(interface.features) or "none"
                near = _near(near_word(name, interface.features))
                yield fault(
                    "Q23-unknown-feature",
                    origin,
                    what=what,
                    feature=name,
                    category=f"`{category}`",
                    known=listed,
                    near=near,
                )


def _stated(known: Known) -> Iterator[tuple[str, Origin, str, Iterable[str]]]:
    for part in known.parts:
        yield f"the part {named(part)}", part.origin, part.is_, (*part.features, *part.measured)
    for places in known.places.values():
        for place in places.values():
            yield f"the place {place.full_path}", place.origin, place.place.is_, place.place.must_be
    for claim in known.claims:
        category = _category_of(known, claim)
        if category and claim.waives:
            yield f"the claim `{claim.crossfit}`", claim.origin, category, claim.waives


def _category_of(known: Known, claim: CrossFit) -> str:
    old, new = known.ends(claim)
    place = known.place(claim.at) if claim.at else None
    return old.is_ if old else place.place.is_ if place else new.is_ if new else ""


def unreadable(known: Known) -> Iterator[Diagnostic]:
    """Values that can be held against one another: one of the choices, or something that equals itself when compared."""
    for part in known.parts:
        values = _values_of(part)
        yield from _values(known, f"the part {named(part)}", part.origin, part.is_, values)
    for places in known.places.values():
        for place in places.values():
            what = f"the place {place.full_path}"
            yield from _values(known, what, place.origin, place.place.is_, place.place.must_be)


def _values_of(part: Part) -> dict[str, tuple[str, ...]]:
    """Nominal values, and measured ones of features without a nominal value."""
    return {name: (one.value,) for name, one in part.measured.items()} | part.features


def _values(
    known: Known, what: str, origin: Origin, category: str, stated: Mapping[str, tuple[str, ...]]
) -> Iterator[Diagnostic]:
    interface = known.interface(category)
    if interface is None:
        return
    for name, values in stated.items():
        for value in values if name in interface.features else ():
            yield from _value(known, what, origin, interface, name, value)


def _value(
    known: Known, what: str, origin: Origin, interface: Interface, name: str, value: str
) -> Iterator[Diagnostic]:
    feature = interface.features[name]
    category = f"`{interface.category.category}`"
    if feature.choices and _fold(value) not in map(_fold, feature.choices):
        near = _near(near_word(value, feature.choices))
        choices = ", ".join(feature.choices)
        yield fault(
            "Q24-not-a-choice",
            origin,
            what=what,
            feature=name,
            value=value,
            category=category,
            choices=choices,
            near=near,
        )
    elif compare(feature, value, value, known.graph.standards).state is State.UNKNOWN:
        yield fault("Q26-unreadable-value", origin, what=what, feature=name, value=value, kind=feature.kind)


RULES = (unknown_place, outside_facts, unknown_feature, unreadable)
