"""The built-in interfaces carried through to verdicts: by measure only where everything that must be known is known."""

from __future__ import annotations

from functools import cache

import pytest

from fitlore.books.reading import read_book
from fitlore.fitting import Question, Verdict, answer
from fitlore.graph.open import Graph
from fitlore.model.job import Shop
from fitlore.model.numbers import number_key
from fitlore.model.record import Name
from tests.kb.knowledge import readings
from tests.trade.loading import load_every

STANDARDS, _ = load_every()

SHOP = """
- platform: tarn-corva
  name: Tarn Corva saloon
  maker: Tarn
  assemblies:
    all:
      places:
        stop-lamp-switch:
          is: hydraulic-stop-lamp-switch
          must-be: {seals-for: glycol, thread: M10x1, seal: sealing washer, reach: 10 mm, contact-free: open}
        bearing:
          is: deep-groove-bearing
          must-be: {number: 6202-2RS C3}
        wheel:
          is: road-wheel
          must-be:
            bolts: "4"
            pcd: 4 1/4 in
            centre-bore: 63.4 mm
            offset: 38 mm
            rim-width: 5 in
            rim-diameter: 13 in
            seat: cone 60
            brake-room: 150 mm
        oil-filter:
          is: oil-filter
          must-be: {thread: 3/4-16 UNF, gasket-diameter: 65 mm, height: 80 mm, bypass: 1 bar, anti-drain: with}
- part: MW 1
  maker: Merrow
  is: hydraulic-stop-lamp-switch
  features: {seals-for: glycol, thread: 3/8-24 UNF, seal: sealing washer, reach: 10 mm, contact-free: open}
- part: MW 2
  maker: Merrow
  is: hydraulic-stop-lamp-switch
  features: {seals-for: glycol, thread: M10x1, seal: sealing washer, reach: 10 mm, contact-free: open}
- part: MW 3
  maker: Merrow
  is: hydraulic-stop-lamp-switch
  features: {thread: M10x1, seal: sealing washer, reach: 10 mm, contact-free: open}
- part: BR 6202
  maker: Brede
  is: deep-groove-bearing
  features: {number: 6202DDU/C3}
- part: BR 6202 O
  maker: Brede
  is: deep-groove-bearing
  features: {number: 6202 C3}
- part: BR 6202 Z
  maker: Brede
  is: deep-groove-bearing
  features: {number: 6202ZZ C3}
- part: MW 4
  maker: Merrow
  is: road-wheel
  features:
    bolts: "4"
    pcd: 108 mm
    centre-bore: 63.4 mm
    offset: 38 mm
    rim-width: 5 in
    rim-diameter: 13 in
    seat: cone 60
- part: MW 5
  maker: Merrow
  is: oil-filter
  features: {thread: M20x1.5, gasket-diameter: 65 mm, height: 80 mm, bypass: 1 bar, anti-drain: with}
"""


@cache
def graph() -> Graph:
    """The built-in books and the small one above."""
    shop = read_book("shop/books.yaml", SHOP.encode(), "https://fitlore.example/shop")
    assert not shop.diagnostics, [f"{d.origin} {d.message}" for d in shop.diagnostics]
    records = [r for reading in (*readings().values(), shop) for r in reading.records]
    return Graph.from_records(records, STANDARDS, Shop(shop=Name("lowbarn"), person="shop"))


def verdict(place: str, number: str) -> Verdict:
    """The verdict of one part at one place."""
    where = graph().place("tarn-corva", f"all/{place}")
    assert where is not None
    (part,) = graph().parts([number_key(number)])
    (found,) = answer(graph(), Question(where, only=(part,))).verdicts
    return found


@pytest.mark.parametrize(
    ("place", "number", "word"),
    [
        (
            "stop-lamp-switch",
            "MW 1",
            "does-not-fit",
        ),  # goes in by hand and lets go: ISO 724 against ASME B1.1
        ("stop-lamp-switch", "MW 2", "by-measure"),
        ("stop-lamp-switch", "MW 3", "unproven"),  # nobody said for which fluid
        ("bearing", "BR 6202", "by-measure"),
        ("bearing", "BR 6202 O", "does-not-fit"),  # an open one is no sealed one
        ("bearing", "BR 6202 Z", "unproven"),  # shields for seals: it depends on the dirt
        ("wheel", "MW 4", "unproven"),  # no table says how much room the spokes leave
        ("oil-filter", "MW 5", "does-not-fit"),  # spins on loosely
    ],
)
def test_verdict_by_the_built_in_interface(place: str, number: str, word: str) -> None:
    """Equal in all that must be known: by measure. One thing unknown: unproven. A trap or a difference: no."""
    assert verdict(place, number).word.value == word


def test_what_is_missing_is_named() -> None:
    """The unproven ones say which feature to look at."""
    assert verdict("stop-lamp-switch", "MW 3").missing == ("seals-for",)
    assert verdict("bearing", "BR 6202 Z").missing == ("number",)
    assert verdict("wheel", "MW 4").missing == ("brake-room",)


def test_trap_is_said_loudly() -> None:
    """The two traps are in the danger lines of their verdicts."""
    assert verdict("stop-lamp-switch", "MW 1").danger
    assert verdict("oil-filter", "MW 5").danger
    assert not verdict("bearing", "BR 6202 O").danger


def test_cautions_are_two_lines_at_most() -> None:
    """The category's and the class's cautions together never make more than two."""
    for place in ("stop-lamp-switch", "wheel", "bearing"):
        where = graph().place("tarn-corva", f"all/{place}")
        assert where is not None
        assert len(answer(graph(), Question(where)).cautions) <= 2
