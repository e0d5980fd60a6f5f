"""Why nothing is possible: the smallest set of needs and limits that clash, and what single change would make it possible.

The solver says that something is impossible, never why. So named groups are left out and the rest is solved again, until
every group that is left is needed for the clash. What goes with what (companions, pairs, stock, tariffs) is taken as it
is: those are facts, not wishes.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from fitlore.sourcing.problem import MINUTE, Banned, Limits, Need, Problem
from fitlore.sourcing.solve import Aim, feasible, fewest_given_up, least

Kind = Literal[
    "need",
    "need's day",
    "minutes",
    "cash",
    "days",
    "suppliers",
    "worst minutes",
    "worst cash",
    "without option",
    "without offer",
    "without supplier",
    "banned",
    "with option",
    "with offer",
]
"""What can be left out: a must, or one limit of the job."""


class Group(msgspec.Struct, frozen=True, order=True):
    """One need or limit by name; `id` is empty for a limit of the whole job, `offer` is set for a banned offer only."""

    kind: Kind
    id: str = ""
    offer: str = ""


class Relaxation(msgspec.Struct, frozen=True):
    """One change that by itself makes a plan possible: a group left out, or a limit set to `value`.

    `value` is in the limit's own unit: coins, whole minutes (rounded up), days, or a number of suppliers; None: left out.
    """

    group: Group
    value: int | None = None


class Clash(msgspec.Struct, frozen=True):
    """`members` cannot all hold. If `irreducible`, leave any one of them out and the others can (else the search was cut).

    `relaxations` are all the single changes that make the whole job possible (none: no single one does). `give_up` are
    the fewest musts to give up with every limit kept (None: a limit alone rules a plan out).
    """

    members: tuple[Group, ...]
    irreducible: bool
    relaxations: tuple[Relaxation, ...]
    give_up: tuple[str, ...] | None


def clash(problem: Problem, most_solves: int = 200) -> Clash | None:
    """Why a problem has no plan; None if it has one. After `most_solves` solves the set found so far is returned."""
    if feasible(problem):
        return None
    named = groups(problem)
    search = _Search(problem, named, most_solves)
    by_limits = search.smallest(named)
    by_needs = search.smallest(tuple(reversed(named)))
    members, whole = min((by_limits, by_needs), key=lambda found: (not found[1], len(found[0])))
    relaxations = [_relaxed(problem, group) for group in sorted(members)]
    return Clash(
        members=tuple(sorted(members)),
        irreducible=whole,
        relaxations=tuple(row for row in relaxations if row is not None),
        give_up=fewest_given_up(problem),
    )


def groups(problem: Problem) -> tuple[Group, ...]:
    """Everything about a problem that can be left out, limits first, sorted by name."""
    limits = problem.limits
    bounds: tuple[tuple[Kind, int | None], ...] = (
        ("cash", limits.cash),
        ("days", limits.days),
        ("minutes", limits.minutes),
        ("suppliers", limits.suppliers),
        ("worst cash", limits.worst_cash),
        ("worst minutes", limits.worst_minutes),
    )
    found = [Group(kind) for kind, bound in bounds if bound is not None]
    found += [Group("without option", name) for name in sorted({*limits.without_options})]
    found += [Group("without offer", name) for name in sorted({*limits.without_offers})]
    found += [Group("without supplier", name) for name in sorted({*limits.without_suppliers})]
    found += [Group("with option", name) for name in sorted({*limits.with_options})]
    found += [Group("with offer", name) for name in sorted({*limits.with_offers})]
    found += [Group("banned", *pair) for pair in sorted({(row.need, row.offer) for row in limits.banned})]
    needs = sorted(problem.needs, key=lambda need: need.id)
    found += [Group("need's day", need.id) for need in needs if need.latest is not None]
    found += [Group("need", need.id) for need in needs if need.must]
    return tuple(found)


def without(problem: Problem, group: Group) -> Problem:
    """The problem with one group left out: a must becomes optional, a limit goes."""
    limits, name = problem.limits, group.id
    match group.kind:
        case "need":
            return _with_need(problem, name, must=False)
        case "need's day":
            return _with_need(problem, name, latest=None)
        case "without option":
            changed = _less(limits, "without_options", name)
        case "without offer":
            changed = _less(limits, "without_offers", name)
        case "without supplier":
            changed = _less(limits, "without_suppliers", name)
        case "with option":
            changed = _less(limits, "with_options", name)
        case "with offer":
            changed = _less(limits, "with_offers", name)
        case "banned":
            left = tuple(row for row in limits.banned if row != Banned(name, group.offer))
            changed = msgspec.structs.replace(limits, banned=left)
        case _:
            changed = msgspec.structs.replace(limits, **{group.kind.replace(" ", "_"): None})
    return msgspec.structs.replace(problem, limits=changed)


def _less(limits: Limits, field: str, name: str) -> Limits:
    left = tuple(other for other in getattr(limits, field) if other != name)
    return msgspec.structs.replace(limits, **{field: left})


def _with_need(problem: Problem, name: str, **changes: object) -> Problem:
    needs: tuple[Need, ...] = tuple(
        msgspec.structs.replace(need, **changes) if need.id == name else need for need in problem.needs
    )
    return msgspec.structs.replace(problem, needs=needs)


class _Search:
    """Finds a clash from which nothing can be left out, halving what is still in question; counts its solves."""

    def __init__(self, problem: Problem, named: tuple[Group, ...], most_solves: int) -> None:
        self.problem = problem
        self.named = named
        self.left = most_solves
        self.cut = False
        self.known: dict[frozenset[Group], bool] = {}

    def smallest(self, order: tuple[Group, ...]) -> tuple[tuple[Group, ...], bool]:
        """A clash that blames groups early in the order before later ones, and whether it was searched to the end."""
        self.cut = False
        members = self._of((), (), order)
        return members, not self.cut

    def _of(
        self, kept: tuple[Group, ...], fresh: tuple[Group, ...], order: tuple[Group, ...]
    ) -> tuple[Group, ...]:
        if fresh and self._clashes(kept):
            return ()
        if len(order) <= 1:
            return order
        first, second = order[: len(order) // 2], order[len(order) // 2 :]
        late = self._of((*kept, *first), first, second)
        early = self._of((*kept, *late), late, first)
        return (*early, *late)

    def _clashes(self, kept: tuple[Group, ...]) -> bool:
        """Whether these groups alone already clash. When the solves are used up: no, so that more is kept."""
        key = frozenset(kept)
        if key not in self.known:
            if self.left <= 0:
                self.cut = True
                return False
            self.left -= 1
            smaller = self.problem
            for group in self.named:
                if group not in key:
                    smaller = without(smaller, group)
            self.known[key] = not feasible(smaller)
        return self.known[key]


def _relaxed(problem: Problem, group: Group) -> Relaxation | None:
    """How far a group must give way by itself, if that is enough."""
    free = without(problem, group)
    aims: dict[str, Aim] = {
        "cash": "cash",
        "minutes": "hands",
        "suppliers": "suppliers",
        "worst cash": "worst cash",
        "worst minutes": "worst hands",
    }
    if group.kind in aims:
        value = least(free, aims[group.kind])
        if value is None:
            return None
        return Relaxation(group, -(-value // MINUTE) if group.kind.endswith("minutes") else value)
    if not feasible(free):
        return None
    if group.kind == "days":
        return Relaxation(group, _earliest(problem, ""))
    if group.kind == "need's day":
        return Relaxation(group, _earliest(problem, group.id))
    return Relaxation(group)


def _earliest(problem: Problem, need: str) -> int:
    """The earliest last day (of the job, or of one need) with which a plan is possible; without one there is one."""
    days = sorted({offer.days for offer in problem.offers})
    low, high = 0, len(days) - 1
    while low < high:
        middle = (low + high) // 2
        if need:
            trial = _with_need(problem, need, latest=days[middle])
        else:
            limits = msgspec.structs.replace(problem.limits, days=days[middle])
            trial = msgspec.structs.replace(problem, limits=limits)
        if feasible(trial):
            high = middle
        else:
            low = middle + 1
    return days[low]
