"""The needs of a job: each finding, the answers of the fitting room for it, and how many parts it takes."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting import Answer, Question, answer
from fitlore.fitting.agreement import OTHER_SIDE
from fitlore.fitting.shape import Interface
from fitlore.model.choices import Renew, Sides
from fitlore.model.job import Finding, Job
from fitlore.model.numbers import number_key
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


HANDED = (Sides.MIRROR, Sides.OTHER_LENGTH, Sides.CHANGEABLE)


class JobFault(Exception):
    """The job cannot be planned as it is written: its code, and what is missing where."""

    def __init__(self, code: str, **values: str) -> None:
        super().__init__(code)
        self.code, self.values = code, values


class NeedAt(NamedTuple):
    """One need of the job."""

    id: str
    finding: Finding
    answer: Answer
    quantity: int
    """How many parts it takes."""
    twin: str = ""
    """The need of the other side, where both are needs of their own and what is taken for them has to agree."""
    across: bool = False
    """One side was found, and both are renewed: of this kind never one alone on an axle."""
    apart: bool = False
    """The twin is a finding of its own: left and right were found one by one."""
    fitted: int = 0
    """So many of them are in already, though not all."""
    beside: tuple[str, ...] = ()
    """Numbers of what the job has already fitted on the other side, empty where nobody said."""

    @property
    def must(self) -> bool:
        """Whether the finding has to be met."""
        return self.finding.must is not None


def car_of(graph: Graph, job: Job) -> Car:
    """The car of the job; raises JobFault where no book has it."""
    car = graph.car(job.for_)
    if car is None:
        raise JobFault("no-such-car", car=job.for_, job=job.job)
    return car


def needs_of(graph: Graph, job: Job, car: Car) -> tuple[NeedAt, ...]:
    """One need per finding, in the job's order; its id is the place's path, with the side where it was said."""
    rows: list[NeedAt] = []
    singly = _found_singly(job)
    for finding in job.findings:
        path, said = _path_and_side(finding)
        place = graph.place(car.is_, path)
        if place is None:
            raise JobFault("no-such-place", place=finding.at, platform=car.is_, job=job.job)
        alone = _one_of_two(graph, finding, place, car, said) if path in singly else None
        rows += [alone] if alone else _need(graph, finding, place, car, said, rows)
    return tuple(rows)


def _path_and_side(finding: Finding) -> tuple[str, str]:
    path, _, at_side = finding.at.partition("@")
    return path, finding.side or at_side


def _found_singly(job: Job) -> set[str]:
    """Places with one finding for the left, one for the right and none besides."""
    said: dict[str, list[str]] = {}
    for finding in job.findings:
        path, side = _path_and_side(finding)
        said.setdefault(path, []).append("several" if finding.quantity else side)
    return {path for path, sides in said.items() if sorted(sides) == ["left", "right"]}


def _one_of_two(graph: Graph, finding: Finding, place: PlaceOn, car: Car, side: str) -> NeedAt | None:
    """The need of one side, where the other has a finding of its own and the two parts have to agree; else None."""
    if set(place.sides) != {"left", "right"}:
        return None
    reply = answer(graph, Question(place, car, side, both=True))
    if not must_agree(reply.interface):
        return None
    twin = f"{place.path}@{'left' if side == 'right' else 'right'}"
    return NeedAt(f"{place.path}@{side}", finding, reply, place.place.quantity, twin=twin, apart=True)


def must_agree(interface: Interface) -> bool:
    """Whether left and right have to agree: a kind renewed across the axle, or with a feature that asks for it."""
    return interface.renew is Renew.ACROSS_AXLE or bool(agreeing(interface))


def agreeing(interface: Interface) -> tuple[str, ...]:
    """The features in which the part on one side has to be as the one on the other."""
    return tuple(name for name, row in interface.features.items() if row.with_ == OTHER_SIDE)


def _need(
    graph: Graph, finding: Finding, place: PlaceOn, car: Car, said: str, rows: list[NeedAt]
) -> list[NeedAt]:
    """One need; two where both sides are renewed and left and right ones differ."""
    one_side = said not in ("", "both")
    sides = (said,) if one_side else place.sides
    each = finding.quantity or place.place.quantity
    if one_side or not sides:
        reply = answer(graph, Question(place, car, said if one_side else ""))
        if one_side and len(place.sides) == 2 and not finding.quantity and _across(reply):
            both = _need(graph, finding, place, car, "both", rows)
            return [row._replace(across=True) for row in both]
        name = f"{place.path}@{said}" if one_side else place.path
        return [NeedAt(_unused(name, rows), finding, reply, each)]
    reply = answer(graph, Question(place, car, both=True))
    if reply.interface.sides not in HANDED:
        return [NeedAt(_unused(place.path, rows), finding, reply, finding.quantity or each * len(sides))]
    names = [_unused(f"{place.path}@{side}", rows) for side in sides]
    replies = [answer(graph, Question(place, car, side, both=True)) for side in sides]
    return [
        NeedAt(name, finding, reply, each, twin=names[1 - number] if len(names) == 2 else "")
        for number, (name, reply) in enumerate(zip(names, replies, strict=True))
    ]


def _across(reply: Answer) -> bool:
    """Whether of this kind both on an axle are renewed, though only one was found bad."""
    return reply.interface.renew is Renew.ACROSS_AXLE


def _unused(name: str, rows: list[NeedAt]) -> str:
    taken = {row.id for row in rows}
    number, free = 2, name
    while free in taken:
        free, number = f"{name}#{number}", number + 1
    return free


def item(number: str) -> str:
    """The item a part number is in a problem: its look-up key."""
    return number_key(number)


def service_item(name: str) -> str:
    """The item a service is."""
    return f"service {name}"


def kind_item(category: str) -> str:
    """The item any part of a category is, where it is wanted or sold by kind."""
    return f"kind {category}"
