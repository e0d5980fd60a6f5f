"""Reads a plan out of the solver's whole numbers."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from fitlore.sourcing.lines import Line, added
from fitlore.sourcing.problem import Assigned, Bought, Chosen, Problem, Solution, Supplier, Way
from fitlore.sourcing.rows import Key, Model


class Read(msgspec.Struct, frozen=True):
    """One part of a job: its problem, its columns, and their values."""

    problem: Problem
    model: Model
    values: tuple[int, ...]


def read_plan(parts: list[Read], proven: bool, bound: int | None) -> Solution:
    """The plan of a whole job from its parts, sorted, with its totals."""
    plans = [_plan(part) for part in parts]
    bought = sorted(row for plan in plans for row in plan.bought)
    ways = sorted(row for plan in plans for row in plan.ways)
    days = {row.id: row.days for part in parts for row in part.problem.offers}
    last = max((days[row.offer] for row in bought), default=0)
    lines = [pair for plan in plans for pair in plan.lines]
    own = {row.id for part in parts for row in part.problem.suppliers if row.own}
    sellers = sum(way.supplier not in own for way in ways)
    totals = added(lines, sum(row.packs for row in bought), sellers, last)
    return Solution(
        "proven" if proven else "stopped",
        cost=totals.cost,
        bound=bound,
        chosen=tuple(sorted(row for plan in plans for row in plan.chosen)),
        bought=tuple(bought),
        assigned=tuple(sorted(row for plan in plans for row in plan.assigned)),
        ways=tuple(ways),
        trips=tuple(sorted(name for plan in plans for name in plan.trips)),
        shared=tuple(sorted(name for plan in plans for name in plan.shared)),
        totals=totals,
    )


class _Plan(msgspec.Struct, frozen=True):
    lines: list[tuple[int, Line]]
    chosen: list[Chosen]
    bought: list[Bought]
    assigned: list[Assigned]
    ways: list[Way]
    trips: set[str]
    shared: set[str]


def _plan(part: Read) -> _Plan:
    """What the columns say, without suppliers, journeys and works that cost nothing and serve nothing."""
    problem, index, values = part.problem, part.model.index, part.values
    chosen = [row for row in problem.options if values[index["z", row.id]]]
    bought = [
        Bought(row.supplier, row.id, values[index["x", row.id]])
        for row in problem.offers
        if values[index["x", row.id]]
    ]
    shared = {name for row in chosen for name in row.shared}
    assigned = [
        Assigned(*unit.owner, unit.want, unit.source.item, unit.source.offer.id, values[unit.column])
        for unit in part.model.units
        if values[unit.column] and (not unit.owner[1] or unit.owner[0] in shared)
    ]
    sellers = {row.supplier for row in bought}
    ways = [_way(row, index, values) for row in problem.suppliers if row.id in sellers]
    trips = {way.trip for way in ways if way.trip}
    used = [("z", row.id) for row in chosen] + [("x", row.offer) for row in bought]
    used += [("g", name) for name in shared] + [("t", name) for name in trips]
    numbers = [index[key] for key in used]
    numbers += [index["m", way.supplier, way.mode] for way in ways if way.mode]
    numbers += [index["y", name] for name in sellers]
    numbers += [unit.column for unit in part.model.units if not unit.owner[1] or unit.owner[0] in shared]
    lines = [(values[number], part.model.columns[number].line) for number in numbers]
    names = [Chosen(row.need, row.id) for row in chosen]
    return _Plan(lines, names, bought, assigned, ways, trips, shared)


def _way(supplier: Supplier, index: Mapping[Key, int], values: tuple[int, ...]) -> Way:
    for mode in supplier.modes:
        column = index.get(("m", supplier.id, mode.id))
        if column is not None and values[column]:
            return Way(supplier.id, mode=mode.id)
    for trip in supplier.trips:
        if values[index["m", supplier.id, "", trip]]:
            return Way(supplier.id, trip=trip)
    return Way(supplier.id)
