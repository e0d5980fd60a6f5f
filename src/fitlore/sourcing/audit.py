"""Re-adds a plan from the offers and holds it against every need and limit, knowing nothing of how it was found.

Nothing here is shared with the solver: the rounding and the sums are worked out again in `Decimal` (`adding`), the
tariffs and rules here, from what `problem` states.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import msgspec

from fitlore.sourcing.adding import add_up
from fitlore.sourcing.problem import (
    MINUTE,
    Assigned,
    Mode,
    Option,
    Problem,
    SharedWork,
    Solution,
    Want,
    Way,
)


class AuditError(RuntimeError):
    """A plan does not stand up to its own books: an error of the program, and the plan must not be shown."""


class Discrepancy(msgspec.Struct, frozen=True):
    """One thing that is not as the plan says: about what, what was said (or asked), what was found."""

    about: str
    said: str
    found: str

    def __str__(self) -> str:
        return f"{self.about}: {self.said} said, {self.found} found"


def confirm(problem: Problem, solution: Solution) -> None:
    """Raise `AuditError` with every discrepancy, if there is one."""
    faults = audit(problem, solution)
    if faults:
        raise AuditError("; ".join(map(str, faults)))


def audit(problem: Problem, solution: Solution) -> tuple[Discrepancy, ...]:
    """Everything in which a plan differs from the books or from its own sums; empty if it stands.

    A solution without a plan (infeasible, or stopped before one was found) must be empty in every part.
    """
    if solution.status == "infeasible" or (solution.status == "stopped" and solution.cost is None):
        bare = Solution(solution.status, bound=solution.bound)
        return (
            ()
            if solution == bare
            else (Discrepancy("a solution without a plan", "nothing", "parts of a plan"),)
        )
    plan = _Plan(problem, solution)
    unknown = tuple(plan.unknown())
    if unknown:
        return unknown
    checks = (plan.choices, plan.rules, plan.orders, plan.wants, plan.ways, plan.bans, plan.bounds, plan.sums)
    return tuple(fault for check in checks for fault in check())


class _Plan:
    """A plan beside its problem, with look-ups by id."""

    def __init__(self, problem: Problem, solution: Solution) -> None:
        self.problem = problem
        self.solution = solution
        self.options = {row.id: row for row in problem.options}
        self.offers = {row.id: row for row in problem.offers}
        self.suppliers = {row.id: row for row in problem.suppliers}
        self.works = {row.id: row for row in problem.shared}
        self.trips = {row.id: row for row in problem.trips}
        self.taken = {row.option for row in solution.chosen}
        self.packs = Counter[str]()
        for row in solution.bought:
            self.packs[row.offer] += row.packs

    def unknown(self) -> Iterator[Discrepancy]:
        """Ids that the books do not have, and wants or items that their owners or offers do not have."""
        plan = self.solution
        named = [
            ("option", self.options.keys(), [row.option for row in plan.chosen]),
            ("offer", self.offers.keys(), [row.offer for row in plan.bought + plan.assigned]),
            ("supplier", self.suppliers.keys(), [row.supplier for row in plan.bought + plan.ways]),
            ("shared work", self.works.keys(), list(plan.shared)),
            ("trip", self.trips.keys(), list(plan.trips)),
        ]
        for kind, known, names in named:
            for name in names:
                if name not in known:
                    yield Discrepancy(kind, name, "unknown")
        for row in plan.assigned:
            owner = (self.works if row.shared else self.options).get(row.owner)
            if owner is None or not 0 <= row.want < len(owner.wants):
                yield Discrepancy("a want", f"{row.owner} number {row.want}", "unknown")

    def choices(self) -> Iterator[Discrepancy]:
        """Every must has one option, every other at most one, and each option is the need's own."""
        of_need = Counter(self.options[row.option].need for row in self.solution.chosen)
        for need in self.problem.needs:
            if of_need[need.id] > 1 or (need.must and not of_need[need.id]):
                asked = "one option" if need.must else "at most one option"
                yield Discrepancy(f"need {need.id}", asked, str(of_need[need.id]))
        for row in self.solution.chosen:
            if self.options[row.option].need != row.need:
                yield Discrepancy(f"option {row.option}", row.need, self.options[row.option].need)
            until = self._until(self.options[row.option])
            if until is not None and until < 0:
                yield Discrepancy(
                    f"option {row.option}", "what follows a failure in time", f"{-until} days late"
                )
        asked_works = {name for option in self.taken for name in self.options[option].shared}
        if sorted(asked_works) != list(self.solution.shared):
            yield Discrepancy("shared works", " ".join(self.solution.shared), " ".join(sorted(asked_works)))

    def rules(self) -> Iterator[Discrepancy]:
        """Companions, what never goes together, pairs, and what there is only so much of."""
        for row in self.problem.companions:
            if row.option in self.taken and not self.taken.intersection(row.one_of):
                yield Discrepancy(f"option {row.option}", f"with one of {' '.join(row.one_of)}", "alone")
        for apart in self.problem.never:
            if {apart.one, apart.other} <= self.taken:
                yield Discrepancy(f"options {apart.one} and {apart.other}", "never together", "both")
        for pair in self.problem.pairs:
            if (pair.left in self.taken) != (pair.right in self.taken):
                yield Discrepancy(f"options {pair.left} and {pair.right}", "both or neither", "one")
        used = Counter[str]()
        for option in self.taken:
            for take in self.options[option].takes:
                used[take.pool] += take.amount
        for offer, packs in self.packs.items():
            for take in self.offers[offer].takes:
                used[take.pool] += take.amount * packs
        for pool in self.problem.pools:
            if used[pool.id] > pool.amount:
                yield Discrepancy(f"pool {pool.id}", str(pool.amount), str(used[pool.id]))

    def orders(self) -> Iterator[Discrepancy]:
        """Orders name the right supplier once, within stock, and every pack holds what is taken out of it."""
        names = Counter(row.offer for row in self.solution.bought)
        for row in self.solution.bought:
            offer = self.offers[row.offer]
            if offer.supplier != row.supplier:
                yield Discrepancy(f"offer {row.offer}", row.supplier, offer.supplier)
            if row.packs < 1 or names[row.offer] > 1:
                yield Discrepancy(f"offer {row.offer}", "ordered once, one pack or more", str(row.packs))
            for bound in (offer.stock, offer.most):
                if bound is not None and row.packs > bound:
                    yield Discrepancy(f"offer {row.offer}", f"at most {bound}", str(row.packs))
        drawn = Counter[tuple[str, str]]()
        for use in self.solution.assigned:
            drawn[use.offer, use.item] += use.units
        for (name, item), units in drawn.items():
            held = sum(bring.units for bring in self.offers[name].brings if bring.item == item)
            if units > held * self.packs[name]:
                yield Discrepancy(f"{item} of offer {name}", str(held * self.packs[name]), str(units))

    def wants(self) -> Iterator[Discrepancy]:
        """Every want of what is taken is served in full, with its own items, in time; nothing else is served."""
        served = Counter[tuple[str, bool, int]]()
        for use in self.solution.assigned:
            served[use.owner, use.shared, use.want] += use.units
            yield from self._use(use)
        owners: list[tuple[str, bool, tuple[Want, ...]]] = [
            (name, False, self.options[name].wants) for name in sorted(self.taken)
        ]
        owners += [(name, True, self.works[name].wants) for name in self.solution.shared]
        for name, shared, wants in owners:
            for number, want in enumerate(wants):
                units = served.pop((name, shared, number), 0)
                if units != want.amount:
                    yield Discrepancy(f"want {number} of {name}", str(want.amount), str(units))
        for name, _, number in served:
            yield Discrepancy(f"want {number} of {name}", "not taken", "served")

    def _use(self, use: Assigned) -> Iterator[Discrepancy]:
        owner: Option | SharedWork = self.works[use.owner] if use.shared else self.options[use.owner]
        offer = self.offers[use.offer]
        about = f"{use.item} of offer {use.offer} for {use.owner}"
        if use.item not in owner.wants[use.want].items:
            yield Discrepancy(about, "wanted", "not wanted")
        if use.units < 1:
            yield Discrepancy(about, "a unit or more", str(use.units))
        latest = owner.latest if isinstance(owner, SharedWork) else self._until(owner)
        need = owner.need if isinstance(owner, Option) else None
        if any((row.need, row.offer) == (need, use.offer) for row in self.problem.limits.banned):
            yield Discrepancy(about, "banned", "used")
        if latest is not None and offer.days > latest:
            yield Discrepancy(about, f"by day {latest}", f"day {offer.days}")

    def _until(self, option: Option) -> int | None:
        """The last day for what an option wants, as far as it is not that of the job alone (`bounds` looks at that)."""
        need = next(row for row in self.problem.needs if row.id == option.need)
        whole = self.problem.limits.days if option.ahead else None
        ends = [day for day in (need.latest, whole) if day is not None]
        return min(ends) - option.ahead if ends else None

    def ways(self) -> Iterator[Discrepancy]:
        """Every supplier ordered from has one way that its basket has earned; journeys are those of the ways."""
        sellers = sorted({row.supplier for row in self.solution.bought})
        if sellers != [way.supplier for way in self.solution.ways]:
            said = " ".join(way.supplier for way in self.solution.ways)
            yield Discrepancy("ways", said, " ".join(sellers))
        for way in self.solution.ways:
            yield from self._way(way)
        journeys = sorted({way.trip for way in self.solution.ways if way.trip})
        if journeys != list(self.solution.trips):
            yield Discrepancy("trips", " ".join(self.solution.trips), " ".join(journeys))

    def _way(self, way: Way) -> Iterator[Discrepancy]:
        supplier = self.suppliers[way.supplier]
        about = f"supplier {way.supplier}"
        if way.mode and way.trip:
            yield Discrepancy(about, "one way", "two")
        elif way.trip:
            if way.trip not in supplier.trips:
                yield Discrepancy(about, f"trip {way.trip}", "no such trip")
        elif way.mode:
            mode = self._mode(way)
            if mode is None:
                yield Discrepancy(about, f"mode {way.mode}", "no such mode")
                return
            basket = [
                (self.offers[row.offer], row.packs)
                for row in self.solution.bought
                if row.supplier == way.supplier
            ]
            spend = sum(packs * (row.price if row.counts is None else row.counts) for row, packs in basket)
            weight = sum(packs * row.weight for row, packs in basket)
            if spend < mode.minimum:
                yield Discrepancy(about, f"minimum order {mode.minimum}", str(spend))
            if spend < mode.least_spend:
                yield Discrepancy(about, f"{way.mode} from {mode.least_spend}", str(spend))
            if mode.most_weight is not None and weight > mode.most_weight:
                yield Discrepancy(about, f"{way.mode} up to {mode.most_weight} g", f"{weight} g")
        elif supplier.modes or supplier.trips:
            yield Discrepancy(about, "no carriage and no trip", "needs one")

    def _mode(self, way: Way) -> Mode | None:
        return next((mode for mode in self.suppliers[way.supplier].modes if mode.id == way.mode), None)

    def bans(self) -> Iterator[Discrepancy]:
        """What is forbidden is not there, what is required is."""
        limits = self.problem.limits
        sellers = {row.supplier for row in self.solution.bought}
        bought = {row.offer for row in self.solution.bought}
        for name in sorted(
            self.taken.intersection(limits.without_options)
            | bought.intersection(limits.without_offers)
            | sellers.intersection(limits.without_suppliers)
        ):
            yield Discrepancy(name, "forbidden", "used")
        for name in sorted({*limits.with_options} - self.taken | {*limits.with_offers} - bought):
            yield Discrepancy(name, "required", "missing")

    def bounds(self) -> Iterator[Discrepancy]:
        """The limits of the job, inclusive, on sums that are added here."""
        limits, found = self.problem.limits, add_up(self.problem, self.solution)
        for about, bound, value in (
            ("cash now", limits.cash, found.cash_now),
            ("cash at the worst", limits.worst_cash, found.worst_cash),
            ("hands", None if limits.minutes is None else limits.minutes * MINUTE, found.hands),
            (
                "hands at the worst",
                None if limits.worst_minutes is None else limits.worst_minutes * MINUTE,
                found.worst_hands,
            ),
            ("suppliers", limits.suppliers, found.suppliers),
            ("last day", limits.days, found.last_day),
        ):
            if bound is not None and value > bound:
                yield Discrepancy(about, f"at most {bound}", str(value))

    def sums(self) -> Iterator[Discrepancy]:
        """Every total, the cost, and the proof's bound."""
        found, said = add_up(self.problem, self.solution), self.solution.totals
        for field in found.__struct_fields__:
            if getattr(found, field) != getattr(said, field):
                yield Discrepancy(field, str(getattr(said, field)), str(getattr(found, field)))
        plan = self.solution
        if plan.cost != found.cost:
            yield Discrepancy("the cost", str(plan.cost), str(found.cost))
        if (plan.status == "proven" and plan.bound != found.cost) or (plan.bound or 0) > found.cost:
            yield Discrepancy("the bound", str(plan.bound), str(found.cost))
