"""Bolts as a family of standards: thread, length, strength, head and shank, each by itself."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.bolt.reading import EXAMPLES, Bolt, read
from fitlore.trade.family import About
from fitlore.trade.pieces import PRACTICE, Piece, question, shown, together, verdict
from fitlore.trade.property_class.family import PropertyClassFamily
from fitlore.trade.property_class.strength import proof_load, stress_area
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.family import ThreadFamily
from fitlore.trade.thread.value import normal

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
_SHANK_PLAY: Final = Decimal("0.1")
"""How far a locating shank may be from the needed one, in mm: common practice."""


class BoltFamily:
    """The family of kind `bolt`."""

    about = About(
        title="bolts and screws",
        standards=("ISO 4014", "ISO 4017", "ISO 4759-1", "ISO 898-1", "SAE J429"),
        spellings=(
            *EXAMPLES,
            "M8 x 30",
            "hexagon bolt M10 × 1,5 × 45 8.8",
            "M12x1.75 x 50 mm, 10.9, flange head",
            "M6x20 socket head A2-70",
            "3/8-24 UNF x 1 in setscrew",
            "bolt 7/16-20 UNF shank 11.1 mm 1 1/4 in long",
        ),
        not_said=(
            "how much of it is threaded, unless it is said",
            "the coating",
            "whether it has been stretched",
        ),
        gaps=("forms of point and of locking", "lengths that a standard lists for a head"),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `M8x1.25 x 25 mm, 8.8, hexagon head`."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        sizes = dimensions(found.thread)
        keys = {"major": round(sizes.major, 4), "pitch": round(sizes.pitch, 4)}
        return Reading(
            str(found), found.thread.implied, keys | ({"length": found.length} if found.length else {})
        )

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: a bolt is told by its thread and its hexagon, which are families of their own."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Each piece that the needed one says by itself; a bolt is the male half, so that `end` is not needed."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        values = {"needed": str(wanted), "offered": str(had)}
        if str(wanted) == str(had):
            return verdict(_OK, "bolt-same", values, under=_proof(had, standards))
        threads = ThreadFamily().compare(normal(wanted.thread), normal(had.thread), End.MALE, standards)
        pieces = [Piece("thread", threads), *_pieces(wanted, had, standards)]
        return together("bolt", str(wanted), str(had), pieces)


def _pieces(wanted: Bolt, had: Bolt, standards: Standards) -> Iterable[Piece]:
    if wanted.length is not None:
        yield Piece("length", _length(wanted.length, had.length, had, standards))
    if wanted.strength:
        yield Piece("strength", _strength(wanted, had, standards))
    if wanted.head:
        yield Piece("head", _head(wanted.head, had.head))
    elif had.head == "countersunk head":
        yield Piece("head", verdict(_ASK, "bolt-head-unasked", {"offered": had.head}, sources=(PRACTICE,)))
    major = dimensions(had.thread).major
    if wanted.shank is not None:
        yield Piece("shank", _shank(wanted.shank, had))
    elif had.shank is not None and had.shank > major + _SHANK_PLAY:
        values = {"offered": f"{shown(had.shank)} mm", "thread": f"{shown(major)} mm"}
        yield Piece("shank", verdict(_ASK, "bolt-shank-unasked", values, sources=(PRACTICE,)))
    if wanted.full and not had.full:
        yield Piece("threaded length", _unsaid("threaded length", "threaded to the head"))


def _unsaid(what: str, needed: str) -> FamilyResult:
    return verdict(_ASK, "bolt-unsaid", {"what": what, "needed": needed})


def _length(need: Decimal, have: Decimal | None, bolt: Bolt, standards: Standards) -> FamilyResult:
    if have is None:
        return _unsaid("length", f"{shown(need)} mm")
    pitch = dimensions(bolt.thread).pitch
    values = {
        "needed": f"{shown(need)} mm",
        "offered": f"{shown(have)} mm",
        "turns": f"{abs(need - have) / pitch:.1f}",
    }
    rows = [
        row for row in standards.table("bolt-length").rows if row.number("over") < need <= row.number("up-to")
    ]
    play = rows[0].number("play") if rows else Decimal(0)
    if abs(need - have) <= play:
        return verdict(_OK, "bolt-length-ok", values, rows if need != have else ())
    return verdict(_OFF, "bolt-long" if have > need else "bolt-short", values, rows, (PRACTICE,))


def _strength(wanted: Bolt, had: Bolt, standards: Standards) -> FamilyResult:
    if not had.strength:
        return _unsaid("strength", wanted.strength)
    return PropertyClassFamily().compare(wanted.strength, had.strength, End.MALE, standards)


def _head(need: str, have: str) -> FamilyResult:
    values = {"needed": need, "offered": have}
    if not have:
        return _unsaid("head", need)
    if need == have:
        return verdict(_OK, "bolt-head-ok", values)
    sunk = "countersunk head" in (need, have)
    return verdict(
        _OFF if sunk else _WORK, "bolt-head-off" if sunk else "bolt-head-work", values, sources=(PRACTICE,)
    )


def _shank(need: Decimal, had: Bolt) -> FamilyResult:
    if had.shank is None and not had.full:
        return _unsaid("shank", f"{shown(need)} mm")
    have = Decimal(0) if had.shank is None else had.shank
    values = {"needed": f"{shown(need)} mm", "offered": f"{shown(have)} mm"}
    if had.shank is None:
        return verdict(_TRAP, "bolt-no-shank", values, sources=(PRACTICE,))
    if abs(need - have) <= _SHANK_PLAY:
        return verdict(_OK, "bolt-shank-ok", values)
    if have < need:
        return verdict(_TRAP, "bolt-shank-thin", values, sources=(PRACTICE,))
    return verdict(_OFF, "bolt-shank-thick", values, sources=(PRACTICE,))


def _proof(bolt: Bolt, standards: Standards) -> tuple[Because, ...]:
    load = proof_load(bolt.thread, bolt.strength, standards) if bolt.strength else None
    if load is None:
        return ()
    area = f"{stress_area(bolt.thread):.1f} mm2"
    values = {"bolt": f"{normal(bolt.thread)} {bolt.strength}", "area": area, "load": f"{load / 1000:.1f} kN"}
    return (Because("bolt-proof", values, sources=("ISO 898-1",)),)


FAMILIES: Final = {"bolt": BoltFamily()}
