"""`note` as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitlore.model.part import CrossFit, Evidence, Part
from fitlore.report.drafts import Priced
from fitlore.report.machine import diagnostic_json
from fitlore.report.money import said
from fitlore.report.verdicts import WORDS

if TYPE_CHECKING:
    from fitlore.upkeep.draft import Draft
    from fitlore.upkeep.effects import Changed
    from fitlore.upkeep.hints import Hint


def claim_json(claim: CrossFit, evidence: Evidence, stance: str, *, new: bool) -> dict[str, object]:
    """What the line was taken to say."""
    return {
        "claim": claim.crossfit,
        "new": new,
        "use": claim.use,
        "instead-of": claim.instead_of,
        "at": claim.at,
        "reaches": list(claim.reaches),
        "goes": claim.goes.value,
        "how": evidence.how.value,
        "by": evidence.by or None,
        "source": evidence.source or None,
        "date": str(evidence.date) if evidence.date else None,
        "lasted": evidence.lasted or None,
        "note": evidence.note or None,
        "against": stance == "against",
        "taken-back": stance == "taken-back",
    }


def drafts_json(drafts: Sequence[Draft]) -> dict[str, object]:
    """What would be written where, what is to be said first, and what it changes. The last draft is the claim's."""
    spliced = drafts[-1].spliced if drafts else None
    return {
        "book": spliced.origin.book if spliced else None,
        "line": spliced.origin.line if spliced else None,
        "text": list(spliced.lines) if spliced else [],
        "writes": [
            {"book": s.origin.book, "line": s.origin.line, "text": list(s.lines)}
            for one in drafts
            if (s := one.spliced)
        ],
        "objections": [diagnostic_json(d) for one in drafts for d in one.objections],
        "findings": [diagnostic_json(d) for one in drafts for d in one.findings],
        "changes": [changed_json(row) for one in drafts for row in one.changes],
    }


def changed_json(row: Changed) -> dict[str, object]:
    """One verdict that changes."""
    return {
        "place": row.place.full_path,
        "side": row.side or None,
        "car": row.car.car if row.car else None,
        "part": row.part.part,
        "before": WORDS[row.before.word] if row.before else None,
        "after": WORDS[row.after.word] if row.after else None,
    }


def hint_json(hint: Hint) -> dict[str, object]:
    """A place where it is worth a try."""
    return {
        "place": hint.place.full_path,
        "cars": [car.car for car in hint.cars],
        "original": hint.original.part,
        "same-number": hint.same,
        "now": WORDS[hint.verdict.word],
        "measure": list(hint.verdict.missing),
    }


def priced_json(row: Priced, home: str) -> dict[str, object]:
    """What it does to the money of one job."""
    return {
        "job": row.job,
        "before": said(row.before, home) if row.before is not None else None,
        "after": said(row.after, home) if row.after is not None else None,
    }


def new_part_json(part: Part | None) -> dict[str, object] | None:
    """A part without a maker's number that is written with the claim."""
    if part is None or part.taken_from is None:
        return None
    return {"number": part.part, "name": part.name, "from": part.taken_from.from_, "at": part.taken_from.at}
