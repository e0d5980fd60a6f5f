"""Vehicle identification numbers as a family of standards."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import question, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.vin.reading import CHECK, EXAMPLES, alike, checked, read, years

_STRUCTURE: Final = "ISO 3779"


class VinFamily:
    """The family of kind `vin`."""

    about = About(
        title="vehicle identification numbers",
        standards=("ISO 3779", "ISO 3780", "49 CFR 565.15"),
        spellings=(
            *EXAMPLES,
            "1tb4v52r8xa000417",
            "1TB 4V52R8 XA000417",
            "VIN: 1TB4V52R8XA000417",
            "*1TB4V52R8XA000417*",
        ),
        not_said=(
            "which parts were fitted on the day it was built",
            "what has been changed since",
            "the model year, outside North America",
        ),
        gaps=(
            "makers' own places 4 to 8",
            "chassis numbers before 1981: no standard",
            "codes of makers and countries",
        ),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form: capitals without spaces."""
        found = read(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Nothing to measure."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """The same number, one that differs only where characters look alike (read it again), or another car's."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        values = {"needed": wanted, "offered": had}
        told = tuple(_told(number, standards) for number in dict.fromkeys((wanted, had)))
        if wanted == had:
            return verdict(FamilyState.OK, "vin-same", values, sources=(_STRUCTURE,), under=told)
        apart = [at for at, (one, other) in enumerate(zip(wanted, had, strict=True)) if one != other]
        values["places"] = ", ".join(str(at + 1) for at in apart)
        unchecked = not checked(wanted, standards)
        if unchecked and len(apart) <= 2 and all(alike(wanted[at], had[at]) for at in apart):
            return verdict(FamilyState.UNREADABLE, "vin-alike", values, under=told)
        same = all(at == CHECK or at > 10 for at in apart)
        return verdict(
            FamilyState.OFF, "vin-sister" if same else "vin-other", values, sources=(_STRUCTURE,), under=told
        )


def _told(number: str, standards: Standards) -> Because:
    rows = standards.table("vin-region").find(first=number[0])
    values = {
        "vin": number,
        "region": ", ".join(row.word("region") for row in rows),
        "years": " or ".join(str(year) for year in years(number, standards)),
    }
    origins = tuple(row.origin for row in rows)
    return Because("vin-told", values, origins=origins, sources=tuple(row.source for row in rows))


FAMILIES: Final = {"vin": VinFamily()}
