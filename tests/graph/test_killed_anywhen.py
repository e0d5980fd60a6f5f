"""Somebody at work is killed at any moment, again and again: no book is lost or half written, and all goes on at once."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import NamedTuple

import pytest

from fitlore.books.layout import BUILT_IN, books_of
from fitlore.books.reading import Reading, read_book
from fitlore.graph.home import home_of
from fitlore.graph.open import open_graph
from fitlore.upkeep.left import NAME as TEXTS
from fitlore.upkeep.undo import listed, undo
from tests.graph.busy import note, put_in
from tests.graph.changing import cut_down
from tests.upkeep.lowbarn import copy_to

TIMES = 300 if os.environ.get("FITLORE_FUZZ") == "long" else 6
pytestmark = pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no such signal on this system")


class World(NamedTuple):
    """The shop and the place of its snapshots and of the small built-in shelf."""

    shop: Path
    place: Path

    def readings(self) -> list[Reading]:
        """Every book of the shop as it stands."""
        books = [book for book in books_of(self.shop) if book.shelf != BUILT_IN]
        return [read_book(book.shown, book.path.read_bytes(), book.graph_name) for book in books]

    def names(self, kind: str) -> set[str]:
        """The names of all records of a kind."""
        found = (getattr(record, kind, "") for reading in self.readings() for record in reading.records)
        return {str(name) for name in found if name}


@pytest.fixture
def world(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> World:
    """The shop that notes are written into."""
    cut_down(tmp_path, monkeypatch)
    shop = copy_to(tmp_path)
    (shop / "books" / "more.yaml").write_bytes(b"- part: first\n  maker: Brede\n  is: test-lever\n")
    return World(shop, tmp_path)


def killed_after(world: World, repo: Path, seed: int, seconds: float) -> list[str]:
    """What somebody said who was killed so long after beginning to work."""
    env = {**os.environ, "PYTHONPATH": os.pathsep.join([str(repo / "src"), str(repo)])}
    command = [sys.executable, "-m", "tests.graph.busy", str(world.shop), str(world.place), str(seed)]
    with subprocess.Popen(
        command, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as person:
        assert person.stdout is not None
        first = person.stdout.readline()
        assert first == "ready\n", person.stderr.read() if person.stderr else ""
        time.sleep(seconds)
        assert person.poll() is None, person.stderr.read() if person.stderr else ""
        person.send_signal(signal.SIGKILL)
        said = person.stdout.read()
    return [line for line in said.split("\n")[:-1] if line]


def whole(world: World) -> None:
    """Every book reads without a fault, every claim has its evidence, and nothing is there but books, locks, leftovers and
    the texts kept for `undo`."""
    for reading in world.readings():
        assert reading.diagnostics == (), reading.shown
    left = [
        path.name
        for path in world.shop.rglob("*")
        if path.is_file() and path.suffix != ".yaml" and path.parent.name != TEXTS
    ]
    known = {".write-lock", "journal", "journal-lock"}
    assert all(name in known or (name.startswith(".") and name.endswith(".half")) for name in left), left


def settled(world: World, said: list[str], claims: set[str], parts: set[str]) -> None:
    """What was done before the kill stands; of the deed that was under way either all or nothing."""
    done = [line.split()[1:] for line in said if line.startswith("done ")]
    open_ = said[-1].split()[1:] if said and said[-1].startswith("begins ") else ["", ""]
    for deed, *names in done:
        if deed == "note":
            claims |= set(names)
        elif deed == "put":
            parts |= set(names)
        elif deed == "undo":
            claims -= set(names)
    now = world.names("crossfit")
    if open_[0] == "undo":
        assert len(claims - now) <= 1
    else:
        assert claims <= now, claims - now
    assert now - claims <= ({open_[1]} if open_[0] == "note" else set())
    assert parts <= world.names("part")
    assert world.names("part") - parts <= ({open_[1]} if open_[0] == "put" else set())


def answers_hold(world: World) -> None:
    """The snapshot answers at once as a build from nothing does."""
    begun = time.monotonic()
    kept = open_graph(world.shop, cache=world.place / "cache")
    assert time.monotonic() - begun < 20
    assert kept.held.notes == ()
    fresh = open_graph(world.shop, cache=world.shop / "fitlore.yaml" / "no-folder")
    assert kept.crossfits() == fresh.crossfits()
    assert kept.diagnostics == fresh.diagnostics
    categories = [str(category.category) for category in fresh.categories()]
    assert kept.parts_of(categories) == fresh.parts_of(categories)
    assert len(kept.parts_of(categories)) >= 1


def test_whoever_is_killed_loses_nothing_that_was_done(world: World, repo: Path) -> None:
    """Noting, splicing, tidying, undoing and building: killed at random moments, and the books and answers are whole each time.

    What was acknowledged is there. Afterwards everything that was noted, and nothing else, can be taken back; leftovers of the
    dead are swept away by the next writer.
    """
    chance = random.Random(os.environ.get("FITLORE_FUZZ_SEED", "11"))
    claims, parts = world.names("crossfit"), world.names("part")
    at_first = set(claims)
    during: set[str] = set()
    for seed in range(TIMES):
        said = killed_after(world, repo, seed, chance.uniform(0.0, 0.4))
        during |= {said[-1].split()[1]} if said and said[-1].startswith("begins ") else set()
        whole(world)
        settled(world, said, claims, parts)
        claims, parts = world.names("crossfit"), world.names("part")
        answers_hold(world)
        if seed % 10 == 9:
            assert len(undo(world.shop).entries) <= 1
            claims = world.names("crossfit")
    assert len(during) >= 2, "the kills came between two deeds only"
    note(world.shop, "last")
    put_in(world.shop, "last")
    assert not list(world.shop.rglob("*.half"))
    standing = len(listed(world.shop))
    done = undo(world.shop, 10_000)
    assert done.refused is None
    assert len(done.entries) == standing
    assert world.names("crossfit") == at_first
    (world.shop / "books" / "more.yaml").unlink()
    open_graph(world.shop, cache=world.place / "cache")
    kept = home_of(world.shop.resolve(), world.place / "cache")
    assert (kept / "current").is_file()
    assert not list(kept.glob(".s*"))
    assert len(list(kept.glob("s*"))) <= 2
