"""The built-in policy: the thresholds of the safety classes, and how the categories carry them."""

from __future__ import annotations

import pytest

from fitlore.fitting.evidence import class_policy, weigh
from fitlore.model.choices import How, SafetyClass, Trade, UsedOnes
from fitlore.model.part import CrossFit, Evidence
from fitlore.model.record import Name, Number
from tests.kb.knowledge import known, policy

HARD = {
    SafetyClass.BRAKING, SafetyClass.STEERING, SafetyClass.RESTRAINT, SafetyClass.SUSPENSION, SafetyClass.WHEELS,
    SafetyClass.FUEL,
}  # fmt: skip


def claim(*hows: How) -> CrossFit:
    """A claim with one piece of evidence of each kind, from different people."""
    evidence = tuple(Evidence(how=how, by=f"person {n}") for n, how in enumerate(hows))
    return CrossFit(crossfit=Name("a"), instead_of=Number("A 1"), use=Number("B 2"), evidence=evidence)


def test_every_safety_class_has_its_rules_once() -> None:
    """No class is left to a default."""
    assert sorted(row.safety.value for row in policy().classes) == sorted(c.value for c in SafetyClass)


@pytest.mark.parametrize("safety", list(SafetyClass))
def test_hearsay_alone_reaches_no_threshold(safety: SafetyClass) -> None:
    """Told, told and told again is not enough anywhere; fitted once is enough everywhere."""
    rules = class_policy(policy(), safety)
    assert not weigh(claim(How.TOLD, How.TOLD, How.TOLD), rules, "shop").enough
    assert weigh(claim(How.TOLD, How.FITTED), rules, "shop").enough


@pytest.mark.parametrize("safety", [SafetyClass.BRAKING, SafetyClass.STEERING, SafetyClass.RESTRAINT])
def test_life_classes_need_one_that_was_fitted(safety: SafetyClass) -> None:
    """Measured, printed and offered up are not enough for brakes, steering and restraints."""
    rules = class_policy(policy(), safety)
    assert not weigh(claim(How.MEASURED, How.PRINTED, How.OFFERED_UP), rules, "shop").enough


@pytest.mark.parametrize("safety", [SafetyClass.SUSPENSION, SafetyClass.FUEL, SafetyClass.WHEELS])
def test_first_hand_classes_do_not_take_print(safety: SafetyClass) -> None:
    """Suspension, fuel and wheels take any first-hand evidence, and no printed list."""
    rules = class_policy(policy(), safety)
    assert not weigh(claim(How.PRINTED), rules, "shop").enough
    assert all(weigh(claim(how), rules, "shop").enough for how in How if how.first_hand)


def test_traps_stand_and_measures_are_not_bought_where_it_kills() -> None:
    """A trap is softened, and a part by measure bought, in the classes lighting and none only."""
    for row in policy().classes:
        assert row.trap_stands == (row.safety in HARD)
        assert row.by_measure_may_be_bought == (row.safety not in HARD)


def test_forbidden_states() -> None:
    """Used restraints, and restraints, brakes and rubber from old stock, are refused by class."""
    assert {row.safety for row in policy().classes if row.no_used} == {SafetyClass.RESTRAINT}
    old = {row.safety for row in policy().classes if row.no_old_stock}
    assert old == HARD - {SafetyClass.WHEELS}


def test_used_hydraulics_and_friction_are_refused_by_category() -> None:
    """Everything under brake hydraulics, brake linings and restraints is never used; drums and discs may be if sound."""
    leaves = known().leaves
    banned = {"brake-hydraulics", "brake-friction", "restraint-part"}
    below = [leaf for leaf in leaves if banned & set(known().interface(leaf).names)]
    assert len(below) >= 15
    assert all(known().interface(leaf).used is UsedOnes.NEVER for leaf in below)
    assert known().interface("brake-drum").used is UsedOnes.IF_SOUND


def test_chances_fall_from_fitted_to_told() -> None:
    """Each kind of evidence has its chance; hearsay is worth least and a fitted part most."""
    chance = {how: policy().chance[how.value].percent for how in How}
    assert max(chance, key=lambda how: chance[how]) is How.FITTED
    assert min(chance, key=lambda how: chance[how]) is How.TOLD
    assert all(0 < value < 100 for value in chance.values())


def test_every_kind_of_supplier_has_a_price_age() -> None:
    """A yard's price is stale sooner than an agent's."""
    days = policy().stale_after
    assert set(days) == {trade.value for trade in Trade}
    assert days["breaker"] < days["factor"] < days["dealer"]


def test_deferral_and_cautions() -> None:
    """One sentence defers to law and a qualified person; each hard class has one caution of its own, the others none."""
    assert policy().deferral == "Local law and a qualified person decide."
    assert {row.safety for row in policy().classes if row.cautions} == HARD
    assert all(len(row.cautions) <= 2 for row in policy().classes)
    assert policy().tyre_age_years == 10
