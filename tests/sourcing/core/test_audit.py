"""The audit refuses every kind of plan that is not what it says, down to a penny."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

import msgspec
import pytest

from fitlore.sourcing.audit import AuditError, audit, confirm
from fitlore.sourcing.problem import (
    Assigned,
    Banned,
    Bought,
    Chosen,
    Companion,
    Mode,
    Never,
    Pair,
    Pool,
    Problem,
    Solution,
    Take,
    Totals,
    Way,
)
from fitlore.sourcing.solve import solve
from tests.sourcing.core.green_estate import GREEN_ESTATE, with_limits

T = TypeVar("T")
replace = msgspec.structs.replace


@pytest.fixture(scope="module")
def plan() -> Solution:
    """The right plan."""
    return solve(GREEN_ESTATE)


def test_the_right_plan_stands(plan: Solution) -> None:
    """No discrepancy, and `confirm` says nothing."""
    assert audit(GREEN_ESTATE, plan) == ()
    confirm(GREEN_ESTATE, plan)


@pytest.mark.parametrize("field", Totals.__struct_fields__)
@pytest.mark.parametrize("by", [1, -1])
def test_a_total_that_is_off_by_one_is_refused(plan: Solution, field: str, by: int) -> None:
    """A penny (or a ten-thousandth of a minute, a pack, a day) in any total."""
    totals = replace(plan.totals, **{field: getattr(plan.totals, field) + by})
    with pytest.raises(AuditError, match=f"^{field}: {getattr(totals, field)} said"):
        confirm(GREEN_ESTATE, replace(plan, totals=totals))


def _swapped(rows: tuple[T, ...], old: T, *new: T) -> tuple[T, ...]:
    assert old in rows
    return tuple(sorted([*(row for row in rows if row != old), *new]))  # type: ignore[type-var]


DAMPERS = Bought("factor", "F-damper", 2)
STRUTS = Bought("postal", "P-strut", 2)
DAMPER_USE = Assigned("rear-dampers/renew-both", False, 0, "damper", "F-damper", 2)
LAMP_USE = Assigned("rear-lamp-right/like-for-like", False, 0, "lamp", "Y-lamp", 1)
SEAT = Chosen("drivers-seat", "drivers-seat/corva-seat")

TAMPERED: dict[str, tuple[Callable[[Solution], Solution], str]] = {
    "cost": (lambda s: replace(s, cost=53829), "the cost: 53829 said, 53830 found"),
    "bound below a proven cost": (lambda s: replace(s, bound=53829), "the bound: 53829"),
    "bound above the cost": (lambda s: replace(s, status="stopped", bound=53831), "the bound: 53831"),
    "a pack too few": (
        lambda s: replace(s, bought=_swapped(s.bought, DAMPERS, Bought("factor", "F-damper", 1))),
        "damper of offer F-damper: 1 said, 2 found",
    ),
    "a pack too many": (
        lambda s: replace(s, bought=_swapped(s.bought, DAMPERS, Bought("factor", "F-damper", 3))),
        "goods: 41100 said, 42990 found",
    ),
    "no packs": (
        lambda s: replace(s, bought=_swapped(s.bought, DAMPERS, Bought("factor", "F-damper", 0))),
        "offer F-damper: ordered once, one pack or more said, 0 found",
    ),
    "ordered twice": (
        lambda s: replace(s, bought=tuple(sorted((*s.bought, DAMPERS)))),
        "offer F-damper: ordered once",
    ),
    "another supplier": (
        lambda s: replace(s, bought=_swapped(s.bought, DAMPERS, Bought("postal", "F-damper", 2))),
        "offer F-damper: postal said, factor found",
    ),
    "an order left out": (
        lambda s: replace(s, bought=_swapped(s.bought, DAMPERS)),
        "damper of offer F-damper: 0 said, 2 found",
    ),
    "an unknown offer": (
        lambda s: replace(s, bought=_swapped(s.bought, DAMPERS, Bought("factor", "F-dampers", 2))),
        "offer: F-dampers said, unknown found",
    ),
    "an option left out": (
        lambda s: replace(
            s, chosen=_swapped(s.chosen, Chosen("rear-lamp-right", "rear-lamp-right/like-for-like"))
        ),
        "need rear-lamp-right: one option said, 0 found",
    ),
    "two options for one need": (
        lambda s: replace(
            s, chosen=_swapped(s.chosen, SEAT, SEAT, Chosen("drivers-seat", "drivers-seat/cover"))
        ),
        "need drivers-seat: at most one option said, 2 found",
    ),
    "another option": (
        lambda s: replace(s, chosen=_swapped(s.chosen, SEAT, Chosen("drivers-seat", "drivers-seat/cover"))),
        "want 0 of drivers-seat/cover: 1 said, 0 found",
    ),
    "an option under another need": (
        lambda s: replace(s, chosen=_swapped(s.chosen, SEAT, Chosen("radiator", SEAT.option))),
        "option drivers-seat/corva-seat: radiator said, drivers-seat found",
    ),
    "an unknown option": (
        lambda s: replace(s, chosen=_swapped(s.chosen, SEAT, Chosen("drivers-seat", "drivers-seat/sofa"))),
        "option: drivers-seat/sofa said, unknown found",
    ),
    "a use left out": (
        lambda s: replace(s, assigned=_swapped(s.assigned, LAMP_USE)),
        "want 0 of rear-lamp-right/like-for-like: 1 said, 0 found",
    ),
    "a unit too many used": (
        lambda s: replace(s, assigned=_swapped(s.assigned, LAMP_USE, replace(LAMP_USE, units=2))),
        "want 0 of rear-lamp-right/like-for-like: 1 said, 2 found",
    ),
    "a use of no units": (
        lambda s: replace(s, assigned=_swapped(s.assigned, LAMP_USE, replace(LAMP_USE, units=0))),
        "lamp of offer Y-lamp for rear-lamp-right/like-for-like: a unit or more said, 0 found",
    ),
    "a use of what is not wanted": (
        lambda s: replace(
            s, assigned=_swapped(s.assigned, LAMP_USE, replace(LAMP_USE, item="damper", offer="F-damper"))
        ),
        "damper of offer F-damper for rear-lamp-right/like-for-like: wanted said, not wanted found",
    ),
    "a use of what is not bought": (
        lambda s: replace(s, assigned=_swapped(s.assigned, LAMP_USE, replace(LAMP_USE, offer="P-lamp"))),
        "lamp of offer P-lamp: 0 said, 1 found",
    ),
    "a want that is not there": (
        lambda s: replace(s, assigned=_swapped(s.assigned, LAMP_USE, replace(LAMP_USE, want=1))),
        "a want: rear-lamp-right/like-for-like number 1 said, unknown found",
    ),
    "a use for what is not taken": (
        lambda s: replace(
            s, assigned=tuple(sorted((*s.assigned, replace(DAMPER_USE, owner="drivers-seat/cover"))))
        ),
        "want 0 of drivers-seat/cover: not taken said, served found",
    ),
    "carriage not paid": (
        lambda s: replace(s, ways=_swapped(s.ways, Way("yard", trip="to-yard"), Way("yard"))),
        "supplier yard: no carriage and no trip said, needs one found",
    ),
    "another supplier's journey": (
        lambda s: replace(
            s, ways=_swapped(s.ways, Way("yard", trip="to-yard"), Way("yard", trip="to-counter"))
        ),
        "supplier yard: trip to-counter said, no such trip found",
    ),
    "two ways at once": (
        lambda s: replace(
            s, ways=_swapped(s.ways, Way("yard", trip="to-yard"), Way("yard", "free", "to-yard"))
        ),
        "supplier yard: one way said, two found",
    ),
    "a tariff that is not there": (
        lambda s: replace(s, ways=_swapped(s.ways, Way("factor", "free"), Way("factor", "gift"))),
        "supplier factor: mode gift said, no such mode found",
    ),
    "carriage where it goes free": (
        lambda s: replace(s, ways=_swapped(s.ways, Way("factor", "free"), Way("factor", "carriage"))),
        "carriage: 0 said, 600 found",
    ),
    "a supplier without a way": (
        lambda s: replace(s, ways=_swapped(s.ways, Way("factor", "free"))),
        "ways: counter postal rewinder tyrebay yard said",
    ),
    "a journey left out": (
        lambda s: replace(s, trips=s.trips[1:]),
        "trips: to-rewinder to-tyrebay to-yard said",
    ),
    "a shared work left out": (lambda s: replace(s, shared=s.shared[1:]), "shared works: bleed"),
    "an unknown shared work": (lambda s: replace(s, shared=(*s.shared, "wash")), "shared work: wash said"),
    "an unknown trip": (lambda s: replace(s, trips=(*s.trips, "to-sea")), "trip: to-sea said"),
    "called impossible": (lambda s: replace(s, status="infeasible"), "a solution without a plan"),
}


@pytest.mark.parametrize("kind", TAMPERED)
def test_a_tampered_plan_is_refused(plan: Solution, kind: str) -> None:
    """Each kind of tampering, with the discrepancy it must name."""
    tamper, message = TAMPERED[kind]
    faults = [str(fault) for fault in audit(GREEN_ESTATE, tamper(plan))]
    assert any(fault.startswith(message) for fault in faults), faults
    with pytest.raises(AuditError):
        confirm(GREEN_ESTATE, tamper(plan))


def _with(problem: Problem, part: str, name: str, **changes: object) -> Problem:
    rows = tuple(replace(row, **changes) if row.id == name else row for row in getattr(problem, part))
    return replace(problem, **{part: rows})


def _modes(*modes: Mode) -> Problem:
    return _with(GREEN_ESTATE, "suppliers", "factor", modes=modes)


TAKES = (Take("old-unit"),)
STRICTER: dict[str, tuple[Problem, str]] = {
    "hands": (with_limits(minutes=1062), "hands: at most 10620000 said, 10630000 found"),
    "cash": (with_limits(cash=49299), "cash now: at most 49299 said, 49300 found"),
    "hands at the worst": (with_limits(worst_minutes=1074), "hands at the worst: at most 10740000"),
    "cash at the worst": (
        with_limits(worst_cash=50399),
        "cash at the worst: at most 50399 said, 50400 found",
    ),
    "days": (with_limits(days=3), "last day: at most 3 said, 4 found"),
    "suppliers": (with_limits(suppliers=5), "suppliers: at most 5 said, 6 found"),
    "forbidden option": (with_limits(without_options=(SEAT.option,)), f"{SEAT.option}: forbidden said"),
    "forbidden offer": (with_limits(without_offers=("P-strut",)), "P-strut: forbidden said, used found"),
    "forbidden supplier": (with_limits(without_suppliers=("yard",)), "yard: forbidden said, used found"),
    "banned": (with_limits(banned=(Banned("rear-lamp-right", "Y-lamp"),)), "lamp of offer Y-lamp"),
    "required option": (
        with_limits(with_options=("drivers-seat/cover",)),
        "drivers-seat/cover: required said",
    ),
    "required offer": (with_limits(with_offers=("F-struts",)), "F-struts: required said, missing found"),
    "day of a need": (_with(GREEN_ESTATE, "needs", "tailgate-struts", latest=3), "strut of offer P-strut"),
    "day of a shared work": (
        _with(GREEN_ESTATE, "shared", "coolant-out", latest=3),
        "coolant of offer P-coolant",
    ),
    "stock": (_with(GREEN_ESTATE, "offers", "P-strut", stock=1), "offer P-strut: at most 1 said, 2 found"),
    "most": (_with(GREEN_ESTATE, "offers", "P-strut", most=1), "offer P-strut: at most 1 said, 2 found"),
    "free limit": (
        _modes(Mode("carriage", 600), Mode("free", 0, 7501)),
        "supplier factor: free from 7501 said, 7500 found",
    ),
    "minimum order": (
        _modes(Mode("free", 0, minimum=7600)),
        "supplier factor: minimum order 7600 said, 7500 found",
    ),
    "weight": (
        _with(_modes(Mode("free", most_weight=1999)), "offers", "F-damper", weight=1000),
        "supplier factor: free up to 1999 g said, 2000 g found",
    ),
    "counts": (
        _with(GREEN_ESTATE, "offers", "F-damper", counts=1000),
        "supplier factor: free from 7500 said, 5720 found",
    ),
    "companion": (
        replace(GREEN_ESTATE, companions=(Companion(SEAT.option, ("radiator/corva",)),)),
        "option drivers-seat/corva-seat: with one of radiator/corva said, alone found",
    ),
    "never together": (
        replace(GREEN_ESTATE, never=(Never(SEAT.option, "tailgate-struts/pair"),)),
        "options drivers-seat/corva-seat and tailgate-struts/pair: never together said, both found",
    ),
    "pair": (
        replace(GREEN_ESTATE, pairs=(Pair(SEAT.option, "radiator/corva"),)),
        "options drivers-seat/corva-seat and radiator/corva: both or neither said, one found",
    ),
    "pool": (
        _with(
            _with(replace(GREEN_ESTATE, pools=(Pool("old-unit", 2),)), "options", SEAT.option, takes=TAKES),
            *("offers", "P-strut"),
            takes=TAKES,
        ),
        "pool old-unit: 2 said, 3 found",
    ),
    "a branch that takes too long": (
        _with(GREEN_ESTATE, "options", SEAT.option, ahead=7),
        "option drivers-seat/corva-seat: what follows a failure in time said, 1 days late found",
    ),
    "a branch that leaves no time for the goods": (
        _with(GREEN_ESTATE, "options", SEAT.option, ahead=5),
        "seatcorva of offer Y-seat-corva for drivers-seat/corva-seat: by day 1 said, day 2 found",
    ),
    "the shop's own": (_with(GREEN_ESTATE, "suppliers", "factor", own=True), "suppliers: 6 said, 5 found"),
    "price": (_with(GREEN_ESTATE, "offers", "P-strut", price=1449), "goods: 41100 said, 41098 found"),
    "surcharge": (
        _with(GREEN_ESTATE, "offers", "R-alt-xch", surcharge=3001),
        "surcharges: 5500 said, 5501 found",
    ),
    "fuel": (_with(GREEN_ESTATE, "trips", "to-yard", money=793), "trips: 2700 said, 2701 found"),
    "shared minutes": (
        _with(GREEN_ESTATE, "shared", "bleed", minutes=26),
        "hands_worth: 21260 said, 21280 found",
    ),
    "hour": (replace(GREEN_ESTATE, hour_worth=1201), "hands_worth: 21260 said"),
    "adds": (_with(GREEN_ESTATE, "options", SEAT.option, adds=5999), "adds: 12500 said, 12499 found"),
}


@pytest.mark.parametrize("kind", STRICTER)
def test_a_plan_is_held_against_its_own_books(plan: Solution, kind: str) -> None:
    """The right plan does not stand when one fact or limit is another: each is looked at."""
    problem, message = STRICTER[kind]
    faults = [str(fault) for fault in audit(problem, plan)]
    assert any(fault.startswith(message) for fault in faults), faults


def test_an_impossible_job_has_nothing_to_audit() -> None:
    """The empty solution stands, one with parts of a plan does not."""
    job = with_limits(minutes=100)
    empty = solve(job)
    assert empty.status == "infeasible"
    assert audit(job, empty) == ()
    assert audit(job, replace(empty, trips=("to-yard",))) != ()
