"""What can be bought for a job, as plain data: packs of goods, who sells them, and how they come (see `problem`)."""

from __future__ import annotations

import msgspec

CERTAIN = 10_000
"""The chance of what is certain; chances are integers 0..CERTAIN."""
MINUTE = 10_000
"""So many units of `hands` are one minute."""


class Otherwise(msgspec.Struct, frozen=True):
    """What follows if it goes wrong: so much money (coins) and so many minutes more."""

    money: int = 0
    minutes: int = 0


class Take(msgspec.Struct, frozen=True):
    """Uses up `amount` of a pool: an old unit handed over in exchange, or kept for rebuilding."""

    pool: str
    amount: int = 1


class Bring(msgspec.Struct, frozen=True):
    """Units of one item in one pack."""

    item: str
    units: int = 1


class Offer(msgspec.Struct, frozen=True):
    """One pack that can be bought: a part, a packet, a kit, an assembly, a whole donor, a filler that brings nothing.

    `stock` is what the supplier has, `most` what the buyer would take at most (None: no bound). `minutes` are the hands
    one pack takes (to pull, to fetch). `surcharge` is paid now and comes back with chance `returned`. `later` is money
    still to pay after the day (sending the old unit back), `back` money that comes later (scrap). `counts` is what a
    pack counts towards the supplier's limits, in the supplier's own coin (None: the price). `works` is the chance that
    a unit is sound, and `otherwise` what a wrong or unsound unit costs. `note` is for whoever reads the plan.
    """

    id: str
    supplier: str
    price: int
    brings: tuple[Bring, ...] = ()
    stock: int | None = None
    most: int | None = None
    days: int = 0
    minutes: int = 0
    surcharge: int = 0
    returned: int = CERTAIN
    later: int = 0
    back: int = 0
    counts: int | None = None
    weight: int = 0
    works: int = CERTAIN
    otherwise: Otherwise = Otherwise()
    takes: tuple[Take, ...] = ()
    note: str = ""


class Mode(msgspec.Struct, frozen=True):
    """One way of delivery: a `fee` for a basket worth at least `least_spend` and no heavier than `most_weight`.

    `back` is what of the fee comes back later (tax that is reclaimed): it lessens money at the end, never cash now.

    `minimum` is the supplier's minimum order for it: the basket before carriage, a different number from `least_spend`.
    A tariff with a free-from limit is two modes; a tariff by weight is one mode for each step. Ids are unique in the
    supplier.
    """

    id: str
    fee: int = 0
    least_spend: int = 0
    most_weight: int | None = None
    minimum: int = 0
    back: int = 0


class Trip(msgspec.Struct, frozen=True):
    """One journey there and back: money (fuel) and minutes, spent once for all the suppliers it visits."""

    id: str
    money: int = 0
    minutes: int = 0


class Supplier(msgspec.Struct, frozen=True):
    """Who sells: exactly one of `modes`, or one of the journeys `trips` (ids) that visit them, when anything is bought.

    With neither, what they sell is handed over for nothing more. `joining` is paid now, once, before anything is bought
    (a club's fee). `own`: the shop itself, with what it has already; it does
    not count among the suppliers.
    """

    id: str
    modes: tuple[Mode, ...] = ()
    trips: tuple[str, ...] = ()
    own: bool = False
    joining: int = 0
