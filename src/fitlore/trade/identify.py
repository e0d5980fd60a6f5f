"""From measurements to what the thing may be: the listed sizes that agree with them, the best first, and what to measure next.

A measurement agrees where the size's band, widened by the measuring error, holds it. Where it lies outside on the side to
which such things wear, it agrees if it is worn by no more than it can be. Measurements of which nobody said what they are
of are dealt out to the size's measures in the way that agrees best, the written order first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.measuring import INCH, Said
from fitlore.trade.sizes import MEASURES, Band, Sized

WORN: Final = (Decimal("0.3"), Decimal("0.03"))
"""How far a used thing is worn where nothing says how far it may be: so many mm, or such a share of the size, whichever is
more (judgement of this project, so that what is worn is listed at all; it allows no use of it)."""
ALIKE: Final = (frozenset({"outside", "diameter"}), frozenset({"thickness", "width", "height"}))
"""Measures that one person calls so and another so."""
_UNDONE: Final = Decimal("0.02")
"""Share by which sizes may miss and still be named as the nearest, where none agrees."""
_MOST_NAMED: Final = 200
"""Candidates among which it is asked what to measure next."""


class Agreed(NamedTuple):
    """One measurement against one measure of a size."""

    said: Said
    measure: str
    band: Band
    how: str
    """`agrees`, `worn` (outside, on the side it wears to) or `off`."""
    by: Decimal
    """How far outside the band it lies, in the base unit."""


class Candidate(NamedTuple):
    """A listed size that may be it."""

    sized: Sized
    agreed: tuple[Agreed, ...]

    @property
    def how(self) -> str:
        """The worst of its measurements."""
        return max((one.how for one in self.agreed), key=_HOWS.index)

    @property
    def rank(self) -> tuple[int, Decimal, int, int, str, str]:
        """Its place in the list: how well, how near, how much was not measured, how far the order was turned."""
        near = sum((one.by / (one.said.error or Decimal("0.01")) for one in self.agreed), Decimal(0))
        off = sum((_missed(one) for one in self.agreed), Decimal(0))
        measures = [one.measure for one in self.agreed if not one.said.measure]
        order = [measure for measure in self.sized.bands if measure in measures]
        turned = sum(
            order.index(a) > order.index(b) for n, a in enumerate(measures) for b in measures[n + 1 :]
        )
        unsaid = len(self.sized.bands) - len(self.agreed)
        first = off if self.how == "off" else near
        return _HOWS.index(self.how), round(first, 2), unsaid, turned, self.sized.kind, self.sized.designation


class Tells(NamedTuple):
    """A measure that would part the candidates, and what each of its values would say."""

    measure: str
    unit: str
    groups: tuple[tuple[Band, tuple[str, ...]], ...]


_HOWS: Final = ("agrees", "worn", "off")


def identify(said: Sequence[Said], sizes: Iterable[Sized]) -> tuple[Candidate, ...]:
    """The sizes that agree, the best first; where none does, those that miss by least (each is then `off`)."""
    found = [candidate for size in sizes if (candidate := held_against(said, size)) is not None]
    good = [candidate for candidate in found if candidate.how != "off"]
    near = [c for c in found if all(_missed(one) <= _UNDONE for one in c.agreed)]
    return tuple(sorted(good or near, key=lambda candidate: candidate.rank))


def held_against(said: Sequence[Said], size: Sized) -> Candidate | None:
    """One size against all measurements; None where it has no measure for one of them."""
    named = [one for one in said if one.measure]
    free = [one for one in said if not one.measure]
    agreed: list[Agreed] = []
    left = dict(size.bands)
    for one in named:
        measure = _called(one.measure, left)
        if measure is None:
            return None
        band, told = left.pop(measure), _as_pitch(one, measure)
        if unit_of(measure, band) != told.unit:
            return None
        agreed.append(_agreed(told, measure, band))
    dealt = _dealt(free, left)
    return None if dealt is None else Candidate(size, (*agreed, *dealt))


def can_be_told(said: Sequence[Said], size: Sized) -> bool:
    """Whether a size has a measure for each measurement at all, whatever its figure."""
    left = dict(size.bands)
    for one in (one for one in said if one.measure):
        measure = _called(one.measure, left)
        if measure is None or unit_of(measure, left[measure]) != _as_pitch(one, measure).unit:
            return False
        left.pop(measure)
    units = [unit_of(measure, band) for measure, band in left.items()]
    free = [one.unit for one in said if not one.measure]
    return all(units.count(unit) >= free.count(unit) for unit in free)


def unit_of(measure: str, band: Band) -> str:
    """The base unit of a measure of a size."""
    return band.unit or (MEASURES[measure].unit if measure in MEASURES else "")


def _called(name: str, bands: dict[str, Band]) -> str | None:
    """The measure of a size that somebody calls so."""
    if name in bands:
        return name
    if name == "pitch" and "threads-per-inch" in bands:
        return "threads-per-inch"
    if name == "threads-per-inch" and "pitch" in bands:
        return "pitch"
    words = (
        {word for said in (name, *MEASURES[name].said) for word in said.split()}
        if name in MEASURES
        else {name}
    )
    spoken = [measure for measure in bands if measure not in MEASURES and words & set(measure.split("-"))]
    if spoken:
        return spoken[0]
    alike = next((group for group in ALIKE if name in group), frozenset())
    return next((measure for measure in bands if measure in alike), None)


def _as_pitch(said: Said, measure: str) -> Said:
    """Threads to the inch as a pitch, or the other way."""
    if said.measure == measure or {said.measure, measure} != {"pitch", "threads-per-inch"} or not said.value:
        return said
    error = said.error * INCH / said.value / said.value
    return said._replace(measure=measure, value=INCH / said.value, error=error, unit=MEASURES[measure].unit)


def _agreed(said: Said, measure: str, band: Band) -> Agreed:
    low, high = band.low - said.error, band.high + said.error
    if low <= said.value <= high:
        outside = max(band.low - said.value, said.value - band.high, Decimal(0))
        return Agreed(said, measure, band, "agrees", outside)
    by = low - said.value if said.value < low else said.value - high
    usual = max(WORN[0], band.high * WORN[1]) if unit_of(measure, band) == "mm" else Decimal(0)
    most = usual if band.most is None else band.most
    wears = band.wears == ("down" if said.value < low else "up")
    return Agreed(said, measure, band, "worn" if wears and by <= most else "off", by)


def _missed(one: Agreed) -> Decimal:
    return Decimal(0) if one.how == "agrees" else one.by / (abs(one.said.value) or Decimal(1))


def _dealt(free: Sequence[Said], bands: dict[str, Band]) -> tuple[Agreed, ...] | None:
    """The measurements dealt out to measures of their unit, each measure used once; the best way, None where there is none."""
    best: tuple[tuple[int, Decimal], tuple[Agreed, ...]] | None = None
    for agreed in _ways(free, bands):
        worst = max((_HOWS.index(one.how) for one in agreed), default=0)
        score = worst, sum((_missed(one) if worst == 2 else one.by for one in agreed), Decimal(0))
        if best is None or score < best[0]:
            best = score, agreed
    return best[1] if best else None


def _ways(free: Sequence[Said], bands: dict[str, Band]) -> Iterator[tuple[Agreed, ...]]:
    if not free:
        yield ()
        return
    first, *rest = free
    for measure, band in bands.items():
        if unit_of(measure, band) == first.unit and not _far(first, band):
            others = {name: other for name, other in bands.items() if name != measure}
            for way in _ways(rest, others):
                yield (_agreed(first, measure, band), *way)


def _far(said: Said, band: Band) -> bool:
    """So far off that it is not even near: it need not be looked at."""
    play = said.error + (band.most or Decimal(0)) + max(Decimal(1), band.high * Decimal("0.1"))
    return not band.low - play <= said.value <= band.high + play


def next_measure(candidates: Sequence[Candidate]) -> Tells | None:
    """The measure, not yet taken, that leaves the fewest candidates together on average; None where none parts them."""
    sizes = [candidate for candidate in candidates[:_MOST_NAMED] if candidate.how != "off"]
    best: tuple[int, int, Tells] | None = None
    names = dict.fromkeys(name for candidate in sizes for name in candidate.sized.bands)
    for place, name in enumerate(names):
        taken = [any(one.measure == name for one in candidate.agreed) for candidate in sizes]
        if any(taken) or not all(name in candidate.sized.bands for candidate in sizes):
            continue
        groups = _groups(name, sizes)
        score = sum(len(rows) ** 2 for _, rows in groups), place
        if len(groups) > 1 and (best is None or score < best[:2]):
            best = *score, Tells(name, unit_of(name, groups[0][0]), groups)
    return best[2] if best else None


def _groups(name: str, sizes: Sequence[Candidate]) -> tuple[tuple[Band, tuple[str, ...]], ...]:
    """Candidates whose bands of a measure an ordinary instrument cannot tell apart, together; from the smallest on."""
    rows = sorted(sizes, key=lambda candidate: candidate.sized.bands[name])
    unit = unit_of(name, rows[0].sized.bands[name])
    slack = {"mm": Decimal("0.1"), "deg": Decimal(4)}.get(unit, Decimal(0))
    slack = {"pitch": Decimal("0.03"), "threads-per-inch": Decimal("0.6")}.get(name, slack)
    groups: list[tuple[Band, list[str]]] = []
    for candidate in rows:
        band, word = candidate.sized.bands[name], candidate.sized.designation
        if groups and band.low <= groups[-1][0].high + slack:
            before, names = groups[-1]
            groups[-1] = before._replace(high=max(before.high, band.high)), [*names, word]
        else:
            groups.append((Band(band.low, band.high, unit=unit), [word]))
    return tuple((band, tuple(dict.fromkeys(names))) for band, names in groups)
