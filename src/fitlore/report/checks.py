"""What `check` says beside faults: one line a fault for machines, the rules there are, and how books were written anew."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import unified_diff

from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.report.text import Line, Tone

_TONES: dict[str, Tone] = {"error": "danger", "warning": "ask", "note": "dim", "ignore": "dim"}


def machine_line(found: Diagnostic, file: str) -> str:
    """`file:line:col: severity code: message`, all on one line; what is about a whole book stands at its beginning."""
    at = found.origin
    message = " ".join(found.message.split())
    place = f"{file}:{max(1, at.line)}:{max(1, at.column)}"
    return f"{place}: {found.severity.value} {found.code}: {message}"


def rule_lines(rows: Iterable[tuple[str, Severity | None, str]]) -> list[Line]:
    """Each rule with how bad it is (None: ignored) and its problem."""
    lines = []
    for name, severity, title in rows:
        word = severity.value if severity is not None else "ignore"
        lines.append(Line(f"{name:34} {word:8} {title}", _TONES[word], hang=44))
    return lines


def difference_lines(shown: str, before: bytes, after: bytes) -> list[Line]:
    """How a book would change, as a unified difference."""
    old, new = (text.decode("utf-8", "replace").splitlines() for text in (before, after))
    rows = unified_diff(old, new, shown, f"{shown} (tidied)", lineterm="", n=1)
    tones: dict[str, Tone] = {"+": "good", "-": "danger", "@": "dim"}
    return [Line(row, tones.get(row[:1], "plain"), wrap=False) for row in rows]
