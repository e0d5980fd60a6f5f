"""What the fuzzers start from: the records of the real books, put together into small books of every form."""

from __future__ import annotations

import random
import re
from functools import cache
from pathlib import Path
from typing import Final, NamedTuple

from fitlore.books.layout import books_on, read_layout
from fitlore.books.reading import read_book
from fitlore.upkeep.export import FORMS, NotExported, in_form

REPO: Final = Path(__file__).resolve().parents[3]
RICH: Final = Path(__file__).resolve().parents[1] / "rich.yaml"
GRAPH: Final = "https://fitlore.example/book/shop/fuzz"
ENDINGS: Final = (".yaml", *FORMS.values())
_ITEM: Final = re.compile(r"^(?=- )", re.MULTILINE)
_WIDEST: Final = 4000


class Small(NamedTuple):
    """A sound book: its ending, its text, and its records' own stretches (empty where the form has none)."""

    ending: str
    text: str
    pieces: tuple[str, ...] = ()


@cache
def records() -> tuple[str, ...]:
    """The text of every record of the demo, of the built-in books and of the rich book, each from its dash to the next."""
    paths = [book.path for book in books_on(read_layout(REPO / "demo" / "lowbarn"))]
    yaml = [path for path in (*paths, RICH) if path.suffix == ".yaml"]
    found = [piece for path in yaml for piece in _ITEM.split(path.read_text("utf-8"))]
    return tuple(piece for piece in found if piece.startswith("- ") and len(piece) < _WIDEST)


@cache
def values() -> tuple[str, ...]:
    """The plain values that stand in the real books, to be put where they do not belong."""
    found = (
        match[1] for piece in records() for match in re.finditer(r": ([^\s\[{|>'\"#][^\n#,}\]]*)", piece)
    )
    return tuple(sorted(set(found)))


@cache
def keys() -> tuple[str, ...]:
    """The keys of the real books."""
    found = (match[1] for piece in records() for match in re.finditer(r"([\w-]+): ", piece))
    return tuple(sorted(set(found)))


def small_book(chance: random.Random, ending: str = "") -> Small:
    """A sound book of one to five records, in YAML or in a form of RDF."""
    ending = ending or chance.choice((".yaml", ".yaml", *ENDINGS))
    chosen = chance.sample(records(), chance.randint(1, 5))
    text = "".join(piece if piece.endswith("\n") else piece + "\n" for piece in chosen)
    if ending == ".yaml":
        return Small(ending, text, tuple(chosen))
    form = next(form for form, end in FORMS.items() if end == ending)
    try:
        made = in_form([read_book("shop/a.yaml", text.encode(), GRAPH)], form, in_order=True)
    except NotExported:  # two of these records have one name
        return small_book(chance, ending)
    return Small(ending, made.decode())
