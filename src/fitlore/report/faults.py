"""Faults of books in words: a line editors can jump to, the text itself, what was expected and what to do."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Final

import msgspec

from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.report.text import BLANK, Line, Tone, listed

_NAMED: Final = re.compile(r"[^\s`,;:()\[\]{}\"']+/[^\s`,;:()\[\]{}\"']*[^\s`,;:()\[\]{}\"'.]")
"""What may be the name of a book."""
_TONES: dict[Severity, Tone] = {Severity.ERROR: "danger", Severity.WARNING: "ask", Severity.NOTE: "dim"}


def fault_lines(diagnostic: Diagnostic) -> list[Line]:
    """One fault: `file:line:col: error: message [code]`, the line with a caret, expected, remedy."""
    tone = _TONES[diagnostic.severity]
    head = f"{diagnostic.origin}: {diagnostic.severity.value}: {diagnostic.message} [{diagnostic.code}]"
    lines = [Line(head, tone, hang=2)]
    if diagnostic.excerpt:
        text = diagnostic.excerpt.rstrip()
        before = text[: max(0, diagnostic.origin.column - 1 - diagnostic.cut)]
        lead = "".join("\t" if character == "\t" else " " for character in before)
        marks = "^" * max(1, min(diagnostic.width, len(text) - len(before)))
        lines += [Line(f"    {text}", wrap=False), Line(f"    {lead}{marks}", wrap=False)]
    if diagnostic.expected:
        lines.append(Line(f"    expected: {diagnostic.expected}", hang=14))
    if diagnostic.remedy:
        lines.append(Line(f"    remedy:   {diagnostic.remedy}", hang=14))
    return lines


def with_files(diagnostic: Diagnostic, name: Callable[[str], str]) -> Diagnostic:
    """The same fault, with `name` of each book in place of its shown name, wherever its words name one."""

    def named(text: str) -> str:
        return _NAMED.sub(lambda found: name(found[0]), text)

    origin = diagnostic.origin
    return msgspec.structs.replace(
        diagnostic,
        origin=msgspec.structs.replace(origin, book=name(origin.book)),
        message=named(diagnostic.message),
        expected=named(diagnostic.expected),
        remedy=named(diagnostic.remedy),
    )


def counted(diagnostics: Iterable[Diagnostic]) -> str:
    """`3 errors, 1 warning`, or `no faults`."""
    found = [d.severity for d in diagnostics]
    words = []
    for severity in Severity:
        number = found.count(severity)
        if number:
            words.append(f"{number} {severity.value}{'s' if number > 1 else ''}")
    return listed(words) or "no faults"


def all_lines(diagnostics: Iterable[Diagnostic]) -> list[Line]:
    """All faults, each followed by a blank line, and their count."""
    rows = list(diagnostics)
    lines: list[Line] = []
    for diagnostic in rows:
        lines += [*fault_lines(diagnostic), BLANK]
    return [*lines, Line(counted(rows), "head")]
