"""The knowledge bases that speed is measured on."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from fitlore.books.layout import books_on, read_layout
from fitlore.books.reading import read_book
from fitlore.model.part import CrossFit, Part
from fitlore.model.record import Rec
from tests.speed.generate import Made, write_shop
from tests.speed.pattern import DEMO

PARTS = 900


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Made]:
    """A knowledge base of three copies of the demo, and how much of it there is."""
    folder = tmp_path_factory.mktemp("speed") / "shop"
    return folder, write_shop(folder, PARTS)


def own(folder: Path) -> list[Rec]:
    """The records of a shop's own books, which must have no faults and no notes."""
    records: list[Rec] = []
    for book in books_on(read_layout(folder)):
        if not book.shown.startswith("kb/"):
            reading = read_book(book.shown, book.path.read_bytes(), book.graph_name)
            assert reading.diagnostics == ()
            records += reading.records
    return records


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, by its path there."""
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_the_same_call_writes_the_same_bytes(made: tuple[Path, Made], tmp_path: Path) -> None:
    """Twice the same seed: the same files; another seed: other prices, and other claims across copies."""
    folder, counts = made
    assert write_shop(tmp_path / "again", PARTS) == counts
    assert contents(tmp_path / "again") == contents(folder)
    write_shop(tmp_path / "other", PARTS, seed=1)
    assert contents(tmp_path / "other") != contents(folder)


@pytest.mark.parametrize("parts", [300, PARTS])
def test_the_books_read_without_diagnostics(parts: int, tmp_path: Path) -> None:
    """Nothing is lost: every part and claim that was counted is read, and none of the books has so much as a note."""
    counts = write_shop(tmp_path / "shop", parts)
    records = own(tmp_path / "shop")
    assert abs(counts.parts - parts) <= 150
    assert sum(isinstance(record, Part) for record in records) == counts.parts
    assert sum(isinstance(record, CrossFit) for record in records) == counts.claims


def test_the_first_copy_is_the_demo(made: tuple[Path, Made]) -> None:
    """Every part and claim of the demo is in it, word for word: its questions can be asked at any size."""
    written = {_bare(record) for record in own(made[0]) if isinstance(record, Part | CrossFit)}
    demo = {_bare(record) for record in own(DEMO) if isinstance(record, Part | CrossFit)}
    assert demo <= written
    assert len(written) > 2 * len(demo)


def test_claims_join_the_copies(made: tuple[Path, Made]) -> None:
    """Every number that a claim speaks of is listed, and some claims lead from one copy into another."""
    folder, counts = made
    listed = {record.part for record in own(folder) if isinstance(record, Part)}
    assert {number for edge in counts.edges for number in edge} <= listed
    assert any(_copy(start) != _copy(end) for start, end in counts.edges)


def _copy(number: str) -> str:
    before, mark, copy = number.rpartition(" K")
    return copy if mark and before and copy.isdigit() else "0"


def _bare(record: Rec) -> str:
    """A record without where it stands."""
    data = msgspec.to_builtins(record)

    def without(value: object) -> object:
        if isinstance(value, dict):
            return {k: without(v) for k, v in sorted(value.items()) if k != "@origin"}
        return [without(v) for v in value] if isinstance(value, list | tuple) else value

    return str(without(data))
