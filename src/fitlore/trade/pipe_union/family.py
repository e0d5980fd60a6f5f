"""Pipe unions as a family of standards: thread, flare, pipe and nut have to agree, each by itself."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import PRACTICE, Piece, question, shown, together, verdict
from fitlore.trade.pipe_union.reading import SAME_PIPE, Union, read
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.family import ThreadFamily
from fitlore.trade.thread.reading import read as read_thread
from fitlore.trade.thread.value import Thread, normal

_OK, _OFF, _TRAP, _ASK = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP, FamilyState.UNREADABLE
_PLAY: Final = Decimal("0.05")
"""How far a pipe may be from its nominal outside diameter, in mm (DIN 74234: 0.07 on 4.75 and 6)."""


class PipeUnionFamily:
    """The family of kind `pipe-union`."""

    about = About(
        title="pipe unions",
        standards=("SAE J533", "SAE J512", "SAE J514", "DIN 74234", "ISO 4038", "DIN 3902", "ISO 8434-6"),
        spellings=(
            "M10x1 bubble, 4.75 mm pipe",
            "M10 x 1 ISO bubble flare, plain lead",
            "3/8-24 UNF SAE 45 double flare 3/16 pipe",
            "7/16-20 UNF 37 deg",
            "M14x1.5 24 deg cone 8 mm tube",
            "G1/4 60° cone",
            "M10x1 banjo",
        ),
        not_said=(
            "how deep the port is",
            "the length of the nut",
            "what the pipe is made of",
            "whether the seat is scored",
        ),
        gaps=(
            "the metric double flare of Japanese cars: tellers disagree about its angle",
            "depths of ports and lengths of nuts",
            "compression olives",
        ),
        ended=True,
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `M10x1 bubble, 4.75 mm pipe, plain lead`, with the thread's major diameter and pitch."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        sizes = dimensions(found.thread)
        keys = {"major": round(sizes.major, 4), "pitch": round(sizes.pitch, 4)}
        return Reading(str(found), keys=keys | ({"pipe": found.pipe} if found.pipe is not None else {}))

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed union by its nut's thread, its pipe and, where the form has one, its angle."""
        for row in standards.table("union-size").rows:
            thread = read_thread(row.word("thread"), standards)
            if isinstance(thread, Thread):
                yield _sized(row, thread, standards)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Thread, flare, pipe and nut, each by itself; what the needed one leaves unsaid is not asked of the other."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        values = {"needed": str(wanted), "offered": str(had)}
        if wanted == had or str(wanted) == str(had):
            return verdict(_OK, "pipe-union-same", values)
        threads = ThreadFamily().compare(normal(wanted.thread), normal(had.thread), end, standards)
        if threads.because.code == "thread-seal-thread":
            threads = verdict(_OFF, "pipe-union-taper", values, sources=(PRACTICE,), under=(threads.because,))
        pieces = [Piece("thread", threads), Piece("flare", _flare(wanted, had, standards))]
        if wanted.pipe is not None:
            pieces.append(Piece("pipe", _pipe(wanted.pipe, had.pipe, standards)))
        if wanted.nut or had.nut:
            pieces.append(Piece("nut", _nut(wanted, had)))
        return together("pipe-union", str(wanted), str(had), pieces)


def _flare(wanted: Union, had: Union, standards: Standards) -> FamilyResult:
    table = standards.table("flare-form")
    need, have = table.find(flare=wanted.flare), table.find(flare=had.flare)
    values = {"needed": wanted.flare, "offered": had.flare}
    if wanted.flare == had.flare:
        return verdict(_OK, "pipe-union-flare-same", values)
    tells = [
        Because(
            "pipe-union-tell",
            {"flare": row.word("flare"), "end": row.word("pipe-end"), "seat": row.word("seat")},
        )
        for row in (*have, *need)
    ]
    if "banjo" in (wanted.flare, had.flare):
        return verdict(_OFF, "pipe-union-flare-off", values, (*need, *have), under=tells)
    code = "pipe-union-flare-trap"
    if {wanted.flare, had.flare} == {"double", "single"}:
        code = "pipe-union-single" if had.flare == "single" else "pipe-union-double"
    elif all(row.cell("angle") for row in (*need, *have)):
        code = "pipe-union-angle-trap"
        values |= {
            "needed-angle": "".join(row.cell("angle") for row in need),
            "offered-angle": "".join(row.cell("angle") for row in have),
        }
    return verdict(_TRAP, code, values, (*need, *have), (PRACTICE,), tells)


def _pipe(wanted: Decimal, had: Decimal | None, standards: Standards) -> FamilyResult:
    values = {"needed": f"{shown(wanted)} mm", "offered": "" if had is None else f"{shown(had)} mm"}
    if had is None:
        return verdict(_ASK, "pipe-union-pipe-unsaid", values)
    if abs(wanted - had) <= SAME_PIPE:
        return verdict(_OK, "pipe-union-pipe-same", values)
    rows = [row for row in standards.table("pipe").rows if row.number("outside") in (wanted, had)]
    near = abs(wanted - had) <= wanted / 10
    code = "pipe-union-pipe-trap" if near else "pipe-union-pipe-off"
    return verdict(_TRAP if near else _OFF, code, values, rows, (PRACTICE,))


def _nut(wanted: Union, had: Union) -> FamilyResult:
    values = {"needed": wanted.nut, "offered": had.nut, "flare": wanted.flare}
    if wanted.nut == had.nut or (not wanted.nut and (had.nut, wanted.flare) != ("full thread", "bubble")):
        return verdict(_OK, "pipe-union-nut-same", values)
    if not had.nut:
        return verdict(_ASK, "pipe-union-nut-unsaid", values)
    code = "pipe-union-nut-bottoms" if had.nut == "full thread" else "pipe-union-nut-lead"
    return verdict(_TRAP if had.nut == "full thread" else _OFF, code, values, sources=(PRACTICE,))


def _sized(row: TableRow, thread: Thread, standards: Standards) -> Sized:
    sizes, pipe = dimensions(thread), row.number("pipe")
    bands = {
        "outside": Band(sizes.major - sizes.pitch * Decimal("0.15"), sizes.major, "down"),
        "pitch": Band.around(sizes.pitch),
        "threads-per-inch": Band.around(Decimal("25.4") / sizes.pitch),
        "diameter": Band.around(pipe, _PLAY),
    }
    form = standards.table("flare-form").find(flare=row.word("flare"))
    for one in form:
        if "angle" in one.numbers:
            bands["angle"] = Band.around(one.number("angle"))
    union = Union(thread, row.word("flare"), pipe)
    values = {"union": str(union), "use": row.word("use"), "certainty": row.certainty.value}
    origins, sources = (row.origin, thread.row.origin), (row.source,)
    return Sized("pipe-union", str(union), bands, Because("pipe-union-size", values, origins, sources))


FAMILIES: Final = {"pipe-union": PipeUnionFamily()}
