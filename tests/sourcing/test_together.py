"""What two findings of one job must not bring to each other: forbidden pairs hold inside a plan too."""

from __future__ import annotations

import pytest

from tests.sourcing.tiny import bought, found, planned, shop_of

BOOKS = """
- policy: chances
  classes:
    - {safety: none, least: measured}
- part: ALT
  maker: Ostra
  is: piece
- part: QX
  maker: Ostra
  is: piece
- crossfit: alt-for-p
  instead-of: P
  use: ALT
  reaches: kestin-tolland
  NEVER
  evidence:
    - {how: measured, by: shop, date: 2026-01-10}
- crossfit: qx-for-q
  instead-of: Q
  use: QX
  reaches: kestin-tolland
  evidence:
    - {how: measured, by: shop, date: 2026-01-10}
- supplier: post
  trade: factor
  offers:
    - {number: P, price: 21.00 GBP}
    - {number: ALT, price: 10.00 GBP}
    - {number: Q, price: 15.00 GBP}
    - {number: QX, price: 5.00 GBP}
"""


@pytest.mark.parametrize(
    ("never", "pence", "parts"),
    [
        ("goes: one-way", 1500, {"ALT", "QX"}),
        ("never-with: [{use: QX, at: front/q, why: they touch}]", 2500, {"ALT", "Q"}),
        ("never-with: [{use: Ostra QX, at: front/q, why: they touch}]", 2500, {"ALT", "Q"}),
        ("never-with: [{use: QX, at: front/r, why: they touch}]", 1500, {"ALT", "QX"}),
    ],
)
def test_a_forbidden_pair_is_not_planned(never: str, pence: int, parts: set[str]) -> None:
    """On the car stand R at r and Q at q, so ALT may go in; QX beside it may not (10 + 15 against 21 + 5 and 10 + 5)."""
    car = "- car: green\n  is: kestin-tolland\n"
    books = BOOKS.replace("NEVER", never)
    known = """  really-on-it:
    front/q: {number: Q, how: measured, by: shop}
    front/r: {number: R, how: measured, by: shop}
"""
    made = planned(shop_of(found("front/p", "front/q") + books, car=car + known))
    assert (made.solution.cost, {name.split()[1] for name in bought(made)}) == (pence, parts)
