"""At which price a plan changes: how much cheaper another offer must get, how much dearer one in the plan may."""

from __future__ import annotations

import msgspec

from fitlore.sourcing.problem import Banned, Problem, ProblemError, Solution
from fitlore.sourcing.runnerup import option_of
from fitlore.sourcing.solve import solve


class Cut(msgspec.Struct, frozen=True):
    """By how many coins a pack of an offer must get cheaper before the plan changes to it.

    `coins` is None if no price down to nothing brings it in. With `steady` false a lower price also moved a basket below a
    limit: then it is the least cut found by halving, and prices between may go either way.
    """

    need: str
    offer: str
    coins: int | None
    steady: bool


class Rise(msgspec.Struct, frozen=True):
    """By how many coins a pack of an offer in the plan may get dearer with the plan still a cheapest one.

    `coins` is None if nothing else would do at any price. With `steady` false a higher price also moved a basket over a
    limit or past the purse: then it is the rise found by halving, and prices between may go either way.
    """

    offer: str
    coins: int | None
    steady: bool


def price_cut(problem: Problem, solution: Solution, need: str, offer: str) -> Cut:
    """How much cheaper an offer must get to serve a need for which something else is bought now.

    The difference of the plan that must use it, per pack, confirmed by solving with a coin less and a coin more; if that
    fails, found by halving. Raises `ProblemError` if no option of the need wants what the offer brings.
    """
    row = next(row for row in problem.offers if row.id == offer)
    if any(use.offer == offer and use.owner == option_of(solution, need) for use in solution.assigned):
        return Cut(need, offer, 0, True)
    forced = solve(_only(problem, need, offer), settle=False)
    if forced.cost is None or solution.cost is None:
        return Cut(need, offer, None, True)
    packs = _packs_of(forced, offer) - _packs_of(solution, offer)
    guess = -(-(forced.cost - solution.cost) // packs) if packs > 0 else row.price + 1
    if (
        guess <= row.price
        and _stays(problem, solution, offer, max(0, guess - 1))
        and (guess == row.price or not _stays(problem, solution, offer, guess + 1))
    ):
        return Cut(need, offer, guess, True)
    if _stays(problem, solution, offer, row.price):
        return Cut(need, offer, None, False)
    low, high = 0, row.price
    while low < high:
        middle = (low + high) // 2
        if _stays(problem, solution, offer, middle):
            low = middle + 1
        else:
            high = middle
    return Cut(need, offer, max(0, low - 1), False)


def price_rise(problem: Problem, solution: Solution, offer: str) -> Rise:
    """How much dearer a pack of an offer in the plan may get before another plan is cheaper (or the purse is too small).

    The difference of the plan that buys fewer packs of it, per pack, confirmed by solving with just so much more and a coin
    more; if that fails, found by halving. Raises `ProblemError` if the plan does not buy it.
    """
    packs, limits = _packs_of(solution, offer), problem.limits
    if not packs or solution.cost is None:
        raise ProblemError(f"the plan does not buy offer {offer}")
    fewer = solve(_at_most(problem, offer, packs - 1), settle=False)
    purses = ((limits.cash, solution.totals.cash_now), (limits.worst_cash, solution.totals.worst_cash))
    slack = [(bound - spent) // packs for bound, spent in purses if bound is not None]
    if fewer.cost is not None:
        slack.append((fewer.cost - solution.cost) // (packs - _packs_of(fewer, offer)))
    if not slack:
        return Rise(offer, None, True)
    guess = min(slack)
    if _stays(problem, solution, offer, -guess) and not _stays(problem, solution, offer, -guess - 1):
        return Rise(offer, guess, True)
    low, high = 0, guess + 1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if _stays(problem, solution, offer, -middle) else (low, middle)
    return Rise(offer, low, False)


def _at_most(problem: Problem, offer: str, packs: int) -> Problem:
    """The problem in which at most so many packs of an offer can be bought."""
    limits = problem.limits
    if not packs:
        limits = msgspec.structs.replace(limits, without_offers=(*limits.without_offers, offer))
        return msgspec.structs.replace(problem, limits=limits)
    offers = tuple(
        msgspec.structs.replace(row, most=packs) if row.id == offer else row for row in problem.offers
    )
    return msgspec.structs.replace(problem, offers=offers)


def _stays(problem: Problem, solution: Solution, offer: str, cut: int) -> bool:
    """Whether the present plan is still a cheapest one when the offer's pack costs so much less."""
    offers = tuple(
        msgspec.structs.replace(row, price=row.price - cut) if row.id == offer else row
        for row in problem.offers
    )
    plan = solve(msgspec.structs.replace(problem, offers=offers), settle=False)
    return solution.cost is not None and plan.cost == solution.cost - cut * _packs_of(solution, offer)


def _packs_of(solution: Solution, offer: str) -> int:
    return sum(row.packs for row in solution.bought if row.offer == offer)


def _only(problem: Problem, need: str, offer: str) -> Problem:
    """The problem in which this need takes an option served by this offer, wherever the offer brings what it wants."""
    items = {bring.item for row in problem.offers if row.id == offer for bring in row.brings}
    options = {
        row.id
        for row in problem.options
        if row.need == need and any(items.intersection(want.items) for want in row.wants)
    }
    if not options:
        raise ProblemError(f"offer {offer} brings nothing that need {need} wants")
    others = tuple(row.id for row in problem.options if row.need == need and row.id not in options)
    rivals = tuple(
        Banned(need, row.id)
        for row in problem.offers
        if row.id != offer and any(bring.item in items for bring in row.brings)
    )
    limits = msgspec.structs.replace(
        problem.limits,
        without_options=(*problem.limits.without_options, *others),
        banned=(*problem.limits.banned, *rivals),
    )
    needs = tuple(msgspec.structs.replace(row, must=True) if row.id == need else row for row in problem.needs)
    return msgspec.structs.replace(problem, needs=needs, limits=limits)
