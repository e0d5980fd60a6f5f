"""How much work an answer is, counted and not timed: it must not grow with the knowledge base.

The knowledge bases are those that speed is measured on, without their offers. From 5,000 parts on there are as many parts
of about the size of a front wheel stud as there will ever be; with 10,000 there are twice as many others.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

import pytest

from fitlore.fitting import Question, answer
from fitlore.graph.manifest import SETTLED
from fitlore.graph.open import Graph, open_graph
from fitlore.graph.store import Facts, Row
from tests.demo.shop import REPO, copy_of_the_demo
from tests.speed.generate import write_shop

SIZES = (5_000, 10_000)
PLACES = ("front-hubs/wheel-stud",)


class Took(NamedTuple):
    """What one answer took."""

    queries: int
    records: int


@pytest.fixture(scope="module")
def graphs(tmp_path_factory: pytest.TempPathFactory) -> list[Graph]:
    """A knowledge base of each size, out of its snapshot."""
    root, found = tmp_path_factory.mktemp("work"), []
    for parts in SIZES:
        shop = root / str(parts)
        write_shop(shop, parts)
        shutil.rmtree(shop / "books" / "suppliers")
        found.append(open_graph(shop, cache=root / "cache"))
    return found


def took(graph: Graph, path: str, monkeypatch: pytest.MonkeyPatch) -> Took:
    """Asks what fits a place on the green estate, of a graph that remembers nothing."""
    sizes: list[int] = []
    plain = Facts.run

    def counted(facts: Facts, name: str, keys: Iterable[str]) -> list[Row]:
        rows = plain(facts, name, keys)
        sizes.append(len(rows))
        return rows

    monkeypatch.setattr(Facts, "run", counted)
    fresh = Graph(graph.facts, graph.held)
    car = fresh.car("green")
    assert car is not None
    place = fresh.place(car.is_, path)
    assert place is not None
    assert answer(fresh, Question(place, car)).verdicts
    monkeypatch.undo()
    return Took(len(sizes), sum(sizes))


@pytest.mark.parametrize("path", PLACES)
def test_an_answer_is_no_more_work_in_a_larger_knowledge_base(
    graphs: list[Graph], path: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Twice as many parts: neither more questions to the store nor (but for a tenth) more records out of it."""
    small, large = (took(graph, path, monkeypatch) for graph in graphs)
    assert 10 < small.queries < 100
    assert large.queries <= small.queries + 2
    assert 10 < large.records <= 1.1 * small.records


def counted(shop: Path, *words: str) -> dict[str, list[str]]:
    """A command in a process of its own; which books it opened, and which heavy libraries it read in."""
    env = {**os.environ, "FITLORE_CACHE": str(shop.parent / "cache"), "FITLORE_TODAY": "2026-12-03"}
    env["PYTHONPATH"] = os.pathsep.join([str(REPO / "src"), str(REPO)])
    done = subprocess.run(
        [sys.executable, "-m", "tests.graph.counting", *words],
        cwd=shop, env=env, capture_output=True, text=True, check=False, timeout=120,
    )  # fmt: skip
    assert done.returncode in (0, 1), done.stderr
    found: dict[str, list[str]] = json.loads(done.stderr.splitlines()[-1])
    return found


def test_an_answer_opens_no_book_and_reads_in_no_heavy_library(tmp_path: Path) -> None:
    """The first answer has to read all books, and is seen doing it; a later one opens none, nor the library for them.

    Books that were written a moment before they were read are looked at once more.
    """
    shop = copy_of_the_demo(tmp_path).folder
    asked = ("fits", "--car", "green", "rear", "wheel", "cylinder")
    first = counted(shop, *asked)
    assert str(shop / "books" / "cars.yaml") in first["opened"]
    assert "yaml" in first["heavy"]
    time.sleep(SETTLED / 1e9)
    counted(shop, *asked)
    assert counted(shop, *asked) == {"opened": [], "heavy": []}
    assert counted(shop, "where", "--car", "green", "thermostat")["opened"] == []
