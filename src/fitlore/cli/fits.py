"""`fits`: what fits a place, or does this part go there."""

from __future__ import annotations

import click

from fitlore.cli.asking import Wanted, wanted
from fitlore.cli.counter import Counter, open_counter, shared_options, split_line
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered
from fitlore.fitting import Answer, Question, Word, answer
from fitlore.model.placed import PlaceOn
from fitlore.report.text import BLANK, show
from fitlore.report.verdicts import WORDS, answer_lines, car_line, closing

FEW = 2
"""Of so many places it is also said what each needs; of more only what goes there."""


@click.command("fits", cls=Page)
@click.argument("words", nargs=-1, required=True)
@click.option(
    "--in", "--for", "place", metavar="PLACE", help="The place, for a part named by the free words."
)
@click.option("--side", type=click.Choice(["left", "right"]), help="The side, where the place has sides.")
@shared_options
def command(
    folder: str | None,
    words: tuple[str, ...],
    place: str | None,
    side: str | None,
    car_name: str | None,
    as_json: bool,
) -> int:
    """What fits a place; or does this part go there."""
    counter = open_counter(folder, car_name)
    parts = split_line(words, ("in", "for", "into"))
    at = place or parts.get("in") or parts.get("for") or parts.get("into") or ""
    asked = wanted(counter, parts[""], at, side or "")
    answers = [answer(counter.graph, question) for question in _questions(counter, asked)]
    if as_json:
        _print_json(counter, answers)
    else:
        _print(counter, answers)
    counter.remember(f"fits {' '.join(words)}", _numbered(answers))
    return 0 if all(_yes(reply) for reply in answers) else 1


def _questions(counter: Counter, asked: Wanted) -> list[Question]:
    """One question per place and side; a place with left and right parts is asked for both."""
    rows = []
    for place in asked.places:
        for side in _sides(counter, place, asked):
            rows.append(Question(place, counter.car, side, both=not asked.side, only=asked.parts))
    return rows


def _sides(counter: Counter, place: PlaceOn, asked: Wanted) -> tuple[str, ...]:
    from fitlore.fitting.interface import interface_of
    from fitlore.model.choices import Sides

    if not place.sides or (asked.side and asked.side not in place.sides):
        return ("",)
    if asked.side:
        return (asked.side,)
    interface = interface_of(counter.graph, place.place.is_)
    handed = interface is not None and interface.sides in (Sides.MIRROR, Sides.OTHER_LENGTH)
    return place.sides if handed else ("",)


def _print(counter: Counter, answers: list[Answer]) -> None:
    lines, first = [car_line(counter.car, answers[0].place.on)], 1
    for reply in answers:
        lines += [BLANK] if first > 1 else []
        lines += answer_lines(reply, first, needs=len(answers) <= FEW)
        first += len(reply.verdicts)
    show([*lines, *closing(counter.graph.policy.deferral, answers)])


def _print_json(counter: Counter, answers: list[Answer]) -> None:
    from fitlore.report.machine import answer_json, dump

    rows, first = [], 1
    for reply in answers:
        rows.append(answer_json(reply, first))
        first += len(reply.verdicts)
    deferral = counter.graph.policy.deferral
    click.echo(
        dump({"car": counter.car.car if counter.car else None, "answers": rows, "note": deferral}), nl=False
    )


def _numbered(answers: list[Answer]) -> list[Numbered]:
    verdicts = [(reply, v) for reply in answers for v in reply.verdicts]
    return [
        Numbered(
            number, f"{WORDS[v.word]}: {v.part.maker} {v.part.part} at {reply.place.full_path}", v.because
        )
        for number, (reply, v) in enumerate(verdicts, 1)
    ]


def _yes(reply: Answer) -> bool:
    """Something goes there that a plan may buy."""
    from fitlore.model.choices import SafetyClass

    gentle = reply.interface.safety in (SafetyClass.NONE, SafetyClass.LIGHTING)
    good = {Word.FITS, Word.FITS_WITH_WORK} | ({Word.BY_MEASURE} if gentle else set())
    return any(verdict.word in good for verdict in reply.verdicts)
