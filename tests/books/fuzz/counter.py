"""Spoilt books in a whole shop: every command answers in words and with an exit code, whatever stands on the shelves.

The long mode: `python -m tests.books.fuzz.counter --minutes 5`, or one case again: `--seed 7 --case 1234`.
"""

from __future__ import annotations

import argparse
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Final, NamedTuple

from fitlore.books.layout import SHOP_FILE
from tests.books.fuzz.bounds import tried_in_child
from tests.books.fuzz.cases import case
from tests.books.fuzz.mutate import spoilt
from tests.books.fuzz.seeds import Small, records
from tests.demo.shop import REPO, copy_of_the_demo

SLOWEST: Final = 60.0
_QUESTIONS: Final = (
    ("check",), ("check",), ("check", "--json"), ("car",), ("fits", "radiator"), ("fits", "rear brakes"),
    ("fits", "wheel", "--json"), ("where", "radiator", "--on", "2026-12-03"), ("plan",), ("why", "1"), ("undo",),
    ("tidy",), ("tidy", "--dry-run", "--json"),
    ("note", "KT 21 0440 in radiator", "--how", "fitted", "--dry-run", "--yes"),
)  # fmt: skip
_NAMES: Final = (
    b"a b.yaml",
    b"caf\xe9.yaml",
    "e\u0301.yaml".encode(),
    b"a#b?c%.yaml",
    b"a\nb.yaml",
    b"-x.yaml",
    b"a'\"b.ttl",
    b"n" * 240 + b".yaml",
)


class Called(NamedTuple):
    """What a command printed, and its exit code."""

    code: int
    out: str
    err: str


class Sound(NamedTuple):
    """A copy of the demo shop with its snapshot made; it is copied anew for each case."""

    place: Path
    folder: Path


def sound_shop(place: Path) -> Sound:
    """A sound shop, the green estate picked, its snapshot in `place`."""
    shop = copy_of_the_demo(place)
    found = Sound(place, shop.folder)
    assert called(found, ("car", "green")).code == 0
    return found


def called(shop: Sound, words: tuple[str, ...]) -> Called:
    """Runs a command as `fitlore` would run it, in a process of its own: store and solver keep threads that no fork outlives."""
    env = {
        **os.environ,
        "FITLORE_CACHE": str(shop.place / "cache"),
        "COLUMNS": "100",
        "NO_COLOR": "1",
        "PYTHONPATH": str(REPO / "src"),
    }
    done = subprocess.run(
        [sys.executable, "-m", "fitlore", *words],
        cwd=shop.folder, env=env, stdin=subprocess.DEVNULL, capture_output=True, check=False,
    )  # fmt: skip
    return Called(
        done.returncode, done.stdout.decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace")
    )


def check(shop: Sound, seed: int, number: int) -> int:
    """Tries a case: three commands over a spoilt book beside the sound ones, or one of them or fitlore.yaml spoilt."""
    chance = random.Random(f"counter/{seed}/{number}")
    books = shop.folder / "books"
    with tempfile.TemporaryDirectory(dir=shop.place) as kept:
        before = Path(kept, "before")
        shutil.copytree(shop.folder, before)
        try:
            spoiled = _spoil(chance, seed, number, shop.folder, books)
            for words in (("check",), *chance.sample(_questions(spoiled), 2)):
                _answers(called(shop, words), words)
        finally:
            shutil.rmtree(shop.folder)
            shutil.copytree(before, shop.folder)
    return 1


def _spoil(chance: random.Random, seed: int, number: int, folder: Path, books: Path) -> str:
    """Spoils something; the text of what was spoilt."""
    how = chance.random()
    if how < 0.5:
        made = case(seed, number)
        name: bytes = f"fuzz.{made.shown.rpartition('.')[2]}".encode() if how < 0.4 else chance.choice(_NAMES)
        Path(os.fsdecode(os.fsencode(books) + b"/" + name)).write_bytes(made.data)
        return made.data.decode("utf-8", "replace")
    path = folder / SHOP_FILE if how < 0.6 else chance.choice(sorted(books.rglob("*.yaml")))
    path.write_bytes(spoilt(chance, Small(".yaml", path.read_text("utf-8"))))
    return path.read_text("utf-8", "replace")


def _questions(text: str) -> list[tuple[str, ...]]:
    """What is asked: the day's questions, and such as lead to what was spoilt."""
    numbers = re.findall(r"(?:part: |fl:part \"|\"part\": \")([^\n\"{}\[\]]{1,40})", text)[:3]
    platforms = re.findall(r"(?:platform: |fl:platform \")([\w-]{1,40})", text)[:1]
    more = [("fits", number.strip()) for number in numbers if number.strip() and not number.startswith("-")]
    return [*_QUESTIONS, *more, *(("fits", f"{name} radiator") for name in platforms)]


def _answers(said: Called, words: tuple[str, ...]) -> None:
    assert "Traceback" not in said.err, (words, said.err[-3000:])
    assert said.code in ((0, 1) if words[0] == "check" else (0, 1, 2)), (words, said)
    assert said.out or said.err, words
    if said.code == 2:
        assert said.err, words


def main() -> int:
    """Tries cases for so many minutes, or one; prints what failed. Exit 1 where one did."""
    asking = argparse.ArgumentParser(description=__doc__)
    asking.add_argument("--minutes", type=float, default=1.0)
    asking.add_argument("--seed", type=int, default=int(time.time()))
    asking.add_argument("--case", type=int, help="only this case")
    asked = asking.parse_args()
    records()
    with tempfile.TemporaryDirectory() as place:
        shop = sound_shop(Path(place))
        numbers = range(100_000) if asked.case is None else (asked.case,)
        until = time.time() + asked.minutes * 60
        tried = tried_in_child(lambda n: check(shop, asked.seed, n), numbers, seconds=SLOWEST, until=until)
    for one in tried.failed:
        print(f"--seed {asked.seed} --case {one.number}\n{one.how}\n")
    print(f"{tried.cases} cases, slowest {tried.slowest:.2f} s, {len(tried.failed)} failed")
    return 1 if tried.failed else 0


if __name__ == "__main__":
    sys.exit(main())
