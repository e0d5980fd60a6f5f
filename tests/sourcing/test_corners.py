"""Plans where several rules meet: what is sold once, what comes late, what fills up, what is fitted in part, days without orders.

Every figure is worked by hand in the test that holds it; 3 December 2026 is a Thursday (calendar).
"""

from __future__ import annotations

from datetime import date, time

import pytest

from fitlore.report.plans import plan_lines
from fitlore.report.plans_besides import besides_json
from fitlore.sourcing.coins import OtherCurrency
from fitlore.sourcing.opening import last_order, waits
from fitlore.sourcing.plan import Plan
from tests.sourcing.test_two_stages import CALIPERS
from tests.sourcing.tiny import JOB, bought, found, planned, shop_of

FACTOR = """
- supplier: factor
  trade: factor
  carriage: {fixed: 5.00 GBP}
  offers:
    - {number: P, price: 20.00 GBP, days: 1}
    - {number: Q, price: 7.00 GBP, days: 1}
"""


def text(made: Plan) -> str:
    """What `plan` prints, as one text with plain spaces."""
    return "\n".join(line.text for line in plan_lines(made)).replace("\N{NO-BREAK SPACE}", " ")


YARD = """
- supplier: yard
  trade: breaker
  offers:
    - {any: piece, price: 12.00 GBP, state: used}
    - {any: pump, price: 10.00 GBP, state: used}
- supplier: agent
  trade: dealer
  offers:
    - {number: PUMP, price: 40.00 GBP}
- donor: field-one
  is: kestin-tolland
  from: yard
  still-has:
    - {at: side/pump, number: PUMP}
  gone: [back, front]
"""


def test_one_pump_is_not_sold_at_two_prices_by_kind() -> None:
    """A pump is a piece too, and one stands in the yard: 10.00 and the agent's 40.00, not 10.00 and 12.00."""
    made = planned(shop_of(found("back/pump", "side/pump") + YARD))
    assert made.solution.cost == 5000
    assert bought(made) == {"agent PUMP new": 1, "yard pump used": 1}


@pytest.mark.parametrize(("stock", "pence"), [("", 2400), (", stock: 1", 5200), (", stock: 2", 2400)])
def test_a_stock_by_kind_holds_for_all_of_the_kind(stock: str, pence: int) -> None:
    """P and Q stand there and any piece is 12.00: with a stock of one, only one of them comes from the yard."""
    yard = f"""
- supplier: yard
  trade: breaker
  offers:
    - {{any: piece, price: 12.00 GBP, state: used{stock}}}
- supplier: agent
  trade: dealer
  offers:
    - {{number: P, price: 40.00 GBP}}
    - {{number: Q, price: 40.00 GBP}}
- donor: field-one
  is: kestin-tolland
  from: yard
  still-has:
    - {{at: front/p, number: P}}
    - {{at: front/q, number: Q}}
  gone: [back, side, front/r]
"""
    assert planned(shop_of(found("front/p", "front/q") + yard)).solution.cost == pence


TWO_PLACES = CALIPERS.replace(
    "        gripper: {is: gripper, original: GRIP, minutes: 30}",
    "        gripper: {is: gripper, original: GRIP, minutes: 30}\n"
    "    rear:\n      places:\n        gripper: {is: gripper, original: GRIP, minutes: 30}",
).replace(
    "    - at: front/gripper\n",
    "    - {at: rear/gripper, fault: gone, must: runs}\n    - at: front/gripper\n",
)


def two_grippers(*, stores: bool, stock: str = "") -> Plan:
    """One finding in two stages and one without; what stands in the stores, and how many the rebuilder has."""
    books = TWO_PLACES.replace("BY", "2026-12-11").replace("GOOD", "50 %").replace("RENEW", "each")
    books = books.replace("state: exchange, days: 4", f"state: exchange, days: 4{stock}")
    return planned(
        shop_of(books + "\n- stores: bench\n  has:\n    - {number: GRIP, state: exchange}\n" * stores)
    )


def test_the_bad_branch_does_not_take_what_the_other_finding_takes() -> None:
    """One unit on the bench: it is fitted at one place, the other's is 49.00; 12.00 of hands: 61.00.

    Stripping is 38.00 and half of 49.00 + 6.00, with the bench's unit at the rear (6.00): 71.50. A branch that counts on the
    bench's unit too came to 47.00.
    """
    made = two_grippers(stores=True)
    assert made.solution.cost == 6100
    assert bought(made) == {"own stores GRIP exchange": 1, "rebuilder GRIP exchange": 1}


def test_the_bad_branch_does_not_take_the_last_one_twice() -> None:
    """The rebuilder has one: 49.00 + 60.00 + 12.00 = 121.00; stripping, with the branch from near by: 55 + 38 + 33 = 126.00.

    Of two, both are taken at once: 82.00 + 8.00 + 12.00 = 102.00.
    """
    made = two_grippers(stores=False, stock=", stock: 1")
    assert made.solution.cost == 12100
    assert two_grippers(stores=False, stock=", stock: 2").solution.cost == 10200


WEEKDAYS = "  trade: reconditioner\n  open: {monday-friday: 08:00/17:00}\n"


@pytest.mark.parametrize(
    ("by", "days", "look"),
    [
        ("2026-12-08", 4, "Fri 4 Dec"),
        ("2026-12-09", 5, "Fri 4 Dec"),
        ("2026-12-10", 6, "Fri 4 Dec"),
        ("2026-12-11", 4, "Mon 7 Dec"),
    ],
)
def test_the_bad_branch_is_not_ordered_on_a_day_without_orders(by: str, days: int, look: str) -> None:
    """The rebuilder takes four days from Monday to Friday: ordered by Friday it is there on Tuesday, on Monday on Friday."""
    books = CALIPERS.replace("BY", by).replace("GOOD", "70 %").replace("RENEW", "across-axle")
    made = planned(shop_of(books.replace("  trade: reconditioner\n", WEEKDAYS, 1)))
    assert made.solution.cost == 6860
    assert f"in hand {days} days after the look; so look by {look}" in text(made)


def test_a_look_that_comes_on_saturday_is_too_late_for_a_weekday_seller() -> None:
    """Rings on day 2 (Saturday), four days from Monday: Friday, and Thursday is the last day; the near one takes two days."""
    books = CALIPERS.replace("BY", "2026-12-10").replace("GOOD", "70 %").replace("RENEW", "across-axle")
    books = books.replace("RINGS, price: 10.00 GBP, days: 1", "RINGS, price: 10.00 GBP, days: 2")
    assert planned(shop_of(books)).solution.cost == 6860
    assert planned(shop_of(books.replace("  trade: reconditioner\n", WEEKDAYS, 1))).solution.cost == 7760


@pytest.mark.parametrize(
    ("due", "pence", "overdue"),
    [("2026-12-02", 2500, 1), ("2026-12-03", 0, 0)],
)
def test_what_should_be_here_and_is_not_is_not_counted_on(due: str, pence: int, overdue: int) -> None:
    """P was due yesterday and is not here: another one is bought, 20.00 + 5.00, and it is said."""
    more = f"  in-hand-by: 2026-12-09\n  purchases:\n    - {{number: P, now: on-order, due: {due}}}\n"
    made = planned(shop_of(found("front/p", more=more) + FACTOR))
    assert (made.solution.cost, len(besides_json(made)["overdue"])) == (pence, overdue)
    words = "on order and not here though due, so not counted on: 1 x P (due Wed 2 Dec)"
    assert (words in text(made)) == bool(overdue)
    assert "no use in this plan" not in text(made)


@pytest.mark.parametrize(
    ("fitted", "wanted", "left"), [("", 3, 3), ("quantity: 1, ", 3, 2), ("quantity: 2, ", 3, 1)]
)
def test_what_is_fitted_in_part_is_bought_in_part(fitted: str, wanted: int, left: int) -> None:
    """Of three, those that are in already are not bought again."""
    bought_rows = f"  purchases:\n    - {{number: P, at: front/p, {fitted}now: fitted}}\n" if fitted else ""
    rows = f"  findings:\n    - {{at: front/p, quantity: {wanted}, fault: broken, must: runs}}\n"
    made = planned(shop_of(JOB + bought_rows + rows + FACTOR))
    assert made.solution.cost == left * 2000 + 500
    assert (f"{wanted - left} fitted already" in text(made)) == (left < wanted)


def test_of_a_pair_across_the_axle_none_is_bought_alone() -> None:
    """One of the two was fitted: both are counted all the same, and it is said."""
    books = CALIPERS.replace("BY", "2026-12-11").replace("GOOD", "1 %").replace("RENEW", "across-axle")
    books = books.replace(
        "  findings:\n    - at: front/gripper\n      side: left\n",
        "  purchases:\n    - {number: GRIP, at: front/gripper@left, now: fitted}\n"
        "  findings:\n    - at: front/gripper\n      side: both\n",
    )
    made = planned(shop_of(books))
    assert made.solution.cost == 9000 + 1200
    assert "1 fitted already; of this kind never one alone, so all are counted" in text(made)


@pytest.mark.parametrize(
    ("tax", "stock", "filler", "pence"),
    [
        ("in-the-price", "", "14.00", 1900),
        ("in-the-price", ", stock: 1", "14.00", 1900),
        ("in-the-price", ", stock: 1", "16.00", 2100),
        ("on-top", ", stock: 1", "14.00", 2280),
        ("on-top", ", stock: 1", "16.00", 2520),
    ],
)
def test_a_minimum_order_is_reached_by_whatever_reaches_it(
    tax: str, stock: str, filler: str, pence: int
) -> None:
    """1.00 wanted, 15.00 asked before tax: Q and a can of 14.00 or 16.00, carriage 4.00; with 20 % on top of all of it."""
    graph = shop_of(
        found("front/q")
        + f"""
- supplier: post
  trade: factor
  tax: {tax}
  country: GB
  carriage: {{fixed: 4.00 GBP, minimum-order: 15.00 GBP}}
  offers:
    - {{number: Q, price: 1.00 GBP{stock}}}
    - {{number: CAN, price: {filler} GBP}}
"""
    )
    assert planned(graph).solution.cost == pence


def test_cheap_things_do_not_hide_the_one_that_fills_up() -> None:
    """Thirteen clips of 0.50 come to 6.50, one of each; the can alone lifts 1.00 to the minimum of 15.00."""
    clips = "".join(f"    - {{number: CLIP {n}, price: 0.50 GBP, stock: 1}}\n" for n in range(13))
    graph = shop_of(
        found("front/q")
        + f"""
- supplier: post
  trade: factor
  carriage: {{fixed: 4.00 GBP, minimum-order: 15.00 GBP}}
  offers:
    - {{number: Q, price: 1.00 GBP, stock: 1}}
    - {{number: CAN, price: 14.00 GBP}}
{clips}"""
    )
    assert planned(graph).solution.cost == 1900


def test_a_sale_in_another_currency_is_refused_before_anything_is_solved() -> None:
    """The figures of the job are in the shop's currency, or there is no plan."""
    with pytest.raises(OtherCurrency):
        planned(shop_of(found("front/p", more="  expected-sale: 1200.00 EUR\n") + FACTOR))


@pytest.mark.parametrize(
    ("terms", "lead", "bound", "last"),
    [
        ("open: {monday-friday: 08:00/17:00}", 3, 6, 1),
        ("open: {monday-friday: 08:00/17:00}", 1, 6, 5),
        ("open: {monday-friday: 08:00/17:00}", 3, 8, 5),
        ("open: {saturday: 08:00/12:00}", 3, 6, 2),
        ("open: {saturday: 08:00/12:00}", 3, 4, None),
        ("closed: 2026-12-04/2026-12-08", 1, 6, 0),
    ],
)
def test_the_last_day_an_order_is_taken_in_time(terms: str, lead: int, bound: int, last: int | None) -> None:
    """From Thursday 3 December, days 2 and 3 are the weekend: three days to Wednesday start on Friday."""
    seller = shop_of(FACTOR.replace("  trade: factor", f"  trade: factor\n  {terms}")).supplier("factor")
    assert seller is not None
    today = date(2026, 12, 3)
    assert last_order(seller, today, lead, bound) == last
    tried = [d for d in range(bound + 1) if d + waits(seller, date(2026, 12, 3 + d)) + lead <= bound]
    assert last == max(tried, default=None)


def test_an_order_is_sent_on_a_day_on_which_it_is_taken() -> None:
    """Three days, weekdays only, Wednesday the last day: Friday, for what is sent on Sunday is taken on Monday."""
    seller = """
- supplier: factor
  trade: factor
  open: {monday-friday: 08:00/17:00}
  offers:
    - {number: P, price: 20.00 GBP, days: 3}
"""
    made = planned(shop_of(found("front/p", more="  in-hand-by: 2026-12-09\n") + seller))
    assert "order by Fri 4 Dec" in text(made)


def test_an_order_past_the_hour_cannot_go_today() -> None:
    """One day, Friday the last day, the hour 15:00: at 16:00 on Thursday it is too late, at 15:00 not."""
    terms = "  trade: factor\n  cut-off: '15:00'"
    seller = shop_of(FACTOR.replace("  trade: factor", terms)).supplier("factor")
    assert seller is not None
    assert last_order(seller, date(2026, 12, 3), 1, 1, time(16)) is None
    assert last_order(seller, date(2026, 12, 3), 1, 1, time(15)) == 0
    assert last_order(seller, date(2026, 12, 3), 1, 2, time(16)) == 1
