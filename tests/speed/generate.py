"""Knowledge bases of any size, shaped like the demo: copies of it with other numbers, joined by claims across copies.

Copy 0 is the demo itself, so the demo's questions can be asked at any size. `FAMILY` copies in a row have the same
sizes in mm, as the cars of one maker do, so a place has about as many candidates by measure however many parts there
are; what is made to a standard (threads, bulbs, bearings) is not changed, so ever more parts are equal in that. Three
claims in ten name a part of an earlier copy. Everything follows from the seed: the same call writes the same bytes.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator
from itertools import islice
from pathlib import Path
from typing import Final, NamedTuple, TypeVar

from tests.speed.pattern import DEMO, Pattern, Record, Slot, pattern

T = TypeVar("T")
FAMILY: Final = 8
TOWN: Final = 30
"""Copies whose offers the same eight suppliers sell."""
PER_BOOK: Final = {"part": 1000, "crossfit": 1000, "platform": 15}
ACROSS: Final = 0.3
SEED: Final = 20261203


class Made(NamedTuple):
    """How much was written."""

    parts: int
    platforms: int
    claims: int
    offers: int
    books: int
    size: int
    """Bytes."""
    edges: list[tuple[str, str]]
    """What each claim says may stand for what: number instead of which, number used."""


class _Copy:
    """One copy: fills the slots of its records."""

    def __init__(self, number: int, seed: int) -> None:
        self.number = number
        self.random = random.Random(f"{seed}/{number}")
        self.mm = number // FAMILY
        family = range(self.mm * FAMILY, number)
        self.other = self.random.choice(family) if family else number

    def name(self, text: str, kind: str, number: int) -> str:
        """The name of a part, platform or claim in copy `number`; of a supplier in its town."""
        if kind == "supplier":
            number //= TOWN
        if not number:
            return text
        return f"{text} K{number}" if kind == "part" else f"{text}-{number}"

    def fill(self, slot: Slot, claim_to: int) -> str:
        """The text of a slot; the part that a claim uses is that of copy `claim_to`."""
        if slot.kind == "mm":
            if not self.mm:
                return slot.text
            value, _, unit = slot.text.partition(" ")
            digits = max(len(value.partition(".")[2]), self.mm % 2)
            return f"{float(value) + 0.5 * self.mm:.{digits}f} {unit}"
        if slot.kind == "price":
            if not self.number:
                return slot.text
            value, _, currency = slot.text.partition(" ")
            return f"{max(1, round(float(value) * self.random.uniform(80, 120))) / 100:.2f} {currency}"
        if slot.kind == "use":
            return _sure(self.name(slot.text, "part", claim_to))
        return _sure(self.name(slot.text, slot.kind, self.number))

    def text(self, record: Record) -> str:
        """A record of this copy."""
        return self._text(record, self.number)

    def claim(self, record: Record) -> tuple[str, tuple[str, str] | None]:
        """A claim of this copy, and from which number to which it goes (None: it is made for a place)."""
        far = self.other if self.random.random() < ACROSS else self.number
        slots = [slot for slot in record.pieces if isinstance(slot, Slot)]
        start = next((slot.text for slot in slots if slot.kind == "part"), None)
        use = next((slot.text for slot in slots if slot.kind == "use"), None)
        if start is None or use is None:
            return self._text(record, far), None
        return self._text(record, far), (
            self.name(start, "part", self.number),
            self.name(use, "part", far),
        )

    def _text(self, record: Record, claim_to: int) -> str:
        return "".join([p if isinstance(p, str) else self.fill(p, claim_to) for p in record.pieces])


def write_shop(folder: Path, parts: int, seed: int = SEED) -> Made:
    """Writes a shop of about this many parts (whole copies of the demo, at least one) into `folder`, which is made."""
    shape = pattern()
    copies = [_Copy(number, seed) for number in range(max(1, round(parts / len(shape.records["part"]))))]
    books = folder / "books"
    (books / "suppliers").mkdir(parents=True)
    (folder / "fitlore.yaml").write_bytes((DEMO / "fitlore.yaml").read_bytes())
    for book in shape.once:
        (books / book.name).write_bytes(book.read_bytes())
    size = {"part": 0, "platform": 0, "crossfit": 0}
    for kind in ("part", "platform"):
        texts = (copy.text(record) for copy in copies for record in shape.records[kind])
        size[kind] = _write(books, kind, texts)
    edges: list[tuple[str, str]] = []
    size["crossfit"] = _write(books, "crossfit", _claims(shape, copies, edges))
    offers = _write_suppliers(books / "suppliers", shape, copies)
    files = list(books.rglob("*.yaml"))
    total = sum(path.stat().st_size for path in files)
    return Made(size["part"], size["platform"], size["crossfit"], offers, len(files), total, edges)


def _claims(shape: Pattern, copies: list[_Copy], edges: list[tuple[str, str]]) -> Iterator[str]:
    for copy in copies:
        for record in shape.records["crossfit"]:
            text, ends = copy.claim(record)
            if ends:
                edges.append(ends)
            yield text


def _write(books: Path, kind: str, texts: Iterator[str]) -> int:
    count = 0
    for number, some in enumerate(_batched(texts, PER_BOOK[kind])):
        (books / f"{kind}s-{number:04}.yaml").write_text("".join(some), encoding="utf-8")
        count += len(some)
    return count


def _write_suppliers(folder: Path, shape: Pattern, copies: list[_Copy]) -> int:
    count = 0
    for town, some in enumerate(_batched(iter(copies), TOWN)):
        for record in shape.records["supplier"]:
            texts = [copy.text(offer) for copy in some for offer in shape.offers[record.name]]
            head = some[0].text(record).rstrip("\n")
            text = f"{head}\n  offers:\n{''.join(texts)}"
            (folder / f"{record.name}-{town:04}.yaml").write_text(text, encoding="utf-8")
            count += len(texts)
    return count


def _batched(things: Iterable[T], size: int) -> Iterator[list[T]]:
    rest = iter(things)
    while some := list(islice(rest, size)):
        yield some


def _sure(name: str) -> str:
    return name if name[0].isalpha() else f'"{name}"'
