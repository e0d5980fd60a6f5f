"""A car in words: what is known of it and how, what is really on it, what nobody has looked at, its jobs."""

from __future__ import annotations

from collections.abc import Iterable

from fitlore.model.choices import How
from fitlore.model.job import Job
from fitlore.model.platform import Car
from fitlore.report.days import long_day
from fitlore.report.text import Line, columns, tied
from fitlore.report.verdicts import car_line


def car_lines(car: Car, jobs: Iterable[Job]) -> list[Line]:
    """The picked car, its name first."""
    facts = [
        (f"  {name}", f"{' or '.join(fact.value)}{_told(fact.how, fact.by, fact.note)}")
        for name, fact in car.facts.items()
    ]
    lines = [car_line(car), *columns(facts, ["plain" for _ in facts], "l")]
    if car.really_on_it:
        lines.append(Line("really on it, whatever the book says", "head"))
    for at, found in car.really_on_it.items():
        what = tied(found.number) if found.number else f"from a {found.from_}"
        told = _told(found.how, found.by, found.note)
        lines.append(Line(f"  {at}: {what}{told}  [{found.origin}]", hang=4))
    if car.not_looked_at:
        lines.append(Line(f"not looked at: {', '.join(car.not_looked_at)}", "ask", hang=2))
    return [*lines, *(_job(job) for job in jobs)]


def cars_lines(cars: Iterable[Car]) -> list[Line]:
    """The cars there are to pick from."""
    rows = [(f"  {car.car}", f"{car.name or car.car} ({tied(car.is_)})") for car in cars]
    return [car_line(None), *columns(rows, ["plain" for _ in rows], "l")]


def _told(how: How | None, by: str, note: str) -> str:
    words = f", {how.value if how else 'said'}{f' by {by}' if by else ''}" if how or by else ""
    return f"{words}{f': {note}' if note else ''}"


def _job(job: Job) -> Line:
    count = len(job.findings)
    by = f", all in hand by {long_day(job.in_hand_by)}" if job.in_hand_by else ""
    return Line(f"job {job.job}: {count} finding{'' if count == 1 else 's'}{by}", hang=2)
