"""What changes where another size of tyre goes on: height, speedometer, gearing, and the rim it asks for."""

from __future__ import annotations

from decimal import Decimal

from fitlore.model.because import Because
from fitlore.trade.pieces import shown
from fitlore.trade.standards import Standards
from fitlore.trade.tyre.dimensions import (
    FORMULA,
    READING,
    Dimensions,
    dimensions,
    measuring_rim,
    reading_allowed,
    shown_speed,
    turns_per_km,
)
from fitlore.trade.tyre.value import Tyre

_AT = Decimal(100)
"""The true speed at which the reading is told, in km/h."""


def changes(needed: Tyre, offered: Tyre, standards: Standards) -> tuple[Because, ...]:
    """Diameter, what the speedometer shows if it was true before, and the turns; nothing where dimensions are not known."""
    old, new = dimensions(needed, standards), dimensions(offered, standards)
    if old is None or new is None:
        return (Because("tyre-change-unknown", {"needed": needed.bare.size, "offered": offered.bare.size}),)
    origins = tuple(dict.fromkeys(row.origin for row in (*old.rows, *new.rows)))
    sources = tuple(dict.fromkeys([*(row.source for row in (*old.rows, *new.rows)), FORMULA]))
    share = (new.outside / old.outside - 1) * 100
    values = {"needed": span(old), "offered": span(new), "share": f"{share:+.1f} %"}
    steps = [Because("tyre-change-outside", values, origins=origins, sources=sources), _reading(old, new)]
    turns = [turns_per_km(tyre, sizes.outside) for tyre, sizes in ((needed, old), (offered, new))]
    figures = {"needed": f"{turns[0]:.0f}", "offered": f"{turns[1]:.0f}"}
    steps.append(
        Because("tyre-change-turns", figures, sources=("ISO 4000-1, ETRTO: rolling circumference (memory)",))
    )
    rims = [measuring_rim(tyre) for tyre in (needed, offered)]
    if rims[0] is not None and rims[1] is not None and rims[0] != rims[1]:
        widths = {"needed": shown(rims[0]), "offered": shown(rims[1])}
        steps.append(Because("tyre-change-rim", widths, sources=("ISO 4000-1: measuring rim (memory)",)))
    return tuple(steps)


def span(sizes: Dimensions) -> str:
    """The outside diameter, with the span it may lie in where the size does not fix it."""
    fixed = sizes.least == sizes.most
    return f"{shown(sizes.outside)} mm" + ("" if fixed else f" ({shown(sizes.least)} to {shown(sizes.most)})")


def _reading(old: Dimensions, new: Dimensions) -> Because:
    """Reading too low is what the rule forbids; so a taller tyre is told louder than a lower one."""
    reading = shown_speed(_AT, old.outside, new.outside)
    values = {"true": shown(_AT), "shown": f"{reading:.1f}"}
    if reading < _AT:
        code = "tyre-reading-low"
    else:
        code = "tyre-reading-high" if reading_allowed(_AT, reading) else "tyre-reading-beyond"
    return Because(code, values, sources=(READING,))
