"""Small invented books for the tests of donors: one car, two platforms to take parts off, and what goes instead of what."""

from __future__ import annotations

from fitlore.books.reading import read_book
from fitlore.fitting import Question, answer
from fitlore.fitting.donors_wanted import Wanted
from fitlore.graph.open import Graph
from fitlore.model.job import Shop
from fitlore.model.record import Name, Rec
from tests.trade.loading import STANDARDS

BOOK = """
- category: seat
  sides: mirror
  features: {base: {kind: text, role: mates}}
- category: radiator
  features: {width: {kind: length, rule: same, role: mates}}
  keep: own fan switch
- category: hose
  features: {bore: {kind: length, rule: same, role: mates}}
- category: cylinder
  safety: braking
  used: never
  features: {bore: {kind: length, rule: same, role: works}}
- category: belt
  safety: restraint
  features: {tongue: {kind: text, role: mates}}
- category: switch
  features: {thread: {kind: thread, rule: same, role: mates, end: male}}
- category: damper
  features: {length: {kind: length, rule: same, role: mates}}
- policy: small
  classes:
    - {safety: none, least: [fitted, measured], by-measure-may-be-bought: yes}
    - {safety: braking, least: fitted}
    - {safety: restraint, least: fitted, no-used: yes}
- platform: kestin-tolland
  maker: Kestin
  facts: {chassis: {series: [KT]}}
  assemblies:
    cooling:
      places:
        radiator: {is: radiator, original: KT 10}
        hose: {is: hose, original: KT 11}
        switch: {is: switch, original: KT 12}
    inside:
      sides: [left, right]
      places:
        seat: {is: seat, original: [{number: KT 20 L}, {number: KT 20 R}]}
        belt: {is: belt, original: KT 21}
    axle:
      sides: [left, right]
      places:
        cylinder: {is: cylinder, original: KT 30}
        damper: {is: damper, original: KT 31}
- platform: tarn-corva
  name: Tarn Corva saloon
  maker: Tarn
  facts: {chassis: {series: [TC]}}
  assemblies:
    cooling:
      places:
        radiator:
          is: radiator
          original:
            - {number: TC 10, only-if: {chassis: {TC: ../500}}}
            - {number: TC 19, only-if: {chassis: {TC: 501/..}}}
        hose: {is: hose, original: TC 11}
        switch: {is: switch, original: TC 12}
    inside:
      sides: [left, right]
      places:
        seat: {is: seat, original: [{number: TC 20 L}, {number: TC 20 R}]}
        belt: {is: belt, original: KT 21}
    axle:
      sides: [left, right]
      places:
        cylinder: {is: cylinder, original: TC 30}
        damper: {is: damper, original: TC 31}
- {part: KT 10, maker: Kestin, is: radiator, features: {width: 400 mm}}
- {part: KT 11, maker: Kestin, is: hose, features: {bore: 38 mm}}
- {part: KT 12, maker: Kestin, is: switch, features: {thread: M10x1}}
- {part: KT 20 L, maker: Kestin, is: seat, side: left, features: {base: round}}
- {part: KT 20 R, maker: Kestin, is: seat, side: right, features: {base: round}}
- {part: KT 21, maker: Kestin, is: belt, features: {tongue: wide}}
- {part: KT 30, maker: Kestin, is: cylinder, features: {bore: 19 mm}}
- {part: KT 31, maker: Kestin, is: damper, features: {length: 500 mm}}
- {part: TC 10, maker: Tarn, is: radiator, features: {width: 420 mm}}
- {part: TC 11, maker: Tarn, is: hose, features: {bore: 35 mm}}
- {part: TC 12, maker: Tarn, is: switch, features: {thread: 3/8-24 UNF}}
- {part: TC 19, maker: Tarn, is: radiator, features: {width: 420 mm}}
- {part: TC 20 L, maker: Tarn, is: seat, side: left, features: {base: round}}
- {part: TC 20 R, maker: Tarn, is: seat, side: right, features: {base: round}}
- {part: TC 30, maker: Tarn, is: cylinder, features: {bore: 19 mm}}
- {part: TC 31, maker: Tarn, is: damper, features: {length: 500 mm}}
- crossfit: radiator-from-corva
  instead-of: KT 10
  use: TC 10
  reaches: kestin-tolland
  with: [{at: cooling/hose, use: TC 11, why: the stub is 35 mm}]
  never-with: [{use: TC 12, at: cooling/switch, why: the boss is thin}]
  keep: own cap
  work: {do: bend two brackets, minutes: 30}
  waives: [width]
  evidence: [{how: fitted, by: shop}]
- crossfit: cylinder-from-corva
  instead-of: KT 30
  use: TC 30
  reaches: kestin-tolland
  evidence: [{how: fitted, by: shop}]
- car: green
  is: kestin-tolland
  facts: {chassis: KT 100}
  really-on-it: {cooling/switch: {number: KT 12, how: measured, by: shop}}
"""


def records(text: str, shown: str = "shop/small.yaml") -> list[Rec]:
    """The records of a book that has to be without fault."""
    reading = read_book(shown, text.encode(), f"https://fitlore.example/{shown}")
    assert not reading.diagnostics, [f"{d.origin} {d.message}" for d in reading.diagnostics]
    return list(reading.records)


def graph_of(more: str = "", shop: Shop | None = None) -> Graph:
    """The small books, with one more."""
    rows = [*records(BOOK), *(records(more, "shop/more.yaml") if more else [])]
    return Graph.from_records(rows, STANDARDS, shop or Shop(shop=Name("small"), person="shop"))


def wanted(
    graph: Graph, *paths: str, quantity: int = 1, must: bool = True, used: bool | None = None
) -> list[Wanted]:
    """Needs at places of the green car, `assembly/place` or `assembly/place@side`, as a job would have them."""
    car = graph.car("green")
    assert car is not None
    rows = []
    for path in paths:
        place = graph.place(car.is_, path)
        assert place is not None, path
        question = Question(place, car, path.partition("@")[2])
        rows.append(Wanted(path, "job", question, answer(graph, question), quantity, must, used))
    return rows
