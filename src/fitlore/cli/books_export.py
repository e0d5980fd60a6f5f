"""`books export`: the shop's books in other forms, for other programs."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Final

import click

from fitlore.cli.counter import Counter, open_counter, shared_options, split_line
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page

RDF: Final = ("turtle", "trig", "n-triples", "n-quads", "json-ld")
TABLES: Final = ("parts", "places", "cross-fits", "offers")
FORMS: Final = (*RDF, "graphml", "csv", "xlsx", "orders")
_BINARY: Final = frozenset({"xlsx"})


@click.command("export", cls=Page)
@click.argument("words", nargs=-1, metavar="FORM [of TABLE] [for JOB]")
@click.option("--of", "table", type=click.Choice(TABLES), help="Which table (CSV).")
@click.option("--for", "job", metavar="JOB", help="Whose orders; without it the one job of the picked car.")
@click.option("--to", "target", metavar="FILE", help="Where to; without it, standard output.")
@click.option("--over", is_flag=True, help="Write over a file that is there.")
@shared_options
def command(
    folder: str | None,
    words: tuple[str, ...],
    table: str | None,
    job: str | None,
    target: str | None,
    over: bool,
    car_name: str | None,
    as_json: bool,
) -> int:
    """The shop's books in another form."""
    said = split_line(words, ("of", "to", "for"))
    form, table = said[""].casefold(), table or said.get("of", "").casefold() or None
    target = target or said.get("to")
    if form not in FORMS:
        raise CouldNot(f"in which form? there are {', '.join(FORMS)}")
    if table is not None and table not in TABLES:
        raise CouldNot(f"no table {table!r}; there are {', '.join(TABLES)}")
    if form == "csv" and table is None:
        raise CouldNot(f"which table? `books export csv of offers`; there are {', '.join(TABLES)}")
    counter = open_counter(folder, car_name, quiet=as_json)
    if counter.folder is None:
        raise CouldNot("there is no shop here, so there are no books of your own")
    if target is None and form in _BINARY and sys.stdout.isatty():
        raise CouldNot(f"{form} is nothing to read here; say where it goes: `--to FILE.{form}`")
    whose = job or said.get("for", "")
    letters = form == "orders"
    data = _orders(counter, whose) if letters else _made(counter, counter.folder, form, table)
    return _put(data, target, form, over=over, as_json=as_json)


def _made(counter: Counter, folder: Path, form: str, table: str | None) -> bytes:
    """What is wrong in books with errors would be missing without a word: those are not exported."""
    from fitlore.upkeep.export import NotExported

    try:
        return _maker(counter, folder, form, table)()
    except NotExported as refused:
        raise CouldNot.of(refused.diagnostics) from None


def _orders(counter: Counter, name: str) -> bytes:
    """The orders of the cheapest plan, as the job has its limits. Raises CouldNot where there is no proven one."""
    from fitlore.cli.plan import counted, job_named
    from fitlore.cli.when import this_day, this_hour
    from fitlore.report.orders import orders_text
    from fitlore.sourcing.assemble import Wishes
    from fitlore.sourcing.plan import plan

    counter, job = job_named(counter, name)
    day = job.today or this_day()
    wishes = Wishes(today=day, now=this_hour(day))
    made = counted(counter, job, lambda watch: plan(counter.graph, job, wishes, explain=False, watch=watch))
    if made.solution.status != "proven":
        raise CouldNot(f"there is no proven plan for {job.job}; `fitlore plan {job.job}` says why")
    suppliers = {str(one.supplier): one for one in counter.graph.suppliers()}
    return orders_text(made, counter.graph.shop, suppliers).encode()


def _maker(counter: Counter, folder: Path, form: str, table: str | None) -> Callable[[], bytes]:
    if form in RDF:
        from fitlore.upkeep.export import export

        return lambda: export(folder, form)
    from fitlore.upkeep.listing import as_csv, listings

    if form == "graphml":
        from fitlore.graph.view import whole
        from fitlore.model.numbers import number_key

        def drawn() -> bytes:
            keys = [number_key(f"{row[1]} {row[0]}") for row in listings(folder)["parts"].rows]
            return whole(counter.graph, keys)

        return drawn
    if form == "csv":
        return lambda: as_csv(listings(folder)[table or ""])
    from fitlore.upkeep.workbook import workbook

    def sheets() -> bytes:
        found = listings(folder)
        return workbook({name: rows for name, rows in found.items() if table in (None, name)})

    return sheets


def _put(data: bytes, target: str | None, form: str, *, over: bool, as_json: bool) -> int:
    if target is None or target == "-":
        sys.stdout.buffer.write(data)
        return 0
    path = Path(target)
    try:
        with path.open("wb" if over else "xb") as file:
            file.write(data)
    except FileExistsError:
        raise CouldNot(f"{target} is there already; --over writes over it") from None
    if as_json:
        from fitlore.report.machine import dump

        click.echo(dump({"form": form, "file": target, "bytes": len(data)}), nl=False)
    else:
        click.echo(f"written: {target}, {len(data)} bytes")
    return 0
