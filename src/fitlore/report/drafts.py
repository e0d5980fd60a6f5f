"""A change before it is written, in words: what was understood, what speaks against it, what it changes, what else it may."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.fitting import Verdict, Word
from fitlore.model.part import CrossFit, Evidence, Part
from fitlore.report.faults import fault_lines
from fitlore.report.money import said
from fitlore.report.text import Line, Tone, listed, tied
from fitlore.report.verdicts import WORDS

if TYPE_CHECKING:
    from fitlore.upkeep.draft import Draft
    from fitlore.upkeep.effects import Changed
    from fitlore.upkeep.hints import Hint

MOST_HINTS: Final = 8
"""So many hints are shown."""
_AROUND: Final = 2
"""Lines of the book shown above and below a difference."""
_GOES: Final = frozenset({Word.FITS, Word.FITS_WITH_WORK})


class Priced(NamedTuple):
    """The least cost of an open job in coins, before and after; None: nothing meets everything. `counted`: not left out."""

    job: str
    before: int | None
    after: int | None
    counted: bool = True


def understood_lines(
    claim: CrossFit,
    evidence: Evidence,
    stance: str,
    *,
    new: bool,
    part: Part,
    at: str = "",
    new_part: bool = False,
) -> list[Line]:
    """What the line was taken to say. `stance` is `for`, `against` or `taken-back`; `at` the place that was meant, if one was."""
    target = f"{tied(claim.instead_of)}{f' at {at}' if at else ''}" if claim.instead_of else claim.at or at
    where = f" on {listed(claim.reaches)}" if claim.reaches else ""
    does = "does not do" if stance == "against" else "does"
    called = f" ({part.name})" if part.name and not new_part else ""
    job = f"{tied(f'{part.maker} {part.part}'.strip())}{called} {does} the job of {target}{where}"
    if stance == "taken-back":
        note = f": {evidence.note}" if evidence.note else ""
        text = f"{evidence.by} takes back that {job}{note} (claim {claim.crossfit})"
    else:
        kind = "new claim" if new else f"one more word on claim {claim.crossfit}"
        text = f"{job}{_limits(claim) if new and stance == 'for' else ''}; {_word_of(evidence)} ({kind})"
    lines = [Line(f"understood: {text}", "head", hang=2)]
    if new_part and part.taken_from is not None:
        off = part.taken_from
        marks = f", marked {off.marks}" if off.marks else ""
        lines.append(
            Line(f"  {tied(part.part)} is new: {part.name}, off {off.from_}/{off.at}{marks}", hang=4)
        )
    return lines


def _limits(claim: CrossFit) -> str:
    """What a new claim asks for, and in which direction it goes."""
    bits = ["both ways" if claim.goes.value == "both-ways" else "one way"] if claim.instead_of else []
    bits += [f"with {tied(number)} at {one.at}" for one in claim.with_ for number in one.use]
    if claim.work is not None:
        minutes = f"{claim.work.minutes} min" if claim.work.minutes else ""
        bits.append(f"work: {': '.join(filter(None, (minutes, claim.work.do)))}")
    bits += [f"only if {name} {'/'.join(one.any_)}" for name, one in claim.only_if.items()]
    return f" ({', '.join(bits)})" if bits else ""


def _word_of(evidence: Evidence) -> str:
    """Evidence in words: how, by whom, where, when, how long, and what was seen."""
    by = f" by {evidence.by}" if evidence.by else ""
    bits = [f"{evidence.how.value}{by}"]
    bits += [f"on {car}" for car in (evidence.on_car, evidence.tried_on) if car]
    bits += [f"from {evidence.from_}"] if evidence.from_ else []
    bits += [str(evidence.date)] if evidence.date else []
    bits += [f"lasted {evidence.lasted}"] if evidence.lasted else []
    bits += [f"source {evidence.source}"] if evidence.source else []
    return f"{', '.join(bits)}{': ' + evidence.note if evidence.note else ''}"


def draft_lines(draft: Draft, *, whole: bool = False) -> list[Line]:
    """What is to be said first, the text that goes in, and every verdict it changes. `whole`: as a difference of the book."""
    lines: list[Line] = []
    for objection in draft.objections:
        lines += fault_lines(objection)
    if draft.spliced is not None and draft.target is not None and draft.ready:
        if whole:
            lines += difference_lines(draft)
        else:
            lines.append(Line(f"into {draft.spliced.origin}:", "dim"))
            lines += [Line(f"  + {text}", wrap=False) for text in draft.spliced.lines]
    if not draft.ready:
        return [*lines, Line("not written: that stands against it", "danger")]
    for finding in draft.findings:
        lines += fault_lines(finding)
    lines += [Line(f"puts right: {settled.message}", "good", hang=2) for settled in draft.settled]
    lines += [Line(f"changes {_changed(row)}", _tone(row), hang=2) for row in draft.changes]
    if draft.not_answered:
        lines.append(Line(f"and {draft.not_answered} more places that it touches, not asked here", "dim"))
    return lines


def difference_lines(draft: Draft) -> list[Line]:
    """The book before and after in the form of `diff -u`, with a few lines around; nothing of it is wrapped."""
    from difflib import unified_diff

    assert draft.seen is not None
    assert draft.spliced is not None
    shown = draft.spliced.origin.book
    old = (draft.seen.data or b"").decode("utf-8", "replace").splitlines()
    new = draft.spliced.data.decode("utf-8", "replace").splitlines()
    rows = unified_diff(old, new, shown, f"{shown} (as it would be)", n=_AROUND, lineterm="")
    return [Line(row, "good" if row.startswith("+") else "plain", wrap=False) for row in rows]


def hint_lines(found: Sequence[Hint]) -> list[Line]:
    """Where else it is worth a try, and what to measure there first."""
    lines = [Line(f"worth a look: {_hint(hint)}", "ask", hang=2) for hint in found[:MOST_HINTS]]
    if len(found) > MOST_HINTS:
        lines.append(Line(f"and {len(found) - MOST_HINTS} more places that want one like it", "dim"))
    return lines


def _hint(hint: Hint) -> str:
    cars = f" ({listed(car.name or car.car for car in hint.cars)})" if hint.cars else ""
    number = tied(f"{hint.original.maker} {hint.original.part}".strip())
    why = (
        f"{number} is the original there too" if hint.same else f"its {number} agrees in everything compared"
    )
    missing = f"; measure {listed(hint.verdict.missing)}" if hint.verdict.missing else ""
    return f"{hint.place.full_path}{cars}: {why}, now {WORDS[hint.verdict.word]}{missing}"


def money_lines(rows: Iterable[Priced], home: str) -> list[Line]:
    """What it does to the money of open jobs."""
    return [Line(f"plan {row.job}: {_money(row, home)}", _money_tone(row), hang=2) for row in rows]


def _money(row: Priced, home: str) -> str:
    before, after = row.before, row.after
    if not row.counted:
        return "not counted again, since that takes long; `--money` does"
    if before is None or after is None:
        if before == after:
            return "nothing meets everything, before or after"
        if after is None:
            return f"{said(before or 0, home)} before; nothing meets everything any more"
        return f"nothing met everything before; {said(after, home)} now"
    if before == after:
        return f"{said(after, home)} as before"
    word = "cheaper" if after < before else "dearer"
    return f"{said(before, home)} -> {said(after, home)}, {said(abs(before - after), home)} {word}"


def _money_tone(row: Priced) -> Tone:
    if row.before is None or row.after is None or row.before == row.after:
        return "dim" if row.before == row.after else "ask"
    return "good" if row.after < row.before else "ask"


def _tone(row: Changed) -> Tone:
    return "good" if row.after is not None and row.after.word in _GOES else "plain"


def _changed(row: Changed) -> str:
    side = f"@{row.side}" if row.side else ""
    where = f"{row.place.full_path}{side}{' on ' + row.car.car if row.car else ''}"
    name = tied(f"{row.part.maker} {row.part.part}".strip())
    return f"{where}: {name} {_word(row.before)} -> {_word(row.after)}"


def _word(verdict: Verdict | None) -> str:
    return WORDS[verdict.word] if verdict else "not listed"
