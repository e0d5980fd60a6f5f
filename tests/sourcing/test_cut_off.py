"""The hour by which a supplier wants his orders: one that is later goes out on the next day on which he is open.

Thursday 3 December 2026 (calendar). Days by hand.
"""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest

from fitlore.cli.when import this_hour
from fitlore.report.machine_plans import plan_json
from fitlore.report.plans import plan_lines
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.plan import Plan
from tests.sourcing.tiny import found, planned, shop_of

SELLER = """
- supplier: factor
  trade: factor
  cut-off: "16:00"
  TERMS
  offers:
    - {number: P, price: 20.00 GBP, days: 1}
"""
WEEK = "open: {monday-friday: 08:00/17:00}"


def made_at(now: time | None, terms: str = WEEK, *, today: date = date(2026, 12, 3), by: str = "") -> Plan:
    """The plan of one finding, made at that hour."""
    more = f"  in-hand-by: {by}\n" if by else ""
    graph = shop_of(found("front/p", more=more) + SELLER.replace("TERMS", terms))
    return planned(graph, Wishes(today=today, now=now))


@pytest.mark.parametrize(
    ("now", "today", "terms", "days"),
    [
        (None, date(2026, 12, 3), WEEK, 1),
        (time(8, 30), date(2026, 12, 3), WEEK, 1),
        (time(16, 0), date(2026, 12, 3), WEEK, 1),
        (time(16, 1), date(2026, 12, 3), WEEK, 2),
        (time(16, 1), date(2026, 12, 4), WEEK, 4),
        (time(16, 1), date(2026, 12, 5), WEEK, 3),
        (time(9, 0), date(2026, 12, 5), WEEK, 3),
        (time(16, 1), date(2026, 12, 3), "closed: 2026-12-04", 3),
        (time(23, 59), date(2026, 12, 3), "note: always open", 2),
    ],
)
def test_an_order_after_the_hour_goes_out_on_the_next_open_day(
    now: time | None, today: date, terms: str, days: int
) -> None:
    """It comes a day after it goes out; the minute itself is in time; a day on which nothing is sold counts once."""
    assert made_at(now, terms, today=today).solution.totals.last_day == days


def test_too_late_for_today_may_be_too_late() -> None:
    """All in hand by tomorrow: at four it can be done, a minute later it cannot."""
    assert made_at(time(16, 0), by="2026-12-04").solution.status == "proven"
    assert made_at(time(16, 1), by="2026-12-04").solution.status == "infeasible"


@pytest.mark.parametrize(
    ("by", "words", "within"),
    [("2026-12-09", "order by Tue 8 Dec 16:00", 5), ("2026-12-07", "order by Fri 4 Dec 16:00", 1)],
)
def test_the_order_says_the_day_and_the_hour(by: str, words: str, within: int) -> None:
    """In hand on Wednesday: it goes out on Tuesday; on Monday: it goes out on Friday, the last day he is open."""
    for now in (None, time(16, 1)):
        made = made_at(now, by=by)
        text = "\n".join(line.text for line in plan_lines(made)).replace("\N{NO-BREAK SPACE}", " ")
        assert words in text
        assert ("planned from Thursday 3 December 2026, 16:01, all" in text) == (now is not None)
        (order,) = plan_json(made)["orders"]
        assert (order["order-within-days"], order["cut-off"]) == (within, "16:00")


def test_only_a_plan_made_today_has_an_hour(monkeypatch: pytest.MonkeyPatch) -> None:
    """Another day counts from its morning, and so does a day that is only looked at."""
    monkeypatch.delenv("FITLORE_TODAY", raising=False)
    today = date.today()
    assert this_hour(today + timedelta(days=2)) is None
    assert this_hour(today - timedelta(days=2)) is None
    hours = {this_hour(day) for day in (date.today(), today)} - {None}
    assert len(hours) >= 1
    monkeypatch.setenv("FITLORE_TODAY", today.isoformat())
    assert this_hour(today) is None
