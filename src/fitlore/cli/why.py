"""`why`: the whole proof of a numbered line of the last answer."""

from __future__ import annotations

import click

from fitlore.cli.counter import shared_options
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.session import load
from fitlore.report.sentences import tree
from fitlore.report.text import Line, show


@click.command("why", cls=Page)
@click.argument("number", type=click.IntRange(1), required=False)
@shared_options
def command(folder: str | None, number: int | None, car_name: str | None, as_json: bool) -> int:
    """The proof of line N of the last answer, down to file and line."""
    from fitlore.cli.counter import shop_folder

    session = load(shop_folder(folder, quiet=True))
    if not session.answers:
        raise CouldNot("nothing was asked yet; `fitlore fits PLACE` numbers its lines, then `fitlore why 1`")
    if number is None:
        rows = [Line(f"last asked: {session.asked}", "head")]
        show([*rows, *(Line(f"{row.number:>2}  {row.title}", hang=4) for row in session.answers)])
        return 0
    found = next((row for row in session.answers if row.number == number), None)
    if found is None:
        last = session.answers[-1].number
        raise CouldNot(f"the last answer ({session.asked}) has lines 1 to {last}, not {number}")
    if as_json:
        from fitlore.report.machine import because_json, dump

        data = {
            "asked": session.asked,
            "number": number,
            "title": found.title,
            "because": because_json(found.because),
        }
        click.echo(dump(data), nl=False)
    else:
        show([Line(f"{session.asked}, line {number}: {found.title}", "head"), *tree(found.because)])
    return 0
