"""What a category says can be made good again: planned with a known chance and known prices, otherwise only said.

Sums by hand: an expected loss is (1 - chance) times what the cheapest other way costs by itself.
"""

from __future__ import annotations

from datetime import date

import pytest

from fitlore.report.plans import plan_lines
from fitlore.report.plans_besides import besides_json
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.plan import Plan
from tests.sourcing.tiny import JOB, bought, planned, shop_of

CAR = """
- category: kit
  names: {en-gb: kit}
  safety: none
- category: cup
  names: {en-gb: cup}
  safety: CLASS
  sides: none
  MORE
  refurbish:
    - do: hone it, new seals
      materials: [{is: kit, quantity: 2}]
      minutes: 30
      SUCCEEDS
      look: bore bright
- policy: tiny-classes
  classes:
    - {safety: none, least: measured}
    - {safety: restraint, least: measured, no-used: yes}
- platform: kestin-vale
  name: Kestin Vale
  maker: Kestin
  assemblies:
    axle:
      places:
        cup: {is: cup, original: CUP}
- part: CUP
  maker: Kestin
  is: cup
"""
GREEN = "\n- car: green\n  is: kestin-vale\n"
NEW = """
- supplier: post
  trade: factor
  carriage: {fixed: 4.00 GBP}
  offers:
    - {number: CUP, price: 26.00 GBP, days: 1}
"""
KITS = """
- supplier: club
  trade: club
  offers:
    - {any: kit, price: 3.00 GBP, days: 1}
"""


def made_of(
    books: str,
    *,
    succeeds: str = "succeeds: 90 %",
    finding: str = "",
    more: str = "always-new: no",
    safety: str = "none",
    job: str = "",
    quantity: int = 1,
) -> Plan:
    """The plan of one finding, an hour worth 12.00."""
    car = CAR.replace("SUCCEEDS", succeeds or "note: none").replace("MORE", more).replace("CLASS", safety)
    rows = f"{JOB}  hands: {{worth: 12.00 GBP}}\n{job}  findings:\n    - at: axle/cup\n      fault: weeps\n"
    rows += f"      must: runs\n      quantity: {quantity}\n{finding}"
    return planned(shop_of(rows + books, car=car + GREEN), Wishes(today=date(2026, 12, 3)))


def text(made: Plan) -> str:
    """What `plan` prints, as one text."""
    return "\n".join(line.text for line in plan_lines(made)).replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize(
    ("chance", "pence", "what"),
    [
        ("90 %", 600 + 600 + 300, "club kit new"),
        ("39 %", 3000, "post CUP new"),
        ("41 %", 2970, "club kit new"),
    ],
)
def test_mended_where_the_chance_and_the_price_are_known(chance: str, pence: int, what: str) -> None:
    """Two kits 6.00, half an hour 6.00, and a tenth of the 30.00 that a new one costs: 15.00; at 41 % 12 + 17.70 = 29.70."""
    made = made_of(NEW + KITS, succeeds=f"succeeds: {chance}")
    assert (made.solution.cost, list(bought(made))) == (pence, [what])


def test_what_follows_a_failure_is_the_cheapest_other_way_and_is_said() -> None:
    """A tenth of the time the new one is bought after the look: 26.00 and its carriage, at the worst in full."""
    made = made_of(NEW + KITS, job="  in-hand-by: 2026-12-09\n")
    then = made.lines[0].choice.then if made.lines[0].choice else None
    assert then is not None
    assert (then.option, then.money, then.days) == ("axle/cup = CUP", 3000, 1)
    assert made.solution.totals.worst_cash == 600 + 3000
    assert "hone it, new seals; " in text(made)
    assert "if that fails (10 %): CUP new from post, 30.00 GBP more, in hand 1 days after the look" in text(
        made
    )


def test_of_two_pieces_both_have_to_succeed() -> None:
    """0.9 x 0.9 = 0.81: four kits 12.00, an hour 12.00, 19 % of 56.00 (two new ones and their carriage) 10.64."""
    made = made_of(NEW + KITS, quantity=2)
    assert made.solution.cost == 1200 + 1200 + 1064


@pytest.mark.parametrize(
    ("succeeds", "books", "words", "lacks"),
    [
        ("", NEW + KITS, "could be mended, not planned (nobody says how often it succeeds)", []),
        ("succeeds: 90 %", NEW, "could be mended, not planned (no price for kit)", ["kit"]),
        ("succeeds: 100 %", NEW, "could be mended, not planned (no price for kit)", ["kit"]),
    ],
)
def test_without_a_chance_or_a_price_it_is_only_said(
    succeeds: str, books: str, words: str, lacks: list[str]
) -> None:
    """A new one is planned, 30.00; that the old one might be mended is one line more."""
    made = made_of(books, succeeds=succeeds)
    assert (made.solution.cost, list(bought(made))) == (3000, ["post CUP new"])
    assert f"{words}: hone it, new seals (30 min)" in text(made)
    (row,) = besides_json(made)["could-be-mended"]
    assert (row["need"], row["do"], row["no-price-for"]) == ("axle/cup", "hone it, new seals", lacks)


@pytest.mark.parametrize(
    ("finding", "pence"),
    [
        ("      routes: [{route: refurbish}]\n", 1200),
        ("      routes: [{route: refurbish, do: 'hone it, new seals'}]\n", 1200),
        ("      routes: [{route: refurbish, do: 'hone it, new seals', succeeds: 50 %}]\n", 2700),
        ("      routes: [{route: refurbish, do: something else, minutes: 10}]\n", 200),
    ],
)
def test_a_route_of_the_finding_that_names_it_is_planned(finding: str, pence: int) -> None:
    """Without a chance it counts as it is written: 6.00 + 6.00. With 50 %: half of 30.00 more. Another way is its own."""
    made = made_of(NEW + KITS, succeeds="", finding=finding)
    assert (made.solution.cost, besides_json(made)["could-be-mended"]) == (pence, [])


def test_a_named_route_says_what_it_takes_at_a_price_nobody_knows() -> None:
    """Nobody sells a kit: the hands alone, 6.00, and the plan says what is needed too."""
    made = made_of(NEW, succeeds="", finding="      routes: [{route: refurbish}]\n")
    assert made.solution.cost == 600
    assert "needed too, at a price nobody has said (not in the sum): 2 x kit (axle/cup)" in text(made)


@pytest.mark.parametrize(
    ("finding", "more", "safety"),
    [
        ("      forbid: refurbish\n", "always-new: no", "none"),
        ("", "always-new: yes", "none"),
        ("", "always-new: no", "restraint"),
    ],
    ids=["job-forbids", "always-new", "class-takes-nothing-used"],
)
def test_never_where_the_old_one_does_not_stay(finding: str, more: str, safety: str) -> None:
    """Neither planned nor said, though it would be half the price."""
    made = made_of(NEW + KITS, finding=finding, more=more, safety=safety)
    assert (made.solution.cost, besides_json(made)["could-be-mended"]) == (3000, [])


def test_nothing_else_to_be_had_means_no_plan_by_a_chance() -> None:
    """Nobody sells a new one: what would follow a failure cannot be had, so mending it is no plan."""
    made = made_of(KITS)
    assert made.solution.status == "infeasible"
    assert [row.option.id for row in made.assembled.too_late] == ["axle/cup : hone it, new seals"]
