"""The week and year a tyre was made, from the last figures of its DOT number (49 CFR 574.5)."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NamedTuple

from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import Words, verdict, words
from fitlore.trade.readings import each_reading
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards

SOURCE: Final = "49 CFR 574.5 (four figures since 2000, three before: 64 FR 36807)"
EXAMPLES: Final = ("DOT 2316", "DOT week 23 of 2016", "DOT 238")
_LONG: Final = words(r"^(?:dot\s?)?week\s?(?P<week>\d{1,2})(?: of|/|,)?\s?(?P<year>(?:19|20)\d\d)$")
_MARK: Final = words(
    r"^dot\s?(?:(?:[A-Z0-9]{2,4}\s){1,3})?(?P<week>\d\d)\s?(?P<year>\d{1,2})(?P<nineties>\s?[<\u25c4\u25c0])?$"
)


class Made(NamedTuple):
    """Week and year."""

    year: int
    week: int

    def __str__(self) -> str:
        return f"DOT week {self.week} of {self.year}"


def read(text: str) -> Made | Unreadable:
    """When a tyre was made. Four figures are week and year since 2000; three name a week of one of three decades.

    A small triangle behind three figures means the nineties (common practice of the makers of that decade).
    """
    found = Words(text)
    unknown = Unreadable(text, "tyre-date-unknown", expected=EXAMPLES)
    if found.too_long:
        return unknown
    if match := _LONG.match(found.rest):
        return _sound(Made(int(match["year"]), int(match["week"])), text)
    match = _MARK.match(found.rest)
    if not match:
        return unknown
    week, year = int(match["week"]), match["year"]
    if len(year) == 2:
        return _sound(Made(2000 + int(year), week), text)
    decades = (1990,) if match["nineties"] else (1970, 1980, 1990)
    readings = [_sound(Made(decade + int(year), week), text) for decade in decades]
    if len(readings) == 1 or isinstance(readings[0], Unreadable):
        return readings[0]
    return Unreadable(text, "tyre-date-decade", tuple(str(one) for one in readings))


def _sound(made: Made, text: str) -> Made | Unreadable:
    """The week has to be one that a year has (ISO 8601 has up to 53)."""
    return made if 1 <= made.week <= 53 else Unreadable(text, "tyre-date-week", expected=EXAMPLES)


class TyreDateFamily:
    """The family of kind `tyre-date`."""

    about = About(
        title="tyre dates",
        standards=("49 CFR 574.5",),
        spellings=(
            "DOT 2316",
            "DOT week 23 of 2016",
            "dot XX YY ZZZ 0804",
            "week 8 of 2004",
            "DOT 238\u25c4",
        ),
        not_said=("how it was kept", "cracks", "tread"),
        gaps=("marks before 1971",),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `DOT week 23 of 2016`."""
        found = read(text)
        return found if isinstance(found, Unreadable) else Reading(str(found))

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Nothing to measure."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """A tyre made in the needed week or later serves; an older one does not."""
        return each_reading("tyre-date-no-decade", read(needed), read(offered), read, _newer)


def _newer(needed: Made, offered: Made) -> FamilyResult:
    values = {"needed": str(needed), "offered": str(offered)}
    newer = offered >= needed
    return verdict(
        FamilyState.OK if newer else FamilyState.OFF,
        "tyre-date-ok" if newer else "tyre-date-old",
        values,
        sources=(SOURCE,),
    )
