"""The demo shop cut into pieces that can be written out again and again, each time with other numbers and names."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Final, NamedTuple, TypeAlias

from fitlore.books.nodes import read_nodes

DEMO: Final = Path(__file__).resolve().parents[2] / "demo" / "lowbarn"
Tree: TypeAlias = "str | list[Tree] | dict[str, Tree]"
RENAMED: Final = ("part", "platform", "supplier", "crossfit")
"""Kinds of records that every copy has under names of its own; cars, jobs and shared work exist once."""
_PLAIN: Final = re.compile(r"[A-Za-z][A-Za-z0-9 ./+°%_-]*(?<! )")
_NUMBER: Final = re.compile(r"\d+(\.\d+)? [A-Za-z/%]+|\d{4}-\d\d-\d\d")
_COUNTS: Final = frozenset({"days", "enough-for", "minutes", "pack", "quantity", "stock"})
_WORDS: Final = frozenset({"y", "n", "yes", "no", "on", "off", "true", "false", "null"})
_LENGTH: Final = re.compile(r"\d+(\.\d+)? mm")
_SIZED: Final = frozenset({"features", "must-be", "measured"})
_WIDE: Final = 100


class Slot(NamedTuple):
    """What is written anew in each copy: `kind` is a renamed kind, `use` (the far end of a claim), `mm` or `price`."""

    kind: str
    text: str


Piece: TypeAlias = "str | Slot"


class Record(NamedTuple):
    """A record, or an offer of one, as text with slots."""

    name: str
    pieces: tuple[Piece, ...]


class Pattern(NamedTuple):
    """Everything the demo says, by kind of record; the offers of each supplier apart from it."""

    records: Mapping[str, tuple[Record, ...]]
    offers: Mapping[str, tuple[Record, ...]]
    """By the supplier's name."""
    once: tuple[Path, ...]
    """The books of what exists once."""


def pattern(demo: Path = DEMO) -> Pattern:
    """Reads the demo's books into pieces."""
    kinds: dict[str, list[dict[str, Tree]]] = {kind: [] for kind in RENAMED}
    once: list[Path] = []
    for book in sorted((demo / "books").rglob("*.yaml")):
        of_kind = [(kind, tree) for tree in _records(book) for kind in RENAMED if kind in tree]
        if not of_kind:
            once.append(book)
        for kind, tree in of_kind:
            kinds[kind].append(tree)
    names = {_text(tree[kind]): kind for kind, found in kinds.items() for tree in found}
    cut = _Cutter(names)
    offers = {}
    for tree in kinds["supplier"]:
        sold = tree.pop("offers")
        assert isinstance(sold, list)
        offers[_text(tree["supplier"])] = tuple(
            Record(str(at), tuple(cut.item(offer, 2))) for at, offer in enumerate(sold)
        )
    records = {
        kind: tuple(Record(_text(tree[kind]), tuple(cut.item(tree, 0))) for tree in found)
        for kind, found in kinds.items()
    }
    return Pattern(records, offers, tuple(once))


def _records(book: Path) -> Iterator[dict[str, Tree]]:
    root = read_nodes(book.name, book.read_bytes()).root
    assert isinstance(root, list)
    for tree in root:
        assert isinstance(tree, dict)
        yield tree


def _text(tree: Tree) -> str:
    assert isinstance(tree, str)
    return tree


class _Cutter:
    """Writes trees as YAML, with slots for the names in `names` (name -> kind), lengths of features and prices."""

    def __init__(self, names: Mapping[str, str]) -> None:
        self.names = names

    def item(self, tree: Tree, depth: int) -> Iterator[Piece]:
        """An item of a list at this depth."""
        assert isinstance(tree, dict)
        pad = "  " * depth
        for at, (key, value) in enumerate(tree.items()):
            yield f"{pad}  {key}:" if at else f"{pad}- {key}:"
            yield from self._value(value, key, depth + 1)
        if not depth:
            yield "\n"

    def _value(self, tree: Tree, key: str, depth: int) -> Iterator[Piece]:
        flat = list(self._flow(tree, key)) if _is_flat(tree) else []
        width = sum(len(p) if isinstance(p, str) else len(p.text) for p in flat)
        if isinstance(tree, str) or (flat and width < _WIDE):
            yield " "
            yield from flat
            yield "\n"
        elif isinstance(tree, dict):
            yield "\n"
            for name, value in tree.items():
                yield f"{'  ' * depth}  {name}:"
                yield from self._value(value, key if key in _SIZED else name, depth + 1)
        else:
            yield "\n"
            for one in tree:
                if isinstance(one, dict):
                    yield from self.item(one, depth)
                else:
                    yield f"{'  ' * depth}- "
                    yield from self._flow(one, key)
                    yield "\n"

    def _flow(self, tree: Tree, key: str) -> Iterator[Piece]:
        if isinstance(tree, str):
            yield from self._scalar(tree, key)
            return
        yield "{" if isinstance(tree, dict) else "["
        named = tree.items() if isinstance(tree, dict) else (("", value) for value in tree)
        for at, (name, value) in enumerate(named):
            yield ", " if at else ""
            if name:
                yield f"{name}: "
            yield from self._flow(value, key if key in _SIZED or not name else name)
        yield "}" if isinstance(tree, dict) else "]"

    def _scalar(self, text: str, key: str) -> Iterator[Piece]:
        platform, slash, rest = text.partition("/")
        if text in self.names:
            far = key == "use" and self.names[text] == "part"
            yield Slot("use" if far else self.names[text], text)
        elif slash and self.names.get(platform) == "platform":
            yield Slot("platform", platform)
            yield f"/{rest}"
        elif key in _SIZED and _LENGTH.fullmatch(text):
            yield Slot("mm", text)
        elif key == "price":
            yield Slot("price", text)
        elif key in _COUNTS:
            yield text
        else:
            yield _quoted(text)


def _is_flat(tree: Tree) -> bool:
    if isinstance(tree, str):
        return True
    return all(isinstance(v, str) or _is_flat(v) for v in (tree.values() if isinstance(tree, dict) else tree))


def _quoted(text: str) -> str:
    if (_PLAIN.fullmatch(text) or _NUMBER.fullmatch(text)) and text.lower() not in _WORDS:
        return text
    return json.dumps(text, ensure_ascii=False)
