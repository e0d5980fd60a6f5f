"""What the counter remembers between two calls: the picked car, and the proofs behind the numbers of the last answer."""

from __future__ import annotations

import os
from pathlib import Path

import msgspec

from fitlore.model.because import Because


class Numbered(msgspec.Struct, frozen=True):
    """One numbered line of the last answer, and its proof."""

    number: int
    title: str
    because: Because


class Session(msgspec.Struct):
    """Kept in the shop's folder, in `.fitlore/session.json`."""

    car: str = ""
    asked: str = ""
    asked_of: str = ""
    """The name of the car it was asked of."""
    answers: list[Numbered] = []


def _file(shop: Path | None) -> Path:
    """In the shop's folder; beside the snapshots where there is no shop, or one that may only be read."""
    if shop is not None and os.access(shop, os.W_OK):
        return shop / ".fitlore" / "session.json"
    from fitlore.graph.home import home_of

    return home_of(shop).parent / "session.json"


def load(shop: Path | None) -> Session:
    """The session of a shop; an unreadable one is a new one (it holds nothing that cannot be asked again)."""
    try:
        return msgspec.json.decode(_file(shop).read_bytes(), type=Session)
    except (OSError, msgspec.MsgspecError):
        return Session()


def save(shop: Path | None, session: Session) -> str:
    """Keep it. A place that cannot be written is no reason to fail an answer: what is wrong with it is returned."""
    file = _file(shop)
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        draft = file.with_suffix(".new")
        draft.write_bytes(msgspec.json.format(msgspec.json.encode(session)))
        draft.replace(file)
    except OSError as error:
        return f"{file}: {error.strerror or error}"
    return ""
