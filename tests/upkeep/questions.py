"""The smallest question in SPARQL for each thing that may be wrong with one."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final
from unittest.mock import patch

from fitlore.model.diagnostic import Diagnostic
from fitlore.upkeep.query import Limits, asked, ready
from tests.upkeep.attempt import Attempt

SHOWN: Final = "question.rq"
Tried = Callable[[Path], tuple[Diagnostic, ...]]


def _asked(text: str, limits: Limits | None = None) -> Tried:
    def ask(folder: Path) -> tuple[Diagnostic, ...]:
        found = asked(None, SHOWN, text, limits or Limits())
        return (found,) if isinstance(found, Diagnostic) else ()

    return ask


def _broken(folder: Path) -> tuple[Diagnostic, ...]:
    """As it is where the memory is not enough and the system ends the process."""
    with patch("fitlore.upkeep.query.asked._START", "raise SystemExit(9)"):
        return _asked(_HARMLESS)(folder)


def _bare(folder: Path) -> tuple[Diagnostic, ...]:
    (folder / "queries").mkdir()
    (folder / "queries" / SHOWN).write_text("# title: Mine\nASK {}\n", "utf-8")
    return ready(folder)[1]


_HARMLESS: Final = "ASK { }\n"
_ENDLESS: Final = "SELECT (COUNT(*) AS ?n) { ?a ?b ?c . ?d ?e ?f . ?g ?h ?i }\n"
_TEXTS: Final = {
    "U30-not-sparql": "SELECT ?part WHERE { ?part }\n",
    "U31-would-change": "DELETE WHERE { ?part ?says ?it }\n",
    "U32-asks-elsewhere": "SELECT * { SERVICE <https://shelf.example/sparql> { ?part ?says ?it } }\n",
    "U33-not-a-table": "CONSTRUCT { ?part ?says ?it } WHERE { ?part ?says ?it }\n",
}
ATTEMPTS: Final[dict[str, Attempt]] = {
    **{
        code: Attempt(text, "books query, with this as question.rq", _asked(text))
        for code, text in _TEXTS.items()
    },
    "U34-took-too-long": Attempt(
        _ENDLESS, "books query, with this as question.rq and --seconds 0.5", _asked(_ENDLESS, Limits(0.5))
    ),
    "U35-broke-off": Attempt(_HARMLESS, "books query, where the system ends the process", _broken),
    "U36-not-ready": Attempt(
        "# title: Mine\nASK {}\n", "books query, with this as queries/question.rq", _bare
    ),
}
