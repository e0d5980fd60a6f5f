"""The second best with most of a plan held as it is: fast, and never too cheap.

One need is open (with what stands or falls with it, and as many of those whose baskets it shares as there is room for), and
with it the works it shares and the ways of the suppliers it could buy from; everything else stays. That leaves a small model
in which every row of the job still holds.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from fitlore.sourcing.columns import Column, Key
from fitlore.sourcing.door import FULL, run
from fitlore.sourcing.problem import Problem, Solution
from fitlore.sourcing.read import Read, read_plan
from fitlore.sourcing.reduce import ordered, possible
from fitlore.sourcing.rows import Model, Row, Unit, build, weights

ROOM = 400
"""So many columns may be open before no further need is opened."""


class Nearby:
    """A job and its plan as one model, of which a little is opened at a time."""

    def __init__(self, problem: Problem, solution: Solution) -> None:
        self.problem = possible(ordered(problem)) or ordered(problem)
        self.model = build(self.problem)
        self.costs = weights(self.model, "cost")
        self.values = _values(self.model, solution)
        self.touching: list[list[int]] = [[] for _ in self.model.columns]
        for number, row in enumerate(self.model.rows):
            for column, _ in row.entries:
                self.touching[column].append(number)
        self._look_ups(solution)

    def _look_ups(self, solution: Solution) -> None:
        need_of = {row.id: row.need for row in self.problem.options}
        self.partners: dict[str, set[str]] = defaultdict(set)
        for pair in self.problem.pairs:
            both = {need_of[pair.left], need_of[pair.right]}
            for need in both:
                self.partners[need] |= both
        units: dict[tuple[str, bool], list[Unit]] = defaultdict(list)
        for unit in self.model.units:
            units[unit.owner].append(unit)
        self.columns: dict[str, set[int]] = defaultdict(set)
        self.served: dict[str, list[Unit]] = defaultdict(list)
        index = self.model.index
        for option in self.problem.options:
            self.columns[option.need] |= {index["z", option.id]} | {
                index["g", name] for name in option.shared
            }
            self.served[option.need] += units[option.id, False]
            for name in option.shared:
                self.served[option.need] += units[name, True]
        self.ways: dict[str, set[int]] = defaultdict(set)
        for key, number in index.items():
            if key[0] in "ym":
                self.ways[key[1]] |= {number, index["t", key[3]]} if len(key) == 4 else {number}
        self.baskets = {
            row.need: {
                unit.source.offer.supplier for unit in self.served[row.need] if self.values[unit.column]
            }
            for row in solution.chosen
        }

    def best(self, need: str, option: str, banned: Iterable[str]) -> Solution:
        """The best plan that keeps the rest and does without an option, or without these offers for the need.

        "stopped" without a cost if there is none near by.
        """
        order = sorted(self._opened(need))
        closed = {self.model.index["z", option]} if option else set()
        barred = set(banned)
        closed |= {
            unit.column for unit in self.served[need] if unit.need == need and unit.source.offer.id in barred
        }
        found = run(self._smaller(order, closed), [self.costs[at] for at in order], [], FULL)
        if not found.values:
            return Solution("stopped")
        values = list(self.values)
        for at, value in zip(order, found.values, strict=True):
            values[at] = value
        return read_plan([Read(self.problem, self.model, tuple(values))], False, None)

    def _opened(self, need: str) -> set[int]:
        """The columns that may change."""
        opened = self._of_need(need)
        for partner in sorted(self.partners[need]):
            opened |= self._of_need(partner)
        mine = self.baskets.get(need, set())
        near = [other for other, sellers in self.baskets.items() if other != need and sellers & mine]
        for other in sorted(near, key=lambda name: (len(self.served[name]), name)):
            wider = opened | self._of_need(other)
            if len(wider) > ROOM:
                break
            opened = wider
        return opened

    def _of_need(self, need: str) -> set[int]:
        """Options, works, units, packs, suppliers, their ways and journeys."""
        found = set(self.columns[need])
        for unit in self.served[need]:
            offer = unit.source.offer
            found |= {unit.column, self.model.index["x", offer.id]} | self.ways[offer.supplier]
        return found

    def _smaller(self, order: list[int], closed: set[int]) -> Model:
        """The model of the open columns alone; what the held ones come to is taken off the rows."""
        place = {at: number for number, at in enumerate(order)}
        columns = [self._column(at, shut=at in closed) for at in order]
        rows = []
        for number in sorted({row for at in order for row in self.touching[at]}):
            row = self.model.rows[number]
            held = sum(weight * self.values[at] for at, weight in row.entries if at not in place)
            low = None if row.low is None else row.low - held
            high = None if row.high is None else row.high - held
            entries = tuple((place[at], weight) for at, weight in row.entries if at in place)
            rows.append(Row(low, high, entries))
        return Model(columns, rows, {}, [])

    def _column(self, at: int, *, shut: bool) -> Column:
        column = self.model.columns[at]
        return Column(column.key, 0 if shut else column.upper, column.line, column.lower, column.days)


def _values(model: Model, solution: Solution) -> tuple[int, ...]:
    """The plan as values of the columns."""
    packs: dict[str, int] = {row.offer: row.packs for row in solution.bought}
    found: dict[Key, int] = {("x", name): count for name, count in packs.items()}
    found |= {("z", row.option): 1 for row in solution.chosen}
    found |= {("g", name): 1 for name in solution.shared}
    found |= {("t", name): 1 for name in solution.trips}
    for row in solution.assigned:
        key = ("f", "g" if row.shared else "z", row.owner, str(row.want), row.item, row.offer)
        found[key] = row.units
    for way in solution.ways:
        found["y", way.supplier] = 1
        if way.mode:
            found["m", way.supplier, way.mode] = 1
        if way.trip:
            found["m", way.supplier, "", way.trip] = 1
    return tuple(found.get(column.key, 0) for column in model.columns)
