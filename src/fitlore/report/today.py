"""What is due today on one car: its days, what comes and goes back, what to order by when, what to ask, what is open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Final

from fitlore.model.choices import Progress
from fitlore.model.job import Job, Purchase
from fitlore.model.platform import Car
from fitlore.report.days import long_day, short_day
from fitlore.report.money import said
from fitlore.report.plans import offer_words
from fitlore.report.text import Line, Tone, columns, listed, tied
from fitlore.report.verdicts import ask_words
from fitlore.sourcing.inhand import OWN
from fitlore.sourcing.planned import Order, Plan

_FINISHED: Final = (Progress.FITTED, Progress.WENT_BACK)


def today_lines(car: Car, job: Job, today: date, plan: Plan | None) -> list[Line]:
    """Everything below the car's name. Without a plan (its days are over) only what the job itself says."""
    lines = [Line(f"{long_day(today)}: {job.name or job.job}", hang=2), *_days(job, today)]
    lines += _headed("due", _dated(_purchases(job, today)))
    if plan is not None:
        lines += _headed("order by", _dated(_orders(plan)))
    asks = [*(_asks(plan) if plan else ()), *_symptoms(job)]
    lines += _headed("ask and measure", [Line(f"  {text}", "ask", hang=4) for text in asks])
    if car.not_looked_at:
        lines.append(Line(f"not looked at: {', '.join(car.not_looked_at)}", "ask", hang=2))
    return [*lines, *_findings(job, plan), *_end(plan)]


def _headed(title: str, lines: list[Line]) -> list[Line]:
    return [Line(title, "head"), *lines] if lines else []


def _days(job: Job, today: date) -> Iterator[Line]:
    """How long there is, or since when not."""
    rows = [("all in hand by", job.in_hand_by), ("inspection", job.inspection)]
    for what, day in rows:
        if day is not None:
            late = day < today
            yield Line(f"{what} {long_day(day)}: {_away((day - today).days)}", "danger" if late else "plain")


def _away(days: int) -> str:
    if days == 0:
        return "today"
    many = f"{abs(days)} day{'' if abs(days) == 1 else 's'}"
    return f"{many} ago" if days < 0 else many


Dated = tuple[date | None, str, Tone]


def _dated(rows: Iterable[Dated]) -> list[Line]:
    """The earliest first; what has no day last."""
    every = sorted(rows, key=lambda row: (row[0] or date.max, row[1]))
    cells = [(f"  {short_day(day) if day else 'any day'}", text) for day, text, _ in every]
    return columns(cells, [tone for _, _, tone in every], "l")


def _purchases(job: Job, today: date) -> Iterator[Dated]:
    for row in job.purchases:
        what = _bought(row)
        if row.now is Progress.ON_ORDER:
            late = row.due is not None and row.due < today
            yield row.due, f"{what} {'should have come' if late else 'comes'}", "danger" if late else "plain"
        if row.now in _FINISHED:
            what_is_left: tuple[tuple[date | None, str], ...] = ((row.old_unit_back_by, "old one back"),)
        else:
            what_is_left = ((row.return_by, "goes back if it is to"), (row.old_unit_back_by, "old one back"))
        for day, text in what_is_left:
            if day is not None:
                late = day < today
                yield (
                    day,
                    f"{what}: {text}{', and that day is over' if late else ''}",
                    "danger" if late else "plain",
                )


def _bought(row: Purchase) -> str:
    what = tied(row.number) if row.number else row.service or row.is_ or ""
    count = f"{row.quantity} x " if row.quantity > 1 else ""
    return f"{count}{what}{f' from {row.from_}' if row.from_ else ''}"


def _orders(plan: Plan) -> Iterator[Dated]:
    for order in plan.orders:
        if order.supplier not in OWN:
            last = None if order.last_day is None else plan.assembled.today + timedelta(days=order.last_day)
            now = last is not None and last <= plan.assembled.today
            yield last, _order(order), "ask" if now else "plain"


def _order(order: Order) -> str:
    what = listed(
        f"{row.packs} x {offer_words(row)}" if row.packs > 1 else offer_words(row) for row in order.lines
    )
    return f"{order.supplier}: {what}"


def _asks(plan: Plan) -> Iterator[str]:
    """What would settle a candidate that a plan may not buy as it is."""
    for row in plan.assembled.refused:
        verdict = row.verdict
        words = [f"measure {listed(verdict.missing)}"] if verdict.missing else []
        words += [ask_words(ask) for ask in verdict.asks if ask.name not in verdict.missing]
        if words:
            yield f"{row.need.id}, {tied(verdict.part.part)}: {'; '.join(words)}"


def _symptoms(job: Job) -> Iterator[str]:
    """Of each symptom the test that costs least."""
    for symptom in job.symptoms:
        tests = [cause for cause in symptom.could_be if cause.test]
        first = min(tests, key=lambda cause: cause.minutes, default=None)
        if first is not None:
            time = f" ({first.minutes} min)" if first.minutes else ""
            yield f"{symptom.symptom}: first {first.test} at {first.at}{time}"


def _findings(job: Job, plan: Plan | None) -> list[Line]:
    count = len(job.findings)
    head = Line(
        f"{count} finding{'' if count == 1 else 's'}" if count else "no finding is written down", "head"
    )
    if plan is None or not plan.lines:
        return [head, *(Line(f"  {row.at}: {row.fault}", hang=4) for row in job.findings)]
    rows = []
    for line in plan.lines:
        finding = line.need.finding
        must = finding.must.value if finding.must else "if it pays"
        does = plan.words(line.choice.option.id) if line.choice else "left"
        does = tied(does) if line.choice and line.choice.verdict else does
        rows.append(Line(f"{line.number:>2}  {line.need.id} ({must}): {finding.fault}; {does}", hang=4))
    return [head, *rows]


def _end(plan: Plan | None) -> list[Line]:
    if plan is None:
        return [Line("no plan: the day by which all was to be in hand is over", "danger")]
    cost = plan.solution.cost
    if plan.solution.status == "infeasible":
        return [Line("not possible as it stands: `fitlore plan` says what clashes", "danger", hang=2)]
    if cost is None:
        return [Line("no plan was found in the time there is for this; ask `fitlore plan`", "ask", hang=2)]
    sure = "proven" if plan.solution.status == "proven" else "not proven"
    return [Line(f"{said(cost, plan.home)} in all ({sure}): `fitlore plan` says what for", hang=2)]
