"""How the text around a place is written, so that what is added looks as if the same hand had written it."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator
from typing import Final

from fitlore.books.doc import Doc, Holder, Tree
from fitlore.books.emit import Style

_DASH: Final = re.compile(r"([ ]*)(-[ ]+)")
_COMMENT: Final = re.compile(r"([ \t]*)#")
_EOL: Final = re.compile(r"\r\n|\n|\r")
_BLANK: Final = " \t\r\n"


def style_of(doc: Doc, records: list[Tree], key: str = "") -> Style:
    """The style of a book's records; of several ways the last one counts. `key` is that of the list to be added to."""
    return _style(doc, bool(records), key)


@functools.lru_cache(maxsize=8)
def _style(doc: Doc, some: bool, key: str) -> Style:
    """Kept for the next change of the same text: a text does not change, and one price list changes it thousands of times."""
    records = doc.root if some and isinstance(doc.root, list) else []
    step, dash, inset, braces = 2, "- ", 2, False
    at = dash_of(doc, records, len(records) - 1) if records else None
    if at is not None:
        dash = at[1]
    own_braces: bool | None = None
    for holder, name, value, depth in _nested(doc, records):
        columns = doc.at(doc.key_span(holder, name)[0])[1], doc.at(doc.span(value).start)[1]
        if isinstance(value, dict):
            step = columns[1] - columns[0]
            continue
        inset = columns[1] - columns[0]
        in_braces = bool(value) and isinstance(value[-1], dict) and doc.span(value[-1]).flow
        if name == key:
            own_braces = in_braces
        elif depth == 1:
            braces = in_braces
    return Style(
        step=max(1, step),
        dash=dash,
        inset=max(0, inset),
        braces=braces if own_braces is None else own_braces,
        eol=eol_of(doc.text),
        blank_lines=_blank_lines(doc, records),
    )


def _nested(doc: Doc, records: list[Tree]) -> Iterator[tuple[dict[str, Tree], str, Holder, int]]:
    """Keys whose value is a collection written over lines: the mapping, the key, the collection, and how deep."""
    stack: list[tuple[Tree, int]] = [(record, 1) for record in reversed(records[-40:])]
    while stack:
        holder, depth = stack.pop()
        if isinstance(holder, str) or doc.span(holder).flow:
            continue
        if isinstance(holder, list):
            stack += [(one, depth) for one in reversed(holder)]
            continue
        for name, value in holder.items():
            if not isinstance(value, str) and not doc.span(value).flow:
                yield holder, name, value, depth
                stack.append((value, depth + 1))


def dash_of(doc: Doc, items: list[Tree], place: int) -> tuple[int, str] | None:
    """Column (from 0) of the dash before an item of a block list, and the dash with its gap; None where it stands apart."""
    start = doc.value_span(items, place)[0]
    line_start = start - doc.at(start)[1] + 1
    match = _DASH.fullmatch(doc.text[line_start:start])
    return (len(match[1]), match[2]) if match else None


def eol_of(text: str) -> str:
    """The end of line the book uses: that of its first line."""
    match = _EOL.search(text)
    return match[0] if match else "\n"


def _blank_lines(doc: Doc, records: list[Tree]) -> int:
    """Empty lines above the last record and the comment that introduces it; a first record of several lines gets one."""
    if not records:
        return 0
    spans = doc.span(records)
    if len(records) == 1:
        return 0 if doc.at(spans.values[0][0])[0] == doc.at(spans.values[0][1])[0] else 1
    line, first = doc.at(spans.values[-1][0])[0], doc.at(spans.values[-2][1])[0]
    while line - 1 > first and _COMMENT.match(doc.line_text(line - 1)):
        line -= 1
    count = 0
    while line - 1 - count > first and not doc.line_text(line - 1 - count).strip():
        count += 1
    return count


def last_index(doc: Doc, start: int, end: int) -> int:
    """Where the last character of a value really is (plus one): block texts count the empty lines after them as theirs."""
    while end > start and doc.text[end - 1] in _BLANK:
        end -= 1
    return end


def after_line(doc: Doc, index: int, deeper_than: int) -> int:
    """The index after the line of `index` and after comments below it that are indented deeper than a column (from 0)."""
    at = line_end(doc.text, index)
    while match := _COMMENT.match(doc.text, at):
        if len(match[1]) <= deeper_than:
            break
        at = line_end(doc.text, at)
    return at


def line_end(text: str, index: int) -> int:
    """The index after the end of the line that an index lies on."""
    match = _EOL.search(text, index)
    return match.end() if match else len(text)
