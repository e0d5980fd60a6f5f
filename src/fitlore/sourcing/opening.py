"""When a supplier takes an order: his days of the week, and the periods in which he is closed.

Days of arrival count from the day an order is taken. A plan made today at some hour is too late for today where that is past the
supplier's cut-off (the minute itself is in time): the order goes out on the next day on which he is open. A plan for another day
is one for its morning. Other hours are not reckoned. Opening days that cannot be read (`monday-friday`, `saturday`) say nothing.
"""

from __future__ import annotations

from datetime import date, time, timedelta
from typing import Final

from fitlore.model.supply import Supplier

_DAYS: Final = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_FARTHEST: Final = 400
"""Nobody is closed for longer than a year and a month; who says so is taken to be open."""


def waits(supplier: Supplier, today: date, now: time | None = None) -> int:
    """Days from today to the first on which the supplier takes an order; `now`: the hour it is (None: the morning)."""
    weekdays = _weekdays(supplier)
    late = now is not None and bool(supplier.cut_off) and now > time.fromisoformat(supplier.cut_off or "")
    for days in range(int(late), _FARTHEST):
        day = today + timedelta(days=days)
        closed = any(period.start <= day.toordinal() <= period.end for period in supplier.closed)
        if day.weekday() in weekdays and not closed:
            return days
    return int(late)


def last_order(supplier: Supplier, today: date, lead: int, bound: int, now: time | None = None) -> int | None:
    """The last day (days from today) to send an order that takes `lead` days and must be there on day `bound`; None: too late.

    An order sent sooner is there in time too. `now`: the hour it is today.
    """

    def there(day: int) -> int:
        return day + waits(supplier, today + timedelta(days=day), None if day else now) + lead

    return next((day for day in range(bound - lead, -1, -1) if there(day) <= bound), None)


def _weekdays(supplier: Supplier) -> frozenset[int]:
    found: set[int] = set()
    for key in supplier.open:
        first, _, last = key.partition("-")
        if first not in _DAYS or (last or first) not in _DAYS:
            return frozenset(range(7))
        start, end = _DAYS.index(first), _DAYS.index(last or first)
        found |= {number % 7 for number in range(start, (end if end >= start else end + 7) + 1)}
    return frozenset(found or range(7))
