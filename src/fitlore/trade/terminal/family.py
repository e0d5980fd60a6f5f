"""Terminals as families: does it go on and stay, and is it the same point of the circuit."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.held import Held
from fitlore.trade.pieces import question, shown, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow
from fitlore.trade.terminal.reading import Terminal, read, read_number

LOOSE: Final = Decimal("0.5")
"""By how many mm a bullet may be too thin and still seem to hold. Common practice."""
_RING_TRAP: Final = Decimal("2.5")
"""By how many mm a ring may be too big and still seem to sit under its nut. Common practice."""


class TerminalFamily:
    """The family of kind `terminal`. Needed: what the loom was made for. Offered: what the part has."""

    about = About(
        title="terminals by size",
        standards=("ISO 8092-1", "IEC 61210", "DIN 46244", "ISO 273"),
        spellings=(
            "tab 6.3x0.8",
            "6,3 mm blade",
            "1/4 in blade terminal",
            ".250 female",
            "sleeve 4.8 × 0.8",
            "ring M6",
            "6.4 mm ring terminal",
            "eyelet for M8 stud",
            "bullet 4.7 mm",
            "3/16 bullet",
            "3.9 mm bullet socket",
        ),
        not_said=("the wire it is crimped for", "how hard it grips", "whether it is locked or sealed"),
        gaps=("round pins of multi-plugs", "the current a tab carries depends on its grip and is not judged"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The terminal in one spelling, its size in mm to look by."""
        found = read(text, standards)
        return found if isinstance(found, Unreadable) else Reading(found.name, keys={"size": found.size})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Tabs by width and thickness, rings by the hole, bullets by the diameter."""
        for row in standards.table("terminal-tabs").rows:
            name = f"tab {row.cell('width')}x{row.cell('thickness')}"
            bands = {
                "width": Band.around(row.number("width"), Decimal("0.15")),
                "thickness": Band.around(row.number("thickness"), Decimal("0.05")),
            }
            yield Sized("terminal", name, bands, _size(name, row))
        for row in standards.table("terminal-rings").rows:
            name = f"ring {row.word('stud')}"
            bands = {"inside": Band.around(row.number("hole"), Decimal("0.2"))}
            yield Sized("terminal", name, bands, _size(name, row))
        for row in standards.table("terminal-bullets").rows:
            name = f"bullet {row.cell('diameter')}"
            bands = {"diameter": Band.around(row.number("diameter"), Decimal("0.1"))}
            yield Sized("terminal", name, bands, _size(name, row))

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """The form, the size, of small tabs the thickness."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("terminal", wanted.name, had.name)
        if wanted.form != had.form:
            held.add("form", FamilyState.OFF, "terminal-form-off", {"form": had.form})
        else:
            _size_piece(held, wanted, had)
        return held.result()


def _size_piece(held: Held, wanted: Terminal, had: Terminal) -> None:
    rows = (*wanted.rows, *had.rows)
    values = {
        "needed-size": f"{shown(wanted.size)} mm",
        "offered-size": f"{shown(had.size)} mm",
        "gap": f"{shown(abs(had.size - wanted.size))} mm",
    }
    gap = had.size - wanted.size
    if not gap:
        held.agrees("size", values["offered-size"], rows)
        if held.asks("thickness", wanted.thickness, had.thickness, "caliper across the tab") and (
            wanted.thickness != had.thickness
        ):
            thin = (wanted.thickness or 0) > (had.thickness or 0)
            loose = thin if wanted.form == "tab" else not thin
            state = FamilyState.TRAP if loose else FamilyState.OFF
            held.add("thickness", state, "terminal-loose" if loose else "terminal-tight", values, rows)
        return
    thin_bullet = wanted.form == "bullet" and -LOOSE <= gap < 0
    wide_socket = wanted.form == "socket" and 0 < gap <= LOOSE
    wide_ring = wanted.form == "ring" and 0 < gap <= _RING_TRAP
    if thin_bullet or wide_socket:
        held.add("size", FamilyState.TRAP, "terminal-loose", values, rows)
    elif wide_ring:
        held.add("size", FamilyState.TRAP, "terminal-ring-wide", values, rows)
    else:
        held.add("size", FamilyState.OFF, "terminal-size-off", values, rows)


def _size(name: str, row: TableRow) -> Because:
    values = {"terminal": name, "certainty": row.certainty.value}
    return Because("terminal-size", values, (row.origin,), (row.source,))


class TerminalNumberFamily:
    """The family of kind `terminal-number`. Needed: the wire's number. Offered: that of the terminal it would go to."""

    about = About(
        title="numbers of terminals",
        standards=("DIN 72552",),
        spellings=(
            "30",
            "terminal 15",
            "Kl. 87a",
            "d+",
            "old 54L",
            "D+/61",
            "british C1",
            "old british relay C3",
        ),
        not_said=("the colour of the wire", "the fuse before it", "whether somebody has moved it"),
        gaps=("numbers of one maker", "multi-plugs are counted by pin and not by DIN 72552"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The number in use today."""
        found = read_number(text, standards)
        return found if isinstance(found, Unreadable) else Reading(f"terminal {found.word('number')}")

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: a number cannot be measured."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """The same point, a point that looks like it, or another."""
        wanted, had = read_number(needed, standards), read_number(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        pair = (wanted.word("number"), had.word("number"))
        values = {
            "needed": pair[0],
            "offered": pair[1],
            "needed-is": wanted.word("meaning"),
            "offered-is": had.word("meaning"),
        }
        if pair[0] == pair[1]:
            return verdict(FamilyState.OK, "terminal-number-same", values)
        if rows := _pair("terminal-equal", pair, standards):
            return verdict(FamilyState.OK, "terminal-number-equal", values, rows)
        if rows := _pair("terminal-near", pair, standards):
            told = values | {"why": rows[0].word("why")}
            tells = (Because("terminal-number-tell", told, (rows[0].origin,), (rows[0].source,)),)
            return verdict(FamilyState.TRAP, "terminal-number-trap", told, (wanted, had, *rows), under=tells)
        if _figure(pair[0]) and _figure(pair[0]) == _figure(pair[1]):
            told = values | {"why": f"{had.word('meaning')} is not {wanted.word('meaning')}"}
            return verdict(FamilyState.TRAP, "terminal-number-trap", told, (wanted, had))
        return verdict(FamilyState.OFF, "terminal-number-off", values, (wanted, had))


def _pair(section: str, pair: tuple[str, str], standards: Standards) -> tuple[TableRow, ...]:
    """The row of two numbers, whichever of them it names first."""
    table = standards.table(section)
    return table.find(one=pair[0], other=pair[1]) or table.find(one=pair[1], other=pair[0])


def _figure(number: str) -> str:
    return "".join(sign for sign in number if sign.isdigit())


FAMILIES: Final = {"terminal": TerminalFamily(), "terminal-number": TerminalNumberFamily()}
