"""Law beside the verdict: by country and occasion, never in place of it; and work that changes a part over."""

from __future__ import annotations

import pytest

from fitlore.fitting import Question, Verdict, Word, answer
from fitlore.fitting.shape import State
from fitlore.graph.open import Graph
from fitlore.model.job import Shop
from fitlore.model.record import Name
from tests.fitting.test_cases import records
from tests.trade.loading import STANDARDS

BOOK = """
- category: beam
  safety: none
  sides: changeable
  sides-work: {do: turn the shade, minutes: 12}
  features: {hole: {kind: length, role: mates}}
  law:
    - {country: GB, occasion: periodic inspection, says: a mask over the lens is accepted, read: 2026-10}
    - {country: GB, occasion: first registration, does: requires, says: a lamp made for this side, read: 2026-10}
    - {country: DE, occasion: periodic inspection, does: forbids, says: no mask, read: 2026-10}
- platform: kestin-tolland
  maker: Kestin
  assemblies: {front: {sides: [left, right], places: {beam: {is: beam, original: KT 1}}}}
- {part: KT 1, maker: Kestin, is: beam, side: left, features: {hole: 8 mm}}
- {part: TC 1, maker: Tarn, is: beam, side: right, features: {hole: 8 mm}}
- {part: TC 2, maker: Tarn, is: beam, side: left, features: {hole: 9 mm}}
- {car: here, is: kestin-tolland, country: GB}
- {car: abroad, is: kestin-tolland, country: DE}
- {car: somewhere, is: kestin-tolland}
"""


def verdict(car: str, number: str, shop_country: str = "") -> Verdict:
    """The verdict on one part at the left."""
    shop = Shop(shop=Name("lowbarn"), person="shop", country=shop_country)
    graph = Graph.from_records(records(BOOK, "shop/law.yaml"), STANDARDS, shop)
    place = graph.place("kestin-tolland", "front/beam")
    assert place is not None
    (found,) = answer(graph, Question(place, graph.car(car), "left", only=graph.parts([number]))).verdicts
    return found


@pytest.mark.parametrize(
    ("car", "shop", "occasions"),
    [
        ("here", "", ["periodic inspection", "first registration"]),
        ("here", "DE", ["periodic inspection", "first registration"]),
        ("abroad", "GB", ["periodic inspection"]),
        ("somewhere", "DE", ["periodic inspection"]),
    ],
)
def test_the_law_of_the_cars_country_and_else_the_shops(car: str, shop: str, occasions: list[str]) -> None:
    """Two occasions have two answers; another country's law is not told."""
    found = verdict(car, "KT1", shop)
    assert [law.occasion for law in found.way.law] == occasions
    assert not found.asks_country


def test_an_unknown_country_is_asked_for_and_changes_no_word() -> None:
    """Every country's statement stands under its country, and the verdict is what it was."""
    found = verdict("somewhere", "KT1")
    assert found.asks_country
    assert {law.country for law in found.way.law} == {"GB", "DE"}
    assert found.word is verdict("here", "KT1").word is Word.FITS


def test_what_the_law_allows_is_no_fit() -> None:
    """A part that is off is off in every country."""
    found = verdict("here", "TC2")
    assert found.word is Word.DOES_NOT_FIT
    assert [check.state for check in found.checks] == [State.OFF]


def test_changing_a_part_over_takes_its_stated_time() -> None:
    """The category's own work, with its minutes."""
    found = verdict("here", "TC1")
    assert found.word is Word.BY_MEASURE
    assert (found.way.work, found.minutes) == (("turn the shade",), 12)
