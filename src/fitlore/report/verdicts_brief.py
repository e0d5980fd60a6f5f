"""Many places at once, to be read in ten seconds: all dangers first, then one short line per candidate or per place."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final, NamedTuple

from fitlore.fitting import Answer, Verdict, Word
from fitlore.fitting.shape import Ask, State
from fitlore.report.text import BLANK, Line, columns, listed, minutes, tied
from fitlore.report.verdicts import (
    TONES,
    WORDS,
    best_word,
    danger_words,
    first_looks,
    from_elsewhere,
    left_out,
    named,
    place_words,
)

_LONGEST: Final = 40
"""So many signs of a work's description are said in a short line; `fits PLACE` and `why` say it whole."""


class Numbered(NamedTuple):
    """A place's answer and the number of its first candidate."""

    answer: Answer
    first: int


def assembly_lines(answers: Sequence[Answer]) -> list[Line]:
    """Several places: the dangers of all of them, then each place with one short line per candidate, numbered through."""
    lines, first = all_dangers(answers), 1
    before = ""
    for reply in answers:
        assembly = f"{reply.place.on}/{reply.place.assembly}"
        lines += [BLANK, Line(place_words(reply, brief=assembly == before), "head", hang=2)]
        lines += first_looks(reply)
        rows = [
            (f"{n:>2}", WORDS[v.word], named(v), brief(v, reply)) for n, v in enumerate(reply.verdicts, first)
        ]
        lines += columns(rows, [TONES.get(v.word, "plain") for v in reply.verdicts], "rll")
        lines += left_out(reply)
        if not rows:
            lines.append(Line("  nothing is known that goes there", "ask"))
        first, before = first + len(rows), assembly
    return lines


def car_lines_of(answers: Sequence[Answer]) -> list[Line]:
    """A whole car: the dangers, then each assembly with one line per place: its best candidate, and how many more there are."""
    lines = [Line(_counted(answers), hang=2), *all_dangers(answers)]
    rows: dict[str, list[Numbered]] = {}
    first = 1
    for reply in answers:
        whose = f"{reply.place.assembly}{_whose(reply)}"
        rows.setdefault(whose, []).append(Numbered(reply, first))
        first += len(reply.verdicts)
    for whose, group in rows.items():
        lines += [BLANK, Line(whose, "head", hang=2)]
        cells = [_place_row(*one) for one in group]
        tones = [
            TONES.get(one.answer.verdicts[0].word, "plain") if one.answer.verdicts else "ask" for one in group
        ]
        lines += columns(cells, tones, "rlll")
    return lines


def _counted(answers: Sequence[Answer]) -> str:
    best = [reply.verdicts[0].word if reply.verdicts else None for reply in answers]
    counts = {word: sum(one is word for one in best) for word in Word}
    words = [f"{count} {WORDS[word]}" for word, count in counts.items() if count]
    none = sum(one is None for one in best)
    words += [f"{none} with nothing known"] if none else []
    return f"best of each of {len(answers)} places: {', '.join(words)}"


def _whose(reply: Answer) -> str:
    return f": on this car a {reply.place.on}'s" if from_elsewhere(reply) else ""


def _place_row(reply: Answer, first: int) -> tuple[str, str, str, str, str]:
    name = f"{reply.place.name}{f', {reply.side}' if reply.side else ''}"
    if not reply.verdicts:
        return "", name, "nothing known", "", ""
    best, rest = reply.verdicts[0], reply.verdicts[1:]
    more = f"; {_more(rest, reply)}" if rest or reply.more or reply.more_traps else ""
    return f"{first:>2}", name, WORDS[best.word], named(best), f"{brief(best, reply)}{more}"


def _more(rest: Sequence[Verdict], reply: Answer) -> str:
    good = sum(v.word in (Word.FITS, Word.FITS_WITH_WORK, Word.BY_MEASURE) for v in rest)
    traps = sum(bool(v.danger) for v in rest)
    words = [f"{good} more go" + ("es" if good == 1 else "")] if good else []
    words += [f"{len(rest) - good - traps} more listed"] if len(rest) - good - traps else []
    words += [f"{traps} TRAP{'S' if traps > 1 else ''}"] if traps else []
    left = reply.more + reply.more_traps
    words += [f"up to {left} more by measure"] if left else []
    return ", ".join(words)


def all_dangers(answers: Iterable[Answer]) -> list[Line]:
    """The traps of all places, whole; the same one is said once, with every part and place."""
    found: dict[str, dict[str, list[str]]] = {}
    for reply in answers:
        for verdict in reply.verdicts:
            if verdict.danger:
                places = found.setdefault(danger_words(verdict), {})
                places.setdefault(place_words(reply, brief=True), []).append(named(verdict))
    return [
        Line(
            f"! {listed(f'{listed(parts)} at {at}' for at, parts in places.items())}: {text}",
            "danger",
            hang=2,
        )
        for text, places in found.items()
    ]


def brief(verdict: Verdict, reply: Answer) -> str:
    """One short line: on whose word or what is off, with which work, what is open. `why` and `fits PLACE` say the rest."""
    if verdict.word in (Word.DOES_NOT_FIT, Word.DISPUTED):
        return "; ".join([*_off(verdict), *(_open(verdict) if verdict.word is Word.DISPUTED else [])])
    return "; ".join([_word(verdict), *_asked_for(verdict), *_open(verdict)])


def _word(verdict: Verdict) -> str:
    kind, claims = verdict.way.kind, verdict.way.claims
    if kind in ("original", "successor"):
        return "original" if kind == "original" else "replaces the original"
    if not claims:
        return "nobody has tried it"
    return best_word(claims[-1].evidence) if len(claims) == 1 else f"over {len(claims)} links"


def _off(verdict: Verdict) -> list[str]:
    way = verdict.way
    words = [f"TRAP in {check.feature}" for check in verdict.checks if check.state is State.TRAP]
    off = [c for c in verdict.checks if c.state is State.OFF and c.feature not in way.waives]
    words += [f"{c.feature} {c.offered}, needed {c.needed}" for c in off[: 0 if words else 1]]
    rest = off[0 if verdict.danger else 1 :]
    words += [f"also off: {listed(c.feature for c in rest)}"] if rest else []
    if not words:
        tries = [piece for claim in way.claims for piece in claim.against]
        words = [
            f"against it: {piece.how.value}{f' by {piece.by}' if piece.by else ''}" for piece in tries[:1]
        ]
    words = words or [_decided(verdict)]
    return [*words, *(["by the book, not on this car"] if way.kind == "book" else [])]


def _decided(verdict: Verdict) -> str:
    from fitlore.report.sentences import say

    return say(verdict.because.under[0]) if verdict.because.under else ""


def _asked_for(verdict: Verdict) -> list[str]:
    """The work, and what is needed besides."""
    way = verdict.way
    needed = [c.definition.work.do for c in verdict.checks if verdict.does(c) and c.definition.work]
    work = list(dict.fromkeys([*way.work, *needed]))
    time = f" ({minutes(verdict.minutes)})" if verdict.minutes else ""
    more = f" and {len(work) - 1} more" if len(work) > 1 else ""
    words = [f"work: {_short(work[0])}{more}{time}"] if work else [f"work{time}"] if time else []
    words += [f"with {' or '.join(map(tied, c.use))}" for c in way.companions]
    words += [f"also {e.quantity} x {tied(e.number or e.service or e.is_ or '')}" for e in way.extras]
    return words


def _open(verdict: Verdict) -> list[str]:
    words = [f"measure {listed(verdict.missing)}"] if verdict.missing else []
    asks = [ask for ask in verdict.asks if ask.name not in verdict.missing]
    words += [
        f"{lead} {listed(dict.fromkeys(_ask(ask) for ask in rows))}" for lead, rows in _leads(asks) if rows
    ]
    return words


def _leads(asks: Sequence[Ask]) -> tuple[tuple[str, list[Ask]], ...]:
    facts = [ask for ask in asks if ask.about == "fact"]
    sides = [ask for ask in asks if ask.about == "other-side"]
    rest = [ask for ask in asks if ask.about not in ("fact", "other-side")]
    return ("ask", facts), ("same on the other side:", sides), ("look at", rest)


def _ask(ask: Ask) -> str:
    return ask.name


def _short(text: str) -> str:
    if len(text) <= _LONGEST:
        return text
    return f"{text[:_LONGEST].rsplit(' ', 1)[0].rstrip(',;:')} …"
