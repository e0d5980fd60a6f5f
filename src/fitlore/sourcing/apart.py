"""Splits a problem into parts that nothing joins, so that each is solved and settled on its own."""

from __future__ import annotations

import msgspec

from fitlore.sourcing.lines import pack_line
from fitlore.sourcing.problem import Problem
from fitlore.sourcing.reduce import sources_of

Node = tuple[str, str]


class _Groups:
    """Which nodes are joined, however indirectly."""

    def __init__(self) -> None:
        self.parent: dict[Node, Node] = {}

    def top(self, node: Node) -> Node:
        self.parent.setdefault(node, node)
        while self.parent[node] != node:
            self.parent[node] = self.parent[self.parent[node]]
            node = self.parent[node]
        return node

    def join(self, one: Node, other: Node) -> None:
        tops = sorted((self.top(one), self.top(other)))
        self.parent[tops[1]] = tops[0]


def components(problem: Problem) -> list[Problem]:
    """The parts of a sorted problem that share no supplier, stock, work, journey or rule; the whole if a limit joins all.

    Suppliers that serve no need in any way are left out, unless something must be bought there or earns money.
    """
    limits = problem.limits
    joining = (limits.minutes, limits.cash, limits.suppliers, limits.worst_minutes, limits.worst_cash)
    if any(bound is not None for bound in joining):
        return [problem]
    groups = _joined(problem)
    asked = set(limits.with_offers)
    worth = problem.hour_worth
    tops = {groups.top(("need", row.id)) for row in problem.needs}
    tops |= {
        groups.top(("supplier", row.supplier))
        for row in problem.offers
        if row.id in asked or pack_line(row, worth).cost < 0
    }
    return [_part(problem, groups, top) for top in sorted(tops)]


def _joined(problem: Problem) -> _Groups:
    groups = _Groups()
    need_of = {row.id: ("need", row.need) for row in problem.options}
    for row in problem.options:
        for name in row.shared:
            groups.join(need_of[row.id], ("shared", name))
    for (owner, _), sources in sources_of(problem).items():
        home = ("shared", owner[0]) if owner[1] else need_of[owner[0]]
        for source in sources:
            groups.join(home, ("supplier", source.offer.supplier))
    for supplier in problem.suppliers:
        for name in supplier.trips:
            groups.join(("supplier", supplier.id), ("trip", name))
    for option in problem.options:
        for take in option.takes:
            groups.join(need_of[option.id], ("pool", take.pool))
    for offer in problem.offers:
        for take in offer.takes:
            groups.join(("supplier", offer.supplier), ("pool", take.pool))
    linked = [(row.option, other) for row in problem.companions for other in row.one_of]
    linked += [(apart.one, apart.other) for apart in problem.never]
    linked += [(pair.left, pair.right) for pair in problem.pairs]
    for one, other in linked:
        if one in need_of and other in need_of:
            groups.join(need_of[one], need_of[other])
    return groups


def _part(problem: Problem, groups: _Groups, top: Node) -> Problem:
    options = tuple(row for row in problem.options if groups.top(("need", row.need)) == top)
    offers = tuple(row for row in problem.offers if groups.top(("supplier", row.supplier)) == top)
    names = {row.id for row in options}
    return msgspec.structs.replace(
        problem,
        needs=tuple(row for row in problem.needs if groups.top(("need", row.id)) == top),
        options=options,
        offers=offers,
        suppliers=tuple(row for row in problem.suppliers if groups.top(("supplier", row.id)) == top),
        shared=tuple(row for row in problem.shared if groups.top(("shared", row.id)) == top),
        trips=tuple(row for row in problem.trips if groups.top(("trip", row.id)) == top),
        pools=tuple(row for row in problem.pools if groups.top(("pool", row.id)) == top),
        companions=tuple(row for row in problem.companions if row.option in names),
        never=tuple(row for row in problem.never if row.one in names),
        pairs=tuple(row for row in problem.pairs if row.left in names),
        limits=msgspec.structs.replace(
            problem.limits,
            with_options=tuple(name for name in problem.limits.with_options if name in names),
            with_offers=tuple(
                name for name in problem.limits.with_offers if name in {row.id for row in offers}
            ),
        ),
    )
