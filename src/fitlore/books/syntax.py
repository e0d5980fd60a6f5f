"""What a YAML syntax error means to somebody who writes books, and where to cut so that the other records are still read."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final, NamedTuple

from fitlore.books.raw import Found

_GLUED: Final = re.compile(r"(?<![\w-])[\w-]++:(?=[^\s:/,\]}])")
_END: Final = re.compile(r"[\r\n]")
_NBSP: Final = re.compile(r":\u00a0")
_ITEM: Final = re.compile(r"^( *)- ", re.MULTILINE)


class Trouble(NamedTuple):
    """What a YAML parser said: its words, and the indexes of the two places it names (-1: none)."""

    problem: str
    context: str
    at: int
    begun: int


def explain(text: str, trouble: Trouble) -> Found:
    """The fault behind a parser's error. The place is where the writer has to look, which is often the context's mark."""
    for rule in (_scanning, _characters, _brackets, _blocks):
        found = rule(text, trouble)
        if found is not None:
            return found
    place = trouble.at if trouble.at >= 0 else max(0, trouble.begun)
    return Found("B10-not-yaml", place, 1, {"problem": trouble.problem})


def _scanning(text: str, trouble: Trouble) -> Found | None:
    problem, context = trouble.problem, trouble.context
    if "could not find expected ':'" in problem:
        start, line = _line(text, trouble.begun)
        return _glue(line, start) or Found(
            "B13-no-colon", trouble.begun, len(line.strip()), {"line": line.strip()}
        )
    if "quoted scalar" in context and "end of stream" in problem:
        return Found("B14-open-quote", trouble.begun, 1, {})
    if "escape" in problem:
        at = trouble.at if text[trouble.at : trouble.at + 1] == "\\" else trouble.at - 1
        return Found("B15-bad-escape", at, 2, {"found": text[at : at + 2]})
    return None


def _characters(text: str, trouble: Trouble) -> Found | None:
    char = text[trouble.at : trouble.at + 1]
    if "tab character" in trouble.problem or ("cannot start any token" in trouble.problem and char == "\t"):
        return Found("B16-tab", trouble.at, 1, {})
    if "cannot start any token" in trouble.problem:
        return Found("B17-reserved-character", trouble.at, 1, {"char": char})
    if "incompatible" in trouble.problem:
        return Found("B18-yaml-version", max(0, trouble.at), 1, {})
    return None


def _brackets(text: str, trouble: Trouble) -> Found | None:
    if "flow" not in trouble.context:
        return None
    opening = text[trouble.begun : trouble.begun + 1]
    between = text[trouble.begun : trouble.at]
    if trouble.at >= len(text) or "\n" in between or "\r" in between:
        return Found("B19-open-bracket", trouble.begun, 1, {"bracket": opening})
    return Found("B20-in-brackets", trouble.at, 1, {"bracket": opening})


def _blocks(text: str, trouble: Trouble) -> Found | None:
    problem = trouble.problem
    start, line = _line(text, trouble.at)
    if "mapping values" in problem:
        glued = _glue(line, start)
        first = line.find(":")
        if glued is None and start + first == trouble.at:
            indent = len(line) - len(line.lstrip())
            return Found("B21-too-deep", start + indent, first - indent, {"key": line[indent:first].strip()})
        return Found("B22-second-colon", trouble.at, 1, {})
    if not any(words in problem for words in ("expected key", "expected '-'", "<block end>")):
        return None
    before = text[start : trouble.at].rstrip()
    if before[-1:] in ("'", '"', "}", "]"):
        return Found("B23-after-the-end", trouble.at, 1, {"closed": before[-1]})
    return Found("B24-out-of-line", trouble.at, max(1, len(line.rstrip()) - (trouble.at - start)), {})


def _glue(line: str, start: int) -> Found | None:
    blank = _NBSP.search(line)
    if blank:
        return Found("B12-no-break-space", start + blank.start() + 1, 1, {})
    glued = _GLUED.search(line)
    if glued is None:
        return None
    return Found("B11-no-space-after-colon", start + glued.start(), len(glued[0]), {"key": glued[0]})


def glued_text(text: str, start: int, end: int) -> Found | None:
    """Is the text between these indexes, or the first line of it, a `key:value` without its space, or with a no-break space?"""
    return _glue(_END.split(text[start : end + 2], maxsplit=1)[0], start)


def _line(text: str, index: int) -> tuple[int, str]:
    """The start and the text of the line that holds `index`."""
    index = max(0, index)
    start = text.rfind("\n", 0, index) + 1
    start = max(start, text.rfind("\r", start, index) + 1)
    end = _END.search(text, index)
    return start, text[start : end.start() if end else len(text)]


def pieces(text: str) -> Iterator[tuple[int, str]]:
    """The text cut at each line that begins an item of the outermost list, with the index of each piece."""
    first = _ITEM.search(text)
    if first is None:
        yield 0, text
        return
    cuts = [match.start() for match in re.finditer(rf"^{first[1]}- ", text, re.MULTILINE)]
    if cuts[0] > 0:
        yield 0, text[: cuts[0]]
    for start, end in zip(cuts, [*cuts[1:], len(text)], strict=True):
        yield start, text[start:end]
