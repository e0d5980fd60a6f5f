"""`books policy`: what is asked for before a part counts as right, value by value, and who says so."""

from __future__ import annotations

import click

from fitlore.books.pinpoint import texts_of
from fitlore.cli.counter import open_counter, shared_options
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.when import this_day
from fitlore.graph.policy import counting
from fitlore.report.policy import policy_lines
from fitlore.report.text import show
from fitlore.upkeep.knowing import Known
from fitlore.upkeep.policy_values import PolicyValue, policy_values


@click.command("policy", cls=Page)
@click.argument("word", required=False)
@shared_options
def command(folder: str | None, word: str | None, car_name: str | None, as_json: bool) -> int:
    """The policy in force."""
    counter = open_counter(folder, car_name)
    graph = counter.graph
    values = policy_values(Known(graph, this_day(), texts_of(counter.folder)))
    chosen = [value for value in values if word is None or word in value.path]
    if not chosen:
        raise CouldNot(_nothing(word, values))
    counts = counting(graph)
    not_counted = [one for one in graph.policies if one not in counts]
    if as_json:
        from fitlore.report.machine import dump
        from fitlore.report.machine_books import policy_json

        click.echo(dump(policy_json(chosen, not_counted)), nl=False)
    else:
        show(policy_lines(chosen, not_counted))
    return 1 if any(value.looser for value in chosen) else 0


def _nothing(word: str | None, values: tuple[PolicyValue, ...]) -> str:
    if word is None:
        return "no book says a policy"
    from difflib import get_close_matches

    known = dict.fromkeys(step for value in values for step in value.path)
    near = get_close_matches(word, known, 3, 0.5)
    hint = f"did you mean {' or '.join(near)}?" if near else "`fitlore books policy` shows all of it"
    return f"nothing of the policy is called {word!r}; {hint}"
