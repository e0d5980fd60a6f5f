"""Hoses and hose clips as families: the bore on its stub, what runs through it, the clip's range over its outside."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.hose.clip import EXAMPLES as CLIPS
from fitlore.trade.hose.clip import Clip, compare_clips, read_clip
from fitlore.trade.hose.hoses import EXAMPLES, compare_hoses, read_hose
from fitlore.trade.pieces import question
from fitlore.trade.result import FamilyResult, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow


class HoseFamily:
    """The family of kind `hose`. Needed: the hose that was on, or that the stub asks for."""

    about = About(
        title="hoses for water, air and vapour",
        standards=("ISO 1307",),
        spellings=(
            *EXAMPLES,
            '5/8" heater hose',
            "1/4 in vacuum hose",
            "coolant hose 32 mm bore",
            "radiator hose bore 1 1/4 in, 500 mm long",
            "washer hose 4 mm",
        ),
        not_said=("its bends", "how stiff it is against suction", "how old it is", "the bead of the stub"),
        gaps=("fuel hoses: their standard and type decide", "brake hoses", "oil and steering hoses", "bends"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `hose, coolant, bore 32 mm, outside 40 mm, length 500 mm`, with its bore in mm."""
        found = read_hose(text, standards)
        if isinstance(found, Unreadable):
            return found
        return Reading(str(found), keys={"bore": found.figures["bore"]})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed bore, by its inside."""
        for row in standards.table("hose-bore").rows:
            band = {"inside": Band(row.number("least"), row.number("most"))}
            yield _sized("hose", f"hose, bore {row.cell('bore')} mm", band, row)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Bore, use, outside and length."""
        wanted, had = read_hose(needed, standards), read_hose(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        return compare_hoses(wanted, had, standards)


class HoseClipFamily:
    """The family of kind `hose-clip`. Needed: a clip, or the hose it is to hold (`hose clip for 40 mm`)."""

    about = About(
        title="hose clips",
        standards=("SAE J1508", "DIN 3017-1", "DIN 3021-1"),
        spellings=(
            *CLIPS,
            "DIN 3017 worm drive clip 32-50x9",
            "worm-drive hose clip 3/4 - 1 1/8 in",
            "SAE J1508 size 10 hose clamp",
            "spring band clip 23 mm",
            "one-ear clip for 15 mm hose",
            "hose clip 14..16 mm rolled edge, 9 mm wide",
        ),
        not_said=("what it is made of", "how often it was used", "the torque"),
        gaps=("ranges of ear clips", "bands of DIN 3017-1 by size", "sizes of DIN 3021-1 over 29 mm"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `hose clip 32-50 mm, worm drive, band 9 mm`, or `hose clip for 23 mm, spring`."""
        found = read_clip(text, standards)
        return found if isinstance(found, Unreadable) else Reading(str(found), keys=_ends(found))

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Worm drive clips by the hose they hold, spring clips by their inside as they come."""
        for row in standards.table("clip-range").rows:
            clip = Clip(row.number("low"), row.number("high"), "worm drive")
            yield _sized("hose-clip", str(clip), {"inside": Band(clip.low, clip.high)}, row)
        for row in standards.table("clip-spring").rows:
            clip = Clip(row.number("hose"), row.number("hose"), "spring")
            bands = {"inside": Band.around(row.number("free"), Decimal("0.3"), "up")}
            yield _sized("hose-clip", str(clip), bands, row)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """What it holds, its form and its band."""
        wanted, had = read_clip(needed, standards), read_clip(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        return compare_clips(wanted, had, standards)


def _ends(clip: Clip) -> dict[str, Decimal]:
    return {"low": clip.low, "high": clip.high}


def _sized(kind: str, designation: str, bands: dict[str, Band], row: TableRow) -> Sized:
    values = {"size": designation, "number": row.word("number"), "certainty": row.certainty.value}
    return Sized(kind, designation, bands, Because(f"{kind}-size", values, (row.origin,), (row.source,)))


FAMILIES: Final = {"hose": HoseFamily(), "hose-clip": HoseClipFamily()}
