"""The JSON of the commands of `books`; the shapes are on their help pages."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from fitlore.model.policy import Policy
from fitlore.report.machine import Json
from fitlore.report.policy import group_of, key_of
from fitlore.upkeep.policy_values import PolicyValue, Said

if TYPE_CHECKING:
    from fitlore.upkeep.counts import Counts


def policy_json(values: Iterable[PolicyValue], not_counted: Iterable[Policy]) -> Json:
    """Every value with its line and what it goes over."""
    return {
        "values": [
            {
                "of": group_of(value),
                "key": key_of(value),
                **_said(value.now),
                "over": [_said(one) for one in value.over],
                "looser_for": value.looser or None,
            }
            for value in values
        ],
        "not_counted": [{"policy": one.policy, "line": str(one.origin)} for one in not_counted],
    }


def _said(one: Said) -> Json:
    return {"value": one.text, "line": str(one.origin)}


def counts_json(counts: Counts) -> Json:
    """Every figure, under the names of `upkeep.counts`."""
    return {**counts._asdict(), "books": [book._asdict() for book in counts.books]}
