"""The smallest shelf for each thing that may be said against one, and folders in which no shop can be started."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final

from fitlore.books.reading import read_book
from fitlore.graph.open import Graph
from fitlore.model.choices import How
from fitlore.model.diagnostic import Diagnostic
from fitlore.report.faults import with_files
from fitlore.upkeep.shelves import NotAShelf, drafted, remove, trust
from fitlore.upkeep.start import start
from tests.upkeep.attempt import Attempt
from tests.upkeep.lowbarn import TODAY, graph_at
from tests.upkeep.standards import tables

Tried = Callable[[Path], tuple[Diagnostic, ...]]
KINDS: Final = """\
- category: hose
  safety: fuel
  features:
    bore: {kind: length, role: mates, tolerance: 1 mm}
    bolt: {kind: thread, role: mates, end: female, optional: yes}
"""
OURS: Final = (
    KINDS
    + "- {part: KT 1, maker: Kestin, is: hose, features: {bore: 32 mm, bolt: 7/16-20 UNF}}\n"
    + "- {part: OS 7, maker: Ostra, is: hose, features: {bore: 32 mm, bolt: M12x1.25}}\n"
    + "- {part: OS 8, maker: Ostra, is: hose, features: {bore: 32 mm}}\n"
    + "- crossfit: ours\n  instead-of: KT 1\n  use: OS 8\n  against: [{how: offered-up, by: shop}]\n"
)
"""What the shop knows."""
LOOSER: Final = "- category: hose\n  safety: none\n"


def _added(theirs: str, name: str = "highfield") -> Tried:
    """A shelf with this book is to be added; the shop's own book is `OURS`."""

    def ask(folder: Path) -> tuple[Diagnostic, ...]:
        (folder / "books" / "book.yaml").write_text(OURS, "utf-8")
        (folder / "highfield").mkdir()
        (folder / "highfield" / "book.yaml").write_text(theirs, "utf-8")
        return looked_at(folder, folder / "highfield", name)

    return ask


def looked_at(
    folder: Path, path: Path, name: str = "highfield", graph: Graph | None = None
) -> tuple[Diagnostic, ...]:
    """Everything that is said of a shelf that is to be added."""
    try:
        draft = drafted(graph or graph_at(folder), folder, path, today=TODAY, name=name)
    except NotAShelf as error:
        return (error.found,)
    return (*draft.refused, *draft.conflicts)


def _over_the_built_in(theirs: str) -> Tried:
    """The same where the kinds stand on the built-in shelf, in whose place they would count."""

    def ask(folder: Path) -> tuple[Diagnostic, ...]:
        (folder / "highfield").mkdir()
        (folder / "highfield" / "book.yaml").write_text(theirs, "utf-8")
        built_in = read_book("kb/hoses.yaml", KINDS.encode(), "test:kb/hoses.yaml")
        graph = Graph.from_records(built_in.records, tables())
        return looked_at(folder, folder / "highfield", graph=graph)

    return ask


def _inside(folder: Path) -> tuple[Diagnostic, ...]:
    (found,) = looked_at(folder, folder / "books")
    return (_named(found, folder),)


def _named(found: Diagnostic, folder: Path) -> Diagnostic:
    """The same without the name of the place that a test works in."""
    return with_files(found, lambda name: name.replace(f"{folder}/", "").replace(str(folder), "barn"))


def _gone(folder: Path) -> tuple[Diagnostic, ...]:
    found = remove(folder, "highfield")
    return (found,) if isinstance(found, Diagnostic) else ()


def _only(folder: Path) -> tuple[Diagnostic, ...]:
    found = trust(folder, "shop", How.TOLD)
    return (found,) if isinstance(found, Diagnostic) else ()


def _in_brackets(folder: Path) -> tuple[Diagnostic, ...]:
    text = (
        "shop: lowbarn\nshelves: [{shelf: shop, folder: books}, {shelf: club, folder: club, trust: told}]\n"
    )
    (folder / "fitlore.yaml").write_text(text, "utf-8")
    found = remove(folder, "club")
    return (found,) if isinstance(found, Diagnostic) else ()


def _started(inside: str) -> Tried:
    def ask(folder: Path) -> tuple[Diagnostic, ...]:
        found = start(folder / inside, TODAY)
        return (_named(found, folder),) if isinstance(found, Diagnostic) else ()

    return ask


def _theirs(code: str, text: str) -> tuple[str, Attempt]:
    return code, Attempt(text, "books shelf add highfield, with this as its book", _added(text))


ATTEMPTS: Final[dict[str, Attempt]] = dict(
    [
        ("U40-not-a-shelf", Attempt(OURS, "books shelf add books, which is a shelf already", _inside)),
        (
            "U41-shelf-name",
            Attempt(OURS, "books shelf add highfield --name club, which there is", _added(KINDS, "club")),
        ),
        ("U42-no-such-shelf", Attempt(OURS, "books shelf remove highfield, which there is not", _gone)),
        ("U43-last-own-shelf", Attempt(OURS, "books shelf trust shop told", _only)),
        (
            "U44-shelf-file",
            Attempt(OURS, "books shelf remove club, with `shelves: [...]` in brackets", _in_brackets),
        ),
        _theirs("U45-said-otherwise", "- {part: KT 1, maker: Kestin, is: hose, features: {bore: 30 mm}}\n"),
        _theirs("U46-same-number", "- {part: KT 1, maker: Velm, is: hose}\n"),
        (
            "U47-looser-kind",
            Attempt(
                LOOSER,
                "books shelf add highfield, with this as its book; the built-in `hose` is of class fuel and has a bore",
                _over_the_built_in(LOOSER),
            ),
        ),
        _theirs(
            "U48-trap-said-to-fit",
            "- crossfit: theirs\n  instead-of: KT 1\n  use: OS 7\n  evidence: [{how: fitted, by: Hale}]\n",
        ),
        _theirs(
            "U49-contradicts",
            "- crossfit: theirs\n  instead-of: KT 1\n  use: OS 8\n  evidence: [{how: told, by: Hale}]\n",
        ),
        ("U50-books-there", Attempt(OURS, "books start in the folder of this shop", _started("."))),
        ("U51-inside-a-shop", Attempt(OURS, "books start in a new folder below this shop", _started("new"))),
    ]
)
