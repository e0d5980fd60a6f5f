"""What stands against a plain yes, in words: every reason numbered, its proof under it, and what would change it."""

from __future__ import annotations

from fitlore.fitting.reasons import Against, OtherWay, Reason
from fitlore.fitting.shape import Word
from fitlore.model.because import Because
from fitlore.report.sentences import cited, say, tree
from fitlore.report.text import Line
from fitlore.report.verdicts import WORDS

_HEADS = {
    Word.FITS_WITH_WORK: "what it takes",
    Word.BY_MEASURE: "what is open about it",
    Word.DEPENDS: "what it hangs on",
    Word.UNPROVEN: "what is not proven",
    Word.DISPUTED: "what speaks against it",
    Word.DOES_NOT_FIT: "what stands against it",
}


def against_lines(found: Against) -> list[Line]:
    """Nothing where it simply fits and no other way is there."""
    lines: list[Line] = []
    if found.reasons and found.word is not Word.FITS:
        lines.append(Line(f"{_HEADS[found.word]}, and what would change that:", hang=2))
        for number, reason in enumerate(found.reasons, 1):
            lines += _reason(number, reason)
    if found.said_for:
        lines.append(Line("said for it, which counts for nothing against that:", hang=2))
        for claim in found.said_for:
            words = [step for step in claim.under if step.code == "evidence-for"]
            lines += [Line(f"  {say(claim)}{_where(claim)}", "dim", hang=4)]
            lines += [Line(f"    {say(word)}{_where(word)}", "dim", hang=6) for word in words]
    if found.others:
        lines.append(Line("the other ways to it, none of them better:", hang=2))
        lines += [line for way in found.others for line in _other(way)]
    return lines


def _reason(number: int, reason: Reason) -> list[Line]:
    step = reason.because
    first, *proof = tree(step)
    head = f"{number:>2}  "
    lines = [Line(head + first.text, "danger" if "-trap" in step.code else "plain", hang=len(head) + 2)]
    lines += [line._replace(text=f"    {line.text}", hang=line.hang + 4) for line in proof]
    lines += [Line(f"    -> {say(change)}{_where(change)}", "ask", hang=7) for change in reason.changes]
    return lines


def _other(way: OtherWay) -> list[Line]:
    first = way.because.under[0] if way.because.under else way.because
    inner = first.under[-1] if first.code == "way-chain" and first.under else first
    text = f"  {WORDS[way.word]}: {say(inner)}{_where(inner)}"
    decided = f"; {say(way.because)}" if inner is not way.because else ""
    return [Line(text + decided, "dim", hang=4)]


def _where(step: Because) -> str:
    place = cited(step)
    return f"  {place}" if place else ""
