"""What a donor is worth to a job: the most that may be paid for it, found by planning the job with it and without it.

The worth is the highest price, to the smallest coin, at which the cheapest plan that takes the donor costs no more than the
cheapest plan without it. It is found from the plan with the donor for nothing and then proved: the plan that has to take it
at that price is no dearer, the one at a coin more is. A limit on cash can make the worth less than what the donor saves.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.fitting.donors import Gives
from fitlore.fitting.donors_on import Vehicle
from fitlore.fitting.donors_wanted import Wanted
from fitlore.fitting.shape import Question
from fitlore.model.choices import RouteKind
from fitlore.model.job import Job
from fitlore.model.numbers import number_key
from fitlore.sourcing import problem as p
from fitlore.sourcing.assemble import Assembled, Wishes, assemble
from fitlore.sourcing.audit import confirm
from fitlore.sourcing.coins import coins
from fitlore.sourcing.needs import NeedAt, item
from fitlore.sourcing.options import accepted_of
from fitlore.sourcing.solve import solve

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Worth(NamedTuple):
    """What a donor is worth to one job, in smallest coins of the home currency."""

    job: Job
    home: str
    without: int | None
    """The cheapest plan without it; None: there is none."""
    for_nothing: int | None
    """The cheapest plan if it cost nothing; None: there is none."""
    at_most: int | None
    """The most that may be paid for it; None: no price can be told, for without it nothing is possible, or not even with it."""
    minutes: int
    """Hands that fetching and stripping it takes; they are counted."""
    back: int
    """What comes back for the remains; it is counted."""
    asked: int | None = None
    """A price that was asked about."""
    at_asked: int | None = None
    """The cheapest plan that takes it at that price; None: there is none."""

    @property
    def dearer(self) -> int | None:
        """How much dearer the plan gets by taking it at the price asked about (below zero: cheaper)."""
        known = self.at_asked is not None and self.without is not None
        return (self.at_asked or 0) - (self.without or 0) if known else None


def wanted_of(graph: Graph, assembled: Assembled) -> tuple[Wanted, ...]:
    """The needs of a job as a donor is asked for them: each with its question, so that more parts can be asked about."""
    return tuple(_wanted(graph, assembled, need) for need in assembled.needs)


def _wanted(graph: Graph, assembled: Assembled, need: NeedAt) -> Wanted:
    finding, car, job = need.finding, assembled.car, assembled.job
    path, _, at_side = finding.at.partition("@")
    said = finding.side or at_side
    place = graph.place(car.is_, path) or need.answer.place
    one_side = said not in ("", "both")
    question = Question(place, car, need.answer.side, both=bool(place.sides) and not one_side)
    accepted = any(a.at == finding.at and a.route is RouteKind.USED for a in accepted_of(job))
    used = False if RouteKind.USED in finding.forbid else True if accepted else None
    numbers = None
    if finding.only_these_routes:
        takes = [content.number for route in finding.routes for content in route.takes]
        numbers = frozenset(number_key(number) for number in takes if number)
    return Wanted(need.id, job.job, question, need.answer, need.quantity, need.must, used, numbers)


def worth_of(graph: Graph, assembled: Assembled, given: Gives, asked: int | None = None) -> Worth:
    """The most that may be paid for a donor, whole; `asked` is a price to be looked at besides.

    Counted is what it surely brings (`given.take`, and what comes with that), the hands it takes and what comes back.
    """
    problem, home = assembled.problem, assembled.home
    sale = _sale(assembled, given, home)
    without = _cost(_without(problem, assembled, given))
    donor = _Donor(_without(problem, assembled, given), sale, _banned(given, sale, assembled.job))
    nothing = _cost(donor.at(0))
    most: int | None = None
    if without is not None:
        least = donor.forced(0)
        most = 0 if least is None or least > without else donor.most(without, without - least)
    at_asked = donor.forced(asked) if asked is not None else None
    return Worth(assembled.job, home, without, nothing, most, sale.minutes, sale.back, asked, at_asked)


class _Donor(NamedTuple):
    """A job with a donor in it, at any price."""

    problem: p.Problem
    sale: p.Offer
    banned: tuple[p.Banned, ...] = ()

    def at(self, price: int, *, forced: bool = False) -> p.Problem:
        """The job with the donor on offer at a price; `forced`: it has to be bought."""
        limits = self.problem.limits
        limits = msgspec.structs.replace(limits, banned=(*limits.banned, *self.banned))
        if forced:
            limits = msgspec.structs.replace(limits, with_offers=(*limits.with_offers, self.sale.id))
        return msgspec.structs.replace(
            self.problem,
            offers=(*self.problem.offers, msgspec.structs.replace(self.sale, price=price)),
            suppliers=(*self.problem.suppliers, p.Supplier(self.sale.supplier)),
            limits=limits,
        )

    def forced(self, price: int) -> int | None:
        """The cheapest plan that takes it at a price; None: there is none (the purse does not reach)."""
        return _cost(self.at(price, forced=True))

    def most(self, without: int, high: int) -> int:
        """The highest price up to `high` at which a plan that takes it costs at most `without`.

        Such plans get dearer with every coin, and the purse can only shut some of them out, so that halving finds it.
        """
        low, first = 0, self.forced(high)
        if first is not None and first <= without:
            return high
        while high - low > 1:
            middle = (low + high) // 2
            cost = self.forced(middle)
            low, high = (middle, high) if cost is not None and cost <= without else (low, middle)
        return low


def _cost(problem: p.Problem) -> int | None:
    solution = solve(problem, settle=False)
    if solution.cost is not None:
        confirm(problem, solution)
    return solution.cost


def _without(problem: p.Problem, assembled: Assembled, given: Gives) -> p.Problem:
    """The job without any offer of this very vehicle."""
    lines = {line.origin for line in given.vehicle.sale}
    donor = given.vehicle.donor
    gone = {
        name
        for name, line in assembled.market.lines.items()
        if line.origin in lines
        or (donor is not None and donor.donor in (line.offer.comes_off, assembled.market.off.get(name)))
    }
    banned = tuple(row for row in problem.limits.banned if row.offer not in gone)
    return msgspec.structs.replace(
        problem,
        offers=tuple(offer for offer in problem.offers if offer.id not in gone),
        limits=msgspec.structs.replace(problem.limits, banned=banned),
    )


def _sale(assembled: Assembled, given: Gives, home: str) -> p.Offer:
    """The donor as one offer at no price: what it surely brings, its hands, its days, what comes back."""
    vehicle = given.vehicle
    line = vehicle.sale[0].offer if vehicle.sale else None
    source = line or vehicle.donor
    return p.Offer(
        id=f"donor {vehicle.key}",
        supplier=f"donor {vehicle.key}",
        price=0,
        brings=_brings(given, assembled.job),
        stock=1,
        days=source.days if source else 0,
        minutes=source.minutes if source else 0,
        back=coins(source.scrap_back, home) if source else 0,
        counts=0,
    )


def _brings(given: Gives, job: Job) -> tuple[p.Bring, ...]:
    """Every part that may surely be taken for this job, and what goes with it; for another job nothing counts."""
    units: dict[str, int] = {}
    for pull in given.sure:
        if pull.wanted.job == job.job:
            for row in (pull.standing, *pull.also):
                key = item(row.part.part)
                units[key] = max(units.get(key, 0), row.pieces)
    return tuple(p.Bring(key, count) for key, count in sorted(units.items()))


def _banned(given: Gives, sale: p.Offer, job: Job) -> tuple[p.Banned, ...]:
    """A part that may be taken for one need and must not for another."""
    brought = {bring.item for bring in sale.brings}
    rows = [row for row in given.leave if row.wanted.job == job.job and row.verdict and row.part]
    names = {row.wanted.name for row in rows if row.part and item(row.part.part) in brought}
    return tuple(p.Banned(name, sale.id) for name in sorted(names))


def assembled_jobs(graph: Graph, jobs: tuple[Job, ...], today: Wishes) -> tuple[Assembled, ...]:
    """Each job made ready to be planned; raises JobFault for one that cannot be."""
    return tuple(assemble(graph, job, today) for job in jobs)


def price_asked(vehicle: Vehicle, home: str) -> int | None:
    """What is asked for the whole vehicle, where the books say."""
    price = vehicle.sale[0].offer.price if vehicle.sale else vehicle.donor.price if vehicle.donor else None
    return coins(price, home) if price is not None else None
