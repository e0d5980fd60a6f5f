"""The line of `note` as what is to be added: which part, for which part or place, on whose word, or what is taken back."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final, NamedTuple

import msgspec

from fitlore.cli.counter import Counter, car_named
from fitlore.cli.failure import CouldNot
from fitlore.cli.gap import Gap
from fitlore.cli.note_claims import Limits, claim_of, goal_of, known_claim
from fitlore.cli.note_head import Stance, head_of
from fitlore.cli.note_parts import (
    Meant,
    Where,
    handed,
    part_meant,
    target_meant,
    vehicle_meant,
    where_it_goes,
)
from fitlore.cli.note_sense import must_be_possible
from fitlore.cli.note_words import Told, told
from fitlore.cli.when import this_day
from fitlore.fitting.donors_on import Vehicle
from fitlore.fitting.requirement import part_named
from fitlore.model.choices import How
from fitlore.model.dates import Period, read_period
from fitlore.model.part import CrossFit, Evidence, Part
from fitlore.model.record import Name
from fitlore.upkeep.addition import (
    Addition,
    MoreEvidence,
    NewClaim,
    NewRecord,
    SpeaksAgainst,
    Withdrawal,
    own_shelf,
)
from fitlore.upkeep.numberless import book_of_parts, numberless

_NOTHING: Final = Told()


class Extras(NamedTuple):
    """What the options of `note` say beyond the line itself, or instead of its words."""

    stance: Stance | None = None
    target: str = ""
    off: str = ""
    told: Told = Told()
    limits: Limits = Limits()

    def filled(self, line: str, gap: Gap, answer: str) -> tuple[str, Extras]:
        """The line and the options with the answer to a gap put in."""
        head = head_of(line)
        match gap.piece:
            case "line":
                return answer, self
            case "how":
                head = head._replace(tail=", ".join(filter(None, (answer, head.tail))))
            case "part":
                head = head._replace(part=answer)
            case "claim":
                return head._replace(part=answer, target="", off="").line, self._replace(target="", off="")
            case "target":
                return head._replace(target=answer).line, self._replace(target="")
            case "off":
                return head._replace(off=answer).line, self._replace(off="")
        return head.line, self


class Understood(NamedTuple):
    """The line as it was understood."""

    additions: tuple[Addition, ...]
    """In the order in which they are to be written: a part without a number goes before the claim with it."""
    claim: CrossFit
    evidence: Evidence
    """The word itself; of what is taken back that word."""
    stance: Stance
    part: Part
    instead_of: str
    """The number it does the job of, or the place it is claimed for."""
    new_part: bool = False
    where: Where = Where()
    """The place it goes to, where one was named or follows."""

    @property
    def new(self) -> bool:
        """Whether the books hold no such claim yet."""
        return isinstance(self.additions[-1], NewClaim)


def understood(counter: Counter, line: str, extras: Extras) -> Understood:
    """Read the line; raises Gap with the readings of what is open, CouldNot with what is missing.

    An existing claim gets one more piece of evidence, or one against it.
    """
    head = head_of(line)
    stance = extras.stance or head.stance
    if not head.part:
        raise CouldNot("nothing was noted; write `note PART for NUMBER-or-PLACE, HOW`")
    said = _merged(told(head.tail, this_day(), stance), extras.told)
    named = counter.graph.crossfit(head.part.strip("`"))
    if named is not None and not (extras.target or head.target):
        part = part_named(counter.graph, named.use, "")
        stub = part or Part(part=named.use, is_=Name(_kind_of(counter, named)))
        return _on_known(counter, named, stub, said, stance)
    vehicle, supplier = _off(counter, extras.off or head.off)
    target = extras.target or head.target
    where = target_meant(counter, target) if target else None
    meant = part_meant(counter, head.part, where.side if where else "", vehicle, numberless=said.no_number)
    where = where or where_it_goes(counter, meant)
    part = meant.part or _numberless(counter, meant, where, said)
    new_part = meant.part is None and not part.origin.book
    if stance == "for":
        must_be_possible(counter, meant, part, where)
    goal = goal_of(counter, where, part, extras.limits.reaches)
    beside = tuple(_companion(counter, text) for text in (*head.beside, *said.beside))
    limits = extras.limits._replace(both_ways=said.both_ways, do=said.do, minutes=said.minutes, beside=beside)
    known = None if new_part else known_claim(counter, part, goal, limits)
    if known is not None:
        return _on_known(counter, known, part, said, stance, supplier)._replace(where=where)
    if stance == "taken-back":
        raise CouldNot(
            f"no claim of the books says that {part.part} does the job of {goal.name}, so there is nothing to take back"
        )
    evidence = _evidence(counter, said, stance, supplier, goal.platforms)
    claim = claim_of(counter, part, goal, limits, evidence, against=stance == "against")
    additions = (*_new_part(counter, part, new=new_part), NewClaim(claim))
    return Understood(additions, claim, evidence, stance, part, goal.name, new_part, where)


def _on_known(
    counter: Counter, known: CrossFit, part: Part, said: Told, stance: Stance, supplier: str = ""
) -> Understood:
    """One more word on a claim of the books."""
    said = msgspec.structs.replace(said, by=_person(known, said.by))
    name = known.instead_of or known.at or ""
    addition: Addition
    if stance == "taken-back":
        evidence = Evidence(
            how=How.TOLD, by=said.by or counter.graph.shop.person, date=_date(said), note=said.note
        )
        addition = Withdrawal(known, evidence.by, evidence.date, said.note)
    else:
        platforms = known.reaches or ((known.at.partition("/")[0],) if known.at else ())
        evidence = _evidence(counter, said, stance, supplier, platforms)
        addition = SpeaksAgainst(known, evidence) if stance == "against" else MoreEvidence(known, evidence)
    return Understood((addition,), known, evidence, stance, part, name)


def _evidence(
    counter: Counter, said: Told, stance: Stance, supplier: str, platforms: Sequence[str]
) -> Evidence:
    """The piece of evidence. What the shop found out by itself it found out on the picked car, if that is one of these; on
    which car is left open where nobody picked one.
    """
    if said.how is None and stance == "for":
        form = "`note PART for NUMBER-or-PLACE, HOW` says in place of what, and how it is known"
        raise Gap("say how it is known, after a comma:", "how", (how.value for how in How), form)
    how = said.how or How.OFFERED_UP
    person = counter.graph.shop.person
    by = said.by or ("" if how in (How.PRINTED, How.TOLD) and said.source else person)
    own = (
        counter.car.car
        if counter.car
        and not counter.taken
        and how.first_hand
        and by == person
        and _is_one(counter, platforms)
        else ""
    )
    named, note = _car_said(counter, said, platforms)
    car = named or own
    return Evidence(
        how=how,
        by=by,
        source=said.source,
        date=_date(said),
        lasted=said.lasted,
        on_car=car if stance == "for" else "",
        tried_on=car if stance == "against" else "",
        from_=supplier,
        note=note,
    )


def _car_said(counter: Counter, said: Told, platforms: Sequence[str]) -> tuple[str, str]:
    """The car that the words say it was on, and the remark without them; raises CouldNot where it is another platform's."""
    text = said.on_car or (match[1] if (match := re.fullmatch(r"on (.+)", said.note, re.IGNORECASE)) else "")
    bare = re.sub(r"^(?:the|an?|my|our) ", "", text, flags=re.IGNORECASE)
    try:
        car = car_named(counter.graph, bare) if bare else None
    except CouldNot:
        car = None
    if car is None:
        return said.on_car, said.note
    if not _is_one(counter._replace(car=car), platforms):
        raise CouldNot(
            f"{car.name or car.car} is a {car.is_}, and this is claimed for {' and '.join(platforms)}: nothing was noted;"
            f" say `for {car.is_} ...`, or leave the car out"
        )
    return car.car, said.note if said.on_car else ""


def _is_one(counter: Counter, platforms: Sequence[str]) -> bool:
    """Whether the picked car is of one of these platforms, or has an assembly of one."""
    if counter.car is None:
        return False
    own = {counter.car.is_, *(really.from_ for really in counter.car.really_on_it.values() if really.from_)}
    return not own.isdisjoint(platforms) or not platforms


def _date(said: Told) -> Period | None:
    """The day it was found out, today if no other was said; raises CouldNot for what is no day, or is still to come."""
    today = this_day()
    found = read_period(said.date or today.isoformat())
    if found is None:
        raise CouldNot(f"{said.date!r} is no day; write `3 dec`, `may 2024`, `2024` or `2026-12-09`")
    if found.start > today.toordinal():
        raise CouldNot(f"{said.date} is still to come; what is noted was found out before")
    return found


def _merged(line: Told, options: Told) -> Told:
    """Both together, remarks one after the other; raises CouldNot where an option says otherwise than the line."""
    said: dict[str, object] = {}
    for name in Told.__struct_fields__:
        one, other = getattr(line, name), getattr(options, name)
        if name == "note":
            said[name] = ", ".join(dict.fromkeys(filter(None, (one, other))))
            continue
        empty = getattr(_NOTHING, name)
        if one != empty and other != empty and _fold(one) not in _fold(other):
            words = name.replace("_", "-")
            raise CouldNot(
                f"{words} is {_fold(one)!r} in the line and {_fold(other)!r} as an option; say one of them"
            )
        said[name] = other if other != empty else one
    return msgspec.convert(said, Told, from_attributes=True)


def _fold(value: object) -> str:
    return str(value.value if isinstance(value, How) else value).casefold()


def _off(counter: Counter, text: str) -> tuple[Vehicle | None, str]:
    """The vehicle that the part comes off, or the supplier whose version it is; raises CouldNot where it is neither."""
    if not text:
        return None, ""
    supplier = counter.graph.supplier(text.casefold())
    if supplier is not None:
        return None, supplier.supplier
    vehicle = vehicle_meant(counter, text)
    if vehicle is None:
        names = [one.donor for one in counter.graph.donors()] + [
            one.supplier for one in counter.graph.suppliers()
        ]
        raise CouldNot(
            f"no donor, platform or supplier {text!r} in the books; there are {', '.join(names[:12]) or 'none'}"
        )
    return vehicle, ""


def _numberless(counter: Counter, meant: Meant, where: Where, said: Told) -> Part:
    """The part without a number: that of the books which is meant already, or a new one."""
    if meant.at is None:
        raise CouldNot("say whose it is and what it is, as `blower motor off DONOR`; that part has a number")
    vehicle = meant.vehicle or Vehicle(meant.at.on)
    is_handed = handed(counter, meant.at)
    side = meant.side if is_handed else ""
    return numberless(counter.graph, vehicle, meant.at, side=side, marks=said.marks, handed=is_handed)


def _new_part(counter: Counter, part: Part, *, new: bool) -> tuple[Addition, ...]:
    shelf = own_shelf(counter.folder) if new and counter.folder else None
    if shelf is None or counter.folder is None:
        return (NewRecord(part),) if new else ()
    return (NewRecord(part, book_of_parts(counter.graph, counter.folder, shelf, part.is_)),)


def _companion(counter: Counter, text: str) -> tuple[str, str]:
    """`PART at PLACE`: the path of the place and the number; raises CouldNot, and Gap where it may be several."""
    words = text.replace(" in ", " at ", 1) if " at " not in text else text
    name, _, place = words.rpartition(" at ")
    where = target_meant(counter, place)
    if where.place is None:
        raise CouldNot(f"{place!r} is no place; write `with PART at PLACE`")
    part = part_meant(counter, name, where.side, None, numberless=False).part
    assert part is not None
    return where.place.path, part.part


def _person(claim: CrossFit, by: str) -> str:
    """The name by which somebody has spoken on this claim before: `Hale` is `friend Hale`, if there is but one."""
    people = {piece.by for piece in (*claim.evidence, *claim.against) if piece.by}
    same = {one for one in people if by and by.casefold() in (one.casefold(), one.casefold().split()[-1])}
    return same.pop() if len(same) == 1 else by


def _kind_of(counter: Counter, claim: CrossFit) -> str:
    """The kind of part that a claim is about, where no book describes the part it brings in."""
    old = part_named(counter.graph, claim.instead_of, "") if claim.instead_of else None
    platform, _, path = (claim.at or "").partition("/")
    place = counter.graph.place(platform, path) if path else None
    return old.is_ if old else place.place.is_ if place else ""
