"""What every command at the counter starts with: the opened knowledge base, the picked car, and the small words of a line."""

from __future__ import annotations

import functools
import os
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Final, NamedTuple

import click

from fitlore.cli import session as kept
from fitlore.cli.failure import CouldNot
from fitlore.graph.home import SHOP_FILE, shop_above
from fitlore.graph.open import Graph, open_graph
from fitlore.model.diagnostic import Severity
from fitlore.model.platform import Car

if TYPE_CHECKING:
    from pathlib import Path

SMALL_WORDS: Final = ("for", "in", "from", "by", "at", "not", "with", "till", "on", "into", "instead-of")
"""They split a line of free words; each has an option twin."""


class Counter(NamedTuple):
    """An opened knowledge base with what is remembered of it."""

    graph: Graph
    shop: str | None
    """The shop's folder."""
    session: kept.Session
    car: Car | None

    @property
    def folder(self) -> Path | None:
        """The shop's folder."""
        from pathlib import Path

        return Path(self.shop) if self.shop else None

    def remember(self, command: str, car: Car | None, answers: list[kept.Numbered]) -> None:
        """Keep the numbered lines of this answer for `why`, with the line as it was typed and the car it was asked of."""
        self.session.asked, self.session.answers = typed_line(command), answers
        self.session.asked_of = car.name or car.car if car else ""
        failed = kept.save(self.shop, self.session)
        if failed:
            click.echo(f"note: the numbers cannot be remembered for `why`: {failed}", err=True)

    def pick(self, car: Car | None) -> Counter:
        """The same counter with this car picked, and kept so; raises CouldNot where that cannot be kept."""
        self.session.car = car.car if car else ""
        failed = kept.save(self.shop, self.session)
        if failed:
            raise CouldNot(f"the pick cannot be kept: {failed}; `--car NAME` asks without it")
        return self._replace(car=car)

    @property
    def platforms(self) -> tuple[str, ...]:
        """Where a place is looked for: on the picked car's platform; empty: on all."""
        return (self.car.is_,) if self.car else ()


def open_counter(folder: str | None, car_name: str | None = None, *, quiet: bool = False) -> Counter:
    """Open the knowledge base of the folder, or of the working folder; pick the car that is named or was picked.

    `quiet`: without a word on how far it has come, nor on faults.

    Raises CouldNot where the folder is no knowledge base or the car is not known.
    """
    shop = shop_path(folder)
    graph = open_graph(shop, progress=_silent if quiet else _progress)
    wrong = sum(d.severity is Severity.ERROR for d in graph.diagnostics)
    if wrong and not quiet:
        click.echo(
            f"note: {wrong} fault{'s' if wrong > 1 else ''} in the books; `fitlore check` shows them",
            err=True,
        )
    for note in graph.held.notes:
        click.echo(f"note: {note}", err=True)
    session = kept.load(shop)
    name = car_name or session.car
    car = graph.car(name) if name else None
    if name and car is None and not car_name:
        click.echo(
            f"note: the picked car {name!r} is no longer in the books; pick one (`fitlore car`)", err=True
        )
    if car_name and car is None:
        from difflib import get_close_matches

        near = get_close_matches(car_name, [c.car for c in graph.cars()], 3, 0.4)
        raise CouldNot(f"no car {car_name!r} in the books{_near(near)}")
    return Counter(graph, shop, session, car)


def shop_folder(folder: str | None, *, quiet: bool = False) -> Path | None:
    """The same as `shop_path`, as a path."""
    from pathlib import Path

    found = shop_path(folder, quiet=quiet)
    return Path(found) if found else None


def shop_path(folder: str | None, *, quiet: bool = False) -> str | None:
    """The folder with fitlore.yaml: the one named, or the working folder or one above; None: only the built-in knowledge."""
    if folder is not None:
        if not os.path.isfile(os.path.join(folder, SHOP_FILE)):
            raise CouldNot(
                f"{folder}: no fitlore.yaml there; name the shop's folder, or make one with `shop: NAME` in it"
            )
        return os.path.realpath(folder)
    found = shop_above(os.getcwd())
    if found is None and not quiet:
        click.echo("note: no fitlore.yaml here or above; only the built-in knowledge answers", err=True)
    return found


def typed_line(command: str) -> str:
    """The line that called this command, from its name on."""
    words = sys.argv[sys.argv.index(command) :] if command in sys.argv else [command]
    return " ".join(word for word in words if word != "--json")


def _near(words: Sequence[str]) -> str:
    return f"; did you mean {' or '.join(words)}?" if words else ""


def _silent(text: str) -> None:
    """Tells nobody."""


def _progress(text: str) -> None:
    if sys.stderr.isatty():
        click.echo(text, err=True)


def split_line(words: Sequence[str], at: Sequence[str]) -> dict[str, str]:
    """Free words cut at the small words in `at`: `{'': 'winder', 'for': 'right front'}`; a small word twice is joined.

    Raises CouldNot where nothing stands behind a small word.
    """
    parts: dict[str, list[str]] = {"": []}
    name = ""
    for word in " ".join(words).split():
        low = word.casefold()
        if low in at:
            name = low
            parts.setdefault(name, [])
        else:
            parts[name].append(word)
    empty = [key for key, found in parts.items() if key and not found]
    if empty:
        raise CouldNot(f"nothing stands behind `{empty[0]}`; say what belongs there, or leave the word out")
    return {key: " ".join(found) for key, found in parts.items()}


def shared_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """`--car` and `--json`, and the folder of the knowledge base from the command above."""

    @click.option(
        "--car", "car_name", metavar="NAME", help="The car this is asked for, instead of the picked one."
    )
    @click.option("--json", "as_json", is_flag=True, help="Answer as JSON; its shape is on this page.")
    @click.pass_context
    @functools.wraps(function)
    def wrapped(ctx: click.Context, /, *args: Any, **kwargs: Any) -> Any:
        return function(ctx.obj, *args, **kwargs)

    return wrapped
