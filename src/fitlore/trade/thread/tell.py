"""How to tell two threads apart on the bench, with a caliper, a thread gauge and the eye."""

from __future__ import annotations

from decimal import Decimal
from enum import Enum

import msgspec

from fitlore.model.choices import End
from fitlore.trade.thread.dimensions import ThreadDimensions, at_small_end
from fitlore.trade.thread.tolerance import across_bore, over_crests


class Look(Enum):
    """What is measured or looked at."""

    OVER_CRESTS = "over-crests"
    """Caliper over the male thread."""
    ACROSS_BORE = "across-bore"
    """Caliper across the female thread's crests."""
    TEN_PITCHES = "ten-pitches"
    """Length of ten threads."""
    FLANK_ANGLE = "flank-angle"
    TAPER = "taper"


class Tell(msgspec.Struct, frozen=True):
    """One look: what the wrong part shows, and what the right one would; already rounded for people, with units."""

    look: Look
    this: str
    right: str


def tells(this: ThreadDimensions, right: ThreadDimensions, end: End) -> tuple[Tell, ...]:
    """The looks that tell `this` thread from the `right` one, both taken as the same half of the joint."""
    diameter = Look.OVER_CRESTS if end is End.MALE else Look.ACROSS_BORE
    looks = (
        (diameter, _span(this, end), _span(right, end)),
        (Look.TEN_PITCHES, _ten(this), _ten(right)),
        (Look.FLANK_ANGLE, f"{this.angle} deg", f"{right.angle} deg"),
        (Look.TAPER, _shape(this), _shape(right)),
    )
    return tuple(Tell(look, here, there) for look, here, there in looks if here != there)


def _span(sizes: ThreadDimensions, end: End) -> str:
    if sizes.taper:
        small = at_small_end(sizes)
        low, high = (small.major, sizes.major) if end is End.MALE else (small.minor, sizes.minor)
    else:
        low, high = over_crests(sizes) if end is End.MALE else across_bore(sizes)
    return f"{low:.1f} to {high:.1f} mm"


def _ten(sizes: ThreadDimensions) -> str:
    return f"{Decimal(10) * sizes.pitch:.1f} mm"


def _shape(sizes: ThreadDimensions) -> str:
    return "taper" if sizes.taper else "parallel"
