"""`books count`: how much the books know, in figures taken from the books themselves."""

from __future__ import annotations

import click

from fitlore.cli.counter import open_counter, shared_options
from fitlore.cli.root import Page
from fitlore.cli.when import this_day
from fitlore.graph.open import open_graph
from fitlore.report.counts import counts_lines
from fitlore.report.text import show
from fitlore.upkeep.counts import count
from fitlore.upkeep.knowing import Known


@click.command("count", cls=Page)
@click.option("--built-in", is_flag=True, help="The shelf that comes with the program, by itself.")
@shared_options
def command(folder: str | None, car_name: str | None, *, built_in: bool, as_json: bool) -> int:
    """How much the books know."""
    graph = open_graph(None) if built_in else open_counter(folder, car_name).graph
    counts = count(Known(graph, this_day()))
    if as_json:
        from fitlore.report.machine import dump
        from fitlore.report.machine_books import counts_json

        click.echo(dump(counts_json(counts)), nl=False)
    else:
        show(counts_lines(counts))
    return 0
