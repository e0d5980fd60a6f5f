"""Nothing is guessed: a text stays the text it is, in YAML, Turtle and JSON-LD, until our own schema gives it a type."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.books.reading import Reading, read_book
from fitlore.model.diagnostic import Severity
from fitlore.model.part import Part
from fitlore.model.supply import Supplier

LOOKS_TYPED = [
    "0123", "NO", "no", "yes", "y", "on", "off", "1e3", "12:30:45", "12:30", "null", "~", "0x1F", "0o17", "0b1", "1_000",
    "2026-11-20", "1986", "8.8", "1.0", ".5", "+1", "-0", ".inf", ".nan", "true", "False", "=", "1,000", "190:20:30", "1e-3",
    "2026-11-20T10:00:00Z", "00", "٣",
]  # fmt: skip
"""What YAML 1.1, YAML 1.2 or JSON-LD and Turtle shorthand would make numbers, truths, dates or nothing of."""

FL = "@prefix fl: <https://fitlore.example/terms#> . @prefix feature: <https://fitlore.example/feature#> .\n"


def part_of(ending: str, text: str) -> Reading:
    """A part with a text as its number, note and feature, written in one of the forms."""
    if ending == "yaml":
        book = f"- part: A {text}\n  is: bolt\n  note: {text}\n  features:\n    size: {text}\n"
    elif ending == "ttl":
        book = f'{FL}[] fl:part "A {text}" ; fl:is "bolt" ; fl:note "{text}" ; fl:features [ feature:size "{text}" ] .\n'
    else:
        from fitlore.books.iris import CONTEXT

        record = {"part": f"A {text}", "is": "bolt", "note": text, "features": {"size": text}}
        book = json.dumps({"@context": CONTEXT, "@graph": [record]})
    return read_book(f"shop/x.{ending}", book.encode(), "https://fitlore.example/book/shop/x")


@pytest.mark.parametrize("ending", ["yaml", "ttl", "jsonld"])
@pytest.mark.parametrize("text", LOOKS_TYPED)
def test_text_stays_text(text: str, ending: str) -> None:
    """Where the schema wants a text, a name, a number of a part or a value, it is what was written, sign for sign."""
    reading = part_of(ending, text)
    assert [one for one in reading.diagnostics if one.severity is Severity.ERROR] == []
    (part,) = reading.records
    assert isinstance(part, Part)
    assert (part.part, part.note, part.features["size"]) == (f"A {text}", text, (text,))


@pytest.mark.parametrize(
    "text",
    ["0123", "1e3", "0x1F", "1_000", "~", "null", "NO", "12:30:45", "1.0", "+1", "٣", "-0", "00", "²", ""],
)
@pytest.mark.parametrize("ending", ["yaml", "ttl"])
def test_what_is_no_count_is_a_fault(text: str, ending: str) -> None:
    """Where the schema wants a whole number, only figures without a zero in front are one; nothing is nothing, not 0."""
    if ending == "yaml":
        book = f"- shared-work: w\n  do: drain\n  minutes: {text}\n"
    else:
        book = f'{FL}[] fl:shared-work "w" ; fl:do "drain" ; fl:minutes "{text}" .\n'
    reading = read_book(f"shop/x.{ending}", book.encode(), "https://fitlore.example/book/shop/x")
    assert reading.records == ()
    assert [one.severity for one in reading.diagnostics].count(Severity.ERROR) == 1


@pytest.mark.parametrize("ending", ["yaml", "ttl"])
def test_types_come_from_the_schema_alone(ending: str) -> None:
    """The same words are a day under `seen`, a number of pieces under `stock`, and text under `made` and `note`."""
    if ending == "yaml":
        book = (
            "- supplier: s\n  trade: factor\n  offers:\n"
            "    - {number: 2026-11-20, price: 12 GBP, stock: 12, works: 12 %, seen: 2026-11-20, made: 2026-11-20, note: 12}\n"
        )
    else:
        book = (
            f'{FL}[] fl:supplier "s" ; fl:trade "factor" ; fl:offers [ fl:number "2026-11-20" ; fl:price "12 GBP" ;'
            ' fl:stock 12 ; fl:works "12 %" ; fl:seen "2026-11-20"^^<http://id.loc.gov/datatypes/edtf/EDTF> ;'
            ' fl:made "2026-11-20" ; fl:note "12" ] .\n'
        )
    reading = read_book(f"shop/x.{ending}", book.encode(), "https://fitlore.example/book/shop/x")
    (supplier,) = reading.records
    assert isinstance(supplier, Supplier)
    (offer,) = supplier.offers
    assert (offer.number, offer.stock, offer.seen, offer.made, offer.note) == (
        "2026-11-20",
        12,
        date(2026, 11, 20),
        "2026-11-20",
        "12",
    )
    assert offer.price is not None
    assert offer.works is not None
    assert (offer.price.amount, offer.works.percent) == (Decimal(12), Decimal(12))


@pytest.mark.parametrize(
    ("literal", "text"),
    [
        ("0123", "0123"),
        ("1.0", "1.0"),
        ("1e3", "1e3"),
        ("true", "yes"),
        ('"0x1F"', "0x1F"),
        ('"2026-11-20"^^<http://www.w3.org/2001/XMLSchema#date>', "2026-11-20"),
    ],
)
def test_a_literal_of_turtle_is_its_lexical_form(literal: str, text: str) -> None:
    """Turtle's own numbers and dates under a text are the figures as written; a truth is our word for it."""
    book = f'{FL}[] fl:part "A 1" ; fl:is "bolt" ; fl:note {literal} .\n'
    reading = read_book("shop/x.ttl", book.encode(), "https://fitlore.example/book/shop/x")
    (part,) = reading.records
    assert isinstance(part, Part)
    assert part.note == text


@given(
    st.text(alphabet="0123456789.:eExX_+-aAnNoO~yYtT", min_size=1, max_size=10).filter(
        lambda t: t[0] not in "-:" and not t.endswith(":") and ":" not in t
    )
)
def test_any_bare_word_stays_itself(text: str) -> None:
    """Whatever is made of the signs that numbers, dates and truths are made of."""
    reading = read_book("shop/x.yaml", f"- part: A 1\n  is: bolt\n  note: {text}\n".encode(), "g")
    (part,) = reading.records
    assert isinstance(part, Part)
    assert part.note == text
