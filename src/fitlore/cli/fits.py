"""`fits`: what fits a place, an assembly or a whole car; does this part go there; and what else does a part's job."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

import click

from fitlore.cli.asking import Wanted, asked_of, parts_named, questions
from fitlore.cli.counter import Counter, open_counter, shared_options, split_line
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered
from fitlore.fitting import Answer, Question, Verdict, Word, answer
from fitlore.fitting import answers as answers_to
from fitlore.fitting.parts import alike, identity, keys_of
from fitlore.graph.lookup import find
from fitlore.model.numbers import number_key
from fitlore.model.part import Part
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car, Platform
from fitlore.report.text import BLANK, Line, show
from fitlore.report.verdicts import answer_lines, closing, verdict_title

FEW: Final = 2
"""Of so many places everything is said; of more one short line per candidate."""
WHOLE: Final = frozenset(
    {"everything", "car", "whole car", "the car", "the whole car", "this car", "this whole car"}
)
MOST_KEPT: Final = 400
"""So many proofs are kept for `why`; of more only those of the lines shown."""
MOST_PLACES: Final = 40


class Asked(NamedTuple):
    """What is asked: the questions, and whose."""

    questions: list[Question]
    whole: bool = False
    """A whole car: one line per place."""
    part_alone: bool = False
    """A part without a place: what else does its job is told as well."""


@click.command("fits", cls=Page)
@click.argument("words", nargs=-1, required=True)
@click.option(
    "--in", "--for", "place", metavar="PLACE", help="The place, for a part named by the free words."
)
@click.option("--side", type=click.Choice(["left", "right"]), help="The side, where the place has sides.")
@click.option("--all", "every", is_flag=True, help="Every part by measure, not only the nearest dozen.")
@shared_options
def command(
    folder: str | None,
    words: tuple[str, ...],
    place: str | None,
    side: str | None,
    every: bool,
    car_name: str | None,
    as_json: bool,
) -> int:
    """What fits a place, an assembly, a whole car; or does this part go there."""
    counter = open_counter(folder, car_name, in_hand=True)
    parts = split_line(words, ("in", "for", "into"))
    at = place or parts.get("in") or parts.get("for") or parts.get("into") or ""
    try:
        counter, asked = _asked(counter, parts[""], at, side or "")
    except CouldNot:
        told = None if place else _joint(counter, words, as_json=as_json)
        if told is None:
            raise
        return told
    answers = _replies(counter, asked if every else _nearest(asked))
    counter.remember("fits", counter.car, _numbered(answers, asked))
    if as_json:
        _print_json(counter, answers, asked)
    else:
        _print(counter, answers, asked)
    goes = [_yes(reply, question) for reply, question in zip(answers, asked.questions, strict=True)]
    return 0 if (any(goes) if asked.part_alone else all(goes)) else 1


def _joint(counter: Counter, words: Sequence[str], *, as_json: bool) -> int | None:
    """The answer about two designations that are to go together; None where the words are no such thing."""
    from fitlore.cli.joint import joint_of

    joint = joint_of(words)
    if joint is None:
        return None
    from fitlore.cli.compare import answered, read_as

    needed, offered = joint.needed.designation, joint.offered.designation
    if not read_as(counter, needed, offered):
        return None
    if joint.two_of_a_kind:
        raise CouldNot(f"{joint.offered.said!r} and {joint.needed.said!r} have the same half of a joint")
    head = Line(f"{joint.offered.said} on {joint.needed.said}", "head", hang=2)
    return answered(
        counter, needed, offered, end=joint.end, as_json=as_json, verb="fits", head=[counter.head(), head]
    )


def _asked(counter: Counter, words: str, at: str, side: str) -> tuple[Counter, Asked]:
    """The questions; and the counter with the car they are about."""
    if not at and " ".join(words.casefold().split()) in WHOLE:
        if counter.car is None:
            raise CouldNot("which car? pick one (`fitlore car NAME`), or name one: `fits CAR`")
        return _whole_car(counter, counter.car, counter.car.is_)
    try:
        counter, found = asked_of(counter, words, at, side)
    except CouldNot:
        other = None if at else _other(counter, words, side)
        if other is None:
            raise
        return other
    return counter, Asked(questions(counter, found), part_alone=bool(found.parts) and not at)


def _other(counter: Counter, words: str, side: str) -> tuple[Counter, Asked] | None:
    """Words that mean no place: a car or a platform as a whole; without a car, a part wherever it is the original."""
    kinds = frozenset({"car", "platform"})
    named = [match.record for match in find(counter.graph, words, kinds=kinds).exact] if words.strip() else []
    if len(named) == 1 and isinstance(named[0], Car):
        return _whole_car(counter._replace(car=named[0], taken=""), named[0], named[0].is_)
    if len(named) == 1 and isinstance(named[0], Platform):
        platform = named[0].platform
        mine = counter.car if counter.car and counter.car.is_ == platform else None
        return _whole_car(counter._replace(car=mine, taken=counter.taken if mine else ""), mine, platform)
    if counter.car is not None:
        return None
    parts = _parts(counter, words)
    places = _stands(counter, parts)
    if not 0 < len(places) <= MOST_PLACES:
        return None
    return counter, Asked(questions(counter, Wanted(places, parts, side)), part_alone=True)


def _parts(counter: Counter, words: str) -> tuple[Part, ...]:
    try:
        return parts_named(counter, words)
    except CouldNot:
        return ()


def _stands(counter: Counter, parts: Sequence[Part]) -> tuple[PlaceOn, ...]:
    """Where a part is the original, or where one is that a claim says it stands in for."""
    graph = counter.graph
    keys = {key for part in parts for key in alike(graph, keys_of(part))}
    places = graph.places_of_originals(keys)
    if not places:
        claims = graph.claims_to(keys)
        places = graph.places_of_originals({number_key(c.instead_of) for c in claims if c.instead_of})
    return tuple(places)


def _whole_car(counter: Counter, car: Car | None, platform: str) -> tuple[Counter, Asked]:
    places = counter.graph.places(platform)
    if not places:
        raise CouldNot(f"the books know no places of a {platform}")
    return counter, Asked(questions(counter, Wanted(places, (), "")), whole=True)


def _nearest(asked: Asked) -> Asked:
    """The same, of what nobody claims only so many as a screen holds."""
    import msgspec

    from fitlore.fitting.nearest import NEAREST

    rows = [msgspec.structs.replace(question, nearest=NEAREST) for question in asked.questions]
    return asked._replace(questions=rows)


def _replies(counter: Counter, asked: Asked) -> list[Answer]:
    if asked.part_alone:
        return [_reply(counter, question) for question in asked.questions]
    return answers_to(counter.graph, asked.questions)


def _reply(counter: Counter, question: Question) -> Answer:
    """The answer about a part alone, and what else goes there; the part itself first."""
    reply = answer(counter.graph, question)
    import msgspec

    mine = {identity(part) for part in question.only}
    every = answer(counter.graph, msgspec.structs.replace(question, only=()))
    rest = [v for v in every.verdicts if identity(v.part) not in mine and _does_its_job(v)]
    return msgspec.structs.replace(
        reply, verdicts=(*reply.verdicts, *rest), more=every.more, more_traps=every.more_traps
    )


def _does_its_job(verdict: Verdict) -> bool:
    return bool(verdict.danger) or verdict.word is not Word.DOES_NOT_FIT


def _print(counter: Counter, answers: list[Answer], asked: Asked) -> None:
    lines = [counter.head(answers[0].place.on)]
    if asked.whole or (len(answers) > FEW and not asked.part_alone):
        from fitlore.report.verdicts_brief import assembly_lines, car_lines_of

        lines += car_lines_of(answers) if asked.whole else assembly_lines(answers)
    else:
        lines += _in_full(answers, asked)
    show([*lines, *closing(counter.graph.policy.deferral, answers)])


def _in_full(answers: list[Answer], asked: Asked) -> list[Line]:
    lines: list[Line] = []
    first, before = 1, ""
    for reply, question in zip(answers, asked.questions, strict=True):
        assembly = f"{reply.place.on}/{reply.place.assembly}"
        lines += [BLANK] if before else []
        needs = len(answers) <= FEW
        apart = len(question.only) if asked.part_alone else 0
        lines += answer_lines(reply, first, needs=needs, same_assembly=assembly == before, apart=apart)
        first, before = first + len(reply.verdicts), assembly
    return lines


def _print_json(counter: Counter, answers: list[Answer], asked: Asked) -> None:
    from fitlore.report.machine import answer_json, dump

    rows, first = [], 1
    for reply, question in zip(answers, asked.questions, strict=True):
        rows.append({**answer_json(reply, first), "asked-about": [part.part for part in question.only]})
        first += len(reply.verdicts)
    deferral = counter.graph.policy.deferral
    car = counter.car.car if counter.car else None
    click.echo(dump({"car": car, "answers": rows, "note": deferral}), nl=False)


def _numbered(answers: list[Answer], asked: Asked) -> list[Numbered]:
    rows: list[tuple[int, Answer, Verdict]] = []
    first = 1
    many = sum(len(reply.verdicts) for reply in answers) > MOST_KEPT
    for reply in answers:
        shown = reply.verdicts[:1] if many and asked.whole else reply.verdicts
        rows += [(number, reply, v) for number, v in enumerate(shown, first)]
        first += len(reply.verdicts)
    return [Numbered(number, verdict_title(reply, v), v.because) for number, reply, v in rows]


def _yes(reply: Answer, question: Question) -> bool:
    """Something goes there that a plan may buy; where parts are asked about, one of those."""
    from fitlore.model.choices import SafetyClass

    gentle = reply.interface.safety in (SafetyClass.NONE, SafetyClass.LIGHTING)
    good = {Word.FITS, Word.FITS_WITH_WORK} | ({Word.BY_MEASURE} if gentle else set())
    mine = {identity(part) for part in question.only}
    return any(v.word in good and (not mine or identity(v.part) in mine) for v in reply.verdicts)
