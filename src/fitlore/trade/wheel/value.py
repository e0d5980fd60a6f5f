"""A wheel as a value, how it is written, and what follows from its figures by geometry."""

from __future__ import annotations

from decimal import Decimal
from math import pi, sin
from typing import NamedTuple

from fitlore.trade.pieces import INCH, shown


class Circle(NamedTuple):
    """The circle through the centres of the bolt holes; its diameter in mm."""

    holes: int
    diameter: Decimal

    def __str__(self) -> str:
        return f"{self.holes}x{shown(self.diameter)}"

    @property
    def spacing(self) -> Decimal:
        """From centre to centre of neighbouring holes, in mm: the chord, diameter times sin(180 degrees / holes)."""
        return self.diameter * Decimal(sin(pi / self.holes))


class Rim(NamedTuple):
    """Width between the flanges in inches (or in mm where the diameter is), flange letters, diameter, hump letters.

    The diameter is a code (inches), or in mm from 300 on.
    """

    width: Decimal
    flange: str
    diameter: Decimal
    hump: str = ""

    @property
    def millimetres(self) -> bool:
        """Whether the diameter is in mm."""
        return self.diameter >= 300

    @property
    def across(self) -> Decimal:
        """The diameter in mm, as the code has it: 25.4 mm for one."""
        return self.diameter if self.millimetres else self.diameter * INCH

    @property
    def broad(self) -> Decimal:
        """The width in mm."""
        return self.width if self.millimetres else self.width * INCH

    def __str__(self) -> str:
        return f"{shown(self.width)}{self.flange}x{shown(self.diameter)}" + (
            f" {self.hump}" if self.hump else ""
        )


class Wheel(NamedTuple):
    """A wheel's designation taken apart; lengths in mm, what is not said is None or empty.

    `offset` is from the middle of the rim to the face that lies on the hub, positive where the face is further out.
    """

    rim: Rim | None = None
    circle: Circle | None = None
    offset: Decimal | None = None
    bore: Decimal | None = None
    seat: str = ""
    load: Decimal | None = None

    def __str__(self) -> str:
        parts = [str(self.rim) if self.rim else "", "" if self.offset is None else f"ET{shown(self.offset)}"]
        parts += [
            str(self.circle) if self.circle else "",
            "" if self.bore is None else f"bore {shown(self.bore)}",
        ]
        parts += [self.seat, "" if self.load is None else f"load {shown(self.load)} kg"]
        return " ".join(part for part in parts if part)


class Moved(NamedTuple):
    """How far the edges of the rim lie from those of another one, in mm: inwards to the strut, outwards to the wing."""

    inwards: Decimal
    outwards: Decimal


def moved(before: Rim, offset_before: Decimal, now: Rim, offset_now: Decimal) -> Moved:
    """Half of what the rim is wider goes to each side; what the offset grows goes inwards. Plain geometry."""
    half, more = (now.broad - before.broad) / 2, offset_now - offset_before
    return Moved(half + more, half - more)
