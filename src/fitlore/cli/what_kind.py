"""`what KIND`: everything the books say of a kind of part, where nothing was measured."""

from __future__ import annotations

from difflib import get_close_matches

import click

from fitlore.cli.counter import Counter, open_counter
from fitlore.cli.failure import CouldNot
from fitlore.fitting.kind import kind_of
from fitlore.graph.lookup import find
from fitlore.model.choices import SafetyClass
from fitlore.report.kinds import kind_json, kind_lines
from fitlore.report.text import show
from fitlore.report.verdicts import car_line, closing
from fitlore.trade.family import FAMILIES


def tell(folder: str | None, words: str, car_name: str | None, *, as_json: bool) -> int:
    """Prints the card of the one kind that the words mean. Raises CouldNot with the near ones."""
    counter = open_counter(folder, car_name)
    country = (counter.car.country if counter.car else "") or counter.graph.shop.country
    kind = kind_of(counter.graph, _named(counter, words), counter.car, country)
    assert kind is not None
    if as_json:
        from fitlore.report.machine import dump

        click.echo(dump(kind_json(kind)), nl=False)
        return 0
    protects = kind.interface.safety is not SafetyClass.NONE
    end = closing(counter.graph.policy.deferral) if protects else []
    show([car_line(counter.car), *kind_lines(kind), *end])
    return 0


def _named(counter: Counter, words: str) -> str:
    if counter.graph.category(words.strip().casefold()) is not None:
        return words.strip().casefold()
    found = find(counter.graph, words, kinds=frozenset({"category"}))
    exact = list(dict.fromkeys(match.name for match in found.exact))
    if len(exact) == 1:
        return exact[0]
    if exact:
        raise CouldNot(f"{words!r} may be {', '.join(exact)}; say which, or give measures too")
    folded = words.strip().casefold().replace(" ", "-")
    if folded in FAMILIES:
        raise CouldNot(f"{words!r}: give its measures too, as in `what {words} 17 x 40 x 12`")
    near = list(dict.fromkeys(match.name for match in found.near)) or get_close_matches(
        folded, [str(one.category) for one in counter.graph.categories()], 3, 0.6
    )
    hint = f"; did you mean {', '.join(near[:5])}?" if near else "; say a kind of part, or what was measured"
    raise CouldNot(f"{words!r} is no kind of part known here, and nothing in it is a measure{hint}")
