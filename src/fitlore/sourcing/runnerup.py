"""What comes second: the plan without the present choice, and how far its price is away."""

from __future__ import annotations

from typing import Literal

import msgspec

from fitlore.sourcing.problem import Banned, Limits, Problem, ProblemError, Solution
from fitlore.sourcing.solve import solve


class RunnerUp(msgspec.Struct, frozen=True):
    """The best plan that does without one present choice of a need.

    `without` says which: the option taken, or the offers that serve it (the option may stay). `difference` is what that
    plan costs more in coins, never negative; None if there is no other plan. With `exact` false it is only at most that
    much, and None then only says that nothing was found near by.
    """

    need: str
    without: Literal["option", "offers"]
    option: str
    offers: tuple[str, ...]
    difference: int | None
    exact: bool
    plan: Solution


class Cut(msgspec.Struct, frozen=True):
    """By how many coins a pack of an offer must get cheaper before the plan changes to it.

    `coins` is None if no price down to nothing brings it in. With `steady` false a lower price also moved a basket below a
    limit: then it is the least cut found by halving, and prices between may go either way.
    """

    need: str
    offer: str
    coins: int | None
    steady: bool


def runner_ups(problem: Problem, solution: Solution, *, near: bool = False) -> tuple[RunnerUp, ...]:
    """For every need that has an option: without that option, and (if it buys anything) without its offers.

    Exact ones solve the job again each time. `near` keeps every need fixed that shares no supplier with the one in
    question, which is fast and gives a difference that is never too small.
    """
    found: list[RunnerUp] = []
    for chosen in solution.chosen:
        found.append(runner_up(problem, solution, chosen.need, "option", near=near))
        if _offers_of(solution, chosen.option):
            found.append(runner_up(problem, solution, chosen.need, "offers", near=near))
    return tuple(found)


def runner_up(
    problem: Problem,
    solution: Solution,
    need: str,
    without: Literal["option", "offers"],
    *,
    near: bool = False,
) -> RunnerUp:
    """The best plan without the need's present option, or without its present offers (for this need alone)."""
    option = _option_of(solution, need)
    offers = _offers_of(solution, option)
    limits = problem.limits
    if without == "option":
        limits = msgspec.structs.replace(limits, without_options=(*limits.without_options, option))
    else:
        more = tuple(Banned(need, offer) for offer in offers)
        limits = msgspec.structs.replace(limits, banned=(*limits.banned, *more))
    changed = msgspec.structs.replace(problem, limits=limits)
    if near:
        changed = _held(changed, solution, need)
    plan = solve(changed, settle=False)
    more_coins = None if plan.cost is None or solution.cost is None else plan.cost - solution.cost
    return RunnerUp(need, without, option, offers, more_coins, not near, plan)


def price_cut(problem: Problem, solution: Solution, need: str, offer: str) -> Cut:
    """How much cheaper an offer must get to serve a need for which something else is bought now.

    The difference of the plan that must use it, per pack, confirmed by solving with a coin less and a coin more; if that
    fails, found by halving. Raises `ProblemError` if no option of the need wants what the offer brings.
    """
    row = next(row for row in problem.offers if row.id == offer)
    if any(use.offer == offer and use.owner == _option_of(solution, need) for use in solution.assigned):
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


def _held(problem: Problem, solution: Solution, need: str) -> Problem:
    """The problem with every need held to its present option and offers that shares no supplier with this one."""
    supplier = {row.offer: row.supplier for row in solution.bought}
    sellers: dict[str, set[str]] = {}
    uses: dict[str, set[str]] = {}
    for chosen in solution.chosen:
        uses[chosen.need] = set(_offers_of(solution, chosen.option))
        sellers[chosen.need] = {supplier[offer] for offer in uses[chosen.need]}
    partners = {
        row.need
        for pair in problem.pairs
        for row in problem.options
        if row.id in (pair.left, pair.right)
        and need in {other.need for other in problem.options if other.id in (pair.left, pair.right)}
    }
    far = {
        name
        for name in (row.need for row in solution.chosen)
        if name != need and name not in partners and sellers[name].isdisjoint(sellers[need])
    }
    limits: Limits = msgspec.structs.replace(
        problem.limits,
        with_options=(
            *problem.limits.with_options,
            *(row.option for row in solution.chosen if row.need in far),
        ),
        banned=(
            *problem.limits.banned,
            *(
                Banned(name, row.id)
                for name in sorted(far)
                for row in problem.offers
                if row.id not in uses[name]
            ),
        ),
    )
    return msgspec.structs.replace(problem, limits=limits)


def _option_of(solution: Solution, need: str) -> str:
    for row in solution.chosen:
        if row.need == need:
            return row.option
    return ""


def _offers_of(solution: Solution, option: str) -> tuple[str, ...]:
    """The offers that serve an option itself (not the shared works it needs)."""
    return tuple(sorted({use.offer for use in solution.assigned if use.owner == option and not use.shared}))
