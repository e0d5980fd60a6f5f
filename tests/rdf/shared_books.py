"""The shared books, good and bad, in YAML and in Turtle, and what the manifest says of each.

`python -m tests.rdf.shared_books` writes every Turtle that has a YAML anew, with the vocabulary and the shapes of `kb`.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pyoxigraph as ox
import yaml

from fitlore.books.context import book_json
from fitlore.books.layout import builtin_kb
from fitlore.books.nodes import read_nodes
from fitlore.books.rdf import plain_triples
from fitlore.books.reading import read_book
from fitlore.books.shapes import shapes_text
from fitlore.books.turtle import as_turtle
from fitlore.books.vocabulary import vocabulary_text
from fitlore.graph.derive import TERMS
from fitlore.model.diagnostic import Severity

FOLDER = Path(__file__).parent / "shared"
GRAPH = "https://fitlore.example/book/"


class Shared(NamedTuple):
    """A shared book; `code` is empty for a good one, `turtle` is the code that reading its Turtle gives."""

    sort: str
    name: str
    code: str
    turtle: str
    unseen: str
    """Why the shapes cannot see the fault; empty where they do."""

    @property
    def yaml(self) -> Path:
        """The book in YAML; it may be missing."""
        return FOLDER / self.sort / f"{self.name}.yaml"

    @property
    def ttl(self) -> Path:
        """The book in Turtle."""
        return FOLDER / self.sort / f"{self.name}.ttl"

    @property
    def paths(self) -> tuple[Path, ...]:
        """Its files."""
        return tuple(path for path in (self.yaml, self.ttl) if path.exists())


@cache
def manifest() -> Any:
    """The manifest as it is written."""
    return yaml.safe_load((FOLDER / "manifest.yaml").read_text("utf-8"))


@cache
def shared() -> tuple[Shared, ...]:
    """Every book of the manifest."""
    said = manifest()
    good = [Shared("good", name, "", "", "") for name in said["good"]]
    bad = []
    for name, row in said["bad"].items():
        turtle = row.get("turtle", row["code"])
        bad.append(
            Shared("bad", name, row["code"], "" if turtle == "good" else turtle, row.get("unseen", ""))
        )
    return (*good, *bad, *(Shared("stricter", name, "", "", "") for name in said["stricter"]))


def errors_of(path: Path) -> list[str]:
    """The codes of the errors that reading a book finds."""
    reading = read_book(path.name, path.read_bytes(), GRAPH + path.name)
    return [d.code for d in reading.diagnostics if d.severity is Severity.ERROR]


def unjudged(path: Path) -> list[ox.Quad]:
    """What the context makes of a whole text, faults and all, before the walk has judged it."""
    if path.suffix == ".ttl":
        triples = ox.parse(path.read_bytes(), ox.RdfFormat.TURTLE)
    else:
        tree = read_nodes(path.name, path.read_bytes()).root
        assert isinstance(tree, list)
        triples = ox.parse(book_json(tree), ox.RdfFormat.JSON_LD)
    graph = ox.NamedNode(GRAPH + path.relative_to(FOLDER).as_posix())
    return [ox.Quad(quad.subject, quad.predicate, quad.object, graph) for quad in triples]


def renew() -> None:
    """Writes what is generated anew; look at the difference before you commit it."""
    (builtin_kb() / "vocabulary.ttl").write_text(vocabulary_text(TERMS), "utf-8")
    (builtin_kb() / "shapes.ttl").write_text(shapes_text(), "utf-8")
    for book in shared():
        if book.yaml.exists():
            book.ttl.write_text(as_turtle(plain_triples(unjudged(book.yaml))), "utf-8")


if __name__ == "__main__":
    renew()
