"""The JSON of every command: stable shapes, documented on the help pages."""

from __future__ import annotations

import json
import math
import sys
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING, Any

import msgspec

from fitlore.fitting import Answer, Verdict
from fitlore.fitting.reasons import Against
from fitlore.fitting.shape import Ask, Check, Likely
from fitlore.model.amounts import Money
from fitlore.model.because import Because
from fitlore.model.category import Law
from fitlore.model.diagnostic import Diagnostic
from fitlore.report.sentences import say

if TYPE_CHECKING:
    from fitlore.sourcing.paths import Source, Sources

Json = dict[str, Any]
"""A JSON object; its shape is on the help page of the command that prints it."""


def dump(data: object) -> str:
    """JSON text: two spaces, keys as given, ends in one end of line; plain ASCII where the output cannot hold more."""
    plain = not (sys.stdout.encoding or "").casefold().startswith("utf")
    return json.dumps(data, indent=2, ensure_ascii=plain, default=_plain) + "\n"


def _plain(value: object) -> object:
    if isinstance(value, Decimal | Money):
        return str(value)
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, frozenset | set):
        return sorted(value)
    return msgspec.to_builtins(value)


def because_json(because: Because) -> Json:
    """A proof: code, the sentence, values, lines, sources, and the steps under it."""
    return {
        "code": because.code,
        "says": say(because),
        "values": because.values,
        "lines": [str(origin) for origin in because.origins if origin.book],
        "sources": list(because.sources),
        "under": [because_json(step) for step in because.under],
    }


def against_json(found: Against) -> Json:
    """What stands against a plain yes, with what would change it; and the ways that did not lead."""
    return {
        "against": [
            {"because": because_json(reason.because), "change": [say(change) for change in reason.changes]}
            for reason in found.reasons
        ],
        "said-for": [because_json(claim) for claim in found.said_for],
        "other-ways": [
            {"verdict": way.word.value, "because": because_json(way.because)} for way in found.others
        ],
    }


def answer_json(answer: Answer, first: int = 1) -> Json:
    """One place: what is needed and every candidate with its proof."""
    return {
        "place": answer.place.full_path,
        "side": answer.side,
        "car": answer.car.car if answer.car else None,
        "category": answer.interface.category.category,
        "safety": answer.interface.safety.value,
        "needed": [
            {name: list(need.values) for name, need in alternative.items()}
            for alternative in answer.requirement.alternatives
        ],
        "candidates": [verdict_json(v, number) for number, v in enumerate(answer.verdicts, first)],
        "more-by-measure": answer.more,
        "more-traps": answer.more_traps,
        "cautions": list(answer.cautions),
        "asks": [ask_json(ask) for ask in answer.asks],
        "because": because_json(answer.requirement.because),
    }


def verdict_json(verdict: Verdict, number: int) -> Json:
    """One candidate."""
    way = verdict.way
    return {
        "number": number,
        "part": verdict.part.part,
        "maker": verdict.part.maker,
        "name": verdict.part.name,
        "verdict": verdict.word.value,
        "way": way.kind,
        "claims": [claim.crossfit for claim in way.claims],
        "chance": _chance_json(verdict.chance),
        "minutes": verdict.minutes,
        "work": list(way.work),
        "with": [{"at": c.at, "use": list(c.use), "quantity": c.quantity} for c in way.companions],
        "extras": [{"what": e.number or e.service or e.is_, "quantity": e.quantity} for e in way.extras],
        "keep": list(way.keep),
        "asks": [ask_json(ask) for ask in verdict.asks],
        "missing": list(verdict.missing),
        "features": [check_json(check) for check in verdict.checks],
        "danger": [say(step) for step in verdict.danger],
        "tell-buyer": list(way.tell_buyer),
        "law": [law_json(law) for law in way.law],
        "asks-country": verdict.asks_country,
        "because": because_json(verdict.because),
    }


def law_json(law: Law) -> Json:
    """What a country's law says on an occasion, and when somebody read it."""
    return {
        "country": law.country,
        "occasion": law.occasion,
        "does": law.does.value if law.does else None,
        "says": law.says,
        "read": str(law.read) if law.read else None,
        "source": law.source,
    }


def _chance_json(chance: Likely | None) -> Json | None:
    """The lower bound rounded down and the upper one up, so that the chance is between them as printed too."""
    if chance is None:
        return None
    low, high = (math.floor(chance.low * 1e6 + 1e-6) / 1e6, math.ceil(chance.high * 1e6 - 1e-6) / 1e6)
    return {
        "at-least": low,
        "at-most": high,
        "exact": chance.exact,
        "pieces": chance.pieces,
        "claims": chance.claims,
        "if-answered": chance.if_answered,
    }


def ask_json(ask: Ask) -> Json:
    """One open question."""
    return {"about": ask.about, "name": ask.name, "choices": list(ask.choices), "look": ask.look}


def check_json(check: Check) -> Json:
    """One row of the interface table."""
    return {
        "feature": check.feature,
        "role": check.definition.role.value,
        "state": check.state.value,
        "needed": check.needed,
        "offered": check.offered,
    }


def diagnostic_json(diagnostic: Diagnostic) -> Json:
    """One fault of a book."""
    origin = diagnostic.origin
    return {
        "code": diagnostic.code,
        "severity": diagnostic.severity.value,
        "book": origin.book,
        "line": origin.line,
        "column": origin.column,
        "message": diagnostic.message,
        "expected": diagnostic.expected,
        "remedy": diagnostic.remedy,
    }


def source_json(source: Source, number: int, sources: Sources) -> Json:
    """One source of a part."""
    from fitlore.sourcing.coins import amount

    verdict = source.verdict
    return {
        "number": number,
        "part": verdict.part.part if verdict else None,
        "maker": verdict.part.maker if verdict else None,
        "verdict": verdict.word.value if verdict else None,
        "supplier": source.offer.supplier,
        "state": source.line.offer.state.value,
        "packs": source.packs,
        "goods": amount(source.goods, sources.home),
        "fill-up": amount(source.fill, sources.home),
        "expected-loss": amount(source.lost, sources.home),
        "surcharge-lent": amount(source.offer.surcharge * source.packs, sources.home),
        "carriage": amount(source.carriage, sources.home),
        "by": source.by,
        "minutes": source.hands,
        "landed": amount(source.landed, sources.home),
        "days": source.offer.days,
        "also": list(source.extras),
        "line": str(source.line.origin),
    }
