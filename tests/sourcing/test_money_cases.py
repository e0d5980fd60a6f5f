"""Cases from practice through books, to the penny: surcharge, carriage and filler, sold only complete, tax, border, currency.

The figures of H1, H2 and H8 are worked cases from practice (invented prices); the rules they rest on are named beside each.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from fitlore.fitting import Question, answer
from fitlore.model.amounts import Rate
from fitlore.model.record import Currency
from fitlore.model.shop import ExchangeRate
from fitlore.sourcing.paths import sources_for
from fitlore.sourcing.plan import Plan
from tests.sourcing.tiny import bought, found, planned, shop_of


def cost(made: Plan) -> int:
    """In pence."""
    assert made.solution.cost is not None, made.clash
    return made.solution.cost


@pytest.mark.parametrize(
    ("accepted", "chosen", "pence"),
    [("70 %", "exchange", 6600), ("53.4 %", "exchange", 7098), ("53.2 %", "new", 7100)],
)
def test_exchange_against_a_pattern_part(accepted: str, chosen: str, pence: int) -> None:
    """H1: 48 + 9 back + 30 x (1 - p) = 66.00 at 70 %, against 71 new; they break even at p = 0.533."""
    graph = shop_of(
        found("front/p")
        + f"""
- supplier: rebuilder
  trade: reconditioner
  offers:
    - number: P
      price: 48.00 GBP
      state: exchange
      surcharge: 30.00 GBP
      old-unit: {{accepted: {accepted}, return: 9.00 GBP}}
- supplier: factor
  trade: factor
  offers:
    - {{number: P, price: 71.00 GBP}}
"""
    )
    made = planned(graph)
    assert cost(made) == pence
    assert [name.rpartition(" ")[2] for name in bought(made)] == [chosen]
    assert made.solution.totals.cash_now == (7800 if chosen == "exchange" else 7100)


TWO_SHOPS = """
- supplier: a
  trade: factor
  carriage: {fixed: 6.50 GBP, free-from: LIMIT GBP}
  offers:
    - {number: P, price: 22.00 GBP}
    - {number: Q, price: 9.00 GBP}
    - {number: R, price: 14.00 GBP}
    - {number: CLIP, price: FILLER}
    - {number: DEAR, price: 30.00 GBP}
- supplier: b
  trade: factor
  carriage: {fixed: 4.95 GBP, free-from: 60.00 GBP, minimum-order: 15.00 GBP}
  offers:
    - {number: P, price: 19.50 GBP}
    - {number: Q, price: 11.00 GBP}
    - {number: R, price: 12.00 GBP}
"""


@pytest.mark.parametrize(
    ("limit", "filler", "pence", "fills"),
    [
        ("45.00", "2.00 GBP", 4500, 0),
        ("46.00", "2.00 GBP", 4700, 1),
        ("46.00", "2.50 GBP", 4745, 0),
        ("48.00", "1.00 GBP", 4745, 0),
        ("47.00", "0.90 GBP", 4745, 0),
        ("46.50", "0.70 GBP", 4710, 3),
    ],
)
def test_three_parts_two_shops_and_a_filler(limit: str, filler: str, pence: int, fills: int) -> None:
    """H2: all from A 45.00 (limit included); all from B 47.45; with A's limit at 46, A and a filler of 2.00 is 47.00.

    Every mix by hand: 45.00 and what lifts it to the limit, against 42.50 + 4.95 from B.
    """
    books = TWO_SHOPS.replace("LIMIT", limit).replace("FILLER", filler)
    made = planned(shop_of(found("front/p", "front/q", "front/r") + books))
    assert cost(made) == pence
    assert sum(packs for name, packs in bought(made).items() if "CLIP" in name) == fills
    assert {name for name in bought(made) if name in made.assembled.market.fillers} == (
        {"a CLIP new"} if fills else set()
    )


def test_a_minimum_order_is_reached_by_a_filler() -> None:
    """9.00 wanted, 15.00 asked for: the two packs of 3.00 are cheaper than the one of 7.00, and nothing else sells it."""
    graph = shop_of(
        found("front/q")
        + """
- supplier: post
  trade: factor
  carriage: {fixed: 4.00 GBP, minimum-order: 15.00 GBP}
  offers:
    - {number: Q, price: 9.00 GBP}
    - {number: CLIP, price: 3.00 GBP}
    - {number: CAN, price: 7.00 GBP}
    - {number: WORN, price: 6.00 GBP, state: used}
"""
    )
    made = planned(graph)
    assert (cost(made), bought(made)) == (1900, {"post CLIP new": 2, "post Q new": 1})


def test_a_bush_that_is_not_sold_alone_is_mended() -> None:
    """H5: whole wishbones are 130 each, two of them 260; shortening the sleeve takes no parts, 90 minutes at 12.00 = 18.00."""
    books = """
- supplier: agent
  trade: dealer
  offers:
    - {number: P, price: 130.00 GBP}
"""
    graph = shop_of(
        """
- job: small
  for: green
  today: 2026-12-03
  hands: {minutes: 600, worth: 12.00 GBP}
  findings:
    - at: front/p
      quantity: 2
      fault: rubber worn
      must: inspection
      routes:
        - {route: refurbish, do: shorten the sleeve and grease it, minutes: 90, tell-buyer: mended bush}
"""
        + books
    )
    made = planned(graph)
    assert (cost(made), bought(made)) == (1800, {})
    (line,) = made.lines
    assert line.choice is not None
    assert line.choice.route is not None
    assert line.choice.route.tell_buyer == "mended bush"


SELLERS = """
- supplier: factor
  trade: factor
  tax: in-the-price
  country: GB
  carriage: {fixed: 6.00 GBP}
  offers:
    - {number: P, price: 60.00 GBP}
- supplier: neighbour
  trade: private
  tax: none
  country: GB
  offers:
    - {number: P, price: 58.00 GBP}
- supplier: trade-counter
  trade: factor
  tax: on-top
  country: GB
  offers:
    - {number: P, price: 52.50 GBP}
"""


def alone(books: str, seller: str, **settings: object) -> Plan:
    """The plan where only this one sells."""
    rest = [f"\n- supplier: {text}" for text in books.split("\n- supplier: ")[1:]]
    return planned(shop_of(found("front/p") + next(row for row in rest if seller in row), **settings))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("seller", "gross", "net"),
    [("factor", 6600, 5500), ("neighbour", 5800, 5800), ("trade-counter", 6300, 5250)],
)
def test_tax_by_the_shops_view(seller: str, gross: int, net: int) -> None:
    """H8: gross 66.00 (with carriage), 58.00, 52.50 + 20 % = 63.00; net 55.00, 58.00 (nothing to reclaim), 52.50.

    20 % in 60.00 is 10.00, in 6.00 it is 1.00 (a sixth of the price: VAT Notice 700 section on the VAT fraction, memory). A
    shop that reclaims pays the whole now all the same.
    """
    plain, back = alone(SELLERS, seller), alone(SELLERS, seller, reclaims=True)
    assert cost(plain) == plain.solution.totals.cash_now == gross
    assert cost(back) == net
    assert back.solution.totals.cash_now == gross


def test_the_order_of_sellers_flips_with_the_tax_view() -> None:
    """H8: who reclaims nothing buys of the neighbour at 58.00; who does, of the trade counter at 52.50 net."""
    books = found("front/p") + SELLERS
    plain, back = planned(shop_of(books, reclaims=False)), planned(shop_of(books, reclaims=True))
    assert (cost(plain), list(bought(plain))) == (5800, ["neighbour P new"])
    assert (cost(back), list(bought(back))) == (5250, ["trade-counter P new"])


def test_the_rate_in_force_on_the_day_counts() -> None:
    """17.5 % before 4 January 2011 (memory), 20 % since: 52.50 + 9.19 (9.1875 half up) on the day before."""
    from fitlore.sourcing.assemble import Wishes

    graph = shop_of(
        found("front/p") + "- supplier: trade-counter" + SELLERS.partition("- supplier: trade-counter")[2]
    )
    assert cost(planned(graph, Wishes(today=date(2011, 1, 3)))) == 6169
    assert cost(planned(graph, Wishes(today=date(2011, 1, 4)))) == 6300


ABROAD = """
- supplier: far
  trade: specialist
  tax: none
  country: XK
  carriage: {fixed: 20.00 EUR}
  offers:
    - {number: P, price: 100.00 EUR}
"""
RATES = (
    ExchangeRate(currency=Currency("EUR"), rate=Rate(Decimal("0.80"), "GBP"), date=date(2026, 11, 1)),
    ExchangeRate(currency=Currency("EUR"), rate=Rate(Decimal("0.8614"), "GBP"), date=date(2026, 11, 20)),
    ExchangeRate(currency=Currency("EUR"), rate=Rate(Decimal("0.50"), "GBP"), date=date(2026, 12, 4)),
)
DUTY = "[{country: GB, coming-from: XK, charge: 4.5 %, since: 2026-01-01}]"


@pytest.mark.parametrize(("reclaims", "pence"), [(False, 12963), (True, 10803)])
def test_duty_on_goods_and_carriage_then_tax_on_all_of_it(reclaims: bool, pence: int) -> None:
    """Duty on goods and carriage, VAT on goods, carriage and duty (gov.uk, tax and customs for goods sent from abroad; memory).

    100.00 EUR at the rate of 20 November (the one of 4 December is later than the day) 86.14; 4.5 % 3.88; 20 % of 90.02
    18.00: 108.02. Carriage 17.23; 0.78; 20 % of 18.01 3.60: 21.61. Together 129.63, less nothing or 21.60 reclaimed.
    """
    made = alone(ABROAD, "far", reclaims=reclaims, rates=RATES, duty=DUTY)
    assert (made.orders[0].goods, made.orders[0].fee) == (10802, 2161)
    assert (cost(made), made.solution.totals.cash_now) == (pence, 12963)


def test_the_narrowest_kind_of_goods_has_its_own_duty_and_carriage_bears_the_highest() -> None:
    """Pieces at 2 %, all else at 10 %: 86.14 + 1.72 + 17.57 = 105.43; carriage 17.23 + 1.72 + 3.79 = 22.74."""
    duty = (
        "[{country: GB, charge: 10 %, since: 2026-01-01}, "
        "{country: GB, is: piece, charge: 2 %, since: 2026-01-01}]"
    )
    made = alone(ABROAD, "far", rates=RATES, duty=duty)
    assert (made.orders[0].goods, made.orders[0].fee) == (10543, 2274)


@pytest.mark.parametrize(
    ("rates", "duty", "code"),
    [
        ((), DUTY, "other-currency"),
        (RATES, DUTY.replace("XK", "XY"), "border-not-known"),
        (RATES[2:], DUTY, "other-currency"),
    ],
)
def test_what_nobody_can_reckon_is_left_out_and_said(
    rates: tuple[ExchangeRate, ...], duty: str, code: str
) -> None:
    """Without a rate of that day, or a word on what the border takes, the offer is no part of any plan."""
    made = alone(ABROAD, "far", rates=rates, duty=duty)
    assert made.solution.status == "infeasible"
    assert [row.code for row in made.assembled.market.left_out] == [code]


def test_limits_in_the_sellers_own_coin() -> None:
    """Free from 100.00 EUR, and the basket is 100.00 EUR: carried free, whatever that is in pounds (0 % duty, 20 % VAT)."""
    books = ABROAD.replace("fixed: 20.00 EUR", "fixed: 20.00 EUR, free-from: 100.00 EUR")
    made = alone(books, "far", rates=RATES)
    assert (made.orders[0].goods, made.orders[0].fee, cost(made)) == (8614 + 1723, 0, 10337)


WRONG = """
- policy: chances
  chance: {measured: 90 %}
  classes:
    - {safety: none, least: measured}
- part: ALT
  maker: Ostra
  is: piece
- crossfit: alt-for-p
  instead-of: P
  use: ALT
  reaches: kestin-tolland
  evidence:
    - {how: measured, by: shop, date: 2026-01-10}
- supplier: post
  trade: factor
  TERMS
  offers:
    - {number: ALT, price: 10.00 GBP}
    - {number: P, price: NEW GBP}
"""


@pytest.mark.parametrize(
    ("terms", "new", "pence", "chosen"),
    [
        ("takes-back: {fee: 4.00 GBP, refunds: 80 %}", "10.61", 1060, "ALT"),
        ("takes-back: {fee: 4.00 GBP, refunds: 80 %}", "10.59", 1059, "P"),
        ("takes-back: {fee: 4.00 GBP}", "10.41", 1040, "ALT"),
        ("takes-back: {fee: 4.00 GBP}", "10.39", 1039, "P"),
        ("takes-back: {refunds: 0 %}", "10.99", 1099, "P"),
        ("country: GB", "10.01", 1000, "ALT"),
    ],
)
def test_what_a_wrong_part_is_expected_to_cost(terms: str, new: str, pence: int, chosen: str) -> None:
    """A word that holds nine times in ten: a tenth of the 4.00 to send it back and of the 2.00 that is not refunded.

    Where a supplier says nothing on returns nothing is reckoned. The maker's own part rests on no word.
    """
    made = planned(shop_of(found("front/p") + WRONG.replace("TERMS", terms).replace("NEW", new)))
    assert (cost(made), list(bought(made))) == (pence, [f"post {chosen} new"])


@pytest.mark.parametrize(("reclaims", "landed"), [(False, (5800, 6300, 6600)), (True, (5250, 5500, 5800))])
def test_where_reckons_as_a_plan_does(reclaims: bool, landed: tuple[int, ...]) -> None:
    """The three sellers of H8 by themselves, cheapest first: 58.00, 63.00, 66.00 gross; 52.50, 55.00, 58.00 net."""
    graph = shop_of(found("front/p") + SELLERS, reclaims=reclaims)
    car, place = graph.car("green"), graph.place("kestin-tolland", "front/p")
    assert car is not None
    assert place is not None
    sources = sources_for(graph, answer(graph, Question(place, car)), 1, date(2026, 12, 3))
    assert tuple(source.landed for source in sources.sources) == landed


def test_where_expects_the_loss_of_a_wrong_part() -> None:
    """A tenth of the 6.00 that a wrong one costs on top of 10.00."""
    graph = shop_of(
        found("front/p")
        + WRONG.replace("TERMS", "takes-back: {fee: 4.00 GBP, refunds: 80 %}").replace("NEW", "11.00")
    )
    car, place = graph.car("green"), graph.place("kestin-tolland", "front/p")
    assert car is not None
    assert place is not None
    sources = sources_for(graph, answer(graph, Question(place, car)), 1, date(2026, 12, 3)).sources
    assert [(source.lost, source.landed) for source in sources] == [(60, 1060), (0, 1100)]
