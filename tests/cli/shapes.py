"""The JSON shape that a help page documents, read from its text, and how a printed answer differs from it."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

TOKEN = re.compile(r'"[^"]*"|\.\.|[{}\[\],:]|[A-Za-z][\w-]*')


class Leaf(NamedTuple):
    """Any value: a text, a figure, yes or no, null, or a list of such."""


class Many(NamedTuple):
    """A list."""

    of: Any


class Keys(NamedTuple):
    """An object with exactly these keys."""

    named: dict[str, Any]


class Map(NamedTuple):
    """An object whose keys are names out of the books."""

    of: Any


class Named(NamedTuple):
    """A shape that the page names once and uses again."""

    name: str


class Reader:
    """Reads one shape from a list of tokens; raises AssertionError where the page is not in that form."""

    def __init__(self, text: str) -> None:
        self.tokens = TOKEN.findall(text)
        self.at = 0

    def take(self, wanted: str = "") -> str:
        """The next token."""
        token = self.tokens[self.at]
        assert not wanted or token == wanted, f"{wanted} expected at {self.tokens[self.at :][:8]}"
        self.at += 1
        return str(token)

    def value(self) -> Any:
        """One shape; words that stand for a value (`NAME or null`) are a leaf."""
        token = self.tokens[self.at]
        if token == "{":
            return self.object()
        if token == "[":
            self.take("[")
            inner = self.value()
            self.take("]")
            return Many(inner)
        self.take()
        while self.tokens[self.at] not in ("}", "]", ","):
            self.take()
        return Named(token) if re.fullmatch("[A-Z]{3,}", token) else Leaf()

    def object(self) -> Any:
        """The keys of an object, each with its shape where one is given."""
        self.take("{")
        keys: dict[str, Any] = {}
        inner: Any = None
        while True:
            token = self.take()
            shape: Any = Leaf()
            if self.tokens[self.at] == ":":
                self.take(":")
                shape = self.value()
            if token.startswith('"'):
                keys[token.strip('"')] = shape
            else:
                inner = shape
            if self.take() == "}":
                return Keys(keys) if inner is None else Map(inner)


class Page(NamedTuple):
    """The shapes on a page: of the answer, and of what it names."""

    answers: list[Any]
    named: dict[str, Any]


def read_page(text: str) -> Page:
    """What stands behind `JSON:`, `PROOF:`, `of a PART:` and `without N:`."""
    body = text[text.index("\nJSON: ") + 1 :]
    answers = [
        Reader(body[m.end() :]).value()
        for m in re.finditer(r"(?:JSON|of a PART|of a kind|without N):\s+(?={)", body)
    ]
    named = {m[1]: Reader(body[m.end() :]).value() for m in re.finditer(r"\b([A-Z]{3,}):\s+(?={)", body)}
    return Page(answers, named)


def differences(page: Page, shape: Any, value: Any, where: str = "") -> list[str]:
    """Keys that are printed and not on the page, on the page and not printed, and values of another kind."""
    if isinstance(shape, Named):
        return differences(page, page.named.get(shape.name, Leaf()), value, where)
    if isinstance(shape, Leaf) or value is None:
        bad = isinstance(value, dict) and value and "values" not in where
        return [f"{where}: an object the page does not show"] if bad else []
    if isinstance(shape, Many):
        if not isinstance(value, list):
            return [f"{where}: no list"]
        return [row for one in value for row in differences(page, shape.of, one, f"{where}[]")]
    if not isinstance(value, dict):
        return [f"{where}: no object"]
    if isinstance(shape, Map):
        return [
            row for key, one in value.items() for row in differences(page, shape.of, one, f"{where}.{key}")
        ]
    rows = [f"{where}.{key}: printed, not on the page" for key in value.keys() - shape.named.keys()]
    rows += [f"{where}.{key}: on the page, not printed" for key in shape.named.keys() - value.keys()]
    for key in value.keys() & shape.named.keys():
        rows += differences(page, shape.named[key], value[key], f"{where}.{key}")
    return rows
