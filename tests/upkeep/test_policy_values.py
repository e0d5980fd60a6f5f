"""What is looser than the built-in policy: told of exactly those values with which something passes that did not before."""

from __future__ import annotations

import itertools
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlore.fitting.evidence import class_policy, weigh
from fitlore.graph.open import Graph
from fitlore.graph.policy import in_force
from fitlore.model.amounts import Share
from fitlore.model.choices import How, SafetyClass, State
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Evidence
from fitlore.model.policy import ClassPolicy, ClassRules, Policy
from fitlore.model.record import Name, Number
from fitlore.upkeep.knowing import Known
from fitlore.upkeep.policy_values import PolicyValue, as_said, policy_values

FUEL, NONE = SafetyClass.FUEL, SafetyClass.NONE


def policies(*rows: ClassPolicy, shown: str, **said: object) -> Policy:
    """A policy in a book."""
    return Policy(policy=Name("p"), classes=rows, origin=Origin(shown, 1, 3), **said)  # type: ignore[arg-type]


def values(built_in: Policy, ours: Policy) -> tuple[PolicyValue, ...]:
    """Every value in force."""
    return policy_values(Known(Graph.from_records([built_in, ours]), date(2026, 12, 3)))


def loosened(built_in: Policy, ours: Policy) -> set[str]:
    """The keys that are told to be looser."""
    return {value.path[-1] for value in values(built_in, ours) if value.looser}


RULES = st.builds(
    ClassPolicy,
    safety=st.just(FUEL),
    least=st.lists(st.sampled_from(How), min_size=1, max_size=3, unique=True).map(tuple),
    least_pieces=st.integers(1, 3),
    no_used=st.booleans(),
    no_old_stock=st.booleans(),
    by_measure_may_be_bought=st.booleans(),
    trap_stands=st.booleans(),
)
CLAIMS = [
    CrossFit(
        crossfit=Name("a"),
        instead_of=Number("A 1"),
        use=Number("B 2"),
        evidence=tuple(Evidence(how=how, by=f"person {n}") for n, how in enumerate(hows)),
    )
    for size in (1, 2, 3)
    for hows in itertools.combinations_with_replacement(How, size)
]
"""One of each sort with up to three independent pieces of evidence."""


def enough(rules: ClassRules) -> set[int]:
    """Which of the claims have evidence enough, by the fitting room's own weighing."""
    return {number for number, claim in enumerate(CLAIMS) if weigh(claim, rules, "shop").enough}


@given(RULES, RULES)
@settings(max_examples=40, deadline=None)
def test_looser_is_what_lets_something_pass_that_did_not(was: ClassPolicy, now: ClassPolicy) -> None:
    """Tried on every claim with up to three pieces of evidence, and on what a class refuses."""
    built_in, ours = policies(was, shown="kb/policy.yaml"), policies(now, shown="shop/policy.yaml")
    before, after = (class_policy(in_force(rows), FUEL) for rows in ([built_in], [ours, built_in]))
    told = loosened(built_in, ours)
    assert bool(told & {"least", "least-pieces"}) == bool(enough(after) - enough(before))
    for key, passes in (
        ("no-used", (not before.no_used, not after.no_used)),
        ("no-old-stock", (not before.no_old_stock, not after.no_old_stock)),
        ("by-measure-may-be-bought", (before.by_measure_may_be_bought, after.by_measure_may_be_bought)),
        ("trap-stands", (not before.trap_stands, not after.trap_stands)),
    ):
        assert (key in told) == (passes == (False, True))


def test_a_class_that_protects_nobody_may_be_loosened() -> None:
    """What is looser for `none` is shown like any other value, and nobody is warned."""
    built_in = policies(ClassPolicy(safety=NONE, least=(How.FITTED,)), shown="kb/policy.yaml")
    ours = policies(ClassPolicy(safety=NONE, least=(How.TOLD,)), shown="shop/policy.yaml")
    assert loosened(built_in, ours) == set()


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ({"tyre_age_years": 10}, {"tyre_age_years": 11}, {"tyre-age-years"}),
        ({"tyre_age_years": 10}, {"tyre_age_years": 6}, set()),
        ({"forbidden_states": (State.USED,)}, {"forbidden_states": ()}, {"forbidden-states"}),
        ({"forbidden_states": ()}, {"forbidden_states": (State.USED,)}, set()),
        ({"chance": {"told": Share(40)}}, {"chance": {"told": Share(90)}}, set()),
        ({"stale_after": {"club": 30}}, {"stale_after": {"club": 900}}, set()),
    ],
)
def test_values_of_every_class(was: dict[str, object], now: dict[str, object], told: set[str]) -> None:
    """Older tyres and states that were refused; what only informs is never looser."""
    assert loosened(policies(shown="kb/p.yaml", **was), policies(shown="shop/p.yaml", **now)) == told


def test_fewer_cautions_are_looser_and_other_words_are_not() -> None:
    """A caution cannot be taken away at all; of two there may be one left."""
    built_in = policies(ClassPolicy(safety=FUEL, cautions=("a", "b")), shown="kb/policy.yaml")
    for now, told in ((("c", "d"), set()), (("a",), {"cautions"})):
        ours = policies(ClassPolicy(safety=FUEL, cautions=now), shown="shop/policy.yaml")
        assert loosened(built_in, ours) == told


def test_a_value_names_what_it_goes_over() -> None:
    """The nearest word first, the built-in one last; what the shop alone says goes over nothing and is not looser."""
    built_in = policies(ClassPolicy(safety=FUEL, no_used=True), shown="kb/policy.yaml")
    ours = policies(ClassPolicy(safety=FUEL, no_used=False, least_pieces=1), shown="shop/policy.yaml")
    found = {value.path[-1]: value for value in values(built_in, ours)}
    assert (found["no-used"].now.text, [one.text for one in found["no-used"].over]) == ("no", ["yes"])
    assert found["no-used"].looser == "fuel"
    assert (found["least-pieces"].over, found["least-pieces"].looser) == ((), "")


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (True, "yes"),
        (False, "no"),
        (3, "3"),
        (Share(40), "40 %"),
        ((How.FITTED, How.TOLD), "fitted, told"),
        ((), "none"),
        ("words", "words"),
    ],
)
def test_values_are_told_as_books_write_them(value: object, text: str) -> None:
    """So that a value can be pasted."""
    assert as_said(value) == text
