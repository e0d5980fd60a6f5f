"""A shelf looked at before it is added: what is on it, what keeps it out, and where it says otherwise. Nothing is written."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from fitlore.books.faults import fault
from fitlore.books.layout import BUILT_IN, ENDINGS, SHOP_FILE, builtin_kb, graph_name, read_layout
from fitlore.books.reading import Reading, read_book
from fitlore.graph.derive import citable, kind_of
from fitlore.model.choices import How
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin
from fitlore.model.record import Rec
from fitlore.upkeep.shelves import faults  # noqa: F401  (registers the faults)
from fitlore.upkeep.shelves.conflicts import conflicts

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


class NotAShelf(Exception):
    """A folder that cannot be one, or a name that is taken."""

    def __init__(self, found: Diagnostic) -> None:
        super().__init__(found.message)
        self.found = found


class Draft(NamedTuple):
    """A shelf that might be added."""

    name: str
    root: Path
    """The folder of its books."""
    owner: str
    trust: How | None
    """The cap on what it says; None: a further shelf of the shop's own."""
    books: tuple[str, ...]
    """Their shown names, as they would be."""
    kinds: tuple[tuple[str, int], ...]
    """What is on it: records by kind."""
    refused: tuple[Diagnostic, ...] = ()
    """Broken books and dangers: with any of these it is not added."""
    conflicts: tuple[Diagnostic, ...] = ()
    """Where it says otherwise than we do; whoever adds it has seen these."""


def drafted(
    graph: Graph,
    folder: Path,
    path: Path,
    *,
    today: date,
    name: str = "",
    owner: str = "",
    trust: How | None = How.TOLD,
) -> Draft:
    """Looks at the shelf in a folder, or at the own shelf of the shop in that folder, against the knowledge base in `folder`.

    Raises NotAShelf where it cannot be one, OSError where a book cannot be read.
    """
    root, owner_there = _root(folder, path)
    name = name or _slug(owner_there or root.name)
    _nameable(graph, folder, name)
    texts = {f"{name}/{inside.as_posix()}": (root / inside).read_bytes() for inside in _inside(root)}
    if not texts:
        raise NotAShelf(_not(path, f"no book is in it (a file that ends in {', '.join(ENDINGS)})"))
    readings = [read_book(shown, data, graph_name(shown)) for shown, data in texts.items()]
    draft = Draft(name, root, owner or owner_there, trust, tuple(texts), _counted(readings))
    broken = tuple(d for one in readings for d in one.diagnostics if d.severity is Severity.ERROR)
    if broken:
        return draft._replace(refused=broken)
    records = [record for reading in readings for record in reading.records]
    found = conflicts(graph, _with(graph, draft, texts), name, records, today)
    return draft._replace(
        refused=tuple(d for d in found if d.severity is Severity.ERROR),
        conflicts=tuple(d for d in found if d.severity is not Severity.ERROR),
    )


def _with(graph: Graph, draft: Draft, texts: dict[str, bytes]) -> Graph:
    """The knowledge as it would be with the shelf as the farthest one."""
    caps = {draft.name: draft.trust} if draft.trust else {}
    held = graph.held._replace(shelves=(*graph.held.shelves, draft.name), trust={**graph.held.trust, **caps})
    return type(graph)(graph.facts, held).what_if(texts)


def _root(folder: Path, path: Path) -> tuple[Path, str]:
    """Where the books are, and whose they are where that is said. Raises NotAShelf."""
    if not path.is_dir():
        raise NotAShelf(_not(path, "there is no such folder"))
    root, owner = path.resolve(), ""
    if (root / SHOP_FILE).is_file():
        layout = read_layout(root)
        own = [shelf for shelf in layout.shelves if shelf.folder and shelf.trust is None]
        if len(own) != 1 or layout.shop is None:
            there = ", ".join(shelf.folder for shelf in own) or "none"
            raise NotAShelf(
                _not(path, f"a shop with one shelf of its own is wanted, and its own are: {there}")
            )
        owner, root = str(layout.shop.shop), (root / own[0].folder).resolve()
    here = folder.resolve()
    shelves = {str(one.shelf): here / one.folder for one in read_layout(folder).shelves if one.folder}
    for name, other in {BUILT_IN: builtin_kb(), **shelves}.items():
        taken = other.resolve()
        if root == taken or root in taken.parents or taken in root.parents:
            raise NotAShelf(_not(path, f"it has books in common with the shelf `{name}`"))
    if root == here or root in here.parents:
        raise NotAShelf(_not(path, "this shop is inside it"))
    return root, owner


def _nameable(graph: Graph, folder: Path, name: str) -> None:
    """Raises NotAShelf where a shelf cannot have this name."""
    taken = {BUILT_IN, *map(str, graph.held.shelves), *(str(s.shelf) for s in read_layout(folder).shelves)}
    why = "another one has it" if name in taken else "" if _NAME.fullmatch(name) else "it has other signs"
    if why:
        raise NotAShelf(fault("U41-shelf-name", Origin(SHOP_FILE), name=name, why=why))


def _slug(text: str) -> str:
    return "-".join(re.findall(r"[a-z0-9]+", text.casefold()))


def _inside(root: Path) -> Iterable[Path]:
    """The books below a folder, as `books.layout` finds them, from the folder on."""
    found = (
        path.relative_to(root)
        for path in root.rglob("*")
        if path.suffix.lower() in ENDINGS and path.is_file()
    )
    return sorted(path for path in found if not any(part.startswith(".") for part in path.parts))


def _counted(readings: Iterable[Reading]) -> tuple[tuple[str, int], ...]:
    records: list[Rec] = [record for reading in readings for record in citable(reading.records)]
    return tuple(Counter(map(kind_of, records)).most_common())


def _not(path: Path, why: str) -> Diagnostic:
    return fault("U40-not-a-shelf", Origin(str(path)), folder=str(path), why=why)
