"""Wheel nuts and wheel bolts as a family of standards: thread, hand, seat, size of seat and length, each by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import PRACTICE, Piece, question, shown, together, verdict
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.family import ThreadFamily
from fitlore.trade.thread.reading import read as read_thread
from fitlore.trade.thread.value import Thread, normal
from fitlore.trade.wheel_fixing.reading import EXAMPLES, Fixing, read

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
_SHORT, _LONG, _NUT_SHORT = Decimal(1), Decimal(2), Decimal(2)
"""How much shorter or longer a bolt from its seat, and how much shorter a nut's thread may be, in mm: common practice."""
_SEAT_PLAY, _SLEEVE_PLAY, _SLEEVE_LOOSE, _HEX_PLAY = (
    Decimal("0.5"),
    Decimal("0.05"),
    Decimal("0.2"),
    Decimal("0.3"),
)


class WheelFixingFamily:
    """The family of kind `wheel-fixing`."""

    about = About(
        title="wheel nuts and wheel bolts",
        standards=("DIN 74361", "ISO 261", "ASME B1.1"),
        spellings=(
            *EXAMPLES,
            "M12x1.25 60° taper wheel nut 19 mm hex",
            "wheel bolt M12 x 1,5 ball R12 26 mm long 17 mm A/F",
            "1/2 UNF lug nut sleeve 0.520 in",
            "7/16-20 UNF wheel nut cone 60 seat 20 mm length 16 mm hexagon 19 mm",
            "M12x1.5 flat wheel nut",
        ),
        not_said=(
            "the depth of the cone in the wheel",
            "how far the stud comes through",
            "the strength",
            "the torque",
        ),
        gaps=("truck wheels", "two-piece bolts with a floating cone"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `wheel nut M12x1.5, cone 60, seat 20 mm, length 16 mm, hexagon 19 mm`."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        sizes = dimensions(found.thread)
        return Reading(str(found), keys={"major": round(sizes.major, 4), "pitch": round(sizes.pitch, 4)})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """A bolt of each usual thread with each form of seat: thread, and angle of a cone."""
        for row in standards.table("wheel-thread").rows:
            thread = read_thread(row.word("thread"), standards)
            for seat in standards.table("wheel-seat").rows:
                if seat.word("seat") == "sleeve" or not isinstance(thread, Thread):
                    continue
                sizes, made = dimensions(thread), Fixing("bolt", thread, seat.word("seat"))
                bands = {
                    "outside": Band(sizes.major - sizes.pitch * Decimal("0.15"), sizes.major, "down"),
                    "pitch": Band.around(sizes.pitch),
                    "threads-per-inch": Band.around(Decimal("25.4") / sizes.pitch),
                }
                if "angle" in seat.numbers:
                    bands["angle"] = Band.around(seat.number("angle"))
                origins, sources = (row.origin, seat.origin), (row.source, seat.source)
                values = {"fixing": str(made), "tell": seat.word("tell")}
                yield Sized(
                    "wheel-fixing", str(made), bands, Because("wheel-fixing-size", values, origins, sources)
                )

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Each piece by itself. The half of the joint is the designation's own (nut or bolt); `end` is not needed."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        values = {"needed": str(wanted), "offered": str(had)}
        if str(wanted) == str(had):
            return verdict(_OK, "wheel-fixing-same", values)
        if wanted.half != had.half:
            return verdict(_OFF, "wheel-fixing-half", values)
        own = End.FEMALE if had.half == "nut" else End.MALE
        threads = ThreadFamily().compare(normal(wanted.thread), normal(had.thread), own, standards)
        pieces = [Piece("thread", threads), Piece("seat", _seat(wanted, had, standards))]
        checks: tuple[tuple[str, Decimal | None, Decimal | None, _Check], ...] = (
            ("sleeve", wanted.sleeve, had.sleeve, _sleeve),
            ("size of seat", wanted.seat_size, had.seat_size, _seat_size),
            ("length", wanted.length, had.length, _nut_length if had.half == "nut" else _bolt_length),
            ("hexagon", wanted.hexagon, had.hexagon, _hexagon),
        )
        for name, need, have, check in checks:
            if need is None and name == "length" and had.half == "bolt" and have is not None:
                values = {"needed": str(wanted), "offered": str(had), "what": "length"}
                pieces.append(Piece("length", verdict(_ASK, "wheel-length-open", values, (), (PRACTICE,))))
            if need is None and name == "length" and had.half == "nut" and have is not None:
                need = have  # too few turns are too few, asked or not
            if need is None or (name == "sleeve" and have is None):
                continue
            sizes = {
                "what": name,
                "needed": f"{shown(need)} mm",
                "offered": "" if have is None else f"{shown(have)} mm",
            }
            made = (
                verdict(_ASK, "wheel-fixing-unsaid", sizes) if have is None else check(need, have, had, sizes)
            )
            pieces.append(Piece(name, made))
        return together("wheel-fixing", str(wanted), str(had), pieces)


_Check = Callable[[Decimal, Decimal, Fixing, dict[str, str]], FamilyResult]


def _seat(wanted: Fixing, had: Fixing, standards: Standards) -> FamilyResult:
    values = {"needed": wanted.seat, "offered": had.seat}
    if wanted.seat == had.seat:
        return verdict(_OK, "wheel-fixing-seat-same", values)
    table = standards.table("wheel-seat")
    rows = (*table.find(seat=had.seat), *table.find(seat=wanted.seat))
    tells = [
        Because("wheel-fixing-tell", {"seat": row.word("seat"), "tell": row.word("tell")}) for row in rows
    ]
    kinds = wanted.seat.split()[0], had.seat.split()[0]
    code = "wheel-fixing-seat-trap" if kinds[0] != kinds[1] else f"wheel-fixing-{kinds[0]}-trap"
    return verdict(_TRAP, code, values, rows, (PRACTICE,), tells)


def _sleeve(need: Decimal, have: Decimal, fixing: Fixing, values: dict[str, str]) -> FamilyResult:
    if have > need + _SLEEVE_PLAY:
        return verdict(_OFF, "wheel-fixing-sleeve-big", values, sources=(PRACTICE,))
    if have < need - _SLEEVE_LOOSE:
        return verdict(_TRAP, "wheel-fixing-sleeve-loose", values, sources=(PRACTICE,))
    return verdict(_OK, "wheel-fixing-size-ok", values)


def _seat_size(need: Decimal, have: Decimal, fixing: Fixing, values: dict[str, str]) -> FamilyResult:
    if have < need - _SEAT_PLAY:
        return verdict(_TRAP, "wheel-fixing-seat-small", values, sources=(PRACTICE,))
    if have > need + _SEAT_PLAY:
        return verdict(_OFF, "wheel-fixing-seat-big", values, sources=(PRACTICE,))
    return verdict(_OK, "wheel-fixing-size-ok", values)


def _bolt_length(need: Decimal, have: Decimal, fixing: Fixing, values: dict[str, str]) -> FamilyResult:
    if have < need - _SHORT:
        lost = (need - have) / dimensions(fixing.thread).pitch
        return verdict(_TRAP, "wheel-fixing-short", values | {"turns": f"{lost:.1f}"}, sources=(PRACTICE,))
    if have > need + _LONG:
        return verdict(_TRAP, "wheel-fixing-long", values, sources=(PRACTICE,))
    return verdict(_OK, "wheel-fixing-size-ok", values)


def _nut_length(need: Decimal, have: Decimal, fixing: Fixing, values: dict[str, str]) -> FamilyResult:
    sizes = dimensions(fixing.thread)
    least = LEAST_HOLD * sizes.major
    if have < least:
        turns = {"turns": f"{have / sizes.pitch:.1f}", "least": f"{least / sizes.pitch:.1f}"}
        return verdict(_TRAP, "wheel-fixing-nut-few", values | turns, sources=(PRACTICE,))
    if have < need - _NUT_SHORT:
        return verdict(_OFF, "wheel-fixing-nut-short", values, sources=(PRACTICE,))
    return verdict(_OK, "wheel-fixing-size-ok", values)


def _hexagon(need: Decimal, have: Decimal, fixing: Fixing, values: dict[str, str]) -> FamilyResult:
    same = abs(need - have) <= _HEX_PLAY
    return verdict(_OK if same else _WORK, "wheel-fixing-size-ok" if same else "wheel-fixing-hexagon", values)


LEAST_HOLD: Final = Decimal("0.8")
"""Thread that has to hold in steel, in diameters: the height of a full nut (ISO 4032: 0.84 to 0.9 d); common practice."""

FAMILIES: Final = {"wheel-fixing": WheelFixingFamily()}
