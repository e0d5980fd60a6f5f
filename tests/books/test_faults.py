"""Each fault exists only with its smallest failing book, what is then said, and a row on the error page."""

from __future__ import annotations

import re

import pytest

from fitlore.books.faults import Fault, fault, page, register, registered, shown
from fitlore.model.diagnostic import Severity
from fitlore.model.origin import Origin
from tests.books.smallest import FOLDER, PAGE, diagnostics_of, page_text, rows, said_of


@pytest.mark.parametrize("code", [row.code for row in rows()])
def test_the_smallest_book_finds_its_fault_and_nothing_else(code: str) -> None:
    """The smallest failing book of a code gives that code alone, and the golden text, byte for byte."""
    assert {d.code for d in diagnostics_of(code)} == {code}
    assert said_of(code) == (FOLDER / f"{code}.txt").read_text("utf-8")


def test_no_example_is_without_its_fault() -> None:
    """Every file in the folder of smallest books belongs to a registered code."""
    codes = {row.code for row in rows()}
    assert {path.stem for path in FOLDER.iterdir()} == codes
    assert len(codes) >= 30


def test_the_error_page_is_current() -> None:
    """The committed page is what the registry and the smallest books make; renew it with `python -m tests.books.smallest`."""
    assert PAGE.read_text("utf-8") == page_text()
    for row in rows():
        assert f"## {row.code}\n" in page()


def test_every_fault_says_what_is_there_what_was_expected_and_what_to_do() -> None:
    """No text of a fault is empty, none ends in a placeholder, and every place has a line except a missing file's."""
    for row in rows():
        for found in diagnostics_of(row.code):
            assert found.message
            assert found.expected
            assert found.remedy
            assert not re.search(r"\{[a-z]+\}", found.message + found.expected + found.remedy)
            assert found.origin.line > 0 or row.code.startswith("L04")


def test_a_code_is_taken_once() -> None:
    """A second fault under a code is refused; the same row again is not a second one."""
    first = registered("B")[0]
    register([first])
    with pytest.raises(ValueError, match=first.code):
        register([first._replace(title="another")])


def test_other_rooms_can_make_diagnostics_of_their_own() -> None:
    """`fault` fills the templates of a registered row and keeps place, line and width."""
    row = Fault("X99-test", Severity.WARNING, "t", "`{word}` is odd", "an even {word}", "Change {word}.")
    register([row])
    made = fault("X99-test", Origin("shop/a.yaml", 2, 3), excerpt="a odd line", width=3, word="three")
    assert made.severity is Severity.WARNING
    assert shown(made) == (
        "shop/a.yaml:2:3: warning: `three` is odd [X99-test]\n    a odd line\n      ^^^\n"
        "  expected: an even three\n  remedy: Change three."
    )
    with pytest.raises(KeyError):
        fault("X99-test", Origin("shop/a.yaml"))
