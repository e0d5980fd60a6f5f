"""`why`: the whole proof of a numbered line of the last answer."""

from __future__ import annotations

import click

from fitlore.cli.counter import shared_options, shop_folder
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered, Session, load
from fitlore.report.sentences import tree
from fitlore.report.text import Line, columns, show


@click.command("why", cls=Page)
@click.argument("number", type=click.IntRange(1), required=False)
@shared_options
def command(folder: str | None, number: int | None, car_name: str | None, as_json: bool) -> int:
    """The proof of line N of the last answer, down to file and line."""
    session = load(shop_folder(folder, quiet=True))
    if not session.asked:
        raise CouldNot("nothing was asked yet; `fitlore fits PLACE` numbers its lines, then `fitlore why 1`")
    if not session.answers:
        raise CouldNot(f"the last answer ({session.asked}) has no numbered lines")
    if number is None:
        _print_all(session, as_json=as_json)
        return 0
    found = next((row for row in session.answers if row.number == number), None)
    if found is None:
        last = session.answers[-1].number
        raise CouldNot(f"the last answer ({session.asked}) has lines 1 to {last}, not {number}")
    _print_one(session, found, as_json=as_json)
    return 0


def _print_all(session: Session, *, as_json: bool) -> None:
    if as_json:
        from fitlore.report.machine import dump

        rows = [{"number": row.number, "title": row.title} for row in session.answers]
        click.echo(dump({"asked": session.asked, "car": session.asked_of, "lines": rows}), nl=False)
        return
    cells = [(f"{row.number:>2}", row.title) for row in session.answers]
    show([*_head(session, session.asked), *columns(cells, ["plain" for _ in cells], "r")])


def _print_one(session: Session, found: Numbered, *, as_json: bool) -> None:
    if as_json:
        from fitlore.report.machine import because_json, dump

        data = {
            "asked": session.asked,
            "car": session.asked_of,
            "number": found.number,
            "title": found.title,
            "because": because_json(found.because),
        }
        click.echo(dump(data), nl=False)
        return
    show([*_head(session, f"line {found.number} of: {session.asked}"), *tree(found.because)])


def _head(session: Session, text: str) -> list[Line]:
    return [Line(session.asked_of or "no car picked", "head", hang=2), Line(text, hang=2)]
