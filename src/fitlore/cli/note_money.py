"""What a noted word does to the money: each open job it may touch, planned with and without it."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.cli.when import this_day, this_hour
from fitlore.report.drafts import Priced
from fitlore.upkeep.draft import Draft

if TYPE_CHECKING:
    from fitlore.graph.open import Graph
    from fitlore.model.job import Job

PATIENCE: Final = 8.0
"""Seconds after which no further job is planned, unless it was asked for."""


class _Cost(NamedTuple):
    found: int | None
    """In coins; None: nothing meets everything."""


def priced(now: Graph, drafts: tuple[Draft, ...], *, whole: bool) -> tuple[Priced, ...]:
    """The least cost of each job the drafts may touch, before and after; jobs that cannot be planned as written are left out.

    `whole`: however long it takes.
    """
    if not drafts or drafts[-1].spliced is None:
        return ()
    cars = frozenset[str]().union(*(one.touched for one in drafts))
    many = any(one.not_answered for one in drafts)
    rows: list[Priced] = []
    start = time.monotonic()
    for job in now.jobs():
        if not many and job.for_ not in cars:
            continue
        if not whole and time.monotonic() - start > PATIENCE:
            rows.append(Priced(job.job, None, None, counted=False))
            continue
        before, after = _cost(now, job), _cost(drafts[-1].graph, job)
        if before is not None and after is not None:
            rows.append(Priced(job.job, before.found, after.found))
    return tuple(rows)


def _cost(graph: Graph, job: Job) -> _Cost | None:
    from fitlore.sourcing.assemble import Wishes
    from fitlore.sourcing.coins import OtherCurrency
    from fitlore.sourcing.needs import JobFault
    from fitlore.sourcing.plan import plan

    there = graph.job(job.job)
    if there is None:
        return None
    try:
        day = there.today or this_day()
        wishes = Wishes(today=day, now=this_hour(day))
        solution = plan(graph, there, wishes, explain=False).solution
    except (JobFault, OtherCurrency):
        return None
    return _Cost(solution.cost) if solution.status in ("proven", "infeasible") else None
