"""`tidy`: books in one order and alignment; also the schema's line for editors. `check --tidy` does the same."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

import click

from fitlore.cli.counter import shared_options, shop_folder
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.model.diagnostic import Diagnostic
from fitlore.report.checks import difference_lines
from fitlore.report.faults import fault_lines
from fitlore.report.text import Line, show

if TYPE_CHECKING:
    from fitlore.books.layout import BookFile
    from fitlore.upkeep.rewriting import Made

TIDYING: Final = "a book tidied"
HEADING: Final = "the schema's line put on top"


class Row(NamedTuple):
    """What became of a book."""

    made: Made
    number: int | None = None
    """Of the write, where there was one."""
    refused: Diagnostic | None = None


@click.command("tidy", cls=Page)
@click.argument("books", nargs=-1)
@click.option("--dry-run", is_flag=True, help="Show what would change, and write nothing.")
@shared_options
def command(
    folder: str | None, books: tuple[str, ...], dry_run: bool, car_name: str | None, as_json: bool
) -> int:
    """Put books into one order and alignment, losing no comment."""
    return tidy_books(folder, books, dry_run=dry_run, as_json=as_json)


def tidy_books(folder: str | None, names: Sequence[str], *, dry_run: bool, as_json: bool) -> int:
    """Tidies the books named, or all of the shop's own: 0 all are tidy now, 1 some are not, raises CouldNot."""
    from fitlore.upkeep.rewriting import tidied

    shop = _shop(folder)
    return _write(shop, tidied(_chosen(shop, names)), TIDYING, dry_run=dry_run, as_json=as_json)


def head_books(folder: str | None, names: Sequence[str], *, dry_run: bool, as_json: bool) -> int:
    """Writes the schema into the shop's folder, and its line on top of the books named; says the line where none is."""
    from fitlore.upkeep.rewriting import headed, line_for, put_schema

    shop = _shop(folder)
    chosen = _chosen(shop, names) if names else []
    path = put_schema(shop)
    if not names and not as_json:
        show([Line(f"written: {path.relative_to(shop)}"), Line("on top of a book in the folder `books`:")])
        show([Line(f"    {line_for(shop / 'books' / 'any.yaml', shop)}", wrap=False)])
        return 0
    return _write(shop, headed(chosen, shop), HEADING, dry_run=dry_run, as_json=as_json)


def _shop(folder: str | None) -> Path:
    shop = shop_folder(folder)
    if shop is None:
        raise CouldNot("there is no shop here, so there are no books of your own")
    return shop


def _chosen(shop: Path, names: Sequence[str]) -> list[tuple[BookFile, Path]]:
    from fitlore.upkeep.rewriting import NoSuchBook, own_books

    try:
        return own_books(shop, names)
    except NoSuchBook as error:
        raise CouldNot(str(error)) from None


def _write(shop: Path, books: Iterable[Made], what: str, *, dry_run: bool, as_json: bool) -> int:
    from fitlore.upkeep.rewriting import write

    rows = []
    for made in books:
        row = Row(made, refused=made.refused)
        if made.changes and not dry_run:
            done = write(shop, made, what)
            row = Row(made, refused=done) if isinstance(done, Diagnostic) else Row(made, done)
        rows.append(row)
    _say(rows, dry_run=dry_run, as_json=as_json)
    left = any(row.refused is not None or (dry_run and row.made.changes) for row in rows)
    return 1 if left else 0


def _say(rows: Sequence[Row], *, dry_run: bool, as_json: bool) -> None:
    if as_json:
        from fitlore.report.machine import diagnostic_json, dump

        listed = [
            {
                "book": row.made.book.shown,
                "changes": row.made.changes,
                "written": row.number is not None,
                "kept": row.made.kept,
                "refused": diagnostic_json(row.refused) if row.refused else None,
            }
            for row in rows
        ]
        click.echo(dump({"books": listed}), nl=False)
        return
    lines: list[Line] = []
    for row in rows:
        lines += _lines_of(row, dry_run=dry_run)
    changed = sum(row.made.changes for row in rows)
    word = "would change" if dry_run else "changed"
    same = sum(not row.made.changes and row.refused is None for row in rows)
    refused = sum(row.refused is not None for row in rows)
    tail = f", {refused} left alone" if refused else ""
    show([*lines, Line(f"{changed} {word}, {same} as they should be{tail}", "head")])


def _lines_of(row: Row, *, dry_run: bool) -> list[Line]:
    shown = row.made.book.shown
    if row.refused is not None:
        return fault_lines(row.refused)
    if not row.made.changes:
        return []
    kept = (
        f" ({row.made.kept} left out of order, because comments would change places)" if row.made.kept else ""
    )
    if dry_run:
        return [*difference_lines(shown, row.made.before, row.made.after), *([Line(kept)] if kept else [])]
    return [Line(f"changed: {shown}{kept}; `fitlore undo` takes it back", "good")]
