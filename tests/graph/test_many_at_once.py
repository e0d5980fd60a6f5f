"""Eight people at the command line at once, and others who only ask: nothing is lost, nobody sees half of anything."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from itertools import pairwise
from pathlib import Path

import pytest

from fitlore.graph.open import open_graph
from tests.demo.shop import REPO, Shop, copy_of_the_demo

WRITERS = 8
ASKED = ("fits", "kestin-tolland window winder right", "--json")
NUMBER = "VP 84 310 R"
BOOK = "shop/crossfits.yaml"
"""Where the claim is."""


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    """The demo shop, with its snapshot made."""
    made = copy_of_the_demo(tmp_path)
    assert made.call("car", "--none").code == 0
    return made


def started(shop: Shop, *words: str) -> subprocess.Popen[str]:
    """A command that runs beside others."""
    env = {
        **os.environ,
        "FITLORE_CACHE": str(shop.folder.parent / "cache"),
        "PYTHONPATH": str(REPO / "src"),
        "NO_COLOR": "1",
    }
    return subprocess.Popen(
        [sys.executable, "-m", "fitlore", *words],
        cwd=shop.folder,
        env=env,
        text=True,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )


def note(person: int) -> tuple[str, ...]:
    """What one person types."""
    words = f"{NUMBER} for KT 84 2210 R, measured, seen by number {person}"
    return ("note", words, "--by", f"person-{person}", "--reaches", "kestin-tolland", "--yes")


def events(shop: Shop) -> list[str]:
    """Who has spoken for the claim, by way of the snapshot."""
    graph = open_graph(shop.folder, cache=shop.folder.parent / "cache")
    assert graph.held.notes == ()
    assert not [d for d in graph.diagnostics if d.origin.book == BOOK and d.severity.value == "error"]
    claims = [claim for claim in graph.crossfits() if claim.use == NUMBER]
    assert all(evidence.by and evidence.how for claim in claims for evidence in claim.evidence)
    return sorted(evidence.by for claim in claims for evidence in claim.evidence)


def books(shop: Shop) -> dict[str, bytes]:
    """Every book's bytes."""
    return {str(path): path.read_bytes() for path in sorted((shop.folder / "books").rglob("*.yaml"))}


def all_written(shop: Shop, quiet: str) -> list[set[str]]:
    """Eight notes at once; who was too late types it again, two at a time. What was seen of them meanwhile."""
    todo = {person: started(shop, *note(person)) for person in range(WRITERS)}
    late: list[int] = []
    asking = started(shop, *ASKED)
    seen: list[set[str]] = []
    until = time.monotonic() + 240
    while todo or late:
        assert time.monotonic() < until, sorted(todo)
        seen.append(set(events(shop)))
        if asking.poll() is not None and len(seen) % 4 == 0:
            answered(asking, quiet)
            asking = started(shop, *ASKED)
        for person, process in list(todo.items()):
            if process.poll() is not None:
                late += [] if noted(process) else [person]
                del todo[person]
        while late and len(todo) < 2:
            person = late.pop(0)
            todo[person] = started(shop, *note(person))
        time.sleep(0.4)
    answered(asking, quiet)
    return seen


def noted(process: subprocess.Popen[str]) -> bool:
    """Whether a note was written; else somebody was quicker, and it says so in plain words."""
    out, err = process.communicate()
    assert "Traceback" not in err, err
    assert process.returncode == 0 or "since it was read" in err, (process.returncode, out, err)
    return process.returncode == 0


def answered(process: subprocess.Popen[str], quiet: str) -> None:
    """Whoever only asks gets a whole answer, without a word more than when nobody wrote."""
    out, err = process.communicate(timeout=120)
    assert process.returncode in (0, 1), err
    assert err == quiet
    assert json.loads(out)["answers"]


def test_eight_people_note_at_once_and_lose_nothing(shop: Shop) -> None:
    """Every note that was said to be written is there, once; no reader fails or sees an older state after a newer one; and
    eight who undo at once take each note back once, until the books are what they were.
    """
    before = books(shop)
    seen = all_written(shop, shop.call(*ASKED).err)
    assert events(shop) == [f"person-{person}" for person in range(WRITERS)]
    assert all(one <= other for one, other in pairwise(seen))
    undoing = [started(shop, "undo") for _ in range(WRITERS)]
    for process in undoing:
        _, err = process.communicate(timeout=120)
        assert process.returncode == 0, err
    assert events(shop) == []
    assert books(shop) == before
    assert shop.call("undo").code == 1
