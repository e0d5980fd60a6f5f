"""Where a knowledge base is: the shop's folder, its shelves, the built-in one, and the books on them."""

from __future__ import annotations

import os
import re
import unicodedata
from collections.abc import Iterator
from pathlib import Path
from typing import Final, NamedTuple
from urllib.parse import quote

from fitlore.books import catalogue_layout  # noqa: F401  (registers its faults)
from fitlore.books.doc import Doc, Tree
from fitlore.books.faults import fault
from fitlore.books.iris import BOOKS
from fitlore.books.nodes import read_nodes
from fitlore.books.walk import struct_reader
from fitlore.books.walking import Walk
from fitlore.model.choices import How
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.model.shop import Shelf as Shelf
from fitlore.model.shop import Shop

SHOP_FILE: Final = "fitlore.yaml"
BUILT_IN: Final = "kb"
"""The name of the shelf that is always there."""
ENDINGS: Final = (".yaml", ".yml", ".ttl", ".nt", ".nq", ".trig", ".jsonld")

_ADDRESS: Final = re.compile(r"https?://[^\s/?#]+(?:[/?][^\s#]*)?")


class Layout(NamedTuple):
    """What fitlore.yaml says. `shop` is None where it has faults, and where there is none."""

    folder: Path | None
    shop: Shop | None
    shelves: tuple[Shelf, ...]
    diagnostics: tuple[Diagnostic, ...]


class BookFile(NamedTuple):
    """A book on a shelf: its shown name (`shop/parts.yaml`), its file, its named graph, its shelf's trust."""

    shelf: str
    shown: str
    path: Path
    graph_name: str
    trust: How | None


def find_shop(start: Path) -> Path | None:
    """The nearest folder from `start` upwards that holds a fitlore.yaml; None where there is none."""
    here = start.resolve()
    return next((folder for folder in (here, *here.parents) if (folder / SHOP_FILE).is_file()), None)


def builtin_kb() -> Path:
    """The folder of the built-in knowledge: beside the package where it is installed, else in the checkout.

    Raises FileNotFoundError where neither is there.
    """
    package = Path(__file__).resolve().parent.parent
    for folder in (package / "kb", package.parent.parent / "kb"):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"no built-in knowledge beside {package}")


def read_layout(folder: Path | None) -> Layout:
    """Reads a shop's fitlore.yaml. None: the built-in shelf alone. Nothing raises for what is written in it."""
    if folder is None:
        return Layout(None, None, (), ())
    try:
        data = (folder / SHOP_FILE).read_bytes()
    except OSError as error:
        return Layout(folder, None, (), (_unread(SHOP_FILE, error),))
    return layout_of(folder, data)


def layout_of(folder: Path, data: bytes) -> Layout:
    """What a text says as the fitlore.yaml of a folder."""
    doc = read_nodes(SHOP_FILE, data)
    walk = Walk(doc)
    if not isinstance(doc.root, dict):
        if not doc.found:
            walk.add("L01-not-a-shop-file", doc.spot(0, 1))
        return Layout(folder, None, (), (*doc.found, *walk.diagnostics))
    shelves = _shelves(doc, doc.root, walk, folder)
    shop = _shop(doc, doc.root, walk)
    found = sorted((*doc.found, *walk.diagnostics), key=lambda d: (d.origin.line, d.origin.column))
    return Layout(folder, None if doc.found else shop, shelves, tuple(found))


def books_of(folder: Path | None) -> tuple[BookFile, ...]:
    """Every book of the knowledge base in a shop's folder (None: the built-in books alone); see `books_on`."""
    return books_on(read_layout(folder))


def books_on(layout: Layout) -> tuple[BookFile, ...]:
    """Every book of a knowledge base, the built-in ones first, each shelf in the order of its paths."""
    found = list(_built_in())
    for shelf in (shelf for shelf in layout.shelves if shelf.folder):
        assert layout.folder is not None
        root = layout.folder / shelf.folder
        found += [_book(shelf.shelf, root, path, shelf.trust) for path in _files(root)]
    return tuple(found)


def misnamed(layout: Layout) -> tuple[Diagnostic, ...]:
    """Books and folders on the shelves that are left out, because no text can hold their names."""
    found = []
    for shelf in (shelf for shelf in layout.shelves if shelf.folder):
        assert layout.folder is not None
        root = layout.folder / shelf.folder
        for path in sorted(root.rglob("*")):
            if not nameable(path.name) and nameable(str(path.parent)):
                name = os.fsencode(path.name).decode("utf-8", "backslashreplace")
                above = path.parent.relative_to(root).as_posix().removeprefix(".")
                shown = "/".join(part for part in (shelf.shelf, above, name) if part)
                found.append(fault("L04-cannot-be-read", Origin(shown), why="its name is no UTF-8"))
    return tuple(found)


def nameable(path: str) -> bool:
    """Whether a path is text, so that it can be shown and kept."""
    try:
        path.encode()
    except UnicodeEncodeError:
        return False
    return True


def graph_name(shown: str) -> str:
    """The named graph of a book: its shown name, NFC, percent-encoded, never an absolute path."""
    return BOOKS + quote(unicodedata.normalize("NFC", shown), safe="/")


def _built_in() -> Iterator[BookFile]:
    root = builtin_kb()
    paths = [*sorted((root / "categories").glob("*.yaml")), root / "policy.yaml"]
    return (_book(BUILT_IN, root, path, None) for path in paths if path.is_file())


def _book(shelf: str, root: Path, path: Path, trust: How | None) -> BookFile:
    shown = f"{shelf}/{path.relative_to(root).as_posix()}"
    return BookFile(shelf, shown, path, graph_name(shown), trust)


def _files(root: Path) -> list[Path]:
    """The books below a folder; what begins with a dot is no book."""
    found = []
    for path in root.rglob("*"):
        inside = path.relative_to(root)
        if (
            path.suffix.lower() in ENDINGS
            and not any(part.startswith(".") for part in inside.parts)
            and nameable(str(inside))
            and path.is_file()
        ):
            found.append((unicodedata.normalize("NFC", inside.as_posix()), path))
    return [path for _, path in sorted(found)]


def _shop(doc: Doc, root: dict[str, Tree], walk: Walk) -> Shop | None:
    rest = {key: value for key, value in root.items() if key != "shelves"}
    spans = doc.spans[id(root)]
    kept = [place for place, key in enumerate(root) if key != "shelves"]
    doc.spans[id(rest)] = spans._replace(
        keys=[spans.keys[place] for place in kept], values=[spans.values[place] for place in kept]
    )
    top: list[Tree] = [rest]
    doc.spans[id(top)] = spans._replace(keys=[], values=[(spans.start, spans.end)])
    shop = struct_reader(Shop)(rest, top, 0, walk)
    return shop if isinstance(shop, Shop) else None


def _shelves(doc: Doc, root: dict[str, Tree], walk: Walk, folder: Path) -> tuple[Shelf, ...]:
    """The shelves that can be used; the others are reported."""
    listed = root.get("shelves", [])
    holder: list[Tree] | dict[str, Tree] = listed if isinstance(listed, list) else root
    items = enumerate(listed) if isinstance(listed, list) else iter([("shelves", listed)])
    found: dict[str, Shelf] = {}
    for key, item in items:
        shelf = struct_reader(Shelf)(item, holder, key, walk)
        if not isinstance(shelf, Shelf) or not isinstance(item, dict):
            continue
        spot = doc.value(item, "shelf")
        if shelf.shelf == BUILT_IN:
            walk.add("L02-shelf-of-that-name", spot, name=shelf.shelf, whose="the built-in one")
        elif shelf.shelf in found:
            first = found[shelf.shelf].origin
            walk.add("L02-shelf-of-that-name", spot, name=shelf.shelf, whose=f"the one at {first}")
        elif shelf.endpoint and not _ADDRESS.fullmatch(shelf.endpoint):
            walk.add("L08-not-an-endpoint", doc.value(item, "endpoint"), found=shelf.endpoint)
        elif shelf.endpoint:
            walk.add("L07-endpoint-not-asked", doc.value(item, "endpoint"), name=shelf.shelf)
            found[shelf.shelf] = shelf
        elif not (folder / shelf.folder).is_dir():
            walk.add("L03-no-such-folder", doc.value(item, "folder"), folder=shelf.folder)
        else:
            found[shelf.shelf] = shelf
    return tuple(found.values())


def _unread(shown: str, error: OSError) -> Diagnostic:
    return fault("L04-cannot-be-read", Origin(shown), why=error.strerror or str(error))
