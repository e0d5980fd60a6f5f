"""Counts wants that nothing tells apart as one: whose unit is whose is dealt out after the plan is found.

Thirty needs that may each be met with the same varnish from the same offers would have a column for every need and
offer, and every exchange of two tins between two needs would be one more plan of the same cost. The same holds of a pair,
left and right. Counted as one, every such plan is there once. At 300 needs and 200 suppliers a plain market was proven in
11 seconds of processor, for which 48 had not been enough.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

import msgspec

from fitlore.sourcing.columns import Model, Row, Unit
from fitlore.sourcing.problem import Problem
from fitlore.sourcing.reduce import Owner

MANY = 4
"""From so many wants on they are counted as one: the rows that tie each of them to a supplier are lost by it."""

Want = list[Unit]
"""The flows to one want, in the order of offer and item."""


class Fewer(NamedTuple):
    """The smaller `model`, the groups of wants counted as one, and for each former column its number now."""

    model: Model
    groups: list[list[Want]]
    numbers: list[int]

    def whole(self, values: tuple[int, ...], before: Model) -> tuple[int, ...]:
        """Values of the columns there were `before`: the wants get their units in order, offer by offer."""
        own = [values[number] for number in self.numbers]
        for group in self.groups:
            left = [values[self.numbers[unit.column]] for unit in group[0]]
            for want in group:
                missing = want[0].amount * own[_taken(before, want)]
                for place, unit in enumerate(want):
                    own[unit.column] = min(missing, left[place])
                    missing -= own[unit.column]
                    left[place] -= own[unit.column]
        return tuple(own)


def fewer(problem: Problem, model: Model) -> Fewer:
    """The model with one flow for each offer and item that a group of wants draws on: every plan of it is one of the
    model's, of the same value for any aim that is made of the columns' lines, and the other way round.
    """
    pairs, loose = _groups(problem, model)
    members: dict[int, list[int]] = {}
    for group in (*pairs, *loose):
        for flows in zip(*group, strict=True):
            members[flows[0].column] = [unit.column for unit in flows]
    leader = {number: first for first, those in members.items() for number in those}
    kept = [number for number in range(len(model.columns)) if leader.get(number, number) == number]
    place = {number: at for at, number in enumerate(kept)}
    numbers = [place[leader.get(number, number)] for number in range(len(model.columns))]
    columns = [model.columns[number] for number in kept]
    for first, those in members.items():
        upper = sum(model.columns[number].upper for number in those)
        columns[place[first]] = msgspec.structs.replace(model.columns[first], upper=upper)
    even = {leader[unit.column] for group in pairs for unit in group[0]}
    told = (_counted(row, leader, members, even, numbers) for row in model.rows)
    rows = dict.fromkeys([row for row in told if row is not None])
    for group in loose:
        rows |= dict.fromkeys(_together(group, model, numbers))
    index = {key: numbers[number] for key, number in model.index.items()}
    return Fewer(Model(columns, list(rows), index, []), [*pairs, *loose], numbers)


def _groups(problem: Problem, model: Model) -> tuple[list[list[Want]], list[list[Want]]]:
    """Wants that draw on the same offers at the same cost: pairs that stand or fall together, and large groups."""
    wants: dict[tuple[Owner, int], Want] = defaultdict(list)
    for unit in model.units:
        wants[unit.owner, unit.want].append(unit)
    alike: dict[object, list[Want]] = defaultdict(list)
    for want in wants.values():
        drawn = ((row.source.offer.id, row.source.item, model.columns[row.column].line) for row in want)
        alike[tuple(drawn)].append(want)
    tied = {frozenset(((row.left, False), (row.right, False))) for row in problem.pairs}
    groups = [group for group in alike.values() if len(group) > 1]
    pairs = [
        group
        for group in groups
        if len(group) == 2
        and group[0][0].amount == group[1][0].amount
        and frozenset(want[0].owner for want in group) in tied
    ]
    return pairs, [group for group in groups if len(group) >= MANY]


def _counted(
    row: Row, leader: dict[int, int], members: dict[int, list[int]], even: set[int], numbers: list[int]
) -> Row | None:
    """The row over the fewer columns; None if nothing of it is left.

    A row that counts all members of a flow alike counts the flow. One that counts only some counts an even share of it
    where they are a pair (each side may have half: the mean of two plans that differ by changing sides), else none of it:
    the less is counted, the weaker a row "at most", and others are left out.
    """
    found: dict[int, list[int]] = defaultdict(list)
    for number, value in row.entries:
        if number in leader:
            found[leader[number]].append(value)
    split = {
        first for first, values in found.items() if len(values) < len(members[first]) or len(set(values)) > 1
    }
    if row.low is not None and not split <= even:
        return None
    times = 2 if split & even else 1
    sums: dict[int, int] = {}
    for number, value in row.entries:
        first = leader.get(number)
        if first in split:
            if first in even:
                sums[numbers[number]] = sums.get(numbers[number], 0) + value
        else:
            sums[numbers[number]] = value * times
    low, high = (None if bound is None else bound * times for bound in (row.low, row.high))
    if low is None and split and all(value <= 0 for value in sums.values()):
        return None
    return Row(low, high, tuple(sums.items()))


def _together(group: list[Want], model: Model, numbers: list[int]) -> Iterator[Row]:
    """As much comes as all of them want; and each one taken needs packs, and suppliers, that could serve it alone."""
    sums: dict[int, int] = defaultdict(int)
    for want in group:
        amount, taken = want[0].amount, numbers[_taken(model, want)]
        sums[taken] -= amount
        packs: dict[int, int] = defaultdict(int)
        sellers: dict[int, int] = defaultdict(int)
        for unit in want:
            offer = unit.source.offer
            bought = model.index["x", offer.id]
            used = numbers[model.index["y", offer.supplier]]
            packs[numbers[bought]] += min(amount, unit.source.units)
            sellers[used] = min(amount, sellers[used] + unit.source.units * model.columns[bought].upper)
        for enough in (packs, sellers):
            yield Row(0, None, (*enough.items(), (taken, -amount)))
    flows = ((numbers[unit.column], 1) for unit in group[0])
    yield Row(0, 0, (*flows, *sums.items()))


def _taken(model: Model, want: Want) -> int:
    name, shared = want[0].owner
    return model.index["g" if shared else "z", name]
