"""What need not be bought any more: the shop's own stores, and what was bought for the job already.

What is paid is spent: it costs a plan nothing, and no cash. A thing out of the stores that would bring money elsewhere
(`worth`) counts that money at the end. What is on order comes on the day that was said; without a day, or when that day is
past and it is not here, nobody knows, and it is not counted on. What went back is gone. What is fitted has met its finding,
or part of it: the rest is bought, but for a kind that is renewed on both sides of an axle, which is never mixed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from typing import Final

from fitlore.model.amounts import Money
from fitlore.model.choices import Progress, Renew, State
from fitlore.model.job import Job, Purchase
from fitlore.model.placed import OfferFrom
from fitlore.model.record import Name
from fitlore.model.supply import Offer, Stored, Stores
from fitlore.sourcing.needs import NeedAt, must_agree

STORES: Final = "own stores"
PURCHASES: Final = "own purchases"
"""Who hands over what is in hand; no supplier of a book has a name with a space in it."""
OWN: Final = frozenset({STORES, PURCHASES})


def lying_there(stores: Iterable[Stores], home: str) -> Iterator[OfferFrom]:
    """What the stores hold, by number or by kind, as offers for nothing."""
    for shelf in stores:
        for row in shelf.has:
            if row.quantity > 0:
                yield _offer(STORES, row, home, made=row.made, state=row.state)


def bought_already(job: Job, today: date, home: str) -> Iterator[OfferFrom]:
    """What was bought for the job and is here or comes on a known day, as offers for nothing."""
    for row in job.purchases:
        days = _waiting(row, today)
        if days is not None:
            yield _offer(PURCHASES, row, home, days=days, state=row.state)


def _waiting(row: Purchase, today: date) -> int | None:
    """Days until it is here; None: it is not coming, or nobody knows when."""
    if row.now is Progress.HERE:
        return 0
    if row.now is Progress.ON_ORDER and row.due is not None and row.due >= today:
        return (row.due - today).days
    return None


def _offer(
    holder: str, row: Stored | Purchase, home: str, *, state: State, days: int = 0, made: str = ""
) -> OfferFrom:
    service = row.service if isinstance(row, Purchase) else None
    offer = Offer(
        origin=row.origin,
        number=row.number,
        any_=row.is_,
        service=service,
        price=Money(Decimal(0), home),
        state=state,
        stock=row.quantity,
        days=days,
        made=made,
    )
    return OfferFrom(origin=row.origin, supplier=Name(holder), trade="", offer=offer)


def worth_of(line: OfferFrom, stores: Iterable[Stores]) -> Money | None:
    """What the thing would bring elsewhere."""
    rows = (row for shelf in stores for row in shelf.has if row.origin == line.origin)
    return next((row.worth for row in rows if row.worth is not None), None)


def still_open(needs: tuple[NeedAt, ...], job: Job) -> tuple[tuple[NeedAt, ...], tuple[NeedAt, ...]]:
    """The needs that are still to be met, for what is not fitted there yet, and those that are."""
    fitted: dict[tuple[str, str], int] = {}
    for row in job.purchases:
        if row.now is Progress.FITTED and row.at is not None:
            path, _, side = row.at.partition("@")
            fitted[path, side] = fitted.get((path, side), 0) + row.quantity
    rest: list[NeedAt] = []
    done: list[NeedAt] = []
    for need in needs:
        path, side = need.finding.at.partition("@")[0], need.answer.side
        keys = [(path, side), (path, "")] if side else [key for key in fitted if key[0] == path]
        takes = max(need.quantity, 1)
        there = min(sum(fitted.get(key, 0) for key in keys), takes)
        if there < takes:
            rest.append(_partly(need, there, job))
        else:
            done.append(need)
        for key in keys:
            used = min(there, fitted.get(key, 0))
            fitted[key] = fitted.get(key, 0) - used
            there -= used
    gone = {need.id for need in done}
    left = (n if n.twin not in gone else n._replace(twin="", beside=_beside(n, job)) for n in rest)
    return tuple(left), tuple(done)


def _partly(need: NeedAt, there: int, job: Job) -> NeedAt:
    """The need for what is left to be met."""
    if need.answer.interface.renew is Renew.ACROSS_AXLE:
        return need._replace(fitted=there)
    beside = _beside(need, job) if there and must_agree(need.answer.interface) else ()
    return need._replace(fitted=there, quantity=need.quantity - there, beside=beside)


def _beside(need: NeedAt, job: Job) -> tuple[str, ...]:
    """What was fitted at the place, and not on the side of the need."""
    rows = (row for row in job.purchases if row.now is Progress.FITTED and row.at is not None)
    path, side = need.finding.at.partition("@")[0], need.answer.side
    found = [(row.number or "", *row.at.partition("@")[::2]) for row in rows if row.at]
    return tuple(dict.fromkeys(number for number, at, on in found if at == path and (not side or on != side)))
