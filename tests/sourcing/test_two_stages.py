"""H7: strip and look, then branch. Seal kit and hands against a unit; the bad branch has to arrive in time; both on an axle."""

from __future__ import annotations

import pytest

from fitlore.report.plans import plan_lines
from fitlore.report.plans_besides import besides_json
from fitlore.sourcing.plan import Plan, replanned
from tests.sourcing.tiny import bought, planned, shop_of

CALIPERS = """
- category: gripper
  names: {en-gb: gripper}
  safety: none
  sides: same-both-sides
  renew: RENEW
- category: ring-set
  names: {en-gb: ring set}
  safety: none
  sides: none
- platform: kestin-brede
  name: Kestin Brede
  maker: Kestin
  assemblies:
    front:
      sides: [left, right]
      places:
        gripper: {is: gripper, original: GRIP, minutes: 30}
- part: GRIP
  maker: Kestin
  is: gripper
- part: RINGS
  maker: Kestin
  is: ring-set
- car: red
  is: kestin-brede
- job: small
  for: red
  today: 2026-12-03
  in-hand-by: BY
  hands: {minutes: 900, worth: 12.00 GBP}
  findings:
    - at: front/gripper
      side: left
      fault: piston seized
      must: inspection
      routes:
        - route: refurbish
          do: strip and look; new rings if the bore is clean
          use: [{number: RINGS, quantity: 2}]
          minutes: 90
          succeeds: GOOD
          else: {route: exchange}
- supplier: counter
  trade: factor
  offers:
    - {number: RINGS, price: 10.00 GBP, days: 1}
    - {number: GRIP, price: 70.00 GBP, days: 1}
- supplier: rebuilder
  trade: reconditioner
  carriage: {fixed: 8.00 GBP}
  offers:
    - {number: GRIP, price: 41.00 GBP, state: exchange, days: 4}
- supplier: near-rebuilder
  trade: reconditioner
  offers:
    - {number: GRIP, price: 60.00 GBP, state: exchange, days: 2}
"""


def stripped(by: str = "2026-12-11", good: str = "70 %", renew: str = "across-axle", more: str = "") -> Plan:
    """The plan of a car with one seized piston."""
    books = CALIPERS.replace("BY", by).replace("GOOD", good).replace("RENEW", renew)
    return planned(shop_of(books + more))


def test_the_expected_cost_of_both_stages() -> None:
    """Rings 20 + 90 min 18; with 30 % the branch: two at 41 + 8, an hour 12: 0.3 x (90 + 12) = 30.60. Together 68.60.

    Against exchange at once 90 + 12 = 102, near 120 + 12, new 140 + 12.
    """
    made = stripped()
    assert (made.solution.cost, made.solution.totals.money_end) == (6860, 2000 + 2700)
    assert bought(made) == {"counter RINGS new": 2}
    (line,) = made.lines
    assert line.choice is not None
    assert line.choice.then is not None
    then = line.choice.then
    assert (then.offers, then.money, then.minutes, then.days) == (("rebuilder GRIP exchange",), 9000, 60, 4)
    assert made.solution.totals.worst_cash == 2000 + 9000
    assert made.solution.totals.worst_hands == (90 + 60) * 10_000


@pytest.mark.parametrize(
    ("by", "pence"),
    [
        ("2026-12-08", 6860),
        ("2026-12-07", 2000 + 1800 + 3600 + 360),
        ("2026-12-06", 2000 + 1800 + 3600 + 360),
        ("2026-12-05", 12000 + 1200),
        ("2026-12-04", 14000 + 1200),
    ],
)
def test_the_bad_branch_has_to_arrive_in_time(by: str, pence: int) -> None:
    """The rings are there on day 1. A day 4 branch needs day 5, the dearer one of 2 days day 3: 0.3 x (120 + 12) = 39.60.

    On day 2 no bad branch can arrive any more though the rings would: exchange from near by at once, 132.00; on day 1 only new
    ones, 152.00.
    """
    made = stripped(by)
    assert made.solution.cost == pence
    (line,) = made.lines
    assert line.choice is not None
    assert (line.choice.then is not None) == (by >= "2026-12-06")


def test_a_day_more_lets_the_cheaper_branch_in() -> None:
    """The last day let out by one, without asking the books again: 77.60 becomes 68.60."""
    made = stripped("2026-12-07")
    assert made.solution.cost == 7760
    assert replanned(made, days=5).cost == 6860


def test_what_the_plan_prints_of_it() -> None:
    """Both stages in a line, the pair, and a route that is left out because its bad branch comes too late."""
    words = "\n".join(line.text for line in plan_lines(stripped())).replace("\N{NO-BREAK SPACE}", " ")
    assert (
        "if that fails (30 %): GRIP exchange from rebuilder, 90.00 GBP and 1 h more, in hand 4 days" in words
    )
    assert "both on the axle, though one was found" in words
    late = "\n".join(line.text for line in plan_lines(stripped("2026-12-04")))
    assert "not possible in time: front/gripper: strip and look; new rings if the bore is clean" in late
    (branch,) = besides_json(stripped())["branches"]
    assert (branch["succeeds"], branch["money"], branch["days-after-the-look"]) == (
        70.0,
        stripped().money(9000),
        4,
    )


def test_a_branch_that_cannot_come_at_all_is_said() -> None:
    """By the next day no exchange unit comes: the route is left out, with its name."""
    made = stripped("2026-12-04")
    assert [row.option.id for row in made.assembled.too_late] == ["front/gripper : refurbish 1"]


def test_a_likely_failure_makes_the_unit_cheaper_at_once() -> None:
    """At 30 % the stripping costs 38 + 0.7 x 102 = 109.40, more than 102 at once; they break even at 62.7 % failing."""
    assert stripped(good="30 %").solution.cost == 10200
    assert stripped(good="37.3 %").solution.cost == 10195
    assert stripped(good="37.2 %").solution.cost == 10200


def test_both_on_the_axle_though_one_is_bad() -> None:
    """`renew: across-axle`: two units though only the left one is seized; where each is by itself, one."""
    made, one = stripped(good="1 %"), stripped(good="1 %", renew="each")
    assert [(line.need.id, line.need.across) for line in made.lines] == [("front/gripper", True)]
    assert (made.solution.cost, one.solution.cost) == (9000 + 1200, 4900 + 600)
    assert [line.need.id for line in one.lines] == ["front/gripper@left"]
