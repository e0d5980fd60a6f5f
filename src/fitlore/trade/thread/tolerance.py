"""How far ordinary parts may lie from basic size, so that a warning covers the loosest pair a shop may hold.

One estimate serves every series: ISO 965-1, tolerance grade 6, position g on the male and H on the female. The ordinary
classes of the others (ASME B1.1 2A and 2B, BS 84 medium, ISO 228-1) allow no more; the tests hold it against their
printed limits. It decides only how easily two wrong threads start, never whether two fit.
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import NamedTuple

import msgspec

from fitlore.trade.thread.dimensions import ThreadDimensions


class Allowance(NamedTuple):
    """Grade 6 in mm: how far g lies under basic, and the tolerances of the diameters, male and female."""

    under: Decimal
    male_major: Decimal
    male_pitch: Decimal
    female_pitch: Decimal
    female_minor: Decimal


@cache
def allowance(diameter: Decimal, pitch: Decimal) -> Allowance:
    """ISO 965-1 formulas (in micrometres, before its tables round them) for one diameter and pitch in mm."""
    d, p = float(diameter), float(pitch)
    pitch_diameter = 90 * p**0.4 * d**0.1
    minor = 433 * p - 190 * p**1.22 if p <= 0.8 else 230 * p**0.7
    microns = (15 + 11 * p, 180 * p ** (2 / 3) - 3.15 / p**0.5, pitch_diameter, 1.32 * pitch_diameter, minor)
    return Allowance(*(Decimal(round(value)) / 1000 for value in microns))


def smallest_male(sizes: ThreadDimensions) -> ThreadDimensions:
    """The male thread at its least material."""
    play = allowance(sizes.major, sizes.pitch)
    return msgspec.structs.replace(
        sizes,
        major=sizes.major - play.under - play.male_major,
        pitch_diameter=sizes.pitch_diameter - play.under - play.male_pitch,
        root=sizes.male_root - play.under - play.male_pitch,
    )


def largest_female(sizes: ThreadDimensions) -> ThreadDimensions:
    """The female thread at its least material; its root is taken to grow with its pitch diameter."""
    play = allowance(sizes.major, sizes.pitch)
    return msgspec.structs.replace(
        sizes,
        major=sizes.major + play.female_pitch,
        pitch_diameter=sizes.pitch_diameter + play.female_pitch,
        minor=sizes.minor + play.female_minor,
    )


def over_crests(sizes: ThreadDimensions) -> tuple[Decimal, Decimal]:
    """What a caliper shows over a male thread's crests, least and most, in mm."""
    play = allowance(sizes.major, sizes.pitch)
    return sizes.major - play.under - play.male_major, sizes.major - play.under


def across_bore(sizes: ThreadDimensions) -> tuple[Decimal, Decimal]:
    """What a caliper shows across a female thread's crests, least and most, in mm."""
    return sizes.minor, sizes.minor + allowance(sizes.major, sizes.pitch).female_minor
