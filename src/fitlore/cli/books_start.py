"""`books start`: a shop's first books, and what to do with them."""

from __future__ import annotations

from pathlib import Path

import click

from fitlore.cli.counter import shared_options
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.when import this_day
from fitlore.model.currencies import minor_units
from fitlore.report.text import show


@click.command("start", cls=Page)
@click.argument("target", metavar="FOLDER")
@click.option("--name", default="", help="The shop's name; the folder's unless said.")
@click.option("--currency", default="GBP", metavar="CODE", help="What it reckons in (ISO 4217; GBP).")
@click.option("--country", default="", metavar="CODE", help="Where it is (two letters, ISO 3166-1).")
@shared_options
def command(
    folder: str | None,
    target: str,
    name: str,
    currency: str,
    country: str,
    car_name: str | None,
    *,
    as_json: bool,
) -> int:
    """A shop's first books."""
    from fitlore.report.started import started_json, started_lines
    from fitlore.upkeep.start import Started, start

    if minor_units(currency) is None:
        raise CouldNot(f"--currency {currency!r}: no code of ISO 4217; write GBP, EUR ...")
    if country and not (len(country) == 2 and country.isascii() and country.isalpha() and country.isupper()):
        raise CouldNot(f"--country {country!r}: two capital letters of ISO 3166-1, as GB or IE")
    done = start(Path(target), this_day(), name=name, country=country, currency=currency)
    if not isinstance(done, Started):
        raise CouldNot.of([done])
    if as_json:
        from fitlore.report.machine import dump

        click.echo(dump(started_json(done)), nl=False)
    else:
        show(started_lines(done))
    return 0
