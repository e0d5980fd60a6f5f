"""`fits M12x1.25 nut on 7/16-20 stud`: no place and no part of the books, but two designations that are to go together."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final, NamedTuple

from fitlore.model.choices import End

_APART: Final = ("on", "onto", "in", "into", "to", "for", "through")
_ENDS: Final = {
    **dict.fromkeys(("nut", "nuts", "hole", "insert", "boss"), End.FEMALE),
    **dict.fromkeys(
        ("stud", "studs", "bolt", "bolts", "screw", "screws", "setscrew", "plug", "nipple"), End.MALE
    ),
}
"""What has which half of a screwed joint."""
_PLAIN: Final = frozenset(
    {"a", "an", "the", "wheel", "thread", "threaded", "tapped", "pipe", "union", "old", "new"}
)
"""Words beside a designation that change nothing in it."""


class Piece(NamedTuple):
    """One of the two: its designation, as typed, and the half it has where its name says so."""

    designation: str
    said: str
    end: End | None


class Joint(NamedTuple):
    """What is there, and what is to go on or in it."""

    needed: Piece
    offered: Piece

    @property
    def end(self) -> End | None:
        """The half that the offered one has."""
        if self.offered.end is not None or self.needed.end is None:
            return self.offered.end
        return End.MALE if self.needed.end is End.FEMALE else End.FEMALE

    @property
    def two_of_a_kind(self) -> bool:
        """A nut on a nut: nothing that could go together."""
        return self.offered.end is not None and self.offered.end is self.needed.end


def joint_of(words: Sequence[str]) -> Joint | None:
    """The two designations of a line, if it is one: figures on both sides of a small word, and a name of a half on one."""
    typed = " ".join(words).split()
    for at, word in enumerate(typed):
        if word.casefold() in _APART and 0 < at < len(typed) - 1:
            offered, needed = _piece(typed[:at]), _piece(typed[at + 1 :])
            if offered and needed and (offered.end or needed.end):
                return Joint(needed, offered)
    return None


def _piece(words: Sequence[str]) -> Piece | None:
    ends = [_ENDS[word.casefold()] for word in words if word.casefold() in _ENDS]
    rest = [word for word in words if word.casefold() not in _ENDS and word.casefold() not in _PLAIN]
    if len(set(ends)) > 1 or not re.search(r"\d", " ".join(rest)):
        return None
    return Piece(" ".join(rest), " ".join(words), ends[0] if ends else None)
