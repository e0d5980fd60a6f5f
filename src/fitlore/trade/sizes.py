"""What a family offers to the one who measures: each listed size with the bands its measures lie in."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final, NamedTuple

import msgspec

from fitlore.model.because import Because


class Measure(NamedTuple):
    """A name by which things are measured: its base unit, and the words people say for it, the first for showing."""

    unit: str
    said: tuple[str, ...]


MEASURES: Final[Mapping[str, Measure]] = {
    "outside": Measure(
        "mm", ("outside", "outer", "od", "o/d", "outside diameter", "major", "across the crests")
    ),
    "inside": Measure("mm", ("inside", "inner", "bore", "id", "i/d", "inside diameter")),
    "width": Measure("mm", ("wide", "width")),
    "thickness": Measure("mm", ("thick", "thickness", "section", "cord")),
    "length": Measure("mm", ("long", "length")),
    "height": Measure("mm", ("high", "tall", "height")),
    "diameter": Measure("mm", ("diameter", "dia", "across")),
    "pitch": Measure("mm", ("pitch", "mm pitch")),
    "threads-per-inch": Measure("1", ("threads to the inch", "to the inch", "tpi", "threads per inch")),
    "angle": Measure("deg", ("angle", "degrees", "degree", "deg")),
    "across-flats": Measure("mm", ("across flats", "a/f", "af", "spanner")),
    "holes": Measure("1", ("holes", "studs", "bolts")),
    "hole-centres": Measure("mm", ("between hole centres", "hole centres", "centre to centre", "apart")),
    "hole-gap": Measure("mm", ("across two holes", "between two holes", "hole to hole")),
    "ribs": Measure("1", ("ribs",)),
    "strands": Measure("1", ("strands", "strand", "wires")),
}
"""Measures by name. A family may use only these names; add one here where none of them is meant."""


class Band(NamedTuple):
    """Where a measure of a sound specimen lies, both ends included, in the measure's base unit.

    `wears` says which way a used one may be outside of the band: `down`, `up`, or neither.
    """

    low: Decimal
    high: Decimal
    wears: str = ""
    most: Decimal | None = None
    """How far a used one may be outside at most; none: what is usual (`trade.identify`)."""
    unit: str = ""
    """The base unit; empty for that of the measure of this name."""

    @staticmethod
    def around(value: Decimal, play: Decimal = Decimal(0), wears: str = "") -> Band:
        """A band of equal play both ways."""
        return Band(value - play, value + play, wears)


class Sized(msgspec.Struct, frozen=True):
    """One listed size: its designation in normal form, its measures, and where they are from (the row, the formula)."""

    kind: str
    designation: str
    bands: dict[str, Band]
    because: Because
