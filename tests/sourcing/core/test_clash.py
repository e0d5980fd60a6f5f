"""Why nothing is possible: the clash cannot be made smaller, and each relaxation is just enough."""

from __future__ import annotations

import msgspec
import pytest

from fitlore.sourcing.clash import Clash, Group, Relaxation, clash, groups, without
from fitlore.sourcing.problem import MINUTE, Limits, Need, Offer, Option, Pair, Problem, Supplier, Want
from fitlore.sourcing.solve import feasible, solve
from tests.sourcing.core.by_hand import cheapest
from tests.sourcing.core.green_estate import GREEN_ESTATE, with_limits
from tests.sourcing.core.small_jobs import job

replace = msgspec.structs.replace


def _clash(problem: Problem) -> Clash:
    found = clash(problem)
    assert found is not None
    return found


def _keeping(problem: Problem, members: tuple[Group, ...]) -> Problem:
    for group in groups(problem):
        if group not in members:
            problem = without(problem, group)
    return problem


def test_a_job_with_a_plan_has_no_clash() -> None:
    """Nothing to explain."""
    assert clash(GREEN_ESTATE) is None


def test_a_day_too_early_names_the_day_and_the_finding() -> None:
    """By Friday only the factor, the counter and the bay deliver: the resistor is at the breaker's, a day later."""
    found = _clash(with_limits(days=1))
    assert found.irreducible
    assert found.members[0] == Group("days")
    assert found.members[1:] in ((Group("need", "blower-resistor"),), (Group("need", "rear-lamp-right"),))
    assert found.relaxations == (Relaxation(Group("days"), 2),)
    assert found.give_up == ("blower-resistor", "rear-lamp-right")


def test_hands_and_purse_relaxations_are_just_enough() -> None:
    """The least minutes and the least cash that make it possible do so, one less does not."""
    tight = {"cash": 42000, "minutes": 700}
    found = _clash(with_limits(**tight))
    values = {row.group.kind: row.value for row in found.relaxations if row.value is not None}
    assert {"cash", "minutes"} <= set(values)
    for kind in ("cash", "minutes"):
        assert feasible(with_limits(**{**tight, kind: values[kind]}))
        assert not feasible(with_limits(**{**tight, kind: (values[kind] or 0) - 1}))


def test_minutes_are_rounded_up() -> None:
    """Expected hands of a part of a minute need the whole minute."""
    option = Option(
        "n/o", "n", minutes=1, succeeds=9000, otherwise=msgspec.convert({"minutes": 5}, type=_otherwise())
    )
    problem = Problem((Need("n"),), (option,), (), (), limits=Limits(minutes=1))
    assert _clash(problem).relaxations[0] == Relaxation(Group("minutes"), 2)
    assert solve(replace(problem, limits=Limits(minutes=2))).totals.hands == 15 * MINUTE // 10


def _otherwise() -> type:
    return type(Option("n/o", "n").otherwise)


def test_a_need_nothing_meets_clashes_by_itself() -> None:
    """A must whose part nobody sells: one member, no limit helps."""
    problem = Problem(
        (Need("a"), Need("b")), (Option("a/x", "a", wants=(Want(("x",)),)), Option("b/leave", "b")), (), ()
    )
    found = _clash(problem)
    assert found.members == (Group("need", "a"),)
    assert found.relaxations == (Relaxation(Group("need", "a")),)
    assert found.give_up == ("a",)


def test_a_pair_and_too_little_stock_clash_as_two_needs() -> None:
    """One part left for two sides that must be alike: either side can be had, not both."""
    options = tuple(Option(f"{side}/x", side, wants=(Want(("x",)),)) for side in ("left", "right"))
    problem = Problem(
        (Need("left"), Need("right")),
        options,
        (Offer("x@s", "s", 100, (), stock=1),),
        (Supplier("s"),),
    )
    bring = GREEN_ESTATE.offers[1].brings[0]
    problem = replace(problem, offers=(replace(problem.offers[0], brings=(replace(bring, item="x"),)),))
    assert _clash(problem).members == (Group("need", "left"), Group("need", "right"))
    paired = replace(problem, pairs=(Pair("left/x", "right/x"),))
    assert len(_clash(paired).members) == 1


def test_bans_are_named() -> None:
    """A forbidden supplier without whom a finding cannot be met."""
    found = _clash(with_limits(without_suppliers=("tyrebay",)))
    assert Group("without supplier", "tyrebay") in found.members
    assert Relaxation(Group("without supplier", "tyrebay")) in found.relaxations


def test_a_search_that_is_cut_off_says_so_and_still_clashes() -> None:
    """With few solves the set is larger, is not called irreducible, and cannot hold together."""
    problem = with_limits(cash=42000, minutes=700)
    short = clash(problem, most_solves=3)
    assert short is not None
    assert not short.irreducible
    assert not feasible(_keeping(problem, short.members))


IMPOSSIBLE = [seed for seed in range(200) if not feasible(job(seed))]


@pytest.mark.parametrize("seed", IMPOSSIBLE[:32])
def test_a_clash_of_a_random_job_is_one_and_cannot_be_smaller(seed: int) -> None:
    """By trying everything: the members have no plan; without any one of them there is one; relaxations hold."""
    problem = job(seed)
    found = _clash(problem)
    assert found.irreducible
    kept = _keeping(problem, found.members)
    assert cheapest(kept) is None
    for member in found.members:
        assert cheapest(without(kept, member)) is not None, member
    helpful = {row.group for row in found.relaxations}
    for group in groups(problem):
        assert (cheapest(without(problem, group)) is not None) == (group in helpful), group
    for row in found.relaxations:
        field = row.group.kind.replace(" ", "_")
        if row.value is not None and hasattr(problem.limits, field):
            enough = replace(problem, limits=replace(problem.limits, **{field: row.value}))
            less = replace(problem, limits=replace(problem.limits, **{field: row.value - 1}))
            assert cheapest(enough) is not None
            assert cheapest(less) is None
    if found.give_up is not None:
        needs = tuple(
            replace(need, must=need.must and need.id not in found.give_up) for need in problem.needs
        )
        assert cheapest(replace(problem, needs=needs)) is not None
