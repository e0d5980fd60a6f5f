"""The policy that counts: of every value the word of the nearest book that has one, the built-in book last."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any, Final, NamedTuple

import msgspec

from fitlore.graph.asking import BUILTIN, shelf_of
from fitlore.model.choices import SafetyClass
from fitlore.model.policy import ClassPolicy, ClassRules, InForce, Policy
from fitlore.model.record import Rec, as_written
from fitlore.model.shop import Duty, Vat

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

CLASSES: Final = "classes"
_NO_VALUES: Final = frozenset({"origin", "policy", "safety"})
_ROWS: Final = frozenset({"classes", "chance", "stale_after", "vat", "import_duty"})
"""Fields of a policy whose rows are put over one another each by itself."""


class Word(NamedTuple):
    """What one book says for a value, and the record that it stands in."""

    value: object
    record: Rec


class Stated(NamedTuple):
    """One value of the policy, and who says something for it, the nearest first: that one counts."""

    path: tuple[str, ...]
    """Keys as books write them: `classes`, `braking`, `no-used`; `chance`, `told`; `tyre-age-years`."""
    words: tuple[Word, ...]


def in_force(policies: Iterable[Policy]) -> InForce:
    """One policy of several, the nearest first, value by value; what none of them says is the strictest there can be."""
    farthest_first = list(policies)[::-1]
    found = InForce()
    for policy in farthest_first:
        found = found._replace(
            chance=found.chance | policy.chance,
            stale_after=found.stale_after | policy.stale_after,
            vat=tuple({_vat_key(row): row for row in (*found.vat, *policy.vat)}.values()),
            import_duty=tuple({_duty_key(d): d for d in (*found.import_duty, *policy.import_duty)}.values()),
            **{name: value for name, value in _said(policy).items() if name not in _ROWS},
        )
    rows = [row for policy in farthest_first for row in policy.classes]
    spoken_of = [safety for safety in SafetyClass if any(row.safety is safety for row in rows)]
    return found._replace(classes=tuple(_rules(safety, rows) for safety in spoken_of))


def _rules(safety: SafetyClass, rows: Iterable[ClassPolicy]) -> ClassRules:
    """A class's rows over one another, the farthest first."""
    rules = ClassRules(safety)
    for row in rows:
        if row.safety is safety:
            said = _said(row)
            origins = rules.origins | dict.fromkeys(said, row.origin)
            rules = rules._replace(**said, origins=origins)
    return rules


def counting(graph: Graph) -> tuple[Policy, ...]:
    """The policies that count, the nearest first: the built-in one and those on the shop's own shelf.

    That is the first shelf without a cap on its trust, the one the shop writes on; others are somebody else's, whose rules
    loosen nothing here.
    """
    held = graph.held
    own = next((name for name in held.shelves if name and name not in held.trust), "")
    return tuple(one for one in graph.policies if shelf_of(one) in ("", own, BUILTIN))


def stated(policies: Sequence[Policy]) -> tuple[Stated, ...]:
    """Every value that one of the policies (the nearest first) speaks of: by class from the strictest, then as written."""
    found: dict[tuple[str, ...], list[Word]] = {}
    for policy in reversed(policies):
        for path, word in dict(_words(policy)).items():
            found.setdefault(path, []).insert(0, word)
    classes = [safety.value for safety in SafetyClass]
    tables = list(dict.fromkeys(path[0] for path in found))

    def rank(path: tuple[str, ...]) -> tuple[int, int]:
        return (-1, classes.index(path[1])) if path[0] == CLASSES else (tables.index(path[0]), 0)

    return tuple(Stated(path, tuple(found[path])) for path in sorted(found, key=rank))


def _words(policy: Policy) -> Iterator[tuple[tuple[str, ...], Word]]:
    """What a policy says, one value after the other; of two rows for one value the later one counts."""
    for row in policy.classes:
        for name, value in _said(row).items():
            yield (CLASSES, row.safety.value, as_written(name)), Word(value, row)
    for name in ("chance", "stale_after"):
        for key, value in getattr(policy, name).items():
            yield (as_written(name), key), Word(value, policy)
    yield from (
        ((as_written(name),), Word(value, policy))
        for name, value in _said(policy).items()
        if name not in _ROWS
    )
    for vat in policy.vat:
        yield ("vat", *_vat_key(vat)), Word(vat.charge, vat)
    for duty in policy.import_duty:
        yield ("import-duty", *_duty_key(duty)), Word(duty.charge, duty)


def _said(record: Rec) -> dict[str, Any]:
    """The fields that a record says: a field at its default says nothing (see `model.policy`)."""
    said = {}
    for field in msgspec.structs.fields(record):
        default = field.default if field.default_factory is msgspec.NODEFAULT else field.default_factory()
        value = getattr(record, field.name)
        if field.name not in _NO_VALUES and value != default:
            said[field.name] = value
    return said


def _vat_key(row: Vat) -> tuple[str, str]:
    return row.country, row.since.isoformat()


def _duty_key(row: Duty) -> tuple[str, str, str, str]:
    return row.country, ", ".join(row.coming_from), row.is_ or "", row.since.isoformat()
