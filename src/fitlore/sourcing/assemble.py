"""A job of the books as a problem of plain data, remembering which line each piece came from."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.model.amounts import Money
from fitlore.model.job import Job
from fitlore.model.platform import Car
from fitlore.sourcing import problem as p
from fitlore.sourcing.coins import coins
from fitlore.sourcing.needs import JobFault, NeedAt, car_of, needs_of
from fitlore.sourcing.offers import Market, market_for
from fitlore.sourcing.options import Choice, Refused, accepted_of, choices_of, refused_state, shared_works

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Wishes(msgspec.Struct, frozen=True):
    """What the asker wants otherwise than the job says; None: as the job says."""

    today: date | None = None
    by: date | None = None
    cash: Money | None = None
    minutes: int | None = None
    suppliers: int | None = None
    without: tuple[str, ...] = ()
    """Suppliers not to buy from."""


class Barred(NamedTuple):
    """An offer that may not serve a need, and why (a code)."""

    need: str
    offer: str
    code: str


class Assembled(NamedTuple):
    """The problem and everything needed to say in words what its answer means."""

    job: Job
    car: Car
    home: str
    today: date
    needs: tuple[NeedAt, ...]
    choices: dict[str, Choice]
    refused: tuple[Refused, ...]
    market: Market
    barred: tuple[Barred, ...]
    problem: p.Problem


def assemble(graph: Graph, job: Job, wishes: Wishes) -> Assembled:
    """Needs from the findings, options from verdicts and routes, offers and terms from the suppliers, limits from the job.

    Raises JobFault where the job names a car or a place no book has, or has no day to plan from.
    """
    car, home = car_of(graph, job), graph.shop.currency
    today = wishes.today or job.today
    if today is None:
        raise JobFault("no-day-to-plan-from", job=job.job)
    accepted = accepted_of(job)
    needs = needs_of(graph, job, car)
    choices: dict[str, Choice] = {}
    refused: list[Refused] = []
    for need in needs:
        rows, left = choices_of(graph, need, home, accepted)
        choices |= {row.option.id: row for row in rows}
        refused += left
    shared = shared_works(graph, choices.values())
    wanted = {i for c in choices.values() for w in c.option.wants for i in w.items}
    wanted |= {i for work in shared for want in work.wants for i in want.items}
    market = market_for(graph, wanted, today, home)
    barred = _barred(graph, choices.values(), market, job)
    problem = p.Problem(
        needs=tuple(p.Need(need.id, need.must, need.finding.fault) for need in needs),
        options=tuple(choice.option for choice in choices.values()),
        offers=_with_failures(market, choices.values(), home),
        suppliers=market.suppliers,
        shared=shared,
        trips=market.trips,
        companions=_twins(needs, choices.values()),
        limits=_limits(job, wishes, barred, market, today, home),
        hour_worth=coins((job.hands.worth if job.hands else None) or graph.shop.hour_worth, home),
    )
    return Assembled(job, car, home, today, needs, choices, tuple(refused), market, barred, problem)


def _limits(
    job: Job, wishes: Wishes, barred: Iterable[Barred], market: Market, today: date, home: str
) -> p.Limits:
    purse = wishes.cash or (job.purse.cash if job.purse else None)
    reserve = job.purse.reserve if job.purse else None
    by = wishes.by or job.in_hand_by
    known = {supplier.id for supplier in market.suppliers}
    return p.Limits(
        minutes=wishes.minutes if wishes.minutes is not None else (job.hands.minutes if job.hands else None),
        cash=coins(purse, home) - coins(reserve, home) if purse else None,
        days=(by - today).days if by else None,
        suppliers=wishes.suppliers,
        without_suppliers=tuple(name for name in sorted(set(wishes.without)) if name in known),
        banned=tuple(p.Banned(row.need, row.offer) for row in barred),
    )


def _barred(graph: Graph, choices: Iterable[Choice], market: Market, job: Job) -> tuple[Barred, ...]:
    """Offers in a state that policy, category or job does not take for a need."""
    rows: dict[tuple[str, str], Barred] = {}
    accepted = accepted_of(job)
    for choice in choices:
        if choice.verdict is None:
            continue
        own = {i for want in choice.option.wants for i in want.items}
        for offer in market.offers:
            for wanted in sorted(own & {bring.item for bring in offer.brings}):
                code = refused_state(graph, choice, wanted, market.lines[offer.id].offer, accepted)
                if code:
                    rows[choice.need.id, offer.id] = Barred(choice.need.id, offer.id, code)
    return tuple(rows[key] for key in sorted(rows))


def _with_failures(market: Market, choices: Iterable[Choice], home: str) -> tuple[p.Offer, ...]:
    """What a used part that turns out bad costs further is said by the finding; where several want it, the dearest counts."""
    costs: dict[str, p.Otherwise] = {}
    for choice in choices:
        wrong = choice.need.finding.if_wrong
        if wrong is None or choice.verdict is None:
            continue
        otherwise = p.Otherwise(coins(wrong.money, home), wrong.minutes)
        key = choice.verdict.key
        costs[key] = max(otherwise, costs.get(key, otherwise), key=lambda o: (o.money, o.minutes))
    rows = []
    for offer in market.offers:
        found = [costs[bring.item] for bring in offer.brings if bring.item in costs]
        if found and offer.works < p.CERTAIN:
            worst = max(found, key=lambda o: (o.money, o.minutes))
            offer = msgspec.structs.replace(offer, otherwise=worst)
        rows.append(offer)
    return tuple(rows)


def _twins(needs: Iterable[NeedAt], choices: Iterable[Choice]) -> tuple[p.Companion, ...]:
    """Both sides of an axle are renewed together or not at all."""
    options: dict[str, list[str]] = {}
    for choice in choices:
        options.setdefault(choice.need.id, []).append(choice.option.id)
    return tuple(
        p.Companion(option, tuple(options.get(need.twin, ())))
        for need in needs
        if need.twin and need.finding.must is None
        for option in options.get(need.id, ())
    )
