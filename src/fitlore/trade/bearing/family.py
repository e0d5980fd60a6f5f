"""Rolling bearings as a family of standards: texts in, a state and a proof out."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

import msgspec

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.bearing.match import OK, pieces, size_words
from fitlore.trade.bearing.reading import Bearing, read
from fitlore.trade.family import About
from fitlore.trade.pieces import question, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_MICRON: Final = Decimal("0.001")


class BearingFamily:
    """The family of kind `bearing`."""

    about = About(
        title="rolling bearings",
        standards=(
            "ISO 15", "ISO 104", "ISO 355", "ISO 464", "ISO 492", "ISO 1206", "ISO 5753-1", "DIN 618", "ABMA 19.2",
        ),
        spellings=(
            "6203", "6203-2RS", "6203 2RS C3", "6203ZZ", "6203-2Z/C3", "6203DDU C3", "6205 NR", "1205K", "6804", "16002",
            "62/22", "608", "NU 205", "30205", "32008", "320/28", "51105", "HK 1612", "LM11949/10", "L44649/L44610",
            "7205B", "wheel bearing 6206",
        ),
        not_said=(
            "what grease is in it",
            "what speed and heat it bears",
            "how tight its seats are",
            "whether it was made true (no maker is named)",
        ),
        gaps=(
            "hub units and other bearings to a car maker's drawing",
            "inch ball bearings (their sealed ones are wider than the open ones)",
            "bores of sealed bearings to other than the standard size",
            "most inch taper sets; those listed are the ones of light hubs",
        ),
    )  # fmt: skip

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `6203-2RS NR C3`, with bore, outside and width in mm. Cage letters are left out of it."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        names = {"cone": ("bore",), "cup": ("outside",)}.get(found.ring_kind, ("bore", "outside", "width"))
        return Reading(str(found), keys={name: found.row.number(name) for name in names})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed bearing: bore, outside and width, with the play that class Normal allows."""
        play = standards.table("bearing-tolerance")
        for row in (*standards.table("bearing-size").rows, *standards.table("inch-taper-set").rows):
            yield _sized(row, play.rows)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Size, form and each kind of letters. A size without a number is compared by each bearing of that size."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Bearing) and isinstance(had, Bearing):
            return _one(wanted, had, standards)
        return _by_readings(wanted, had, standards)


def _one(wanted: Bearing, had: Bearing, standards: Standards) -> FamilyResult:
    if str(wanted) == str(had):
        spelt = {row.word("suffix"): row for row in (*wanted.letters, *had.letters)}
        alike = {row.word("suffix") for row in wanted.letters} == {row.word("suffix") for row in had.letters}
        values = {"needed": str(wanted), "offered": str(had), "size": size_words(wanted.row)}
        return verdict(OK, "bearing-same", values, () if alike else spelt.values())
    return together("bearing", str(wanted), str(had), pieces(wanted, had, standards))


def _by_readings(
    wanted: Bearing | Unreadable, had: Bearing | Unreadable, standards: Standards
) -> FamilyResult:
    """A question, unless no reading goes: then it is a no, whatever the answer."""
    sure = [
        _one(one, other, standards)
        for one in _readings(wanted, standards)
        for other in _readings(had, standards)
    ]
    no = {FamilyState.OFF, FamilyState.TRAP}
    if not sure or any(result.state not in no for result in sure):
        return question(wanted, had)
    trap = any(result.state is FamilyState.TRAP for result in sure)
    values = {"needed": _text(wanted), "offered": _text(had)}
    because = Because(
        "bearing-no-reading-goes",
        values,
        under=tuple(msgspec.structs.replace(result.because, under=()) for result in sure),
    )
    worst = max((result.certainty for result in sure), key=list(type(sure[0].certainty)).index)
    return FamilyResult(FamilyState.TRAP if trap else FamilyState.OFF, because, worst)


def _text(found: Bearing | Unreadable) -> str:
    return found.text if isinstance(found, Unreadable) else str(found)


def _readings(found: Bearing | Unreadable, standards: Standards) -> list[Bearing]:
    if isinstance(found, Bearing):
        return [found]
    again = (read(text, standards) for text in found.readings)
    return [one for one in again if isinstance(one, Bearing)]


def _sized(row: TableRow, play: Iterable[TableRow]) -> Sized:
    rows = tuple(play)
    bore, outside, width = (row.number(name) for name in ("bore", "outside", "width"))
    bands = {
        "inside": Band(bore - _play(rows, "bore", bore), bore, "up"),
        "outside": Band(outside - _play(rows, "outside", outside), outside, "down"),
        "width": Band(width - _play(rows, "width", bore), width, "down"),
    }
    bearing = Bearing(row, {})
    values = {
        "bearing": str(bearing), "form": bearing.form, "size": size_words(row), "certainty": row.certainty.value,
    }  # fmt: skip
    return Sized(
        "bearing",
        str(bearing),
        bands,
        Because("bearing-size", values, (row.origin,), (row.source, "ISO 492")),
    )


def _play(rows: Iterable[TableRow], of: str, size: Decimal) -> Decimal:
    found = [row for row in rows if row.word("of") == of and row.number("over") < size <= row.number("up-to")]
    return found[0].number("tolerance") * _MICRON if found else Decimal(0)


FAMILIES: Final = {"bearing": BearingFamily()}
