"""Bytes to text: strict UTF-8, and no character that would move the lines of a book against an editor's."""

from __future__ import annotations

import re
from bisect import bisect_right
from typing import Final, NamedTuple

_FORBIDDEN: Final = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufeff\ufffe\uffff]|[\x85\u2028\u2029]|[\udc80-\udcff]+"
)
_UTF16: Final = (b"\xff\xfe", b"\xfe\xff")
CONTROL: Final = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]")
"""What an escape in double quotes may not bring into a text either."""


LONGEST_TEXT: Final = 1_000_000
"""Characters of one text of a book. Readers of RDF stop at some length, and nobody reads so much."""
TOO_LONG: Final = "a text of more than a million characters has no place in a book"


class Found(NamedTuple):
    """A fault at an index of the text, before it has a line."""

    code: str
    place: int
    width: int
    values: dict[str, str]


class Raw(NamedTuple):
    """A book's text without its byte order mark; characters that cannot stand are replaced by U+FFFD, so that indexes hold."""

    text: str
    bom: bool
    found: list[Found]


def decode(data: bytes) -> Raw:
    """Decodes a book. Nothing raises: what is no UTF-8 is a fault at its place."""
    if data[:2] in _UTF16 or b"\x00" in data[:2]:
        return Raw("", False, [Found("B02-utf-16", 0, 1, {})])
    bom = data.startswith(b"\xef\xbb\xbf")
    text = data[3 if bom else 0 :].decode("utf-8", "surrogateescape")
    found: list[Found] = []
    if _FORBIDDEN.search(text):
        found = _first_of_each_line([_forbidden(match) for match in _FORBIDDEN.finditer(text)], text)
        text = _FORBIDDEN.sub(lambda match: "\ufffd" * len(match[0]), text)
    return Raw(text, bom, found)


def _first_of_each_line(found: list[Found], text: str) -> list[Found]:
    """A file that is no text at all has thousands of such characters."""
    starts = line_starts(text)
    lines: dict[int, Found] = {}
    for one in found:
        lines.setdefault(bisect_right(starts, one.place), one)
    return list(lines.values())


def _forbidden(match: re.Match[str]) -> Found:
    first = ord(match[0][0])
    at, width = match.start(), len(match[0])
    if 0xDC80 <= first <= 0xDCFF:
        seen = " ".join(f"{ord(c) - 0xDC00:02X}" for c in match[0][:8])
        return Found("B01-not-utf-8", at, width, {"bytes": seen})
    if first in (0x85, 0x2028, 0x2029):
        return Found("B03-strange-line-end", at, 1, {"char": f"U+{first:04X}"})
    return Found("B04-control-character", at, 1, {"char": f"U+{first:04X}"})


def line_starts(text: str) -> list[int]:
    """The index at which each line begins (LF, CRLF and CR end a line, as in YAML)."""
    return [0, *(match.end() for match in re.finditer(r"\r\n|\n|\r", text))]
