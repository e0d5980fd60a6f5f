"""Fuses as a family of standards: the holder decides the form, the cable the rating, and nothing may be above it."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.fuse.reading import Fuse, read
from fitlore.trade.held import Held
from fitlore.trade.pieces import PRACTICE, question, shown
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

STEP: Final = Decimal("1.25")
"""Up to which share of the needed rating a fuse of another series is asked about; its steps are others (8 and 10 A)."""
LEAST: Final = Decimal("0.85")
"""Down to which share a fuse of another series serves; below it blows in ordinary use. Both common practice."""
_SPRINGS: Final = frozenset({"glass 6.3x29.4", "glass 6.3x32"})
"""Glass lengths that the clips of one holder mostly take; the tables' source says so."""


class FuseFamily:
    """The family of kind `fuse`. Needed: what the circuit was given. Offered: the fuse."""

    about = About(
        title="fuses",
        standards=("ISO 8820-3", "DIN 72581-1", "DIN 72581-3", "IEC 60127-2", "SAE J554"),
        spellings=(
            "blade 10 A",
            "7,5 A mini blade fuse",
            "low-profile mini 15A",
            "maxi blade 40 A",
            "red blade fuse",
            "torpedo 8 A",
            "ceramic fuse white 8A",
            "glass 35 A blows",
            "35 A blow glass fuse 6.3 x 30 mm",
            "glass 1/4 x 1 1/4 in carries 15 A",
            "glass 5x20 carries 2 A slow",
            "strip 50 A",
        ),
        not_said=(
            "what cable it guards: the fuse follows the cable, never the consumer",
            "why the old one blew",
            "how well the holder grips",
        ),
        gaps=("bolted and screwed main fuses", "fusible links", "blow times rest on memory"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The fuse in one spelling: its form, its figure, and of a glass one which figure it is."""
        found = read(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found.name)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each blade and ceramic rating, by the sizes of its form over all."""
        forms = {row.word("form"): row for row in standards.table("fuse-forms").rows}
        tables = {
            "mini blade": "fuse-blade",
            "blade": "fuse-blade",
            "maxi blade": "fuse-maxi",
            "torpedo": "fuse-torpedo",
        }
        for form, table in tables.items():
            for row in standards.table(table).rows:
                yield _sized(form, row, forms[form])

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Form, then what both carry, then how quick they are."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("fuse", wanted.name, had.name)
        _form(held, wanted, had)
        _rating(held, wanted, had, standards)
        if held.asks("speed", wanted.speed, had.speed, "letter before the figure: F is quick, T is slow"):
            if wanted.speed == had.speed:
                held.agrees("speed", had.speed)
            else:
                slow = had.speed == "slow"
                state = FamilyState.TRAP if slow else FamilyState.OFF
                held.add(
                    "speed", state, "fuse-too-slow" if slow else "fuse-too-quick", sources=("IEC 60127-2",)
                )
        elif not wanted.speed and had.speed == "slow":
            held.unsaid("speed", "whether the old one is a slow one: letter T, or a thick or coiled wire")
        return held.result()


def _form(held: Held, wanted: Fuse, had: Fuse) -> None:
    """Another form needs another holder: a job for somebody who says so and has done it, never a yes by the table."""
    if wanted.form == had.form or ("glass" in (wanted.form, had.form) and wanted.family == had.family):
        if wanted.form == had.form or had.form != "glass":
            held.agrees("form", had.form)
        else:
            held.unsaid("length", "the length over its caps")
    elif {wanted.form, had.form} == _SPRINGS:
        held.add(
            "length", FamilyState.OK_WITH_WORK, "fuse-clips", sources=("public encyclopaedia table", PRACTICE)
        )
    else:
        code = "fuse-form-off" if wanted.family == had.family else "fuse-holder"
        held.add("form", FamilyState.OFF, code, {"form": had.form})


def _rating(held: Held, wanted: Fuse, had: Fuse, standards: Standards) -> None:
    """What both carry for good. Above is never right; how far below still works depends on the steps of the series."""
    share = had.carries / wanted.carries
    values = {
        "needed-amps": f"{shown(wanted.carries)} A",
        "offered-amps": f"{shown(had.carries)} A",
        "share": f"{share * 100:.0f} %",
    }
    rows = (*wanted.rows, *had.rows)
    same_series = wanted.family == had.family and wanted.blows == had.blows
    if share == 1:
        held.agrees("rating", values["offered-amps"], rows)
    elif wanted.blows != had.blows and wanted.amps == had.amps:
        code = "fuse-basis-over" if share > 1 else "fuse-basis-under"
        held.add("rating", FamilyState.TRAP, code, values, rows, under=_bench(values))
    elif share > STEP or (share > 1 and same_series):
        held.add("rating", FamilyState.TRAP, "fuse-over", values, rows, under=_lasts(had, values, standards))
    elif share > 1:
        held.add("rating", FamilyState.UNREADABLE, "fuse-next-step", values, rows)
    elif same_series or share < LEAST:
        held.add("rating", FamilyState.OFF, "fuse-under", values, rows)
    else:
        held.add("rating", FamilyState.OK, "fuse-little-under", values, rows)


def _bench(values: dict[str, str]) -> tuple[Because, ...]:
    return (Because("fuse-tell-basis", values, sources=(PRACTICE,)),)


def _lasts(had: Fuse, values: dict[str, str], standards: Standards) -> tuple[Because, ...]:
    """How long the offered one may stand a third above its marking, while the cable is heated."""
    row = next(iter(standards.table("fuse-blow-times").find(share="135")), None)
    if row is None or had.family != "blade":
        return _bench(values)
    told = {
        "amps": f"{shown(had.carries * row.number('share') / 100)} A",
        "seconds": f"{row.cell('most')} s",
        "certainty": row.certainty.value,
    }
    return (*_bench(values), Because("fuse-lasts", told, (row.origin,), (row.source,)))


def _sized(form: str, row: TableRow, sizes: TableRow) -> Sized:
    play = Decimal("0.4")
    names = ("length", "diameter", "thickness", "height")
    bands = {name: Band.around(sizes.number(name), play) for name in names if name in sizes.numbers}
    name = f"{form} {row.cell('amps')} A"
    values = {"fuse": name, "colour": row.word("colour"), "certainty": row.certainty.value}
    return Sized("fuse", name, bands, Because("fuse-size", values, (row.origin, sizes.origin), (row.source,)))


FAMILIES: Final = {"fuse": FuseFamily()}
