"""The JSON of `donor`; its shape is on the help page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitlore.fitting.donors import Gives, Leave, Pull
from fitlore.fitting.donors_on import Vehicle
from fitlore.report.donors import ForJob
from fitlore.report.machine import Json, ask_json, because_json
from fitlore.report.sentences import say

if TYPE_CHECKING:
    from fitlore.sourcing.donor import Worth


def vehicle_json(vehicle: Vehicle) -> Json:
    """Which vehicle it is."""
    donor, sale = vehicle.donor, vehicle.sale
    price = sale[0].offer.price if sale else donor.price if donor else None
    return {
        "vehicle": vehicle.key,
        "platform": vehicle.platform or None,
        "donor": donor.donor if donor else None,
        "from": (sale[0].supplier if sale else donor.from_ if donor else None) or None,
        "price": str(price) if price else None,
    }


def gives_json(one: Gives, number: int) -> Json:
    """A line of the list: the needs it serves."""
    return {
        "number": number,
        **vehicle_json(one.vehicle),
        "serves": [_need(w.job, w.name) for w in one.serves],
        "may-serve": [_need(w.job, w.name) for w in one.may_serve],
        "jobs": [],
    }


def donor_json(vehicle: Vehicle, jobs: Sequence[ForJob]) -> Json:
    """One vehicle with all that it gives, numbered through."""
    number, rows = 1, []
    for one in jobs:
        rows.append(_job_json(one, number))
        number += len(one.gives.take) + len(one.gives.look) + len(one.gives.leave)
    return {
        "number": None,
        **vehicle_json(vehicle),
        "serves": [_need(w.job, w.name) for one in jobs for w in one.gives.serves],
        "may-serve": [_need(w.job, w.name) for one in jobs for w in one.gives.may_serve],
        "jobs": rows,
    }


def _need(job: str, name: str) -> Json:
    return {"job": job, "need": name}


def _job_json(one: ForJob, first: int) -> Json:
    take, look, leave = one.gives.take, one.gives.look, one.gives.leave
    return {
        "job": one.job.job,
        "needs": one.findings,
        "worth": _worth_json(one.worth) if one.worth is not None else None,
        "take": [_pull_json(row, n) for n, row in enumerate(take, first)],
        "look": [_pull_json(row, n) for n, row in enumerate(look, first + len(take))],
        "leave": [_leave_json(row, n) for n, row in enumerate(leave, first + len(take) + len(look))],
    }


def _worth_json(worth: Worth) -> Json:
    from fitlore.sourcing.coins import amount

    def money(coins: int | None) -> str | None:
        return str(amount(coins, worth.home)) if coins is not None else None

    return {
        "at-most": money(worth.at_most),
        "without": money(worth.without),
        "for-nothing": money(worth.for_nothing),
        "minutes": worth.minutes,
        "back": money(worth.back),
        "asked": money(worth.asked),
        "with-it-at-that": money(worth.at_asked),
    }


def _pull_json(pull: Pull, number: int) -> Json:
    return {
        "number": number,
        "part": pull.verdict.part.part,
        "maker": pull.verdict.part.maker,
        "at": pull.standing.at or None,
        "need": pull.wanted.name,
        "pieces": pull.pieces,
        "wanted": pull.wanted.quantity,
        "verdict": pull.verdict.word.value,
        "minutes": pull.verdict.minutes,
        "asks": [ask_json(ask) for ask in pull.asks],
        "also": [row.part.part for row in pull.also],
        "besides": [{"at": c.at, "use": list(c.use), "quantity": c.quantity} for c in pull.besides],
        "because": because_json(pull.because),
    }


def _leave_json(row: Leave, number: int) -> Json:
    return {
        "number": number,
        "part": row.part.part if row.part else None,
        "keep": row.keep or None,
        "at": row.at or None,
        "need": row.wanted.name,
        "verdict": row.verdict.word.value if row.verdict else None,
        "reasons": [{"code": step.code, "says": say(step)} for step in row.reasons],
        "danger": [say(step) for step in row.verdict.danger] if row.verdict else [],
        "because": because_json(row.because),
    }
