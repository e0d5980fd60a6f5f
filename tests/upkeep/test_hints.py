"""Where else a claim may count: same number, or one equal in everything compared, on a platform that it does not reach."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlore.fitting import Word
from fitlore.upkeep import hints as hinting
from fitlore.upkeep.addition import NewClaim
from fitlore.upkeep.hints import Hint, hints
from tests.upkeep.lowbarn import TODAY, claim, copy_to, draft_at, piece

MORE = """
- platform: velm-packet
  maker: Velm
  assemblies:
    doors:
      places:
        lever: {is: test-lever, original: VP 1}
        bin: {is: test-lever, original: KT 1}
- platform: ostra-40
  maker: Ostra
  assemblies:
    doors:
      places:
        lever: {is: test-lever, original: OS 7}
- part: VP 1
  maker: Velm
  is: test-lever
  features: {length: 120.5 mm, bolt: M8x1.25}
- part: OS 7
  maker: Ostra
  is: test-lever
  features: {length: 120 mm}
- part: MW 1
  maker: Merrow
  is: test-lever
  features: {length: 120 mm}
- part: BR 1
  maker: Brede
  is: test-lever
  features: {bolt: M8x1.25, length: 160 mm}
- car: van
  is: velm-packet
- car: odd
  is: ostra-40
  really-on-it:
    doors: {from: velm-packet, how: measured, by: shop}
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """The small shop with two more platforms."""
    made = copy_to(tmp_path)
    book = made / "books" / "things.yaml"
    book.write_text(book.read_text("utf-8") + MORE, "utf-8")
    return made


def found(shop: Path, use: str, *reaches: str) -> list[Hint]:
    """The hints of a claim of this part for KT 1."""
    added = claim("x", "KT 1", use, piece(), reaches=reaches)
    return list(hints(draft_at(shop, NewClaim(added)).graph, added, TODAY))


def test_same_number_and_equal_parts_are_hints(shop: Path) -> None:
    """Within a millimetre and of the same thread is equal; a part of which the thread is unknown is not; what reaches is none."""
    rows = found(shop, "MW 1", "kestin-tolland")
    assert [(row.place.full_path, row.original.part, row.same) for row in rows] == [
        ("velm-packet/doors/bin", "KT 1", True),
        ("velm-packet/doors/lever", "VP 1", False),
        ("tarn-corva/doors/lever", "TC 1", False),
    ]
    assert {row.verdict.word for row in rows} == {Word.UNPROVEN}
    assert {row.verdict.missing for row in rows} == {("bolt",)}


def test_cars_of_the_shop_go_first(shop: Path) -> None:
    """The van has this place, and so has the car whose doors are a Packet's; nobody has a Corva."""
    rows = {
        row.place.full_path: [car.car for car in row.cars] for row in found(shop, "MW 1", "kestin-tolland")
    }
    assert rows == {
        "velm-packet/doors/bin": ["van", "odd"],
        "velm-packet/doors/lever": ["van", "odd"],
        "tarn-corva/doors/lever": [],
    }


def test_what_is_known_to_be_off_is_no_hint(shop: Path) -> None:
    """A lever of 160 mm is off wherever one of 120 mm is wanted, so nobody is sent to look."""
    assert found(shop, "BR 1", "kestin-tolland") == []


def test_a_claim_that_reaches_everywhere_leaves_its_own_platforms_out(shop: Path) -> None:
    """With every platform named there is nothing left to look at."""
    assert found(shop, "MW 1", "kestin-tolland", "velm-packet", "tarn-corva") == []


def test_of_very_many_parts_only_the_number_leads_on(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The kind is not gone through part by part where it has too many."""
    monkeypatch.setattr(hinting, "MOST_PARTS", 2)
    assert [row.original.part for row in found(shop, "MW 1", "kestin-tolland")] == ["KT 1"]
