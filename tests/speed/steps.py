"""What is timed as a process of its own: `python -m tests.speed.steps NAME ...`."""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Final


def floor(store: str, key: str) -> None:
    """The least that any `fits` must do: import click and pyoxigraph, open the store, run one query."""
    import click
    import pyoxigraph as ox

    found = ox.Store.read_only(store).query(
        "PREFIX fl: <https://fitlore.example/terms#> SELECT ?record WHERE"
        f" {{ VALUES ?key {{ {ox.Literal(key)} }} GRAPH ?g {{ ?n fl:part-key ?key ; fl:as-read ?record }} }}"
    )
    assert isinstance(found, ox.QuerySolutions)
    click.echo(sum(1 for _ in found))


def generate(shop: str, parts: str) -> None:
    """Writes a shop, and the claims' ends beside it; prints how much."""
    from tests.speed.generate import write_shop

    made = write_shop(Path(shop), int(parts))
    edges = "".join(f"{start}\t{end}\n" for start, end in dict.fromkeys(made.edges))
    Path(shop).with_name("edges.tsv").write_text(edges, encoding="utf-8")
    print(json.dumps(made._replace(edges=[])))


def peers(edges: str, folder: str, *names: str) -> None:
    """Fills the other stores; prints the number that reaches most, how many it reaches, and how many claims there are."""
    from tests.speed.peers import PEERS, longest

    rows = [line.split("\t") for line in Path(edges).read_text("utf-8").splitlines()]
    ends = [(start, end) for start, end in rows]
    for name in names:
        PEERS[name].build(Path(folder), ends)
    print(json.dumps([*longest(ends), len(ends)]))


def build(shop: str) -> None:
    """Opens the graph of a shop, which brings its snapshot up to date; prints the seconds without start of Python."""
    begun = time.perf_counter()
    from fitlore.graph.open import open_graph

    progress = (lambda text: print(text, file=sys.stderr)) if sys.stderr.isatty() else None
    graph = open_graph(Path(shop), progress=progress)
    print(f"{time.perf_counter() - begun:.3f}")
    assert not graph.held.notes, graph.held.notes


def load(dump: str, store: str) -> None:
    """Loads the same statements raw, from one file of N-Quads."""
    import pyoxigraph as ox

    begun = time.perf_counter()
    into = ox.Store(store)
    into.bulk_load(path=dump, format=ox.RdfFormat.N_QUADS)
    into.flush()
    print(f"{time.perf_counter() - begun:.3f}")


def dump(store: str, to: str) -> None:
    """Writes a store as N-Quads; prints how many statements."""
    import pyoxigraph as ox

    held = ox.Store.read_only(store)
    held.dump(to, ox.RdfFormat.N_QUADS)
    print(len(held))


STEPS: Final[dict[str, Callable[..., None]]] = {
    "build": build,
    "dump": dump,
    "floor": floor,
    "generate": generate,
    "load": load,
    "peers": peers,
}

if __name__ == "__main__":
    STEPS[sys.argv[1]](*sys.argv[2:])
