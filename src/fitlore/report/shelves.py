"""Shelves in words: those there are, and one that might be added."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitlore.report.faults import fault_lines
from fitlore.report.machine import Json, diagnostic_json
from fitlore.report.text import BLANK, Line, columns, listed
from fitlore.upkeep.shelves import Done, Draft, Listed

FEW: Final = 8
"""Conflicts that are shown; how many more there are is said, and `--all` shows them."""


def shelf_lines(shelves: Sequence[Listed]) -> list[Line]:
    """A line each, the nearest first."""
    if not shelves:
        return [Line("no shelf but the built-in one; `fitlore books shelf add FOLDER --own` makes one")]
    rows = [(str(one.shelf.shelf), _many(one.books, "book"), _terms(one)) for one in shelves]
    return columns(rows, ["plain"] * len(rows), "lr")


def _terms(one: Listed) -> str:
    shelf = one.shelf
    cap = shelf.cap
    whose = f"{shelf.owner}'s" if shelf.owner else "somebody else's" if cap else "your own"
    said = f"{whose}, trusted as {cap.value} at the most" if cap else whose
    return f"{shelf.folder or shelf.endpoint}: {said}  [{shelf.origin}]"


def draft_lines(draft: Draft, *, every: bool) -> list[Line]:
    """What is on it, then where it says otherwise."""
    kinds = listed(_many(count, kind) for kind, count in draft.kinds)
    whose = f", {draft.owner}'s" if draft.owner else ""
    lines = [Line(f"{draft.name}{whose}: {_many(len(draft.books), 'book')} with {kinds}", "head", hang=2)]
    trust = (
        f"trusted as {draft.trust.value} at the most" if draft.trust else "your own: counted like all you say"
    )
    lines.append(Line(trust))
    shown = draft.conflicts if every else draft.conflicts[:FEW]
    for one in shown:
        lines += [BLANK, *fault_lines(one)]
    more = len(draft.conflicts) - len(shown)
    lines += [BLANK, Line(f"and {more} more; --all shows them", "dim")] if more else []
    return lines


def end_line(draft: Draft, done: Done | None) -> Line:
    """Whether it was added, and what is to be said for it to be."""
    if done is not None:
        return Line(f"added to fitlore.yaml as `{draft.name}`; `fitlore undo` takes it back", "good")
    if draft.conflicts:
        count = _many(len(draft.conflicts), "time")
        return Line(f"not added: it says otherwise {count}; --even-so adds it all the same", "ask")
    return Line("not added (--dry-run); nothing on it says otherwise", "ask")


def _many(count: int, what: str) -> str:
    if count == 1:
        return f"1 {what}"
    plural = (
        what if what in ("stores", "shared-work") else f"{what[:-1]}ies" if what.endswith("y") else f"{what}s"
    )
    return f"{count} {plural}"


def shelves_json(shelves: Sequence[Listed]) -> Json:
    """The list for programs."""
    return {
        "shelves": [
            {
                "shelf": str(one.shelf.shelf),
                "folder": one.shelf.folder or None,
                "endpoint": one.shelf.endpoint or None,
                "owner": one.shelf.owner or None,
                "trust": one.shelf.cap.value if one.shelf.cap else None,
                "books": one.books,
                "line": str(one.shelf.origin),
            }
            for one in shelves
        ]
    }


def change_json(name: str, done: Done | None, draft: Draft | None = None, trust: str | None = None) -> Json:
    """A change for programs."""
    cap = draft.trust.value if draft and draft.trust else trust
    return {
        "done": done is not None,
        "shelf": name,
        "number": done.number if done else None,
        "folder": draft.root.as_posix() if draft else None,
        "owner": (draft.owner or None) if draft else None,
        "trust": cap,
        "books": len(draft.books) if draft else None,
        "records": dict(draft.kinds) if draft else {},
        "conflicts": [diagnostic_json(one) for one in draft.conflicts] if draft else [],
    }
