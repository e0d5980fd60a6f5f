"""`fits`: what fits a place, or does this part go there."""

from __future__ import annotations

import click

from fitlore.cli.asking import questions, wanted
from fitlore.cli.counter import Counter, open_counter, shared_options, split_line
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered
from fitlore.fitting import Answer, Word, answer
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
    answers = [answer(counter.graph, question) for question in questions(counter, asked)]
    counter.remember("fits", counter.car, _numbered(answers))
    if as_json:
        _print_json(counter, answers)
    else:
        _print(counter, answers)
    return 0 if all(_yes(reply) for reply in answers) else 1


def _print(counter: Counter, answers: list[Answer]) -> None:
    lines, first = [car_line(counter.car, answers[0].place.on)], 1
    before = ""
    for reply in answers:
        assembly = f"{reply.place.on}/{reply.place.assembly}"
        lines += [BLANK] if before else []
        lines += answer_lines(reply, first, needs=len(answers) <= FEW, same_assembly=assembly == before)
        first, before = first + len(reply.verdicts), assembly
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
