"""The policy value by value: what is in force, where it is written, whose word it goes over, and what is looser than built in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from fitlore.graph.asking import BUILTIN, shelf_of
from fitlore.graph.policy import CLASSES, Word, counting, in_force, stated
from fitlore.model.amounts import Share
from fitlore.model.choices import SafetyClass
from fitlore.model.origin import Origin
from fitlore.model.policy import ClassRules, InForce
from fitlore.upkeep.knowing import Known

TYRE_AGE: Final = "tyre-age-years"
STATES: Final = "forbidden-states"
_RATES: Final = ("vat", "import-duty")


class Said(NamedTuple):
    """What a book says for a value, as a book writes it, and the line."""

    text: str
    origin: Origin


class PolicyValue(NamedTuple):
    """One value of the policy in force."""

    path: tuple[str, ...]
    """`classes`, `braking`, `no-used`; `chance`, `told`; `tyre-age-years`."""
    now: Said
    over: tuple[Said, ...]
    """What it goes over, the nearest first."""
    looser: str
    """For whom it is looser than the built-in one: a safety class, `tyres`, `every class`; empty where it is not."""

    @property
    def built_in(self) -> Said:
        """The farthest word for it."""
        return (self.now, *self.over)[-1]


def policy_values(known: Known) -> tuple[PolicyValue, ...]:
    """Every value that counts, by class from the strictest, then as written."""
    policies = counting(known.graph)
    built_in = [policy for policy in policies if shelf_of(policy) == BUILTIN]
    looser = set(_asks_less(in_force(policies), in_force(built_in))) if built_in else set()
    rows = []
    for one in stated(policies):
        said = [_said(known, one.path, word) for word in one.words]
        whom = (
            one.path[1] if one.path[0] == CLASSES else "tyres" if one.path[0] == TYRE_AGE else "every class"
        )
        rows.append(
            PolicyValue(one.path, said[0], tuple(said[1:]), whom if one.path in looser and said[1:] else "")
        )
    return tuple(rows)


def _said(known: Known, path: Sequence[str], word: Word) -> Said:
    """Rows of classes and rates are records of their own; other values stand below the policy itself."""
    keys = (path[2],) if path[0] == CLASSES else ("charge",) if path[0] in _RATES else tuple(path)
    return Said(as_said(word.value), known.lines.line(word.record.origin, keys))


def as_said(value: object) -> str:
    """A value as a book says it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(map(as_said, value)) or "none"
    if isinstance(value, Share):
        return f"{value.percent} %"
    return str(getattr(value, "value", value))


def _asks_less(now: InForce, built_in: InForce) -> Iterator[tuple[str, ...]]:
    """The paths of what asks less than it did; never of the class `none`, which protects nobody, nor of what only informs."""
    was = {rules.safety: rules for rules in built_in.classes}
    for rules in now.classes:
        if rules.safety in was and rules.safety is not SafetyClass.NONE:
            for key in _class_asks_less(rules, was[rules.safety]):
                yield (CLASSES, rules.safety.value, key)
    if now.tyre_age_years > built_in.tyre_age_years:
        yield (TYRE_AGE,)
    if set(built_in.forbidden_states) - set(now.forbidden_states):
        yield (STATES,)


def _class_asks_less(now: ClassRules, was: ClassRules) -> Iterator[str]:
    """The keys of a class; a caution that is worded otherwise is not fewer cautions."""
    yield from (
        key
        for key, less in (
            ("least", bool(set(now.least) - set(was.least))),
            ("least-pieces", now.least_pieces < was.least_pieces),
            ("no-used", was.no_used and not now.no_used),
            ("no-old-stock", was.no_old_stock and not now.no_old_stock),
            ("by-measure-may-be-bought", now.by_measure_may_be_bought and not was.by_measure_may_be_bought),
            ("trap-stands", was.trap_stands and not now.trap_stands),
            ("cautions", len(now.cautions) < len(was.cautions)),
        )
        if less
    )
