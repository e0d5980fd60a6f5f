"""`where`: substitute sources of a place or a part, cheapest landed cost first."""

from __future__ import annotations

import itertools
from datetime import date

import click

from fitlore.cli.asking import asked_of, questions
from fitlore.cli.counter import Counter, open_counter, shared_options, split_line
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered
from fitlore.cli.when import read_day, this_day, this_hour
from fitlore.fitting import answer
from fitlore.model.because import Because
from fitlore.report.money import said
from fitlore.report.sources import LANDED, sources_lines
from fitlore.report.text import BLANK, Line, minutes, show
from fitlore.report.verdicts import closing
from fitlore.sourcing.paths import Source, Sources, sources_for


@click.command("where", cls=Page)
@click.argument("words", nargs=-1, required=True)
@click.option(
    "--for", "--in", "place", metavar="PLACE", help="The place, for a part named by the free words."
)
@click.option("--side", type=click.Choice(["left", "right"]), help="The side, where the place has sides.")
@click.option(
    "--quantity", type=click.IntRange(1, 999), help="How many are wanted; else what the place takes."
)
@click.option("--on", "day", metavar="DAY", help="The day it is asked on; else today.")
@shared_options
def command(
    folder: str | None,
    words: tuple[str, ...],
    place: str | None,
    side: str | None,
    quantity: int | None,
    day: str | None,
    car_name: str | None,
    as_json: bool,
) -> int:
    """Who has something that does the job, and what it comes to here."""
    counter = open_counter(folder, car_name, in_hand=True)
    parts = split_line(words, ("for", "in", "on"))
    day = day or parts.get("on")
    today = read_day(day, this_day()) if day else this_day()
    counter, asked = asked_of(
        counter, parts[""], place or parts.get("for") or parts.get("in") or "", side or ""
    )
    found = []
    for question in questions(counter, asked):
        spot = question.place
        sides = 1 if question.side else max(1, len(spot.sides))
        count = quantity or spot.place.quantity * sides
        found.append(
            sources_for(counter.graph, answer(counter.graph, question), count, today, this_hour(today))
        )
    counter.remember("where", counter.car, _numbered(found))
    if as_json:
        _print_json(counter, found)
    else:
        _print(counter, found, today)
    return 0 if all(row.sources for row in found) else 1


def _print(counter: Counter, found: list[Sources], today: date) -> None:
    lines, first = [counter.head(found[0].answer.place.on)], 1
    for sources in found:
        lines += [BLANK] if len(lines) > 1 else []
        lines += sources_lines(sources, today, first)
        first += len(sources.sources)
    if first > 1:
        lines.append(Line(f"  {LANDED}", "dim", hang=4))
    show([*lines, *closing(counter.graph.policy.deferral)])


def _print_json(counter: Counter, found: list[Sources]) -> None:
    from fitlore.report.machine import dump, source_json

    numbers = itertools.count(1)
    rows = [
        {
            "place": sources.answer.place.full_path,
            "side": sources.answer.side,
            "sources": [source_json(source, next(numbers), sources) for source in sources.sources],
            "left-out": [{"line": str(line.origin), "why": code} for line, code in sources.barred]
            + [{"line": str(row.offer.origin), "why": row.code} for row in sources.left_out],
            "not-bought": [{"part": v.part.part, "verdict": v.word.value} for v in sources.refused],
        }
        for sources in found
    ]
    click.echo(dump({"car": counter.car.car if counter.car else None, "answers": rows}), nl=False)


def _numbered(found: list[Sources]) -> list[Numbered]:
    rows: list[Numbered] = []
    for sources in found:
        for source in sources.sources:
            rows.append(Numbered(len(rows) + 1, _title(source), _because(source, sources)))
    return rows


def _title(source: Source) -> str:
    return f"{source.choice.option.id} from {source.offer.supplier}"


def _because(source: Source, sources: Sources) -> Because:
    home = sources.home
    values = {
        "offer": source.offer.id,
        "goods": said(source.goods, home),
        "carriage": said(source.carriage, home) if source.carriage else "",
        "lost": said(source.lost, home) if source.lost > 0 else "",
        "back": said(-source.lost, home) if source.lost < 0 else "",
        "hands": minutes(source.hands) if source.hands else "",
        "landed": said(source.landed, home),
    }
    under = (source.verdict.because,) if source.verdict else ()
    return Because("source", values, (source.line.origin,), under=under)
