"""`books query`: questions in SPARQL over what the books say, from a file, standard input, or ready to be asked."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from fitlore.cli.counter import open_counter, shared_options
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.report.text import show, width_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fitlore.upkeep.query import Answered, Ready


@click.command("query", cls=Page)
@click.argument("question", required=False, metavar="[NAME | FILE | -]")
@click.option("--ready", "name", metavar="NAME", help="The ready question of that name.")
@click.option("--show", "shown", metavar="NAME", help="Print a ready question instead of asking it.")
@click.option("--csv", "as_csv", is_flag=True, help="The W3C's CSV of results.")
@click.option("--seconds", type=click.FloatRange(0.01, 3600), default=20.0, help="Stop after so long (20).")
@click.option(
    "--rows", type=click.IntRange(1, 10_000_000), default=1000, help="So many rows at most (1,000)."
)
@shared_options
def command(
    folder: str | None,
    question: str | None,
    name: str | None,
    shown: str | None,
    as_csv: bool,
    seconds: float,
    rows: int,
    car_name: str | None,
    as_json: bool,
) -> int:
    """Ask the books in SPARQL."""
    from fitlore.upkeep.query import Limits, asked, ready

    if (question is not None) + (name is not None) + (shown is not None) > 1:
        raise click.UsageError("one question at a time: a file, `-`, or the name of a ready one")
    if as_csv and as_json:
        raise click.UsageError("say --csv or --json")
    counter = open_counter(folder, car_name, quiet=as_json or as_csv)
    known, wrong = ready(counter.folder)
    if question is None and name is None:
        if wrong:
            raise CouldNot.of(wrong)
        return _listed(known, shown, counter.folder, as_json=as_json)
    told, text = _question(known, question, name)
    answer = asked(counter.folder, told, text, Limits(seconds, rows))
    if not isinstance(answer, tuple):
        raise CouldNot.of([answer])
    return _said(answer, rows, as_csv=as_csv, as_json=as_json)


def _listed(known: Mapping[str, Ready], shown: str | None, folder: Path | None, *, as_json: bool) -> int:
    from fitlore.report.answers import ready_json, ready_lines

    if shown is not None:
        click.echo(_ready(known, shown).query, nl=False)
    elif as_json:
        from fitlore.report.machine import dump

        click.echo(dump(ready_json(known.values())), nl=False)
    else:
        own = frozenset(one.name for one in known.values() if folder and folder in one.path.parents)
        show(ready_lines(known.values(), own))
    return 0


def _question(known: Mapping[str, Ready], question: str | None, name: str | None) -> tuple[str, str]:
    """What a question is called in faults, and its text."""
    if name is None and question == "-":
        return "standard input", _text(sys.stdin.buffer.read(), "standard input")
    file = Path(question) if question is not None else None
    if file is not None and file.is_file():
        if question in known:
            raise CouldNot(
                f"{question} is a file here and a ready question: say ./{question} or --ready {question}"
            )
        return str(question), _text(file.read_bytes(), str(question))
    if question is not None and (question.endswith(".rq") or "/" in question):
        raise CouldNot(f"{question}: no such file")
    one = _ready(known, name or question or "")
    return one.path.name, one.query


def _ready(known: Mapping[str, Ready], name: str) -> Ready:
    if name not in known:
        from difflib import get_close_matches

        near = get_close_matches(name, known, 3, 0.4)
        hint = f"did you mean {' or '.join(near)}?" if near else "`fitlore books query` lists those there are"
        raise CouldNot(f"no file and no ready question {name!r}; {hint}")
    return known[name]


def _text(data: bytes, shown: str) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        raise CouldNot(f"{shown}: a question is text in UTF-8") from None


def _said(answer: Answered, rows: int, *, as_csv: bool, as_json: bool) -> int:
    from fitlore.report.answers import answer_csv, answer_json, answer_lines

    if as_json:
        from fitlore.report.machine import dump

        click.echo(dump(answer_json(answer)), nl=False)
    elif as_csv:
        sys.stdout.buffer.write(answer_csv(answer).encode())
    else:
        show(answer_lines(answer, width_of()))
    if answer.cut:
        click.echo(f"note: only the first {rows} rows are shown; --rows N shows more", err=True)
        return 2
    return 0 if answer.rows or answer.said else 1
