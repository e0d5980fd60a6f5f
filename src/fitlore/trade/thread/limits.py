"""Limits of size by tolerance class, and how much thread has to hold: formulas of ISO 965-1 and ASME B1.1.

The standards print rounded tables, which decide; the formulas come within a fifteenth of their tolerances. No verdict rests
on these figures: a class says how a thread was made, never whether two go together.
"""

from __future__ import annotations

import math
import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.rows import METRIC, UNIFIED, Family
from fitlore.trade.thread.value import Thread

_RANGES: Final = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0)
"""Steps of the nominal diameter in mm (ISO 965-1)."""
_SHIFT: Final = {"e": 50, "f": 30, "g": 15, "G": 15}
"""Micrometres at pitch zero of the fundamental deviations; 11 more for every mm of pitch. h and H lie at basic size."""
_MALE_PITCH: Final = {3: 0.5, 4: 0.63, 5: 0.8, 6: 1.0, 7: 1.25, 8: 1.6, 9: 2.0}
_FEMALE_PITCH: Final = {4: 0.85, 5: 1.06, 6: 1.32, 7: 1.7, 8: 2.12}
_CRESTS: Final = {4: 0.63, 5: 0.8, 6: 1.0, 7: 1.25, 8: 1.6}
_CLASS: Final = re.compile(r"([3-9])([efghGH])(?:([3-9])([efghGH]))?")
LEAST_HOLD: Final = {"steel": Decimal("0.8"), "cast iron": Decimal("1.25"), "aluminium": Decimal("1.5")}
"""Least thread that has to hold, in diameters, by what the hole is made of. Common practice."""


class Limits(NamedTuple):
    """Least and greatest sizes in mm. Of a male thread `crest` is the major, of a female one the minor diameter."""

    crest: tuple[Decimal, Decimal]
    pitch_diameter: tuple[Decimal, Decimal]


def limits(thread: Thread, tolerance: str = "") -> Limits | None:
    """The limits of a thread's own class, or of `tolerance`: 6g, 6H, 4g6g ... of metric, 1A to 3B of Unified threads.

    None where neither says a class that the formulas cover.
    """
    name = tolerance or thread.tolerance
    if thread.row.family in METRIC and (match := _CLASS.fullmatch(name)):
        grade, place = int(match[1]), match[2]
        crest = int(match[3]) if match[3] else grade
        return _metric(thread, grade, crest, place)
    if thread.row.family in UNIFIED and re.fullmatch(r"[123][AB]", name.upper()):
        return _unified(thread, int(name[0]), name[1].upper())
    return None


def _metric(thread: Thread, grade: int, crest: int, place: str) -> Limits | None:
    sizes = dimensions(thread)
    pitch, diameter = float(sizes.pitch), _mean(float(sizes.major))
    shift = _SHIFT[place] + 11 * pitch if place in _SHIFT else 0.0
    middle = 90 * pitch**0.4 * diameter**0.1
    factors = _FEMALE_PITCH if place.isupper() else _MALE_PITCH
    if grade not in factors or crest not in _CRESTS:
        return None
    if place.islower():
        major = (180 * pitch ** (2 / 3) - 3.15 / math.sqrt(pitch)) * _CRESTS[crest]
        return Limits(
            _below(sizes.major, shift, major), _below(sizes.pitch_diameter, shift, middle * factors[grade])
        )
    minor = (433 * pitch - 190 * pitch**1.22 if pitch <= 0.8 else 230 * pitch**0.7) * _CRESTS[crest]
    return Limits(
        _above(sizes.minor, shift, minor), _above(sizes.pitch_diameter, shift, middle * factors[grade])
    )


def _unified(thread: Thread, number: int, half: str) -> Limits:
    """ASME B1.1: 2A pitch tolerance 0.0015 D^(1/3) + 0.0015 L^(1/2) + 0.015 P^(2/3) inches; L: D, or 9 P of UNEF, UN, UNS."""
    sizes = dimensions(thread)
    diameter, pitch = float(sizes.major) / 25.4, float(sizes.pitch) / 25.4
    held = diameter if thread.row.family in (Family.UNC, Family.UNF) else 9 * pitch
    two_a = 0.0015 * diameter ** (1 / 3) + 0.0015 * math.sqrt(held) + 0.015 * pitch ** (2 / 3)
    to_microns = 25400.0
    male = two_a * {1: 1.5, 2: 1.0, 3: 0.75}[number] * to_microns
    if half == "A":
        shift = 0.0 if number == 3 else 0.3 * two_a * to_microns
        crest = 0.06 * pitch ** (2 / 3) * (1.5 if number == 1 else 1.0) * to_microns
        return Limits(_below(sizes.major, shift, crest), _below(sizes.pitch_diameter, shift, male))
    # ASME B1.1, minor diameter of 1B and 2B: 0.25 P - 0.4 P^2 from 1/4 inch on, at most 0.394 P below it.
    minor = (
        (0.25 * pitch - 0.4 * pitch**2)
        if diameter >= 0.25
        else min(0.05 * pitch ** (2 / 3) + 0.03 * pitch / diameter - 0.002, 0.394 * pitch)
    )
    return Limits(_above(sizes.minor, 0.0, minor * to_microns), _above(sizes.pitch_diameter, 0.0, male * 1.3))


def engagement(thread: Thread) -> tuple[Decimal, Decimal] | None:
    """Shortest and longest normal length of engagement (N) in mm: 2.24 and 6.7 P d^0.2, d the least of its step (ISO 965-1).

    The printed table rounds by up to a sixth. Shorter is S, longer L. None for other than metric threads.
    """
    if thread.row.family not in METRIC:
        return None
    sizes = dimensions(thread)
    least = max(step for step in _RANGES if step < float(sizes.major))
    short, long = (factor * float(sizes.pitch) * least**0.2 for factor in (2.24, 6.7))
    return Decimal(f"{short:.2f}"), Decimal(f"{long:.2f}")


def least_turns(thread: Thread, made_of: str) -> Decimal:
    """Whole turns of thread that have to hold in a hole of steel, cast iron or aluminium (common practice)."""
    sizes = dimensions(thread)
    return (LEAST_HOLD[made_of] * sizes.major / sizes.pitch).quantize(Decimal("0.1"))


def _mean(diameter: float) -> float:
    """The geometric mean of the step that a diameter lies in."""
    upper = next((step for step in _RANGES if diameter <= step), _RANGES[-1])
    lower = max((step for step in _RANGES if step < upper), default=upper)
    return math.sqrt(lower * upper)


def _below(basic: Decimal, shift: float, tolerance: float) -> tuple[Decimal, Decimal]:
    top = basic - Decimal(round(shift)) / 1000
    return top - Decimal(round(tolerance)) / 1000, top


def _above(basic: Decimal, shift: float, tolerance: float) -> tuple[Decimal, Decimal]:
    low = basic + Decimal(round(shift)) / 1000
    return low, low + Decimal(round(tolerance)) / 1000
