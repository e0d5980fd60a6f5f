"""Which options of a job may not be taken together: forbidden pairs of parts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from fitlore.fitting.parts import alike, keys_of
from fitlore.fitting.place import split_side
from fitlore.model.numbers import number_key
from fitlore.model.part import Never
from fitlore.sourcing import problem as p
from fitlore.sourcing.options import Choice

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


def never_together(graph: Graph, choices: Iterable[Choice]) -> tuple[p.Never, ...]:
    """Options of different needs of which one brings onto the car what the other must never meet (`never-with` of a claim).

    What is on the car already the verdicts look at; this is about what two findings of one job would bring to each other.
    """
    rows = [choice for choice in choices if choice.verdict is not None]
    found: set[tuple[str, str]] = set()
    for one in rows:
        for never in _forbidden(graph, one):
            banned = alike(graph, never.use)
            at = None if never.at is None else split_side(_path(never.at))[0]
            for other in rows:
                if other.need.id != one.need.id and _brings(other, banned, at):
                    first, second = sorted((one.option.id, other.option.id))
                    found.add((first, second))
    return tuple(p.Never(*pair) for pair in sorted(found))


def _forbidden(graph: Graph, choice: Choice) -> Iterator[Never]:
    """What any claim for the part says it must never meet, by whichever way it is chosen."""
    if choice.verdict is not None:
        for claim in graph.claims_to(sorted(alike(graph, keys_of(choice.verdict.part)))):
            yield from claim.never_with


def _brings(choice: Choice, banned: frozenset[str], at: str | None) -> bool:
    """Whether an option puts one of these parts there (anywhere, if no place is named), itself or as a companion."""
    verdict = choice.verdict
    if verdict is None:
        return False
    puts = [(choice.need.answer.place.path, set(keys_of(verdict.part)))]
    puts += [
        (split_side(_path(companion.at))[0], {number_key(number) for number in companion.use})
        for companion in verdict.way.companions
    ]
    return any(at in (None, path) and not banned.isdisjoint(keys) for path, keys in puts)


def _path(path: str) -> str:
    """`assembly/place`, without a platform in front."""
    return "/".join(path.split("/")[-2:])
