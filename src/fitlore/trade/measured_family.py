"""A family whose designations are named figures and words, and nothing else: what such families have in common."""

from __future__ import annotations

from collections.abc import Iterable

from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.measured import Made, Shape, pieces, read_made
from fitlore.trade.pieces import Piece, question, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.thread.family import ThreadFamily
from fitlore.trade.thread.value import normal


class MeasuredFamily:
    """A family by its shape; the families that know more override `made` and `more`."""

    about: About
    shape: Shape
    apart: tuple[str, ...] = ()
    """Figures and traits that `more` compares."""

    def made(self, text: str, standards: Standards) -> Made | Unreadable:
        """What a text says, or why it says nothing."""
        return read_made(text, self.shape, standards)

    def more(self, wanted: Made, had: Made, standards: Standards) -> list[Piece]:
        """Further pieces, which need more than a bound on each side."""
        return []

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form: the name, its words, its figures in mm, bar, degrees Celsius or ohms."""
        found = self.made(text, standards)
        return found if isinstance(found, Unreadable) else Reading(str(found), keys=dict(found.figures))

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: such a part has the sizes its car has."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Each piece that the needed one says, by itself; the worst decides. `end` is not needed."""
        wanted, had = self.made(needed, standards), self.made(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        kind = self.shape.kind
        if str(wanted) == str(had):
            return verdict(FamilyState.OK, f"{kind}-same", {"needed": str(wanted), "offered": str(had)})
        found = [*self._threads(wanted, had, standards), *pieces(wanted, had, self.apart)]
        return together(kind, str(wanted), str(had), [*found, *self.more(wanted, had, standards)])

    def _threads(self, wanted: Made, had: Made, standards: Standards) -> list[Piece]:
        if wanted.thread is None:
            return []
        if had.thread is None:
            values = {"what": "thread", "needed": normal(wanted.thread), "look": "outside and pitch"}
            return [Piece("thread", verdict(FamilyState.UNREADABLE, "service-not-said", values))]
        needed, offered = normal(wanted.thread), normal(had.thread)
        return [Piece("thread", ThreadFamily().compare(needed, offered, End.MALE, standards))]
