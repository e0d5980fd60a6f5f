"""The typed walk: all faults at once, short forms, and where records say they were written."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import TypeVar

import pytest

from fitlore.books.conditions import serial_range
from fitlore.books.reading import Reading, read_book
from fitlore.model.amounts import Money
from fitlore.model.category import Category, Work
from fitlore.model.choices import Goes, Role
from fitlore.model.diagnostic import Severity
from fitlore.model.part import CrossFit, Part
from fitlore.model.platform import Car, Platform
from fitlore.model.record import Rec
from fitlore.model.supply import Supplier

R = TypeVar("R", bound=Rec)
RICH = (Path(__file__).parent / "rich.yaml").read_bytes()


def read(text: str) -> Reading:
    """A text as a book of YAML."""
    return read_book("shop/a.yaml", text.encode(), "https://fitlore.example/book/shop/a.yaml")


def one(text: str, kind: type[R]) -> R:
    """The only record of a sound book."""
    book = read(text)
    assert not book.diagnostics
    (record,) = book.records
    assert isinstance(record, kind)
    return record


def test_short_forms_say_the_same_as_long_ones() -> None:
    """A text where a mapping could stand is read as the key that the specification of books names."""
    short = one(
        "- platform: a\n  facts: {engine: diesel}\n  assemblies: {b: {places: {c: {is: d, original: KT 1}}}}\n",
        Platform,
    )
    place = short.assemblies["b"].places["c"]
    assert [o.number for o in place.original] == ["KT 1"]
    assert short.facts["engine"].any_ == ("diesel",)
    category = one(
        "- category: a\n  renew-with: washer\n  faults: sticks\n  features: {b: {kind: text, role: joins, work: bend it}}\n",
        Category,
    )
    assert category.renew_with[0].is_ == "washer"
    assert category.faults[0].fault == "sticks"
    assert category.features["b"].work == Work(origin=category.features["b"].work.origin, do="bend it")  # type: ignore[union-attr]
    car = one(
        '- car: a\n  is: b\n  facts: {built: "1985", engine: [v, w]}\n  really-on-it: {c/d: KT 1}\n', Car
    )
    assert car.facts["engine"].value == ("v", "w")
    assert car.really_on_it["c/d"].number == "KT 1"
    part = one("- part: a\n  is: b\n  contains: [KT 1]\n  measured: {bore: 19 mm}\n", Part)
    assert part.contains[0].number == "KT 1"
    assert part.measured["bore"].value == "19 mm"


def test_conditions_in_every_written_form() -> None:
    """A value, a list, `not`, and ranges of number series; open ends are brought into one spelling."""
    claim = one(
        "- crossfit: a\n  instead-of: A 1\n  use: B 1\n  evidence: {how: told}\n  only-if:\n"
        "    steering: right\n    engine: ['1.8', '2.0']\n    gearbox: {not: [auto]}\n"
        "    chassis: {KT: ../118000, KU: 1../500, KV: 120001../, KW: 7}\n    built: ../1986-07\n",
        CrossFit,
    )
    cond = claim.only_if
    assert (cond["steering"].any_, cond["engine"].any_, cond["gearbox"].not_) == (
        ("right",),
        ("1.8", "2.0"),
        ("auto",),
    )
    assert cond["chassis"].series == {"KT": "../118000", "KU": "1/500", "KV": "120001/..", "KW": "7"}
    assert str(cond["chassis"].origin) == "shop/a.yaml:9:5"


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("../118000", "../118000"),
        ("/118000", "../118000"),
        ("120001/..", "120001/.."),
        ("120001/", "120001/.."),
        ("120001../", "120001/.."),
        ("1../500", "1/500"),
        ("1/500", "1/500"),
        ("500", "500"),
        ("..", None),
        ("../..", None),
        ("/", None),
        ("", None),
        ("500/1", None),
        ("500..", None),
        ("KT 1/2", None),
        ("1/2/3", None),
        ("-5", None),
    ],
)
def test_ranges_of_serial_numbers(text: str, wanted: str | None) -> None:
    """Ends are whole numbers, the smaller first; what is open at both ends, empty or anything else is no range."""
    assert serial_range(text) == wanted


def test_every_record_knows_where_it_was_written() -> None:
    """Records, places, offers and evidence carry the line of their own first word."""
    book = read(
        "- platform: a\n  assemblies:\n    b:\n      places:\n        c:\n          is: d\n"
        "- supplier: s\n  trade: factor\n  offers:\n    - {number: A 1, price: 1.00 GBP}\n"
        "    - number: A 2\n      price: 2.00 GBP\n"
        "- crossfit: x\n  instead-of: A 1\n  use: B 1\n  evidence:\n    - how: told\n"
    )
    platform, supplier, claim = book.records
    assert isinstance(platform, Platform)
    assert isinstance(supplier, Supplier)
    assert isinstance(claim, CrossFit)
    assert str(platform.origin) == "shop/a.yaml:1:3"
    assert str(platform.assemblies["b"].places["c"].origin) == "shop/a.yaml:5:9"
    assert [str(o.origin) for o in supplier.offers] == ["shop/a.yaml:10:7", "shop/a.yaml:11:7"]
    assert str(claim.evidence[0].origin) == "shop/a.yaml:17:7"


def test_all_faults_of_a_book_are_told_at_once() -> None:
    """Fourteen planted faults, each named with line and column; the records that have none are kept."""
    book = read(
        "- part: A 1\n  is: Hex Bolt\n  sied: left\n  side: rihgt\n"
        "- part: A 2\n  is: hex-bolt\n"
        "- supplier: s\n  trade: shop\n  trip: {minutes: -5, cost: 3}\n  offers:\n"
        "    - {number: A 1, price: 1,250.00 GBP}\n    - {number: A 2}\n    - {number: A 3, price: 1.00 GBP, seen: 31.12.2026}\n"
        "- car: c\n  facts: {built: soon}\n  really-on-it: {Axle: KT 1}\n"
        "- crossfit: x\n  use: B 1\n"
    )
    assert [(d.code[:3], d.origin.line, d.origin.column) for d in book.diagnostics] == [
        ("B50", 2, 7),
        ("B42", 3, 3),
        ("B49", 4, 9),
        ("B49", 8, 10),
        ("B51", 9, 19),
        ("B55", 9, 29),
        ("B25", 11, 30),
        ("B71", 12, 16),
        ("B59", 13, 44),
        ("B43", 14, 3),
        ("B68", 15, 18),
        ("B61", 16, 18),
        ("B74", 17, 13),
        ("B73", 18, 8),
    ]
    assert [getattr(r, "part", "") for r in book.records] == ["A 2"]


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("- prat: A\n  is: b\n", "`part`"),
        ("- part: A\n  is: b\n  replacedby: x\n", "`replaced-by`"),
        ("- part: A\n  is: b\n  Maker: x\n", "`maker`"),
        ("- part: A\n  is: b\n  taken_from: x\n", "`taken-from`"),
        ("- part: A\n  category: b\n", "`is:`"),
        ("- crossfit: a\n  instead-of: A\n  use: B\n  when: {a: b}\n  evidence: {how: told}\n", "`only-if`"),
        ("- crossfit: a\n  instead-of: A\n  use: B\n  evidence: {how: fited}\n", "`fitted`"),
        ("- category: a\n  names: {en_GB: x}\n", "`en-gb`"),
        ("- part: A\n  is: Wheel Cylinder (rear)\n", "`wheel-cylinder-rear`"),
        ("- category: a\n  always-new: on\n", "`yes`"),
        (
            "- job: a\n  for: b\n  findings: [{at: Rear Brakes/Wheel Cylinder, fault: x}]\n",
            "`rear-brakes/wheel-cylinder`",
        ),
    ],
)
def test_near_words_are_offered(text: str, near: str) -> None:
    """Where one word is near, the remedy is that word, and there is one diagnostic, not two."""
    (found,) = read(text).diagnostics
    assert near in found.remedy


def test_a_second_record_of_one_name_is_told_and_left_out() -> None:
    """Within one book the first of two counts; parts are the same by maker and number without separators."""
    book = read(
        "- part: A 1\n  maker: Tarn\n  is: b\n- part: a-1\n  maker: TARN\n  is: c\n- part: A 1\n  maker: Velm\n  is: b\n"
        "- car: A 1\n  is: b\n"
    )
    assert [(d.code[:3], d.origin.line) for d in book.diagnostics] == [("B89", 4), ("B50", 10)]
    assert [(r.maker, r.is_) for r in book.records if isinstance(r, Part)] == [("Tarn", "b"), ("Velm", "b")]


def test_texts_that_other_tools_take_for_something_else_are_noted() -> None:
    """Only a note, only without quotes, and only where the value is text: dates and counts are meant as such."""
    book = read(
        "- part: 0123\n  maker: NO\n  is: b\n  note: 12:30\n  features: {teeth: 36, size: '8.8', wide: 8 mm}\n"
        "- supplier: s\n  trade: factor\n  offers: [{number: A 1, price: 1.00 GBP, days: 2, seen: 2026-12-01, made: 2019}]\n"
    )
    assert {d.severity for d in book.diagnostics} == {Severity.NOTE}
    assert [d.message.split("`")[1] for d in book.diagnostics] == ["0123", "NO", "12:30", "36", "2019"]
    assert len(book.records) == 2


def test_values_are_typed_exactly() -> None:
    """Money is exact decimals with its currency, days are days, words are members, counts are whole numbers."""
    supplier = one(
        "- supplier: s\n  trade: factor\n  trip: {distance: 22 km, minutes: 90}\n"
        "  offers: {number: A 1, price: 18.50 GBP, works: 62.5 %, seen: 2026-12-03, stock: 0}\n",
        Supplier,
    )
    offer = supplier.offers[0]
    assert offer.price == Money(Decimal("18.50"), "GBP")
    assert str(offer.price.amount) == "18.50"  # type: ignore[union-attr]
    assert offer.works is not None
    assert offer.works.percent == Decimal("62.5")
    assert offer.seen == date(2026, 12, 3)
    assert offer.stock == 0
    assert supplier.trip is not None
    assert supplier.trip.distance is not None
    assert (supplier.trip.distance.value, supplier.trip.distance.unit) == (Decimal(22_000_000), "mm")
    category = one("- category: a\n  features: {b: {kind: text, role: mates}}\n", Category)
    assert category.features["b"].role is Role.MATES


def test_a_list_from_further_up_can_be_made_empty() -> None:
    """`none` for a place's `sides` or `shares` is the empty list, which is not the same as saying nothing."""
    platform = one(
        "- platform: a\n  assemblies: {b: {sides: [left, right], places: {c: {is: d, sides: none}, e: {is: d}}}}\n",
        Platform,
    )
    places = platform.assemblies["b"].places
    assert places["c"].sides == ()
    assert places["e"].sides is None


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("  goes: both-ways\n", ""),
        ("  goes: both-ways\n  with: [{at: a/b, use: C 1}]\n", "B75"),
        ("  goes: both-ways\n  extras: [C 1]\n", "B75"),
        ("  goes: both-ways\n  work: {do: file it}\n", "B75"),
        ("  goes: both-ways\n  only-if: {a: b}\n", "B75"),
        ("  goes: both-ways\n  keep: [the cap]\n", ""),
        ("  goes: one-way\n  only-if: {a: b}\n", ""),
        ("  at: a/b/c\n", ""),
        ("  at: b/c\n", "B61"),
    ],
)
def test_a_claim_both_ways_may_not_hold_one_way_only(text: str, code: str) -> None:
    """Conditions, work, companions and extras have a direction, so a claim both ways with them is refused."""
    book = read(f"- crossfit: x\n  instead-of: A 1\n  use: B 1\n  evidence: {{how: told}}\n{text}")
    assert [d.code[:3] for d in book.diagnostics] == ([code] if code else [])
    assert [r.goes for r in book.records if isinstance(r, CrossFit)] == (
        [] if code else [Goes.BOTH_WAYS if "both-ways" in text else Goes.ONE_WAY]
    )


def test_taking_any_one_value_away_never_raises_and_changes_only_its_record() -> None:
    """Every line of the rich book is left out in turn: what is not in that line's record reads as before."""
    whole = read_book("shop/a.yaml", RICH, "urn:x")
    lines = RICH.decode().splitlines(keepends=True)
    starts = [i for i, line in enumerate(lines) if line.startswith("- ")]
    for number in range(0, len(lines), 3):
        if number in starts or not lines[number].strip():
            continue
        text = "".join(lines[:number] + lines[number + 1 :])
        book = read_book("shop/a.yaml", text.encode(), "urn:x")
        assert len(whole.records) - len(book.records) in (0, 1)


def test_a_root_that_is_no_list_is_told() -> None:
    """A mapping or a text instead of a list gives one diagnostic with its remedy."""
    for text in ("part: A\nis: b\n", "hello\n", "a - b\n"):
        assert [d.code for d in read(text).diagnostics] == ["B26-not-a-list"]
    for text in ("", "# nothing yet\n", "---\n"):
        assert read(text).diagnostics == ()
