"""Rules about sizes and days: mixed units, sizes that nothing can have, and days that have not come yet."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from typing import Final

from fitlore.books.faults import Fault, fault, register
from fitlore.model.amounts import Quantity, read_quantity
from fitlore.model.dates import Period
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin
from fitlore.model.part import Evidence, Part
from fitlore.model.units import UNITS
from fitlore.trade.family import FAMILIES
from fitlore.trade.result import Unreadable
from fitlore.upkeep.knowing import Known, named

_NOT_BELOW_NOTHING: Final = frozenset(
    {"current", "force", "length", "power", "pressure", "resistance", "voltage"}
)
"""Kinds of feature whose values are nothing (`0 mm`: there is none) or more. Angles and temperatures may be less."""
_SIGNED: Final = re.compile(r"\b(?:offset|dish|lift|rake)\b")
"""Words in the name of a feature that is a length from a line, to either side of it."""
_INNER: Final = frozenset({"bore", "inside", "inside-diameter", "hole"})
_OUTER: Final = frozenset({"outside", "outside-diameter"})
_DECIMAL: Final = frozenset({"mm", "g", "l", "bar", "N", "N.m"})
"""Base units that have units of both systems; all of one system are powers of ten of each other."""
_ROUNDED, _WORN = Decimal("0.5"), Decimal("0.02")
"""How far, in mm and as a share, a size may be from its designation's: by rounding (108 for 107.95), or by wear."""
_FIGURES: Final = re.compile(r"^[-+0-9./, ]+")


register(
    [
        Fault(
            "Q36-impossible-size",
            Severity.ERROR,
            "A size that nothing can have",
            "{part} states {feature}: {value}; {why}",
            "sizes that one part can have together",
            "measure again, or look the designation up; a slip of the point or of the unit is the usual cause",
        ),
        Fault(
            "Q37-mixed-units",
            Severity.NOTE,
            "Units of two systems in one part",
            "{part} states {feature}: {value} beside {other}: {others}",
            "all sizes of a part in the units of one system",
            "look whether the figure belongs to that unit; then write both in the same",
        ),
        Fault(
            "Q38-dated-ahead",
            Severity.WARNING,
            "Something found out on a day to come",
            "{what} is dated {day}, and the day of asking is {today}",
            "a day that has come",
            "put the day right; the year is the usual slip",
        ),
    ]
)


def _stated(known: Known, part: Part) -> Iterator[tuple[str, str, str, Origin]]:
    """Features with their kind, each value as written and its line."""
    interface = known.interface(part.is_)
    if interface is None:
        return
    values = [(name, text, part.origin) for name, texts in part.features.items() for text in texts]
    values += [
        (name, one.value, one.origin if one.origin.book else part.origin)
        for name, one in part.measured.items()
    ]
    for name, text, origin in values:
        if name in interface.features:
            yield name, interface.features[name].kind, text, origin


def mixed_units(known: Known) -> Iterator[Diagnostic]:
    """A part gives its sizes in one system of units: a slip between the two is a factor of 25.

    A feature that everybody gives in the other one, as a rim's width in inches, is no slip.
    """
    written: dict[tuple[str, str], set[bool]] = defaultdict(set)
    rows: dict[str, list[tuple[str, str, Origin, str, bool]]] = defaultdict(list)
    for part in known.parts:
        for name, kind, text, origin in _stated(known, part):
            system = None if kind in FAMILIES else _system(text)
            if system is not None:
                written[part.is_, name].add(system[1])
                rows[f"{part.is_}|{named(part)}"].append((name, text, origin, *system))
    for about, stated in rows.items():
        category, _, part_name = about.partition("|")
        for name, text, origin, base, decimal in stated:
            others = [one for one in stated if one[3] == base and one[4] != decimal]
            if others and len(written[category, name]) > 1:
                beside, its = others[0][:2]
                yield fault(
                    "Q37-mixed-units",
                    origin,
                    part=part_name,
                    feature=name,
                    value=text,
                    other=beside,
                    others=its,
                )
                break


def _system(text: str) -> tuple[str, bool] | None:
    """Base unit, and whether the unit written is a power of ten of it; None for what is no size with such a unit."""
    unit = UNITS.get(_FIGURES.sub("", text.strip()).strip())
    if unit is None or unit.base not in _DECIMAL:
        return None
    ratio = Decimal(unit.up) / Decimal(unit.down)
    return unit.base, ratio.normalize().as_tuple().digits == (1,)


def impossible(known: Known) -> Iterator[Diagnostic]:
    """Sizes that a part can have: not below nothing, no bore wider than the outside, and those of its designation."""
    for part in known.parts:
        sizes: dict[str, tuple[str, Quantity, Origin]] = {}
        designations = []
        for name, kind, text, origin in _stated(known, part):
            if kind in FAMILIES:
                designations.append((name, kind, text))
                continue
            size = read_quantity(text)
            if size is None:
                continue
            sizes.setdefault(name, (text, size, origin))
            signed = kind not in _NOT_BELOW_NOTHING or _SIGNED.search(name.replace("-", " "))
            if size.value < 0 and not signed:
                yield _impossible(part, origin, name, text, "no such size is less than nothing")
        yield from _inside_out(part, sizes)
        for name, kind, text in designations:
            yield from _otherwise_said(known, part, sizes, (name, kind, text))


def _inside_out(part: Part, sizes: dict[str, tuple[str, Quantity, Origin]]) -> Iterator[Diagnostic]:
    for inner in sorted(_INNER & sizes.keys()):
        for outer in sorted(_OUTER & sizes.keys()):
            text, size, origin = sizes[inner]
            around, outside, _ = sizes[outer]
            if size.unit == outside.unit and size.value >= outside.value:
                yield _impossible(part, origin, inner, text, f"its {outer} is {around}")


def _otherwise_said(
    known: Known,
    part: Part,
    sizes: dict[str, tuple[str, Quantity, Origin]],
    designation: tuple[str, str, str],
) -> Iterator[Diagnostic]:
    """Sizes beside a designation of a standard that gives others; of parts that are the thing that is designated.

    A hub has its bearing's designation, and a width of its own.
    """
    name, kind, text = designation
    if not part.is_.endswith(kind.rpartition("-")[2]):
        return
    reading = FAMILIES[kind].read(text, known.graph.standards)
    if isinstance(reading, Unreadable):
        return
    for key, figure in reading.keys.items():
        for said in (key, f"{key}-diameter"):
            if said not in sizes:
                continue
            written, size, origin = sizes[said]
            if size.unit == "mm" and abs(size.value - figure) > max(_ROUNDED, figure * _WORN):
                yield _impossible(part, origin, said, written, f"{name} {text} has {figure} mm there")


def _impossible(part: Part, origin: Origin, feature: str, value: str, why: str) -> Diagnostic:
    return fault("Q36-impossible-size", origin, part=named(part), feature=feature, value=value, why=why)


def dated_ahead(known: Known) -> Iterator[Diagnostic]:
    """What was seen, tried or measured was so on a day that has come, or that a job is planned from."""
    today = max([known.today, *(job.today for job in known.graph.jobs() if job.today is not None)])
    for what, origin, day in _days(known):
        if day > today:
            yield fault("Q38-dated-ahead", origin, what=what, day=day.isoformat(), today=today.isoformat())


def _days(known: Known) -> Iterator[tuple[str, Origin, date]]:
    for claim in known.claims:
        yield from _of_evidence(
            f"the claim `{claim.crossfit}`", claim.origin, (*claim.evidence, *claim.against)
        )
    for part in known.parts:
        for name, one in part.measured.items():
            if one.date is not None:
                origin = one.origin if one.origin.book else part.origin
                yield f"the {name} of {named(part)}", origin, _first_day(one.date)
    for offer in known.offers:
        if offer.offer.seen is not None:
            yield f"an offer of {offer.supplier}", offer.origin, offer.offer.seen


def _of_evidence(
    what: str, fallback: Origin, pieces: Iterable[Evidence]
) -> Iterator[tuple[str, Origin, date]]:
    for piece in pieces:
        if piece.date is not None:
            origin = piece.origin if piece.origin.book else fallback
            yield f"evidence on {what}", origin, _first_day(piece.date)


def _first_day(period: Period) -> date:
    return date.fromordinal(max(1, period.start))


RULES = (mixed_units, impossible, dated_ahead)
