"""A small knowledge base that changes under its snapshots: what may happen to its books, and what a new build would answer."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from fitlore.books.layout import builtin_kb
from fitlore.books.reading import read_book
from fitlore.graph import build, home
from fitlore.graph.open import Graph, open_graph
from tests.graph import small
from tests.graph.everything import answers

FAULTS = ("colour: green\n", "shelves: [{shelf: shop, folder: nowhere}]\n", "names: [\n", "")
"""What may be wrong with fitlore.yaml: an unknown key, a folder that is not there, no YAML, nothing."""


def cut_down(place: Path, patch: pytest.MonkeyPatch) -> None:
    """Puts a built-in shelf of one book and no tables in the place of the real one, so that all of it is quickly read."""
    root, whole = place / "kb", builtin_kb()
    (root / "categories").mkdir(parents=True)
    (root / "standards").mkdir()
    shutil.copy(whole / "categories" / "ignition.yaml", root / "categories")
    for name in ("policy.yaml", "context.jsonld", "vocabulary.ttl"):
        shutil.copy(whole / name, root)
    for module in ("fitlore.graph.build", "fitlore.books.layout", "fitlore.books.standards"):
        patch.setattr(f"{module}.builtin_kb", lambda: root)


class Changing:
    """The shop, its snapshots, and what was read of it when."""

    def __init__(self, place: Path, patch: pytest.MonkeyPatch) -> None:
        cut_down(place, patch)
        same = home.program()
        patch.setattr(
            home, "program", lambda: same
        )  # whoever edits the program meanwhile changes nothing here
        self.shop = small.copy_to(place)
        self.cache = place / "cache"
        self.read: list[str] = []
        self.during: list[tuple[str, bytes]] = []
        """What somebody does to books while the next one is read: path below the shop, new bytes."""
        real = read_book

        def noting(shown: str, text: bytes, graph_name: str) -> object:
            self.read.append(shown)
            while self.during:
                path, data = self.during.pop()
                self.write(path, data)
            return real(shown, text, graph_name)

        patch.setattr(build, "read_book", noting)

    def write(self, path: str, data: bytes) -> None:
        """A whole new text for a file below the shop, put in place of the old one as most programs do."""
        target = self.shop / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)

    def write_unseen(self, path: str, data: bytes) -> None:
        """The same, with the file's time set back to what it was."""
        before = (self.shop / path).stat()
        self.write(path, data)
        os.utime(self.shop / path, ns=(before.st_atime_ns, before.st_mtime_ns))

    def books(self) -> dict[str, bytes]:
        """Every book on a shelf that fitlore.yaml may name, with its bytes."""
        found = [
            path for folder in ("books", "club") for path in sorted((self.shop / folder).rglob("*.yaml"))
        ]
        return {path.relative_to(self.shop).as_posix(): path.read_bytes() for path in found}

    def opened(self) -> Graph:
        """The graph by way of the snapshot."""
        graph = open_graph(self.shop, cache=self.cache)
        assert graph.held.notes == ()
        return graph

    def afresh(self) -> Graph:
        """The graph as a build from nothing makes it, in memory."""
        seen, self.read = self.read, []
        graph = open_graph(self.shop, cache=self.shop / "fitlore.yaml" / "no-folder")
        self.read = seen
        return graph

    def snapshots(self) -> list[str]:
        """The snapshots that are kept, finished or not."""
        return sorted(
            path.name
            for path in self.cache.glob("*/*/*")
            if path.is_dir() and path.name.lstrip(".")[0] == "s"
        )


def everything(graph: Graph) -> list[object]:
    """All that can be asked, and the names of all cars and shelves beside."""
    return [
        *answers(graph),
        graph.held.shelves,
        dict(graph.held.trust),
        graph.parts(["NEW1"]),
        graph.parts(["NEW2"]),
    ]
