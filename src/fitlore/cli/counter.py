"""What every command at the counter starts with: the opened knowledge base, the picked car, and the small words of a line."""

from __future__ import annotations

import functools
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, Final, NamedTuple

import click

from fitlore.cli import session as kept
from fitlore.cli.failure import CouldNot
from fitlore.graph.open import Graph, open_graph
from fitlore.model.diagnostic import Severity
from fitlore.model.platform import Car

SMALL_WORDS: Final = ("for", "in", "from", "by", "at", "not", "with", "till", "on", "into", "instead-of")
"""They split a line of free words; each has an option twin."""


class Counter(NamedTuple):
    """An opened knowledge base with what is remembered of it."""

    graph: Graph
    folder: Path | None
    session: kept.Session
    car: Car | None

    def remember(self, asked: str, answers: list[kept.Numbered]) -> None:
        """Keep the numbered lines of this answer for `why`."""
        self.session.asked, self.session.answers = asked, answers
        kept.save(self.folder, self.session)

    @property
    def platforms(self) -> tuple[str, ...]:
        """Where a place is looked for: on the picked car's platform, or on all."""
        return (self.car.is_,) if self.car else tuple(p.platform for p in self.graph.platforms())


def open_counter(folder: str | None, car_name: str | None = None) -> Counter:
    """Open the knowledge base of the folder, or of the working folder; pick the car that is named or was picked.

    Raises CouldNot where the folder is no knowledge base or the car is not known.
    """
    shop = shop_folder(folder)
    graph = open_graph(shop, progress=_progress)
    wrong = sum(d.severity is Severity.ERROR for d in graph.diagnostics)
    if wrong:
        click.echo(
            f"note: {wrong} fault{'s' if wrong > 1 else ''} in the books; `fitlore check` shows them",
            err=True,
        )
    session = kept.load(shop)
    name = car_name or session.car
    car = graph.car(name) if name else None
    if car_name and car is None:
        from difflib import get_close_matches

        near = get_close_matches(car_name, [c.car for c in graph.cars()], 3, 0.4)
        raise CouldNot(f"no car {car_name!r} in the books{_near(near)}")
    return Counter(graph, shop, session, car)


def shop_folder(folder: str | None, *, quiet: bool = False) -> Path | None:
    """The folder with fitlore.yaml: the one named, or the working folder or one above; None: only the built-in knowledge."""
    from fitlore.graph.open import find_shop

    if folder is not None:
        given = Path(folder)
        if not (given / "fitlore.yaml").is_file():
            raise CouldNot(
                f"{folder}: no fitlore.yaml there; name the shop's folder, or make one with `shop: NAME` in it"
            )
        return given.resolve()
    found = find_shop(Path.cwd())
    if found is None and not quiet:
        click.echo("note: no fitlore.yaml here or above; only the built-in knowledge answers", err=True)
    return found


def _near(words: Sequence[str]) -> str:
    return f"; did you mean {' or '.join(words)}?" if words else ""


def _progress(text: str) -> None:
    if sys.stderr.isatty():
        click.echo(text, err=True)


def split_line(words: Sequence[str], at: Sequence[str]) -> dict[str, str]:
    """Free words cut at the small words in `at`: `{'': 'winder', 'for': 'right front'}`; a small word twice is joined."""
    parts: dict[str, list[str]] = {"": []}
    name = ""
    for word in " ".join(words).split():
        low = word.casefold()
        if low in at:
            name = low
            parts.setdefault(name, [])
        else:
            parts[name].append(word)
    return {key: " ".join(found) for key, found in parts.items() if found or key == ""}


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
