"""The cases of the fuzzers: each is made of its number alone, so that it can be tried again."""

from __future__ import annotations

import random
from typing import Final, NamedTuple

from fitlore.books.alike import said
from fitlore.books.reading import Reading, read_book
from tests.books.fuzz.mutate import junk, spoilt, spoilt_piece
from tests.books.fuzz.properties import examine
from tests.books.fuzz.seeds import ENDINGS, GRAPH, small_book

_SWALLOWS: Final = (
    '"',
    "'",
    "---",
    "...",
    "\u0085",
    "\u2028",
    "\u2029",
    "\r",
    "|",
    ">",
    "%",
    "\n- ",
    "[",
    "{",
    "?",
)
"""What may take the text behind it in, or end it: where one of these was put in, only the faults are looked at."""


class Case(NamedTuple):
    """A book to try: its shown name and its bytes."""

    shown: str
    data: bytes


def case(seed: int, number: int) -> Case:
    """A spoilt book, or now and then mere junk."""
    chance = random.Random(f"{seed}/{number}")
    if chance.random() < 0.1:
        return Case(f"shop/fuzz{chance.choice(ENDINGS)}", junk(chance))
    book = small_book(chance)
    return Case(f"shop/fuzz{book.ending}", spoilt(chance, book))


def check(seed: int, number: int) -> int:
    """Tries a case; how many records were kept. AssertionError, or whatever was raised, where it fails."""
    if number % 5 == 0:
        return one_record_spoilt(seed, number)
    shown, data = case(seed, number)
    return len(examine(shown, data).records)


def one_record_spoilt(seed: int, number: int) -> int:
    """Where one record of a book is spoilt, every other one is kept as it was, or a fault is told inside it."""
    chance = random.Random(f"{seed}/{number}")
    book = small_book(chance, ".yaml")
    pieces = [piece if piece.endswith("\n") else piece + "\n" for piece in book.pieces]
    whole = read_book("shop/fuzz.yaml", "".join(pieces).encode(), GRAPH)
    at = chance.randrange(len(pieces))
    old, new = pieces[at], spoilt_piece(chance, pieces[at])
    if not new.endswith("\n"):
        new += "\n"
    put_in = any(new.count(sign) != old.count(sign) for sign in _SWALLOWS)
    text = "".join([*pieces[:at], new, *pieces[at + 1 :]])
    found = examine("shop/fuzz.yaml", text.encode("utf-8", "surrogatepass"))
    if new.startswith("- ") and not put_in:
        first = "".join(pieces[:at]).count("\n") + 1
        _others_stand(whole, found, range(first, first + old.count("\n")), new.count("\n") - old.count("\n"))
    return len(found.records)


def _others_stand(whole: Reading, found: Reading, spoilt_lines: range, moved: int) -> None:
    kept = {(record.origin.line, repr(said(record))) for record in found.records}
    told = {d.origin.line for d in found.diagnostics}
    ends = [*(record.origin.line for record in whole.records[1:]), 1 << 30]
    for record, end in zip(whole.records, ends, strict=True):
        line = record.origin.line
        if line in spoilt_lines:
            continue
        by = moved if line >= spoilt_lines.stop else 0
        there = (line + by, repr(said(record))) in kept
        assert there or any(line + by <= one < end + by for one in told), (record.origin, by)
