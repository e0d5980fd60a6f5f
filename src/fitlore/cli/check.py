"""`check`: are the books sound."""

from __future__ import annotations

import click

from fitlore.cli.counter import open_counter, shared_options
from fitlore.cli.root import Page
from fitlore.cli.when import this_day
from fitlore.model.diagnostic import Severity
from fitlore.report.faults import all_lines
from fitlore.report.text import show
from fitlore.upkeep.check import check


@click.command("check", cls=Page)
@click.option(
    "--explain", is_flag=True, help="Print the page of all faults, with the smallest text that shows each."
)
@shared_options
def command(folder: str | None, explain: bool, car_name: str | None, as_json: bool) -> int:
    """Are the books sound."""
    if explain:
        from fitlore.books.faults import page

        click.echo(page(), nl=False)
        return 0
    counter = open_counter(folder, car_name)
    found = check(counter.graph, this_day(), counter.folder)
    if as_json:
        from fitlore.report.machine import diagnostic_json, dump

        counts = {f"{s.value}s": sum(d.severity is s for d in found) for s in Severity}
        click.echo(dump({**counts, "faults": [diagnostic_json(d) for d in found]}), nl=False)
    else:
        show(all_lines(found))
    return 1 if any(d.severity is Severity.ERROR for d in found) else 0
