"""Price lists: what is read, what is refused, and that taking one in is one write that can be taken back."""

from __future__ import annotations

import csv
import io
from contextlib import suppress
from decimal import Decimal
from pathlib import Path

import pytest
from babel.numbers import format_decimal
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from fitlore.books.edits import NewItem, NewText
from fitlore.books.together import NewKey, changed_together
from fitlore.model.amounts import Money
from fitlore.model.choices import DecimalMark
from fitlore.model.supply import Offer, Supplier
from fitlore.upkeep.pricelist.faults import Unclear
from fitlore.upkeep.pricelist.prices import Unread, Written, marks_of, take_apart
from fitlore.upkeep.undo import undo
from fitlore.upkeep.workbook import sheets_of, text_of, workbook
from tests.upkeep.lowbarn import TODAY, graph_at
from tests.upkeep.price_lists import SUPPLIER, draft_of, shop_in, taken

AMOUNTS = st.decimals(min_value=0, max_value=10**7, places=2)
LOCALES = {
    "en_GB": DecimalMark.POINT, "en_US": DecimalMark.POINT, "de_CH": DecimalMark.POINT, "ja_JP": DecimalMark.POINT,
    "de_DE": DecimalMark.COMMA, "fr_FR": DecimalMark.COMMA, "es_ES": DecimalMark.COMMA, "pl_PL": DecimalMark.COMMA,
}  # fmt: skip
"""Decimal signs as the Unicode CLDR has them."""


@given(AMOUNTS, st.sampled_from(sorted(LOCALES)))
def test_numbers_as_unicode_writes_them_are_read(amount: Decimal, locale: str) -> None:
    """Babel's number formatting (Unicode CLDR) is read back, grouped and not, under the locale's own decimal sign."""
    for grouped in (True, False):
        text = format_decimal(amount, "#,##0.00", locale=locale, group_separator=grouped)
        found = take_apart(text)
        assert isinstance(found, Written), text
        assert found.amounts[LOCALES[locale]] == amount, text


@pytest.mark.parametrize(
    ("text", "amount", "currency"),
    [
        ("£12", "12", "GBP"), ("12.50 GBP", "12.50", "GBP"), ("EUR 7,00", "7.00", "EUR"), ("1'234.-", "1234", ""),
        ("12,-", "12", ""), ("€ 1.234,50", "1234.50", "EUR"), ("-3.20", "-3.20", ""), ("7", "7", ""),
    ],
)  # fmt: skip
def test_common_dresses_of_prices(text: str, amount: str, currency: str) -> None:
    """Signs before and behind, a dash for no pence (common practice in shops' lists)."""
    found = take_apart(text)
    assert isinstance(found, Written)
    assert Decimal(amount) in found.amounts.values()
    assert found.currency == currency


@pytest.mark.parametrize(
    "text", ["", "on request", "12.5.6", "1,23,456", "1.2 to 1.4", "12 34", "0 123", "1e3", "£"]
)
def test_what_is_no_price_is_none(text: str) -> None:
    """Nothing is guessed from a text that is not wholly a price."""
    assert isinstance(take_apart(text), Unread)


def test_a_sign_of_several_currencies_is_not_one() -> None:
    """A dollar may be several countries' (ISO 4217 has a score of dollars)."""
    found = take_apart("$5.00")
    assert isinstance(found, Written)
    assert (found.currency, found.strange) == ("", "$")


def test_the_decimal_sign_is_found_in_the_whole_list() -> None:
    """One text that can be read by one sign alone tells for all; without one, a text with two readings is told."""
    texts = ["1,234", "12", "7,50"]
    assert marks_of((text, take_apart(text)) for text in texts).only == {DecimalMark.COMMA: "7,50"}
    assert marks_of([("1,234", take_apart("1,234"))]).either == "1,234"


@given(
    st.lists(
        st.tuples(st.sampled_from(["KT 100", "kt-400", "KT.0500", "XX 9"]), AMOUNTS, st.text(max_size=12)),
        min_size=3, max_size=8, unique_by=lambda row: row[0],
    ),
    st.sampled_from(",;\t|"),
    st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]),
    st.sampled_from(["\r\n", "\n"]),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_csv_as_the_standard_library_writes_it(
    tmp_path_factory: pytest.TempPathFactory,
    rows: list[tuple[str, Decimal, str]],
    divider: str,
    encoding: str,
    eol: str,
) -> None:
    """Any divider, quoting (RFC 4180), encoding mark and end of line gives the same numbers and prices."""
    folder = shop_in(tmp_path_factory.mktemp("shop"))
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=divider, lineterminator=eol)
    writer.writerow(["Part number", "Text", "Price"])
    clean = [(number, price, "".join(c for c in text if c.isprintable())) for number, price, text in rows]
    writer.writerows([[number, text, f"{price:.2f}"] for number, price, text in clean])
    data = out.getvalue().encode(encoding)
    draft = draft_of(folder, data, even_so=True, price_in="Price")
    known = {"KT 100": "KT 100", "kt-400": "KT 400", "KT.0500": "KT 0500"}
    wanted = {(known[number], price) for number, price, _ in clean if number in known and price > 0}
    found = {(one.number, one.row.price.amount) for one in (*draft.new, *draft.changed, *draft.same)}
    assert found == wanted
    assert [row.number for row in draft.unknown] == [number for number, _, _ in clean if number not in known]


def test_a_workbook_reads_as_the_same_list(tmp_path: Path) -> None:
    """A list made by openpyxl: figures, texts, a formula's noise, an empty row; the other sheet has no prices."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Prices"
    for row in (
        ["Castle Street"],
        [],
        ["Part No", "Price"],
        ["KT 100", 9.2],
        ["KT 400", 0.1 + 0.2],
        ["KT 0500", "7.10"],
    ):
        sheet.append(row)
    book.create_sheet("Terms").append(["carriage", 6])
    data = io.BytesIO()
    book.save(data)
    draft = draft_of(shop_in(tmp_path), data.getvalue(), shown="prices.xlsx")
    prices = {one.number: one.row.price for one in (*draft.new, *draft.changed)}
    assert prices == {
        "KT 100": Money(Decimal("9.20"), "GBP"),
        "KT 400": Money(Decimal("0.30"), "GBP"),
        "KT 0500": Money(Decimal("7.10"), "GBP"),
    }
    assert draft.table.sheet == "Prices"
    assert next(one for one in draft.changed).row.origin.line == 4


def test_figures_of_a_workbook_have_no_noise() -> None:
    """Fifteen figures are what a binary64 number holds of a decimal one (IEC 60559)."""
    assert text_of(0.1 + 0.2) == "0.3"
    assert text_of(4021905.0) == "4021905"
    assert text_of(1e21) == "1000000000000000000000"


def test_texts_never_become_formulas() -> None:
    """What begins with = + - @ is written as a text, and read back as it was."""
    texts = ["=1+1", "+44", "-3", "@SUM(A1)", "plain"]
    data = workbook({"t": (["text"], [[text] for text in texts])})
    (_, rows), *_ = sheets_of(data, 10**6)
    assert [cells[0] for _, cells, _ in rows] == ["text", *texts]
    from openpyxl import load_workbook

    sheet = load_workbook(io.BytesIO(data)).active
    assert sheet is not None
    assert {cell.data_type for row in sheet.iter_rows() for cell in row} == {"s"}


def test_the_issuers_rules_hold_for_lists(tmp_path: Path) -> None:
    """Kestin's leading zeros do not count; a maker named in the list decides between two parts of one number."""
    folder = shop_in(tmp_path)
    draft = draft_of(
        folder,
        "number;make;price\nKT 500;Kestin;3.00\n77 01 22;Merrow;4.00\n100;Kestin;9.00\n401;Brede;2.00\n",
    )
    assert [(one.number, str(one.row.price)) for one in draft.new] == [
        ("KT 0500", "3.00 GBP"),
        ("Merrow 77 01 22", "4.00 GBP"),
        ("401", "2.00 GBP"),
    ]
    assert [row.number for row in draft.unknown] == ["100"]


def test_another_makers_number_is_not_taken_for_ours(tmp_path: Path) -> None:
    """Equal strings of two issuers are unrelated: a list that names another maker does not mean our part."""
    draft = draft_of(shop_in(tmp_path), "number;make;price\nKT 100;Brede;9.00\n")
    assert (draft.new, draft.changed, draft.same) == ((), (), ())
    assert [row.number for row in draft.unknown] == ["KT 100"]


def offers_at(folder: Path) -> dict[str, Offer]:
    """The supplier's offers by number, as the books have them now."""
    return {str(one.offer.number): one.offer for one in graph_at(folder).offers_by("castle-street")}


def test_taken_in_and_taken_back(tmp_path: Path) -> None:
    """Former prices and the layout are kept, the next list needs no words, and `undo` gives the book back byte for byte."""
    folder = shop_in(tmp_path)
    book = folder / "books" / "suppliers.yaml"
    before = book.read_bytes()
    text = "Art;EK;VK\nKT 100;9,30;11,00\nKT 400;4,00;6,00\n"
    first = draft_of(folder, text, number_in="art", price_in="ek")
    done = taken(folder, first)
    assert done.book == "shop/suppliers.yaml"
    offers = offers_at(folder)
    assert str(offers["KT 100"].price) == "9.30 GBP"
    assert [(str(one.price), str(one.seen)) for one in offers["KT 100"].earlier] == [
        ("9.00 GBP", "2026-11-26")
    ]
    assert (str(offers["KT 400"].price), offers["KT 400"].days, offers["KT 400"].seen) == (
        "4.00 GBP",
        1,
        TODAY,
    )
    again = draft_of(folder, text.replace("9,30", "9,10"))
    assert [str(one.before) for one in again.changed] == ["9.30 GBP"]
    assert len(again.same) == 1
    taken(folder, again)
    kept = offers_at(folder)["KT 100"].earlier
    assert [str(one.price) for one in kept] == ["9.00 GBP", "9.30 GBP"]
    assert undo(folder).refused is None
    assert undo(folder).refused is None
    assert book.read_bytes() == before


def test_nothing_is_half_taken(tmp_path: Path) -> None:
    """A book that somebody changed since it was read stays as it is, whole."""
    folder = shop_in(tmp_path)
    draft = draft_of(folder, "number;price\nKT 100;9.30\nKT 400;4.00\n")
    book = folder / "books" / "suppliers.yaml"
    edited = "# mine\n" + SUPPLIER
    book.write_text(edited, "utf-8")
    from fitlore.upkeep.pricelist import Written as Done
    from fitlore.upkeep.pricelist import written

    assert not isinstance(written(draft, folder, TODAY), Done)
    assert book.read_text("utf-8") == edited


def test_prices_in_words_where_nothing_hangs_on_the_encoding(tmp_path: Path) -> None:
    """A list in an unknown encoding is read where its other bytes stand in columns that do not count."""
    data = "number;text;price\nKT 400;Kühler;4.00\n".encode("latin-1")
    draft = draft_of(shop_in(tmp_path), data)
    assert [one.number for one in draft.new] == ["KT 400"]


@given(st.binary(max_size=300))
@settings(max_examples=150, deadline=None)
def test_any_bytes_are_a_list_or_a_question(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    """Whatever a file holds, it is read or asked about."""
    folder = shop_in(tmp_path_factory.mktemp("shop"))
    for head in (b"", b"number;price\n", b"PK\x03\x04"):
        with suppress(Unclear):
            assert draft_of(folder, head + data).changed == ()


BOOK = b"""\
# Top.
- supplier: a
  trade: factor
  # about the note
  note: x
  offers:
    - {number: KT 1, price: 1.00 GBP}   # first
    - number: KT 2
      price: 2.00 GBP
"""


def test_many_changes_are_one_change_and_move_nothing_else() -> None:
    """New texts, keys and items in one go; comments and everything else stand where they stood."""
    edits = [
        NewText((0, "offers", 0, "price"), "1.50 GBP"),
        NewText((0, "offers", 1, "price"), "2.50 GBP"),
        NewItem((0, "offers", 1, "earlier"), {"price": "2.00 GBP"}),
        NewText((0, "offers", 1, "seen"), TODAY),
        NewItem((0, "offers"), {"number": "KT 3", "price": "3.00 GBP"}),
        NewItem((0, "offers"), {"number": "KT 4", "price": "4.00 GBP"}),
        NewKey((0, "price-list"), {"number-in": "1", "price-in": "2"}, Supplier),
    ]
    made = changed_together("shop/a.yaml", BOOK, edits)
    assert isinstance(made, bytes)
    assert (
        made.decode()
        == """\
# Top.
- supplier: a
  trade: factor
  price-list: {number-in: "1", price-in: "2"}
  # about the note
  note: x
  offers:
    - {number: KT 1, price: 1.50 GBP}   # first
    - number: KT 2
      price: 2.50 GBP
      earlier:
        - price: 2.00 GBP
      seen: 2026-12-03
    - number: KT 3
      price: 3.00 GBP
    - number: KT 4
      price: 4.00 GBP
"""
    )


def test_changes_that_meet_are_refused() -> None:
    """One path changed twice is a slip of the program, and nothing is done."""
    edits = [NewText((0, "note"), "y"), NewText((0, "note"), "z")]
    assert isinstance(changed_together("shop/a.yaml", BOOK, edits), str)


def test_two_spellings_of_one_part_are_one_line(tmp_path: Path) -> None:
    """By the issuer's rules (leading zeros do not count) both mean one part: said twice, or held where the prices differ."""
    folder = shop_in(tmp_path)
    head = "number;make;price\n"
    same = draft_of(folder, f"{head}KT 500;Kestin;3.00\nKT 0500;Kestin;3.00\n")
    assert (len(same.new), same.repeated, same.held) == (1, 1, ())
    differ = draft_of(folder, f"{head}KT 500;Kestin;3.00\nKT 0500;Kestin;3.50\n")
    assert [one.code for one in differ.held] == ["P23-given-twice"]
    assert differ.new == ()
