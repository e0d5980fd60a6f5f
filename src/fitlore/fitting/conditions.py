"""Conditions in three values: does this hold for this car, or what has to be asked to know."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Final, NamedTuple

import msgspec

from fitlore.fitting.shape import Ask
from fitlore.model.because import Because
from fitlore.model.dates import read_period, within
from fitlore.model.kleene import Tri, all_of, any_of
from fitlore.model.late import Late
from fitlore.model.part import Part
from fitlore.model.platform import Cond, Condition, Established

_SERIAL: Final = Late(r"([A-Za-z][A-Za-z0-9]*)[\s-]*(\d+)")
_RANGE: Final = Late(r"(\d*|\.\.)(?:/(\d*|\.\.))?")
DATES: Final = frozenset({"built", "registered"})
"""Facts that are dates; their conditions are periods (EDTF)."""


def seen_only(facts: Mapping[str, Established]) -> dict[str, Established]:
    """The facts as far as somebody saw them on the car, or did not say how he knows: plates and papers lie.

    What was only read or told is as good as not known, and is named beside it. A date of registration is on paper only.
    """
    return {name: fact if name == "registered" else _seen(fact) for name, fact in facts.items()}


def _seen(fact: Established) -> Established:
    if fact.how is None or fact.how.first_hand or not fact.value:
        return fact
    said = "; ".join(text for text in (" or ".join(fact.value), fact.note) if text)
    return msgspec.structs.replace(fact, value=(), note=said)


class Held(NamedTuple):
    """Whether a condition holds, what to ask where it is unknown, and one step of proof per fact."""

    value: Tri
    asks: tuple[Ask, ...]
    steps: tuple[Because, ...]


def holds(condition: Condition, facts: Mapping[str, Established]) -> Held:
    """Strong Kleene conjunction over the facts a condition names. An empty condition holds."""
    rows = [(name, cond, _one(name, cond, facts)) for name, cond in condition.items()]
    value = all_of(row[2] for row in rows)
    asks = tuple(
        Ask("fact", name, _look(name), _choices(name, cond)) for name, cond, tri in rows if tri is Tri.ASK
    )
    steps = tuple(_step(name, cond, tri, facts.get(name)) for name, cond, tri in rows)
    return Held(value, asks if value is Tri.ASK else (), steps)


def holds_of_donor(condition: Condition, part: Part) -> Held:
    """The same of the car a part comes off; of one that only has a number nothing is known of that car."""
    taken = part.taken_from
    facts = {"built": Established(value=(str(taken.built),))} if taken and taken.built else {}
    held = holds(condition, facts)
    asks = (Ask("feature", f"donor ({ask.name})", "the car it comes off", ask.choices) for ask in held.asks)
    return held._replace(asks=tuple(asks))


def _one(name: str, cond: Cond, facts: Mapping[str, Established]) -> Tri:
    own = _known(name, cond, facts.get(name))
    if name != "built":
        return own
    bound = _from_registration(cond, facts)
    if own is Tri.ASK or bound is Tri.ASK:
        return bound if own is Tri.ASK else own
    return own if own is bound else Tri.ASK


def _known(name: str, cond: Cond, known: Established | None) -> Tri:
    if known is None or not known.value:
        return Tri.ASK
    answers = {_single(name, cond, value) for value in known.value}
    return answers.pop() if len(answers) == 1 else Tri.ASK


def _from_registration(cond: Cond, facts: Mapping[str, Established]) -> Tri:
    """A registration only bounds the building date from above."""
    known = facts.get("registered")
    if known is None or len(known.value) != 1:
        return Tri.ASK
    period = read_period("../" + known.value[0])
    if period is None:
        return Tri.ASK
    return _kleene(cond, lambda text: within(period, p) if (p := read_period(text)) else Tri.ASK)


def _single(name: str, cond: Cond, value: str) -> Tri:
    if cond.series:
        banned = any_of(_same_serial(text, value) for text in cond.not_)
        return _serial(cond.series, value) & ~banned
    if name in DATES:
        day = read_period(value)
        if day is None:
            return Tri.ASK
        return _kleene(cond, lambda text: within(day, p) if (p := read_period(text)) else Tri.ASK)
    return _kleene(cond, lambda text: Tri.TRUE if _fold(text) == _fold(value) else Tri.FALSE)


def _kleene(cond: Cond, test: Callable[[str], Tri]) -> Tri:
    good = any_of(map(test, cond.any_)) if cond.any_ else Tri.TRUE
    bad = any_of(map(test, cond.not_)) if cond.not_ else Tri.FALSE
    return good & ~bad


def _serial(series: Mapping[str, str], value: str) -> Tri:
    """Digits are compared as integers within their series; a series that is not listed is unknown."""
    match = _SERIAL.fullmatch(value.strip())
    bounds = serial_bounds(series, match[1]) if match else None
    if match is None or bounds is None:
        return Tri.ASK
    number, (low, high) = int(match[2]), bounds
    inside = (low is None or number >= low) and (high is None or number <= high)
    return Tri.TRUE if inside else Tri.FALSE


def serial_bounds(series: Mapping[str, str], name: str) -> tuple[int | None, int | None] | None:
    """The first and the last number of a condition's range in one series (None: open); None where it says none."""
    text = next((r for s, r in series.items() if _fold(s) == _fold(name)), "")
    match = _RANGE.fullmatch(text)
    if not text or match is None:
        return None
    low, high = match[1], match[1] if match[2] is None else match[2]
    ends = (int(low) if low.isdigit() else None, int(high) if high.isdigit() else None)
    crossed = ends[0] is not None and ends[1] is not None and ends[0] > ends[1]
    return None if crossed else ends


def _same_serial(one: str, other: str) -> Tri:
    first, second = _SERIAL.fullmatch(one.strip()), _SERIAL.fullmatch(other.strip())
    if first is None or second is None:
        return Tri.ASK
    same = _fold(first[1]) == _fold(second[1]) and int(first[2]) == int(second[2])
    return Tri.TRUE if same else Tri.FALSE


def _fold(text: str) -> str:
    return " ".join(text.split()).casefold()


def _look(name: str) -> str:
    known = {
        "chassis": "the chassis number on the plate and stamped in the body",
        "engine": "the engine number and what is cast on the block",
        "built": "the date code on glass, belts or seals; the plate only bounds it",
        "steering": "which side the wheel is on",
    }
    return known.get(name, "")


def _choices(name: str, cond: Cond) -> tuple[str, ...]:
    return tuple(sorted({*cond.any_, *cond.not_, *(f"{s} {r}" for s, r in cond.series.items())}))


def _step(name: str, cond: Cond, tri: Tri, known: Established | None) -> Because:
    wanted = ", ".join(
        [*cond.any_, *(f"not {v}" for v in cond.not_), *(f"{s} {r}" for s, r in cond.series.items())]
    )
    values = {"fact": name, "wanted": wanted, "is": " or ".join(known.value) if known else ""}
    values["is"] = values["is"] or "not known"
    if known is not None:
        values |= {"how": known.how.value if known.how else "", "by": known.by, "note": known.note}
    origins = tuple(o for o in (cond.origin, known.origin if known else None) if o is not None and o.book)
    return Because(f"condition-{tri.value}", values, origins)


def merge_asks(groups: Iterable[Iterable[Ask]]) -> tuple[Ask, ...]:
    """All questions, each once; the choices of equal ones are joined."""
    seen: dict[tuple[str, str], Ask] = {}
    for ask in (ask for group in groups for ask in group):
        old = seen.get((ask.about, ask.name))
        choices = tuple(sorted({*ask.choices, *(old.choices if old else ())}))
        seen[ask.about, ask.name] = Ask(ask.about, ask.name, ask.look or (old.look if old else ""), choices)
    return tuple(seen.values())
