"""What fits, in words: the car and the place first, the danger line, then one line per candidate."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from fitlore.fitting import Answer, Verdict, Word
from fitlore.fitting.shape import Ask, State
from fitlore.model.because import Because
from fitlore.model.part import Evidence
from fitlore.model.platform import Car
from fitlore.report.sentences import say
from fitlore.report.text import BLANK, Line, Tone, columns, listed, minutes

WORDS: Final[dict[Word, str]] = {
    Word.FITS: "fits",
    Word.FITS_WITH_WORK: "fits with work",
    Word.BY_MEASURE: "by measure",
    Word.DEPENDS: "depends",
    Word.UNPROVEN: "unproven",
    Word.DISPUTED: "disputed",
    Word.DOES_NOT_FIT: "does not fit",
}
TONES: Final[dict[Word, Tone]] = {
    Word.FITS: "good",
    Word.FITS_WITH_WORK: "good",
    Word.DEPENDS: "ask",
    Word.UNPROVEN: "ask",
    Word.DISPUTED: "ask",
    Word.DOES_NOT_FIT: "dim",
}


def car_line(car: Car | None, platform: str = "") -> Line:
    """Which car is answered for; printed first on every answer."""
    if car is None:
        return Line(
            f"no car picked; asked of the platform {platform}" if platform else "no car picked", "head"
        )
    known = [f"{name} {' or '.join(fact.value)}" for name, fact in car.facts.items()]
    return Line(f"{car.name or car.car} ({', '.join([car.is_, *known])})", "head", hang=2)


def answer_lines(answer: Answer, first: int = 1) -> list[Line]:
    """The answer about one place; candidates are numbered from `first`."""
    where = f"{answer.place.full_path}{'@' + answer.side if answer.side else ''}"
    lines = [Line(f"{where}: {_needs(answer)}", hang=2)]
    lines += [Line(f"! {danger_words(v)}", "danger", hang=2) for v in answer.verdicts if v.danger]
    if not answer.verdicts:
        lines.append(Line("  nothing is known that goes there", "ask"))
    rows = [
        (f"{number:>2}", WORDS[v.word], _named(v), summary(v))
        for number, v in enumerate(answer.verdicts, first)
    ]
    lines += columns(rows, [TONES.get(v.word, "plain") for v in answer.verdicts])
    lines += [Line(f"  ({caution})", "dim", hang=3) for caution in answer.cautions]
    return lines


def closing(deferral: str) -> list[Line]:
    """Once per sheet: who decides in the end."""
    return [BLANK, Line(deferral, "dim")] if deferral else []


def danger_words(verdict: Verdict) -> str:
    """The danger line of a trap: what it does, and how to tell the two apart."""
    return f"{_named(verdict)}: " + "; ".join(_deepest(step) for step in verdict.danger)


def _deepest(step: Because) -> str:
    inner = [_deepest(under) for under in step.under if "-trap" in under.code]
    if inner:
        return inner[0]
    tells = [say(under) for under in step.under if "-tell-" in under.code]
    return f"{say(step)}. On the bench: {listed(tells)}" if tells else say(step)


def _named(verdict: Verdict) -> str:
    part = verdict.part
    maker = (
        f"{part.maker} " if part.maker and not part.part.casefold().startswith(part.maker.casefold()) else ""
    )
    return f"{maker}{part.part}"


def _needs(answer: Answer) -> str:
    wanted: dict[str, list[str]] = {}
    for alternative in answer.requirement.alternatives:
        for name, need in alternative.items():
            if name in answer.interface.features:
                wanted.setdefault(name, []).append("/".join(need.values))
    words = [f"{name} {' or '.join(dict.fromkeys(values))}" for name, values in wanted.items()]
    return f"needs {', '.join(words)}" if words else "nobody has written down what it needs"


def summary(verdict: Verdict) -> str:
    """One line: on whose word, with which work, what is open, what is off."""
    bits = [verdict.part.name, *_whose_word(verdict), *_bad(verdict), *_conditions(verdict)]
    return "; ".join(bit for bit in bits if bit)


def _whose_word(verdict: Verdict) -> list[str]:
    kind = verdict.way.kind
    if kind == "original":
        return ["original"]
    if kind == "book":
        return ["by the book, but not what is on this car"]
    if kind == "successor":
        return ["replaces the original"]
    if not verdict.way.claims:
        return ["nobody has tried it"]
    told = [best_word(claim.evidence) for claim in verdict.way.claims]
    links = len(verdict.way.claims)
    return [f"over {links} links: {', then '.join(told)}" if links > 1 else told[0]]


def best_word(pieces: Iterable[Evidence]) -> str:
    """The best evidence in words: `fitted by shop, lasted 7 months`; an echo is said as one."""
    rows = sorted(pieces, key=lambda piece: not piece.how.first_hand)
    if not rows:
        return "nobody vouches for it"
    best = rows[0]
    echoes = sum(piece.source == best.source for piece in rows) if best.source else 1
    words = f"{best.how.value} by {best.by}" if best.by else best.how.value
    if best.lasted:
        words += f", lasted {best.lasted}"
    if best.source and not best.how.first_hand:
        words = f"{best.how.value}: {best.source}" + (
            f", told {echoes} times, one source" if echoes > 1 else ""
        )
    return words


def _bad(verdict: Verdict) -> list[str]:
    rows = []
    for check in verdict.checks:
        if check.state is State.TRAP:
            rows.append(f"TRAP in {check.feature}")
        elif check.state is State.OFF and check.feature not in verdict.way.waives:
            rows.append(f"{check.feature} {check.offered}, needed {check.needed}")
    for claim in verdict.way.claims:
        rows += [f"against it: {piece.how.value} by {piece.by}: {piece.note}" for piece in claim.against]
    return rows


def _conditions(verdict: Verdict) -> list[str]:
    way, rows = verdict.way, []
    if way.work or verdict.minutes:
        rows.append(f"work: {listed(way.work) or 'see why'} ({minutes(verdict.minutes)})")
    rows += [f"with {' or '.join(c.use)} at {c.at}" for c in way.companions]
    extras = [f"{extra.quantity} x {extra.number or extra.service or extra.is_}" for extra in way.extras]
    if extras:
        rows.append(f"also needs {listed(extras)}")
    rows += [f"keep {keep}" for keep in way.keep]
    if verdict.missing:
        rows.append(f"measure {listed(verdict.missing)}")
    rows += [ask_words(ask) for ask in verdict.asks]
    rows += [f"tell the buyer: {tell}" for tell in way.tell_buyer]
    rows += [
        f"law ({law.country}, {law.occasion}{', read ' + str(law.read) if law.read else ''}): {law.says}"
        for law in way.law
    ]
    return rows


def ask_words(ask: Ask) -> str:
    """A question, with where to look."""
    look = f" ({ask.look})" if ask.look else ""
    choices = f": {' or '.join(ask.choices)}" if ask.choices else ""
    if ask.about == "fact":
        return f"ask the car's {ask.name}{choices}{look}"
    if ask.about == "other-side":
        return f"look at the other side: {ask.name} must be the same{look}"
    if ask.about == "place":
        return f"look what is at {ask.name}{choices}{look}"
    return f"look at its {ask.name}{choices}{look}"
