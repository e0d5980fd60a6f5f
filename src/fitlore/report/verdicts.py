"""What fits, in words: the car and the place first, the danger line, then one line per candidate."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from fitlore.fitting import Answer, Verdict, Word
from fitlore.fitting.evidence import still_said
from fitlore.fitting.shape import Ask, State
from fitlore.model.because import Because
from fitlore.model.choices import SafetyClass
from fitlore.model.part import CrossFit, Evidence
from fitlore.model.platform import Car
from fitlore.report.sentences import say
from fitlore.report.text import BLANK, Line, Tone, columns, listed, minutes, tied

WORDS: Final[dict[Word, str]] = {
    Word.FITS: "fits",
    Word.FITS_WITH_WORK: "fits with work",
    Word.BY_MEASURE: "by measure",
    Word.DEPENDS: "depends",
    Word.UNPROVEN: "unproven",
    Word.DISPUTED: "disputed",
    Word.DOES_NOT_FIT: "does not fit",
}
_YES: Final = frozenset({Word.FITS, Word.FITS_WITH_WORK, Word.BY_MEASURE})
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
        return Line(f"no car picked; asked of any {platform}" if platform else "no car picked", "head")
    return Line(f"{car.name or car.car} ({tied(car.is_)})", "head", hang=2)


def answer_lines(
    answer: Answer, first: int = 1, *, needs: bool = True, same_assembly: bool = False, apart: int = 0
) -> list[Line]:
    """The answer about one place, dangers first; candidates are numbered from `first`.

    `same_assembly`: whose assembly it is was said just before. `apart`: so many candidates were asked about by themselves;
    what else does their job stands under a line of its own.
    """
    lines = [Line(place_words(answer, brief=same_assembly), "head", hang=2), *danger_lines(answer.verdicts)]
    lines += first_looks(answer)
    if not answer.verdicts:
        lines.append(Line("  nothing is known that goes there", "ask"))
    whose = f"the {answer.place.on}'s" if from_elsewhere(answer) else "the car's"
    rows = [
        (f"{number:>2}", WORDS[v.word], named(v), summary(v, whose=whose))
        for number, v in enumerate(answer.verdicts, first)
    ]
    listing = columns(rows, [TONES.get(v.word, "plain") for v in answer.verdicts], "rll")
    if 0 < apart < len(listing):
        goes = any(v.word in _YES for v in answer.verdicts[:apart])
        listing.insert(apart, Line(f"  {'what else does its job there' if goes else 'what goes there'}:"))
    lines += [*listing, *left_out(answer)]
    if needs:
        lines.append(Line(f"  {_needs(answer)}", hang=4))
    return lines


def left_out(answer: Answer) -> list[Line]:
    """How many parts that nobody claims are not shown, since enough nearer ones are."""
    more = [f"up to {answer.more} more by measure"] if answer.more else []
    more += (
        [f"up to {answer.more_traps} more trap{'' if answer.more_traps == 1 else 's'}"]
        if answer.more_traps
        else []
    )
    return [Line(f"  and {listed(more)}; --all shows them", "ask", hang=4)] if more else []


def first_looks(answer: Answer) -> list[Line]:
    """What has to be looked at before anything is bought, and nobody has yet."""
    return [Line(f"  first {ask_words(ask)}", "ask", hang=4) for ask in answer.asks]


def verdict_title(answer: Answer, verdict: Verdict) -> str:
    """What `why` calls the line: the verdict, the part and the place."""
    return f"{WORDS[verdict.word]}: {verdict.part.maker} {verdict.part.part} at {answer.place.full_path}"


def place_words(answer: Answer, *, brief: bool = False) -> str:
    """The place as it is said on this car: its path, the side, and whose assembly it is where that is another platform's."""
    place, car = answer.place, answer.car
    side = f", {answer.side}" if answer.side else ""
    if from_elsewhere(answer):
        remark = "" if brief else f": on this car the {place.assembly} is a {place.on}'s"
        return f"{place.path}{side}{remark}"
    return f"{place.path if car and place.on == car.is_ else place.full_path}{side}"


def from_elsewhere(answer: Answer) -> bool:
    """Whether the assembly on this car is another platform's."""
    car, place = answer.car, answer.place
    return car is not None and place.on != car.is_ and place.assembly in car.really_on_it


def danger_lines(verdicts: Iterable[Verdict]) -> list[Line]:
    """The traps; several parts with the same one share a line."""
    names: dict[str, list[str]] = {}
    for verdict in verdicts:
        if verdict.danger:
            names.setdefault(danger_words(verdict), []).append(named(verdict))
    return [Line(f"! {listed(parts)}: {text}", "danger", hang=2) for text, parts in names.items()]


MOST_CAUTIONS = 2
"""So many lines of caution stand under an answer: those of the gravest class that is asked about."""


def closing(deferral: str, answers: Iterable[Answer] = ()) -> list[Line]:
    """Once per sheet: what to mind with these parts, and who decides in the end."""
    gravest = sorted(answers, key=lambda reply: list(SafetyClass).index(reply.interface.safety))
    cautions = list(dict.fromkeys(caution for reply in gravest for caution in reply.cautions))
    said = [Line(text, "dim") for text in [*cautions[:MOST_CAUTIONS], deferral] if text]
    return [BLANK, *said] if said else []


def danger_words(verdict: Verdict) -> str:
    """The danger line of a trap: what it does, and how to tell the two apart."""
    return "; ".join(dict.fromkeys(danger_of(step) for step in verdict.danger))


def danger_of(step: Because) -> str:
    """What a trap does, and how to tell the two apart, from the innermost step that says so."""
    inner = [danger_of(under) for under in step.under if "-trap" in under.code]
    if inner:
        return inner[0]
    tells = [say(under) for under in step.under if "-tell-" in under.code]
    return f"{say(step)}. On the bench: {'; '.join(tells)}" if tells else say(step)


def named(verdict: Verdict) -> str:
    """Maker and number, which no end of line cuts in two."""
    part = verdict.part
    maker = (
        f"{part.maker} " if part.maker and not part.part.casefold().startswith(part.maker.casefold()) else ""
    )
    return tied(f"{maker}{part.part}")


def _needs(answer: Answer) -> str:
    wanted: dict[str, list[str]] = {}
    for alternative in answer.requirement.alternatives:
        for name, need in alternative.items():
            if name in answer.interface.features:
                wanted.setdefault(name, []).append("/".join(need.values))
    words = [f"{name} {' or '.join(dict.fromkeys(values))}" for name, values in wanted.items()]
    return f"needed: {', '.join(words)}" if words else "nobody has written down what is needed here"


def summary(verdict: Verdict, *, name: bool = True, whose: str = "the car's") -> str:
    """One line: on whose word (what is off goes before, where it decides), with which work, what is open, what it is."""
    rest = [] if verdict.word is Word.DOES_NOT_FIT else _conditions(verdict, whose)
    bits = [*_first(verdict), *rest, verdict.part.name if name else ""]
    return "; ".join(bit for bit in bits if bit)


def reason(verdict: Verdict) -> str:
    """Why it is not simply a yes, in few words."""
    missing = [f"measure {listed(verdict.missing)}"] if verdict.missing else []
    return "; ".join([*_first(verdict), *missing])


def _first(verdict: Verdict) -> list[str]:
    word, bad = _whose_word(verdict), _bad(verdict)
    return [*bad, *word] if verdict.word in (Word.DOES_NOT_FIT, Word.DISPUTED) else [*word, *bad]


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
    told = [_word_for(claim) for claim in verdict.way.claims]
    links = len(verdict.way.claims)
    return [f"over {links} links: {', then '.join(told)}" if links > 1 else told[0]]


def _word_for(claim: CrossFit) -> str:
    """The best of what still stands for a claim."""
    standing, _ = still_said(claim)
    if claim.evidence and not standing:
        return "what was said for it is taken back"
    return best_word(standing)


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


MOST_OFF = 3
"""So many differences are named in one line; `why` shows all."""


_SAID_BY_ROW: Final = frozenset({"row-other-hand", "row-forbidden", "row-changed"})
"""Rows of the verdict table whose reason stands in no feature and in nobody's evidence."""


def against_words(verdict: Verdict) -> list[str]:
    """What speaks against a part, in few words each; whose word it is where nothing is off."""
    return _bad(verdict) or _whose_word(verdict)


def _bad(verdict: Verdict) -> list[str]:
    row = verdict.because.under[0] if verdict.because.under else None
    rows = [say(row)] if row is not None and row.code in _SAID_BY_ROW else []
    rows += [f"TRAP in {check.feature}" for check in verdict.checks if check.state is State.TRAP]
    off = [c for c in verdict.checks if c.state is State.OFF and c.feature not in verdict.way.waives]
    rows += [f"{check.feature} {check.offered}, needed {check.needed}" for check in off[:MOST_OFF]]
    if len(off) > MOST_OFF:
        more = len(off) - MOST_OFF
        rows.append(f"{more} more differ{'s' if more == 1 else ''}")
    for claim in verdict.way.claims:
        for piece in still_said(claim)[1]:
            by = f" by {piece.by}" if piece.by else ""
            rows.append(f"against it: {piece.how.value}{by}{': ' + piece.note if piece.note else ''}")
    return rows


def _conditions(verdict: Verdict, whose: str) -> list[str]:
    way, rows = verdict.way, []
    needed = [c.definition.work.do for c in verdict.checks if verdict.does(c) and c.definition.work]
    time = f" ({minutes(verdict.minutes)})" if verdict.minutes else ""
    work = listed(dict.fromkeys([*way.work, *needed]))
    if work or time:
        rows.append(f"work: {work}{time}" if work else f"work{time}")
    rows += [f"with {' or '.join(map(tied, c.use))} at {c.at}" for c in way.companions]
    extras = [
        f"{extra.quantity} x {tied(extra.number) if extra.number else extra.service or extra.is_}"
        for extra in way.extras
    ]
    if extras:
        rows.append(f"also needs {listed(extras)}")
    rows += [f"keep {keep}" for keep in way.keep]
    if verdict.missing:
        rows.append(f"measure {listed(verdict.missing)}")
    rows += [ask_words(ask, whose) for ask in verdict.asks]
    rows += [f"tell the buyer: {tell}" for tell in way.tell_buyer]
    rows += [
        f"law ({law.country}, {law.occasion}{', read ' + str(law.read) if law.read else ''}): {law.says}"
        for law in way.law
    ]
    rows += ["ask in which country it is driven, for the law"] if verdict.asks_country else []
    return rows


def ask_words(ask: Ask, whose: str = "the car's") -> str:
    """A question, with where to look; `whose` facts are asked (those of the car an assembly came from, where it did)."""
    look = f" ({ask.look})" if ask.look else ""
    choices = f": {' or '.join(map(tied, ask.choices))}" if ask.choices else ""
    if ask.about == "fact":
        return f"ask {whose} {ask.name}{choices}{look}"
    if ask.about == "other-side":
        return f"look at the other side: {ask.name} must be the same{look}"
    if ask.about == "place":
        return f"look what is at {ask.name}{choices}{look}"
    return f"look at its {ask.name}{choices}{look}"
