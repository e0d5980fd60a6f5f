"""One job to be planned, as plain data: what is needed, how each need can be met, who sells what on which terms.

**Units.** Money is an integer number of the home currency's smallest coin. Minutes in a `Problem` are whole minutes.
A chance is an integer out of `CERTAIN` (10 000), so an expected time is exact in ten-thousandths of a minute: every
expected time in a `Solution` is counted in those and called `hands` (`MINUTE` of them are one minute). Days are whole
calendar days from the day of planning, weight is in grams.

**What a plan costs** (`Totals.cost`) = money at the end + the worth of the hands − what the work adds to the sale.
Money at the end = goods + surcharges lost + money still to pay + carriage + trips + materials + expected failures −
money that comes back. Rounding happens once per *line* of the plan, half a coin upwards, so that lines add up to
totals to the coin. The lines are

- an option taken: its money; its expected failure ``(1 − succeeds) × otherwise.money`` (one rounding); its hands
  ``minutes + (1 − succeeds) × otherwise.minutes``, worth ``hands × hour_worth`` (one rounding);
- an offer, per pack: price + ``(1 − returned) × surcharge`` (one rounding) + later − back; minutes × hour_worth (one
  rounding). A pack that is bought and not used costs the same;
- a unit assigned to a want: ``(1 − works × fits) × otherwise`` of the offer, money and hands, one rounding each (the
  hands themselves are rounded half up to a ten-thousandth of a minute);
- a supplier used: what joining him costs, and the fee of the way of delivery less what comes back of it (both are
  `carriage` in the totals); a trip made: its money, its minutes ×
  hour_worth; a shared work done: its money, its minutes × hour_worth.

**Cash now** = goods and surcharges in full + carriage + trips' money + the money of options and shared works. Neither
what comes back, nor what is still to pay later, nor an expected failure is cash now.

**How a job's facts are read into a problem** (`tests/sourcing/core/test_green_estate.py` holds every figure to it)

- A trip's kilometres are one way: its money is ``2 × km × money per km``. A trip's minutes are there and back already.
- Hands are expected hands: with ``succeeds`` 0.8 and 15 minutes otherwise, 3 minutes more. The hands limit bounds them.
- A surcharge is cash now in full; at the end only ``(1 − returned) × surcharge`` is lost.
- What follows a failure is an expected loss at the end, never cash now; an option's own `money` is cash now.
- The cash limit is what is in the tin less the reserve. `back` (scrap) lessens money at the end, never cash now.
- A supplier with carriage and a trip offers both ways, one is taken; one with neither hands over for nothing.
- Pulling and fetching minutes are per pack, fitting minutes per option, shared work once.

**Limits are inclusive**: a basket of exactly `least_spend` has earned the mode, a need may use the last minute, the last
coin, the last day. What counts towards `least_spend` and `minimum` is goods at `counts` (the price if not given), never
surcharges and never the carriage itself.

**Equal standing.** The items of one `Want` may be mixed freely, within the want and between offers. Where units must be
alike (a pair of dampers), write one option for each item.
"""

from __future__ import annotations

import msgspec

from fitlore.sourcing.selling import (
    CERTAIN,
    MINUTE,
    Bring,
    Mode,
    Offer,
    Otherwise,
    Supplier,
    Take,
    Trip,
)
from fitlore.sourcing.solution import (
    Assigned,
    Bought,
    Chosen,
    Solution,
    Status,
    Totals,
    Way,
)

__all__ = [
    "CERTAIN",
    "MINUTE",
    "Assigned",
    "Banned",
    "Bought",
    "Bring",
    "Chosen",
    "Companion",
    "Limits",
    "Mode",
    "Need",
    "Never",
    "Offer",
    "Option",
    "Otherwise",
    "Pair",
    "Pool",
    "Problem",
    "ProblemError",
    "SharedWork",
    "Solution",
    "Status",
    "Supplier",
    "Take",
    "Totals",
    "Trip",
    "Want",
    "Way",
]


class ProblemError(ValueError):
    """The problem contradicts itself (an unknown id, an id used twice, a negative amount): a fault of the caller."""


class Want(msgspec.Struct, frozen=True):
    """Units of items of equal standing: `amount` of them in total, of one item or mixed.

    `fits` is the chance that such a unit proves right here, certainty left aside that the unit itself is sound.
    """

    items: tuple[str, ...]
    amount: int = 1
    fits: int = CERTAIN


class Pool(msgspec.Struct, frozen=True):
    """What there is only so much of, whoever uses it: the one old alternator, the one bay with a lift."""

    id: str
    amount: int


class Need(msgspec.Struct, frozen=True):
    """What the job asks for. A `must` takes exactly one of its options, another need at most one.

    `latest` is the last day on which what its options want may arrive (None: the limit of the job alone).
    """

    id: str
    must: bool = True
    note: str = ""
    latest: int | None = None


class Option(msgspec.Struct, frozen=True):
    """One way to meet a need: materials (`money`, cash now), `minutes` of hands, what it wants, what it adds to the sale.

    `shared` are works done once however many options want them. If it fails (chance 1 − `succeeds`), `otherwise` follows.
    `ahead`: what it wants must be there so many days before the last day there is for its need, for what follows a failure
    takes as long.
    """

    id: str
    need: str
    money: int = 0
    minutes: int = 0
    adds: int = 0
    wants: tuple[Want, ...] = ()
    shared: tuple[str, ...] = ()
    succeeds: int = CERTAIN
    otherwise: Otherwise = Otherwise()
    takes: tuple[Take, ...] = ()
    ahead: int = 0


class SharedWork(msgspec.Struct, frozen=True):
    """Work done once however many chosen options want it (the coolant let out), and what it wants itself."""

    id: str
    minutes: int = 0
    money: int = 0
    wants: tuple[Want, ...] = ()
    latest: int | None = None


class Companion(msgspec.Struct, frozen=True):
    """`option` may be taken only together with one of `one_of` (options of other needs)."""

    option: str
    one_of: tuple[str, ...]


class Never(msgspec.Struct, frozen=True):
    """Two options that may not be taken together."""

    one: str
    other: str


class Pair(msgspec.Struct, frozen=True):
    """Options that stand or fall together: the same part left and right."""

    left: str
    right: str


class Banned(msgspec.Struct, frozen=True):
    """An offer that may not serve this need (it may serve others)."""

    need: str
    offer: str


class Limits(msgspec.Struct, frozen=True):
    """What the plan must keep to; None: no limit. All inclusive.

    `minutes` and `cash` bound the expected hands and the cash now; `worst_minutes` and `worst_cash` bound the same with
    every `otherwise` come true (money still to pay included). `days` is the last day on which goods may arrive.
    `with_options` must be taken, of each of `with_offers` at least one pack bought.
    """

    minutes: int | None = None
    cash: int | None = None
    days: int | None = None
    suppliers: int | None = None
    worst_minutes: int | None = None
    worst_cash: int | None = None
    without_options: tuple[str, ...] = ()
    without_offers: tuple[str, ...] = ()
    without_suppliers: tuple[str, ...] = ()
    banned: tuple[Banned, ...] = ()
    with_options: tuple[str, ...] = ()
    with_offers: tuple[str, ...] = ()


class Problem(msgspec.Struct, frozen=True):
    """One job. `hour_worth` is what an hour of hands counts, in coins. The order of the parts never matters."""

    needs: tuple[Need, ...]
    options: tuple[Option, ...]
    offers: tuple[Offer, ...]
    suppliers: tuple[Supplier, ...]
    shared: tuple[SharedWork, ...] = ()
    trips: tuple[Trip, ...] = ()
    pools: tuple[Pool, ...] = ()
    companions: tuple[Companion, ...] = ()
    never: tuple[Never, ...] = ()
    pairs: tuple[Pair, ...] = ()
    limits: Limits = Limits()
    hour_worth: int = 0
