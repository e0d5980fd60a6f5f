"""The policy in force: the shop's values over the built-in ones, each by itself, and whose policy counts at all."""

from __future__ import annotations

import itertools
from datetime import date

import msgspec
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlore.graph.open import Graph
from fitlore.graph.policy import counting, in_force, stated
from fitlore.model.amounts import Share
from fitlore.model.choices import How, SafetyClass, State
from fitlore.model.origin import Origin
from fitlore.model.policy import ClassPolicy, ClassRules, InForce, Policy
from fitlore.model.record import Name
from fitlore.model.shop import Vat

BRAKING, NONE = SafetyClass.BRAKING, SafetyClass.NONE
BUILT_IN = Policy(
    policy=Name("built-in"),
    classes=(
        ClassPolicy(
            safety=BRAKING,
            least=(How.FITTED,),
            no_used=True,
            trap_stands=True,
            cautions=("slowly",),
            origin=Origin("kb/policy.yaml", 3, 7),
        ),
        ClassPolicy(safety=NONE, least=(How.TOLD,), trap_stands=False),
    ),
    chance={"told": Share(60), "fitted": Share(99)},
    tyre_age_years=8,
    forbidden_states=(State.OLD_STOCK,),
    deferral="The law decides.",
    vat=(Vat(country="GB", charge=Share(20), since=date(2011, 1, 4)),),
    origin=Origin("kb/policy.yaml", 1, 3),
)


def over(**said: object) -> InForce:
    """The built-in policy with a shop's policy over it that says these fields."""
    shop = Policy(policy=Name("ours"), origin=Origin("shop/policy.yaml", 1, 3), **said)  # type: ignore[arg-type]
    return Graph.from_records([BUILT_IN, shop]).policy


def rules(policy: InForce, safety: SafetyClass) -> ClassRules:
    """Those of one class."""
    return next(row for row in policy.classes if row.safety is safety)


def test_what_the_shop_leaves_out_stays_as_it_is_built_in() -> None:
    """Row by row and field by field."""
    found = over(classes=(ClassPolicy(safety=NONE, least=(How.PRINTED,)),), chance={"told": Share(40)})
    assert (found.tyre_age_years, found.deferral) == (8, "The law decides.")
    assert found.chance == {"told": Share(40), "fitted": Share(99)}
    assert rules(found, BRAKING)[:4] == (BRAKING, (How.FITTED,), 1, True)
    assert rules(found, NONE)[:2] == (NONE, (How.PRINTED,))
    assert not rules(found, NONE).trap_stands


def test_a_shop_can_set_a_value_back_to_what_it_would_be_if_nobody_said_it() -> None:
    """`no-used: no`, `trap-stands: yes`, ten years and `forbidden-states: none` are words like any other."""
    plain = (
        ClassPolicy(safety=BRAKING, no_used=False, least_pieces=1),
        ClassPolicy(safety=NONE, trap_stands=True),
    )
    found = over(classes=plain, tyre_age_years=10, forbidden_states=())
    assert not rules(found, BRAKING).no_used
    assert rules(found, BRAKING).cautions == ("slowly",)
    assert rules(found, NONE).trap_stands
    assert (found.tyre_age_years, found.forbidden_states) == (10, ())


def test_a_rate_replaces_the_one_of_its_country_and_day() -> None:
    """Another day is another row."""
    of_2011 = Vat(country="GB", charge=Share(21), since=date(2011, 1, 4))
    of_2027 = Vat(country="GB", charge=Share(22), since=date(2027, 1, 1))
    assert over(vat=(of_2011, of_2027)).vat == (of_2011, of_2027)


def test_what_nobody_says_is_the_strictest() -> None:
    """Without any policy, and in a class of which one says only something else."""
    assert Graph.from_records([]).policy == in_force([]) == InForce()
    half = in_force([Policy(policy=Name("p"), classes=(ClassPolicy(safety=BRAKING, no_used=True),))])
    row = rules(half, BRAKING)
    assert (row.least, row.least_pieces, row.by_measure_may_be_bought, row.trap_stands) == (
        (How.FITTED,),
        1,
        False,
        True,
    )


def test_a_rule_of_a_class_knows_the_row_that_says_it() -> None:
    """So that a proof can name its line."""
    row = ClassPolicy(safety=BRAKING, no_used=False, origin=Origin("shop/policy.yaml", 4, 7))
    found = rules(over(classes=(row,)), BRAKING)
    assert str(found.origins["no_used"]) == "shop/policy.yaml:4:7"
    assert str(found.origins["least"]) == "kb/policy.yaml:3:7"
    assert "least_pieces" not in found.origins


def test_somebody_elses_policy_does_not_count() -> None:
    """What a friend allows himself loosens nothing here: whether there is a cap on his shelf, or it comes behind the shop's."""
    theirs = msgspec.structs.replace(BUILT_IN, origin=Origin("friend/policy.yaml", 1, 3), tyre_age_years=30)
    ours = msgspec.structs.replace(BUILT_IN, origin=Origin("shop/policy.yaml", 1, 3), tyre_age_years=6)
    cases: tuple[tuple[tuple[str, ...], dict[str, How]], ...] = (
        (("friend", "shop"), {"friend": How.TOLD}),
        (("shop", "friend"), {}),
    )
    for shelves, trust in cases:
        graph = Graph.from_records([theirs, ours, BUILT_IN])
        graph.held = graph.held._replace(shelves=shelves, trust=trust)
        assert counting(graph) == (ours, BUILT_IN)
        assert (graph.policy.tyre_age_years, len(graph.policies)) == (6, 3)


CLASS_ROWS = st.builds(
    ClassPolicy,
    safety=st.sampled_from([BRAKING, NONE]),
    least=st.lists(st.sampled_from(How), max_size=2, unique=True).map(tuple),
    least_pieces=st.none() | st.integers(1, 3),
    no_used=st.none() | st.booleans(),
    trap_stands=st.none() | st.booleans(),
    cautions=st.lists(st.sampled_from(["a", "b"]), max_size=1).map(tuple),
)
POLICIES = st.builds(
    Policy,
    policy=st.sampled_from([Name("p"), Name("q")]),
    classes=st.lists(CLASS_ROWS, max_size=3).map(tuple),
    chance=st.dictionaries(st.sampled_from(["told", "fitted"]), st.integers(1, 99).map(Share)),
    stale_after=st.dictionaries(st.sampled_from(["dealer", "club"]), st.integers(0, 90)),
    tyre_age_years=st.none() | st.integers(1, 12),
    forbidden_states=st.none() | st.lists(st.sampled_from(State), max_size=2, unique=True).map(tuple),
    deferral=st.sampled_from(["", "somebody decides"]),
)


@given(st.lists(POLICIES, max_size=3))
@settings(max_examples=60, deadline=None)
def test_every_value_in_force_is_the_nearest_word_for_it(policies: list[Policy]) -> None:
    """The two ways to look at it agree: the finished policy, and the list of values with all who say them."""
    found = in_force(policies)
    for one in stated(policies):
        head, *rest = (key.replace("-", "_") for key in one.path)
        if head == "classes":
            value: object = getattr(rules(found, SafetyClass(rest[0])), rest[1])
        else:
            value = getattr(found, head)[one.path[1]] if rest else getattr(found, head)
        assert value == one.words[0].value
    said = {one.path for one in stated(policies)}
    for row in (row for policy in policies for row in policy.classes):
        written = {name: getattr(row, name) for name in ClassPolicy.__struct_fields__[1:] if name != "safety"}
        keys = [name for name, value in written.items() if value not in (None, ())]
        assert {("classes", row.safety.value, key.replace("_", "-")) for key in keys} <= said


@given(POLICIES, POLICIES, POLICIES)
@settings(max_examples=40, deadline=None)
def test_a_policy_that_says_nothing_new_changes_nothing(one: Policy, other: Policy, third: Policy) -> None:
    """Said twice is said once, and the farthest has no say where a nearer one has spoken of the same value."""
    assert without_origins(in_force([one, one, other])) == without_origins(in_force([one, other]))
    alone = {row.path: row.words[0].value for row in stated([one])}
    for pair in itertools.permutations([other, third]):
        together = {row.path: row.words[0].value for row in stated([one, *pair])}
        assert {path: together[path] for path in alone} == alone


def without_origins(policy: InForce) -> InForce:
    """For comparison of values alone."""
    return policy._replace(classes=tuple(row._replace(origins={}) for row in policy.classes))
