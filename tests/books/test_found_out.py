"""Every claim that was settled by experiment has the tests that show it; see `found_out.md` beside this file."""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path

import pytest

TESTS = Path(__file__).resolve().parents[1]
ROWS = [
    tuple(cell.strip() for cell in line.strip("|").split("|"))
    for line in Path(__file__).with_name("found_out.md").read_text("utf-8").splitlines()
    if line.startswith("| ") and line != "| claim | test |"
]


@cache
def functions(file: str) -> frozenset[str]:
    """The tests that a file has."""
    tree = ast.parse((TESTS / file).read_text("utf-8"))
    return frozenset(
        one.name for one in tree.body if isinstance(one, ast.FunctionDef) and one.name.startswith("test_")
    )


def test_no_claim_is_there_twice() -> None:
    """There are many, each once, in two columns."""
    assert len(ROWS) > 60
    assert {len(row) for row in ROWS} == {2}
    assert len({row[0] for row in ROWS}) == len(ROWS)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_each_claim_names_tests_that_there_are(row: tuple[str, str]) -> None:
    """A test that was renamed or taken out leaves its claim without one."""
    named = re.findall(r"`([\w/.]+)::(\w+)`", row[1])
    assert named
    assert len(named) == row[1].count("`") // 2
    for file, function in named:
        assert function in functions(file), (file, function)
