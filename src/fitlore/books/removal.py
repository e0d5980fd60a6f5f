"""An item taken out of a list of a book: its own lines and nothing else, or nothing."""

from __future__ import annotations

from fitlore.books.doc import Doc, Tree
from fitlore.books.neighbours import after_line, dash_of, last_index
from fitlore.books.nodes import read_nodes
from fitlore.books.splice import Cannot, Path, entry, follow

_BOM = b"\xef\xbb\xbf"


def without_item(shown: str, data: bytes, path: Path) -> bytes | str:
    """The book without the item at a path, which is not the only one of its list; or why it is left alone.

    Comments on the item's own lines and below it, indented deeper, go with it; those above it stay.
    """
    doc = read_nodes(shown, data)
    bom = _BOM if doc.bom else b""
    if bom + doc.text.encode("utf-8", "surrogatepass") != data:
        return "it holds bytes that are no readable text"
    try:
        start, end = _stretch(doc, path)
        wanted = _without(doc.root, path)
    except Cannot as reason:
        return str(reason)
    made = bom + (doc.text[:start] + doc.text[end:]).encode()
    again = read_nodes(shown, made)
    if again.root != wanted:
        return "it would then read otherwise than meant"
    if sorted(one.code for one in again.found) != sorted(one.code for one in doc.found):
        return "it would then hold a fault that it does not hold now"
    return made


def _stretch(doc: Doc, path: Path) -> tuple[int, int]:
    """Where the item's lines are. Raises Cannot."""
    holder, place = follow(doc, path[:-1]), path[-1]
    if not isinstance(holder, list) or not isinstance(place, int):
        raise Cannot("only an item of a list is taken out")
    entry(holder, place)
    if len(holder) < 2:
        raise Cannot("it is the only one of its list")
    if doc.span(holder).flow:
        raise Cannot("the list is written in brackets")
    dash = dash_of(doc, holder, place)
    if dash is None:
        raise Cannot("its dash stands apart from it")
    start, end = doc.span(holder).values[place]
    begin = start - (doc.at(start)[1] - 1)
    return begin, after_line(doc, last_index(doc, start, end), dash[0])


def _without(root: Tree | None, path: Path) -> Tree:
    """The tree without the item."""
    assert root is not None
    if len(path) == 1:
        assert isinstance(root, list)
        return [one for place, one in enumerate(root) if place != path[0]]
    inner = _without(entry(root, path[0]), path[1:])
    if isinstance(root, dict):
        return {key: inner if key == path[0] else one for key, one in root.items()}
    assert isinstance(root, list)
    return [inner if place == path[0] else one for place, one in enumerate(root)]
