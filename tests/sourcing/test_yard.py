"""Yard prices by kind: they count for a part that is known to stand there, and for no other; no piece is sold twice."""

from __future__ import annotations

import pytest

from fitlore.report.plans import plan_lines
from tests.sourcing.tiny import bought, found, planned, shop_of

YARD = """
- supplier: yard
  trade: breaker
  offers:
    - {any: piece, price: 12.00 GBP, state: used, days: 1}
WHOLE
- supplier: agent
  trade: dealer
  offers:
    - {number: P, price: 40.00 GBP}
    - {number: Q, price: 40.00 GBP}
"""
DONOR = """
- donor: field-one
  is: kestin-tolland
  from: SELLER
  still-has:
    - {at: front/p, number: P}
  gone: [back, side, front/q, front/r]
"""
WHOLE = """
    - {whole-car: Tolland 1984, price: 20.00 GBP, comes-off: field-one, stock: 1, brings: [{number: P}]}
"""


def made(places: tuple[str, ...], donor: str = "yard", whole: str = ""):  # type: ignore[no-untyped-def]
    """The plan with a donor that stands with this seller."""
    books = YARD.replace("WHOLE\n", whole.lstrip("\n")) + (DONOR.replace("SELLER", donor) if donor else "")
    return planned(shop_of(found(*places) + books))


def test_a_part_that_stands_there_costs_the_price_by_kind() -> None:
    """P was seen on the donor in the yard: 12.00, not 40.00 from the agent."""
    plan = made(("front/p",))
    assert (plan.solution.cost, bought(plan)) == (1200, {"yard piece used": 1})
    words = "\n".join(line.text for line in plan_lines(plan)).replace("\N{NO-BREAK SPACE}", " ")
    assert "P: piece used from yard" in words


@pytest.mark.parametrize("donor", ["", "agent"])
def test_a_price_by_kind_alone_is_no_part(donor: str) -> None:
    """Without a donor in that yard nobody knows whether one stands there: the agent's at 40.00, and the offer is left out."""
    plan = made(("front/p",), donor)
    assert (plan.solution.cost, bought(plan)) == (4000, {"agent P new": 1})
    assert [row.code for row in plan.assembled.market.left_out] == ["not-seen-there"]


def test_what_is_gone_from_the_donor_is_not_there() -> None:
    """Q is gone: it comes from the agent."""
    assert made(("front/p", "front/q")).solution.cost == 1200 + 4000


def test_there_is_only_as_much_as_stands_there() -> None:
    """Two are wanted, one stands there."""
    assert bought(made(("front/p", "front/p"))) == {"agent P new": 1, "yard piece used": 1}


def test_a_piece_is_not_sold_singly_and_with_the_whole_car() -> None:
    """Whole at 20.00, or the piece at 12.00: two wanted are one of these and one from the agent, 52.00 and not 32.00."""
    plan = made(("front/p", "front/p"), whole=WHOLE)
    assert plan.solution.cost == 1200 + 4000
    assert sum("yard" in name for name in bought(plan)) == 1
