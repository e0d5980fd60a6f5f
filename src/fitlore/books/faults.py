"""The registry of faults: each has a stable code, words, and a remedy; every code has its smallest example in the tests."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Final, NamedTuple

from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin


class Fault(NamedTuple):
    """One kind of fault. The three texts are templates (`str.format`) over the values that `fault` is given."""

    code: str
    severity: Severity
    title: str
    message: str
    expected: str
    remedy: str


_ROWS: Final[dict[str, Fault]] = {}
MOST: Final = 5000
"""Faults that are told of one book at a time; of further ones only how many there are."""
WIDEST: Final = 400
"""Characters of a line that are shown with a fault."""
_LONGEST: Final = 300
"""Characters of one word of the book's that are shown in a sentence."""


def register(rows: Iterable[Fault]) -> None:
    """Adds kinds of fault. Raises ValueError where a code is already taken by another row."""
    for row in rows:
        if _ROWS.get(row.code, row) != row:
            raise ValueError(f"fault code {row.code} is taken")
        _ROWS[row.code] = row


def severity_of(code: str) -> Severity:
    """How much a kind of fault matters. KeyError for an unknown code."""
    return _ROWS[code].severity


def registered(prefix: str = "") -> tuple[Fault, ...]:
    """All kinds of fault whose code begins so, in order of their codes."""
    return tuple(row for code, row in sorted(_ROWS.items()) if code.startswith(prefix))


def stretch(start: int, end: int, at: int) -> tuple[int, int]:
    """Which part of a line that goes from `start` to `end` is shown with a fault at `at` (all are indexes of a text)."""
    if end - start <= WIDEST:
        return start, end
    first = max(start, min(at - WIDEST // 2, end - WIDEST))
    return first, first + WIDEST


def in_short(values: Mapping[str, str]) -> dict[str, str]:
    """Words of a book's as they are shown in a sentence: of a very long one its two ends. Lists of ours stay whole."""
    return {
        key: text if len(text) <= _LONGEST or key in ("known", "words") else _ends(text)
        for key, text in values.items()
    }


def _ends(text: str) -> str:
    return f"{text[: _LONGEST - 60]} ... {text[-40:]} ({len(text)} characters)"


def fault(
    code: str, origin: Origin, *, excerpt: str = "", width: int = 1, cut: int = 0, **values: str
) -> Diagnostic:
    """A diagnostic of a registered kind. Raises KeyError for an unknown code or a value that a template lacks."""
    row = _ROWS[code]
    values = {key: _whole(text) for key, text in values.items()}
    return Diagnostic(
        code=code,
        severity=row.severity,
        origin=origin,
        message=row.message.format_map(values),
        expected=row.expected.format_map(values),
        remedy=row.remedy.format_map(values),
        excerpt=excerpt,
        width=max(1, width),
        cut=cut,
    )


def _whole(text: str) -> str:
    """A text without halves of characters, which JSON can smuggle in and which no file or terminal can hold."""
    return text if text.isascii() else text.encode("utf-8", "surrogatepass").decode("utf-8", "replace")


def shown(found: Diagnostic) -> str:
    """A diagnostic as plain lines: place and message, the line with a mark under the fault, what was expected, what to do."""
    lines = [f"{found.origin}: {found.severity.value}: {found.message} [{found.code}]"]
    if found.excerpt:
        before = found.excerpt[: max(0, found.origin.column - 1 - found.cut)]
        lead = "".join("\t" if c == "\t" else " " for c in before)
        room = max(1, len(found.excerpt) - len(lead))
        lines += ["    " + found.excerpt, "    " + lead + "^" * min(found.width, room)]
    if found.expected:
        lines.append(f"  expected: {found.expected}")
    if found.remedy:
        lines.append(f"  remedy: {found.remedy}")
    return "\n".join(lines)


def page(rows: Iterable[Fault] | None = None, examples: Mapping[str, tuple[str, str]] | None = None) -> str:
    """The error page in Markdown: every row with its smallest failing book and what is then said (code -> both texts).

    Without arguments: the committed pages of all rooms as one. Raises KeyError for a row without its example.
    """
    if rows is None:
        texts = [path.read_text("utf-8") for path in sorted(Path(__file__).parent.parent.glob("*/errors.md"))]
        return _HEAD + "".join(text.removeprefix(_HEAD) for text in texts)
    parts = []
    for row in rows:
        book, said = (examples or {})[row.code]
        parts.append(f"\n## {row.code}\n\n{row.title} ({row.severity.value})\n")
        parts.append(f"\n{_fenced(book)}\n\n{_fenced(said)}\n")
    return _HEAD + "".join(parts)


_HEAD: Final = (
    "# What a diagnostic means\n\nGenerated from the registry of faults and its smallest failing books.\n"
)


def _fenced(text: str) -> str:
    inner = text.replace("\r", "").rstrip("\n")
    return f"```\n{inner}\n```"
