"""Rows of text into tables: what is refused, what is told, and that the value survives a snapshot."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec
import pytest

from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin
from fitlore.trade.standards import Standards, standards_from
from tests.trade.loading import STANDARDS

HERE = Origin("shop/threads.yaml", 7, 5)
GOOD = {
    "size": "3/8",
    "tpi": "26",
    "major": "0.375",
    "source": "measured in the shop",
    "certainty": "computed",
}


def one(section: str, row: Mapping[str, str]) -> tuple[Standards, list[Diagnostic]]:
    """The tables that one row of text makes, and what is wrong with it."""
    return standards_from([(section, row, HERE)])


def test_a_shop_may_add_a_size_of_its_own() -> None:
    """A good row arrives with its place; a file name before the section does not matter."""
    for section in ("BSF", "threads/BSF"):
        tables, problems = one(section, GOOD)
        assert problems == []
        assert [(row.size, row.origin) for row in tables.threads] == [("3/8", HERE)]


@pytest.mark.parametrize(
    ("section", "change", "code"),
    [
        ("BSF", {"tpi": ""}, "table-number"),
        ("BSF", {"tpi": "26e0"}, "table-number"),
        ("BSF", {"tpi": "-26"}, "table-number"),
        ("BSF", {"tpi": "0"}, "table-number"),
        ("BSF", {"tpi": "٢٦"}, "table-number"),
        ("BSF", {"major": "0.380"}, "table-thread"),
        ("BSF", {"tpi": "4"}, "table-thread"),
        ("BSF", {"size": "three"}, "table-size"),
        ("BSF", {"size": "3/0"}, "table-size"),
        ("BSF", {"certainty": "sure"}, "table-certainty"),
        ("BSF", {"angle": "60"}, "table-key-unknown"),
        ("bolts", {}, "table-section"),
        ("G", {"diameter": "9.7", "pitch-diameter": "9.8", "minor": "8.6"}, "table-thread"),
    ],
)
def test_a_faulty_row_is_left_out_and_told(section: str, change: dict[str, str], code: str) -> None:
    """One diagnostic with a place, what was expected and a remedy; nothing is raised and nothing is taken."""
    row = GOOD | change
    if section == "G":
        del row["major"]
    tables, problems = one(section, row)
    assert tables.threads == ()
    assert [(fault.code, fault.origin, fault.severity) for fault in problems] == [
        (code, HERE, Severity.ERROR)
    ]
    assert problems[0].expected
    assert problems[0].remedy


@pytest.mark.parametrize("key", sorted(GOOD))
def test_a_missing_key_is_named(key: str) -> None:
    """Source and certainty are needed as much as the figures."""
    tables, problems = one("BSF", {k: v for k, v in GOOD.items() if k != key})
    assert tables.threads == ()
    assert [(fault.code, key in fault.expected) for fault in problems] == [("table-key-missing", True)]


def test_a_size_said_twice_alike_counts_once_and_said_otherwise_is_a_fault() -> None:
    """The first place keeps the size; the second place with other figures is told."""
    twice = [("BSF", GOOD, HERE), ("BSF", GOOD | {"tpi": "26.0"}, HERE)]
    tables, problems = standards_from(twice)
    assert (len(tables.threads), problems) == (1, [])
    g = {"size": "1/8", "tpi": "28", "diameter": "9.728", "pitch-diameter": "9.147", "minor": "8.566"}
    sure = {"source": "ISO 228-1", "certainty": "published"}
    later = Origin("shop/threads.yaml", 9, 5)
    tables, problems = standards_from([("G", g | sure, HERE), ("G", g | sure | {"minor": "8.6"}, later)])
    assert [row.origin for row in tables.threads] == [HERE]
    assert [(fault.code, fault.origin) for fault in problems] == [("table-twice", later)]


def test_what_stands_under_meta_is_no_row() -> None:
    """A table file's own remarks are not read."""
    assert one("meta", {"standards": "ISO 724"}) == (Standards(), [])


def test_the_tables_survive_a_snapshot() -> None:
    """msgpack there and back gives the same value: decimals to the digit, origins, certainties."""
    packed = msgspec.msgpack.encode(STANDARDS)
    assert msgspec.msgpack.decode(packed, type=Standards) == STANDARDS
