"""What a shop begins with, and what to do next."""

from __future__ import annotations

from fitlore.report.machine import Json
from fitlore.report.text import BLANK, Line, columns
from fitlore.upkeep.start import Started

_ABOUT = {
    "fitlore.yaml": "the shop's settings, and whose books are asked",
    "books/cars.yaml": "one car",
    "books/jobs.yaml": "one job on it",
    "books/parts.yaml": "two parts",
    "books/platforms.yaml": "what it is built of: one platform with a place",
    "books/suppliers.yaml": "one supplier with a price",
}
NEXT = (
    ("fitlore check", "are the books sound"),
    ("fitlore car first", "pick the car; it stays picked"),
    ("fitlore fits thermostat", "what goes there"),
    ("fitlore plan", "the cheapest way to what the job needs"),
    ("fitlore note VP 88 54 for thermostat, fitted --yes", "keep what you found out"),
    ("fitlore undo", "take that back"),
)
"""What to try first, in this order: each is answered."""


def started_lines(started: Started) -> list[Line]:
    """The files, then the steps."""
    rows = [(f"  {path}", _ABOUT.get(path, "")) for path in started.files]
    steps = [(f"  {command}", why) for command, why in NEXT]
    return [
        Line(
            f"{started.shop}: a shop with its first books, all invented, in {started.folder}", "good", hang=2
        ),
        *columns(rows, ["plain"] * len(rows), "l"),
        BLANK,
        Line("next, from that folder:", "head"),
        *columns(steps, ["plain"] * len(steps), "l"),
        Line(
            "Then write your own over them in any editor, one thing at a time; `fitlore check` says what is amiss, "
            "and `fitlore check --schema books/cars.yaml` lets the editor help."
        ),
    ]


def started_json(started: Started) -> Json:
    """The same for programs."""
    return {
        "shop": started.shop,
        "folder": started.folder.as_posix(),
        "files": list(started.files),
        "next": [{"command": command, "why": why} for command, why in NEXT],
    }
