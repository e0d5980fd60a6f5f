"""What must change together, and what must never be on a car together."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.conditions import merge_asks
from fitlore.fitting.place import stays_on
from fitlore.fitting.shape import Ask
from fitlore.model.because import Because
from fitlore.model.kleene import Tri, all_of
from fitlore.model.numbers import number_key
from fitlore.model.part import Companion, Never

if TYPE_CHECKING:
    from fitlore.fitting.ways import Setting


class Beside(NamedTuple):
    """Whether the pieces beside a part allow it."""

    condition: Tri
    never: bool
    asks: tuple[Ask, ...]
    steps: tuple[Because, ...]


def companion_state(companions: Iterable[Companion], never_with: Iterable[Never], setting: Setting) -> Beside:
    """A package is bought as a whole, so companions never make a doubt; a forbidden pair does, until the other is known."""
    together = list(companions)
    steps = [
        Because(
            "with",
            {"at": c.at, "use": " or ".join(c.use), "why": c.why},
            (c.origin,) if c.origin.book else (),
        )
        for c in together
    ]
    verdicts: list[tuple[Tri, tuple[Ask, ...]]] = []
    for never in never_with:
        tri = _apart(never, together, setting)
        use = " or ".join(never.use)
        ask = Ask("place", never.at or use, never.why, never.use)
        verdicts.append((tri, (ask,) if tri is Tri.ASK else ()))
        origins = (never.origin,) if never.origin.book else ()
        steps.append(
            Because(f"never-with-{tri.value}", {"use": use, "why": never.why, "at": never.at or ""}, origins)
        )
    condition = all_of(tri for tri, _ in verdicts)
    return Beside(condition, condition is Tri.FALSE, merge_asks(asks for _, asks in verdicts), tuple(steps))


def still_to_buy(companions: Iterable[Companion], setting: Setting) -> tuple[Companion, ...]:
    """Companions the car does not have already, as far as somebody said what is on it."""
    rest = []
    for companion in companions:
        key, known = stays_on(setting.graph, setting.car, companion.at)
        if not (known and key in {number_key(number) for number in companion.use}):
            rest.append(companion)
    return tuple(rest)


def _apart(never: Never, together: list[Companion], setting: Setting) -> Tri:
    """True: the forbidden piece is certainly not on the car. A companion that takes its place makes sure of it."""
    banned = {number_key(number) for number in never.use}
    for companion in together:
        takes_its_place = never.at is None or companion.at.partition("@")[0] == never.at.partition("@")[0]
        if takes_its_place and not banned & {number_key(number) for number in companion.use}:
            return Tri.TRUE
    if never.at is None:
        on_it = (
            {number_key(r.number) for r in setting.car.really_on_it.values() if r.number}
            if setting.car
            else set()
        )
        return Tri.FALSE if banned & on_it else Tri.ASK
    key, known = stays_on(setting.graph, setting.car, never.at)
    if not known:
        return Tri.ASK
    return Tri.FALSE if key in banned else Tri.TRUE
