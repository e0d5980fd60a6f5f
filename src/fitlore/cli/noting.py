"""The line of `note` in trade words: which part, for which part or place, how it is known."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final, NamedTuple

from fitlore.cli.asking import parts_named, places_named
from fitlore.cli.counter import Counter
from fitlore.cli.failure import CouldNot
from fitlore.cli.when import this_day
from fitlore.fitting.conditions import holds
from fitlore.fitting.place import resolve
from fitlore.fitting.requirement import other_side, part_named
from fitlore.model.category import Work
from fitlore.model.choices import Goes, How
from fitlore.model.dates import read_period
from fitlore.model.kleene import Tri
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Evidence, Part
from fitlore.model.platform import Cond
from fitlore.model.record import Name, Number, PlacePath
from fitlore.upkeep.addition import Addition, MoreEvidence, NewClaim, SpeaksAgainst
from fitlore.upkeep.objecting import known_as

_HOW: Final = {
    "works": How.FITTED,
    "fitted": How.FITTED,
    "offered up": How.OFFERED_UP,
    "offered-up": How.OFFERED_UP,
    "tried": How.OFFERED_UP,
    "measured": How.MEASURED,
    "printed": How.PRINTED,
    "told": How.TOLD,
}


class Extras(NamedTuple):
    """What the options of `note` say beyond the line itself."""

    how: str | None = None
    by: str | None = None
    note: str | None = None
    both_ways: bool = False
    reaches: tuple[str, ...] = ()
    minutes: int = 0
    work: str = ""
    waives: tuple[str, ...] = ()
    only_if: tuple[str, ...] = ()
    source: str | None = None


class Understood(NamedTuple):
    """The line as it was understood."""

    addition: Addition
    claim: CrossFit
    evidence: Evidence
    against: bool
    part: Part
    instead_of: str
    """The number it does the job of, or the place it is claimed for."""


def understood(counter: Counter, words: Sequence[str], target: str | None, extras: Extras) -> Understood:
    """Read the line; raises CouldNot with what is missing or ambiguous. An existing claim gets one more piece of evidence."""
    text = " ".join(words).strip()
    against = text.casefold().startswith("not ")
    head, _, tail = text.removeprefix(text[:4] if against else "").partition(",")
    left, right = _halves(head)
    right = target or right
    if not right:
        raise CouldNot("say what it goes in place of: `note PART for NUMBER-or-PLACE, HOW`")
    part = _one(counter, left)
    evidence = _evidence(counter, tail.strip(), against, extras)
    number, at = _target(counter, right, part)
    claim = _claim(counter, part, number, at, evidence, against, extras)
    limited = bool(extras.only_if or extras.work or extras.minutes or extras.waives)
    known = known_as(counter.graph, claim) if limited else _known(counter, part, number, at)
    if known is not None:
        addition: Addition = SpeaksAgainst(known, evidence) if against else MoreEvidence(known, evidence)
        return Understood(addition, known, evidence, against, part, number or at)
    return Understood(NewClaim(claim), claim, evidence, against, part, number or at)


def _halves(head: str) -> tuple[str, str]:
    match = re.split(r"\s+(?:for|instead of|in place of)\s+", head.strip(), maxsplit=1, flags=re.IGNORECASE)
    return match[0], match[1] if len(match) > 1 else ""


def _one(counter: Counter, words: str) -> Part:
    parts = parts_named(counter, words)
    if len(parts) > 1:
        names = ", ".join(f"{part.maker} {part.part}".strip() for part in parts[:8])
        raise CouldNot(f"{words!r} may be {names}; write the number")
    return parts[0]


def _target(counter: Counter, words: str, part: Part) -> tuple[str, str]:
    """The number of the part it replaces, or `platform/assembly/place` where no one original stands there."""
    found = counter.graph.parts([number_key(words)])
    if len(found) == 1:
        return found[0].part, ""
    places, side = places_named(counter, words)
    if len(places) != 1:
        raise CouldNot(f"{words!r} may be {', '.join(place.full_path for place in places)}; say which")
    resolved = resolve(counter.graph, places[0], counter.car, side)
    originals = []
    for original in resolved.place.place.original:
        one = part_named(counter.graph, original.number, resolved.place.maker)
        if (
            one is not None
            and not other_side(one, side)
            and holds(original.only_if, resolved.facts).value is not Tri.FALSE
        ):
            originals.append(one)
    if len(originals) == 1 and originals[0] != part:
        return originals[0].part, ""
    return "", resolved.place.full_path


def _evidence(counter: Counter, tail: str, against: bool, extras: Extras) -> Evidence:
    said, _, rest = tail.partition(",")
    how = _HOW.get((extras.how or said).strip().casefold())
    if extras.how and how is None:
        raise CouldNot(f"how: {extras.how!r}; write one of {', '.join(h.value for h in How)}")
    note = extras.note or (rest.strip() if how is not None and not extras.how else tail)
    if how is None and not against:
        raise CouldNot("say how it is known, after a comma: fitted, offered up, measured, printed or told")
    return Evidence(
        how=how or How.OFFERED_UP,
        by=extras.by or counter.graph.shop.person,
        source=extras.source or "",
        date=read_period(this_day().isoformat()),
        on_car=counter.car.car if counter.car and not against else "",
        tried_on=counter.car.car if counter.car and against else "",
        note=note,
    )


def _known(counter: Counter, part: Part, number: str, at: str) -> CrossFit | None:
    """A claim of the same part for the same part or place: a line without limits of its own is one more word on it."""
    keys = {number_key(part.part), number_key(f"{part.maker} {part.part}")}
    for claim in counter.graph.claims_to(sorted(keys)):
        if number and claim.instead_of and number_key(claim.instead_of) == number_key(number):
            return claim
        if at and claim.at == at:
            return claim
    return None


def _claim(
    counter: Counter, part: Part, number: str, at: str, evidence: Evidence, against: bool, extras: Extras
) -> CrossFit:
    car = counter.car
    work = Work(do=extras.work, minutes=extras.minutes) if extras.work or extras.minutes else None
    reaches = extras.reaches or ((car.is_,) if car and number else ())
    return CrossFit(
        crossfit=_name(counter, part, number, at),
        instead_of=Number(number) if number else None,
        at=PlacePath(at) if at else None,
        use=Number(part.part),
        goes=Goes.BOTH_WAYS if extras.both_ways else Goes.ONE_WAY,
        reaches=tuple(Name(name) for name in reaches),
        only_if=dict(_condition(text) for text in extras.only_if),
        work=work,
        waives=extras.waives,
        evidence=() if against else (evidence,),
        against=(evidence,) if against else (),
    )


def _condition(text: str) -> tuple[str, Cond]:
    name, separator, value = text.partition("=")
    if not separator or not name.strip() or not value.strip():
        raise CouldNot(f"--only-if {text!r}: write FACT=VALUE, for example engine=1.8")
    return name.strip(), Cond(any_=tuple(v.strip() for v in value.split("|")))


def _name(counter: Counter, part: Part, number: str, at: str) -> Name:
    """`NUMBER-from-NUMBER` in small letters; numbered where that is taken."""
    words = f"{number or at} from {part.maker} {part.part}".casefold()
    base = re.sub(r"[^a-z0-9]+", "-", words).strip("-")
    name, count = base, 2
    while counter.graph.crossfit(name) is not None:
        name, count = f"{base}-{count}", count + 1
    return Name(name)
