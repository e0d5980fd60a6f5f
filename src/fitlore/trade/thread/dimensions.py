"""Basic dimensions of a thread, worked out from its row by the formulas of its standard."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

import msgspec

from fitlore.trade.thread.rows import INCH, NATIONAL_PIPE, Family
from fitlore.trade.thread.value import Thread

# Shares of the pitch. ISO 68-1: H = sqrt(3)/2 P, and d2 = d - 3/4 H, D1 = d - 5/4 H, d3 = d - 17/12 H.
_PITCH_60: Final = Decimal("0.649519052838")
_MINOR_60: Final = Decimal("1.082531754731")
_ROOT_60: Final = Decimal("1.226869322028")
_DEPTH_55: Final = Decimal("0.640327")
"""BS 84: depth 2/3 of H = 0.960491 P."""
_DEPTH_BA: Final = Decimal("0.6")
"""BS 93."""
_DEPTH_NPT: Final = Decimal("0.8")
"""ASME B1.20.1: height of the thread, over the pitch diameter's half of it on either side."""

_TANGENTS: Final = {
    Decimal(60): Decimal("0.577350269190"),
    Decimal(55): Decimal("0.520567050552"),
    Decimal("47.5"): Decimal("0.440010513185"),
}


class ThreadDimensions(msgspec.Struct, frozen=True, omit_defaults=True):
    """Basic sizes in mm; angles in degrees. Of a taper thread all diameters are those at the gauge plane.

    `minor` is the crest of the female thread (D1, also the root of a full-form male one), `root` the male root (d3) where
    the standard rounds it deeper. `to_plane` is the distance from a taper male's small end to its gauge plane.
    """

    major: Decimal
    pitch: Decimal
    pitch_diameter: Decimal
    minor: Decimal
    angle: Decimal
    standard: str
    root: Decimal | None = None
    taper: Decimal = Decimal(0)
    to_plane: Decimal = Decimal(0)

    @property
    def male_root(self) -> Decimal:
        """The male thread's root diameter."""
        return self.minor if self.root is None else self.root

    @property
    def tangent(self) -> Decimal:
        """Tangent of half the flank angle."""
        return _TANGENTS[self.angle]


def dimensions(thread: Thread) -> ThreadDimensions:
    """The basic dimensions of a thread (ISO 724, ASME B1.1, BS 84, BS 93, ISO 228-1, ISO 7-1, ASME B1.20.1)."""
    row, form = thread.row, thread.form
    pitch = row.pitch_mm
    major, middle, minor, root = _diameters(thread)
    return ThreadDimensions(
        major=major,
        pitch=pitch,
        pitch_diameter=middle,
        minor=minor,
        angle=form.angle,
        standard=form.standard,
        root=root,
        taper=form.taper,
        to_plane=_mm(row.length, row.inches) if form.taper and row.length is not None else Decimal(0),
    )


def _diameters(thread: Thread) -> tuple[Decimal, Decimal, Decimal, Decimal | None]:
    """Major, pitch and minor diameter, and the male root where it differs from the minor, all in mm."""
    row, pitch = thread.row, thread.row.pitch_mm
    if row.family in NATIONAL_PIPE and row.pitch_diameter is not None:
        middle, height = _mm(row.pitch_diameter, row.inches), _DEPTH_NPT * pitch
        return middle + height, middle, middle - height, None
    major = row.major_mm
    if row.pitch_diameter is not None and row.minor is not None:
        return major, _mm(row.pitch_diameter, row.inches), _mm(row.minor, row.inches), None
    if thread.form.angle == 60:
        return major, major - _PITCH_60 * pitch, major - _MINOR_60 * pitch, major - _ROOT_60 * pitch
    depth = (_DEPTH_BA if row.family is Family.BA else _DEPTH_55) * pitch
    return major, major - depth, major - 2 * depth, None


def at_small_end(sizes: ThreadDimensions) -> ThreadDimensions:
    """A taper male's dimensions where it enters; a parallel thread's are the same everywhere."""
    less = sizes.taper * sizes.to_plane
    return msgspec.structs.replace(
        sizes, major=sizes.major - less, pitch_diameter=sizes.pitch_diameter - less, minor=sizes.minor - less
    )


def _mm(value: Decimal, inches: bool) -> Decimal:
    return value * INCH if inches else value
