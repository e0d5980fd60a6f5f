"""Oils as two families of standards: what an engine may be given, and what gears may be given."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.oil.match import pieces
from fitlore.trade.oil.reading import read
from fitlore.trade.pieces import question, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards

_ENGINE: Final = About(
    title="engine oils",
    standards=("SAE J300", "API 1509"),
    spellings=(
        "20W-50",
        "20w50",
        "SAE 20W/50",
        "SAE 30",
        "HD 30",
        "SAE 10W",
        "10W-40 API SF/CC",
        "SAE 15W-40 SG/CD",
        "API SE",
        "API CF-4",
    ),
    not_said=(
        "mineral or synthetic",
        "whether it dissolves old sludge in an engine that ran on oil without detergent",
        "how much zinc and phosphorus is in it, for sliding cam followers",
    ),
    gaps=("ACEA, ILSAC and makers' own classes", "names before SA (ML, MM, MS)", "two-stroke oils"),
)
_GEAR: Final = About(
    title="gear oils",
    standards=("SAE J306", "API 1560"),
    spellings=("80W-90 GL-4", "75W90 GL5", "EP90", "EP 80W-90", "SAE 90", "SAE 80W GL-4", "GL-4/5", "20W-50"),
    not_said=("whether brass and bronze are safe", "how synchro rings bite in it", "mineral or synthetic"),
    gaps=(
        "automatic transmission fluids: their names belong to makers",
        "API MT-1",
        "limited-slip additives",
    ),
)


class OilFamily:
    """A family of oils, of kind `engine-oil` or `gear-oil`. Needed: what the handbook asks for. Offered: the can."""

    def __init__(self, kind: str, about: About) -> None:
        self.kind, self.about = kind, about

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The grade and the classes in one spelling: `SAE 20W-50 API SF/CC`, `SAE 80W-90 GL-4`."""
        found = read(self.kind, text, standards)
        return found if isinstance(found, Unreadable) else Reading(str(found))

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: no oil is told by measuring its size."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """What the needed text leaves unsaid is not asked for; what it says has to be promised."""
        wanted, had = read(self.kind, needed, standards), read(self.kind, offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        if str(wanted) == str(had):
            return verdict(FamilyState.OK, f"{self.kind}-same", {"needed": str(wanted), "offered": str(had)})
        return together(self.kind, str(wanted), str(had), pieces(wanted, had, standards))


FAMILIES: Final = {"engine-oil": OilFamily("engine-oil", _ENGINE), "gear-oil": OilFamily("gear-oil", _GEAR)}
