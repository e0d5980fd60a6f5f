"""What the tables of sides look like: words, what is written beside them, countries."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

ROAD: Final = ("near", "off")
"""Words that depend on the side of the road: the side at the kerb, and the other."""
SEATS: Final = ("driver", "passenger")
"""Words that depend on the side of the steering."""
SIDES: Final = ("left", "right")
LANGUAGES: Final = ("en", "de", "fr", "es")
_VIEW: Final = ("seat", "front")


def _told(row: TableRow) -> str:
    """A view is from the seat or from the front; a road and a steering are left or right."""
    allowed = _VIEW if row.word("tells") == "view" else SIDES
    return "" if row.word("is") in allowed else f"{row.word('tells')} {row.word('is')}"


SECTIONS: Final[Mapping[str, Section]] = {
    "side-word": Section(
        family="hand",
        key=("word",),
        words={"word": (), "language": LANGUAGES, "side": (*SIDES, "both", *ROAD, *SEATS)},
    ),
    "side-beside": Section(
        family="hand",
        key=("phrase",),
        words={
            "phrase": (),
            "language": LANGUAGES,
            "tells": ("road", "steering", "view"),
            "is": (*SIDES, *_VIEW),
        },
        implausible=_told,
    ),
    "side-country": Section(
        family="hand",
        key=("code",),
        numbers={"since": "1"},
        words={"code": (), "road": SIDES, "names": (), "also": ()},
        optional=frozenset({"since", "also"}),
    ),
}
"""Section name to its shape. Of a country's names the first is shown; `also` says what its code is short for on a part."""
