"""A person at work who may be killed at any moment: notes, undoes, edits and looks, one after the other, without an end.

`python -m tests.graph.busy SHOP PLACE SEED` says `ready`, then a line after each deed that is done. PLACE has the small built-in
shelf (`kb`) and gets the snapshots (`cache`).
"""

from __future__ import annotations

import random
import sys
from pathlib import Path

from fitlore.books import files
from fitlore.books.amend import NewRecord, Spliced, splice, write
from fitlore.books.tidy import Tidied, tidy
from fitlore.graph.open import open_graph
from fitlore.upkeep.addition import NewClaim
from fitlore.upkeep.record import Recorded, record
from fitlore.upkeep.undo import undo
from tests.upkeep.lowbarn import claim, draft_at, piece


def use_small_shelf(place: Path) -> None:
    """Has this process read the small built-in shelf instead of the real one."""
    from fitlore.books import layout, standards
    from fitlore.graph import build

    for module in (layout, standards, build):
        module.builtin_kb = lambda: place / "kb"  # type: ignore[attr-defined]


def note(shop: Path, name: str) -> None:
    """A claim noted; drafted anew while others are quicker."""
    while True:
        done = record(draft_at(shop, NewClaim(claim(name, f"A {name}", f"B {name}", piece()))), shop)
        if isinstance(done, Recorded):
            return
        assert done.code == "A02-changed-since-read", done


def put_in(shop: Path, name: str) -> None:
    """A record spliced into a book and written without the journal, as another program of ours would."""
    while True:
        seen = files.see(shop / "books" / "more.yaml")
        found = splice(
            "shop/more.yaml", seen.data, [NewRecord({"part": name, "maker": "Brede", "is": "test-lever"})]
        )
        assert isinstance(found, Spliced)
        if isinstance(write(seen, found, shop / "books"), files.Written):
            return


def tidy_up(shop: Path) -> None:
    """A book tidied and written back as a whole."""
    seen = files.see(shop / "books" / "more.yaml")
    if seen.data:
        found = tidy("shop/more.yaml", seen.data)
        assert isinstance(found, Tidied)
        files.write(seen, found.data, shop / "books")


def main() -> None:
    """Deeds without an end; each line said is a deed that is on the disk."""
    shop, place, seed = Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3]
    use_small_shelf(place)
    chance = random.Random(seed)
    print("ready", flush=True)
    for number in range(10_000):
        name = f"k{seed}-{number}"
        deed = chance.choice(("note", "note", "put", "undo", "tidy", "look", "look"))
        print(f"begins {deed} {name}", flush=True)
        if deed == "note":
            note(shop, name)
        elif deed == "put":
            put_in(shop, name)
        elif deed == "undo":
            name = " ".join(entry.what.removeprefix("claim ") for entry in undo(shop).entries)
        elif deed == "tidy":
            tidy_up(shop)
        else:
            open_graph(shop, cache=place / "cache")
        print(f"done {deed} {name}", flush=True)


if __name__ == "__main__":
    main()
