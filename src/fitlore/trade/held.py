"""One designation held against another, piece by piece: what the families of electrics have in common.

A piece that the needed side does not ask for is passed over; one that it asks for and the offered side leaves unsaid is a
question. Two texts with one normal form are the same, whatever else is unsaid, and rest on no row.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.pieces import PRACTICE, Piece, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState
from fitlore.trade.rows import Row

_UNSAID: Final[tuple[object, ...]] = (None, "", ())


class Held:
    """The pieces compared so far, of an offered designation held against a needed one (both in normal form)."""

    def __init__(self, kind: str, needed: str, offered: str) -> None:
        self.kind, self.needed, self.offered = kind, needed, offered
        self.pieces: list[Piece] = []

    def add(
        self,
        what: str,
        state: FamilyState,
        code: str,
        values: Mapping[str, str] | None = None,
        rows: Iterable[Row] = (),
        sources: Iterable[str] = (),
        under: Iterable[Because] = (),
    ) -> None:
        """How one piece stands. Where neither a row nor a source is named, it is common practice of the trade."""
        used, named = tuple(rows), tuple(sources)
        said = {"what": what, "needed": self.needed, "offered": self.offered} | dict(values or {})
        cited = named if used or named else (PRACTICE,)
        self.pieces.append(Piece(what, verdict(state, code, said, used, cited, under)))

    def agrees(self, what: str, value: str, rows: Iterable[Row] = ()) -> None:
        """The piece is as needed."""
        self.add(what, FamilyState.OK, "electric-agrees", {"value": value}, rows)

    def asks(self, what: str, needed: object, offered: object, look: str) -> bool:
        """Whether both sides say it, so that it is to be compared; a question is noted where only the needed one does."""
        if needed in _UNSAID:
            return False
        if offered in _UNSAID:
            self.unsaid(what, look)
            return False
        return True

    def unsaid(self, what: str, look: str) -> None:
        """A question: what is not said, and where it can be read or measured."""
        self.add(what, FamilyState.UNREADABLE, "electric-not-said", {"look": look})

    def result(self) -> FamilyResult:
        """The outcome of the whole: the same, or the worst of the pieces."""
        if self.needed == self.offered:
            values = {"needed": self.needed, "offered": self.offered}
            return verdict(FamilyState.OK, f"{self.kind}-same", values)
        if not self.pieces:
            self.unsaid("everything", "the two say nothing of the same thing")
        return together(self.kind, self.needed, self.offered, self.pieces)
