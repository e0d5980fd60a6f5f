"""A plan as plain data: what is chosen, bought, assigned and fetched, its totals and its proof (units: `problem`)."""

from __future__ import annotations

from typing import Literal

import msgspec

Status = Literal["proven", "infeasible", "stopped"]
"""proven: no plan is cheaper by a coin; infeasible: proven that there is none; stopped: a limit of effort was met."""


class Chosen(msgspec.Struct, frozen=True, order=True):
    """The option taken for a need."""

    need: str
    option: str


class Bought(msgspec.Struct, frozen=True, order=True):
    """Packs of one offer."""

    supplier: str
    offer: str
    packs: int


class Assigned(msgspec.Struct, frozen=True, order=True):
    """Units of an item from an offer that serve a want: want number `want` (from 0) of an option or of a shared work."""

    owner: str
    shared: bool
    want: int
    item: str
    offer: str
    units: int


class Way(msgspec.Struct, frozen=True, order=True):
    """How a supplier's goods come: by a mode of delivery, by a journey, or (both empty) handed over for nothing."""

    supplier: str
    mode: str = ""
    trip: str = ""


class Totals(msgspec.Struct, frozen=True):
    """The sums of a plan, in coins; `hands` and `worst_hands` in ten-thousandths of a minute (`MINUTE`).

    ``money_end = goods + surcharges_lost + later + carriage + trips + materials + failures − back``;
    ``cost = money_end + hands_worth − adds``; ``cash_now = goods + surcharges + carriage + trips + materials``.
    `failures` are the expected losses of options and of units; `last_day` is the last arrival (0 if nothing is bought).
    """

    goods: int = 0
    surcharges: int = 0
    surcharges_lost: int = 0
    later: int = 0
    back: int = 0
    carriage: int = 0
    trips: int = 0
    materials: int = 0
    failures: int = 0
    money_end: int = 0
    hands: int = 0
    hands_worth: int = 0
    adds: int = 0
    cost: int = 0
    cash_now: int = 0
    worst_cash: int = 0
    worst_hands: int = 0
    packs: int = 0
    suppliers: int = 0
    last_day: int = 0


class Solution(msgspec.Struct, frozen=True):
    """A plan and its proof. All tuples are sorted, so equal problems give equal bytes.

    `cost` is that of the plan (None when there is none), `bound` the proven least cost of any plan (equal to `cost` when
    `status` is proven; None when nothing was proven).
    """

    status: Status
    cost: int | None = None
    bound: int | None = None
    chosen: tuple[Chosen, ...] = ()
    bought: tuple[Bought, ...] = ()
    assigned: tuple[Assigned, ...] = ()
    ways: tuple[Way, ...] = ()
    trips: tuple[str, ...] = ()
    shared: tuple[str, ...] = ()
    totals: Totals = Totals()
