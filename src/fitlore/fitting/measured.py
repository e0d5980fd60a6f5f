"""What is said of a part's feature: printed, measured, both; and what a measurement, worn and inexact, can prove."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.fitting.interface import (
    WORDS,
    Compared,
    Limits,
    compare,
    read_tolerance,
    same_size,
    wear_allows,
    wear_limits,
)
from fitlore.fitting.shape import State
from fitlore.model.amounts import Quantity, read_quantity
from fitlore.model.because import Because
from fitlore.model.category import Feature
from fitlore.model.choices import Rule
from fitlore.model.origin import Origin
from fitlore.model.part import Measured, Part
from fitlore.trade.family import FAMILIES

if TYPE_CHECKING:
    from fitlore.trade.standards import Standards

_LIMITS: Final = frozenset({Rule.AT_LEAST, Rule.AT_MOST})


class Stated(NamedTuple):
    """The values a part is known to have in one feature, and the lines they stand on."""

    values: tuple[str, ...]
    origins: tuple[Origin, ...]
    remark: str = ""
    """`measured`, `measured-agrees`, `measured-differs`, or nothing."""
    measured: Measured | None = None
    """Where the value is a measurement and not a nominal size."""

    @property
    def doubtful(self) -> bool:
        """Two sources say different things, and neither is first-hand."""
        return self.remark == "measured-differs" and not self.values


def stated(part: Part, name: str, feature: Feature, standards: Standards) -> Stated:
    """A first-hand measurement outweighs what is printed of the part; one at second hand only makes it doubtful."""
    nominal = part.features.get(name, ())
    measured = part.measured.get(name)
    if measured is None:
        return Stated(nominal, (part.origin,))
    origins = (part.origin, measured.origin)
    if not nominal:
        return Stated((measured.value,), (measured.origin,), "measured", measured)
    if any(_agree(feature, value, measured, standards) for value in nominal):
        return Stated(nominal, origins, "measured-agrees")
    if measured.how.first_hand:
        return Stated((measured.value,), origins[::-1], "measured-differs", measured)
    return Stated((), origins[::-1], "measured-differs")


def _agree(feature: Feature, nominal: str, measured: Measured, standards: Standards) -> bool:
    if feature.kind in FAMILIES or feature.kind in WORDS:
        return compare(feature, nominal, measured.value, standards).state is State.OK
    return bool(wear_allows(feature, nominal, measured.value, measured.error))


def compare_measured(
    feature: Feature, needed: str, offered: str, worn: bool, errors: list[str], standards: Standards
) -> Compared:
    """As `compare`, for sizes that are measurements with these errors; `worn`: the offered one may be worn.

    Inside the wear allowance is ok; outside of what is asked by no more than the measuring error is unknown, and so is a
    limit that the error may carry it over.
    """
    result = compare(feature, needed, offered, standards)
    if feature.kind in FAMILIES or feature.kind in WORDS or result.state is State.UNKNOWN:
        return result
    want, have, limits = read_quantity(needed), read_quantity(offered), wear_limits(feature, errors)
    if want is None or have is None:
        return result
    values = {"needed": needed, "offered": offered, "rule": feature.rule.value}
    if limits is None or limits[3] - {want.unit}:
        return Compared(State.UNKNOWN, Because("cannot-compare", values))
    state = _state(
        feature, want, have, limits if worn else (Decimal(0), Decimal(0), *limits[2:]), result.state
    )
    codes = {State.OK: "size-ok", State.OFF: "size-off"}
    return (
        result
        if state is result.state
        else Compared(state, Because(codes.get(state, "cannot-compare"), values))
    )


def _state(feature: Feature, want: Quantity, have: Quantity, limits: Limits, plain: State) -> State:
    down, up, play, _ = limits
    low, high = have.value - up, have.value + down
    if feature.rule in _LIMITS:
        sign = 1 if feature.rule is Rule.AT_LEAST else -1
        ends = {sign * (have.value + shift - want.value) >= 0 for shift in (-play, play)}
        return plain if len(ends) == 1 else State.UNKNOWN
    if feature.rule is Rule.RANGE_HOLDS or feature.rule is Rule.ONE_OF:
        return plain if not play else State.UNKNOWN
    tolerance = read_tolerance(feature.tolerance) if feature.tolerance else None
    under, over = (tolerance[0], tolerance[1]) if tolerance else (same_size(want.unit), same_size(want.unit))
    gap = max(low - (want.value + over), want.value - under - high, Decimal(0))
    return State.OK if not gap else State.UNKNOWN if gap <= play else State.OFF
