"""What every command at the counter starts with: the opened knowledge base, the picked car, and the small words of a line."""

from __future__ import annotations

import functools
import os
import sys
from collections.abc import Callable, Sequence
from datetime import date
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

    from fitlore.report.text import Line

SMALL_WORDS: Final = ("for", "in", "from", "by", "at", "not", "with", "till", "on", "into", "instead-of")
"""They split a line of free words; each has an option twin."""


class Counter(NamedTuple):
    """An opened knowledge base with what is remembered of it."""

    graph: Graph
    shop: str | None
    """The shop's folder."""
    session: kept.Session
    car: Car | None
    taken: str = ""
    """Why it is this car, where nobody picked or named one."""

    def head(self, on: str = "") -> Line:
        """The first line of every answer: which car it is for, and why where nobody said; `on` a platform without one."""
        from fitlore.report.verdicts import car_line

        line = car_line(self.car, on)
        return line._replace(text=f"{line.text}: {self.taken}") if self.car and self.taken else line

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
        self.session.car, self.session.no_car = car.car if car else "", car is None
        failed = kept.save(self.shop, self.session)
        if failed:
            raise CouldNot(f"the pick cannot be kept: {failed}; `--car NAME` asks without it")
        return self._replace(car=car, taken="")

    @property
    def platforms(self) -> tuple[str, ...]:
        """Where a place is looked for: on the picked car's platform; empty: on all."""
        return (self.car.is_,) if self.car else ()


def open_counter(
    folder: str | None, car_name: str | None = None, *, quiet: bool = False, in_hand: bool = False
) -> Counter:
    """Open the knowledge base of the folder, or of the working folder; pick the car that is named or was picked.

    `quiet`: without a word on how far it has come, nor on faults. `in_hand`: where nobody picked one, nor none, the car of
    the job that is due first; for questions only, nothing is written down about a car that nobody named.

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
        car = car_named(graph, car_name)
    counter = Counter(graph, shop, session, car)
    if in_hand:
        counter = counter if name or session.no_car else _with_the_car_in_hand(counter)
        _known_through(counter)
    return counter


def car_named(graph: Graph, words: str) -> Car:
    """The one car whose name is or holds these words; raises CouldNot with the near ones."""
    cars = graph.cars()
    low = " ".join(words.split()).casefold()
    hits = [car for car in cars if low in (car.car.casefold(), car.name.casefold())]
    hits = hits or [car for car in cars if low and low in f"{car.car} {car.name}".casefold()]
    if len(hits) == 1:
        return hits[0]
    from difflib import get_close_matches

    names = [car.car for car in (hits or cars)]
    near = get_close_matches(low, names, 3, 0.4)
    if hits:
        raise CouldNot(f"{words!r} may be {', '.join(names)}; say which")
    hint = f"; did you mean {' or '.join(near)}?" if near else f"; there are {', '.join(names) or 'none'}"
    raise CouldNot(f"no car {words!r} in the books{hint}")


def _known_through(counter: Counter) -> None:
    """Raises CouldNot where nobody can tell what is really on the car: nothing is then answered by the wrong book."""
    from fitlore.fitting.place import unplaced

    car = counter.car
    found = unplaced(counter.graph, car) if car and car.really_on_it else None
    if car is None or found is None:
        return
    from difflib import get_close_matches

    path, said = found
    platform = counter.graph.platform(car.is_)
    known = (
        [place.path for place in counter.graph.places(car.is_)]
        if "/" in path
        else list(platform.assemblies if platform else ())
    )
    near = get_close_matches(path.partition("@")[0], known, 1, 0.5)
    hint = f" (did you mean `{near[0]}`?)" if near else ""
    raise CouldNot(
        f"{car.name or car.car} has something else on it at `{path}`, and {car.is_} has no such place{hint};"
        f" put it right, so that nothing is answered by the wrong book  [{said.origin}]"
    )


def _with_the_car_in_hand(counter: Counter) -> Counter:
    """The car of the job that is due before every other, if there is one."""
    from fitlore.cli.when import this_day
    from fitlore.report.days import short_day

    today, due = this_day(), list[tuple[date, str]]()
    for job in counter.graph.jobs():
        day = min((day for day in (job.in_hand_by, job.inspection) if day), default=None)
        if day is not None and day >= today:
            due.append((day, job.for_))
    due.sort()
    car = counter.graph.car(due[0][1]) if due else None
    if car is None or any(day == due[0][0] and other != car.car for day, other in due):
        return counter
    return counter._replace(car=car, taken=f"no car picked; due first ({short_day(due[0][0])})")


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
                f"{folder}: no fitlore.yaml there; name the shop's folder, or `fitlore books start` one"
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
