"""`undo`: take the last writes back."""

from __future__ import annotations

import click

from fitlore.cli.counter import shared_options, shop_folder
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.report.faults import fault_lines
from fitlore.report.text import Line, show
from fitlore.upkeep.undo import undo


@click.command("undo", cls=Page)
@click.option("--count", type=click.IntRange(1), default=1, help="How many, newest first.")
@shared_options
def command(folder: str | None, count: int, car_name: str | None, as_json: bool) -> int:
    """Take the last write back, byte for byte."""
    shop = shop_folder(folder)
    if shop is None:
        raise CouldNot("there is no shop here, so nothing was written")
    done = undo(shop, count)
    if as_json:
        from fitlore.report.machine import diagnostic_json, dump

        rows = [{"book": entry.book, "what": entry.what, "when": entry.time} for entry in done.entries]
        refused = diagnostic_json(done.refused) if done.refused else None
        click.echo(dump({"undone": rows, "refused": refused}), nl=False)
    else:
        lines = [
            Line(f"taken back: {entry.what} ({entry.book}, {entry.time})", "good") for entry in done.entries
        ]
        if not done.entries and done.refused is None:
            lines = [Line("nothing to take back")]
        show([*lines, *(fault_lines(done.refused) if done.refused else ())])
    if done.refused is not None:
        return 2
    return 0 if done.entries else 1
