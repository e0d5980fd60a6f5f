"""`plan`: the provably cheapest way to everything a job needs, or what stands in the way."""

from __future__ import annotations

from datetime import date

import click

from fitlore.cli.counter import Counter, open_counter, shared_options, split_line
from fitlore.cli.failure import CouldNot
from fitlore.cli.looking_on import looking_on
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered
from fitlore.cli.when import read_day, this_day
from fitlore.model.amounts import Money, MoneyFault, money_fault, read_money
from fitlore.model.because import Because
from fitlore.model.job import Job
from fitlore.report.money import said
from fitlore.report.plans import option_words, plan_lines
from fitlore.report.text import show
from fitlore.report.verdicts import car_line, closing
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.audit import AuditError
from fitlore.sourcing.coins import OtherCurrency, coins
from fitlore.sourcing.door import Effort, SolverError
from fitlore.sourcing.needs import JobFault
from fitlore.sourcing.plan import Plan, PlanLine, plan

_FAULTS = {
    "no-such-car": "job {job} is for car {car}, which no book has",
    "no-such-place": "job {job} has a finding at {place}, which platform {platform} does not have",
    "no-day-to-plan-from": "job {job} does not say which day it is planned from; write `today:` or give --from DAY",
}

MOST_HOURS = 10000


@click.command("plan", cls=Page)
@click.argument("words", nargs=-1)
@click.option("--by", "by", metavar="DAY", help="Everything in hand by that day, instead of the job's.")
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
@shared_options
def command(
    folder: str | None,
    words: tuple[str, ...],
    by: str | None,
    start: str | None,
    cash: str | None,
    hours: float | None,
    suppliers: int | None,
    without: tuple[str, ...],
    seconds: float | None,
    car_name: str | None,
    as_json: bool,
) -> int:
    """The cheapest way to everything the job needs, with its proof."""
    counter = open_counter(folder, car_name)
    parts = split_line(words, ("by", "from", "till"))
    job = _job(counter, parts[""])
    today = _day(start or parts.get("from"), this_day()) or job.today or this_day()
    wishes = Wishes(
        today=today,
        by=_by(by or parts.get("by") or parts.get("till"), job, today),
        cash=_money(cash, job, counter.graph.shop.currency),
        minutes=_minutes(hours),
        suppliers=suppliers,
        without=tuple(_supplier(counter, name) for name in without),
    )
    made = _made(counter, job, wishes, seconds)
    counter.remember("plan", made.assembled.car, [_numbered(made, line) for line in made.lines])
    if as_json:
        from fitlore.report.machine import dump, plan_json

        click.echo(dump(plan_json(made)), nl=False)
    else:
        show([car_line(made.assembled.car), *plan_lines(made), *closing(counter.graph.policy.deferral)])
    return {"proven": 0, "infeasible": 1}.get(made.solution.status, 2)


def _made(counter: Counter, job: Job, wishes: Wishes, seconds: float | None) -> Plan:
    try:
        with looking_on(counter.graph.shop.currency) as watch:
            return plan(counter.graph, job, wishes, effort=Effort(seconds=seconds), watch=watch)
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


def _job(counter: Counter, name: str) -> Job:
    jobs = counter.graph.jobs()
    if name:
        hits = [job for job in jobs if name.casefold() in (job.job.casefold(), job.name.casefold())]
        hits = hits or [job for job in jobs if job.for_.casefold() == name.casefold()]
    else:
        hits = list(counter.graph.jobs_of(counter.car.car)) if counter.car else list(jobs)
    if len(hits) == 1:
        return hits[0]
    names = ", ".join(job.job for job in (hits or jobs)) or "none"
    raise CouldNot(
        f"which job? there are: {names}" if hits or not name else f"no job {name!r}; there are: {names}"
    )


def _day(text: str | None, today: date) -> date | None:
    if text is None:
        return None
    return read_day(text, today)


def _by(text: str | None, job: Job, today: date) -> date | None:
    day = _day(text, today)
    last = day or job.in_hand_by
    if last is not None and last < today:
        raise CouldNot(
            f"all in hand by {last:%A %-d %B %Y} is before {today:%A %-d %B %Y}, the day this is planned from"
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


def _numbered(made: Plan, line: PlanLine) -> Numbered:
    under = [line.choice.verdict.because] if line.choice and line.choice.verdict else []
    bought = [
        Because(
            "bought",
            {
                "offer": o.offer.id,
                "packs": str(o.packs),
                "price": said(o.offer.price, made.home),
                "from": o.offer.supplier,
            },
            (o.line.origin,),
        )
        for o in line.offers
    ]
    runner = line.next_best
    if runner is not None:
        dearer = said(runner.dearer, made.home) if runner.dearer is not None else ""
        code = "next-best" if dearer else "no-other"
        other = option_words(made, runner.option) if runner.option else "leave it"
        bought.append(Because(code, {"option": other, "dearer": dearer}))
    option = option_words(made, line.choice.option.id) if line.choice else ""
    values = {"need": line.need.id, "fault": line.need.finding.fault, "option": option}
    code = "plan-line" if line.choice else "plan-line-left"
    because = Because(code, values, (line.need.finding.origin,), under=(*bought, *under))
    return Numbered(line.number, f"{line.need.id}: {option or 'left'}", because)
