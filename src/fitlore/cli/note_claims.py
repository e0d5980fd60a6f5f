"""What a noted part is claimed for, under which limits, and which claim of the books says so already."""

from __future__ import annotations

import re
from typing import NamedTuple

from fitlore.cli.counter import Counter
from fitlore.cli.failure import CouldNot
from fitlore.cli.gap import Gap
from fitlore.cli.note_parts import Where, handed
from fitlore.fitting.conditions import holds
from fitlore.fitting.parts import identity, parts_or_stub
from fitlore.fitting.place import resolve
from fitlore.fitting.requirement import other_side
from fitlore.model.category import Work
from fitlore.model.choices import Goes
from fitlore.model.kleene import Tri
from fitlore.model.numbers import number_key
from fitlore.model.part import Companion, CrossFit, Evidence, Part
from fitlore.model.platform import Cond
from fitlore.model.record import Name, Number, PlacePath
from fitlore.upkeep.objecting import known_as


class Goal(NamedTuple):
    """What the part does the job of: a number and where, or a place."""

    number: str = ""
    at: str = ""
    """`platform/assembly/place`, with its side where left and right ones differ."""
    reaches: tuple[str, ...] = ()
    place: str = ""
    """The place that was meant: `platform/assembly/place`, by which a claim may know it instead."""

    @property
    def name(self) -> str:
        """The number or the place."""
        return self.number or self.at

    @property
    def platforms(self) -> tuple[str, ...]:
        """Where it is claimed."""
        return self.reaches or ((self.at.partition("/")[0],) if self.at else ())


class Limits(NamedTuple):
    """Under which limits, and with which work, a claim is made."""

    reaches: tuple[str, ...] = ()
    both_ways: bool | None = None
    do: str = ""
    minutes: int = 0
    waives: tuple[str, ...] = ()
    only_if: tuple[str, ...] = ()
    beside: tuple[tuple[str, str], ...] = ()
    """Places that must be changed with it, and the number that goes there."""

    @property
    def any(self) -> bool:
        """Whether any was said: a line without them is one more word on the claim there is."""
        return bool(self.both_ways or self.do or self.minutes or self.waives or self.only_if or self.beside)


def goal_of(counter: Counter, where: Where, part: Part, reaches: tuple[str, ...]) -> Goal:
    """What the part is to stand in for: the one original of the place that is right for this car, or the place itself.

    Raises Gap where several originals may be right, and one is as good as the other for all that is known.
    """
    if where.part is not None:
        return Goal(where.part.part, "", reaches or _reached(counter, where.part))
    assert where.place is not None
    side = where.side or (part.side.value if part.side and part.side.value in where.place.sides else "")
    car = counter.car if counter.car and counter.car.is_ == where.place.on else None
    resolved = resolve(counter.graph, where.place, car, side)
    place = resolved.place
    originals: dict[tuple[str, str], Part] = {}
    for original in place.place.original:
        if holds(original.only_if, resolved.facts).value is not Tri.FALSE:
            for one in parts_or_stub(counter.graph, original.number, place.maker, place.place.is_):
                if not other_side(one, side):
                    originals[identity(one)] = one
    if len(originals) > 1:
        names = (f"{one.issuer} {one.part}".strip() for one in originals.values())
        raise Gap(f"{place.full_path} has several originals:", "target", names, "say instead of which")
    if originals and identity(part) not in originals:
        number = next(iter(originals.values())).part
        return Goal(number, "", reaches or (place.on,), place.full_path)
    behind = f"@{side}" if side in place.sides and handed(counter, place) else ""
    return Goal("", f"{place.full_path}{behind}", (), place.full_path)


def _reached(counter: Counter, part: Part) -> tuple[str, ...]:
    """Where a claim for a number was made: the picked car's platform, if its part is an original there; else the only one."""
    car = counter.car
    platforms = {place.on for place in counter.graph.places_of_originals([number_key(part.part)])}
    if car is not None:
        brought = [really.from_ for really in car.really_on_it.values() if really.from_ in platforms]
        if car.is_ in platforms or not platforms:
            return (car.is_,)
        if brought:
            return tuple(str(name) for name in dict.fromkeys(brought))
    return tuple(platforms) if len(platforms) == 1 else ()


def known_claim(counter: Counter, part: Part, goal: Goal, limits: Limits) -> CrossFit | None:
    """The claim of the books that this is one more word on; raises Gap where it may be several.

    With limits of its own a line goes to a claim that says all of them, and may say more.
    """
    if limits.any:
        same = known_as(counter.graph, claim_of(counter, part, goal, limits, None, against=False))
        if same is not None:
            return same
    keys = {number_key(part.part), number_key(f"{part.maker} {part.part}")}
    facts = counter.car.facts if counter.car else {}
    found = [
        claim
        for claim in (*counter.graph.claims_to(sorted(keys)), *_backwards(counter, goal))
        if _same_ends(claim, keys, goal)
        and _says(claim, limits)
        and holds(claim.only_if, facts).value is not Tri.FALSE
    ]
    names = dict.fromkeys(claim.crossfit for claim in found)
    if len(names) > 1:
        raise Gap(
            f"the books hold several claims of {part.part} for {goal.name}:",
            "claim",
            names,
            "name the one it is about",
        )
    return found[0] if found else None


def _backwards(counter: Counter, goal: Goal) -> tuple[CrossFit, ...]:
    """Claims that go both ways and bring the needed part in: they say this as well."""
    found = counter.graph.claims_to([number_key(goal.number)]) if goal.number else ()
    return tuple(claim for claim in found if claim.goes is Goes.BOTH_WAYS)


def _says(claim: CrossFit, limits: Limits) -> bool:
    """Whether a claim says whatever the line says of direction, companions, work and conditions."""
    beside = {(one.at, number_key(number)) for one in claim.with_ for number in one.use}
    only_if = dict(_condition(text) for text in limits.only_if)
    return (
        not (limits.both_ways and claim.goes is Goes.ONE_WAY)
        and {(at, number_key(number)) for at, number in limits.beside} <= beside
        and set(limits.waives) <= set(claim.waives)
        and all(
            name in claim.only_if and claim.only_if[name].any_ == one.any_ for name, one in only_if.items()
        )
        and (not limits.minutes or (claim.work is not None and claim.work.minutes == limits.minutes))
        and (not limits.do or (claim.work is not None and claim.work.do.casefold() == limits.do.casefold()))
    )


def _same_ends(claim: CrossFit, keys: set[str], goal: Goal) -> bool:
    if goal.reaches and claim.reaches and not set(goal.reaches) <= set(claim.reaches):
        return False
    if claim.at is not None or goal.at:
        at, _, side = (claim.at or "").partition("@")
        own = goal.at.partition("@")[2]
        return at != "" and at == goal.place and side in ("", own) and number_key(claim.use) in keys
    ends = (number_key(claim.instead_of or ""), number_key(claim.use))
    forth = ends[0] == number_key(goal.number) and ends[1] in keys
    back = ends[1] == number_key(goal.number) and ends[0] in keys
    return forth or (back and claim.goes is Goes.BOTH_WAYS)


def claim_of(
    counter: Counter, part: Part, goal: Goal, limits: Limits, evidence: Evidence | None, *, against: bool
) -> CrossFit:
    """The claim as it would be written, with a name that is still free."""
    pieces = (evidence,) if evidence is not None else ()
    return CrossFit(
        crossfit=_name(counter, part, goal),
        instead_of=Number(goal.number) if goal.number else None,
        at=PlacePath(goal.at) if goal.at else None,
        use=Number(part.part),
        goes=Goes.BOTH_WAYS if limits.both_ways else Goes.ONE_WAY,
        reaches=tuple(Name(name) for name in goal.reaches),
        only_if=dict(_condition(text) for text in limits.only_if),
        with_=tuple(Companion(at=PlacePath(at), use=(Number(number),)) for at, number in limits.beside),
        work=Work(do=limits.do, minutes=limits.minutes) if limits.do or limits.minutes else None,
        waives=limits.waives,
        evidence=() if against else pieces,
        against=pieces if against else (),
    )


def _condition(text: str) -> tuple[str, Cond]:
    name, separator, value = text.partition("=")
    if not separator or not name.strip() or not value.strip():
        raise CouldNot(f"--only-if {text!r}: write FACT=VALUE, for example engine=1.8")
    return name.strip(), Cond(any_=tuple(v.strip() for v in value.split("|")))


def _name(counter: Counter, part: Part, goal: Goal) -> Name:
    """`NUMBER-from-NUMBER` in small letters; numbered where that is taken."""
    words = f"{goal.name} from {part.maker} {part.part}".casefold()
    base = re.sub(r"[^a-z0-9]+", "-", words).strip("-")
    name, count = base, 2
    while counter.graph.crossfit(name) is not None:
        name, count = f"{base}-{count}", count + 1
    return Name(name)
