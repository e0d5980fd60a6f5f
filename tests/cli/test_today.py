"""`fitlore` alone: what is due today on the picked car, out of the books."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from tests.demo.shop import Shop, copy_of_the_demo

NOW = {"FITLORE_TODAY": "2026-12-03"}


@pytest.fixture
def unpicked(tmp_path: Path) -> Shop:
    """The demo shop as it comes: nobody has picked a car."""
    return copy_of_the_demo(tmp_path)


def test_every_finding_is_named_with_the_plans_own_choice(asked: Shop) -> None:
    """The same choices as `plan --json` makes, in its order, and the sum of its own proven plan."""
    plan = asked.call("plan", "--json", **NOW).json
    said = asked.call(**NOW)
    assert (said.code, said.err) == (0, "")
    rows = re.findall(r"(?m)^ ?(\d+)  (\S+) \(", said.out)
    assert rows == [(str(line["number"]), line["need"]) for line in plan["lines"]]
    assert f"{plan['cost']} in all (proven)" in said.out


def test_orders_stand_under_the_last_day_on_which_they_may_be_sent(asked: Shop) -> None:
    """The plan's own `order-within-days`, counted from today, the nearest first."""
    plan = asked.call("plan", "--json", **NOW).json
    block = asked.call(**NOW).out.partition("\norder by\n")[2].partition("\nask")[0]
    rows = re.findall(r"(?m)^  \w{3} +(\d+) Dec  ([a-z-]+):", block)
    due = {order["supplier"]: order["order-within-days"] for order in plan["orders"]}
    assert {name: int(day) - 3 for day, name in rows} == {
        name: days for name, days in due.items() if days is not None
    }
    days = [int(day) for day, _ in rows]
    assert days == sorted(days)
    assert len(days) >= 5


def test_its_lines_are_numbered_for_why(asked: Shop) -> None:
    """`why 2` is the second finding."""
    asked.call(**NOW)
    said = asked.call("why", "2", **NOW)
    assert said.code == 0
    assert said.out.splitlines()[1] == "line 2 of: what is due today"
    assert "steering/track-rod-end@left" in said.out


def test_what_was_bought_stands_under_its_days(shop: Shop) -> None:
    """On order and late, here and to go back, an old one to hand in; what went back is no more to do."""
    book = shop.folder / "books" / "jobs.yaml"
    purchases = """  purchases:
    - {number: KT 21 0510, from: postbag, now: on-order, ordered: 2026-11-27, due: 2026-12-01}
    - {number: KT 71 3300, from: postbag, now: on-order, due: 2026-12-04}
    - {number: KT 11 0702, from: brindle, now: here, surcharge: 25.00 GBP, old-unit-back-by: 2026-12-07, return-by: 2026-12-05}
    - {number: MW 9021, from: postbag, now: went-back, return-by: 2026-12-02}
"""
    text = book.read_text("utf-8")
    book.write_text(text.replace("  findings:\n", f"{purchases}  findings:\n", 1), "utf-8")
    said = shop.call(**NOW)
    assert (said.code, said.err) == (0, "")
    rows = said.out.partition("\ndue\n")[2].splitlines()[:4]
    assert [row.split() for row in rows] == [
        line.split()
        for line in (
            "Tue 1 Dec KT 21 0510 from postbag should have come",
            "Fri 4 Dec KT 71 3300 from postbag comes",
            "Sat 5 Dec KT 11 0702 from brindle: goes back if it is to",
            "Mon 7 Dec KT 11 0702 from brindle: old one back",
        )
    ]
    assert "MW 9021" not in said.out.partition("\ndue\n")[2].partition("\norder by\n")[0]


def test_a_symptom_is_met_with_the_test_that_costs_least(asked: Shop) -> None:
    """The blue forty cranks slowly: five minutes at the posts before a quarter of an hour on the cable."""
    said = asked.call("car", "--car", "blue-forty", **NOW)
    assert said.code == 0
    try:
        out = asked.call(**NOW).out
    finally:
        asked.call("car", "green")
    assert (
        "cranks slowly when hot: first volts at the posts while it cranks at charging/battery (5 min)" in out
    )
    assert "amps on the cable" not in out


def test_after_the_day_nothing_is_planned(asked: Shop) -> None:
    """It says since when it is late, lists the findings, and makes no plan of days that are gone."""
    said = asked.call(FITLORE_TODAY="2026-12-10")
    assert said.code == 0
    assert "all in hand by Wednesday 9 December 2026: 1 day ago" in said.out
    assert "inspection Friday 11 December 2026: 1 day\n" in said.out
    assert "no plan" in said.out
    assert "order by" not in said.out


def test_a_job_that_is_not_possible_says_so(shop: Shop) -> None:
    """With 300.00 in the tin; `plan` says what clashes."""
    book = shop.folder / "books" / "jobs.yaml"
    text = book.read_text("utf-8")
    book.write_text(text.replace("purse: {cash: 620.00 GBP", "purse: {cash: 300.00 GBP", 1), "utf-8")
    said = shop.call(**NOW)
    assert said.code == 0
    assert "not possible as it stands" in said.out


def test_where_nobody_picked_a_car_the_one_due_first_is_taken_and_said(unpicked: Shop) -> None:
    """On the first line; after its day the next one; picking none means none."""
    first = "the green estate (kestin-tolland): no car picked; due first (Wed 9 Dec)"
    assert unpicked.call(**NOW).out.splitlines()[0] == first
    later = unpicked.call(FITLORE_TODAY="2026-12-12").out.splitlines()[0]
    assert later == "the blue forty (ostra-40): no car picked; due first (Fri 18 Dec)"
    assert unpicked.call("car", "--none").code == 0
    said = unpicked.call(**NOW)
    assert said.code == 1
    assert said.out.splitlines()[0] == "no car picked"


def test_two_that_are_due_on_the_same_day_are_not_chosen_between(unpicked: Shop) -> None:
    """Nothing is guessed."""
    book = unpicked.folder / "books" / "jobs.yaml"
    book.write_text(book.read_text("utf-8").replace("2026-12-18", "2026-12-09"), "utf-8")
    assert unpicked.call(**NOW).out.splitlines()[0] == "no car picked"
    said = unpicked.call("where", "radiator", **NOW)
    assert said.code == 2
    assert "no car is picked, and that may be " in said.err


def test_a_car_without_a_job_has_nothing_due(asked: Shop) -> None:
    """It is said, with exit 0."""
    asked.call("car", "white-tolland")
    try:
        said = asked.call(**NOW)
    finally:
        asked.call("car", "green")
    assert said.code == 0
    assert "no job is open on it" in said.out


def test_without_a_shop_it_is_the_help(tmp_path: Path) -> None:
    """There are no cars in the built-in knowledge."""
    said = Shop(tmp_path).call()
    assert said.code == 0
    assert said.out.startswith("Usage: fitlore ")


def test_days_are_the_calendars(asked: Shop) -> None:
    """Each day's name is right by the standard library's calendar."""
    out = asked.call(**NOW).out
    found = re.findall(r"\b([A-Z][a-z]+day) (\d+) December 2026", out)
    assert len(found) == 3
    assert [name for name, day in found if f"{date(2026, 12, int(day)):%A}" != name] == []
