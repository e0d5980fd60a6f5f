"""Books to tidy, written with the margin of the test."""

from __future__ import annotations

from textwrap import dedent

from fitlore.books.faults import shown
from fitlore.books.tidy import Tidied, tidy
from fitlore.model.diagnostic import Diagnostic

GRAPH = "https://fitlore.example/book/shop/x"


def text(book: str | bytes) -> str:
    """The tidied text of a book that is not refused."""
    found = tidy("shop/x.yaml", book if isinstance(book, bytes) else dedent(book).lstrip("\n").encode())
    assert isinstance(found, Tidied), shown(found)
    return found.data.decode()


def refused(book: str | bytes, name: str = "shop/x.yaml") -> Diagnostic:
    """Why a book is left as it is."""
    found = tidy(name, book if isinstance(book, bytes) else dedent(book).lstrip("\n").encode())
    assert isinstance(found, Diagnostic)
    return found


def lines(book: str) -> str:
    """An expected text, written with the margin of the test."""
    return dedent(book).lstrip("\n")
