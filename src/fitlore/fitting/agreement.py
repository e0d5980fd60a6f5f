"""What must agree across the car: a part against the one that stays on the other side, or at another place."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.interface import compare
from fitlore.fitting.measured import stated
from fitlore.fitting.parts import part_named
from fitlore.fitting.place import split_side, stays_on
from fitlore.fitting.shape import Ask, Check, State, Way
from fitlore.model.because import Because
from fitlore.model.kleene import Tri
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.fitting.ways import Setting

OTHER_SIDE = "other-side"


class Agreed(NamedTuple):
    """Whether a feature agrees with what stays, the question where that is unknown, and the step of the proof."""

    feature: str
    value: Tri
    ask: Ask
    because: Because


def agreements(part: Part, way: Way, checks: Iterable[Check], setting: Setting) -> tuple[Agreed, ...]:
    """One row per feature of the part that must be the same elsewhere on the car, and per place where."""
    rows = []
    for check in checks:
        for path in _where(check.definition.with_, setting):
            rows.append(_agreed(part, way, check, path, setting))
    return tuple(rows)


def _where(with_: str, setting: Setting) -> tuple[str, ...]:
    """The places a feature has to agree with; the other side only where that keeps what it has."""
    place = setting.resolved.place
    if not with_:
        return ()
    if with_ != OTHER_SIDE:
        return (with_,)
    if not setting.side or setting.both:
        return ()
    return tuple(f"{place.path}@{side}" for side in place.sides if side != setting.side)


def _agreed(part: Part, way: Way, check: Check, path: str, setting: Setting) -> Agreed:
    about = "other-side" if check.definition.with_ == OTHER_SIDE else "place"
    ask = Ask(about, check.feature if about == "other-side" else path, check.definition.look)
    mine = stated(part, check.feature, check.definition, setting.graph.standards)
    values = {"feature": check.feature, "offered": ", ".join(mine.values), "needed": "", "remark": path}
    rows, lines = set(), [*mine.origins]
    for number in _numbers_at(way, path, setting):
        other = part_named(setting.graph, number, setting.resolved.place.maker)
        there = stated(other, check.feature, check.definition, setting.graph.standards) if other else None
        if there is None or not there.values or not mine.values:
            rows.add(Tri.ASK)
            continue
        values["needed"] = ", ".join(there.values)
        lines += there.origins
        states = {
            compare(check.definition, want, have, setting.graph.standards).state
            for want in there.values
            for have in mine.values
        }
        rows.add(Tri.TRUE if State.OK in states else Tri.ASK if State.UNKNOWN in states else Tri.FALSE)
    tri = rows.pop() if len(rows) == 1 else Tri.ASK
    codes = {Tri.TRUE: "ok", Tri.FALSE: "off", Tri.ASK: "unknown"}
    return Agreed(
        check.feature, tri, ask, Because(f"feature-{codes[tri]}", values, tuple(dict.fromkeys(lines)))
    )


def _numbers_at(way: Way, path: str, setting: Setting) -> tuple[str, ...]:
    """What will be at the other place: what the way brings along for it, else what is known to be on the car."""
    base, side = split_side(path)
    for companion in way.companions:
        at, own = split_side(companion.at.removeprefix(f"{setting.resolved.place.on}/"))
        if at == base and own in ("", side):
            return tuple(companion.use)
    key, known = stays_on(setting.car, path)
    return (key,) if known else ()
