"""Several processes at one knowledge base: writers wait, readers are never in the way, a killed writer leaves no harm."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from fitlore.graph import home
from fitlore.graph.open import open_graph
from tests.graph import small

Run = Callable[..., "subprocess.Popen[str]"]
PAUSE = "import time; time.sleep(0.001)"

WRITER = """
import sys
from pathlib import Path
from fitlore.graph.open import open_graph
shop, name, times = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
for n in range(1, times + 1):
    text = "".join(f"- car: {name}-{n}-{i}\\n  is: tarn-corva\\n" for i in range(20))
    half = shop / "books" / f".{name}"
    half.write_text(text)
    half.replace(shop / "books" / f"{name}.yaml")
    cars = [c.car for c in open_graph(shop).cars() if c.car.startswith(f"{name}-")]
    assert cars == [f"{name}-{n}-{i}" for i in range(20)], cars
"""

READER = """
import sys
from pathlib import Path
from fitlore.graph import home, snapshot
shop, stop = Path(sys.argv[1]), Path(sys.argv[2])
kept, seen, last = home.home_of(shop), set(), {}
while not stop.exists():
    opened = snapshot.open_current(kept)
    assert opened is not None
    graph = snapshot._graph(opened)
    for name in ("one", "two"):
        cars = [c.car.split("-") for c in graph.cars() if c.car.startswith(f"{name}-")]
        generations = {int(n) for _, n, _ in cars}
        assert len(generations) <= 1 and len(cars) in (0, 20), cars
        for generation in generations:
            assert generation >= last.get(name, 0)
            last[name] = generation
            seen.add((name, generation))
print(len(seen))
"""

KILLED = """
import os, sys
from pathlib import Path
from fitlore.graph import build, snapshot, store
from fitlore.graph.open import open_graph
die = lambda *args, **kwargs: os._exit(9)
where = sys.argv[2]
if where == "pointer":
    snapshot.point = die
elif where == "reading":
    build.read_book = die
elif where == "flush":
    store.Writer.close = die
elif where == "sweep":
    snapshot._sweep = die
open_graph(Path(sys.argv[1]))
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A copy of the small shop."""
    return small.copy_to(tmp_path)


@pytest.fixture
def run(tmp_path: Path, repo: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Starts a script in a process of its own, with the cache of this test."""
    monkeypatch.setenv(home.CACHE, str(tmp_path / "cache"))
    environment = {**os.environ, "PYTHONPATH": str(repo / "src"), "PYTHONWARNINGS": "error"}

    def start(script: str, *arguments: object) -> subprocess.Popen[str]:
        return subprocess.Popen(
            [sys.executable, "-c", script, *map(str, arguments)],
            env=environment,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )

    return start


def done(process: subprocess.Popen[str]) -> str:
    """What a process printed; it has to end well."""
    out, err = process.communicate(timeout=100)
    assert process.returncode == 0, err
    return out


def snapshots(shop: Path) -> list[str]:
    """Finished and unfinished snapshots of a shop."""
    return sorted(path.name for path in home.home_of(shop).glob("*s[0-9]*") if path.is_dir())


def test_two_writers_and_two_readers_see_whole_books_only(shop: Path, run: Run, tmp_path: Path) -> None:
    """Each writer finds its own change in what it opens; readers see every book in one generation, never an older one
    after a newer one, and what nobody reads any more is swept away.
    """
    open_graph(shop)
    stop = tmp_path / "stop"
    readers = [run(READER, shop, stop) for _ in range(2)]
    writers = [run(WRITER, shop, name, 8) for name in ("one", "two")]
    for writer in writers:
        done(writer)
    stop.touch()
    assert all(int(done(reader)) >= 2 for reader in readers)
    last = {str(c.car) for c in open_graph(shop).cars()}
    assert {f"{name}-8-{i}" for name in ("one", "two") for i in range(20)} <= last
    (shop / "books" / "one.yaml").unlink()
    open_graph(shop)
    assert len(snapshots(shop)) <= 2


@pytest.mark.parametrize("where", ["reading", "flush", "pointer", "sweep"])
def test_a_killed_writer_leaves_the_old_snapshot_and_nothing_in_the_way(
    shop: Path, run: Run, tmp_path: Path, where: str
) -> None:
    """Killed while reading, before the flush, before the pointer or before the sweep: the next one proceeds at once, its
    answers are those of the books, and the remains go.
    """
    open_graph(shop)
    pointer = home.home_of(shop) / "current"
    before = pointer.read_text()
    (shop / "books" / "suppliers.yaml").unlink()
    (shop / "books" / "more.yaml").write_text("- car: third\n  is: tarn-corva\n", "utf-8")
    killed = run(KILLED, shop, where)
    killed.communicate(timeout=100)
    assert killed.returncode == 9
    assert (pointer.read_text() == before) == (where != "sweep")
    graph = open_graph(shop)
    assert graph.suppliers() == ()
    assert len(graph.cars()) == 3
    (shop / "books" / "corva.yaml").unlink()
    assert len(open_graph(shop).platforms()) == 1
    assert not [name for name in snapshots(shop) if name.startswith(".")]
    assert len(snapshots(shop)) <= 2


def test_a_reader_keeps_its_snapshot_while_others_are_made(shop: Path, run: Run, tmp_path: Path) -> None:
    """A graph that was opened before answers as before, also questions it was not asked yet."""
    graph = open_graph(shop)
    done(run(WRITER, shop, "one", 4))
    assert len(graph.platforms()) == 2
    assert {str(c.car) for c in graph.cars()} == {"corva-green", "tolland-blue"}
    assert graph.parts(["KT530190"])
    assert len({str(c.car) for c in open_graph(shop).cars()}) == 22


COLD = """
import sys
from pathlib import Path
from fitlore.graph.open import open_graph
graph = open_graph(Path(sys.argv[1]))
assert graph.held.notes == ()
place = graph.place("kestin-tolland", "brakes/stop-lamp-switch")
assert graph.claims_at(place.on, place.path) and graph.policy.classes and graph.diagnostics == ()
if sys.argv[2] == "words":
    from fitlore.graph.lookup import find
    assert find(graph, "stop lamp switch", platforms=["kestin-tolland"]).exact
print(" ".join(sys.modules))
"""


@pytest.mark.parametrize("question", ["place", "words"])
def test_a_question_to_a_current_snapshot_loads_no_heavy_library(shop: Path, run: Run, question: str) -> None:
    """Neither what reads books nor what draws, solves or checks is imported; the store is."""
    open_graph(shop)
    loaded = set(done(run(COLD, shop, question)).split())
    assert "pyoxigraph" in loaded
    heavy = {"yaml", "networkx", "rdflib", "highspy", "rich", "numpy", "pint", "click", "jsonschema"}
    assert not heavy & loaded
    assert not [name for name in loaded if name.startswith("fitlore.books")]
    assert "fitlore.trade.standards" not in loaded
    assert "fitlore.graph.build" not in loaded
