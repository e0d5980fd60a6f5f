"""The JSON of `what` and `compare`; the shapes are on their help pages."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from fitlore.fitting.side_by_side import Pair
from fitlore.model.part import Part
from fitlore.model.platform import Car
from fitlore.report.machine import Json, because_json
from fitlore.report.pairs import Held, measures
from fitlore.report.sizes import Listing, shown
from fitlore.trade.identify import Agreed, Candidate, Tells, unit_of
from fitlore.trade.measuring import Measured
from fitlore.trade.sizes import Band


def what_json(
    car: Car | None,
    measured: Measured,
    found: Sequence[Candidate],
    rows: Sequence[Listing],
    tells: Tells | None,
    bolt_circle: Decimal | None,
) -> Json:
    """What was measured, the candidates and what to measure next."""
    return {
        "car": car.car if car else None,
        "thing": measured.thing or None,
        "measured": [
            {
                "measure": one.measure or None,
                "text": one.text,
                "value": str(one.value),
                "error": str(one.error),
                "unit": one.unit,
            }
            for one in measured.said
        ],
        "bolt-circle": shown(bolt_circle) if bolt_circle is not None else None,
        "candidates": [_candidate(number, row) for number, row in enumerate(rows, 1)],
        "all": len(found),
        "next": _tells(tells) if tells else None,
    }


def compare_json(
    needed: str, offered: str, held: Sequence[Held], pair: tuple[Part, Part, Pair] | None
) -> Json:
    """Both texts, each family's comparison, and that of the parts where they are parts of the books."""
    return {
        "needed": needed,
        "offered": offered,
        "compared": [_held(number, row) for number, row in enumerate(held, 1)],
        "parts": _pair(*pair) if pair else None,
    }


def _held(number: int, row: Held) -> Json:
    rows = measures(*row.sizes)
    return {
        "number": number,
        "kind": row.kind,
        "state": row.state.value,
        "needed": row.needed,
        "offered": row.offered,
        "from-memory": row.outcome.memory,
        "sizes": [
            {
                "measure": name,
                "unit": unit_of(name, one or other or Band(Decimal(0), Decimal(0))),
                "needed": _band(one) if one else None,
                "offered": _band(other) if other else None,
            }
            for name, one, other in rows
        ],
        "not-said": list(row.about.not_said),
        "because": because_json(row.because),
    }


def _pair(needed: Part, offered: Part, pair: Pair) -> Json:
    return {
        "needed": needed.part,
        "offered": offered.part,
        "category": pair.category or None,
        "state": pair.state.value,
        "features": [
            {
                "feature": check.feature,
                "state": check.state.value,
                "needed": check.needed,
                "offered": check.offered,
                "because": because_json(check.because),
            }
            for check in pair.checks
        ],
    }


def _candidate(number: int, row: Listing) -> Json:
    candidate = row.candidate
    return {
        "number": number,
        "kind": candidate.sized.kind,
        "designation": candidate.sized.designation,
        "how": candidate.how,
        "measures": [_agreed(one) for one in candidate.agreed],
        "serves": [
            {
                "place": one.place.full_path,
                "feature": one.feature,
                "needed": one.needed,
                "state": one.state.value,
            }
            for one in row.serves
        ],
        "verdicts": list(row.verdicts),
        "because": because_json(candidate.sized.because),
    }


def _agreed(one: Agreed) -> Json:
    return {
        "measure": one.measure,
        "said": one.said.text,
        **_band(one.band),
        "how": one.how,
        "by": str(one.by),
    }


def _band(band: Band) -> Json:
    return {"low": str(band.low), "high": str(band.high)}


def _tells(tells: Tells) -> Json:
    groups = [{**_band(band), "names": list(names)} for band, names in tells.groups]
    return {"measure": tells.measure, "unit": tells.unit, "groups": groups}
