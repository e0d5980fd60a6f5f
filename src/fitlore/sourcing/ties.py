"""Which of several equally cheap plans is meant, so that the same books always give the same plan.

The order: least cost; of those, fewest suppliers; then least waiting (days of arrival summed over the packs); then the
least sum of a number drawn from each id ("names": no meaning, but always the same).

Cost and suppliers are made least in one run (whole numbers, the cost counted so many times that no supplier outweighs a
coin), then the rest with both held. Where the cost is held, the objective may carry any multiple of it without changing
the answer; carrying one keeps the solver near the cheap plans, and was measured two to five times faster than without.
"""

from __future__ import annotations

import hashlib

import msgspec

from fitlore.sourcing.rows import Model, weights

EXACT = 2**40
"""Above this an objective of whole numbers is no longer trusted to the unit."""
MOST_DRAWN = 251


class Stage(msgspec.Struct, frozen=True):
    """One more run: `aim` is what is made least, `held` the weights whose value is then kept."""

    aim: list[int]
    held: list[int]


def first_aim(model: Model) -> tuple[list[int], int]:
    """Cost before suppliers as one objective, and how many times a coin counts in it."""
    suppliers = weights(model, "suppliers")
    times = sum(suppliers) + 1
    cost = weights(model, "cost")
    return [times * coins + used for coins, used in zip(cost, suppliers, strict=True)], times


def stages(model: Model, cost: int, waiting: int) -> list[Stage]:
    """What is still to be decided once cost and suppliers are held, given the cost and a waiting that is possible."""
    coins, days = weights(model, "cost"), weights(model, "waiting")
    drawn = [_drawn(column.key) for column in model.columns]
    over = 1 + sum(number * column.upper for number, column in zip(drawn, model.columns, strict=True))
    if over * (4 * abs(cost) + waiting) < EXACT:
        both = [over * day + number for day, number in zip(days, drawn, strict=True)]
        return [Stage(_guided(both, coins, 4 * over), both)]
    return [
        Stage(_guided(days, coins, 64), days),
        Stage(_guided(drawn, coins, 64 * MOST_DRAWN), drawn),
    ]


def _guided(aim: list[int], coins: list[int], times: int) -> list[int]:
    return [value + times * coin for value, coin in zip(aim, coins, strict=True)]


def _drawn(key: tuple[str, ...]) -> int:
    """A number from 1 to `MOST_DRAWN` that depends on the column's ids alone; 0 for what follows from the rest."""
    if key[0] in "yg":
        return 0
    digest = hashlib.sha256("\0".join(key).encode()).digest()
    return 1 + int.from_bytes(digest[:4], "big") % MOST_DRAWN
