"""Where exactly a change goes into a book's text, as stretches put in or replaced; it checks nothing, `amend` does."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from fitlore.books.doc import Doc, Holder, Tree
from fitlore.books.emit import Said, flow, item_lines, leaf, pair_lines
from fitlore.books.neighbours import after_line, dash_of, eol_of, last_index, line_end, style_of

Path = tuple[str | int, ...]
"""Keys and places (from 0) from the outermost list inwards: `(3, "evidence")`."""

_GAP: Final = re.compile(r"(?:[ \t\r\n]|(?<=\s)#[^\r\n]*|^#[^\r\n]*)*")


class Put(NamedTuple):
    """The text between two indexes gives way to another; where both are one index, nothing gives way."""

    start: int
    end: int
    text: str


class Cannot(Exception):
    """The text is not of a form that can be changed by itself. Raised and caught inside `books` only."""


class Plan(NamedTuple):
    """What goes where; `lines` is the same as people would put it in by hand, `where` says at which line."""

    puts: tuple[Put, ...]
    lines: tuple[str, ...]
    line: int
    where: str


def follow(doc: Doc, path: Path) -> Tree:
    """The value at a path. Raises Cannot where there is none."""
    if doc.root is None:
        raise Cannot("the book is empty")
    at = doc.root
    for key in path:
        at = entry(at, key)
    return at


def entry(holder: Tree, key: str | int) -> Tree:
    """The value under a key or at a place of a list. Raises Cannot where there is none."""
    if isinstance(holder, dict) and isinstance(key, str) and key in holder:
        return holder[key]
    if isinstance(holder, list) and isinstance(key, int) and 0 <= key < len(holder):
        return holder[key]
    raise Cannot(f"there is no `{key}` in it")


def plan_record(doc: Doc, record: dict[str, Said]) -> Plan:
    """A record at the end of the book, below the comments that belong to the last one."""
    records = _records(doc)
    style = style_of(doc, records)
    if not records:
        return _first_record(doc, record)
    spans = doc.span(records)
    if spans.flow:
        raise Cannot("the book is one list in brackets")
    dash = dash_of(doc, records, len(records) - 1)
    column = dash[0] if dash else doc.at(spans.start)[1] - 1
    last = records[-1]
    braces = not isinstance(last, str) and doc.span(last).flow
    lines = item_lines(record, column, style, braces=braces)
    end = after_line(doc, last_index(doc, *spans.values[-1]), column)
    return _lines_at(doc, end, ["" for _ in range(style.blank_lines)] + lines, style.eol)


def _records(doc: Doc) -> list[Tree]:
    if doc.root is None:
        return []
    if not isinstance(doc.root, list):
        raise Cannot("the book is not a list of records")
    return doc.root


def _siblings(doc: Doc) -> list[Tree]:
    """The records whose style counts; none in fitlore.yaml, which is one mapping."""
    return doc.root if isinstance(doc.root, list) else []


def _first_record(doc: Doc, record: dict[str, Said]) -> Plan:
    if doc.root is not None:
        raise Cannot("the book is an empty list in brackets")
    style = style_of(doc, [])
    return _lines_at(doc, len(doc.text), item_lines(record, 0, style, braces=False), eol_of(doc.text))


def _lines_at(doc: Doc, index: int, lines: list[str], eol: str) -> Plan:
    """Whole lines at an index where a line begins, or at the end of a text whose last line has no end."""
    open_end = index > 0 and doc.text[index - 1] not in "\r\n"
    text = (eol if open_end else "") + eol.join(lines) + eol
    below = doc.at(index)[0] - (0 if open_end else 1)
    where = f"below line {below}" if below else "at the top"
    return Plan((Put(index, index, text),), tuple(line for line in lines if line), max(1, below), where)


def plan_item(doc: Doc, path: Path, item: Said) -> Plan:
    """An item at the end of the list at a path; where the key is absent it is added with the list."""
    holder, key = follow(doc, path[:-1]), path[-1]
    if isinstance(holder, dict) and isinstance(key, str) and key not in holder:
        return plan_key(doc, path, [item])
    value = follow(doc, path)
    if not isinstance(value, list):
        return _beside_single(doc, holder, key, value, item)
    if doc.span(value).flow:
        return _into_brackets(doc, value, flow(item))
    column = doc.at(doc.span(value).start)[1] - 1
    spans = doc.span(value)
    style = style_of(doc, _siblings(doc), str(key))
    dash = dash_of(doc, value, len(value) - 1)
    style = style if dash is None else style._replace(dash=dash[1])
    last = value[-1]
    braces = not isinstance(last, str) and doc.span(last).flow
    end = after_line(doc, last_index(doc, *spans.values[-1]), column)
    return _lines_at(doc, end, item_lines(item, column, style, braces=braces), style.eol)


def _beside_single(doc: Doc, holder: Tree, key: str | int, value: Tree, item: Said) -> Plan:
    """One value standing alone where a list may be: brackets around it, and the item behind it."""
    assert isinstance(holder, list | dict)
    start, end = doc.value_span(holder, key)
    if start == end:
        raise Cannot("the key has no value yet")
    if doc.text[start] in "|>" or (not isinstance(value, str) and not doc.span(value).flow):
        raise Cannot("a value written over several lines stands where a list belongs")
    line = doc.at(end)[0]
    puts = Put(start, start, "["), Put(end, end, f", {flow(item)}]")
    return Plan(puts, (flow(item),), line, f"beside the value in line {line}, in brackets")


def plan_key(doc: Doc, path: Path, value: Said) -> Plan:
    """A key with its value at the end of the mapping that the path's last key is to stand in."""
    holder, key = follow(doc, path[:-1]), str(path[-1])
    if not isinstance(holder, dict) or not holder:
        raise Cannot("there is no mapping to add a key to")
    spans = doc.span(holder)
    if spans.flow:
        return _into_brackets(doc, holder, f"{leaf(key, flow=True)}: {flow(value)}")
    column = doc.at(spans.keys[0][0])[1] - 1
    style = style_of(doc, _siblings(doc), key)
    end = after_line(doc, last_index(doc, *spans.values[-1]), column - 1)
    if not _ends_alone(doc, spans.values[-1]):
        raise Cannot("the last value is an empty one")
    return _lines_at(doc, end, pair_lines(key, value, column, style), style.eol)


def _ends_alone(doc: Doc, span: tuple[int, int]) -> bool:
    return span[1] > span[0]


def plan_text(doc: Doc, path: Path, value: Said) -> Plan:
    """Another scalar in the place of one; where the key is absent it is added."""
    holder, key = follow(doc, path[:-1]), path[-1]
    if isinstance(holder, dict) and isinstance(key, str) and key not in holder:
        return plan_key(doc, path, value)
    old = follow(doc, path)
    assert isinstance(holder, list | dict)
    start, end = doc.value_span(holder, key)
    if not isinstance(old, str) or start == end or doc.text[start] in "|>":
        raise Cannot("only a value on one line can be replaced")
    if len(re.split(r"[\r\n]", doc.text[start:end])) > 1:
        raise Cannot("only a value on one line can be replaced")
    text = leaf(value, flow=_in_flow(doc, path))
    line = doc.at(start)[0]
    return Plan((Put(start, end, text),), (f"{key}: {text}",), line, f"in line {line}")


def _in_flow(doc: Doc, path: Path) -> bool:
    holders = [follow(doc, path[:depth]) for depth in range(len(path))]
    return any(doc.span(one).flow for one in holders if not isinstance(one, str))


def _into_brackets(doc: Doc, holder: Holder, text: str) -> Plan:
    """An entry at the end of a list in brackets or a mapping in braces, on one line or over several."""
    line = doc.at(max(doc.span(holder).start, doc.span(holder).end - 1))[0]
    return Plan(_bracket_puts(doc, holder, text), (text,), line, f"before the closing bracket in line {line}")


def _bracket_puts(doc: Doc, holder: Holder, text: str) -> tuple[Put, ...]:
    spans = doc.span(holder)
    if not spans.values:
        return (Put(spans.start + 1, spans.start + 1, text),)
    start = spans.keys[-1][0] if isinstance(holder, dict) else spans.values[-1][0]
    end = spans.values[-1][1]
    gap = _GAP.match(doc.text, end)
    after = gap.end() if gap else end
    comma = doc.text[after : after + 1] == ","
    eol, stop = eol_of(doc.text), line_end(doc.text, after if comma else end)
    lead = _lead(doc, start)
    if lead is None or stop > spans.end - 1:
        return (Put(end, end, f", {text}"),)
    if comma:
        return (Put(stop, stop, f"{lead}{text},{eol}"),)
    return Put(end, end, ","), Put(stop, stop, f"{lead}{text}{eol}")


def _lead(doc: Doc, index: int) -> str | None:
    """The blanks before an entry that is the first thing on its line; None for any other."""
    head = doc.text[index - doc.at(index)[1] + 1 : index]
    return head if not head.strip(" \t") else None
