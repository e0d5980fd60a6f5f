"""What may be changed in a book, as values, and what its tree must be afterwards."""

from __future__ import annotations

import copy
from datetime import date
from typing import NamedTuple

from fitlore.books.doc import Doc, Tree
from fitlore.books.emit import Said
from fitlore.books.splice import Path, Plan, entry, follow, plan_item, plan_record, plan_text
from fitlore.model.origin import Origin


class NewRecord(NamedTuple):
    """A record at the end of a book; a book that is not there is made."""

    record: dict[str, Said]


class NewItem(NamedTuple):
    """An item at the end of the list at a path (an absent key is added with the list)."""

    path: Path
    item: Said


class NewText(NamedTuple):
    """Another scalar at a path (an absent key is added)."""

    path: Path
    value: Said


Edit = NewRecord | NewItem | NewText


def plan(doc: Doc, edit: Edit) -> Plan:
    """Where an edit goes into a text. Raises Cannot."""
    match edit:
        case NewRecord(record):
            return plan_record(doc, record)
        case NewItem(path, item):
            return plan_item(doc, path, item)
        case NewText(path, value):
            return plan_text(doc, path, value)


def expected(root: Tree | None, edit: Edit) -> Tree:
    """The tree with exactly the change."""
    if isinstance(edit, NewRecord):
        return [*(root if isinstance(root, list) else []), read_as(edit.record)]
    assert root is not None
    changed = copy.deepcopy(root)
    make(changed, edit)
    return changed


def make(tree: Tree, edit: NewItem | NewText) -> None:
    """Makes a change in a tree. Raises Cannot where its path leads nowhere."""
    holder, key = tree, edit.path[-1]
    for step in edit.path[:-1]:
        holder = entry(holder, step)
    new = read_as(edit.value) if isinstance(edit, NewText) else _with(holder, key, edit.item)
    match holder, key:
        case dict(), str():
            holder[key] = new
        case list(), int():
            holder[key] = new


def _with(holder: Tree, key: str | int, item: Said) -> list[Tree]:
    """The list at a key with one more item; a single value becomes the first of two."""
    if isinstance(holder, dict) and key not in holder:
        return [read_as(item)]
    old = entry(holder, key)
    return [*(old if isinstance(old, list) else [old]), read_as(item)]


def read_as(value: Said) -> Tree:
    """What reading makes of a value: everything is text."""
    match value:
        case dict():
            return {key: read_as(one) for key, one in value.items()}
        case list():
            return [read_as(one) for one in value]
        case bool():
            return "yes" if value else "no"
        case date():
            return value.isoformat()
    return str(value)


def place_of(doc: Doc, edit: Edit) -> Origin:
    """Where a change stands in the text as it reads after it."""
    if isinstance(edit, NewRecord):
        assert isinstance(doc.root, list)
        return doc.origin(doc.root, len(doc.root) - 1)
    holder = follow(doc, edit.path if isinstance(edit, NewItem) else edit.path[:-1])
    assert isinstance(holder, list | dict)
    return doc.origin(holder, len(holder) - 1 if isinstance(edit, NewItem) else edit.path[-1])
