"""The cap that a shelf's trust puts on what it says somebody knows."""

from __future__ import annotations

from typing import Final, TypeVar

import msgspec

from fitlore.model.choices import How
from fitlore.model.part import CrossFit, Evidence, Measured, Part, Quality
from fitlore.model.platform import Car, Established, ReallyOn
from fitlore.model.record import Rec
from fitlore.model.supply import Donor

_WEAKER: Final = {how: rank for rank, how in enumerate(How)}
K = TypeVar("K", Evidence, Measured, Established, ReallyOn)


def capped(record: Rec, trust: How | None) -> Rec:
    """The record with no evidence on it better than the shelf is trusted with (None: any).

    Evidence against a claim or a version of a part is left as it is: little trust is a reason to believe less, never to doubt
    less.
    """
    if trust is None:
        return record
    if isinstance(record, CrossFit):
        return msgspec.structs.replace(
            record, evidence=tuple(_cap(piece, trust) for piece in record.evidence)
        )
    if isinstance(record, Quality):
        return msgspec.structs.replace(record, against=tuple(_cap(piece, trust) for piece in record.against))
    if isinstance(record, Donor):
        return msgspec.structs.replace(record, facts=_each(record.facts, trust))
    if isinstance(record, Part):
        return msgspec.structs.replace(record, measured=_each(record.measured, trust))
    if isinstance(record, Car):
        facts, really = _each(record.facts, trust), _each(record.really_on_it, trust)
        return msgspec.structs.replace(record, facts=facts, really_on_it=really)
    return record


def _each(known: dict[str, K], trust: How) -> dict[str, K]:
    return {name: _cap(value, trust) for name, value in known.items()}


def _cap(known: K, trust: How) -> K:
    if known.how is None or _WEAKER[known.how] >= _WEAKER[trust]:
        return known
    return msgspec.structs.replace(known, how=trust)
