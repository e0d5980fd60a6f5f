"""The shelves in fitlore.yaml: listed, added, taken away, trusted; each change is one guarded write that `undo` takes back."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from fitlore.books.doc import Doc
from fitlore.books.edits import NewItem, NewText
from fitlore.books.emit import Said
from fitlore.books.faults import fault
from fitlore.books.layout import SHOP_FILE, BookFile, Shelf, books_on, layout_of, read_layout
from fitlore.books.nodes import read_nodes
from fitlore.books.removal import without_item
from fitlore.books.together import changed_together
from fitlore.model.choices import How
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.origin import Origin
from fitlore.upkeep import journal
from fitlore.upkeep.rewriting import Made, write
from fitlore.upkeep.shelves.draft import Draft


class Listed(NamedTuple):
    """A shelf there is, and how many books are on it."""

    shelf: Shelf
    books: int


class Done(NamedTuple):
    """What was written: the shelf, and the number for `undo`; 0 where it was so already."""

    shelf: str
    number: int


def listed(folder: Path) -> tuple[Listed, ...]:
    """The shelves of fitlore.yaml, the nearest first, without the built-in one."""
    layout = read_layout(folder)
    books = books_on(layout)
    return tuple(Listed(shelf, sum(book.shelf == shelf.shelf for book in books)) for shelf in layout.shelves)


def add(draft: Draft, folder: Path) -> Done | Diagnostic:
    """Puts a shelf that was looked at into fitlore.yaml, as the last one. Raises ValueError for one that was refused."""
    if draft.refused:
        raise ValueError("a shelf that was refused is not added")
    item: dict[str, Said] = {"shelf": draft.name, "folder": _from(folder, draft.root)}
    if draft.owner:
        item["owner"] = draft.owner
    if draft.trust:
        item["trust"] = draft.trust.value
    lines = f"`- {{{', '.join(f'{key}: {value}' for key, value in item.items())}}}` below `shelves:`"

    def change(data: bytes) -> bytes | str:
        return changed_together(SHOP_FILE, data, [NewItem(("shelves",), item)])

    return _written(folder, draft.name, f"shelf {draft.name} added", lines, change)


def remove(folder: Path, name: str) -> Done | Diagnostic:
    """Takes a shelf out of fitlore.yaml; its books stay where they are."""
    shelf = _of_name(folder, name)
    if isinstance(shelf, Diagnostic):
        return shelf
    if shelf.trust is None and _only_own(folder, shelf):
        return fault("U43-last-own-shelf", shelf.origin, name=name)

    def change(data: bytes) -> bytes | str:
        place = _place(data, name)
        return place if isinstance(place, str) else without_item(SHOP_FILE, data, ("shelves", place))

    return _written(folder, name, f"shelf {name} taken away", f"take out the shelf `{name}`", change)


def trust(folder: Path, name: str, how: How) -> Done | Diagnostic:
    """Sets the best that the evidence on somebody else's shelf counts as."""
    shelf = _of_name(folder, name)
    if isinstance(shelf, Diagnostic):
        return shelf
    if shelf.trust is None and not shelf.endpoint and _only_own(folder, shelf):
        return fault("U43-last-own-shelf", shelf.origin, name=name)
    if shelf.trust is how:
        return Done(name, 0)

    def change(data: bytes) -> bytes | str:
        place = _place(data, name)
        if isinstance(place, str):
            return place
        return changed_together(SHOP_FILE, data, [NewText(("shelves", place, "trust"), how.value)])

    return _written(
        folder, name, f"shelf {name} trusted as {how.value}", f"`trust: {how.value}` at `{name}`", change
    )


def _written(
    folder: Path, name: str, what: str, lines: str, change: Callable[[bytes], bytes | str]
) -> Done | Diagnostic:
    """One guarded write of fitlore.yaml, or why it is left alone. Raises OSError where it cannot be read."""
    path = folder / SHOP_FILE
    before = path.read_bytes()
    after = change(before)
    if isinstance(after, bytes):
        worse = _worse(folder, before, after)
        after = f"it would then hold a fault ({worse})" if worse else after
    if isinstance(after, str):
        return fault("U44-shelf-file", Origin(SHOP_FILE, 1, 1), why=after, lines=lines)
    book = BookFile("", SHOP_FILE, path, "", None)
    done = write(folder, Made(book, folder / journal.FOLDER, before, after), what)
    return done if isinstance(done, Diagnostic) else Done(name, done)


def _worse(folder: Path, before: bytes, after: bytes) -> str:
    """Codes of faults that the new text has and the old one has not."""
    old = [one.code for one in layout_of(folder, before).diagnostics]
    new = [one.code for one in layout_of(folder, after).diagnostics]
    return ", ".join(sorted({code for code in new if new.count(code) > old.count(code)}))


def _place(data: bytes, name: str) -> int | str:
    """Where in the list of shelves one stands, or why that cannot be said."""
    doc: Doc = read_nodes(SHOP_FILE, data)
    shelves = doc.root.get("shelves") if isinstance(doc.root, dict) else None
    if not isinstance(shelves, list):
        return "its `shelves:` is not written as a list"
    for place, one in enumerate(shelves):
        if isinstance(one, dict) and one.get("shelf") == name:
            return place
    return "it was changed since it was read"


def _of_name(folder: Path, name: str) -> Shelf | Diagnostic:
    shelves = read_layout(folder).shelves
    known = ", ".join(str(shelf.shelf) for shelf in shelves) or "none"
    found = next((shelf for shelf in shelves if shelf.shelf == name), None)
    return found or fault("U42-no-such-shelf", Origin(SHOP_FILE), name=name, known=known)


def _only_own(folder: Path, shelf: Shelf) -> bool:
    own = [one for one in read_layout(folder).shelves if one.folder and one.trust is None]
    return [one.shelf for one in own] == [shelf.shelf]


def _from(folder: Path, root: Path) -> str:
    """The shelf's folder as seen from the shop's, so that both may be moved; whole where they are on two disks."""
    try:
        return Path(os.path.relpath(root, folder)).as_posix()
    except ValueError:  # two drives of one system
        return root.as_posix()
