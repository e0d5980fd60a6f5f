"""What the counter remembers between two calls: the picked car, and the proofs behind the numbers of the last answer."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, TypeVar

import msgspec

from fitlore.model.because import Because

if TYPE_CHECKING:
    from pathlib import Path

T = TypeVar("T")


class Numbered(msgspec.Struct, frozen=True):
    """One numbered line of the last answer, and its proof."""

    number: int
    title: str
    because: Because


class Session(msgspec.Struct):
    """Kept in the shop's folder, in `.fitlore/session.json`."""

    car: str = ""
    no_car: bool = False
    """Somebody said that none is to be picked."""
    asked: str = ""
    asked_of: str = ""
    """The name of the car it was asked of."""
    answers: list[Numbered] = []


def _file(shop: Path | str | None) -> str:
    """In the shop's folder; beside the snapshots where there is no shop, or one that may only be read."""
    if shop is not None and os.access(shop, os.W_OK):
        return os.path.join(shop, ".fitlore", "session.json")
    from fitlore.graph.home import home_path

    return os.path.join(os.path.dirname(home_path(shop)), "session.json")


def load(shop: Path | str | None) -> Session:
    """The session of a shop; an unreadable one is a new one (it holds nothing that cannot be asked again)."""
    return load_as(shop, Session) or Session()


def load_as(shop: Path | str | None, struct: type[T]) -> T | None:
    """So much of the session as this Struct holds; None where there is none that can be read."""
    try:
        with open(_file(shop), "rb") as file:
            return msgspec.json.decode(file.read(), type=struct)
    except (OSError, msgspec.MsgspecError):
        return None


def save(shop: Path | str | None, session: Session) -> str:
    """Keep it. A place that cannot be written is no reason to fail an answer: what is wrong with it is returned."""
    file = _file(shop)
    try:
        os.makedirs(os.path.dirname(file), exist_ok=True)
        draft = f"{file.removesuffix('.json')}.new"
        with open(draft, "wb") as to:
            to.write(msgspec.json.format(msgspec.json.encode(session)))
        os.replace(draft, file)
    except OSError as error:
        return f"{file}: {error.strerror or error}"
    return ""
