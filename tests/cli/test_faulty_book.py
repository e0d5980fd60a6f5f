"""A book with ten faults on the shop's shelf: all ten are shown at their places, and every other book still answers."""

from __future__ import annotations

import re

from tests.demo.shop import Shop

BOOK = """\
- part: ZZ 1
  is: radiator
  colour: green
- part: ZZ 2
- {part: ZZ 3, is: radiator, features: [420 mm]}
- {part: ZZ 4, is: radiator, contains: [{number: ZZ 1, quantity: a few}]}
- crossfit: guessed
  instead-of: ZZ 1
  use: ZZ 2
  goes: sideways
- crossfit: dreamt
  instead-of: ZZ 2
  use: ZZ 1
  evidence: [{how: dreamt, by: shop}]
- supplier: corner
  trade: factor
  offers: [{number: ZZ 1, price: ten pounds}]
- supplier: market
  trade: factor
  offers: [{number: ZZ 1, price: 10.00 GBP, days: soon}]
- {platform: zz-cart, built: last summer}
- {thing: ZZ 9}
"""
WRONG = [
    (3, "colour"),
    (4, "part: ZZ 2"),
    (5, "[420 mm]"),
    (6, "a few"),
    (10, "sideways"),
    (14, "dreamt, by"),
    (17, "ten pounds"),
    (20, "soon"),
    (21, "last summer"),
    (22, "{thing"),
]
"""The line of each fault, and the text that it begins at."""
FAULTS = [(line, BOOK.splitlines()[line - 1].index(text) + 1) for line, text in WRONG]
HEAD = re.compile(r"(?m)^books/ten\.yaml:(\d+):(\d+): error: ")


def test_ten_faults_are_ten_diagnostics(shop: Shop) -> None:
    """Exit 1; each with file, line and column, the line itself, and a mark under the fault."""
    (shop.folder / "books" / "ten.yaml").write_text(BOOK, "utf-8")
    said = shop.call("check")
    assert said.code == 1
    assert said.err == "note: 10 faults in the books; `fitlore check` shows them\n"
    assert [(int(m[1]), int(m[2])) for m in HEAD.finditer(said.out)] == FAULTS
    lines = BOOK.splitlines()
    rows = said.out.splitlines()
    for line, column in FAULTS:
        at = rows.index(f"    {lines[line - 1]}")
        assert rows[at + 1].index("^") == 4 + column - 1
    assert said.out.splitlines()[-1].startswith("10 errors")


def test_the_same_as_json(shop: Shop) -> None:
    """Ten errors with book, line and column, each with what was expected or what to do."""
    (shop.folder / "books" / "ten.yaml").write_text(BOOK, "utf-8")
    found = shop.call("check", "--json").json
    errors = [row for row in found["faults"] if row["severity"] == "error"]
    assert found["errors"] == 10
    assert [(row["line"], row["column"]) for row in errors] == FAULTS
    assert {row["book"] for row in errors} == {"shop/ten.yaml"}
    assert all(row["expected"] or row["remedy"] for row in errors)


def test_every_other_book_still_answers(shop: Shop) -> None:
    """The same bytes as before, and a note that there are faults."""
    calls = [("fits", "rear wheel cylinder"), ("where", "radiator", "--on", "2026-12-03"), ("plan",)]
    before = [shop.call(*words, "--json") for words in calls]
    (shop.folder / "books" / "ten.yaml").write_text(BOOK, "utf-8")
    after = [shop.call(*words, "--json") for words in calls]
    assert [said.code for said in before] == [0, 0, 0]
    assert [(said.code, said.out) for said in after] == [(said.code, said.out) for said in before]
    assert {said.err for said in after} == {"note: 10 faults in the books; `fitlore check` shows them\n"}


def test_a_book_that_is_no_yaml_is_one_fault(shop: Shop) -> None:
    """Nothing of it can be read; the place is told."""
    (shop.folder / "books" / "torn.yaml").write_text("- part: ZZ 1\n  is: [radiator\n", "utf-8")
    said = shop.call("check")
    assert said.code == 1
    assert re.search(r"(?m)^books/torn\.yaml:\d+:\d+: error: ", said.out)
    assert shop.call("fits", "radiator").code == 0
