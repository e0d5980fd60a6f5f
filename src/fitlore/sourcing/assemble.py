"""A job of the books as a problem of plain data, remembering which line each piece came from."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, time
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.model.amounts import Money
from fitlore.model.choices import State
from fitlore.model.job import Job
from fitlore.model.platform import Car
from fitlore.sourcing import problem as p
from fitlore.sourcing.besides import Piece, Unpriced, materials_of, pieces_of, with_pieces
from fitlore.sourcing.coins import coins
from fitlore.sourcing.inhand import still_open
from fitlore.sourcing.landed import Reckoning
from fitlore.sourcing.mending import Mendable, by_itself
from fitlore.sourcing.needs import JobFault, NeedAt, car_of, needs_of
from fitlore.sourcing.offers import Market, market_for
from fitlore.sourcing.options import Choice, Refused, accepted_of, choices_of, refused_state, shared_works
from fitlore.sourcing.sides import both_sides
from fitlore.sourcing.stages import Staged, with_stages
from fitlore.sourcing.together import never_together
from fitlore.sourcing.wrong import with_failures

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Wishes(msgspec.Struct, frozen=True):
    """What the asker wants otherwise than the job says; None: as the job says."""

    today: date | None = None
    now: time | None = None
    """The hour it is on that day: later than a supplier's cut-off an order goes out a day later. None: the morning."""
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
    done: tuple[NeedAt, ...] = ()
    """Needs that are met already: what they take is fitted."""
    too_late: tuple[Choice, ...] = ()
    """Routes that are left out, for what would follow if they failed cannot be had in time, or not at all."""
    unpriced: Unpriced = Unpriced()
    """What is renewed with a part at a price nobody knows."""
    mendable: tuple[Mendable, ...] = ()
    """What could be made good again, and is not planned for nobody knows its chance or the price of what it takes."""


def assemble(graph: Graph, job: Job, wishes: Wishes) -> Assembled:
    """Needs from the findings, options from verdicts and routes, offers and terms from the suppliers, limits from the job.

    Raises JobFault where the job names a car or a place no book has, or has no day to plan from; OtherCurrency where it has
    money of another currency than the shop's.
    """
    car, home = car_of(graph, job), graph.shop.currency
    today = wishes.today or job.today
    if today is None:
        raise JobFault("no-day-to-plan-from", job=job.job)
    for money in (job.bought, job.expected_sale, job.selling_costs, job.profit_wanted):
        coins(money, home)
    needs, done = still_open(needs_of(graph, job, car), job)
    choices, refused = _options(graph, needs, job, home)
    shared = shared_works(graph, choices.values())
    pieces = pieces_of(graph, car, needs) | materials_of(graph, car, choices.values(), needs)
    renewed = [piece for rows in pieces.values() for piece in rows]
    wanted = {i for c in choices.values() for w in c.option.wants for i in w.items}
    wanted |= {i for work in shared for want in work.wants for i in want.items}
    wanted |= {i for piece in renewed for i in piece.items}
    market = market_for(graph, wanted, today, home, job, fill=True, now=wishes.now)
    by = wishes.by or job.in_hand_by
    last = (by - today).days if by else None
    choices, unpriced = with_pieces(graph, choices, pieces, market, last, wishes.without)
    choices, mendable = _mendable(graph, needs, choices, unpriced)
    barred = _barred(graph, choices.values(), market, job, renewed)
    problem = p.Problem(
        needs=tuple(p.Need(need.id, need.must, need.finding.fault) for need in needs),
        options=tuple(choice.option for choice in choices.values()),
        offers=with_failures(graph, market, choices.values(), Reckoning(graph, today)),
        suppliers=market.suppliers,
        shared=shared,
        trips=market.trips,
        pools=market.pools,
        limits=_limits(job, wishes, barred, market, today, home),
        hour_worth=coins((job.hands.worth if job.hands else None) or graph.shop.hour_worth, home),
    )
    staged = with_stages(graph, problem, choices, market, today, wishes.now)
    problem = _tied(graph, staged, needs)
    return Assembled(
        job, car, home, today, needs, staged.choices, refused, market, barred, problem, done,
        staged.too_late, unpriced, mendable,
    )  # fmt: skip


def _options(
    graph: Graph, needs: Iterable[NeedAt], job: Job, home: str
) -> tuple[dict[str, Choice], tuple[Refused, ...]]:
    """The options of all needs by their ids, and what no plan may buy."""
    choices: dict[str, Choice] = {}
    refused: list[Refused] = []
    for need in needs:
        rows, left = choices_of(graph, need, home, accepted_of(job))
        choices |= {row.option.id: row for row in rows}
        refused += left
    return choices, tuple(refused)


def _tied(graph: Graph, staged: Staged, needs: Iterable[NeedAt]) -> p.Problem:
    """The problem with what its options may and must be taken together with."""
    options = staged.choices.values()
    sides = both_sides(graph, needs, options)
    return msgspec.structs.replace(
        staged.problem,
        companions=sides.companions,
        never=(*never_together(graph, options), *sides.never),
        pairs=sides.pairs,
    )


def _mendable(
    graph: Graph, needs: Iterable[NeedAt], choices: dict[str, Choice], unpriced: Unpriced
) -> tuple[dict[str, Choice], tuple[Mendable, ...]]:
    """The options without those that the category alone names and whose materials nobody prices; and what is not planned."""
    found = [Mendable(need, way) for need in needs for way in by_itself(graph, need) if way.succeeds is None]
    rows: dict[str, Choice] = {}
    for name, choice in choices.items():
        lacks = tuple(piece.name for piece in unpriced.of_option.get(name, ())) if choice.by_itself else ()
        if choice.mends is not None and lacks:
            found.append(Mendable(choice.need, choice.mends, lacks))
        else:
            rows[name] = choice
    return rows, tuple(found)


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


def _barred(
    graph: Graph, choices: Iterable[Choice], market: Market, job: Job, pieces: Iterable[Piece]
) -> tuple[Barred, ...]:
    """Offers in a state that policy, category or job does not take for a need; what is renewed with a part is new."""
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
    for piece in pieces:
        for offer in market.offers:
            worn = market.lines[offer.id].offer.state is not State.NEW
            if worn and offer.brings and {bring.item for bring in offer.brings} <= set(piece.items):
                rows[piece.need, offer.id] = Barred(piece.need, offer.id, "used-not-taken")
    return tuple(rows[key] for key in sorted(rows))
