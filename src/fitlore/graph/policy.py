"""The policy that counts: the built-in one, with what the shop says differently put over it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import msgspec

from fitlore.model.job import ClassPolicy, Policy
from fitlore.model.record import Name


def merged(policies: Iterable[Policy]) -> Policy:
    """One policy of several, the later ones over the earlier.

    A field that a later one leaves at its default stays; tables are merged row by row (a class policy field by field).
    """
    result = Policy(policy=Name("none"))
    for policy in policies:
        result = _over(result, policy)
    return result


def _over(below: Policy, above: Policy) -> Policy:
    changes = _stated(above)
    changes["chance"] = below.chance | above.chance
    changes["stale_after"] = below.stale_after | above.stale_after
    rows: dict[object, ClassPolicy] = {row.safety: row for row in below.classes}
    for row in above.classes:
        known = rows.get(row.safety)
        rows[row.safety] = msgspec.structs.replace(known, **_stated(row)) if known else row
    changes["vat"] = tuple({(row.country, row.since): row for row in (*below.vat, *above.vat)}.values())
    duties = {(d.country, d.coming_from, d.is_, d.since): d for d in (*below.import_duty, *above.import_duty)}
    changes["import_duty"] = tuple(duties.values())
    changes["classes"] = tuple(rows.values())
    return msgspec.structs.replace(below, **changes)


def _stated(record: msgspec.Struct) -> dict[str, Any]:
    """The fields of a record that are not at their defaults."""
    stated: dict[str, Any] = {}
    for field in msgspec.structs.fields(record):
        default = field.default if field.default_factory is msgspec.NODEFAULT else field.default_factory()
        value = getattr(record, field.name)
        if value != default:
            stated[field.name] = value
    return stated
