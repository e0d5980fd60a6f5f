"""A change before it is written, in words: what was understood, what speaks against it, what it changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitlore.fitting import Verdict
from fitlore.model.part import CrossFit, Evidence
from fitlore.report.faults import fault_lines
from fitlore.report.text import Line
from fitlore.report.verdicts import WORDS

if TYPE_CHECKING:
    from fitlore.upkeep.draft import Draft
    from fitlore.upkeep.effects import Changed


def understood_lines(claim: CrossFit, evidence: Evidence, *, against: bool, new: bool) -> list[Line]:
    """What the line was taken to say."""
    target = claim.instead_of or claim.at or ""
    says = "does not do" if against else "does"
    where = f" on {', '.join(claim.reaches)}" if claim.reaches else ""
    kind = "new claim" if new else f"one more word on claim {claim.crossfit}"
    by = f"{evidence.how.value} by {evidence.by}{': ' + evidence.note if evidence.note else ''}"
    return [Line(f"understood: {claim.use} {says} the job of {target}{where}; {by} ({kind})", "head", hang=2)]


def draft_lines(draft: Draft) -> list[Line]:
    """The text that goes in, what is to be said first, and every verdict it changes."""
    lines: list[Line] = []
    for objection in draft.objections:
        lines += fault_lines(objection)
    if draft.spliced is not None and draft.target is not None:
        lines.append(Line(f"into {draft.spliced.origin}:", "dim"))
        lines += [Line(f"  + {text}", wrap=False) for text in draft.spliced.lines]
    for finding in draft.findings:
        lines += fault_lines(finding)
    lines += [Line(f"changes {_changed(row)}", hang=2) for row in draft.changes]
    if draft.ready and not draft.changes:
        lines.append(Line("changes no verdict yet", "dim"))
    return lines


def _changed(row: Changed) -> str:
    side = f"@{row.side}" if row.side else ""
    where = f"{row.place.full_path}{side}{' on ' + row.car.car if row.car else ''}"
    name = f"{row.part.maker} {row.part.part}".strip()
    return f"{where}: {name} {_word(row.before)} -> {_word(row.after)}"


def _word(verdict: Verdict | None) -> str:
    return WORDS[verdict.word] if verdict else "not listed"
