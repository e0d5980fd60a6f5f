"""A tiny shop in memory: one car with a few places and the makers' parts for them, and whatever a test writes besides."""

from __future__ import annotations

from datetime import date

from fitlore.graph.open import Graph
from fitlore.model.record import Currency, Name
from fitlore.model.shop import ExchangeRate, Shop
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.plan import Plan, plan
from tests.fitting.donor_books import STANDARDS, records

CAR = """
- category: piece
  names: {en-gb: piece}
  safety: none
  sides: none
- category: washer
  names: {en-gb: washer}
  safety: none
  sides: none
- category: pump
  broader: piece
  names: {en-gb: pump}
  renew-with:
    - {is: washer, quantity: 2, one-use: yes}
- policy: tiny
  vat:
    - {country: GB, charge: 20 %, since: 2011-01-04}
    - {country: GB, charge: 17.5 %, since: 1991-04-01}
  import-duty: DUTY
- platform: kestin-tolland
  name: Kestin Tolland
  maker: Kestin
  assemblies:
    front:
      places:
        p: {is: piece, original: P}
        q: {is: piece, original: Q}
        r: {is: piece, original: R}
    back:
      places:
        pump: {is: pump, original: PUMP}
        pump-ring: {is: washer, original: RING}
    side:
      places:
        pump: {is: pump, original: PUMP}
- part: P
  maker: Kestin
  is: piece
- part: Q
  maker: Kestin
  is: piece
- part: R
  maker: Kestin
  is: piece
- part: PUMP
  maker: Kestin
  is: pump
- part: RING
  maker: Kestin
  is: washer
"""
GREEN = """
- car: green
  is: kestin-tolland
"""
JOB = """
- job: small
  for: green
  today: 2026-12-03
"""
NO_DUTY = "[{country: GB, coming-from: XK, charge: 0 %, since: 2026-01-01}]"


def shop_of(
    books: str,
    *,
    reclaims: bool | None = None,
    rates: tuple[ExchangeRate, ...] = (),
    duty: str = NO_DUTY,
    car: str = GREEN,
) -> Graph:
    """The tiny shop in GB with these further books."""
    shop = Shop(
        shop=Name("small"),
        person="shop",
        country="GB",
        currency=Currency("GBP"),
        rates=rates,
        reclaims_vat=reclaims,
    )
    rows = [*records(CAR.replace("DUTY", duty) + car), *records(books, "shop/more.yaml")]
    return Graph.from_records(rows, STANDARDS, shop)


def planned(graph: Graph, wishes: Wishes | None = None) -> Plan:
    """The plan of its job, without explanations."""
    job = graph.job("small")
    assert job is not None
    return plan(graph, job, wishes or Wishes(today=date(2026, 12, 3)), explain=False)


def found(*places: str, more: str = "") -> str:
    """A job with one must-be finding at each of these places, and what is written besides."""
    rows = "".join(f"    - {{at: {place}, fault: broken, must: runs}}\n" for place in places)
    return f"{JOB}{more}  findings:\n{rows}"


def bought(made: Plan) -> dict[str, int]:
    """Offer to packs."""
    return {row.offer: row.packs for row in made.solution.bought}
