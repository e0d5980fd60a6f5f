"""Sides of a car as a family: left is not right, and words that depend on road or steering are asked about."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.hand.reading import EXAMPLES, Dependent, Said, read
from fitlore.trade.pieces import PRACTICE, verdict
from fitlore.trade.readings import each_reading
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards

_OK, _OFF = FamilyState.OK, FamilyState.OFF


class HandFamily:
    """The family of kind `hand`."""

    about = About(
        title="sides of a car, as seen from the driver's seat facing forwards",
        standards=("none names the sides; ISO 3166-1 for the codes of countries",),
        spellings=(
            *EXAMPLES,
            "LH",
            "R/H",
            "L",
            "left-hand side",
            "nearside, drives on the left",
            "N/S (UK)",
            "O/S, AU",
            "kerb side in Germany",
            "passenger side, left-hand drive",
            "links",
            "in Fahrtrichtung rechts",
            "Beifahrerseite Linkslenker",
            "côté conducteur, volant à gauche",
            "droite",
            "izquierda",
            "lado del acompañante, volante a la derecha",
            "both sides",
            "L/R",
        ),
        not_said=(
            "whether the seller looked from the seat or stood in front of the car",
            "front or rear",
            "which side of the steering a part is made for, whichever side it sits on",
            "whether a part for both sides is a pair or one that goes on either",
        ),
        gaps=(
            "other languages",
            "short forms of other languages, such as li. and re.",
            "cars steered from the middle",
        ),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form: `left`, `right` or `both`."""
        found = read(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found.side)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Nothing to measure."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """The same side goes, the other never; what serves both sides goes on either. `end` is not needed."""
        return each_reading(
            "hand-no-reading-goes",
            read(needed, standards),
            read(offered, standards),
            partial(read, standards=standards),
            _held,
        )


def _held(wanted: Said, had: Said) -> FamilyResult:
    values = {"needed": wanted.side, "offered": had.side}
    by = [*wanted.by, *(one for one in had.by if one not in wanted.by)]
    rows = [row for one in by for row in (one.row, one.by)]
    under = [_told(one) for one in by]
    if wanted.side == had.side:
        return verdict(_OK, "hand-same", values, rows, under=under)
    if had.side == "both":
        return verdict(_OK, "hand-both", values, rows, (PRACTICE,), under)
    code = "hand-one" if wanted.side == "both" else "hand-other"
    return verdict(_OFF, code, values, rows, (PRACTICE,), under)


def _told(one: Dependent) -> Because:
    """Why a word means this side here."""
    values = {
        "word": one.typed,
        "side": one.side,
        "by": one.by.word("road") or one.by.word("is"),
        "country": one.by.word("names").partition(";")[0],
        "since": one.by.cell("since"),
    }
    origins = (one.row.origin, one.by.origin)
    sources = tuple(dict.fromkeys((one.row.source, one.by.source)))
    return Because(f"hand-{one.row.word('side')}", values, origins=origins, sources=sources)


FAMILIES: Final = {"hand": HandFamily()}
