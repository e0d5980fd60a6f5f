"""How far a male thread goes into a female one that was not made for it.

The picture: one ridge of the male in one groove of the female leaves an axial clearance C, found at the radius where the
two flanks come nearest:

    C = min over r in {D1/2, d/2} of 2 [(P_f - P_m)/4 + (r - d2_m/2) tan(a_m) - (r - d2_f/2) tan(a_f)]

with a = half the flank angle. Every further turn uses up the difference of the pitches, so that C / |P_f - P_m| pitches
go in before the flanks bind; a taper uses up its own growth as well. The formula was derived for this project. It agrees
with the rule of screw-thread metrology that a pitch error dP acts like dP cot(a) on the effective diameter (1.732 dP at
60 degrees, 1.921 dP at 55), but it was not measured on real parts: a hand feels one or two turns more (lead chamfer,
elasticity). Results therefore only ever speak against a pair of threads, never for it.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.thread.dimensions import ThreadDimensions, at_small_end
from fitlore.trade.thread.tolerance import largest_female, smallest_male

SOURCE: Final = (
    "turns before binding: derived here from the basic profiles, agrees with the cotangent rule, not measured"
)


class Engagement(NamedTuple):
    """What the geometry says of a pair: mm, and shares as fractions of one.

    `gap` is the female's major diameter less the male's (positive: loose). `overlap` is the part of the full thread depth
    that still holds. `turns` is None where nothing limits them; both turns are at most zero where the flanks clash at once,
    at basic size (`turns`) or even with the loosest ordinary tolerances (`turns_loosest`).
    """

    gap: Decimal
    overlap: Decimal
    pitch_error: Decimal
    clearance: Decimal
    turns: Decimal | None
    turns_loosest: Decimal | None
    passes: bool
    """The male's crests pass the female's roots, and the female's crests the male's roots, in the loosest tolerances."""


def axial_clearance(male: ThreadDimensions, female: ThreadDimensions) -> Decimal:
    """C of one male ridge in one female groove, in mm, both flanks together; negative where they clash."""

    def at(radius: Decimal) -> Decimal:
        male_flank = (radius - male.pitch_diameter / 2) * male.tangent
        female_flank = (radius - female.pitch_diameter / 2) * female.tangent
        return 2 * ((female.pitch - male.pitch) / 4 + male_flank - female_flank)

    return min(at(female.minor / 2), at(male.major / 2))


def pitches_engaged(male: ThreadDimensions, female: ThreadDimensions) -> Decimal | None:
    """Pitches that go in before the flanks bind. None: no limit. Zero or less: the flanks clash at once.

    A taper on either side closes the gap by pitch x taper on the diameter with every turn, which costs that times tan(a).
    """
    clearance = axial_clearance(male, female)
    tapered = male if male.taper else female
    used_per_turn = abs(female.pitch - male.pitch) + tapered.taper * male.pitch * tapered.tangent
    if not used_per_turn:
        return None if clearance > 0 else clearance
    return clearance / used_per_turn


def engage(male: ThreadDimensions, female: ThreadDimensions) -> Engagement:
    """Put a male thread to a female one. Diameters are compared at the gauge plane; a taper male enters small end first.

    A taper female is taken to have its gauge plane at the face. (ISO 7-1 puts it half a pitch behind, which is 0.06 mm on
    the diameter at most and lies within the tolerances.)
    """
    entering = at_small_end(male)
    thin, wide = smallest_male(entering), largest_female(female)
    depth = female.major - female.minor
    return Engagement(
        gap=female.major - male.major,
        overlap=(male.major - female.minor) / depth,
        pitch_error=(male.pitch - female.pitch) / female.pitch,
        clearance=axial_clearance(entering, female),
        turns=pitches_engaged(entering, female),
        turns_loosest=pitches_engaged(thin, wide),
        passes=thin.major <= wide.major and thin.male_root <= wide.minor,
    )
