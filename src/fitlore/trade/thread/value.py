"""A thread as a value: which row of the tables it is, which hand it has, and how it is written."""

from __future__ import annotations

from enum import Enum

import msgspec

from fitlore.trade.thread.rows import FORMS, METRIC, TAPER_55, Family, Form, ThreadRow, plain


class Hand(Enum):
    """Which way it turns in: right unless said."""

    RIGHT = "right"
    LEFT = "left"


class Thread(msgspec.Struct, frozen=True, omit_defaults=True):
    """One thread: a row of the tables, the letters it is called by, its hand, its tolerance class as written.

    `family` differs from the row's only for pipe: Rc, Rp and R share rows, so do NPT and NPTF. `implied` names what the
    text did not say and the standard fills in: `coarse-pitch` (M10: ISO 965-1) or `series` (3/8-24: only UNF has it).
    """

    row: ThreadRow
    family: Family
    hand: Hand = Hand.RIGHT
    tolerance: str = ""
    implied: str = ""

    @property
    def form(self) -> Form:
        """The profile its series has."""
        return FORMS[self.family]


def normal(thread: Thread) -> str:
    """The one way this program writes a thread: reading it gives the thread back, with nothing implied.

    `M10x1`, `3/8-24 UNF`, `1/4-20 BSW`, `2 BA`, `G1/8`, `Rc1/8`, `1/8-27 NPT`; then the tolerance class and `LH`.
    """
    return _designation(thread) + _tolerance(thread) + (" LH" if thread.hand is Hand.LEFT else "")


def _designation(thread: Thread) -> str:
    row, letters = thread.row, thread.family.value
    if row.family in METRIC:
        return f"M{row.size}x{plain(row.pitch_mm)}"
    if row.family is Family.BA:
        return f"{row.size} BA"
    if row.family is Family.G or row.family in TAPER_55:
        return f"{letters}{row.size}"
    return f"{row.size}-{plain(row.tpi or row.pitch_mm)} {letters}"


def _tolerance(thread: Thread) -> str:
    if not thread.tolerance:
        return ""
    return (" " if thread.family is Family.G else "-") + thread.tolerance
