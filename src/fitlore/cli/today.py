"""`fitlore` alone: what is due today on the picked car."""

from __future__ import annotations

from datetime import date
from typing import Final

from fitlore.cli.counter import Counter, open_counter
from fitlore.cli.failure import CouldNot
from fitlore.cli.session import Numbered
from fitlore.cli.when import this_day, this_hour
from fitlore.model.job import Job
from fitlore.report.cars import cars_lines
from fitlore.report.text import Line, show
from fitlore.report.verdicts import closing

SECONDS: Final = 15.0
"""So long a plan is sought; a long job is planned by `plan`."""
ASKED: Final = "what is due today"


def due_today(folder: str | None) -> int:
    """Prints it; the exit code."""
    counter = open_counter(folder, in_hand=True)
    if counter.car is None:
        show(
            [
                *cars_lines(counter.graph.cars()),
                Line("`fitlore car NAME` picks one; `fitlore --help` says what else there is", hang=2),
            ]
        )
        return 1
    jobs = sorted(counter.graph.jobs_of(counter.car.car), key=lambda job: job.in_hand_by or date.max)
    if not jobs:
        show([counter.head(), Line("no job is open on it; `fitlore car` says what is known of it", hang=2)])
        return 0
    lines: list[Line] = [counter.head()]
    numbered: list[Numbered] = []
    for job in jobs:
        lines += _one(counter, job, numbered)
    counter.remember(ASKED, counter.car, numbered)
    show([*lines, *closing(counter.graph.policy.deferral)])
    return 0


def _one(counter: Counter, job: Job, numbered: list[Numbered]) -> list[Line]:
    from fitlore.report.today import today_lines
    from fitlore.sourcing.assemble import Wishes
    from fitlore.sourcing.audit import AuditError
    from fitlore.sourcing.coins import OtherCurrency
    from fitlore.sourcing.door import Effort, SolverError
    from fitlore.sourcing.needs import JobFault
    from fitlore.sourcing.plan import plan
    from fitlore.sourcing.proof import line_proof

    assert counter.car is not None
    today = this_day()
    if job.in_hand_by is not None and job.in_hand_by < today:
        return today_lines(counter.car, job, today, None)
    try:
        made = plan(
            counter.graph,
            job,
            Wishes(today=today, now=this_hour(today)),
            explain=False,
            effort=Effort(seconds=SECONDS),
        )
    except (JobFault, OtherCurrency, AuditError, SolverError) as fault:
        raise CouldNot(f"job {job.job} cannot be planned; `fitlore plan` says why  [{job.origin}]") from fault
    if not numbered:
        numbered += [
            Numbered(
                line.number,
                f"{line.need.id}: {made.words(line.choice.option.id) if line.choice else 'left'}",
                line_proof(made, line),
            )
            for line in made.lines
        ]
    return today_lines(counter.car, job, today, made)
