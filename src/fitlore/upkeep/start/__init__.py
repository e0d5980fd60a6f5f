"""A shop's first books: a small set that is sound, answers, and is meant to be written over."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from string import Template
from typing import Final, NamedTuple

from fitlore.books import files
from fitlore.books.faults import Fault, fault, register
from fitlore.books.layout import ENDINGS, SHOP_FILE, find_shop, graph_name, layout_of
from fitlore.books.reading import read_book
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin
from fitlore.upkeep import journal

FIRST: Final = Path(__file__).with_name("first")
"""The books as they are written, with `$shop`, `$country`, `$currency` and `$today` to be filled in."""
_BOOKS: Final = "books"

register(
    [
        Fault(
            "U50-books-there",
            Severity.ERROR,
            "A folder that holds books already",
            "{folder} holds {what} already; nothing was written",
            "a folder that is not there yet, or one without books",
            "name another folder",
        ),
        Fault(
            "U51-inside-a-shop",
            Severity.ERROR,
            "A shop inside another one",
            "{folder} is inside the shop in {shop}; nothing was written",
            "a folder that no shop is above: books below a shelf would be read as that shop's",
            "name a folder beside it",
        ),
    ]
)


class Started(NamedTuple):
    """What was written: the shop's name, its folder, and the files from it on, in the order in which they are read."""

    shop: str
    folder: Path
    files: tuple[str, ...]


def start(
    folder: Path, today: date, *, name: str = "", country: str = "", currency: str = "GBP"
) -> Started | Diagnostic:
    """Writes the first books into a folder, which is made; all of them or none.

    `name` is the folder's unless said; prices are of `today`. A word that no book can hold (a currency that is none) is the
    fault it would be in the book. Raises OSError where a file cannot be written.
    """
    refused = _taken(folder)
    if refused is not None:
        return refused
    shop = name or "-".join(re.findall(r"[a-z0-9]+", folder.resolve().name.casefold())) or "shop"
    said = {
        "shop": shop,
        "country": f"country: {country}" if country else "# country: GB",
        "currency": currency,
        "today": today.isoformat(),
    }
    texts = {path: Template(text).substitute(said).encode() for path, text in _texts()}
    faults = [*layout_of(FIRST, texts[SHOP_FILE]).diagnostics]
    for path, data in texts.items():
        if path != SHOP_FILE:
            faults += read_book(path, data, graph_name(path)).diagnostics
    if faults:
        return faults[0]
    _write(folder, texts)
    return Started(shop, folder, tuple(texts))


def _texts() -> Iterator[tuple[str, str]]:
    """The files from the shop's folder on; fitlore.yaml first."""
    for path in (FIRST / SHOP_FILE, *sorted((FIRST / _BOOKS).glob("*.yaml"))):
        yield path.relative_to(FIRST).as_posix(), path.read_text("utf-8")


def _taken(folder: Path) -> Diagnostic | None:
    """Why a folder is not written into."""
    origin = Origin(str(folder))
    if folder.exists() and not folder.is_dir():
        return fault("U50-books-there", origin, folder=str(folder), what="no folder but a file")
    there = (
        sorted(path for path in folder.rglob("*") if path.suffix.lower() in ENDINGS)
        if folder.is_dir()
        else []
    )
    if there:
        what = there[0].relative_to(folder).as_posix()
        return fault("U50-books-there", origin, folder=str(folder), what=what)
    above = find_shop(folder.resolve())
    if above is not None:
        return fault("U51-inside-a-shop", origin, folder=str(folder), shop=str(above))
    return None


def _write(folder: Path, texts: dict[str, bytes]) -> None:
    """Every file, fitlore.yaml last: before it is there, there is no shop. Raises OSError, and then nothing is left."""
    done: list[Path] = []
    try:
        for path in reversed(texts):
            lock = folder / (journal.FOLDER if path == SHOP_FILE else _BOOKS)
            written = files.write(files.Seen(folder / path, None), texts[path], lock)
            if isinstance(written, files.NotWritten):
                raise OSError(f"{folder / path}: {written.detail or written.reason}")
            done.append(folder / path)
    except OSError:
        for one in done:
            with contextlib.suppress(OSError):
                one.unlink()
        raise
