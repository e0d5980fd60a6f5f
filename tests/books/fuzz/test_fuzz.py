"""A fuzzer over the real books in every form: a few seconds here, as long as one likes by `python -m tests.books.fuzz`."""

from __future__ import annotations

import os
import random
import sys
import time

import pytest

from tests.books.fuzz import cases
from tests.books.fuzz.bounds import bounded, tried_in_child
from tests.books.fuzz.properties import examine
from tests.books.fuzz.seeds import ENDINGS, records, small_book

SEED = int(os.environ.get("FITLORE_FUZZ_SEED", "20261125"))
COUNT = 20_000 if os.environ.get("FITLORE_FUZZ") == "long" else 300
pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="children are forked")


def test_no_spoilt_book_breaks_anything() -> None:
    """Reading, tidying, splicing, deriving and exporting end in bounds, raise nothing, and say where every fault is.

    What the fuzzer read is not nothing: of every three books at least one record is kept.
    """
    records()
    tried = tried_in_child(lambda number: cases.check(SEED, number), range(COUNT))
    assert not tried.failed, "\n".join(
        f"--seed {SEED} --case {one.number}\n{one.how}" for one in tried.failed
    )
    assert tried.cases == COUNT
    assert tried.total > COUNT / 3
    assert tried.slowest < 10


def test_a_fault_between_cr_and_lf_is_at_the_end_of_its_line() -> None:
    """Found by the fuzzer: a place of the parser's between the two signs that end a line is after the line's last word."""
    text = b'@prefix fl: <https://fitlore.example/terms#> .\r\n[] fl:part "A 1" ;\r\n      \r\n'
    found = examine("shop/a.ttl", text)
    assert [(one.origin.line, one.origin.column) for one in found.diagnostics] == [(3, 7)]


def test_cases_are_made_of_their_numbers() -> None:
    """The same number is the same book, so that a failure can be tried again; all forms are among them."""
    some = [cases.case(SEED, number) for number in range(200)]
    assert some == [cases.case(SEED, number) for number in range(200)]
    assert {one.shown.rpartition(".")[2] for one in some} == {ending[1:] for ending in ENDINGS}
    assert len({one.data for one in some}) > 190


def test_the_books_it_starts_from_are_sound() -> None:
    """Before anything is spoilt nothing is wrong: else the fuzzer would look at what every book has."""
    for ending in ENDINGS:
        book = small_book(random.Random(ending), ending)
        assert examine(f"shop/a{ending}", book.text.encode()).records


def _raises(number: int) -> int:
    if number == 2:
        raise ValueError("no such thing")
    return 1


def _hangs(number: int) -> int:
    if number == 1:
        time.sleep(60)
    return 1


def _works_on(number: int) -> int:
    while number == 1:
        pass
    return 1


def _eats(number: int) -> int:
    return len(bytearray(4_000_000_000)) if number == 0 else 1


def _dies(number: int) -> int:
    if number == 3:
        sys.stdout.flush()
        os._exit(7)
    return 1


@pytest.mark.parametrize(
    ("check", "number", "how"),
    [
        (_raises, 2, "no such thing"),
        (_hangs, 1, "not done after 2 s of the clock"),
        (_works_on, 1, "not done after 0.2 s of work"),
        (_eats, 0, "MemoryError"),
        (_dies, 3, "ended with 7"),
    ],
)
def test_the_watcher_sees_what_goes_wrong(check: object, number: int, how: str) -> None:
    """An exception, no end, too much memory and a sudden death are each told with their case, and the others are tried."""
    tried = tried_in_child(check, range(5), seconds=0.2, memory=500_000_000, patience=10)  # type: ignore[arg-type]
    (failed,) = tried.failed
    assert failed.number == number
    assert how in failed.how
    assert tried.cases == 5
    assert tried.total == 4


def test_bounded_hands_back_what_the_work_made() -> None:
    """One piece of work in a child: its number, or how it failed."""
    assert bounded(lambda: 41, seconds=5) == (41, "")
    assert "ZeroDivisionError" in bounded(lambda: 1 // 0, seconds=5)[1]
