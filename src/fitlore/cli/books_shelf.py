"""`books shelf`: whose books are asked, other people's added after a look, and how far each is trusted."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from fitlore.cli.counter import open_counter, shared_options, shop_folder
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.when import this_day
from fitlore.model.choices import How
from fitlore.model.diagnostic import Diagnostic
from fitlore.report.text import Line, show

if TYPE_CHECKING:
    from fitlore.upkeep.shelves import Done, Draft

_WORDS: Final = {"add": "FOLDER", "remove": "NAME", "trust": "NAME HOW"}
_HOWS: Final = tuple(how.value for how in How)


@click.command("shelf", cls=Page)
@click.argument("words", nargs=-1, metavar="[add FOLDER | remove NAME | trust NAME HOW]")
@click.option(
    "--trust", "trusted", type=click.Choice(_HOWS), help="What is added counts as that at the most (told)."
)
@click.option("--own", is_flag=True, help="What is added is your own, and counts like all you say.")
@click.option(
    "--name", default="", help="Under which books on it are shown; the owner's or the folder's unless said."
)
@click.option("--owner", default="", help="Whose it is.")
@click.option("--even-so", is_flag=True, help="Add it though it says otherwise.")
@click.option("--all", "every", is_flag=True, help="Show every place where it says otherwise.")
@click.option("--dry-run", is_flag=True, help="Look, and change nothing.")
@shared_options
def command(
    folder: str | None,
    words: tuple[str, ...],
    trusted: str | None,
    own: bool,
    name: str,
    owner: str,
    even_so: bool,
    every: bool,
    dry_run: bool,
    car_name: str | None,
    as_json: bool,
) -> int:
    """The shelves of the shop."""
    shop = shop_folder(folder, quiet=True)
    if shop is None:
        raise CouldNot("there is no shop here, so there are no shelves but the built-in one")
    if own and trusted:
        raise click.UsageError("your own shelf has no cap: say --own or --trust")
    if not words:
        return _list(shop, as_json=as_json)
    what, rest = words[0].casefold(), words[1:]
    if what not in _WORDS:
        raise CouldNot(f"`books shelf {words[0]}`: say add FOLDER, remove NAME or trust NAME HOW")
    if not rest:
        raise CouldNot(f"say which: `books shelf {what} {_WORDS[what]}`")
    if what == "add":
        cap = None if own else How(trusted or How.TOLD.value)
        draft = _drafted(folder, " ".join(rest), name, owner, cap, quiet=as_json)
        return _add(draft, shop, even_so=even_so, every=every, dry_run=dry_run, as_json=as_json)
    if dry_run:
        raise click.UsageError("--dry-run goes with add")
    if what == "remove":
        return _changed(shop, " ".join(rest), None, as_json=as_json)
    if len(rest) < 2 or rest[-1].casefold() not in _HOWS:
        raise CouldNot(f"trusted as what? `books shelf trust NAME HOW`, and HOW is {', '.join(_HOWS)}")
    return _changed(shop, " ".join(rest[:-1]), How(rest[-1].casefold()), as_json=as_json)


def _list(shop: Path, *, as_json: bool) -> int:
    from fitlore.report.shelves import shelf_lines, shelves_json
    from fitlore.upkeep.shelves import listed

    shelves = listed(shop)
    if as_json:
        from fitlore.report.machine import dump

        click.echo(dump(shelves_json(shelves)), nl=False)
    else:
        show(shelf_lines(shelves))
    return 0 if shelves else 1


def _drafted(folder: str | None, path: str, name: str, owner: str, cap: How | None, *, quiet: bool) -> Draft:
    from fitlore.upkeep.shelves import NotAShelf, drafted

    counter = open_counter(folder, quiet=quiet)
    assert counter.folder is not None
    try:
        draft = drafted(
            counter.graph, counter.folder, Path(path), today=this_day(), name=name, owner=owner, trust=cap
        )
    except NotAShelf as error:
        raise CouldNot.of([error.found]) from None
    if draft.refused:
        raise CouldNot.of(draft.refused)
    return draft


def _add(draft: Draft, shop: Path, *, even_so: bool, every: bool, dry_run: bool, as_json: bool) -> int:
    from fitlore.report.shelves import change_json, draft_lines, end_line
    from fitlore.upkeep.shelves import add

    if not as_json:
        show(draft_lines(draft, every=every))
    agreed = even_so or not draft.conflicts
    if not agreed and not dry_run and not as_json and sys.stdin.isatty() and sys.stdout.isatty():
        agreed = click.confirm("add it all the same?")
    done = _sound(add(draft, shop)) if agreed and not dry_run else None
    if as_json:
        from fitlore.report.machine import dump

        click.echo(dump(change_json(draft.name, done, draft)), nl=False)
    else:
        show([end_line(draft, done)])
    return 0 if agreed else 1


def _changed(shop: Path, name: str, how: How | None, *, as_json: bool) -> int:
    from fitlore.report.shelves import change_json
    from fitlore.upkeep.shelves import remove, trust

    done = _sound(remove(shop, name) if how is None else trust(shop, name, how))
    if as_json:
        from fitlore.report.machine import dump

        click.echo(dump(change_json(name, done, trust=how.value if how else None)), nl=False)
        return 0
    said = (
        "taken away; its books stay where they are" if how is None else f"trusted as {how.value} at the most"
    )
    back = "; `fitlore undo` takes that back" if done.number else ", as before"
    show([Line(f"{name}: {said}{back}", "good")])
    return 0


def _sound(done: Done | Diagnostic) -> Done:
    if isinstance(done, Diagnostic):
        raise CouldNot.of([done])
    return done
