"""What a line for a part cannot mean: another kind of thing, the other side, or a part without a number where a trap stands."""

from __future__ import annotations

from fitlore.cli.counter import Counter
from fitlore.cli.failure import CouldNot
from fitlore.cli.note_parts import Meant, Where, handed, originals_at
from fitlore.fitting import Question, answer_pair
from fitlore.fitting.requirement import other_side
from fitlore.model.part import Part


def must_be_possible(counter: Counter, meant: Meant, part: Part, where: Where) -> None:
    """Raises CouldNot where the words say a yes that can hardly be meant; nothing is noted then."""
    kind = where.part.is_ if where.part else where.place.place.is_ if where.place else ""
    if kind and not _related(counter, part.is_, kind):
        raise CouldNot(
            f"{part.maker} {part.part} is a {part.is_}, and what it would stand in for is a {kind}: nothing was noted; look"
            " at the number. Where one really does the other's job, the claim is written into the book by hand"
        )
    place = where.place
    if place is None:
        return
    if other_side(part, where.side) and handed(counter, place):
        side = part.side.value if part.side else ""
        raise CouldNot(
            f"{part.maker} {part.part} is a {side} one, and {place.full_path} is the {where.side}: nothing was noted; name"
            " the side that it went to"
        )
    if meant.part is None and meant.at is not None:
        for one in originals_at(counter, meant.at, meant.side):
            verdict = answer_pair(counter.graph, one, Question(place, counter.car, where.side))
            if verdict.danger:
                raise CouldNot(
                    f"by the book {one.maker} {one.part} stands at {meant.at.full_path}, and that one is a trap at"
                    f" {place.full_path}: nothing was noted; read the number on it, or measure it (`fitlore what`)"
                )


def _related(counter: Counter, one: str, other: str) -> bool:
    """Whether one kind is the other, a narrower one of it, or stands right beside it under a kind that is no whole system."""
    graph = counter.graph
    if one in graph.narrower(other) or other in graph.narrower(one):
        return True
    first, second = graph.category(one), graph.category(other)
    if first is None or second is None:
        return True
    above = graph.category(first.broader) if first.broader and first.broader == second.broader else None
    return above is not None and above.broader is not None
