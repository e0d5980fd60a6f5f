"""Routes in two stages: strip and look, then branch. What follows a failure is planned before, by itself and to the end.

A route of a finding that says `else: {route: ...}` may fail (`succeeds`). Then the finding is met by that other route, bought
after the look: so what it costs is the cheapest plan for this one need by that route alone, with carriage, journey and hands,
and nothing of it shared with the other orders (they are gone out by then). Of what there is only so much of, it has what is
left when every other need, and the first stage, has taken what it could. It counts with the chance that the first stage fails;
the worst case has it in full. What a category says can be made good again (`mending`) is followed by the cheapest other way.

The look is had when everything that the first stage wants is there (on the day of planning, if it wants nothing). The bad
branch has to arrive in time too: what the first stage wants must come so many days sooner as the branch takes, the days on
which a seller takes no order included. A dearer branch
that comes sooner leaves more time, so each branch that is cheaper than every sooner one is an option of its own. A route whose
bad branch cannot be in hand in time is left out, and said.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from datetime import date, time
from typing import TYPE_CHECKING, NamedTuple, TypedDict

import msgspec

from fitlore.model.choices import RouteKind
from fitlore.sourcing import problem as p
from fitlore.sourcing.audit import confirm
from fitlore.sourcing.offers import Market
from fitlore.sourcing.opening import last_order
from fitlore.sourcing.options import ROUTE_OF_STATE, Choice, Then
from fitlore.sourcing.solve import solve

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Staged(NamedTuple):
    """The problem with its two-stage routes worked out, and the routes that cannot be."""

    problem: p.Problem
    choices: dict[str, Choice]
    too_late: tuple[Choice, ...] = ()


def with_stages(
    graph: Graph,
    problem: p.Problem,
    choices: Mapping[str, Choice],
    market: Market,
    today: date,
    now: time | None = None,
) -> Staged:
    """Each two-stage route as one option for each branch worth choosing between; `now`: the hour it is today."""
    later = _ordered_later(graph, problem, market, today, now)
    rows: dict[str, Choice] = {}
    late: list[Choice] = []
    for name, choice in choices.items():
        kind = choice.route.else_.route if choice.route and choice.route.else_ else None
        whichever = choice.mends is not None and not (choice.route and choice.route.else_)
        if (kind is None and not whichever) or choice.option.succeeds == p.CERTAIN:
            rows[name] = choice
            continue
        found = list(_branched(later, choice, kind, choices, market))
        rows |= {row.option.id: row for row in found}
        last = problem.limits.days
        if all(row.then and last is not None and row.then.days > last for row in found):
            late.append(choice)
    if rows == dict(choices):
        return Staged(problem, rows)
    options = tuple(choice.option for choice in rows.values())
    return Staged(msgspec.structs.replace(problem, options=options), rows, tuple(late))


def _branched(
    problem: p.Problem, choice: Choice, kind: RouteKind | None, choices: Mapping[str, Choice], market: Market
) -> Iterator[Choice]:
    """The route with each branch that is cheaper than every sooner one, the cheapest first."""
    alone = _second_stage(problem, choice, kind, choices, market)
    option, days = choice.option, None
    while days is None or days >= 0:
        solution = solve(
            msgspec.structs.replace(alone, limits=msgspec.structs.replace(alone.limits, days=days))
        )
        if solution.cost is None:
            return
        confirm(alone, solution)
        totals, more = solution.totals, option.otherwise
        then = Then(
            solution.chosen[0].option,
            tuple(row.offer for row in solution.bought),
            max(0, totals.money_end) + more.money,
            -(-totals.hands // p.MINUTE) + more.minutes,
            totals.last_day,
        )
        yield choice._replace(
            option=msgspec.structs.replace(
                option,
                id=f"{option.id}, else within {then.days} days",
                otherwise=p.Otherwise(then.money, then.minutes),
                ahead=then.days,
            ),
            then=then,
        )
        days = totals.last_day - 1


def _second_stage(
    problem: p.Problem, choice: Choice, kind: RouteKind | None, choices: Mapping[str, Choice], market: Market
) -> p.Problem:
    """The one need by that route alone (None: by any that is certain), with no limit but those on who may sell what."""
    options = [
        row.option
        for row in choices.values()
        if row.need.id == choice.need.id
        and row.option.id != choice.option.id
        and (row.verdict is not None or (row.route is not None and kind in (None, row.route.route)))
        and not (row.route and row.route.else_ and row.route.else_.route)
        and not (row.mends and row.option.succeeds < p.CERTAIN)
    ]
    parts = {
        row.option.wants[0].items[0] for row in choices.values() if row.verdict and row.option in options
    }
    other = [
        p.Banned(choice.need.id, offer.id)
        for offer in problem.offers
        if kind is not None
        and parts.intersection(bring.item for bring in offer.brings)
        and ROUTE_OF_STATE[market.lines[offer.id].offer.state] is not kind
    ]
    need = next(row for row in problem.needs if row.id == choice.need.id)
    limits = problem.limits
    return msgspec.structs.replace(
        problem,
        needs=(msgspec.structs.replace(need, must=True),),
        options=tuple(msgspec.structs.replace(option, adds=0) for option in options),
        **_left_over(problem, choice),
        limits=p.Limits(
            without_suppliers=limits.without_suppliers,
            banned=(*(row for row in limits.banned if row.need == need.id), *other),
        ),
    )


def _ordered_later(
    graph: Graph, problem: p.Problem, market: Market, today: date, now: time | None
) -> p.Problem:
    """The problem with the days of each offer counted from the last day on which it may be ordered to be in time."""
    bound = problem.limits.days
    if bound is None:
        return problem
    offers = []
    for offer in problem.offers:
        seller = graph.supplier(offer.supplier)
        if seller is not None and offer.days <= bound:
            last = last_order(seller, today, market.lines[offer.id].offer.days, bound, now)
            offer = msgspec.structs.replace(offer, days=bound - (last or 0))
        offers.append(offer)
    return msgspec.structs.replace(problem, offers=tuple(offers))


class _Left(TypedDict):
    offers: tuple[p.Offer, ...]
    pools: tuple[p.Pool, ...]


def _left_over(problem: p.Problem, choice: Choice) -> _Left:
    """The stocks and pools that are surely left when all else has taken the most it could."""
    banned = {(row.need, row.offer) for row in problem.limits.banned}
    of_need: dict[str, list[Counter[str]]] = {}
    for option in problem.options:
        if option.need != choice.need.id:
            of_need.setdefault(option.need, []).append(_wanted(option.wants))
    rest = [_wanted(work.wants) for work in problem.shared] + [_wanted(choice.option.wants)]

    def taken(offer: p.Offer) -> int:
        """The most units of it that others could use; a pack for each unit."""
        items = [bring.item for bring in offer.brings]
        most = [
            max(sum(wants[name] for name in items) for wants in rows)
            for need, rows in of_need.items()
            if (need, offer.id) not in banned
        ]
        return sum(most) + sum(wants[name] for wants in rest for name in items)

    used = {offer.id: taken(offer) for offer in problem.offers}
    from_pool: Counter[str] = Counter()
    for offer in problem.offers:
        for take in offer.takes:
            from_pool[take.pool] += take.amount * used[offer.id]
    for option in problem.options:
        if option.need != choice.need.id:
            for take in option.takes:
                from_pool[take.pool] += take.amount
    return _Left(
        offers=tuple(
            offer
            if offer.stock is None
            else msgspec.structs.replace(offer, stock=max(0, offer.stock - used[offer.id]))
            for offer in problem.offers
        ),
        pools=tuple(p.Pool(row.id, max(0, row.amount - from_pool[row.id])) for row in problem.pools),
    )


def _wanted(wants: tuple[p.Want, ...]) -> Counter[str]:
    """The most of each item that these wants could take."""
    found: Counter[str] = Counter()
    for want in wants:
        found.update(dict.fromkeys(want.items, want.amount))
    return found
