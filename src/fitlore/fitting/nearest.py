"""Which of many parts that nobody has claimed are looked at first: by what their own records say, without a verdict."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.fitting.interface import compare
from fitlore.fitting.narrowing import Worth, offered, worth
from fitlore.fitting.once import once
from fitlore.fitting.parts import Identity, identity
from fitlore.fitting.shape import State
from fitlore.fitting.ways import passes
from fitlore.model.category import Feature
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.fitting.ways import Setting
    from fitlore.graph.open import Graph

NEAREST: Final = 12
"""So many parts that nobody has claimed are shown at a place: a dozen is choice enough, and a screen with what is claimed
above them still holds it (judgement of this project)."""


class Nearness(NamedTuple):
    """The order, least first: what agrees in most of what is required, is of the car's maker, says most; then by number."""

    unequal: int
    """Required features of which it states nothing that agrees."""
    foreign: bool
    unsaid: int
    """Required features of which it states none."""
    number: str
    issuer: str


class Lot(NamedTuple):
    """Parts that nobody need have claimed, the nearest first, each once."""

    found: dict[Identity, Part]
    """Those that may go."""
    traps: dict[Identity, Part]
    """Of those, and of others of about the size, the ones whose own record says a designation that is a trap."""
    rank: dict[Identity, Nearness]


def lot(setting: Setting) -> Lot:
    """What may go at a place by measure alone, in order; worked out once where several places require the same."""
    known, here = _lots(setting.graph), worth(setting)
    asked = (here.asked, setting.resolved.place.maker, setting.side, setting.interface.sides)
    if asked not in known:
        known[asked] = _lot(setting, here)
    return known[asked]


@once
def _lots(graph: Graph) -> dict[tuple[object, ...], Lot]:
    return {}


def _lot(setting: Setting, here: Worth) -> Lot:
    records = [part for part in (*here.found, *here.about) if passes(part, setting)]
    rank = nearness(setting, records)
    found = {identity(part) for part in here.found}
    every = {identity(part): part for part in reversed(records)}
    trap = _Values(setting, here.designations, State.TRAP)
    traps = {
        identity(part)
        for part in records
        if any(trap(name, value) for name in trap.names for value in offered(part, name))
    }
    order = sorted(every, key=rank.__getitem__)
    return Lot(
        {key: every[key] for key in order if key in found},
        {key: every[key] for key in order if key in traps},
        rank,
    )


def nearness(setting: Setting, records: Iterable[Part]) -> dict[Identity, Nearness]:
    """How near each of these parts is to what is required; several records of one part are added up.

    Each value is held against what is needed by itself: that puts parts in order and decides nothing.
    """
    agrees = _Values(setting, setting.interface.features, State.OK, State.WORK)
    maker = setting.resolved.place.maker.casefold()
    found: dict[Identity, set[str]] = {}
    said: dict[Identity, set[str]] = {}
    makers: dict[Identity, set[str]] = {}
    for part in records:
        key = identity(part)
        makers.setdefault(key, set()).add(part.maker.casefold())
        for name in agrees.names:
            values = offered(part, name)
            if values:
                said.setdefault(key, set()).add(name)
            if any(agrees(name, value) for value in values):
                found.setdefault(key, set()).add(name)
    many = len(agrees.names)
    return {
        key: Nearness(
            many - len(found.get(key, ())),
            not maker or maker not in theirs,
            many - len(said.get(key, ())),
            key[1],
            key[0],
        )
        for key, theirs in makers.items()
    }


class _Values:
    """Which values of features are of such a state against something that is required; each value is compared once."""

    def __init__(
        self, setting: Setting, features: Mapping[str, Feature | list[Feature]], *states: State
    ) -> None:
        requirement = setting.requirement
        alternatives = [*requirement.alternatives, requirement.otherwise or {}]
        self._needs = {
            name: tuple(
                dict.fromkeys(v for needs in alternatives if name in needs for v in needs[name].values)
            )
            for name in features
        }
        self._features, self._states, self._standards = features, states, setting.graph.standards
        self._known: dict[tuple[str, str], bool] = {}
        self.names = tuple(name for name, needs in self._needs.items() if needs)
        """The features of which something is required."""

    def __call__(self, name: str, value: str) -> bool:
        if (name, value) not in self._known:
            one = self._features[name]
            self._known[name, value] = any(
                compare(feature, needed, value, self._standards).state in self._states
                for needed in self._needs[name]
                for feature in (one if isinstance(one, list) else [one])
            )
        return self._known[name, value]
