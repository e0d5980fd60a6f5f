"""Bare reachability in other stores: from one number to all that may stand for it, over any number of claims.

Every store holds the claims' ends only, nothing else, in the form that suits it best. Run as a process:
`python -m tests.speed.peers NAME FOLDER NUMBER` opens the store, asks, prints how many numbers are reached.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any, Final, Protocol
from urllib.parse import quote

Edges = Sequence[tuple[str, str]]
_BASE: Final = "urn:n:"
_USE: Final = "urn:use"
_DEEPEST: Final = 30


def longest(edges: Edges) -> tuple[str, int]:
    """The number that reaches most others, and how many: the plain search that the stores are checked by."""
    after: dict[str, list[str]] = {}
    for start, end in edges:
        after.setdefault(start, []).append(end)
    best = ("", 0)
    for start in after:
        size = len(reached(start, lambda number: after.get(number, ())))
        if size > best[1]:
            best = (start, size)
    return best


def reached(start: str, after: Callable[[str], Iterable[str]]) -> set[str]:
    """Everything that can be reached from `start`, in one step or more."""
    found: set[str] = set()
    todo = [start]
    while todo:
        for one in after(todo.pop()):
            if one not in found:
                found.add(one)
                todo.append(one)
    return found


def _iri(number: str) -> str:
    return _BASE + quote(number, safe="")


def _triples(edges: Edges) -> bytes:
    return "".join(f"<{_iri(a)}> <{_USE}> <{_iri(b)}> .\n" for a, b in edges).encode()


def _path_query(number: str) -> str:
    return f"SELECT (COUNT(DISTINCT ?x) AS ?n) WHERE {{ <{_iri(number)}> <{_USE}>+ ?x }}"


class Peer(Protocol):
    """A store to be asked for bare reachability."""

    library: str
    """What has to be installed for it."""

    @staticmethod
    def build(folder: Path, edges: Edges) -> None:
        """Fills it, in a folder."""
        ...

    @staticmethod
    def ask(folder: Path, number: str) -> int:
        """How many numbers are reached from this one."""
        ...


class Sqlite:
    """The standard library's embedded database; a recursive common table expression over an indexed table."""

    library = "sqlite3"

    @staticmethod
    def build(folder: Path, edges: Edges) -> None:
        """A file `edges.db`."""
        import sqlite3

        with sqlite3.connect(folder / "edges.db") as db:
            db.execute("CREATE TABLE edge (a TEXT, b TEXT, PRIMARY KEY (a, b)) WITHOUT ROWID")
            db.executemany("INSERT OR IGNORE INTO edge VALUES (?, ?)", edges)
        db.close()

    @staticmethod
    def ask(folder: Path, number: str) -> int:
        """How many are reached."""
        import sqlite3

        db = sqlite3.connect(folder / "edges.db")
        query = (
            "WITH RECURSIVE r(x) AS (SELECT b FROM edge WHERE a = ? UNION SELECT b FROM edge, r WHERE a = x)"
            " SELECT COUNT(*) FROM r"
        )
        return int(db.execute(query, (number,)).fetchone()[0])


class Oxigraph:
    """The store this project uses, with a SPARQL property path."""

    library = "pyoxigraph"

    @staticmethod
    def build(folder: Path, edges: Edges) -> None:
        """A store `edges.ox`."""
        import pyoxigraph as ox

        store = ox.Store(str(folder / "edges.ox"))
        store.bulk_load(_triples(edges), ox.RdfFormat.N_TRIPLES)
        store.flush()

    @staticmethod
    def ask(folder: Path, number: str) -> int:
        """How many are reached."""
        import pyoxigraph as ox

        found = ox.Store.read_only(str(folder / "edges.ox")).query(_path_query(number))
        assert isinstance(found, ox.QuerySolutions)
        return int(next(found)[0].value)


class Rdflib:
    """A graph in memory, parsed at each start, with the same property path."""

    library = "rdflib"

    @staticmethod
    def build(folder: Path, edges: Edges) -> None:
        """A file `edges.nt`."""
        (folder / "edges.nt").write_bytes(_triples(edges))

    @staticmethod
    def ask(folder: Path, number: str) -> int:
        """How many are reached."""
        import rdflib

        graph = rdflib.Graph().parse(folder / "edges.nt", format="nt")
        row: Any = next(iter(graph.query(_path_query(number))))
        return int(row[0])


class Ladybug:
    """An embedded property-graph database with recursive relationships (install `ladybug` to have it in the tables)."""

    library = "ladybug"

    @staticmethod
    def build(folder: Path, edges: Edges) -> None:
        """A database `edges.lbug`, filled from CSV files."""
        import csv

        import ladybug

        nodes = sorted({number for edge in edges for number in edge})
        for name, rows in (("nodes", [(n,) for n in nodes]), ("edges", sorted(set(edges)))):
            with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
                csv.writer(file).writerows(rows)
        connection = ladybug.Connection(ladybug.Database(str(folder / "edges.lbug")))
        connection.execute("CREATE NODE TABLE Part(number STRING, PRIMARY KEY(number))")
        connection.execute("CREATE REL TABLE Use(FROM Part TO Part)")
        connection.execute(f"COPY Part FROM '{folder / 'nodes.csv'}'")
        connection.execute(f"COPY Use FROM '{folder / 'edges.csv'}'")

    @staticmethod
    def ask(folder: Path, number: str) -> int:
        """How many are reached."""
        import ladybug

        database = ladybug.Database(str(folder / "edges.lbug"), read_only=True)
        found = ladybug.Connection(database).execute(
            f"MATCH (a:Part)-[:Use* SHORTEST 1..{_DEEPEST}]->(b:Part) WHERE a.number = $n RETURN COUNT(DISTINCT b)",
            {"n": number},
        )
        return int(found.get_next()[0])


class Fitlore:
    """This project's graph of the whole knowledge base: the same hops by `claims_from`. FOLDER is the shop's."""

    @staticmethod
    def ask(folder: Path, number: str) -> int:
        """How many are reached, one-way ends of claims only."""
        from fitlore.graph.open import open_graph
        from fitlore.model.numbers import number_key

        graph = open_graph(folder)

        def after(start: str) -> list[str]:
            key = number_key(start)
            return [c.use for c in graph.claims_from([key]) if number_key(c.instead_of or "") == key]

        return len(reached(number, after))


PEERS: Final[dict[str, type[Peer]]] = {
    "sqlite": Sqlite,
    "oxigraph": Oxigraph,
    "rdflib": Rdflib,
    "ladybug": Ladybug,
}

if __name__ == "__main__":
    asked = Fitlore if sys.argv[1] == "fitlore" else PEERS[sys.argv[1]]
    print(asked.ask(Path(sys.argv[2]), sys.argv[3]))
