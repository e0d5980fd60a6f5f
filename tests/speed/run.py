"""The benchmarks of the graph: `python tests/speed/run.py SIZE...` (parts: 10000 100000 1000000), tables on stdout.

--work FOLDER   where the knowledge bases and stores are written (default: a temporary folder), and removed at the end
--runs N        how often each short process is timed (default 7)
"""

# ruff: noqa: E402  (this file is run as a script: it has to say where the packages are)
from __future__ import annotations

import argparse
import json
import shutil
import sys
import tempfile
from importlib.util import find_spec
from pathlib import Path
from typing import Final, NamedTuple

_REPO = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(_REPO / "src"), str(_REPO)]

from tests.speed.generate import Made
from tests.speed.measure import Command, Run, in_turn, machine, middle, ratio, runs_table, table, timed
from tests.speed.peers import PEERS

QUESTION: Final = ("rear", "wheel", "cylinder")
CAR: Final = "green"
EDITED: Final = ("name: window winder right", "name: window winder for the right")
TARGETS: Final = {"floor": 1.5, "growth": 1.25, "build": 0.5, "edit": 0.5}
_REPEATED: Final = 100_000
"""Up to so many parts, building and raw loading are timed twice."""


class Place(NamedTuple):
    """The folders of one size."""

    root: Path

    @property
    def shop(self) -> Path:
        """The shop's folder."""
        return self.root / "shop"

    @property
    def environment(self) -> dict[str, str]:
        """Where its snapshots are kept."""
        return {
            "FITLORE_CACHE": str(self.root / "cache"),
            "PYTHONPYCACHEPREFIX": str(self.root.parent / "bytecode"),
        }

    @property
    def store(self) -> Path:
        """The store of the snapshot that counts."""
        pointer = next((self.root / "cache").glob("*/*/current"))
        return pointer.parent / pointer.read_text("utf-8").strip() / "store"

    def step(self, name: str, *words: object) -> Command:
        """A step of `tests.speed.steps`."""
        return Command(name, [sys.executable, "-m", "tests.speed.steps", name, *map(str, words)], self.root)


class Result(NamedTuple):
    """What one size came to."""

    made: Made
    against_floor: float
    fits: Run
    build: float
    """Throughput against raw loading."""
    edit: Run


def measured(place: Place, parts: int, runs: int) -> Result:
    """Everything for one size; tables are printed as soon as they are known."""
    place.root.mkdir(parents=True)
    made = Made(*json.loads(timed(place.step("generate", place.shop, parts), place.environment).said))
    print(f"\n=== {made.parts:,} parts, {made.platforms:,} platforms, {made.claims:,} claims, {made.offers:,} offers:"
          f" {made.books:,} books, {made.size / 1e6:,.1f} MB", flush=True)  # fmt: skip
    build = _build(place, made)
    fits, over = _fits(place, runs)
    _reachability(place, max(3, runs // 2))
    return Result(made, over, fits, build, _edit(place, runs))


def _build(place: Place, made: Made) -> float:
    times = 2 if made.parts <= 1.1 * _REPEATED else 1
    built: list[Run] = []
    loaded: list[Run] = []
    for _ in range(times):
        shutil.rmtree(place.root / "cache", ignore_errors=True)
        built.append(timed(place.step("build", place.shop), place.environment))
        dump = place.root / "dump.nq"
        statements = int(timed(place.step("dump", place.store, dump), place.environment).said)
        loaded.append(timed(place.step("load", dump, place.root / "raw"), place.environment))
        dump.unlink()
        shutil.rmtree(place.root / "raw")
    rows = []
    for name, found in (("snapshot from the books", built), ("raw bulk load", loaded)):
        one = middle(found)
        rows.append((name, f"{one.seconds:.1f}", f"{one.processor:.1f}", f"{one.memory / 1e6:.0f}",
                     f"{statements / one.seconds:,.0f}"))  # fmt: skip
    size = sum(path.stat().st_size for path in place.store.rglob("*") if path.is_file())
    title = f"Build: {statements:,} statements, store {size / 1e6:,.0f} MB, each {times} times"
    print(table(title, ("process", "seconds", "processor s", "MB", "statements/s"), rows), flush=True)
    wall, processor = ratio(loaded, built)
    print(f"throughput against raw: {wall:.2f} by the clock, {processor:.2f} by processor seconds")
    return wall


def _fits(place: Place, runs: int) -> tuple[Run, float]:
    fitlore = [sys.executable, "-m", "fitlore"]
    timed(Command("car", [*fitlore, "car", CAR], place.shop), place.environment)
    commands = (
        place.step("floor", place.store, "KT530190"),
        Command("fits", [*fitlore, "fits", *QUESTION], place.shop),
    )
    found = in_turn(commands, runs, place.environment)
    print(runs_table("Cold `fits` against the floor, in turn", found))
    wall, processor = ratio(found["fits"], found["floor"])
    print(f"fits against floor: {wall:.2f} by the clock, {processor:.2f} by processor seconds")
    return middle(found["fits"]), wall


def _reachability(place: Place, runs: int) -> None:
    folder = place.root / "peers"
    folder.mkdir()
    there = [name for name, peer in PEERS.items() if find_spec(peer.library)]
    for name in PEERS.keys() - set(there):
        print(f"{name} is not installed: left out")
    told = timed(place.step("peers", place.root / "edges.tsv", folder, *there), place.environment).said
    start, size, claims = json.loads(told)
    ask = [sys.executable, "-m", "tests.speed.peers"]
    commands = [Command("fitlore", [*ask, "fitlore", str(place.shop), start], place.root)]
    commands += [Command(name, [*ask, name, str(folder), start], place.root) for name in there]
    found = in_turn(commands, runs, place.environment)
    wrong = {name: one.said for name, every in found.items() for one in every if one.said != str(size)}
    assert not wrong, f"{size} numbers are reached, and these say otherwise: {wrong}"
    title = f"Bare reachability over {claims:,} claims, {size} numbers from {start}: cold, in turn"
    print(runs_table(title, found), flush=True)
    shutil.rmtree(folder)


def _edit(place: Place, runs: int) -> Run:
    book = place.shop / "books" / "parts-0000.yaml"
    command, found = place.step("build", place.shop), []
    timed(command, place.environment)
    idle = timed(command, place.environment)
    for at in range(runs):
        old, new = EDITED if at % 2 == 0 else EDITED[::-1]
        text = book.read_text("utf-8")
        assert f"  {old}\n" in text
        book.write_text(text.replace(f"  {old}\n", f"  {new}\n", 1), "utf-8")
        found.append(timed(command, place.environment))
    one = middle(found)
    print(
        runs_table(
            "One line edited, then the graph opened: whole process",
            {"after the edit": found, "unchanged": [idle]},
        )
    )
    inside = sorted(float(run.said) for run in found)[len(found) // 2]
    print(f"of it without the start of Python: {inside:.3f} s", flush=True)
    return one


def summary(results: list[Result]) -> str:
    """The targets, and how they were met."""
    rows = []
    for one in results:
        parts = f"{one.made.parts:,}"
        rows += [
            (f"fits against the floor at {parts}", f"{one.against_floor:.2f}", f"at most {TARGETS['floor']}"),
            (f"build against raw at {parts}", f"{one.build:.2f}", f"at least {TARGETS['build']}"),
            (
                f"one-line edit at {parts}",
                f"{one.edit.seconds:.2f} s",
                f"under {TARGETS['edit']} s at 100,000",
            ),
        ]
    first = results[0]
    rows += [
        (f"fits at {one.made.parts:,} against itself at {first.made.parts:,}",
         f"{one.fits.seconds / first.fits.seconds:.2f} (processor {one.fits.processor / first.fits.processor:.2f})",
         f"at most {TARGETS['growth']}") for one in results[1:]
    ]  # fmt: skip
    return table("Targets", ("what", "measured", "wanted"), rows)


def main() -> None:
    """Reads the options and runs."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("sizes", metavar="SIZE", type=int, nargs="+")
    parser.add_argument("--work", type=Path)
    parser.add_argument("--runs", type=int, default=7)
    chosen = parser.parse_args()
    work = Path(tempfile.mkdtemp(prefix="speed-", dir=chosen.work))
    print(machine(), flush=True)
    results = []
    try:
        for parts in chosen.sizes:
            place = Place(work / str(parts))
            results.append(measured(place, parts, chosen.runs))
            shutil.rmtree(place.root)
        print(summary(results))
        print(machine())
    finally:
        shutil.rmtree(work, ignore_errors=True)


if __name__ == "__main__":
    main()
