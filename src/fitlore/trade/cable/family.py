"""Cable as a family: is there as much copper as was asked for, and was the figure of the same kind?"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.cable.copper import resistance
from fitlore.trade.cable.reading import Cable, read
from fitlore.trade.family import About
from fitlore.trade.held import Held
from fitlore.trade.pieces import PRACTICE, question
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

NOMINAL: Final = Decimal("0.97")
"""Down to which share the copper counts as the nominal size: a standard size is set by its resistance, not its area."""
SOURCES: Final = ("IEC 60028", "ASTM B258")
_TERMINALS: Final = Decimal("2.5")
"""From which share on a thicker cable no longer goes into the old terminals and seals. Common practice."""


class CableFamily:
    """The family of kind `cable`. Needed: the copper that was there. Offered: the cable."""

    about = About(
        title="cable",
        standards=("ISO 6722", "IEC 60228", "IEC 60028", "ASTM B258", "BS 6862"),
        spellings=(
            "1.5 mm2",
            "2,5 mm²",
            "0.75 sq mm",
            "AWG 14",
            "12 AWG",
            "4/0 AWG",
            "14/0.30",
            "28/0,30 mm",
            "14/.012 in",
            "44 strands of 0.30 mm",
            "auto cable 4 mm",
        ),
        not_said=(
            "how long it is: the volts lost follow the length",
            "the insulation and what heat it bears",
            "how many others it is bundled with",
        ),
        gaps=("screened cable and ignition leads", "aluminium", "what a bundle carries"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The cable in one spelling, its copper in mm2 to look by."""
        found = read(text, standards)
        return (
            found
            if isinstance(found, Unreadable)
            else Reading(found.name, keys={"copper": round(found.area, 3)})
        )

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Stranded cable by counting: how many strands, and the diameter of one."""
        for row in standards.table("cable-strands").rows:
            name = f"{row.cell('strands')}/{row.number('strand'):.2f}"
            bands = {
                "strands": Band.around(row.number("strands")),
                "diameter": Band.around(row.number("strand"), Decimal("0.02")),
            }
            yield Sized("cable", name, bands, _size(name, row))

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """More copper serves, less does not; the same figure in another measure is the trap."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("cable", wanted.name, had.name)
        share = had.area / wanted.area
        rows = (*wanted.rows, *had.rows)
        values = {
            "needed-copper": f"{wanted.area:.2f} mm2",
            "offered-copper": f"{had.area:.2f} mm2",
            "share": f"{share * 100:.0f} %",
            "loss": f"{resistance(had.area):.1f} mV",
            "needed-loss": f"{resistance(wanted.area):.1f} mV",
        }
        if share >= NOMINAL:
            thick = share > _TERMINALS
            code = "cable-thick" if thick else "cable-enough"
            held.add(
                "copper",
                FamilyState.OK_WITH_WORK if thick else FamilyState.OK,
                code,
                values,
                rows,
                SOURCES,
                _carried(had, standards),
            )
        elif wanted.figure == had.figure and wanted.unit != had.unit:
            tells = (Because("cable-tell", values, sources=(PRACTICE,)),)
            held.add("copper", FamilyState.TRAP, "cable-figure", values, rows, SOURCES, tells)
        else:
            held.add("copper", FamilyState.OFF, "cable-thin", values, rows, SOURCES, _carried(had, standards))
        return held.result()


def carries(cable: Cable, standards: Standards) -> tuple[Decimal, TableRow] | None:
    """What it carries for good in A, and the row that says so: its own, else the nearest area below; None under all."""
    own = [row for row in cable.rows if "carries" in row.numbers]
    if own:
        return own[0].number("carries"), own[0]
    below = [
        row for row in standards.table("cable-carries").rows if row.number("area") <= cable.area / NOMINAL
    ]
    best = max(below, key=lambda row: row.number("area"), default=None)
    return (best.number("carries"), best) if best is not None else None


def _carried(cable: Cable, standards: Standards) -> tuple[Because, ...]:
    found = carries(cable, standards)
    if found is None:
        return ()
    amps, row = found
    values = {"cable": cable.name, "amps": f"{amps.normalize():f} A", "certainty": row.certainty.value}
    return (Because("cable-carries", values, (row.origin,), (row.source,)),)


def _size(name: str, row: TableRow) -> Because:
    values = {"cable": name, "area": f"{row.cell('area')} mm2", "certainty": row.certainty.value}
    if "carries" in row.numbers:
        values["carries"] = f"{row.cell('carries')} A"
    return Because("cable-size", values, (row.origin,), (row.source,))


FAMILIES: Final = {"cable": CableFamily()}
