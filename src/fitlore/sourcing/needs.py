"""The needs of a job: each finding, the answers of the fitting room for it, and how many parts it takes."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting import Answer, Question, answer
from fitlore.model.choices import Sides
from fitlore.model.job import Finding, Job
from fitlore.model.numbers import number_key
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


_HANDED = (Sides.MIRROR, Sides.OTHER_LENGTH, Sides.CHANGEABLE)


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
    """The need of the other side, where left and right take different parts and both are renewed."""

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
    for finding in job.findings:
        path, _, at_side = finding.at.partition("@")
        place = graph.place(car.is_, path)
        if place is None:
            raise JobFault("no-such-place", place=finding.at, platform=car.is_, job=job.job)
        rows += _need(graph, finding, place, car, finding.side or at_side, rows)
    return tuple(rows)


def _need(
    graph: Graph, finding: Finding, place: PlaceOn, car: Car, said: str, rows: list[NeedAt]
) -> list[NeedAt]:
    """One need; two where both sides are renewed and left and right ones differ."""
    one_side = said not in ("", "both")
    sides = (said,) if one_side else place.sides
    each = finding.quantity or place.place.quantity
    if one_side or not sides:
        reply = answer(graph, Question(place, car, said if one_side else ""))
        name = f"{place.path}@{said}" if one_side else place.path
        return [NeedAt(_unused(name, rows), finding, reply, each)]
    reply = answer(graph, Question(place, car, both=True))
    if reply.interface.sides not in _HANDED:
        return [NeedAt(_unused(place.path, rows), finding, reply, finding.quantity or each * len(sides))]
    names = [_unused(f"{place.path}@{side}", rows) for side in sides]
    replies = [answer(graph, Question(place, car, side, both=True)) for side in sides]
    return [
        NeedAt(name, finding, reply, each, twin=names[1 - number] if len(names) == 2 else "")
        for number, (name, reply) in enumerate(zip(names, replies, strict=True))
    ]


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
