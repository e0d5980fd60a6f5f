"""`plan`: the provably cheapest way to everything a job needs, or what stands in the way."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import TypeVar

import click

from fitlore.cli.counter import Counter, car_named, open_counter, shared_options, split_line
from fitlore.cli.failure import CouldNot
from fitlore.cli.looking_on import looking_on
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered
from fitlore.cli.when import read_day, this_day, this_hour
from fitlore.model.amounts import Money, MoneyFault, money_fault, read_money
from fitlore.model.job import Job
from fitlore.report.days import long_day
from fitlore.report.plans import plan_lines
from fitlore.report.plans_impossible import clash_words
from fitlore.report.sentences import say
from fitlore.report.text import show
from fitlore.report.verdicts import closing
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.audit import AuditError
from fitlore.sourcing.coins import OtherCurrency, coins
from fitlore.sourcing.door import Effort, SolverError
from fitlore.sourcing.frontier import Frontier, frontier
from fitlore.sourcing.needs import JobFault
from fitlore.sourcing.plan import Explain, Plan, plan
from fitlore.sourcing.proof import clash_proofs, line_proof, point_proof
from fitlore.sourcing.watch import Watch

_FAULTS = {
    "no-such-car": "job {job} is for car {car}, which no book has",
    "no-such-place": "job {job} has a finding at {place}, which platform {platform} does not have",
    "no-day-to-plan-from": "job {job} does not say which day it is planned from; write `today:` or give --from DAY",
}

T = TypeVar("T")
MOST_HOURS = 10000


@click.command("plan", cls=Page)
@click.argument("words", nargs=-1)
@click.option("--for", "for_job", metavar="JOB", help="The job, or its car; else the picked car's.")
@click.option("--by", "--till", "by", metavar="DAY", help="In hand by that day, instead of the job's.")
@click.option("--from", "start", metavar="DAY", help="The day to plan from, instead of the job's or today.")
@click.option("--cash", metavar="AMOUNT", help="What is in the tin, reserve included, instead of the job's.")
@click.option("--hours", type=click.FloatRange(0), help="Hours of hands, instead of the job's.")
@click.option("--suppliers", type=click.IntRange(1), help="Order from so many suppliers at most.")
@click.option("--without", multiple=True, metavar="SUPPLIER", help="Do not buy there (may be given again).")
@click.option(
    "--seconds",
    type=click.FloatRange(0, min_open=True),
    help="Stop after so long, with the best plan so far.",
)
@click.option("--prices", is_flag=True, help="At which price each line changes, both ways.")
@click.option("--exact", is_flag=True, help="Every second best to the penny, in a long job too.")
@click.option("--trade-offs", "trade_offs", is_flag=True, help="Money against days and certainty.")
@shared_options
def command(
    folder: str | None,
    words: tuple[str, ...],
    for_job: str | None,
    by: str | None,
    start: str | None,
    cash: str | None,
    hours: float | None,
    suppliers: int | None,
    without: tuple[str, ...],
    seconds: float | None,
    prices: bool,
    exact: bool,
    trade_offs: bool,
    car_name: str | None,
    as_json: bool,
) -> int:
    """The cheapest way to everything the job needs, with its proof."""
    counter = open_counter(folder, car_name, in_hand=True)
    parts = split_line(words, ("by", "from", "till", "for", "not"))
    counter, job = job_named(counter, for_job or parts[""] or parts.get("for", ""))
    today = _day(start or parts.get("from"), this_day()) or job.today or this_day()
    wishes = Wishes(
        today=today,
        now=this_hour(today),
        by=_by(by or parts.get("by") or parts.get("till"), job, today),
        cash=_money(cash, job, counter.graph.shop.currency),
        minutes=_minutes(hours),
        suppliers=suppliers,
        without=tuple(_supplier(counter, name) for name in (*without, *_listed(parts.get("not", "")))),
    )
    if trade_offs:
        return _trade_offs(counter, job, wishes, as_json=as_json)
    how, effort = Explain(exact=True if exact else None, prices=prices), Effort(seconds=seconds)
    made = counted(
        counter,
        job,
        lambda watch: plan(counter.graph, job, wishes, explain=how, effort=effort, watch=watch),
    )
    return _shown(counter, made, as_json=as_json)


def _shown(counter: Counter, made: Plan, *, as_json: bool) -> int:
    counter.remember("plan", made.assembled.car, _numbered(made))
    if as_json:
        from fitlore.report.machine import dump
        from fitlore.report.machine_plans import plan_json

        click.echo(dump(plan_json(made)), nl=False)
    else:
        show([counter.head(), *plan_lines(made), *closing(counter.graph.policy.deferral)])
    return {"proven": 0, "infeasible": 1}.get(made.solution.status, 2)


def counted(counter: Counter, job: Job, make: Callable[[Watch], T]) -> T:
    """What `make` makes, watched on a terminal; what is wrong with the job or with the sums in words."""
    try:
        with looking_on(counter.graph.shop.currency) as watch:
            return make(watch)
    except JobFault as fault:
        raise CouldNot(_FAULTS[fault.code].format_map(fault.values) + f"  [{job.origin}]") from fault
    except OtherCurrency as fault:
        home = counter.graph.shop.currency
        raise CouldNot(
            f"the job has money that is not in whole coins of {home}: {fault}  [{job.origin}]"
        ) from fault
    except (AuditError, SolverError) as fault:
        raise CouldNot(
            f"the plan did not add up when it was counted again, so it is not shown: {fault}"
        ) from fault


def job_named(counter: Counter, name: str) -> tuple[Counter, Job]:
    """The job, and the counter with its car."""
    jobs = counter.graph.jobs()
    if name:
        hits = [job for job in jobs if name.casefold() in (job.job.casefold(), job.name.casefold())]
        hits = hits or [job for job in jobs if job.for_.casefold() == name.casefold()]
        hits = hits or _of_the_car(counter, name)
    else:
        hits = list(counter.graph.jobs_of(counter.car.car)) if counter.car else list(jobs)
    if len(hits) == 1:
        car = counter.graph.car(hits[0].for_)
        return counter._replace(car=car, taken="" if name else counter.taken), hits[0]
    names = ", ".join(job.job for job in (hits or jobs)) or "none"
    raise CouldNot(
        f"which job? there are: {names}" if hits or not name else f"no job {name!r}; there are: {names}"
    )


def _of_the_car(counter: Counter, words: str) -> list[Job]:
    """The jobs of the one car that the words mean; none where they mean none."""
    try:
        return list(counter.graph.jobs_of(car_named(counter.graph, words.removeprefix("the ")).car))
    except CouldNot:
        return []


def _day(text: str | None, today: date) -> date | None:
    if text is None:
        return None
    return read_day(text, today)


def _by(text: str | None, job: Job, today: date) -> date | None:
    day = _day(text, today)
    last = day or job.in_hand_by
    if last is not None and last < today:
        raise CouldNot(
            f"all in hand by {long_day(last)} is before {long_day(today)}, the day this is planned from"
        )
    return day


def _money(text: str | None, job: Job, home: str) -> Money | None:
    """What is in the tin; it must at least hold what the job keeps back."""
    money = _amount(text, home)
    purse = money or (job.purse.cash if job.purse else None)
    reserve = job.purse.reserve if job.purse else None
    if purse is not None and reserve is not None and purse.amount < reserve.amount:
        raise CouldNot(f"{purse} in the tin is less than the {reserve} to be kept back  [{job.origin}]")
    return money


def _amount(text: str | None, home: str) -> Money | None:
    if text is None:
        return None
    money = read_money(text) or read_money(f"{text} {home}")
    if money is None and MoneyFault.TOO_MANY_DECIMALS in (money_fault(text), money_fault(f"{text} {home}")):
        raise CouldNot(f"{text!r}: the tin is counted in whole coins of {home}")
    if money is None or money.amount < 0:
        raise CouldNot(f"{text!r} is no amount; write `520` or `520.00 {home}`")
    try:
        coins(money, home)
    except OtherCurrency:
        raise CouldNot(f"{text!r}: the tin is counted in whole coins of {home}") from None
    return money


def _minutes(hours: float | None) -> int | None:
    if hours is None:
        return None
    if not hours <= MOST_HOURS:
        raise CouldNot(f"{hours:g} hours of hands is no figure; write `17` or `17.5`")
    return round(hours * 60)


def _listed(text: str) -> list[str]:
    """`northgate and castle street` as its names."""
    return [name.strip() for name in re.split(r",|\band\b", text) if name.strip()]


def _supplier(counter: Counter, name: str) -> str:
    from difflib import get_close_matches

    names = {s.supplier: s.name for s in counter.graph.suppliers()}
    low = name.casefold()
    hits = [key for key, full in names.items() if low in (key.casefold(), full.casefold())]
    hits = hits or [key for key, full in names.items() if low in f"{key} {full}".casefold()]
    if len(hits) == 1:
        return hits[0]
    near = get_close_matches(low, list(names), 3, 0.4) or sorted(names)
    raise CouldNot(f"which supplier is {name!r}? {', '.join(hits or near)}")


def _numbered(made: Plan) -> list[Numbered]:
    """The lines of a plan; of one that is not possible, what clashes."""
    if made.clash is not None:
        proofs = clash_proofs(made)
        return [Numbered(at, clash_words(proof), proof) for at, proof in enumerate(proofs, 1)]
    return [
        Numbered(
            line.number,
            f"{line.need.id}: {made.words(line.choice.option.id) if line.choice else 'left'}",
            line_proof(made, line),
        )
        for line in made.lines
    ]


def _trade_offs(counter: Counter, job: Job, wishes: Wishes, *, as_json: bool) -> int:
    """Money against days and certainty."""
    from fitlore.report.trade_offs import trade_off_lines

    def search(watch: Watch) -> tuple[Plan, Frontier]:
        made = plan(counter.graph, job, wishes, explain=False, watch=watch)
        return made, frontier(made.assembled.problem, watch)

    made, found = counted(counter, job, search)
    if not found.points:
        made = counted(counter, job, lambda watch: plan(counter.graph, job, wishes, watch=watch))
        return _shown(counter, made, as_json=as_json)
    proofs = [point_proof(made, found.points, at) for at in range(len(found.points))]
    rows = [Numbered(at, say(proof), proof) for at, proof in enumerate(proofs, 1)]
    counter.remember("plan --trade-offs", made.assembled.car, rows)
    if as_json:
        from fitlore.report.machine import dump
        from fitlore.report.machine_plans import frontier_json

        click.echo(dump(frontier_json(made, found)), nl=False)
    else:
        deferral = closing(counter.graph.policy.deferral)
        show([counter.head(), *trade_off_lines(made, found), *deferral])
    return 0 if found.whole else 2
