"""`undo`: take writes back, the last ones or one by its number."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from fitlore.cli.counter import shared_options, shop_folder
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.report.faults import fault_lines
from fitlore.report.text import Line, show
from fitlore.upkeep.undo import Standing, Undone, let_go, listed, undo

if TYPE_CHECKING:
    from pathlib import Path

    from fitlore.upkeep.journal import Entry

_NOW = {
    "whole": "",
    "around": "; the book was changed since, elsewhere",
    "": "; the book was edited where this wrote",
}


@click.command("undo", cls=Page)
@click.argument("number", type=click.IntRange(1), required=False)
@click.option("--count", type=click.IntRange(1), default=1, help="How many, newest first.")
@click.option("--list", "listing", is_flag=True, help="The writes that can be taken back.")
@click.option("--let-go", "freed", type=click.IntRange(1), help="Leave this write as it is, for good.")
@shared_options
def command(
    folder: str | None,
    number: int | None,
    count: int,
    freed: int | None,
    car_name: str | None,
    *,
    listing: bool,
    as_json: bool,
) -> int:
    """Take the last write back, byte for byte."""
    shop = shop_folder(folder)
    if shop is None:
        raise CouldNot("there is no shop here, so nothing was written")
    if (number is not None) + (count > 1) + listing + (freed is not None) > 1:
        raise CouldNot("a number, --count, --list and --let-go are four questions: ask one at a time")
    if listing:
        return _list(shop, as_json=as_json)
    done = undo(shop, count, number) if freed is None else let_go(shop, freed)
    if as_json:
        _dump(done)
    else:
        show(_lines(done, "taken back" if freed is None else "left as it is", number or freed))
    if done.refused is not None:
        return 2
    return 0 if done.entries else 1


def _lines(done: Undone, word: str, number: int | None) -> list[Line]:
    lines = []
    for entry in done.entries:
        kept = "; what was changed in the book since stays" if entry.number in done.around else ""
        lines.append(Line(f"{word}: {entry.what} ({entry.book}, {entry.time}){kept}", "good", hang=2))
    if done.refused is not None:
        return [*lines, *fault_lines(done.refused)]
    nothing = "nothing to take back" if number is None else f"there is no write {number} to take back"
    return lines or [Line(nothing)]


def _list(shop: Path, *, as_json: bool) -> int:
    writes = listed(shop)
    if as_json:
        from fitlore.report.machine import dump

        rows = [{**_row(write.entry), "back": write.back} for write in writes]
        click.echo(dump({"writes": rows}), nl=False)
    else:
        show([_written(write) for write in writes] or [Line("nothing to take back")])
    return 0 if writes else 1


def _written(write: Standing) -> Line:
    entry = write.entry
    return Line(f"{entry.number:>4}  {entry.what} ({entry.book}, {entry.time}){_NOW[write.back]}", hang=6)


def _row(entry: Entry) -> dict[str, str | int]:
    return {"number": entry.number, "book": entry.book, "what": entry.what, "when": entry.time}


def _dump(done: Undone) -> None:
    from fitlore.report.machine import diagnostic_json, dump

    rows = [{**_row(entry), "around": entry.number in done.around} for entry in done.entries]
    refused = diagnostic_json(done.refused) if done.refused else None
    click.echo(dump({"undone": rows, "refused": refused}), nl=False)
