"""Dimensions of a tyre by the formulas of UN R30, and what another size does to speedometer and gearing."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import INCH
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow
from fitlore.trade.tyre.value import Build, Tyre

FORMULA: Final = "UN R30 6.1 (outside = rim diameter + twice the section height)"
READING: Final = "UN R39 (indicated less true speed from 0 to a tenth + 4 km/h)"
SERIES: Final = (Decimal(78), Decimal(82))
"""Profiles that sizes without one are said to have: 78, 80 and 82 are all told. Common practice."""
_ROLLING: Final = {
    Build.RADIAL: Decimal("3.05"),
    Build.BIAS_BELTED: Decimal("2.99"),
    Build.CROSS_PLY: Decimal("2.99"),
}
"""Rolling circumference in outside diameters, less than pi for the tyre is flattened (ISO 4000-1, ETRTO; memory)."""
_K1: Final = ((45, "0.85"), (55, "0.80"), (70, "0.75"), (95, "0.70"))
"""Measuring rim as a share of the section width, up to each profile (ISO 4000-1; memory)."""


class Dimensions(NamedTuple):
    """Sizes in mm, with the rows they rest on; `least` to `most` is what sizes without a profile may have outside."""

    outside: Decimal
    section: Decimal
    rim: Decimal
    least: Decimal
    most: Decimal
    rows: tuple[TableRow, ...] = ()


def dimensions(tyre: Tyre, standards: Standards) -> Dimensions | None:
    """The new tyre's design dimensions; None for letter sizes and for inch sizes that no table lists."""
    rim, rows = _rim(tyre, standards)
    if tyre.outside is not None:
        across = tyre.outside * INCH
        return Dimensions(across, tyre.width * INCH, rim, across, across, rows)
    if tyre.letter or (tyre.inches and not _listed(tyre, standards)):
        return None
    if listed := _listed(tyre, standards):
        row = listed[0]
        across = row.number("outside")
        seen = row.numbers.get("seen", across)
        return Dimensions(across, row.number("section"), rim, min(across, seen), max(across, seen), listed)
    if tyre.profile is None:
        least, most = (_outside(rim, tyre.width, series) for series in SERIES)
        return Dimensions(_outside(rim, tyre.width, Decimal(80)), tyre.width, rim, least, most, rows)
    across = _outside(rim, tyre.width, tyre.profile)
    return Dimensions(across, tyre.width, rim, across, across, rows)


def nominal(rim: Decimal) -> Decimal:
    """A rim's diameter in mm as its code or its figure has it, not rounded: 13 is 330.2."""
    return rim if rim >= 300 else rim * INCH


def _outside(rim: Decimal, width: Decimal, profile: Decimal) -> Decimal:
    """Rim diameter and twice the section height, the height to the nearest mm."""
    return rim + 2 * (width * profile / 100).quantize(Decimal(1), ROUND_HALF_UP)


def _rim(tyre: Tyre, standards: Standards) -> tuple[Decimal, tuple[TableRow, ...]]:
    if tyre.millimetre_rim:
        return tyre.rim, tuple(
            row for row in standards.table("millimetre-rim").rows if row.number("diameter") == tyre.rim
        )
    rows = tuple(row for row in standards.table("rim-code").rows if row.number("code") == tyre.rim)
    return (rows[0].number("diameter") if rows else tyre.rim * INCH), rows


def _listed(tyre: Tyre, standards: Standards) -> tuple[TableRow, ...]:
    plain = tyre.bare._replace(service="", old_speed="")
    if tyre.profile is not None or tyre.outside is not None:
        return ()
    section = "cross-ply-tyre" if tyre.inches else "no-profile-tyre"
    return standards.table(section).find(size=plain.size)


def rolling(tyre: Tyre, outside: Decimal) -> Decimal:
    """Way rolled in one turn, in mm."""
    return _ROLLING[tyre.build] * outside


def turns_per_km(tyre: Tyre, outside: Decimal) -> Decimal:
    """Turns of the wheel in one kilometre."""
    return Decimal(1_000_000) / rolling(tyre, outside)


def measuring_rim(tyre: Tyre) -> Decimal | None:
    """Width in inches of the rim that a metric size is measured on, to the nearest half inch; None without a profile."""
    if tyre.profile is None or tyre.inches or tyre.millimetre_rim:
        return None
    share = next((Decimal(k) for most, k in _K1 if tyre.profile <= most), None)
    if share is None or tyre.profile <= 40:
        share = Decimal("0.90")
    return (tyre.width * share / INCH * 2).quantize(Decimal(1), ROUND_HALF_UP) / 2


def section_on(tyre: Tyre, rim_width: Decimal) -> Decimal | None:
    """Section width in mm on a rim of this width in inches: 0.4 mm for each mm of rim (UN R30 6.1.1)."""
    measuring = measuring_rim(tyre)
    if measuring is None:
        return None
    return tyre.width + Decimal("0.4") * (rim_width - measuring) * INCH


def shown_speed(true: Decimal, before: Decimal, now: Decimal) -> Decimal:
    """What a speedometer that was true shows at a true speed, with tyres of another outside diameter."""
    return true * before / now


def reading_allowed(true: Decimal, shown: Decimal) -> bool:
    """UN R39: never less than the true speed, and at most a tenth of it and 4 km/h more."""
    return 0 <= shown - true <= true / 10 + 4


def reading_factor(
    ratio_before: Decimal, ratio_now: Decimal, tyre_before: Decimal, tyre_now: Decimal
) -> Decimal:
    """What a gearbox-driven speedometer shows as a multiple of before, after another final drive and other tyres.

    A taller drive and a taller tyre both make it read low: the two multiply. Common practice.
    """
    return ratio_now / ratio_before * tyre_before / tyre_now
