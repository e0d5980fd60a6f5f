"""The benchmarks of the graph: `python tests/speed/run.py SIZE...` (parts: 10000 100000 1000000), tables on stdout.

What was measured is kept in `figures.json`, size by size; with or without a SIZE, README's table is then written anew.

--work FOLDER   where the knowledge bases and stores are written (default: a temporary folder), and removed at the end
--keep          they stay in FOLDER, and what stands built there from an earlier run is used again
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

import msgspec

from tests.speed.figures import README, TARGETS, Figures, keep, kept, with_table
from tests.speed.generate import Made
from tests.speed.measure import Command, Run, in_turn, machine, middle, ratio, runs_table, table, timed
from tests.speed.peers import PEERS

QUESTION: Final = ("rear", "wheel", "cylinder")
CAR: Final = "green"
EDITED: Final = ("name: window winder right", "name: window winder for the right")
_REPEATED: Final = 10_000
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


class Built(msgspec.Struct, frozen=True):
    """A size made ready: how much was written, and how its builds and raw loads went, turn by turn."""

    made: Made
    statements: int
    built: list[Run]
    loaded: list[Run]


def measured(place: Place, parts: int, runs: int) -> Figures:
    """Everything for one size; tables are printed as soon as they are known."""
    ready = place.root / "built.json"
    if ready.exists():
        done = msgspec.json.decode(ready.read_bytes(), type=Built)
        _head(done.made)
    else:
        place.root.mkdir(parents=True)
        made = Made(*json.loads(timed(place.step("generate", place.shop, parts), place.environment).said))
        _head(made)
        done = _build(place, made)
        ready.write_bytes(msgspec.json.encode(done))
    throughput = _told(place, done)
    floor, fits, against_floor = _fits(place, runs)
    peers = _reachability(place, max(3, runs // 2))
    return Figures(
        parts=done.made.parts,
        claims=done.made.claims,
        books=done.made.books,
        megabytes=round(done.made.size / 1e6, 1),
        statements=done.statements,
        machine=machine(),
        build=round(middle(done.built).seconds, 1),
        memory=middle(done.built).memory,
        throughput=round(throughput, 3),
        floor=round(floor.seconds, 4),
        fits=round(fits.seconds, 4),
        against_floor=round(against_floor, 3),
        edit=round(_edit(place, runs).seconds, 3),
        peers={name: round(run.seconds, 4) for name, run in peers.items()},
    )


def _head(made: Made) -> None:
    print(f"\n=== {made.parts:,} parts, {made.platforms:,} platforms, {made.claims:,} claims, {made.offers:,} offers:"
          f" {made.books:,} books, {made.size / 1e6:,.1f} MB", flush=True)  # fmt: skip


def _build(place: Place, made: Made) -> Built:
    times = 2 if made.parts <= 1.1 * _REPEATED else 1
    statements = 0
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
    return Built(made, statements, built, loaded)


def _told(place: Place, done: Built) -> float:
    """Prints how building went; throughput against raw loading."""
    statements, built, loaded = done.statements, done.built, done.loaded
    rows = []
    for name, found in (("snapshot from the books", built), ("raw bulk load", loaded)):
        one = middle(found)
        rows.append((name, f"{one.seconds:.1f}", f"{one.processor:.1f}", f"{one.memory / 1e6:.0f}",
                     f"{statements / one.seconds:,.0f}"))  # fmt: skip
    size = sum(path.stat().st_size for path in place.store.rglob("*") if path.is_file())
    title = f"Build: {statements:,} statements, store {size / 1e6:,.0f} MB, each {len(built)} times"
    print(table(title, ("process", "seconds", "processor s", "MB", "statements/s"), rows), flush=True)
    wall, processor = ratio(loaded, built)
    print(f"throughput against raw: {wall:.2f} by the clock, {processor:.2f} by processor seconds")
    return wall


def _fits(place: Place, runs: int) -> tuple[Run, Run, float]:
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
    return middle(found["floor"]), middle(found["fits"]), wall


def _reachability(place: Place, runs: int) -> dict[str, Run]:
    folder = place.root / "peers"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    there = [name for name, peer in PEERS.items() if find_spec(peer.library)]
    for name in PEERS.keys() - set(there):
        print(f"{name} is not installed: left out (it is needed for nothing else)")
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
    return {name: middle(every) for name, every in found.items()}


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


def summary(results: list[Figures]) -> str:
    """The targets, and how they were met."""
    rows = []
    for one in results:
        parts = f"{one.parts:,}"
        rows += [
            (f"fits against the floor at {parts}", f"{one.against_floor:.2f}", f"at most {TARGETS['floor']}"),
            (f"build against raw at {parts}", f"{one.throughput:.2f}", f"at least {TARGETS['build']}"),
            (
                f"one-line edit at {parts}",
                f"{one.edit:.2f} s",
                f"under {TARGETS['edit']} s at 100,000",
            ),
        ]
    first = results[0]
    rows += [
        (f"fits at {one.parts:,} against itself at {first.parts:,}",
         f"{one.fits / first.fits:.2f}", f"at most {TARGETS['growth']}") for one in results[1:]
    ]  # fmt: skip
    return table("Targets", ("what", "measured", "wanted"), rows)


def main() -> None:
    """Reads the options and runs."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("sizes", metavar="SIZE", type=int, nargs="*")
    parser.add_argument("--work", type=Path)
    parser.add_argument("--runs", type=int, default=7)
    parser.add_argument("--keep", action="store_true")
    chosen = parser.parse_args()
    if chosen.keep and not chosen.work:
        parser.error("--keep: say where, with --work FOLDER")
    work = chosen.work if chosen.keep else Path(tempfile.mkdtemp(prefix="speed-", dir=chosen.work))
    try:
        for parts in chosen.sizes:
            place = Place(work / str(parts))
            keep([measured(place, parts, chosen.runs)])
            if not chosen.keep:
                shutil.rmtree(place.root)
    finally:
        if not chosen.keep:
            shutil.rmtree(work, ignore_errors=True)
    if kept():
        print(summary(kept()))
        README.write_text(with_table(README.read_text("utf-8"), kept()), "utf-8")


if __name__ == "__main__":
    main()
