"""Many changes to one book in one go: new texts, keys and items, worked out on one reading and guarded as one change."""

from __future__ import annotations

import copy
from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from fitlore.books.doc import Doc, Tree
from fitlore.books.edits import NewItem, NewText, make, plan
from fitlore.books.emit import Said, pair_lines
from fitlore.books.neighbours import eol_of, style_of
from fitlore.books.nodes import read_nodes
from fitlore.books.order import ranks
from fitlore.books.splice import Cannot, Path, Put, follow
from fitlore.model.record import Rec


class NewKey(NamedTuple):
    """A mapping under a key that is not there yet, where that key belongs among those of the record."""

    path: Path
    value: dict[str, Said]
    kind: type[Rec]
    """Of the record that the key is put into."""


Many = NewText | NewItem | NewKey


def changed_together(shown: str, data: bytes, edits: Sequence[Many]) -> bytes | str:
    """The book with all edits made, or why it is left alone: everything but the edits reads as before, or nothing is done.

    Paths are places in the book as it is. Several items may be added to one list; no path may be changed twice.
    """
    doc = read_nodes(shown, data)
    bom = b"\xef\xbb\xbf" if doc.bom else b""
    if bom + doc.text.encode("utf-8", "surrogatepass") != data:
        return "it holds bytes that are no readable text"
    try:
        puts = [put for edit in edits for put in _puts(doc, edit)]
        text = _put(doc.text, puts)
        wanted = _expected(doc.root, edits)
    except Cannot as reason:
        return str(reason)
    made = bom + text.encode()
    again = read_nodes(shown, made)
    if again.root != wanted:
        return "it would then read otherwise than meant"
    if sorted(one.code for one in again.found) != sorted(one.code for one in doc.found):
        return "it would then hold a fault that it does not hold now"
    return made


def _puts(doc: Doc, edit: Many) -> tuple[Put, ...]:
    if not isinstance(edit, NewKey):
        return plan(doc, edit).puts
    holder, key = follow(doc, edit.path[:-1]), str(edit.path[-1])
    if not isinstance(holder, dict) or not holder or doc.span(holder).flow:
        raise Cannot("the record is written in braces")
    rank = ranks(edit.kind)
    spans = doc.span(holder)
    behind = (
        start
        for one, (start, _) in zip(holder, spans.keys, strict=True)
        if rank.get(one, len(rank)) > rank.get(key, len(rank))
    )
    start = next(behind, None)
    if start is None:
        return plan(doc, NewText(edit.path, edit.value)).puts
    column = doc.at(start)[1] - 1
    records = doc.root if isinstance(doc.root, list) else []
    lines = pair_lines(key, edit.value, column, style_of(doc, records, key))
    begin = start - column
    if doc.text[begin:start].strip(" "):
        raise Cannot("the record begins on the line of its first key")
    line = doc.at(begin)[0]
    while line > 1 and doc.line_text(line - 1).lstrip().startswith("#"):
        line -= 1  # comments belong to the key below them
        begin = doc.text.rfind("\n", 0, begin - 1) + 1
    eol = eol_of(doc.text)
    return (Put(begin, begin, eol.join(lines) + eol),)


def _put(text: str, puts: Sequence[Put]) -> str:
    """The text with every stretch put in; those at one place stand in their order."""
    pieces: list[str] = []
    done = 0
    ordered = sorted(puts, key=lambda put: (put.start, put.end))
    for (start, end), group in groupby(ordered, key=lambda put: (put.start, put.end)):
        if start < done:
            raise Cannot("two changes meet at one place")
        pieces.append(text[done:start])
        for put in group:
            new = put.text
            if pieces[-1].endswith(("\n", "\r")) and new[:1] in ("\n", "\r"):
                new = new.lstrip("\r\n")  # the end of the last line is put in once
            pieces.append(new)
        done = end
    return "".join((*pieces, text[done:]))


def _expected(root: Tree | None, edits: Sequence[Many]) -> Tree:
    """The tree with exactly the changes."""
    assert root is not None
    changed = copy.deepcopy(root)
    for edit in edits:
        make(changed, NewText(edit.path, edit.value) if isinstance(edit, NewKey) else edit)
    return changed
