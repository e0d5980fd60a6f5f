"""All verdicts of a whole car out of one opened graph: `python tests/speed/whole_car.py SIZE...` (parts: 10000 1000000).

As `fits whole car` asks: of what nobody claims the nearest dozen at each place. Seconds and processor seconds after
opening, and how often the store was asked. Wanted: under 2 s for a car of a hundred
places at a million parts. Figures are kept in `whole_car.json` beside this file, size by size.

--work FOLDER   where the knowledge bases are written (default: a temporary folder); what stands built there is used again
"""

# ruff: noqa: E402  (this file is run as a script: it has to say where the packages are)
from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

_REPO = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(_REPO / "src"), str(_REPO)]

import msgspec

from fitlore.fitting import Question, answers
from fitlore.fitting.nearest import NEAREST
from fitlore.graph.open import open_graph
from fitlore.graph.store import Facts, Row
from tests.speed.generate import write_shop
from tests.speed.measure import machine

KEPT: Final = Path(__file__).with_name("whole_car.json")
CAR: Final = "green"
LEAST_PLACES: Final = 90
"""The car of the demo has about a hundred places, sides counted."""


class WholeCar(msgspec.Struct, frozen=True):
    """One size."""

    parts: int
    places: int
    """Questions: each place, and each side of it."""
    verdicts: int
    seconds: float
    processor: float
    queries: int
    """How often the store was asked, each call counted once whatever it brought."""
    keys: int
    """For how many keys."""
    machine: str
    more: int = 0
    """Parts that nobody claims and that are only counted."""


@contextmanager
def counted() -> Iterator[Counter[str]]:
    """Counts every call of the store while it is open: `queries` and `keys`, and each query by name."""
    counts: Counter[str] = Counter()
    run, nodes = Facts.run, Facts.nodes

    def count(query: str, keys: list[str]) -> None:
        counts["queries"] += 1
        counts["keys"] += len(keys)
        counts[f"query {query}"] += 1

    def running(self: Facts, query: str, keys: Iterable[str]) -> list[Row]:
        wanted = list(keys)
        count(query, wanted)
        return run(self, query, wanted)

    def finding(self: Facts, query: str, keys: Iterable[str]) -> list[tuple[str, str]]:
        wanted = list(keys)
        count(query, wanted)
        return nodes(self, query, wanted)

    Facts.run, Facts.nodes = running, finding  # type: ignore[method-assign]
    try:
        yield counts
    finally:
        Facts.run, Facts.nodes = run, nodes  # type: ignore[method-assign]


def measured(shop: Path, cache: Path, parts: int) -> WholeCar:
    """The demo's car in a knowledge base of this size: every place, each side, all verdicts."""
    graph = open_graph(shop, cache=cache)
    car = graph.car(CAR)
    assert car is not None
    with counted() as counts:
        began, before = time.perf_counter(), time.process_time()
        places = graph.places(car.is_)
        asked = [
            Question(place, car, side, nearest=NEAREST) for place in places for side in place.sides or ("",)
        ]
        replies = answers(graph, asked)
        seconds, processor = time.perf_counter() - began, time.process_time() - before
    assert len(asked) >= LEAST_PLACES
    verdicts = sum(len(reply.verdicts) for reply in replies)
    more = sum(reply.more + reply.more_traps for reply in replies)
    return WholeCar(
        parts, len(asked), verdicts, round(seconds, 2), round(processor, 2),
        counts["queries"], counts["keys"], machine(), more,
    )  # fmt: skip


def main(words: list[str]) -> None:
    """Measures each size and keeps what came out."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("sizes", nargs="*", type=int)
    parser.add_argument("--work", type=Path)
    told = parser.parse_args(words)
    with tempfile.TemporaryDirectory() as temporary:
        work = told.work or Path(temporary)
        found = []
        for size in told.sizes:
            shop = work / str(size) / "shop"
            if not shop.exists():
                write_shop(shop, size)
            found.append(measured(shop, work / str(size) / "cache", size))
            print(found[-1], flush=True)
    old = msgspec.json.decode(KEPT.read_bytes(), type=list[WholeCar]) if KEPT.exists() else []
    every = {one.parts: one for one in (*old, *found)}
    kept = msgspec.json.encode([every[size] for size in sorted(every)])
    KEPT.write_bytes(msgspec.json.format(kept) + b"\n")


if __name__ == "__main__":
    main(sys.argv[1:])
