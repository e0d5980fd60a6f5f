"""`donor`: what a donor gives the open jobs, what to leave on it, what it is worth; without words, which to look for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal

import click

from fitlore.cli.counter import Counter, open_counter, shared_options, split_line
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered
from fitlore.cli.when import read_day, this_day, this_hour
from fitlore.fitting.donors import Gives, Pull, gives
from fitlore.fitting.donors_found import donors_for
from fitlore.fitting.donors_on import Vehicle, vehicle_of
from fitlore.fitting.donors_wanted import Wanted
from fitlore.model.amounts import read_money
from fitlore.model.job import Job
from fitlore.model.placed import OfferFrom
from fitlore.report.donors import (
    ForJob,
    donor_lines,
    donors_lines,
    leave_words,
    serves_because,
    vehicle_words,
)
from fitlore.report.text import show
from fitlore.report.verdicts import WORDS, closing
from fitlore.sourcing.assemble import Assembled, Wishes, assemble
from fitlore.sourcing.audit import AuditError
from fitlore.sourcing.coins import OtherCurrency, coins
from fitlore.sourcing.donor import Worth, price_asked, wanted_of, worth_of
from fitlore.sourcing.door import SolverError
from fitlore.sourcing.needs import JobFault


@click.command("donor", cls=Page)
@click.argument("words", nargs=-1)
@click.option(
    "--at", "at", metavar="AMOUNT", help="The price asked for the whole of it, instead of the books'."
)
@click.option("--for", "job", metavar="JOB", help="One job only; else the picked car's, then every other.")
@click.option("--from", "start", metavar="DAY", help="The day to plan from, instead of the job's or today.")
@shared_options
def command(
    folder: str | None,
    words: tuple[str, ...],
    at: str | None,
    job: str | None,
    start: str | None,
    car_name: str | None,
    as_json: bool,
) -> int:
    """What a donor gives what is open, what to leave on it, and the most it is worth."""
    counter = open_counter(folder, car_name, in_hand=True)
    parts = split_line(words, ("at", "for"))
    price = _price(counter, at or parts.get("at"))
    ready = _ready(counter, job or parts.get("for") or "", start)
    if parts[""]:
        return _one(counter, _vehicle(counter, parts[""]), ready, price, as_json=as_json)
    if price is not None:
        raise CouldNot("a price is asked of one donor; say which: `fitlore donor NAME at 165`")
    return _all(counter, [one for _, wanted in ready for one in wanted], as_json=as_json)


Ready = tuple[Assembled, tuple[Wanted, ...]]


def _ready(counter: Counter, name: str, start: str | None) -> list[Ready]:
    """Each job with what is open in it, the picked car's first."""
    today = read_day(start, this_day()) if start else None
    rows = []
    for job in _jobs(counter, name):
        day = today or job.today or this_day()
        wishes = Wishes(today=day, now=this_hour(day))
        try:
            assembled = assemble(counter.graph, job, wishes)
        except JobFault as fault:
            raise CouldNot(f"job {job.job} cannot be planned ({fault.code})  [{job.origin}]") from fault
        except OtherCurrency as fault:
            raise CouldNot(f"job {job.job} has money of another currency: {fault}  [{job.origin}]") from fault
        rows.append((assembled, wanted_of(counter.graph, assembled)))
    return rows


def _jobs(counter: Counter, name: str) -> Sequence[Job]:
    jobs = counter.graph.jobs()
    low = name.casefold()
    if name:
        hits = [job for job in jobs if low in (job.job.casefold(), job.name.casefold(), job.for_.casefold())]
    else:
        mine = [job for job in jobs if counter.car and job.for_ == counter.car.car]
        hits = [*mine, *(job for job in jobs if job not in mine)]
    if not hits:
        names = ", ".join(job.job for job in jobs) or "none"
        raise CouldNot(
            f"no job {name!r}; there are: {names}" if name else "no job is open, so nothing is wanted"
        )
    return hits


def _price(counter: Counter, text: str | None) -> int | None:
    if text is None:
        return None
    home = counter.graph.shop.currency
    money = read_money(text) or read_money(f"{text} {home}")
    if money is None or money.amount < Decimal(0):
        raise CouldNot(f"{text!r} is no amount; write `165` or `165.00 {home}`")
    try:
        return coins(money, home)
    except OtherCurrency:
        raise CouldNot(f"{text!r}: the price is asked in whole coins of {home}") from None


def _vehicle(counter: Counter, words: str) -> Vehicle:
    """The one described donor, whole car on offer or platform that the words mean; raises CouldNot with the readings.

    A described one comes before the platform it is of, unless the platform is named as the books name it.
    """
    graph, low = counter.graph, words.casefold()
    donors, platforms = graph.donors(), graph.platforms()
    whole = [line for s in graph.suppliers() for line in graph.offers_by(s.supplier) if line.offer.whole_car]
    for exact in (True, False):
        match = _exactly(low) if exact else _partly(low)
        found = [vehicle_of(graph, donor) for donor in donors if match(donor.donor, donor.name)]
        known = {line.id for vehicle in found for line in vehicle.sale}
        if exact or not found:
            found += [
                _sold(counter, line)
                for line in whole
                if match(line.offer.whole_car or "") and line.id not in known
            ]
        if exact or not found:
            found += [Vehicle(one.platform) for one in platforms if match(one.platform, one.name)]
        found = list({vehicle.key: vehicle for vehicle in found}.values())
        if len(found) == 1:
            return found[0]
        if found:
            names = _names(counter)
            several = "; ".join(vehicle_words(vehicle, names) for vehicle in found[:8])
            raise CouldNot(f"{words!r} may be {several}; say which")
    every = [*(donor.donor for donor in donors), *(one.platform for one in platforms)]
    raise CouldNot(f"no donor {words!r} in the books; there are {', '.join(every[:12]) or 'none'}")


def _sold(counter: Counter, line: OfferFrom) -> Vehicle:
    donor = counter.graph.donor(line.offer.comes_off) if line.offer.comes_off else None
    return vehicle_of(counter.graph, donor) if donor else Vehicle("", None, (line,))


def _exactly(low: str) -> Callable[..., bool]:
    return lambda *names: low in [name.casefold() for name in names]


def _partly(low: str) -> Callable[..., bool]:
    """Every word typed is one of the name's."""
    typed = set(low.replace("-", " ").split())
    return lambda *names: typed <= set(" ".join(names).casefold().replace("-", " ").split())


def _names(counter: Counter) -> dict[str, str]:
    return {one.platform: one.name for one in counter.graph.platforms()}


def _one(
    counter: Counter, vehicle: Vehicle, ready: Sequence[Ready], price: int | None, *, as_json: bool
) -> int:
    graph = counter.graph
    whole = gives(graph, vehicle, [one for _, wanted in ready for one in wanted])
    rows: list[ForJob] = []
    for assembled, wanted in ready:
        mine = _part_of(whole, assembled.job)
        picked = counter.car is None or assembled.car.car == counter.car.car
        if picked or mine.take or mine.look:
            worth = _worth(counter, assembled, gives(graph, vehicle, wanted), price)
            rows.append(ForJob(assembled.job, mine, len(wanted), worth))
    counter.remember("donor", counter.car, _numbered(rows))
    if as_json:
        from fitlore.report.machine import dump
        from fitlore.report.machine_donors import donor_json

        click.echo(dump({"car": _car(counter), "vehicles": [donor_json(vehicle, rows)], "more": 0}), nl=False)
    else:
        show([
            counter.head(),
            *donor_lines(vehicle, rows, _names(counter)),
            *closing(graph.policy.deferral, [p.wanted.answer for one in rows for p in one.gives.take]),
        ])  # fmt: skip
    return 0 if any(one.gives.take for one in rows) else 1


def _part_of(whole: Gives, job: Job) -> Gives:
    """What of it is for one job."""

    def pulls(rows: Iterable[Pull]) -> tuple[Pull, ...]:
        return tuple(row for row in rows if row.wanted.job == job.job)

    leave = tuple(row for row in whole.leave if row.wanted.job == job.job)
    return Gives(whole.vehicle, pulls(whole.take), pulls(whole.look), leave, pulls(whole.sure))


def _worth(counter: Counter, assembled: Assembled, given: Gives, price: int | None) -> Worth:
    try:
        asked = price if price is not None else price_asked(given.vehicle, assembled.home)
        return worth_of(counter.graph, assembled, given, asked)
    except OtherCurrency as fault:
        raise CouldNot(f"what it costs is in another currency: {fault}") from fault
    except (AuditError, SolverError) as fault:
        raise CouldNot(f"the plan did not add up when it was counted again: {fault}") from fault


def _all(counter: Counter, wanted: Sequence[Wanted], *, as_json: bool) -> int:
    found = donors_for(counter.graph, wanted)
    names = _names(counter)
    rows = [
        Numbered(n, vehicle_words(one.vehicle, names), serves_because(one, len(wanted)))
        for n, one in enumerate(found.found, 1)
    ]
    counter.remember("donor", counter.car, rows)
    if as_json:
        from fitlore.report.machine import dump
        from fitlore.report.machine_donors import gives_json

        vehicles = [gives_json(one, n) for n, one in enumerate(found.found, 1)]
        click.echo(dump({"car": _car(counter), "vehicles": vehicles, "more": found.more}), nl=False)
    else:
        lines = donors_lines(found, wanted, names)
        show([counter.head(), *lines, *closing(counter.graph.policy.deferral)])
    return 0 if found.found else 1


def _car(counter: Counter) -> str | None:
    return counter.car.car if counter.car else None


def _numbered(rows: Iterable[ForJob]) -> list[Numbered]:
    found: list[Numbered] = []
    for one in rows:
        for pull in (*one.gives.take, *one.gives.look):
            title = f"{WORDS[pull.verdict.word]}: {pull.verdict.part.part} for {pull.wanted.name}"
            found.append(Numbered(len(found) + 1, title, pull.because))
        for row in one.gives.leave:
            name = row.part.part if row.part else "your own"
            found.append(Numbered(len(found) + 1, f"{name}: {leave_words(row)}", row.because))
    return found
