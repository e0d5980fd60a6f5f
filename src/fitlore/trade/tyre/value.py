"""A tyre as a value, and how it is written."""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from typing import NamedTuple

from fitlore.trade.pieces import shown


class Build(StrEnum):
    """How the cords lie: the letter in the size."""

    RADIAL = "R"
    CROSS_PLY = "-"
    BIAS_BELTED = "B"

    @property
    def word(self) -> str:
        """The trade's word."""
        return {"R": "radial", "-": "cross-ply", "B": "bias-belted"}[self.value]


class Tyre(NamedTuple):
    """A tyre's designation taken apart.

    `width` is in mm, or in inches where `inches` (cross-ply sizes, and flotation sizes with `outside` in inches); letter
    sizes have a `letter` in its place. `profile` is the height as a percentage of the width, None where none is written.
    `rim` is a code (inches), or in mm from 300 on. `old_speed` is the letter in front of R of older tyres.
    """

    width: Decimal
    profile: Decimal | None
    build: Build
    rim: Decimal
    inches: bool = False
    outside: Decimal | None = None
    letter: str = ""
    service: str = ""
    """P, LT, C or T: passenger, light truck, commercial, temporary spare; empty where none is written."""
    old_speed: str = ""
    load: int | None = None
    dual: int | None = None
    speed: str = ""
    plies: int | None = None
    reinforced: bool = False
    snow: bool = False
    implied: str = ""

    @property
    def millimetre_rim(self) -> bool:
        """Whether the rim is one of those with a diameter in mm."""
        return self.rim >= 300

    @property
    def bare(self) -> Tyre:
        """The size alone."""
        return Tyre(
            self.width,
            self.profile,
            self.build,
            self.rim,
            self.inches,
            self.outside,
            self.letter,
            self.service,
        )

    @property
    def size(self) -> str:
        """The size as it is written: `195/65 R 15`, `155 R 13`, `5.60-15`, `31x10.50 R 15 LT`, `FR70-14`."""
        rim = shown(self.rim)
        joint = "-" if self.build is Build.CROSS_PLY else f" {self.old_speed}{self.build} "
        if self.letter:
            return f"{self.letter}{'R' if self.build is Build.RADIAL else ''}{self.profile}-{rim}"
        if self.outside is not None:
            return f"{shown(self.outside)}x{self.width:.2f}{joint}{rim}" + _behind(self.service)
        if self.inches:
            return f"{self.width:.2f}{joint}{rim}" + _behind(self.service)
        width = shown(self.width) + (f"/{shown(self.profile)}" if self.profile is not None else "")
        front = self.service if self.service in ("P", "LT", "T") else ""
        return f"{front}{width}{joint}{rim}" + (" C" if self.service == "C" else "")

    def __str__(self) -> str:
        load = (
            "" if self.load is None else str(self.load) + (f"/{self.dual}" if self.dual is not None else "")
        )
        parts = [self.size, load + self.speed, f"{self.plies} PR" if self.plies else ""]
        parts += ["reinforced" if self.reinforced else "", "M+S" if self.snow else ""]
        return " ".join(part for part in parts if part)


def _behind(service: str) -> str:
    return f" {service}" if service else ""
