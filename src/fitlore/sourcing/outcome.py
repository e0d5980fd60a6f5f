"""How a plan can turn out: the money that is gone at the end if everything goes well, and if everything goes wrong."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import msgspec

from fitlore.sourcing.problem import CERTAIN, MINUTE, Otherwise, Problem, Solution


class Outcome(msgspec.Struct, frozen=True):
    """Money at the end in coins, hands in ten-thousandths of a minute, at the best and at the worst; never an average.

    `good`: nothing fails and every surcharge that may come back does. `bad`: whatever may fail fails, and no surcharge that
    may be lost comes back. `chance` is that everything bought and done proves right the first time, by the chances the
    books give, taken as independent of each other.
    """

    good: int
    bad: int
    good_hands: int
    bad_hands: int
    chance: Fraction


def outcome(problem: Problem, solution: Solution) -> Outcome:
    """What a plan comes to at the best and at the worst."""
    totals = solution.totals
    offers = {row.id: row for row in problem.offers}
    certain = totals.goods + totals.later + totals.carriage + totals.trips + totals.materials - totals.back
    lost = [
        row.packs * offers[row.offer].surcharge for row in solution.bought if not offers[row.offer].returned
    ]
    at_risk = [
        row.packs * offers[row.offer].surcharge
        for row in solution.bought
        if 0 < offers[row.offer].returned < CERTAIN
    ]
    good, bad = certain + sum(lost), certain + sum(lost) + sum(at_risk)
    chance, expected, failing = Fraction(1), 0, 0
    for right, times, otherwise in risks(problem, solution):
        chance *= right**times
        failing += times * otherwise.money
        expected += times * otherwise.minutes * MINUTE
        if right == 0:
            good += times * otherwise.money
    return Outcome(
        good=good,
        bad=bad + failing,
        good_hands=totals.worst_hands - expected,
        bad_hands=totals.worst_hands,
        chance=chance,
    )


def risks(problem: Problem, solution: Solution) -> Iterator[tuple[Fraction, int, Otherwise]]:
    """Everything in a plan that may go wrong: the chance that it does not, how often it is there, what follows."""
    options = {row.id: row for row in problem.options}
    works = {row.id: row for row in problem.shared}
    offers = {row.id: row for row in problem.offers}
    for chosen in solution.chosen:
        option = options[chosen.option]
        if option.succeeds < CERTAIN:
            yield Fraction(option.succeeds, CERTAIN), 1, option.otherwise
    for use in solution.assigned:
        wants = works[use.owner].wants if use.shared else options[use.owner].wants
        offer = offers[use.offer]
        right = Fraction(offer.works * wants[use.want].fits, CERTAIN * CERTAIN)
        if right < 1:
            yield right, use.units, offer.otherwise
