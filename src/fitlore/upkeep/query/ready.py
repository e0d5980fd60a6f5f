"""Questions that are ready to be asked: a file each, its header says what it answers; a shop may add its own."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Final, NamedTuple

from fitlore.model.diagnostic import Diagnostic
from fitlore.upkeep.query.faults import at

QUESTIONS: Final = Path(__file__).with_name("questions")
OWN: Final = "queries"
"""Folder of a shop's own ready questions, beside fitlore.yaml."""
_HEADER: Final = re.compile(r"^# (title|answers): (.+)$", re.MULTILINE)


class Ready(NamedTuple):
    """A ready question; its name is its file's."""

    name: str
    title: str
    answers: str
    query: str
    path: Path


def read_ready(path: Path, shown: str) -> Ready | Diagnostic:
    """Reads one, or says what its header lacks. Raises OSError where the file cannot be read."""
    try:
        text = path.read_bytes().decode("utf-8")
    except UnicodeDecodeError:
        return at("U36-not-ready", shown, "", 1, 1, why="the file is not UTF-8")
    header = dict(_HEADER.findall(text.replace("\r\n", "\n")))
    missing = [name for name in ("title", "answers") if not header.get(name, "").strip()]
    if missing:
        return at("U36-not-ready", shown, text, 1, 1, why=f"there is no line `# {missing[0]}: ...` in it")
    return Ready(path.stem, header["title"].strip(), header["answers"].strip(), text, path)


def ready(folder: Path | None) -> tuple[dict[str, Ready], tuple[Diagnostic, ...]]:
    """All ready questions by name, those of the program first, and what is wrong with files of the shop's.

    A shop's own goes before a built-in one of its name. Raises OSError where a file cannot be read.
    """
    found: dict[str, Ready] = {}
    wrong: list[Diagnostic] = []
    own = sorted((folder / OWN).glob("*.rq")) if folder else []
    for path in [*sorted(QUESTIONS.glob("*.rq")), *own]:
        one = read_ready(path, path.name if path.parent == QUESTIONS else f"{OWN}/{path.name}")
        if isinstance(one, Diagnostic):
            wrong.append(one)
        else:
            found[one.name] = one
    return found, tuple(wrong)
