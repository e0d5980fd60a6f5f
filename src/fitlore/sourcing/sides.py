"""What the two sides of an axle may be given in one plan: equal parts, or such as agree where their kind asks for it.

**Rules**, for a place whose left and right are needs of their own:

- Of a kind renewed across the axle a part on one side goes with one on the other: the same part; where left and right ones
  differ, two of one maker.
- Features with `with: other-side` have to agree between the two parts as the rule of the feature compares them. What nobody
  knows is no agreement; but what the place's maker lists for left and right is a pair by his book, and the same part agrees
  with itself.
- Where one side gets no part (a route, or an optional finding that is left), the part on the other side has to agree with
  what stays: it is taken only if it may be bought for that side alone.
- Where the job has fitted one side already, the other gets what goes with that.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting import Question, Verdict, answer
from fitlore.fitting.interface import compare
from fitlore.fitting.measured import stated
from fitlore.fitting.parts import identity, part_named
from fitlore.fitting.shape import State
from fitlore.model.choices import Renew
from fitlore.model.part import Part
from fitlore.sourcing import problem as p
from fitlore.sourcing.needs import HANDED, NeedAt, agreeing
from fitlore.sourcing.options import Choice, may_be_bought

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Sides(NamedTuple):
    """What ties the options of left and right to each other."""

    companions: tuple[p.Companion, ...] = ()
    never: tuple[p.Never, ...] = ()
    pairs: tuple[p.Pair, ...] = ()


def both_sides(graph: Graph, needs: Iterable[NeedAt], choices: Iterable[Choice]) -> Sides:
    """The ties between all needs that are each other's twin, among these options."""
    options: dict[str, list[Choice]] = {}
    for choice in choices:
        options.setdefault(choice.need.id, []).append(choice)
    rows = {need.id: need for need in needs}
    ties = [
        _Axle(graph, need, rows[need.twin], options).ties
        for need in rows.values()
        if need.twin in rows and need.id < need.twin
    ]
    alone = [
        p.Never(choice.option.id, choice.option.id)
        for need in rows.values()
        if need.beside
        for choice in options.get(need.id, ())
        if choice.verdict is not None and not _goes_with_fitted(graph, need, choice.verdict)
    ]
    return Sides(
        tuple(row for tie in ties for row in tie.companions),
        (*alone, *(row for tie in ties for row in tie.never)),
        tuple(row for tie in ties for row in tie.pairs),
    )


class _Axle:
    """One place with two needs."""

    def __init__(self, graph: Graph, one: NeedAt, other: NeedAt, options: Mapping[str, list[Choice]]) -> None:
        self.graph, self.needs = graph, (one, other)
        self.options = (options.get(one.id, []), options.get(other.id, []))
        face = one.answer.interface
        self.across, self.handed = face.renew is Renew.ACROSS_AXLE, face.sides in HANDED
        self.features = agreeing(face)
        self.ties = Sides(tuple(self._companions()), tuple(self._nevers()), tuple(self._pairs()))

    def _pairs(self) -> Iterator[p.Pair]:
        """Equal parts stand or fall together."""
        if self.across and not self.handed:
            for one, other in self._parts():
                if _same(one, other):
                    yield p.Pair(one.option.id, other.option.id)

    def _nevers(self) -> Iterator[p.Never]:
        if not self.across and not self.features:
            return
        for one, other in self._parts():
            if not self._go_together(one, other):
                yield p.Never(one.option.id, other.option.id)
        for at, mine in enumerate(self.options):
            routes = [row for row in self.options[1 - at] if row.verdict is None]
            for choice in mine:
                if choice.verdict is not None and routes and not self.across:
                    for route in routes:
                        if not _takes(route, choice) and not self._alone(at, choice):
                            yield p.Never(*sorted((choice.option.id, route.option.id)))

    def _companions(self) -> Iterator[p.Companion]:
        """What is taken only with something on the other side."""
        optional = any(need.finding.must is None for need in self.needs)
        for at, mine in enumerate(self.options):
            theirs = self.options[1 - at]
            for choice in mine:
                if self.across and choice.verdict is not None:
                    fit = [row for row in theirs if row.verdict and self._go_together(choice, row)]
                    yield p.Companion(choice.option.id, tuple(row.option.id for row in fit))
                elif optional and (not self.needs[0].apart or not self._stays(at, choice)):
                    yield p.Companion(choice.option.id, tuple(row.option.id for row in theirs))

    def _stays(self, at: int, choice: Choice) -> bool:
        """Whether it may be taken while the other side keeps what it has."""
        return choice.verdict is None or not self.features or self._alone(at, choice)

    def _parts(self) -> Iterator[tuple[Choice, Choice]]:
        for one in self.options[0]:
            for other in self.options[1]:
                if one.verdict is not None and other.verdict is not None:
                    yield one, other

    def _go_together(self, one: Choice, other: Choice) -> bool:
        if one.verdict is None or other.verdict is None:
            return False
        if _same(one, other):
            return True
        if self.across and not (self.handed and _issuer(one.verdict) == _issuer(other.verdict)):
            return False
        agreed = [self._agrees(one.verdict, other.verdict, name) for name in self.features]
        return False not in agreed if _by_the_book(one.verdict, other.verdict) else all(agreed)

    def _agrees(self, one: Verdict, other: Verdict, name: str) -> bool | None:
        return _agree(self.graph, self.needs[0], one.part, other.part, name)

    def _alone(self, at: int, choice: Choice) -> bool:
        return choice.verdict is not None and _for_one_side(self.graph, self.needs[at], choice.verdict)


def _agree(graph: Graph, need: NeedAt, one: Part, other: Part, name: str) -> bool | None:
    """Whether two parts agree in a feature; None: nobody knows."""
    definition = need.answer.interface.features[name]
    left, right = (stated(part, name, definition, graph.standards).values for part in (one, other))
    states = {compare(definition, want, have, graph.standards).state for want in left for have in right}
    if State.OK in states:
        return True
    return None if not states or State.UNKNOWN in states else False


def _for_one_side(graph: Graph, need: NeedAt, verdict: Verdict) -> bool:
    """Whether the part may be bought for one side, whichever it is, while the other keeps what it has."""
    reply = need.answer
    asked = [
        Question(reply.place, reply.car, side, only=(verdict.part,))
        for side in ((reply.side,) if reply.side else reply.place.sides)
    ]
    return all(may_be_bought(graph, reply, answer(graph, one).verdicts[0]) for one in asked)


def _goes_with_fitted(graph: Graph, need: NeedAt, verdict: Verdict) -> bool:
    """Whether the part goes with what the job has fitted on the other side; nothing said: with what is known of the car."""
    face = need.answer.interface
    for number in need.beside:
        fitted = part_named(graph, number, need.answer.place.maker) if number else None
        if fitted is None:
            return _for_one_side(graph, need, verdict)
        if identity(fitted) == identity(verdict.part):
            continue
        one_maker = fitted.issuer.casefold() == _issuer(verdict)
        if face.renew is Renew.ACROSS_AXLE and not (face.sides in HANDED and one_maker):
            return False
        agreed = [_agree(graph, need, fitted, verdict.part, name) for name in agreeing(face)]
        by_the_book = one_maker and verdict.way.kind in ("original", "successor")
        if False in agreed or (None in agreed and not by_the_book):
            return False
    return True


def _same(one: Choice, other: Choice) -> bool:
    return bool(one.verdict and other.verdict and identity(one.verdict.part) == identity(other.verdict.part))


def _issuer(verdict: Verdict) -> str:
    return verdict.part.issuer.casefold()


def _by_the_book(one: Verdict, other: Verdict) -> bool:
    """Whether they are what the place's maker lists for left and right, or what replaced both."""
    kinds = {one.way.kind, other.way.kind}
    return _issuer(one) == _issuer(other) and len(kinds) == 1 and kinds <= {"original", "successor"}


def _takes(route: Choice, choice: Choice) -> bool:
    """Whether a written route takes the very part of an option."""
    own = {i for want in choice.option.wants[:1] for i in want.items}
    return any(not own.isdisjoint(want.items) for want in route.option.wants)
