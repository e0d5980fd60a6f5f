"""`check`: are the books sound."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from fitlore.cli.counter import open_counter, shared_options, shop_folder
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.when import this_day
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.report.faults import all_lines, with_files
from fitlore.report.text import Line, show
from fitlore.upkeep import profile as profiles
from fitlore.upkeep.check import Ask, check

if TYPE_CHECKING:
    from fitlore.books.faults import Fault
    from fitlore.upkeep.profile import Profile


@click.command("check", cls=Page)
@click.argument("books", nargs=-1)
@click.option(
    "--explain", is_flag=True, help="Print the page of all faults, with the smallest text that shows each."
)
@click.option("--rules", "list_rules", is_flag=True, help="List the rules: name, severity, problem.")
@click.option("--rule", "rule", metavar="NAME", help="Explain one rule.")
@click.option(
    "--profile", "profile", metavar="NAME", help="How bad what is: shop, strict, built-in, or a file."
)
@click.option("--ci", is_flag=True, help="One line a fault, for a checking machine; exit 1 on warnings too.")
@click.option("--shapes", is_flag=True, help="Hold books of YAML against the shapes as well; slow.")
@click.option("--tidy", "tidying", is_flag=True, help="The same as `fitlore tidy`.")
@click.option("--dry-run", is_flag=True, help="With --tidy or --schema: write no book.")
@click.option("--schema", is_flag=True, help="Put the schema of books where editors find it.")
@shared_options
def command(
    folder: str | None,
    books: tuple[str, ...],
    explain: bool,
    list_rules: bool,
    rule: str | None,
    profile: str | None,
    ci: bool,
    shapes: bool,
    tidying: bool,
    dry_run: bool,
    schema: bool,
    car_name: str | None,
    as_json: bool,
) -> int:
    """Are the books sound."""
    if tidying and schema:
        raise click.UsageError("say --tidy or --schema; both write books")
    if tidying or schema:
        from fitlore.cli.tidy import head_books, tidy_books

        act = tidy_books if tidying else head_books
        return act(folder, books, dry_run=dry_run, as_json=as_json)
    if books or dry_run:
        raise click.UsageError("books are named with --tidy or --schema; a check looks at all of them")
    if explain:
        from fitlore.books.faults import page

        click.echo(page(), nl=False)
        return 0
    if list_rules or rule:
        if as_json:
            raise click.UsageError("rules are told in words only; leave --json away")
        return _tell_rules(folder, profile, rule)
    counter = open_counter(folder, car_name, quiet=ci)
    named = profile or (profiles.STRICT if ci else "")
    ask = Ask(_file_of(named, counter.folder), shapes, _silent if ci else _tell)
    found = check(counter.graph, this_day(), counter.folder, ask)
    _print(found, counter.folder, ci=ci, as_json=as_json)
    stops = (Severity.ERROR, Severity.WARNING) if ci else (Severity.ERROR,)
    return 1 if any(d.severity in stops for d in found) else 0


def _print(found: Sequence[Diagnostic], folder: Path | None, *, ci: bool, as_json: bool) -> None:
    if as_json:
        from fitlore.report.machine import diagnostic_json, dump

        counts = {f"{s.value}s": sum(d.severity is s for d in found) for s in Severity}
        click.echo(dump({**counts, "faults": [diagnostic_json(d) for d in found]}), nl=False)
    elif ci:
        _for_machines(found, folder)
    else:
        name = _file_names(folder)
        show(all_lines([with_files(one, name) for one in found]))


def _for_machines(found: Sequence[Diagnostic], folder: Path | None) -> None:
    """One line each."""
    from fitlore.books.layout import BUILT_IN, builtin_kb
    from fitlore.report.checks import machine_line

    name = _file_names(folder)
    for one in found:
        shelf, _, rest = one.origin.book.partition("/")
        file = str(builtin_kb() / rest) if shelf == BUILT_IN else name(one.origin.book)
        click.echo(machine_line(with_files(one, name), file))


def _file_names(folder: Path | None) -> Callable[[str], str]:
    """What makes of a book's shown name the name of its file, as seen from the working folder.

    Built-in books keep theirs: they are not for the shop to edit. So does what is no file.
    """
    from fitlore.books.layout import BUILT_IN, books_of

    here = Path.cwd()
    files = {book.shown: book.path for book in books_of(folder) if book.shelf != BUILT_IN}

    def name(shown: str) -> str:
        path = files.get(shown)
        if path is None and folder is not None and (folder / shown).is_file():
            path = folder / shown
        return shown if path is None else Path(os.path.relpath(path, here)).as_posix()

    return name


def _silent(text: str) -> None:
    """Tells nobody."""


def _tell(text: str) -> None:
    if sys.stderr.isatty():
        click.echo(text, err=True)


def _file_of(name: str, folder: Path | None) -> Path | None:
    """The file of a profile; None: the shop's own or the usual one. Raises CouldNot where there is none of that name."""
    if not name:
        return None
    path = profiles.find(name, folder)
    if path is None:
        from fitlore.books.near import near_word

        near = near_word(name, profiles.built_in())
        hint = (
            f"did you mean {near}?" if near else f"there are {', '.join(profiles.built_in())}, or name a file"
        )
        raise CouldNot(f"no profile {name!r}; {hint}")
    return path


def _tell_rules(folder: str | None, profile: str | None, rule: str | None) -> int:
    """All rules in a line each, or one of them with all it has to say."""
    from fitlore.report.checks import rule_lines
    from fitlore.upkeep.check import every, profile_of

    shop = shop_folder(folder, quiet=True)
    used = profile_of(shop, _file_of(profile or "", shop))
    rows = {row.code: row for row in every(shop)}
    if rule is None:
        show(rule_lines((row.code, used.of(row.code, row.severity), row.title) for row in rows.values()))
        return 0
    begun = [name for name in rows if name.startswith(rule)]
    rule = begun[0] if len(begun) == 1 else rule
    if rule not in rows:
        from difflib import get_close_matches

        near = get_close_matches(rule, rows, 3, 0.4)
        raise CouldNot(
            f"no rule {rule!r}; " + (f"did you mean {' or '.join(near)}?" if near else "see --rules")
        )
    row = rows[rule]
    show([*rule_lines([(row.code, used.of(rule, row.severity), row.title)]), *_about(row, used)])
    return 0


def _about(row: Fault, used: Profile) -> list[Line]:
    """Why a rule is one, its remedy, how it is written, and its smallest failing book where it has one."""
    from fitlore.books.faults import page
    from fitlore.upkeep.rules import built_in

    in_sparql = row.code in {rule.fault.code for rule in built_in()}
    own = not any(row.code.startswith(mark) for mark in "QS")
    how = "SPARQL" if in_sparql or own else "shapes in Turtle" if row.code.startswith("S") else "Python"
    lines = [
        Line(f"  problem: {row.message}", hang=11),
        Line(f"  wanted:  {row.expected}", hang=11),
        Line(f"  remedy:  {row.remedy}", hang=11),
        Line(f"  written in {how}; profile: {used.name}"),
    ]
    section = page().partition(f"\n## {row.code}\n")[2].partition("\n## ")[0].strip("\n")
    return lines + [Line(text, wrap=False) for text in section.splitlines()[1:]]
