"""`books import`: a supplier's price list taken into the books, after a look at what it would change."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import click
import msgspec

from fitlore.cli.counter import Counter, open_counter, shared_options, split_line
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.when import read_day, this_day
from fitlore.model.choices import DecimalMark, Divider
from fitlore.model.currencies import minor_units
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.record import Currency
from fitlore.model.supply import PriceList, Supplier
from fitlore.report.faults import fault_lines
from fitlore.report.text import show

if TYPE_CHECKING:
    from fitlore.upkeep.pricelist import Draft, Written
    from fitlore.upkeep.pricelist.draft import Wanted
    from fitlore.upkeep.pricelist.faults import Unclear

_MOST_QUESTIONS: Final = 6
_CHOSEN: Final[Mapping[str, type[Divider] | type[DecimalMark]]] = {
    "divided_by": Divider,
    "decimals_after": DecimalMark,
}


@click.command("import", cls=Page)
@click.argument("words", nargs=-1, metavar="FILE from SUPPLIER")
@click.option("--from", "supplier", metavar="SUPPLIER", help="Whose list it is.")
@click.option(
    "--number-in",
    metavar="COLUMN",
    default="",
    help="The numbers' column: its heading, or its number from 1.",
)
@click.option("--price-in", metavar="COLUMN", default="", help="The prices' column.")
@click.option("--maker-in", metavar="COLUMN", default="", help="The column that says whose number it is.")
@click.option("--stock-in", metavar="COLUMN", default="", help="The column that says how many he has.")
@click.option(
    "--pack-in", metavar="COLUMN", default="", help="The column that says how many the price is for."
)
@click.option("--currency", metavar="CODE", help="Of prices without one (ISO 4217).")
@click.option(
    "--divided-by", type=click.Choice([one.value for one in Divider]), help="What divides the columns."
)
@click.option(
    "--decimals-after", type=click.Choice([one.value for one in DecimalMark]), help="The decimal sign."
)
@click.option("--encoding", default="", help="Of a list that is not UTF-8, by its IANA name.")
@click.option("--sheet", default="", help="Of a workbook.")
@click.option("--days", type=click.IntRange(0, 999), help="Until a thing of this list is here.")
@click.option("--seen", metavar="DAY", help="The day of the list; today unless said.")
@click.option("--even-so", is_flag=True, help="Take prices that can hardly be, too.")
@click.option("--all", "every", is_flag=True, help="Show every line, not the first few of each kind.")
@click.option(
    "--write/--dry-run", "write", default=None, help="Write at once, or never; on a terminal it is asked."
)
@shared_options
def command(
    folder: str | None,
    words: tuple[str, ...],
    supplier: str | None,
    days: int | None,
    seen: str | None,
    even_so: bool,
    every: bool,
    write: bool | None,
    car_name: str | None,
    as_json: bool,
    **layout: Any,
) -> int:
    """Take a supplier's price list into the books."""
    from fitlore.upkeep.pricelist import asked_first
    from fitlore.upkeep.pricelist.draft import Wanted

    said = split_line(words, ("from",))
    file, whose = said[""], supplier or said.get("from", "")
    if not file or not whose:
        raise CouldNot("say which file and whose list it is: `books import prices.csv from SUPPLIER`")
    counter = open_counter(folder, quiet=as_json)
    if counter.folder is None:
        raise CouldNot("there is no shop here, so there are no suppliers")
    record = _supplier(counter, whose)
    day = read_day(seen, this_day()) if seen else this_day()
    wanted = Wanted(asked_first(record.price_list, _layout(layout)), days, even_so)
    data = _read(file)
    shown = "standard input" if file == "-" else file
    draft = _drafted(counter, record, shown, data, wanted, ask=not as_json)
    done = _write_if(draft, counter.folder, day, write, as_json=as_json, every=every)
    return _said(draft, done, as_json=as_json, every=every)


def _drafted(
    counter: Counter, record: Supplier, shown: str, data: bytes, wanted: Wanted, *, ask: bool
) -> Draft:
    """The draft; on a terminal what is unclear is asked."""
    from fitlore.upkeep.pricelist import drafted
    from fitlore.upkeep.pricelist.faults import Unclear

    for _ in range(_MOST_QUESTIONS):
        try:
            return drafted(counter.graph, record, shown, data, wanted, _progress)
        except Unclear as unclear:
            _progress("")
            if not (ask and unclear.option and sys.stdin.isatty() and sys.stdout.isatty()):
                raise CouldNot.of([unclear.found]) from None
            wanted = _answered(wanted, unclear)
    raise CouldNot("that is as unclear as before; say it by an option")


def _answered(wanted: Wanted, unclear: Unclear) -> Wanted:
    show(fault_lines(unclear.found)[:1])
    name = unclear.option.replace("-", "_")
    if name == "days":
        return wanted._replace(
            days=click.prompt("days until a thing of this list is here", type=click.IntRange(0, 999))
        )
    answer = click.prompt(unclear.option.replace("-", " "), type=click.Choice(unclear.choices))
    return wanted._replace(layout=msgspec.structs.replace(wanted.layout, **{name: _value(name, answer)}))


def _value(name: str, text: str) -> object:
    kind = _CHOSEN.get(name)
    return kind(text) if kind else text


def _layout(said: Mapping[str, Any]) -> PriceList:
    code = said["currency"]
    if code and minor_units(code) is None:
        raise CouldNot(f"--currency {code!r}: no code of ISO 4217; write GBP, EUR ...")
    values = {name: _value(name, value) for name, value in said.items() if value and name != "currency"}
    values = {"number_in": "", "price_in": "", **values}
    return PriceList(currency=Currency(code) if code else None, **values)  # type: ignore[arg-type]


def _supplier(counter: Counter, words: str) -> Supplier:
    """The supplier of that name; raises CouldNot with the near ones."""
    from difflib import get_close_matches

    every = counter.graph.suppliers()
    wanted = words.casefold()
    found = [one for one in every if wanted in (str(one.supplier).casefold(), one.name.casefold())]
    found = found or [one for one in every if wanted in one.name.casefold() or wanted in str(one.supplier)]
    if len(found) == 1:
        return found[0]
    names = [str(one.supplier) for one in found or every]
    near = names if found else get_close_matches(wanted, names, 3, 0.4) or names
    raise CouldNot(
        f"no one supplier is called {words!r}; there {'is' if len(near) == 1 else 'are'} {', '.join(near)}"
    )


def _read(file: str) -> bytes:
    if file == "-":
        return sys.stdin.buffer.read()
    try:
        return Path(file).read_bytes()
    except OSError as error:
        raise CouldNot(f"{file}: {error.strerror or error}") from None


def _write_if(
    draft: Draft, folder: Path, day: Any, write: bool | None, *, as_json: bool, every: bool
) -> Written | Diagnostic | None:
    """Writes where that was said, or is said now on a terminal."""
    from fitlore.report.pricelists import draft_lines
    from fitlore.upkeep.pricelist import written

    _progress("")
    if not as_json:
        show(draft_lines(draft, every=every))
    some = bool(draft.new or draft.changed or draft.same)
    asking = write is None and not as_json and sys.stdin.isatty() and sys.stdout.isatty()
    if some and (write or (asking and click.confirm(f"write that to {draft.supplier.origin.book}?"))):
        return written(draft, folder, day)
    return None


def _said(draft: Draft, done: Written | Diagnostic | None, *, as_json: bool, every: bool) -> int:
    from fitlore.report.machine import dump
    from fitlore.report.pricelists import draft_json, end_lines

    if as_json:
        click.echo(dump(draft_json(draft, done)), nl=False)
    elif isinstance(done, Diagnostic):
        show(fault_lines(done), sys.stderr)
    else:
        show(end_lines(draft, done))
    if isinstance(done, Diagnostic):
        return 2
    return 1 if draft.held else 0


def _progress(text: str) -> None:
    if sys.stderr.isatty():
        click.echo(f"\r\x1b[K{text}", nl=False, err=True)
